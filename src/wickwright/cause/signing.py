"""New numbers take effect when somebody has put a name and a reason to them."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from datetime import date

    from wickwright.catalogue.records import Book
    from wickwright.cause.learning import Learned

__all__ = ["UnsignedError", "signed"]


class UnsignedError(ValueError):
    """A name or a reason is missing; the message says what to do."""


def _scores(learned: Learned) -> str:
    if learned.before is None or learned.after is None:
        return "too few cases to score"
    return (
        f"{learned.before.cases} cases; log score {learned.before.log:.3f} before, "
        f"{learned.after.log:.3f} after"
    )


def signed(book: Book, learned: Learned, name: str, reason: str, today: date) -> Book:
    """Return the book with new numbers in force.

    Parameters
    ----------
    book : Book
        The book as it is; it is not changed.
    learned : Learned
        The proposal.
    name, reason : str
        Who answers for it, and why.
    today : date
        The day it is signed.

    Returns
    -------
    Book
        With the new call tables, and a row in ``about`` that says who signed what and why.

    Raises
    ------
    UnsignedError
        When name or reason is blank.
    """
    missing = [what for what, text in (("a name", name), ("a reason", reason)) if not text.strip()]
    if missing:
        msg = f"{' and '.join(missing)} must stand under new numbers: nothing was changed"
        raise UnsignedError(msg)
    key = _free(book, f"revision-{today.isoformat()}")
    about = {**book.about, key: f"{name.strip()}: {reason.strip()} ({_scores(learned)})"}
    return replace(book, calls=learned.calls, about=about)


def _free(book: Book, key: str) -> str:
    """Return a key that is not taken: the second of a day gets its number."""
    found, number = key, 1
    while found in book.about:
        number += 1
        found = f"{key}-{number}"
    return found

"""New numbers take effect when somebody has put a name and a reason to them."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from wickwright.catalogue.records import Signature
from wickwright.cause.closed import Confirmed

if TYPE_CHECKING:
    from datetime import date

    from wickwright.catalogue.records import Book
    from wickwright.cause.learning import Learned

__all__ = ["UnsignedError", "signed"]


class UnsignedError(ValueError):
    """A name or a reason is missing; the message says what to do."""


def _what(learned: Learned) -> str:
    sure = sum(count for kind, count in learned.confirmed.items() if kind is not Confirmed.NOT)
    moved = f"{len(learned.changes)} numbers learned from {sure} confirmed cases"
    if learned.before is None or learned.after is None:
        return f"{moved}; too few to score"
    return (
        f"{moved}; on {learned.before.cases} of them log score {learned.before.log:.3f} before, "
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
        With the new call tables, and a row in ``revisions`` that says who signed what and why.

    Raises
    ------
    UnsignedError
        When name or reason is blank.
    """
    missing = [what for what, text in (("a name", name), ("a reason", reason)) if not text.strip()]
    if missing:
        msg = f"{' and '.join(missing)} must stand under new numbers: nothing was changed"
        raise UnsignedError(msg)
    mark = Signature(today, name.strip(), reason.strip(), _what(learned))
    return replace(book, calls=learned.calls, revisions=(*book.revisions, mark))

"""Numbers of lamps and parts in a caller's words, and what is to be said of them."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from wickwright.catalogue.records import Status
from wickwright.catalogue.spelling import spelled
from wickwright.catalogue.succession import heir
from wickwright.fit.audit import called

if TYPE_CHECKING:
    from collections.abc import Collection

    from wickwright.catalogue.records import Book, Part

__all__ = ["numbers_in", "part_words", "parts_said"]

_NUMBER: Final = re.compile(r"\b[A-Za-z]{1,6}[\s-]?\d{2,6}\b")


def numbers_in(text: str, among: Collection[str]) -> tuple[str, ...]:
    """Return the numbers of lamps or parts that stand in a caller's words.

    Parameters
    ----------
    text : str
        As typed: ``WH-302``, ``wh 302`` or ``wh302``.
    among : collection of str
        Numbers of the fit book; looked into only where something in the words is like one.

    Returns
    -------
    tuple of str
        As the book spells them, in the order of the words.
    """
    found = (spelled(one, among) for one in _NUMBER.findall(text))
    return tuple(dict.fromkeys(one for one in found if one))


def parts_said(book: Book, text: str) -> tuple[Part, ...]:
    """Return the parts that stand in a caller's words by number."""
    return tuple(book.parts[one] for one in numbers_in(text, book.parts))


def part_words(book: Book, part: Part) -> str:
    """Say of a part that was named whether it can be had, and what replaced it.

    Parameters
    ----------
    book : Book
        Its book.
    part : Part
        That stands in a caller's words.

    Returns
    -------
    str
        One or two sentences.
    """
    if part.status is Status.MADE:
        return f"{called(part)} stands in the words; it is made."
    after = heir(book, part)
    left = f", {part.stock or 0} left" if part.status is Status.STOCKS else ""
    says = f"{called(part)} stands in the words; it is sold {part.status}{left}"
    if part.status is Status.GONE:
        says = f"{called(part)} stands in the words; it is {part.status}"
    then = f"{called(after)} replaced it" if after else "nothing replaced it"
    return f"{says}; {then}."

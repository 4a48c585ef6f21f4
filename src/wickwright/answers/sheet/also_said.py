"""What a caller's words want besides what was chosen, so that nothing of a call is lost."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickwright.answers.said.what_is_meant import CallFor, what_is_meant
from wickwright.answers.said.words_said import clauses_of

if TYPE_CHECKING:
    from wickwright.answers.said.what_is_meant import Wanted
    from wickwright.answers.sheet.call_record import Said
    from wickwright.catalogue.records import Book

__all__ = ["Also", "also_said", "said_next"]

_PLAIN: Final = 0.55
"""Likeness from which a clause plainly wants something [-]."""


@dataclass(frozen=True, slots=True)
class Also:
    """Something that was said and is not dealt with.

    Attributes
    ----------
    wanted : Wanted
        What it most likely means.
    clause : str
        In the caller's words.
    """

    wanted: Wanted
    clause: str


def also_said(book: Book, said: Said) -> tuple[Also, ...]:
    """Return what a caller's words want besides what was chosen.

    Parameters
    ----------
    book : Book
        The fit book.
    said : Said
        A sheet on which something is chosen.

    Returns
    -------
    tuple of Also
        In the order of the words; empty where nothing is chosen yet. What a call of its own was
        begun for stands in the note and is left out.
    """
    chosen = {said.wish, said.complaint} - {""}
    found: dict[str, Also] = {}
    for clause in clauses_of(said.words) if chosen else ():
        near = [one for one in what_is_meant(book, clause) if one.likeness >= _PLAIN]
        if near and not chosen & {one.key for one in near} and clause not in said.note:
            found.setdefault(near[0].key, Also(near[0], clause))
    return tuple(found.values())


def said_next(book: Book, said: Said, also: Also, number: int) -> Said:
    """Return the sheet of a call of its own for something that was also said.

    Parameters
    ----------
    book : Book
        The fit book.
    said : Said
        Of the call it was said in.
    also : Also
        What was said.
    number : int
        Of that call [-].

    Returns
    -------
    Said
        The same lamp at the same place; what the first call makes good is not lost any more.
    """
    first = book.wishes.get(said.wish)
    renewed = {ask.kind for ask in first.asks if ask.ask == "renew"} if first else set()
    lost = tuple(one for one in said.lost if one not in renewed)
    wish = also.wanted.sort is CallFor.WISH
    return type(said)(
        words=also.clause,
        wish=also.wanted.key if wish else "",
        complaint="" if wish else also.wanted.key,
        place=said.place,
        elevation=said.elevation,
        lamp=said.lamp,
        heard=said.heard,
        have=said.have,
        lost=lost,
        bare=said.bare,
        looked_over=said.looked_over,
        count=said.count,
        note=f"Also said in call {number}.",
    )

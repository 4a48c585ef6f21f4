"""A caller's own words beside the wishes and complaints of the book: offered, never taken."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, Final

from wickwright.answers.said.numbers_said import parts_said
from wickwright.answers.said.words_said import clauses_of
from wickwright.catalogue.phrases import likeness
from wickwright.cause.words import complaints_meant

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from wickwright.catalogue.records import Book, Wish

__all__ = ["CallFor", "Wanted", "what_is_meant"]

_LEAST: Final = 0.3


class CallFor(StrEnum):
    """What a caller can be after."""

    WISH = "wish"
    COMPLAINT = "complaint"


@dataclass(frozen=True, slots=True)
class Wanted:
    """Something a caller may mean.

    Attributes
    ----------
    sort : CallFor
        Something wished for, or something wrong.
    key : str
        Of the wish or the complaint.
    title : str
        In words.
    likeness : float
        How well the caller's words go with it, 0 to 1 [-].
    """

    sort: CallFor
    key: str
    title: str
    likeness: float


def what_is_meant(book: Book, text: str, most: int = 6) -> tuple[Wanted, ...]:
    """Return what a caller's words may mean.

    Parameters
    ----------
    book : Book
        The fit book.
    text : str
        What the caller said.
    most : int
        How many to return [-].

    Returns
    -------
    tuple of Wanted
        Best first; empty where nothing is near. Whoever asks shows them and lets a person
        choose.
    """
    told = dict.fromkeys((text, *clauses_of(text)))
    complaints = _nearest(
        Wanted(CallFor.COMPLAINT, one.complaint.id, one.complaint.says, one.likeness)
        for part in told
        for one in complaints_meant(book.calls, part)
    )
    wishes = (
        Wanted(CallFor.WISH, one.id, one.title, max(likeness(part, _phrases(one)) for part in told))
        for one in book.wishes.values()
    )
    named = tuple(_for_parts_named(book, text))
    rest = (one for one in (*wishes, *complaints) if one.key not in {it.key for it in named})
    found = [one for one in rest if one.likeness >= _LEAST]
    return (*named, *sorted(found, key=lambda one: -round(one.likeness, 9)))[:most]


def _nearest(found: Iterable[Wanted]) -> tuple[Wanted, ...]:
    """Return each thing once, as the part of the words says it that goes best with it."""
    best: dict[str, Wanted] = {}
    for one in found:
        if one.key not in best or one.likeness > best[one.key].likeness:
            best[one.key] = one
    return tuple(best.values())


def _for_parts_named(book: Book, text: str) -> Iterator[Wanted]:
    """Yield the wish for a new one of each part whose number stands in the words."""
    for part in parts_said(book, text):
        for wish in book.wishes.values():
            if [(ask.ask, ask.kind) for ask in wish.asks] == [("renew", part.kind)]:
                yield Wanted(CallFor.WISH, wish.id, f"{wish.title} ({part.id} was named)", 1.0)


def _phrases(wish: Wish) -> Iterable[str]:
    yield wish.title
    yield wish.id.replace("-", " ")
    yield from wish.words

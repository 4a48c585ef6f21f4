"""A caller's own words beside the wishes and complaints of the book: offered, never taken."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, Final

from wickwright.catalogue.phrases import likeness
from wickwright.cause.words import complaints_meant

if TYPE_CHECKING:
    from collections.abc import Iterable

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
    complaints = (
        Wanted(CallFor.COMPLAINT, one.complaint.id, one.complaint.says, one.likeness)
        for one in complaints_meant(book.calls, text)
    )
    wishes = (
        Wanted(CallFor.WISH, one.id, one.title, likeness(text, _phrases(one)))
        for one in book.wishes.values()
    )
    found = [one for one in (*wishes, *complaints) if one.likeness >= _LEAST]
    return tuple(sorted(found, key=lambda one: -round(one.likeness, 9))[:most])


def _phrases(wish: Wish) -> Iterable[str]:
    yield wish.title
    yield wish.id.replace("-", " ")
    yield from wish.words

"""Lamps and parts found by number or by words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.catalogue.records import Lamp
from wickwright.catalogue.spelling import spelled

if TYPE_CHECKING:
    from wickwright.catalogue.records import Book, Part

__all__ = ["look_up"]


def look_up(book: Book, text: str, most: int = 50) -> tuple[Lamp | Part, ...]:
    """Find lamps and parts.

    Parameters
    ----------
    book : Book
        The fit book.
    text : str
        A number or the beginning of one, or words of a name, kind, family or note; capitals and
        kinds of dash disregarded.
    most : int
        Found at most [-].

    Returns
    -------
    tuple of Lamp or Part
        The one of that very number first, then numbers that begin so, then names that hold every
        word, then whatever else holds every word; among equals lamps first, by number.
    """
    words = text.casefold().split()
    if not words:
        return ()
    records: dict[str, Lamp | Part] = {**book.lamps, **book.parts}
    exact = spelled(text.strip(), records)
    ranked: list[tuple[int, bool, str, Lamp | Part]] = []
    for one in records.values():
        rank = 0 if one.id == exact else _rank(book, one, words)
        if rank is not None:
            ranked.append((rank, not isinstance(one, Lamp), one.id, one))
    ranked.sort(key=lambda found: found[:3])
    return tuple(found[3] for found in ranked[:most])


def _rank(book: Book, one: Lamp | Part, words: list[str]) -> int | None:
    """Return how near a record is, 1 the nearest; None where it lacks a word."""
    number, name = one.id.casefold(), one.name.casefold()
    if len(words) == 1 and number.startswith(words[0]):
        return 1
    if all(word in name for word in words):
        return 2
    more = " ".join((number, name, *_more(book, one))).casefold()
    return 3 if all(word in more for word in words) else None


def _more(book: Book, one: Lamp | Part) -> tuple[str, ...]:
    if isinstance(one, Lamp):
        return (book.families[one.family].name, one.form, one.service, one.note)
    return (one.kind, one.material, one.style, one.note)

"""Lamps and parts found by number or by words."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wickwright.catalogue.records import Lamp
from wickwright.catalogue.spelling import spelled

if TYPE_CHECKING:
    from wickwright.catalogue.records import Book, Part

__all__ = ["BookIndex"]


class _Entry(NamedTuple):
    """A lamp or part, and the texts it is found by: its number, its name, all that is said."""

    number: str
    name: str
    text: str
    record: Lamp | Part


class BookIndex:
    """The lamps and parts of a fit book, laid out once for looking up.

    Parameters
    ----------
    book : Book
        The fit book.
    """

    def __init__(self, book: Book) -> None:
        self._records: dict[str, Lamp | Part] = {**book.lamps, **book.parts}
        ordered = (*sorted(book.lamps), *sorted(book.parts))
        self._entries = [_entry(book, self._records[one]) for one in ordered]

    def find(self, text: str, most: int = 50) -> tuple[Lamp | Part, ...]:
        """Find lamps and parts.

        Parameters
        ----------
        text : str
            A number or the beginning of one, or words of a name, kind, family or note; capitals
            and kinds of dash disregarded.
        most : int
            Found at most [-].

        Returns
        -------
        tuple of Lamp or Part
            The one of that very number first, then numbers that begin so, then names that hold
            every word, then whatever else holds every word; among equals lamps first, by number.
        """
        words = text.casefold().split()
        if not words:
            return ()
        exact = spelled(text.strip(), self._records)
        found = self._entries
        for word in words:
            found = [entry for entry in found if word in entry.text]
        ranks: tuple[list[Lamp | Part], ...] = ([], [], [], [])
        if exact:
            ranks[0].append(self._records[exact])
        for entry in found:
            if entry.record.id != exact:
                ranks[_rank(entry, words)].append(entry.record)
        return tuple(record for rank in ranks for record in rank)[:most]


def _rank(entry: _Entry, words: list[str]) -> int:
    """Return how near an entry is that holds every word, 1 the nearest."""
    if len(words) == 1 and entry.number.startswith(words[0]):
        return 1
    return 2 if all(word in entry.name for word in words) else 3


def _entry(book: Book, one: Lamp | Part) -> _Entry:
    text = " ".join((one.id, one.name, *_more(book, one))).casefold()
    return _Entry(one.id.casefold(), one.name.casefold(), text, one)


def _more(book: Book, one: Lamp | Part) -> tuple[str, ...]:
    if isinstance(one, Lamp):
        return (book.families[one.family].name, one.form, one.service, one.note)
    return (one.kind, one.material, one.style, one.note)

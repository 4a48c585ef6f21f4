"""What a lamp or a part is known by, the most telling look first."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wickwright.catalogue.call_records import Often, Way
from wickwright.catalogue.cells import parse_length

if TYPE_CHECKING:
    from wickwright.catalogue.call_records import Look, Mark
    from wickwright.catalogue.records import Book, Lamp, Part

__all__ = ["Told", "marks_of_lamp", "marks_of_part", "seen"]

_ERRORS = 2.0
"""Two lengths no further apart than so many standard errors look the same to a caller."""


class Told(NamedTuple):
    """One mark of a lamp: its look, and how many other lamps show the same."""

    mark: Mark
    look: Look
    others: int


def _same(look: Look, one: str, other: str) -> bool:
    """Whether two values look the same to a caller."""
    if one == other or look.way is not Way.MEASURE:
        return one == other
    apart = abs(parse_length(one).nominal - parse_length(other).nominal)
    return apart <= _ERRORS * look.error


def _by_look(book: Book) -> dict[str, dict[str, Mark]]:
    """Return the mark of each part by look."""
    found: dict[str, dict[str, Mark]] = {look: {} for look in book.calls.looks}
    for mark in book.calls.marks:
        found[mark.look][mark.part] = mark
    return found


def marks_of_lamp(book: Book, lamp: Lamp) -> tuple[Told, ...]:
    """Return what a lamp is known by as sold, what the fewest other lamps show first.

    Parameters
    ----------
    book : Book
        The fit book.
    lamp : Lamp
        One of its lamps.

    Returns
    -------
    tuple of Told
        One for each mark of its parts; among equals the quickest look first.
    """
    found = []
    for key, marks in _by_look(book).items():
        look = book.calls.looks[key]
        for part in lamp.as_sold:
            if part in marks:
                others = sum(
                    _shows(marks, other, look, marks[part].value)
                    for other in book.lamps.values()
                    if other is not lamp
                )
                found.append(Told(marks[part], look, others))
    return tuple(sorted(found, key=lambda one: (one.others, one.look.minutes)))


def _shows(marks: dict[str, Mark], lamp: Lamp, look: Look, value: str) -> bool:
    return any(_same(look, marks[part].value, value) for part in lamp.as_sold if part in marks)


def seen(mark: Mark) -> str:
    """Say what a look shows, and what callers take it for.

    Parameters
    ----------
    mark : Mark
        Of a part.

    Returns
    -------
    str
        Such as ``'a P (taken for: a D)'``.
    """
    if not mark.confused_with:
        return mark.value
    often = "" if mark.confused is Often.SOMETIMES else f"{mark.confused} "
    return f"{mark.value} ({often}taken for: {mark.confused_with})"


def marks_of_part(book: Book, part: Part) -> tuple[tuple[str, str], ...]:
    """Return what a part is known by.

    Parameters
    ----------
    book : Book
        The fit book.
    part : Part
        One of its parts.

    Returns
    -------
    tuple of (str, str)
        What is asked, and what is seen.
    """
    looks = book.calls.looks
    own = (mark for mark in book.calls.marks if mark.part == part.id)
    return tuple((looks[mark.look].question, seen(mark)) for mark in own)

"""What a lamp or a part is known by, the most telling look first."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wickwright.catalogue.call_records import Often, Way
from wickwright.catalogue.cells import parse_length
from wickwright.cli.layout import paragraph, table

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from wickwright.catalogue.call_records import Look, Mark
    from wickwright.catalogue.records import Book, Lamp, Part

__all__ = ["Told", "lamp_marks", "mark_lines", "part_mark_lines", "told"]

_MOST = 12
"""Looks named for a lamp; the rest are counted."""

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


def told(book: Book, lamp: Lamp) -> tuple[Told, ...]:
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


def lamp_marks(book: Book, lamp: Lamp, width: int) -> list[str]:
    """Lay out what a lamp is known by."""
    marks = told(book, lamp)
    if not marks:
        return []
    rows = [
        (one.look.question, _seen(one.mark), f"{one.others or 'no'} other{'s' * (one.others != 1)}")
        for one in marks[:_MOST]
    ]
    lines = ["", "How to know it, with the lamp cold, and how many other lamps look the same"]
    lines += table(rows, width, wrapped=(0, 1))
    if len(marks) > _MOST:
        more = f"and {len(marks) - _MOST} looks more: see its parts"
        lines += paragraph(more, width, "  ")
    return lines


def _seen(mark: Mark) -> str:
    """Say what a look shows, and what callers take it for."""
    if not mark.confused_with:
        return mark.value
    often = "" if mark.confused is Often.SOMETIMES else f"{mark.confused} "
    return f"{mark.value} ({often}taken for: {mark.confused_with})"


def mark_lines(looks: dict[str, Look], marks: Iterable[Mark], width: int) -> list[str]:
    """Lay marks out: what is asked, and what is seen."""
    rows = [(looks[mark.look].question, _seen(mark)) for mark in marks]
    return table(rows, width, wrapped=(0, 1))


def part_mark_lines(book: Book, part: Part, width: int) -> Iterator[str]:
    """Yield what a part is known by."""
    marks = [mark for mark in book.calls.marks if mark.part == part.id]
    if marks:
        yield from ("", "How to know it, with the lamp cold")
        yield from mark_lines({**book.calls.looks}, marks, width)

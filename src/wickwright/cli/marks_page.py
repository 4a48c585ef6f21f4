"""What a lamp or a part is known by, the most telling look first."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.answers.book.marks import marks_of_lamp, marks_of_part, seen
from wickwright.cli.layout import paragraph, table

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickwright.catalogue.records import Book, Lamp, Part

__all__ = ["lamp_marks", "part_mark_lines"]

_MOST = 12
"""Looks named for a lamp; the rest are counted."""


def lamp_marks(book: Book, lamp: Lamp, width: int) -> list[str]:
    """Lay out what a lamp is known by."""
    marks = marks_of_lamp(book, lamp)
    if not marks:
        return []
    rows = [
        (one.look.question, seen(one.mark), f"{one.others or 'no'} other{'s' * (one.others != 1)}")
        for one in marks[:_MOST]
    ]
    lines = ["", "How to know it, with the lamp cold, and how many other lamps look the same"]
    lines += table(rows, width, wrapped=(0, 1))
    if len(marks) > _MOST:
        more = f"and {len(marks) - _MOST} looks more: see its parts"
        lines += paragraph(more, width, "  ")
    return lines


def part_mark_lines(book: Book, part: Part, width: int) -> Iterator[str]:
    """Yield what a part is known by."""
    marks = marks_of_part(book, part)
    if marks:
        yield from ("", "How to know it, with the lamp cold")
        yield from table(marks, width, wrapped=(0, 1))

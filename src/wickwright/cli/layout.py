"""Plain text laid out for the width of the terminal. Nothing here knows of lamps."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

__all__ = ["MOST", "WIDE", "bullet", "heading", "page_width", "paragraph", "right", "table"]

MOST = 120
"""Lines longer than this are hard to read on any screen."""

WIDE = 110
"""From this width on, a reason stands beside its part and not below it."""

_LEAST = 40
_GAP = "  "


def page_width(columns: int) -> int:
    """Return the width to lay out for, given that of the terminal."""
    return max(_LEAST, min(columns, MOST))


def paragraph(text: str, width: int, indent: str = "", hang: str | None = None) -> list[str]:
    """Break a text into lines; those after the first begin with ``hang``."""
    from textwrap import wrap  # noqa: PLC0415 - not needed for --help

    return wrap(
        text,
        width,
        initial_indent=indent,
        subsequent_indent=indent if hang is None else hang,
        break_long_words=False,
        break_on_hyphens=False,
    )


def bullet(text: str, width: int, indent: str = "  ") -> list[str]:
    """Break a text into lines behind a dash."""
    return paragraph(text, width, f"{indent}- ", f"{indent}  ")


def heading(text: str, end: str = "", width: int = 0) -> str:
    """Return a heading with something at the right edge."""
    return right(text, end, width) if end else text


def right(text: str, end: str, width: int) -> str:
    """Return a line with something at the right edge."""
    return f"{text}{' ' * max(2, width - len(text) - len(end))}{end}"


def table(
    rows: Sequence[Sequence[str]],
    width: int,
    *,
    indent: str = "  ",
    rights: Sequence[int] = (),
    wrapped: Sequence[int] = (),
) -> list[str]:
    """Lay cells out in columns.

    Parameters
    ----------
    rows : sequence of sequence of str
        Cells; every row has as many.
    width : int
        Of the page.
    indent : str
        Before each line.
    rights : sequence of int
        Columns whose cells stand at the right.
    wrapped : sequence of int
        Columns that are made narrower where the page is, the widest first.

    Returns
    -------
    list of str
        Lines without blanks at their end.
    """
    if not rows:
        return []
    widths = [max(len(cell) for cell in cells) for cells in zip(*rows, strict=True)]
    room = width - len(indent) - len(_GAP) * (len(widths) - 1)
    _narrow(widths, room, wrapped)
    return [line for row in rows for line in _lines(row, widths, indent, rights)]


def _narrow(widths: list[int], room: int, wrapped: Sequence[int]) -> None:
    """Take room from the widest column that may be wrapped until all fit."""
    while sum(widths) > room and wrapped:
        widest = max(wrapped, key=lambda at: widths[at])
        others = [widths[at] for at in wrapped if at != widest]
        fall = max(min(sum(widths) - room, widths[widest] - max(others, default=0)), 1)
        if widths[widest] - fall < _LEAST // 4:
            return
        widths[widest] -= fall


def _lines(
    row: Sequence[str], widths: Sequence[int], indent: str, rights: Sequence[int]
) -> Iterator[str]:
    cells = [paragraph(cell, max(size, 1)) or [""] for cell, size in zip(row, widths, strict=True)]
    for at in range(max(map(len, cells))):
        texts = [cell[at] if at < len(cell) else "" for cell in cells]
        yield (indent + _GAP.join(_padded(texts, widths, rights))).rstrip()


def _padded(texts: Sequence[str], widths: Sequence[int], rights: Sequence[int]) -> Iterator[str]:
    for at, (text, size) in enumerate(zip(texts, widths, strict=True)):
        yield text.rjust(size) if at in rights else text.ljust(size)

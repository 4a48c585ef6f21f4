"""Lists of what is in a book, and what changed between two."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.answers.plain.answers import plain_money
from wickwright.catalogue.compare import Did
from wickwright.catalogue.records import KINDS
from wickwright.cli.call_lists import CALL_LISTS, RIGHTS, WRAPPED
from wickwright.cli.layout import bullet, paragraph, table
from wickwright.cli.words import availability, listed

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickwright.catalogue.compare import Change
    from wickwright.catalogue.faults import RawTable
    from wickwright.catalogue.records import Book

__all__ = ["change_lines", "list_lines", "rows_of", "table_lines"]

Row = dict[str, str]


def rows_of(book: Book, what: str, kind: str = "") -> list[Row]:
    """Return one row for each lamp, part, wish, cause and so on; all rows have the same keys."""
    if what in CALL_LISTS:
        return [*CALL_LISTS[what](book, kind)]
    match what:
        case "lamps":
            return [*_lamps(book)]
        case "parts":
            return [*_parts(book, kind)]
        case "wishes":
            return [
                {"wish": one.id, "title": one.title, "asks": "; ".join(a.says for a in one.asks)}
                for one in book.wishes.values()
            ]
        case "kinds":
            return [*_kinds(book)]
        case _:
            return [*_families(book)]


def _lamps(book: Book) -> Iterator[Row]:
    for lamp in book.lamps.values():
        yield {
            "lamp": lamp.id,
            "name": lamp.name,
            "family": book.families[lamp.family].name,
            "years": f"{lamp.first or '?'} to {lamp.last or 'now'}",
            "service": str(lamp.service),
        }


def _parts(book: Book, kind: str) -> Iterator[Row]:
    for part in book.parts.values():
        if not kind or part.kind == kind:
            yield {
                "part": part.id,
                "name": part.name,
                "kind": part.kind,
                "price": plain_money(part.price) or "",
                "status": availability(part),
            }


def _families(book: Book) -> Iterator[Row]:
    for family in book.families.values():
        lamps = sum(lamp.family == family.id for lamp in book.lamps.values())
        yield {
            "family": family.id,
            "name": family.name,
            "lamps": str(lamps),
            "note": family.note,
        }


def _kinds(book: Book) -> Iterator[Row]:
    for kind, note in KINDS.items():
        parts = sum(part.kind == kind for part in book.parts.values())
        yield {"kind": kind, "parts": str(parts), "what it is": note}


_RIGHTS = {**RIGHTS, "parts": (3,), "families": (2,), "kinds": (1,)}
_WRAPPED = {
    **WRAPPED,
    "lamps": (1, 2),
    "parts": (1, 4),
    "wishes": (1, 2),
    "families": (1, 3),
    "kinds": (2,),
}


def list_lines(rows: Sequence[Row], what: str, width: int) -> list[str]:
    """Lay a list out under its headings."""
    if not rows:
        return [f"The book has no such {what}."]
    cells = [tuple(rows[0]), *(tuple(row.values()) for row in rows)]
    return table(
        cells, width, indent="", rights=_RIGHTS.get(what, ()), wrapped=_WRAPPED.get(what, ())
    )


def table_lines(raw: RawTable, width: int) -> list[str]:
    """Print a table row by row: its first cell, then each filled cell with its column."""
    lines = [f"{raw.name} ({len(raw.rows):,})", "-" * min(width, 40)]
    for _, cells in raw.rows:
        first, *rest = zip(raw.header, cells, strict=True)
        said = ", ".join(f"{name} {cell}" for name, cell in rest if cell)
        lines += paragraph(f"{first[1]}  {said}", width, hang="    ")
    return lines


def change_lines(changes: Sequence[Change], width: int) -> list[str]:
    """Lay changes out by table: what was dropped, changed and added."""
    lines: list[str] = []
    table_before = ""
    for change in changes:
        if change.table != table_before:
            lines += [*([""] if lines else []), f"{change.table}"]
            table_before = change.table
        lines += _change_lines(change, width)
    counts = [f"{sum(one.did is did for one in changes):,} {did}" for did in Did]
    return [*lines, "", f"{listed(counts)}."]


def _change_lines(change: Change, width: int) -> list[str]:
    name = " ".join(change.key)
    if change.did is Did.CHANGED:
        lines = [f"  {name}"]
        for cell in change.cells:
            old, new = cell.old or "blank", cell.new or "blank"
            lines += bullet(f"{cell.column}: {old} -> {new}", width, "    ")
        return lines
    said = ", ".join(f"{cell.column} {cell.old or cell.new}" for cell in change.cells)
    return paragraph(f"{name} {change.did}: {said}", width, "  ", "      ")

"""What changed from one edition of a fit book to the next."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from wickwright.catalogue.links import IDENTITIES
from wickwright.catalogue.writing import book_tables

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickwright.catalogue.faults import RawTable
    from wickwright.catalogue.records import Book

__all__ = ["CellChange", "Change", "Did", "compare_books"]


class Did(StrEnum):
    """What happened to a row."""

    ADDED = "added"
    DROPPED = "dropped"
    CHANGED = "changed"


@dataclass(frozen=True, slots=True)
class CellChange:
    """One column of a row that changed.

    Attributes
    ----------
    column : str
        Its name.
    old, new : str
        The cell before and after; blank where there was or is nothing.
    """

    column: str
    old: str
    new: str


@dataclass(frozen=True, slots=True)
class Change:
    """One row that was added, dropped or changed.

    Attributes
    ----------
    table : str
        The table.
    key : tuple of str
        What tells the row from the others, such as part and port.
    did : Did
        What happened to it.
    cells : tuple of CellChange
        The columns that differ; of a row added or dropped, those that are filled.
    """

    table: str
    key: tuple[str, ...]
    did: Did
    cells: tuple[CellChange, ...]


_KEYS = {
    **IDENTITIES,
    "wishes": ("wish", "ask", "kind", "field"),
    "revisions": ("date", "name", "reason"),
}

Cells = dict[str, str]
Rows = dict[tuple[str, ...], Cells]


def _keyed(table: RawTable) -> Rows:
    """Return the rows of a table by key; a key that comes again gets its count behind it."""
    names = _KEYS[table.name]
    rows: Rows = {}
    times: Counter[tuple[str, ...]] = Counter()
    for _, cells in table.rows:
        row = dict(zip(table.header, cells, strict=True))
        key = tuple(row[name] for name in names)
        times[key] += 1
        if table.name == "wishes" and row["title"]:
            rows[(row["wish"],)] = {"title": row.pop("title")}
        rows[key if times[key] == 1 else (*key, str(times[key]))] = row
    return rows


def _cells(old: Cells, new: Cells) -> tuple[CellChange, ...]:
    pairs = ((name, old.get(name, ""), new.get(name, "")) for name in {**old, **new})
    return tuple(CellChange(name, one, two) for name, one, two in pairs if one != two)


def _changes(table: str, old: Rows, new: Rows) -> Iterator[Change]:
    for key, row in old.items():
        if key not in new:
            yield Change(table, key, Did.DROPPED, _cells(row, {}))
        elif cells := _cells(row, new[key]):
            yield Change(table, key, Did.CHANGED, cells)
    for key, row in new.items():
        if key not in old:
            yield Change(table, key, Did.ADDED, _cells({}, row))


def compare_books(old: Book, new: Book) -> tuple[Change, ...]:
    """Return what changed between two books, row by row.

    Parameters
    ----------
    old, new : Book
        Two editions.

    Returns
    -------
    tuple of Change
        By table: first what was dropped or changed in the old order, then what was added in
        the new one. Rows that only moved are not named. The title of a wish is a row of its
        own, since it stands for all its rows.
    """
    pairs = zip(book_tables(old), book_tables(new), strict=True)
    return tuple(
        change for one, two in pairs for change in _changes(one.name, _keyed(one), _keyed(two))
    )

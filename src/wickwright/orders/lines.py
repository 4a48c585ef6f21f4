"""Order lines as they were written, and orders made of them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.catalogue.faults import Fault, RawTable
from wickwright.catalogue.spelling import meant

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

__all__ = ["COLUMNS", "Line", "Order", "read_orders"]

COLUMNS: dict[str, str] = {
    "order": "number of the order; rows with the same number belong together",
    "lamp": "model the parts are for; blank when the caller did not say",
    "place": "elevation such as 1700 m or 5200 ft; blank is sea level",
    "part": "part number",
    "quantity": "how many; blank is 1",
}
"""Columns of an order file."""

_MUST = ("order", "part")


@dataclass(frozen=True, slots=True)
class Line:
    """One line of an order, as written."""

    row: int
    part: str
    quantity: str


@dataclass(frozen=True, slots=True)
class Order:
    """One order for one lamp in one place.

    Attributes
    ----------
    id : str
        Its number.
    lamp, place : str
        As written; may be blank.
    lines : tuple of Line
        At least one.
    """

    id: str
    lamp: str
    place: str
    lines: tuple[Line, ...]

    @property
    def row(self) -> int:
        """Row of its first line."""
        return self.lines[0].row


def read_orders(table: RawTable) -> tuple[Order, ...] | tuple[Fault, ...]:
    """Make orders of a table.

    Parameters
    ----------
    table : RawTable
        With the columns of :data:`COLUMNS`, in any order; others are passed over.

    Returns
    -------
    tuple of Order or tuple of Fault
        Orders in the order of their first rows; a line for another lamp or place under the
        same number is an order of its own. Faults when columns or order numbers are missing.
    """
    header = [name.strip().lower() for name in table.header]
    faults = [*_column_faults(table.name, header)]
    if not faults:
        at = {name: header.index(name) for name in COLUMNS if name in header}
        faults = [*_row_faults(table, at)]
        if not faults:
            return tuple(_orders(table, at))
    return tuple(faults)


def _column_faults(name: str, header: list[str]) -> Iterator[Fault]:
    for column in _MUST:
        if column not in header:
            cure = f"{meant(column, header)}add a column '{column}': {COLUMNS[column]}"
            yield Fault(name, 1, column, f"there is no column '{column}'", cure)
    orders = all(column in header for column in _MUST)
    strange = [one for one in header if one and one not in COLUMNS] if orders else []
    for column, note in COLUMNS.items():
        if strange and column not in header and column not in _MUST:
            cure = (
                f"{meant(column, strange)}rename the column meant, or add an empty column "
                f"'{column}': {note}"
            )
            what = f"there is no column '{column}', but there are columns we do not know"
            yield Fault(name, 1, column, f"{what}: {', '.join(strange)}", cure)
        if header.count(column) > 1:
            what = f"the column '{column}' is there {header.count(column)} times"
            yield Fault(name, 1, column, what, "keep one and rename or drop the others")


def _cell(cells: tuple[str, ...], at: Mapping[str, int], column: str) -> str:
    place = at.get(column)
    return cells[place].strip() if place is not None and place < len(cells) else ""


def _row_faults(table: RawTable, at: Mapping[str, int]) -> Iterator[Fault]:
    for row, cells in table.rows:
        if any(cell.strip() for cell in cells):
            for column in _MUST:
                if not _cell(cells, at, column):
                    cure = f"write the {COLUMNS[column].split(';')[0]}"
                    yield Fault(table.name, row, column, f"the {column} is blank", cure)


def _orders(table: RawTable, at: Mapping[str, int]) -> Iterator[Order]:
    grouped: dict[tuple[str, str, str], list[Line]] = {}
    for row, cells in table.rows:
        if any(cell.strip() for cell in cells):
            key = (_cell(cells, at, "order"), _cell(cells, at, "lamp"), _cell(cells, at, "place"))
            line = Line(row, _cell(cells, at, "part"), _cell(cells, at, "quantity"))
            grouped.setdefault(key, []).append(line)
    for (order, lamp, place), lines in grouped.items():
        yield Order(order, lamp, place, tuple(lines))

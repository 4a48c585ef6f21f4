"""A file of orders: its columns, and what is read from it."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from wickwright.catalogue.faults import Fault
from wickwright.catalogue.spelling import meant
from wickwright.orders.grouping import orders_of
from wickwright.orders.rows import rows_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickwright.catalogue.faults import RawTable
    from wickwright.orders.lines import Order

__all__ = ["COLUMNS", "read_orders"]

COLUMNS: dict[str, str] = {
    "order": "number of the order; rows with the same number belong together",
    "lamp": "model the parts are for; blank on all rows when the caller did not say",
    "place": "elevation such as 1700 m or 5200 ft; blank on all rows is sea level",
    "part": "part number",
    "quantity": "how many; blank is 1",
}
"""Columns of an order file."""

_MUST = ("order", "part")


_PLACE = re.compile(r"place\s*[(\[]\s*(?P<unit>m|ft)\s*[)\]]")
"""A head that gives the unit of every place below it."""


def read_orders(table: RawTable) -> tuple[Order, ...] | tuple[Fault, ...]:
    """Make orders of a table.

    Parameters
    ----------
    table : RawTable
        With the columns of :data:`COLUMNS`, in any order; others are passed over. A column
        headed ``place (m)`` or ``place (ft)`` holds places, numbers without a unit too.

    Returns
    -------
    tuple of Order or tuple of Fault
        Orders in the order of their first rows, as :func:`orders_of` makes them; what is
        wrong in a row goes with its order. Faults when columns are missing or not known.
    """
    header = [name.strip().lower() for name in table.header]
    units = [found for name in header if (found := _PLACE.fullmatch(name))]
    header = ["place" if _PLACE.fullmatch(name) else name for name in header]
    faults = (*_above_the_header(table, header),) or (*_column_faults(table.name, header),)
    if faults:
        return faults
    if not table.rows:
        cure = "there is nothing to check: export the orders again"
        return (Fault(table.name, 0, "", "there is no row below the header", cure),)
    at = {name: header.index(name) for name in COLUMNS if name in header}
    return tuple(orders_of(rows_of(table, at, units[0]["unit"] if units else "")))


_LOOKED_AT = 20
"""Rows among which a header that does not stand on the first row is looked for."""


def _above_the_header(table: RawTable, header: list[str]) -> Iterator[Fault]:
    """Tell a title above the header from a header without our columns."""
    if any(column in header for column in _MUST):
        return
    for row, cells in table.rows[:_LOOKED_AT]:
        if {*_MUST} <= {cell.strip().lower() for cell in cells}:
            cure = f"take out what stands above row {row}"
            yield Fault(table.name, row, "", "the header stands here, not on row 1", cure)


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

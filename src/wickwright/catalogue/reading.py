"""Tables into a fit book: the whole book, or every fault in it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.catalogue.assembling import assemble
from wickwright.catalogue.check_calls import check_calls
from wickwright.catalogue.check_flames import check_flames
from wickwright.catalogue.check_includes import check_includes
from wickwright.catalogue.check_lamps import check_lamps
from wickwright.catalogue.check_marks import check_marks
from wickwright.catalogue.check_parts import check_parts
from wickwright.catalogue.check_ports import check_ports
from wickwright.catalogue.check_wishes import check_wishes
from wickwright.catalogue.columns import TABLES
from wickwright.catalogue.links import IDENTITIES, check_keys, check_links
from wickwright.catalogue.sheets import read_sheets

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.catalogue.faults import Fault, RawTable
    from wickwright.catalogue.records import Book

__all__ = ["place_of", "read_book"]

_ORDER = {name: place for place, name in enumerate(TABLES)}
_COLUMNS = {
    (name, column.name): place
    for name, table in TABLES.items()
    for place, column in enumerate(table.columns)
}


def place_of(fault: Fault) -> tuple[int, str, int, int, str, str]:
    """Return where a fault stands in the book: by table, row and column from left to right."""
    last = len(_COLUMNS) if fault.column else -1
    column = _COLUMNS.get((fault.table, fault.column), last)
    table = _ORDER.get(fault.table, len(_ORDER))
    return table, fault.table, fault.row, column, fault.column, fault.what


def read_book(tables: Sequence[RawTable]) -> Book | tuple[Fault, ...]:
    """Read a fit book from its tables.

    Parameters
    ----------
    tables : sequence of RawTable
        In any order. Rows without text are passed over, and so are notes: rows whose first
        cell is ``#`` or begins with ``# ``. Cells are stripped of blanks around them.

    Returns
    -------
    Book or tuple of Fault
        The whole book when there is no fault in it; otherwise every fault, by table, row
        and column. Never half a book.
    """
    faults: list[Fault] = []
    sheets = read_sheets(tables, faults)
    for name in IDENTITIES:
        check_keys(sheets[name])
    for sheet in sheets.values():
        check_links(sheet, sheets)
    check_parts(sheets["parts"])
    check_ports(sheets["ports"])
    check_includes(sheets)
    check_flames(sheets)
    check_lamps(sheets)
    check_wishes(sheets)
    check_marks(sheets)
    check_calls(sheets)
    if faults:
        return tuple(sorted(set(faults), key=place_of))
    return assemble(sheets)

"""Rows of an order file, each with what could not be read of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.catalogue.faults import Fault

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from wickwright.catalogue.faults import RawTable

__all__ = ["Row", "rows_of"]


@dataclass(frozen=True, slots=True)
class Row:
    """One row, as written.

    Attributes
    ----------
    number : int
        As a spreadsheet shows it.
    order, lamp, place, part, quantity : str
        Its cells; blank where there is none, or none that can be read.
    unread : tuple of Fault
        What is blank and must not be, or cannot be read; without a column, all of the row.
    """

    number: int
    order: str
    lamp: str
    place: str
    part: str
    quantity: str
    unread: tuple[Fault, ...] = ()


def rows_of(table: RawTable, at: Mapping[str, int], unit: str = "") -> Iterator[Row]:
    """Yield the rows of an order file.

    Parameters
    ----------
    table : RawTable
        The file.
    at : mapping of str to int
        In which column what stands.
    unit : str
        Unit of places written as a mere number, from the head of their column.

    Yields
    ------
    Row
        Blank rows are left out.
    """
    known = {"": "", **{table.header[place].strip(): name for name, place in at.items()}}
    unread: dict[int, list[Fault]] = {}
    for fault in table.unread:
        if fault.column in known:
            unread.setdefault(fault.row, []).append(fault)
    above = ""
    for number, cells in table.rows:
        bad = tuple(unread.get(number, ()))
        if bad or any(map(_plain, cells)):
            row = _row(table.name, number, _named(cells, at, unit), bad, above)
            above = row.order or above
            yield row


def _named(cells: tuple[str, ...], at: Mapping[str, int], unit: str) -> dict[str, str]:
    named = {name: _plain(cells[place]) for name, place in at.items() if place < len(cells)}
    place = named.get("place", "")
    if unit and _is_number(place):
        named["place"] = f"{place} {unit}"
    return named


def _plain(cell: str) -> str:
    """Drop what nobody sees: signs of control, and marks of no width from a web page."""
    if not cell.isprintable():
        cell = "".join(" " if sign.isspace() else sign for sign in cell if _is_seen(sign))
    return cell.strip()


def _is_seen(sign: str) -> bool:
    return sign.isprintable() or sign.isspace()


def _is_number(text: str) -> bool:
    return text.lstrip("+-").replace(".", "", 1).isdecimal()


def _row(
    table: str, number: int, named: Mapping[str, str], bad: tuple[Fault, ...], above: str
) -> Row:
    columns = {fault.column.lower() for fault in bad}
    if "" in columns:
        return Row(number, "", "", "", "", "", bad)
    blank = [name for name in _NEEDED if not named.get(name) and name not in columns]
    faults = (
        Fault(table, number, name, f"the {_NEEDED[name]} is blank", _CURES[name]) for name in blank
    )
    return Row(
        number=number,
        order=named.get("order", ""),
        lamp=named.get("lamp", ""),
        place=named.get("place", ""),
        part=named.get("part", ""),
        quantity=named.get("quantity", ""),
        unread=(*bad, *(_told(one, above) for one in faults)),
    )


_NEEDED = {"order": "order number", "part": "part"}

_CURES = {
    "order": "write the number of the order on every row",
    "part": "write the part number, or take the row out",
}


def _told(fault: Fault, above: str) -> Fault:
    """Name the order the row may belong to."""
    if fault.column != "order" or not above:
        return fault
    cure = f"is it order {above}, as the row above? {fault.cure}"
    return Fault(fault.table, fault.row, fault.column, fault.what, cure)

"""The header of a table: which column stands where."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.catalogue.faults import Fault
from wickwright.catalogue.spelling import meant, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from wickwright.catalogue.columns import Table

__all__ = ["Heading", "column_letter", "read_heading"]

_ALPHABET = 26
_STRANGERS = 50


@dataclass(frozen=True, slots=True)
class Heading:
    """The header of a table, laid beside the columns it should have.

    Attributes
    ----------
    width : int
        Cells up to the last name.
    places : mapping of str to int
        Where each known column stands; the last place where it stands twice.
    nameless : tuple of int
        Places without a name between others.
    faults : tuple of Fault
        Missing, unknown and doubled columns.
    """

    width: int
    places: Mapping[str, int]
    nameless: tuple[int, ...]
    faults: tuple[Fault, ...]


def column_letter(place: int) -> str:
    """Return what a spreadsheet calls a column.

    Parameters
    ----------
    place : int
        Counted from 0.

    Returns
    -------
    str
        Such as ``'A'`` or ``'AB'``.
    """
    before, letter = divmod(place, _ALPHABET)
    return (column_letter(before - 1) if before else "") + chr(ord("A") + letter)


def _doubled(table: Table, names: list[str]) -> Iterator[Fault]:
    for name in (name for name, times in Counter(names).items() if name and times > 1):
        letters = [column_letter(place) for place, other in enumerate(names) if other == name]
        yield Fault(
            table.name,
            1,
            name,
            f"the column {quoted(name)} is there {len(letters)} times: {', '.join(letters)}",
            "keep one of them",
        )


def _unknown(table: Table, names: list[str]) -> Iterator[Fault]:
    known = [column.name for column in table.columns]
    unused = [name for name in known if name not in names]
    strangers = [name for name in dict.fromkeys(names) if name and name not in known]
    columns = f"the columns are: {', '.join(known)}"
    for name in strangers[:_STRANGERS]:
        what = f"the table has no column {quoted(name)}"
        yield Fault(table.name, 1, name, what, f"{meant(name, unused)}{columns}")
    if len(strangers) > _STRANGERS:
        what = f"{len(strangers) - _STRANGERS} more columns of the table are not known"
        yield Fault(table.name, 1, "", what, columns)


def _missing(table: Table, names: list[str]) -> Iterator[Fault]:
    for column in table.columns:
        if column.must and column.name not in names:
            what = f"the column '{column.name}' is missing"
            yield Fault(table.name, 1, column.name, what, f"add it: {column.note}")


def read_heading(header: tuple[str, ...], table: Table) -> Heading:
    """Lay a header beside the columns a table should have.

    Parameters
    ----------
    header : tuple of str
        The first row.
    table : Table
        What the table should hold.

    Returns
    -------
    Heading
        Where each column stands, and the faults of the header.
    """
    names = [name.strip() for name in header]
    while names and not names[-1]:
        names.pop()
    known = {column.name for column in table.columns}
    places = {name: place for place, name in enumerate(names) if name in known}
    nameless = tuple(place for place, name in enumerate(names) if not name)
    faults = (*_doubled(table, names), *_unknown(table, names), *_missing(table, names))
    return Heading(len(names), places, nameless, faults)

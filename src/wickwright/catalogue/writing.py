"""A fit book back into tables, and the empty tables a new book starts from."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.catalogue.call_rows import call_rows
from wickwright.catalogue.columns import TABLES, Column, Table
from wickwright.catalogue.faults import RawTable
from wickwright.catalogue.lists import LISTS
from wickwright.catalogue.print_cells import (
    print_degrees,
    print_length,
    print_money,
    print_number,
    print_whole,
)
from wickwright.catalogue.records import Side

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping

    from wickwright.catalogue.records import Book, Part, Port, Wish

__all__ = ["book_tables", "column_note", "part_cells", "template"]

Cells = dict[str, str]
"""The filled cells of one row by column name; the rest are blank."""


def _heat(watts: float) -> str:
    return print_number(watts) if watts else ""


def _support(part: Part) -> Cells:
    if part.support is None:
        return {}
    radius, feet = part.support.radius, part.support.feet
    return {
        "support": part.support.footing,
        "feet": print_whole(feet or None),
        "radius": print_length(radius or None),
    }


def _fuel(part: Part) -> Cells:
    if part.fuel is None:
        return {}
    return {
        "fuel_volume": print_number(part.fuel.volume, 6),
        "fuel_floor": print_length(part.fuel.floor),
        "fuel_depth": print_length(part.fuel.depth),
    }


def _part(part: Part) -> Cells:
    return {
        "part": part.id,
        "name": part.name,
        "kind": part.kind,
        "from": print_whole(part.first),
        "to": print_whole(part.last),
        "status": part.status,
        "successor": part.successor,
        "via": part.via,
        "price": print_money(part.price),
        "stock": print_whole(part.stock),
        "mass": print_number(part.mass, 3),
        "height": print_length(part.height),
        "centre": print_length(part.centre),
        "material": part.material,
        "heat_rating": print_number(part.heat_rating),
        "service": part.service or "",
        "heat": _heat(part.heat),
        "least_chimney": print_length(part.least_chimney),
        "light": print_whole(part.light or None),
        "style": part.style,
        **_support(part),
        **_fuel(part),
        "note": part.note,
        "source": part.source,
        **part.printed,
    }


def _port(part: str, port: Port) -> Cells:
    numbers: Mapping[str, Callable[[float], str]] = {"angle": print_degrees}
    return {
        "part": part,
        "port": port.name,
        "side": port.side,
        "joint": port.joint,
        "takes": " ".join(port.takes),
        "need": port.need if port.side is Side.CARRIES else "",
        "height": print_length(port.height),
        "label": port.label,
        **{name: size.text for name, size in port.sizes.items()},
        **port.words,
        **{name: numbers.get(name, print_number)(n) for name, n in port.numbers.items()},
        "note": port.note,
        **port.printed,
    }


def _flame(part: Part) -> Iterator[Cells]:
    for name, measure in part.flame.items():
        value, spread = measure.printed
        yield {
            "part": part.id,
            "property": name,
            "value": value,
            "spread": spread,
            "source": measure.source,
            "note": measure.note,
        }


def _wish(wish: Wish) -> Iterator[Cells]:
    for place, ask in enumerate(wish.asks):
        yield {
            "wish": wish.id,
            "title": "" if place else wish.title,
            "ask": ask.ask,
            "kind": ask.kind,
            "field": ask.field,
            "test": ask.test,
            "value": ask.value,
            "says": ask.says,
            "words": "" if place else "; ".join(wish.words),
        }


def _lamps(book: Book) -> Iterator[Cells]:
    for lamp in book.lamps.values():
        yield {
            "lamp": lamp.id,
            "name": lamp.name,
            "family": lamp.family,
            "form": lamp.form,
            "service": lamp.service,
            "from": print_whole(lamp.first),
            "to": print_whole(lamp.last),
            "needs": " ".join(lamp.needs),
            "as_sold": " ".join(lamp.as_sold),
            "in_use": print_whole(lamp.in_use),
            "note": lamp.note,
        }


def _rows(book: Book) -> dict[str, Iterable[Cells]]:
    """Return the rows of every table."""
    parts = book.parts.values()
    return {
        "about": ({"key": key, "value": value} for key, value in book.about.items()),
        "revisions": (
            {"date": one.day.isoformat(), "name": one.name, "reason": one.reason, "what": one.what}
            for one in book.revisions
        ),
        "families": (
            {"family": family.id, "name": family.name, "note": family.note}
            for family in book.families.values()
        ),
        "lamps": _lamps(book),
        "parts": map(_part, parts),
        "ports": (_port(part.id, port) for part in parts for port in part.ports),
        "includes": (
            {"part": part.id, "includes": other} for part in parts for other in part.includes
        ),
        "flames": (row for part in parts for row in _flame(part)),
        "wishes": (row for wish in book.wishes.values() for row in _wish(wish)),
        **call_rows(book.calls),
        "sources": ({"source": key, "title": title} for key, title in book.sources.items()),
    }


def part_cells(part: Part) -> dict[str, str]:
    """Return the row of a part as the table of parts has it.

    Parameters
    ----------
    part : Part
        Of a book.

    Returns
    -------
    dict of str to str
        Every column in the order of the table; blank where there is nothing.
    """
    row = _part(part)
    return {column.name: str(row.get(column.name, "")) for column in TABLES["parts"].columns}


def book_tables(book: Book) -> tuple[RawTable, ...]:
    """Write a book as tables.

    Parameters
    ----------
    book : Book
        A book as :func:`wickwright.catalogue.reading.read_book` gives it.

    Returns
    -------
    tuple of RawTable
        Every table of a book, the empty ones too, with every column. Lengths stand as they
        were printed. Reading the tables gives an equal book.
    """
    rows = _rows(book)
    return tuple(_raw(table, rows[name]) for name, table in TABLES.items())


def _raw(table: Table, rows: Iterable[Cells]) -> RawTable:
    header = tuple(column.name for column in table.columns)
    cells = (tuple(str(row.get(name, "")) for name in header) for row in rows)
    return RawTable(table.name, header, tuple(enumerate(cells, start=2)))


def column_note(column: Column) -> str:
    """Say what a column is for and what its cells hold.

    Parameters
    ----------
    column : Column
        A column of the fit book.

    Returns
    -------
    str
        One or two sentences for whoever fills it in.
    """
    must = "; must be filled" if column.must else ""
    of = f" ({', '.join(LISTS.get(column.of, (column.of,)))})" if column.of else ""
    return f"{column.note}. Holds {column.holds}{of}{must}."


def template() -> tuple[RawTable, ...]:
    """Return the empty tables of a new book.

    Returns
    -------
    tuple of RawTable
        Every table with its header and one row of notes, which begins with ``# `` and is
        passed over by the reader.
    """
    return tuple(
        _raw(
            table,
            (
                {
                    c.name: f"{'' if n else '# '}{column_note(c)}"
                    for n, c in enumerate(table.columns)
                },
            ),
        )
        for table in TABLES.values()
    )

"""What the fit book says of one part or lamp: as printed, and what fits each of its joints."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickwright.answers.plain.answers import plain_money, plain_part
from wickwright.answers.what_replaced import what_replaced
from wickwright.answers.words.book_words import listed
from wickwright.catalogue.records import Lamp, Status
from wickwright.catalogue.writing import part_cells
from wickwright.fit.audit import called
from wickwright.terms.finding import Kind, Quantity
from wickwright.terms.units import Units, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickwright.answers.plain.answers import Plain
    from wickwright.answers.what_replaced import Replacement
    from wickwright.catalogue.records import Book, Part, Port
    from wickwright.fit.compiled import Compiled

__all__ = [
    "PartRecord",
    "PortRecord",
    "figures",
    "fitting",
    "part_record",
    "plain_record",
    "port_head",
    "port_sizes",
    "sold_on",
]

_SHOWN_ELSEWHERE: Final = frozenset({"part", "name", "kind", "status", "price", "stock"})
_RANK: Final = {status: rank for rank, status in enumerate(Status)}
_WITH_UNITS: Final = {"mass": "g", "heat": "W", "heat_rating": "W", "fuel_volume": "ml"}


@dataclass(frozen=True, slots=True)
class PortRecord:
    """One half of a joint, and what fits it.

    Attributes
    ----------
    port : Port
        As the book has it.
    head, sizes : str
        What it does; its sizes as printed.
    fits : tuple of Part
        Parts that fit it by the joint alone, those that can be had first.
    """

    port: Port
    head: str
    sizes: str
    fits: tuple[Part, ...]


@dataclass(frozen=True, slots=True)
class PartRecord:
    """Everything the book says of a part.

    Attributes
    ----------
    part : Part
        As the book has it.
    figures : tuple of (str, str)
        Its filled columns as printed.
    ports : tuple of PortRecord
        Its joints, with what fits.
    includes, comes_in : tuple of Part
        Parts that come with it; parts it comes with.
    sold_on : tuple of Lamp
        Lamps that left the works with it.
    replacement : Replacement
        What became of it.
    """

    part: Part
    figures: tuple[tuple[str, str], ...]
    ports: tuple[PortRecord, ...]
    includes: tuple[Part, ...]
    comes_in: tuple[Part, ...]
    sold_on: tuple[Lamp, ...]
    replacement: Replacement


def part_record(compiled: Compiled, part: Part, units: Units) -> PartRecord:
    """Return everything the book says of a part.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    part : Part
        Of that book.
    units : Units
        What to print in.

    Returns
    -------
    PartRecord
        With what fits each of its joints.
    """
    book = compiled.book
    return PartRecord(
        part=part,
        figures=tuple(figures(book, part, units)),
        ports=tuple(
            PortRecord(
                port, port_head(port), port_sizes(port, units), fitting(compiled, part, port)
            )
            for port in part.ports
        ),
        includes=tuple(book.parts[one] for one in part.includes),
        comes_in=tuple(one for one in book.parts.values() if part.id in one.includes),
        sold_on=sold_on(book, part),
        replacement=what_replaced(compiled, part.id),
    )


def sold_on(book: Book, part: Part) -> tuple[Lamp, ...]:
    """Return the lamps that left the works with a part."""
    return tuple(lamp for lamp in book.lamps.values() if part.id in lamp.as_sold)


def fitting(compiled: Compiled, part: Part, port: Port) -> tuple[Part, ...]:
    """Return the parts that fit a port by the joint alone.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    part : Part
        Whose port.
    port : Port
        Of that part.

    Returns
    -------
    tuple of Part
        Those that can be had first.
    """
    found = (compiled.book.parts[one] for one in compiled.neighbours.of(part, port))
    return tuple(sorted(found, key=lambda one: (_RANK[one.status], one.id)))


# -- as printed ----------------------------------------------------------------------------------


def figures(book: Book, part: Part, units: Units) -> list[tuple[str, str]]:
    """Return each filled column of a part as the book prints it.

    Parameters
    ----------
    book : Book
        The fit book.
    part : Part
        Of that book.
    units : Units
        What to print in.

    Returns
    -------
    list of (str, str)
        Name of the column in words, and its cell with its unit.
    """
    return [*_figures(book, part, units)]


def _figures(book: Book, part: Part, units: Units) -> Iterator[tuple[str, str]]:
    for name, cell in part_cells(part).items():
        if cell and name not in _SHOWN_ELSEWHERE:
            unit = f" {_WITH_UNITS[name]}" if name in _WITH_UNITS else ""
            yield name.replace("_", " "), _titled(book, name, cell) + unit
    if part.includes:
        yield "comes with", ", ".join(part.includes)
    if units.system == "us" and part.height is not None:
        yield "height, in inches", say(Quantity(part.height, Kind.LENGTH), units)


def _titled(book: Book, name: str, cell: str) -> str:
    """Add the title where a cell is only a key."""
    if name == "source":
        return f"{book.sources.get(cell, '')} [{cell}]"
    other = book.parts.get(cell) if name in ("successor", "via") else None
    return called(other) if other else cell


def port_head(port: Port) -> str:
    """Say what a port does, such as ``'seat: carries a chimney, plain-foot (required)'``."""
    if not port.takes:
        return f"{port.name}: stands by {port.joint}"
    return f"{port.name}: carries a {listed(port.takes, 'or')}, {port.joint} ({port.need})"


def port_sizes(port: Port, units: Units) -> str:
    """Say the sizes of a port as printed.

    Parameters
    ----------
    port : Port
        Of a part.
    units : Units
        What angles are printed in; lengths stand as the book has them.

    Returns
    -------
    str
        Divided by semicolons; blank where it has none.
    """
    sizes = [f"{name} {size.text}" for name, size in port.sizes.items()]
    words = [f"{name} {word}" for name, word in port.words.items()]
    numbers = [f"{name} {_number(name, value, units)}" for name, value in port.numbers.items()]
    label = [f"label '{port.label}'"] if port.label else []
    return "; ".join(sizes + words + numbers + label)


def _number(name: str, value: float, units: Units) -> str:
    if name == "angle":
        return say(Quantity(value, Kind.ANGLE), units)
    return f"{value:g}{' W' if name == 'limit' else ''}"


# -- plain ---------------------------------------------------------------------------------------


def plain_record(compiled: Compiled, found: Lamp | Part) -> dict[str, Plain]:
    """Return a lamp or part for JSON: its cells as the book prints them, and what fits.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    found : Lamp or Part
        Of that book.

    Returns
    -------
    dict
        As the page on JSON says.
    """
    return _plain_lamp(compiled.book, found) if isinstance(found, Lamp) else _plain(compiled, found)


def _plain_lamp(book: Book, lamp: Lamp) -> dict[str, Plain]:
    return {
        "lamp": lamp.id,
        "name": lamp.name,
        "family": lamp.family,
        "form": str(lamp.form),
        "service": str(lamp.service),
        "first": lamp.first,
        "last": lamp.last,
        "needs": list(lamp.needs),
        "as_sold": [plain_part(book.parts[one]) for one in lamp.as_sold],
        "note": lamp.note,
        "in_use": lamp.in_use,
    }


def _plain(compiled: Compiled, part: Part) -> dict[str, Plain]:
    ports: list[Plain] = [
        {
            "port": port.name,
            "side": str(port.side),
            "joint": port.joint,
            "takes": list(port.takes),
            "fits": [one.id for one in fitting(compiled, part, port)],
        }
        for port in part.ports
    ]
    return {
        "part": part.id,
        "price": plain_money(part.price),
        "as_printed": {**part_cells(part)},
        "includes": list(part.includes),
        "ports": ports,
        "marks": [
            {"look": mark.look, "value": mark.value, "confused_with": mark.confused_with or None}
            for mark in compiled.book.calls.marks
            if mark.part == part.id
        ],
    }

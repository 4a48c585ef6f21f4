"""Pages of single records: a lamp, or a part with its joints and what fits them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.answers.plain import plain_money, plain_part
from wickwright.catalogue.records import Lamp, Part, Status
from wickwright.catalogue.writing import book_tables
from wickwright.cli.layout import bullet, paragraph, table
from wickwright.cli.marks_page import lamp_marks, part_mark_lines
from wickwright.cli.words import JOINT_ONLY, availability, bare_money, listed, money
from wickwright.fit.audit import called
from wickwright.fit.compiled import GLASSY, HEATED
from wickwright.fit.joints.verdict import ACCEPTED
from wickwright.terms.finding import Kind, Quantity
from wickwright.terms.units import Units, say

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickwright.answers.plain import Plain
    from wickwright.catalogue.records import Book, Port
    from wickwright.fit.compiled import Compiled

__all__ = ["fitting", "lamp_lines", "part_lines", "plain_record"]

_MOST = 12
"""Parts named for one port; the rest are counted."""

RATED = HEATED | {"bell"}
"""Kinds that stand in or beside the heat."""


# -- lamps ---------------------------------------------------------------------------------------


def lamp_lines(compiled: Compiled, lamp: Lamp, units: Units, width: int) -> list[str]:
    """Lay out a lamp: its years, the parts it was sold with, how to know it."""
    book = compiled.book
    family = book.families[lamp.family]
    years = f"{lamp.first or '?'} to {lamp.last or 'now'}"
    lines = paragraph(f"{lamp.name} ({lamp.id})", width)
    lines += paragraph(f"{lamp.form} lamp, {lamp.service}, {years}; {family.name}", width, "  ")
    lines += paragraph(family.note, width, "  ") + paragraph(lamp.note, width, "  ")
    if lamp.needs:
        lines += paragraph(f"not complete without a {listed(lamp.needs)}", width, "  ")
    lines += ["", "Sold with"]
    parts = [book.parts[one] for one in lamp.as_sold]
    lines += table(_part_rows(parts), width, indent="  ", rights=(2,), wrapped=(1, 3))
    lines += lamp_marks(book, lamp, width)
    return lines + _stance_lines(compiled, lamp, units, width)


def _part_rows(parts: Sequence[Part]) -> list[tuple[str, str, str, str]]:
    return [(part.id, part.name, bare_money(part.price), availability(part)) for part in parts]


def _stance_lines(compiled: Compiled, lamp: Lamp, units: Units, width: int) -> list[str]:
    """What is to be said of the lamp as sold."""
    from wickwright.answers.wording import sentence  # noqa: PLC0415 - needed here only
    from wickwright.fit.audit import audit  # noqa: PLC0415 - needed here only
    from wickwright.fit.place import Place  # noqa: PLC0415 - needed here only

    found = audit(compiled.sold(lamp.id), lamp, Place(), compiled.joiner)
    lines = ["", "As sold, at sea level"] if found else []
    for finding in found:
        lines += bullet(sentence(finding, units).says, width)
    return lines


# -- parts ---------------------------------------------------------------------------------------


def part_lines(compiled: Compiled, part: Part, units: Units, width: int) -> list[str]:
    """Lay out a part: its figures as printed, its joints, what fits, where it was used."""
    book = compiled.book
    lines = paragraph(called(part), width)
    lines += paragraph(f"{part.kind}; {_can_be_had(part, units)}", width, "  ")
    lines += table([*_figures(book, part, units)], width, wrapped=(1,))
    for port in part.ports:
        lines += ["", *_port_lines(compiled, part, port, width)]
    if part.ports:
        lines += ["", *paragraph(JOINT_ONLY, width)]
    lines += part_mark_lines(book, part, width)
    used = [lamp.id for lamp in book.lamps.values() if part.id in lamp.as_sold]
    if used:
        lines += ["", *paragraph(f"Sold on {listed(used)}.", width)]
    return lines


def _can_be_had(part: Part, units: Units) -> str:
    price = money(part.price, units) if part.price is not None else "no price"
    return f"{availability(part) or 'made'}; {price}"


_SHOWN_ELSEWHERE = {"part", "name", "kind", "status", "price", "stock"}
_WITH_UNITS = {"mass": "g", "heat": "W", "heat_rating": "W", "fuel_volume": "ml"}


def _figures(book: Book, part: Part, units: Units) -> Iterator[tuple[str, str]]:
    """Yield each filled column of the part as the book prints it."""
    for name, cell in _cells(book, part).items():
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


def _cells(book: Book, part: Part) -> dict[str, str]:
    """Return the row of a part as it stands in the book."""
    rows = next(raw for raw in book_tables(book) if raw.name == "parts")
    cells = next(cells for _, cells in rows.rows if cells[0] == part.id)
    return dict(zip(rows.header, cells, strict=True))


def _port_lines(compiled: Compiled, part: Part, port: Port, width: int) -> list[str]:
    sizes = [f"{name} {size.text}" for name, size in port.sizes.items()]
    words = [f"{name} {word}" for name, word in port.words.items()]
    numbers = [f"{name} {_number(name, value)}" for name, value in port.numbers.items()]
    label = [f"label '{port.label}'"] if port.label else []
    does = f"carries a {listed(port.takes, 'or')}" if port.takes else "stands by"
    head = (
        f"{port.name}: {does}, {port.joint} ({port.need})"
        if port.takes
        else (f"{port.name}: {does} {port.joint}")
    )
    lines = paragraph(head, width)
    lines += paragraph("; ".join(sizes + words + numbers + label), width, "  ")
    lines += paragraph(port.note, width, "  ")
    return lines + _fitting_lines(compiled, part, port, width)


def _number(name: str, value: float) -> str:
    if name == "angle":
        return say(Quantity(value, Kind.ANGLE), Units())
    return f"{value:g}{' W' if name == 'limit' else ''}"


def fitting(compiled: Compiled, part: Part, port: Port) -> list[Part]:
    """Return the parts that fit a port, those that can be had first."""
    joiner = compiled.joiner
    found = []
    for other in compiled.parts:
        if port.takes:
            best = joiner.best(part, port, other) if other.kind in port.takes else None
            fits = best is not None and best[1].fit in ACCEPTED
        else:
            fits = any(
                part.kind in on.takes
                and on.joint == port.joint
                and joiner.joined(other, on, part, port).fit in ACCEPTED
                for on in other.carries
            )
        if fits:
            found.append(other)
    return sorted(found, key=lambda one: (list(Status).index(one.status), one.id))


def _rating(part: Part) -> str:
    """Say what heat a part stands, where that matters."""
    if part.heat_rating is not None:
        return f"to {part.heat_rating:,.0f} W"
    return "no heat rating" if part.material in GLASSY and part.kind in RATED else ""


def _fitting_lines(compiled: Compiled, part: Part, port: Port, width: int) -> list[str]:
    found = fitting(compiled, part, port)
    if not found:
        return ["  nothing in the book fits it"]
    rows = [(one.id, one.name, _rating(one), availability(one)) for one in found[:_MOST]]
    lines = ["  fits:" if port.takes else "  fits on:"]
    lines += table(rows, width, indent="    ", wrapped=(1, 3))
    if len(found) > _MOST:
        lines.append(f"    and {len(found) - _MOST:,} more")
    return lines


# -- JSON ----------------------------------------------------------------------------------------


def plain_record(compiled: Compiled, found: Lamp | Part) -> dict[str, Plain]:
    """Return a lamp or part for JSON: its cells as the book prints them, and what fits."""
    book = compiled.book
    if isinstance(found, Lamp):
        return {
            "lamp": found.id,
            "name": found.name,
            "family": found.family,
            "form": str(found.form),
            "service": str(found.service),
            "first": found.first,
            "last": found.last,
            "needs": list(found.needs),
            "as_sold": [plain_part(book.parts[one]) for one in found.as_sold],
            "note": found.note,
            "in_use": found.in_use,
        }
    ports: list[Plain] = [
        {
            "port": port.name,
            "side": str(port.side),
            "joint": port.joint,
            "takes": list(port.takes),
            "fits": [one.id for one in fitting(compiled, found, port)],
        }
        for port in found.ports
    ]
    return {
        "part": found.id,
        "price": plain_money(found.price),
        "as_printed": {**_cells(book, found)},
        "includes": list(found.includes),
        "ports": ports,
        "marks": [
            {"look": mark.look, "value": mark.value, "confused_with": mark.confused_with or None}
            for mark in book.calls.marks
            if mark.part == found.id
        ],
    }

"""Pages of single records: a lamp, or a part with its joints and what fits them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.answers.book.records import figures, fitting, port_head, port_sizes, sold_on
from wickwright.cli.layout import bullet, paragraph, table
from wickwright.cli.marks_page import lamp_marks, part_mark_lines
from wickwright.cli.words import JOINT_ONLY, availability, bare_money, listed, money
from wickwright.fit.audit import called
from wickwright.fit.compiled import GLASSY, HEATED

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.catalogue.records import Lamp, Part, Port
    from wickwright.fit.compiled import Compiled
    from wickwright.terms.units import Units

__all__ = ["lamp_lines", "part_lines"]

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
    from wickwright.answers.words.wording import sentence  # noqa: PLC0415 - needed here only
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
    lines += table(figures(book, part, units), width, wrapped=(1,))
    for port in part.ports:
        lines += ["", *_port_lines(compiled, part, port, units, width)]
    if part.ports:
        lines += ["", *paragraph(JOINT_ONLY, width)]
    lines += part_mark_lines(book, part, width)
    used = [lamp.id for lamp in sold_on(book, part)]
    if used:
        lines += ["", *paragraph(f"Sold on {listed(used)}.", width)]
    return lines


def _can_be_had(part: Part, units: Units) -> str:
    price = money(part.price, units) if part.price is not None else "no price"
    return f"{availability(part) or 'made'}; {price}"


def _port_lines(compiled: Compiled, part: Part, port: Port, units: Units, width: int) -> list[str]:
    lines = paragraph(port_head(port), width)
    lines += paragraph(port_sizes(port, units), width, "  ")
    lines += paragraph(port.note, width, "  ")
    return lines + _fitting_lines(compiled, part, port, width)


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

"""Figures that can hardly be meant: a slip of the unit, or of the decimal point.

The bounds are wide ones of ours (common practice, no published source). What lies outside
them is doubted, not refused.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wickwright.catalogue.faults import Fault
from wickwright.catalogue.links import places
from wickwright.catalogue.spelling import quoted

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickwright.catalogue.sheets import Sheet, Sheets

__all__ = ["BOUNDS", "Bounds", "implausible"]

_TOP = 0.020
"""How far above a part's top the plane of a joint may lie, as with a band's rim [m]."""
_SAME = 1e-6


class Bounds(NamedTuple):
    """What a figure may be without being doubted.

    Attributes
    ----------
    low, high : float
        In the unit of the column; lengths in metres.
    unit : str
        Said behind the bounds.
    scale : float
        Of the unit said, in that of the column.
    """

    low: float
    high: float
    unit: str
    scale: float = 1.0


_MM = 1e-3
_LEAST_MASS = 0.1
"""What the route search counts masses in [g]."""
BOUNDS: dict[tuple[str, str], Bounds] = {
    ("parts", "mass"): Bounds(_LEAST_MASS, 30_000, "g"),
    ("parts", "height"): Bounds(0.003, 2.0, "mm", _MM),
    ("parts", "least_chimney"): Bounds(0.03, 1.0, "mm", _MM),
    ("parts", "radius"): Bounds(0.01, 1.0, "mm", _MM),
    ("parts", "heat"): Bounds(5, 3_000, "W"),
    ("parts", "heat_rating"): Bounds(5, 10_000, "W"),
    ("parts", "light"): Bounds(-400, 400, "points"),
    ("parts", "fuel_volume"): Bounds(30, 10_000, "ml"),
    ("parts", "fuel_depth"): Bounds(0.005, 0.5, "mm", _MM),
    ("ports", "diameter"): Bounds(0.001, 1.0, "mm", _MM),
    ("ports", "capture"): Bounds(0.001, 1.0, "mm", _MM),
    ("ports", "reach"): Bounds(0.0005, 0.5, "mm", _MM),
    ("ports", "limit"): Bounds(1, 500, "W"),
}
"""By table and column."""


def implausible(sheets: Sheets) -> tuple[Fault, ...]:
    """Return the figures that can hardly be meant, and those that cannot be.

    Parameters
    ----------
    sheets : dict of str to Sheet
        A book without faults.

    Returns
    -------
    tuple of Fault
        Sure where a figure contradicts another of its row: a centre of mass above the top,
        fuel above the top of its font. Doubts where it lies outside :data:`BOUNDS`, a
        centre of mass lies below the foot, or a joint above the top.
    """
    parts, ports = sheets["parts"], sheets["ports"]
    return (
        *(one for (table, name) in BOUNDS for one in _outside(sheets[table], name)),
        *_too_light(parts),
        *_centres(parts),
        *_fuel(parts),
        *_joints(parts, ports),
        *_twins(sheets["lamps"], parts),
    )


def _values(sheet: Sheet, name: str) -> Sequence[float | None]:
    """Return a column as plain numbers; of a length its printed middle."""
    if name in sheet.sizes:
        return [None if size is None else size.nominal for size in sheet.sizes[name]]
    if name in sheet.levels:
        return sheet.levels[name]
    column = sheet.numbers[name] if name in sheet.numbers else sheet.wholes[name]
    return [None if value is None else float(value) for value in column]


def _doubt(sheet: Sheet, at: int, column: str, what: str, cure: str) -> Fault:
    return Fault(sheet.table.name, sheet.rows[at], column, what, cure, doubt=True)


def _outside(sheet: Sheet, name: str) -> Iterator[Fault]:
    bounds = BOUNDS[sheet.table.name, name]
    for at, value in enumerate(_values(sheet, name)):
        if value is None or bounds.low <= value <= bounds.high:
            continue
        low, high = (f"{end / bounds.scale:,.6g}" for end in (bounds.low, bounds.high))
        what = (
            f"{quoted(sheet.texts[name][at])} is hardly meant: outside {low} to {high} "
            f"{bounds.unit}"
        )
        cure = f"check the figure and its unit ({_holds(sheet, name)})"
        yield _doubt(sheet, at, name, what, cure)


def _holds(sheet: Sheet, name: str) -> str:
    return next(column.note for column in sheet.table.columns if column.name == name)


_HEAVY = frozenset({"base", "font", "burner", "gallery", "chimney", "shade"})
_LEAST_HEAVY = 10.0
"""No part of these kinds is lighter [g]: kilograms were written for grams."""


def _too_light(parts: Sheet) -> Iterator[Fault]:
    cells = zip(_values(parts, "mass"), parts.texts["kind"], strict=True)
    for at, (mass, kind) in enumerate(cells):
        if kind in _HEAVY and mass is not None and _LEAST_MASS <= mass < _LEAST_HEAVY:
            what = f"a {kind} of {mass:g} g is hardly meant"
            yield _doubt(parts, at, "mass", what, "write grams, not kilograms")


def _centres(parts: Sheet) -> Iterator[Fault]:
    cells = zip(_values(parts, "centre"), _values(parts, "height"), strict=True)
    for at, (centre, height) in enumerate(cells):
        if centre is None or height is None:
            continue
        text, top = (quoted(parts.texts[name][at]) for name in ("centre", "height"))
        if centre > height + _SAME:
            yield Fault(
                "parts",
                parts.rows[at],
                "centre",
                f"the centre of mass, {text}, lies above the top, {top}",
                "correct one of the two: both are measured from the part's own foot",
            )
        elif centre < -_SAME:
            what = f"the centre of mass, {text}, lies below the part's own foot"
            cure = "check the sign: only a part that hangs below what it stands on has it there"
            yield _doubt(parts, at, "centre", what, cure)


def _fuel(parts: Sheet) -> Iterator[Fault]:
    columns = (_values(parts, name) for name in ("height", "fuel_floor", "fuel_depth"))
    for at, (height, floor, depth) in enumerate(zip(*columns, strict=True)):
        if height is None or floor is None or depth is None:
            continue
        if floor + depth > height + _SAME:
            high = f"{(floor + depth) * 1000:.6g} mm"
            yield Fault(
                "parts",
                parts.rows[at],
                "fuel_depth",
                f"the full line lies {high} above the foot, the font is "
                f"{quoted(parts.texts['height'][at])} high",
                "correct fuel_floor, fuel_depth or height: all are measured in the same font",
            )


def _joints(parts: Sheet, ports: Sheet) -> Iterator[Fault]:
    where, heights = places(parts), _values(parts, "height")
    for at, (part, level) in enumerate(
        zip(ports.texts["part"], ports.levels["height"], strict=True)
    ):
        height = heights[where[part]] if part in where else None
        if level is None or height is None or level <= height + _TOP:
            continue
        what = (
            f"the joint lies {quoted(ports.texts['height'][at])} above the foot of {quoted(part)}, "
            f"which is {quoted(parts.texts['height'][where[part]])} high"
        )
        yield _doubt(ports, at, "height", what, "correct the one or the other")


def _twins(lamps: Sheet, parts: Sheet) -> Iterator[Fault]:
    """Yield names that differ from another by capitals only."""
    first: dict[str, str] = {}
    for sheet, column in ((lamps, "lamp"), (parts, "part")):
        for at, key in enumerate(sheet.texts[column]):
            other = first.setdefault(key.lower(), key)
            if other != key:
                what = f"{quoted(key)} and {quoted(other)} differ by capitals only"
                cure = "give one of them another number: who types one may be given the other"
                yield _doubt(sheet, at, column, what, cure)

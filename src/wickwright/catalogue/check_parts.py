"""What must hold within one part, and between a part and its successor."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.catalogue.links import places
from wickwright.catalogue.loops import find_loops, say_loop
from wickwright.catalogue.records import KINDS, Footing
from wickwright.catalogue.spelling import quoted

if TYPE_CHECKING:
    from wickwright.catalogue.sheets import Sheet

__all__ = ["check_parts", "check_years"]

LEAST_FEET = 3
"""Fewer feet do not stand."""

_FUEL = ("fuel_volume", "fuel_floor", "fuel_depth")
_KIND_COLUMNS: dict[str, tuple[str, ...]] = {
    "heat": ("burner", "bulb"),
    "least_chimney": ("burner",),
    "support": ("base",),
    "feet": ("base",),
    "radius": ("base",),
    **dict.fromkeys(_FUEL, ("font",)),
}
"""Columns that only some kinds of part may fill."""


def check_years(sheet: Sheet) -> None:
    """Note the rows that end before they begin.

    Parameters
    ----------
    sheet : Sheet
        Lamps or parts.
    """
    for at, (first, last) in enumerate(zip(sheet.wholes["from"], sheet.wholes["to"], strict=True)):
        if first is not None and last is not None and first > last:
            what = f"it was last made in {last}, before it was first made in {first}"
            sheet.fault(at, "to", what, "correct one of the two years")


def _check_kind_columns(sheet: Sheet) -> None:
    for name, kinds in _KIND_COLUMNS.items():
        for at, (text, kind) in enumerate(zip(sheet.texts[name], sheet.texts["kind"], strict=True)):
            if text and kind in KINDS and kind not in kinds:
                what = f"a {kind} has no {name}"
                cure = f"clear the cell, or correct the kind: only a {' or a '.join(kinds)} has one"
                sheet.fault(at, name, what, cure)


def _check_support(sheet: Sheet) -> None:
    """Note the bases whose support does not hang together."""
    texts = (sheet.texts[name] for name in ("support", "feet", "radius"))
    for at, (support, feet, radius) in enumerate(zip(*texts, strict=True)):
        if not (support or feet or radius):
            continue
        if not support:
            cure = "write round, feet, hung or fixed"
            sheet.fault(at, "support", "feet or radius are filled, support is blank", cure)
        _check_feet(sheet, at, support, feet)
        _check_radius(sheet, at, support, radius)


def _check_feet(sheet: Sheet, at: int, support: str, feet: str) -> None:
    count = sheet.wholes["feet"][at]
    if support == Footing.FEET and not feet:
        sheet.fault(at, "feet", "a base on feet needs their number", "write how many, 3 or more")
    elif support == Footing.FEET and count is not None and count < LEAST_FEET:
        what = f"a base does not stand on {count} feet"
        sheet.fault(at, "feet", what, "write 3 or more, or make the support round, hung or fixed")
    elif support and support != Footing.FEET and feet:
        what = f"the number of feet does not go with support {quoted(support)}"
        sheet.fault(at, "feet", what, "clear the cell, or make the support feet")


def _check_radius(sheet: Sheet, at: int, support: str, radius: str) -> None:
    stands = support in (Footing.ROUND, Footing.FEET)
    if stands and not radius:
        what = f"a base with support {quoted(support)} needs its radius"
        sheet.fault(at, "radius", what, "write the radius of the rim or of the circle of feet")
    elif support in (Footing.HUNG, Footing.FIXED) and radius:
        what = f"a radius does not go with support {quoted(support)}"
        sheet.fault(at, "radius", what, "clear the cell, or make the support round or feet")


def _check_fuel(sheet: Sheet) -> None:
    cells = (sheet.texts[name] for name in _FUEL)
    for at, filled in enumerate(zip(*cells, strict=True)):
        if any(filled) and not all(filled):
            blank = [name for name, text in zip(_FUEL, filled, strict=True) if not text]
            what = f"{' and '.join(blank)} {'is' if len(blank) == 1 else 'are'} blank"
            sheet.fault(at, blank[0], what, f"fill in all of {', '.join(_FUEL)}, or none of them")


def _check_successors(sheet: Sheet) -> None:
    where, kinds = places(sheet), sheet.texts["kind"]
    heirs, vias = sheet.texts["successor"], sheet.texts["via"]
    for at, (heir, via) in enumerate(zip(heirs, vias, strict=True)):
        if via and not heir:
            cure = "name the successor, or clear the converter"
            sheet.fault(at, "via", "there is a converter but no successor", cure)
        if heir in where and kinds[where[heir]] != kinds[at] and kinds[at]:
            what = f"the successor {quoted(heir)} is a {kinds[where[heir]]}, this is a {kinds[at]}"
            sheet.fault(at, "successor", what, "name a successor of the same kind")
    for loop in find_loops({key: (heirs[at],) for key, at in where.items() if heirs[at]}):
        sheet.fault(
            where[loop[-2]],
            "successor",
            f"the successors run in a loop: {say_loop(loop)}",
            "clear the successor of the newest of them",
        )


def check_parts(sheet: Sheet) -> None:
    """Note what cannot be about the parts.

    Parameters
    ----------
    sheet : Sheet
        The table ``parts``; faults are added to it.
    """
    check_years(sheet)
    _check_kind_columns(sheet)
    _check_support(sheet)
    _check_fuel(sheet)
    _check_successors(sheet)

"""What to take care of with this very lamp: what is above and beside it, its shade, its remedy."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from wickwright.answers.flames.above_and_beside import above_and_beside
from wickwright.answers.flames.predict_burn import Burns
from wickwright.fit.compiled import LIT
from wickwright.terms.finding import Kind, Quantity
from wickwright.terms.units import say

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickwright.answers.post.one_of_these import Fitted
    from wickwright.catalogue.call_records import Remedy
    from wickwright.terms.units import Units

__all__ = ["carbon_may_form", "care_about", "care_around"]

_BURNABLE: Final = ("cloth", "parchment")
"""Of what a shade may be that browns and burns."""
_STEP: Final = 0.05
"""Distances are said to the next 5 cm up [m]."""
_CARBON: Final = "Carbon may form: turn down at the first dark spot on the glowing web."


def care_around(ways: Sequence[Fitted], units: Units) -> Iterator[str]:
    """Say what must keep away from a lamp that burns, and what its shade is in danger of.

    Parameters
    ----------
    ways : sequence of Fitted
        Each lamp the parts may be for.
    units : Units
        What to print in.

    Yields
    ------
    str
        Sentences: distances for the lamp that needs most, its error bar counted in.
    """
    burning = [one for one in ways if isinstance(one.flame.burns, Burns)]
    if not burning:
        return
    kept = [
        above_and_beside(one.flame.burns.prediction)
        for one in {_seen(one): one for one in burning}.values()
        if isinstance(one.flame.burns, Burns)
    ]
    above = max(one.keep_above.value + one.keep_above.spread for one in kept)
    beside = max(one.keep_beside.value + one.keep_beside.spread for one in kept)
    yield (
        f"Ceiling and wood: at least {_up(above, units)} above the glass, {_up(beside, units)} "
        "beside it."
    )
    for material in dict.fromkeys(_shade_of(one) for one in burning):
        if material:
            yield (
                f"The {material} shade stands in the heat: nowhere near the glass, and the lamp "
                "out if it browns or smells."
            )


def _seen(one: Fitted) -> tuple[str, ...]:
    """Return what the heat of a lamp comes from: lamps with the same are judged once."""
    return tuple(it.part.id for it in one.route.assembly.walk() if it.part.kind in LIT)


def _up(distance: float, units: Units) -> str:
    steps = math.ceil(round(distance / _STEP, 3))
    return say(Quantity(steps * _STEP, Kind.DISTANCE), units)


def _shade_of(one: Fitted) -> str:
    shade = one.route.assembly.of_kind("shade")
    material = (shade.part.material or "") if shade else ""
    return material if material in _BURNABLE else ""


def carbon_may_form(ways: Sequence[Fitted]) -> str:
    """Say that carbon may form at the mark of the wick, where it may and is not sure to."""
    rules = {one.rule for way in ways for one in way.flame.findings}
    return _CARBON if "flame-mark-near" in rules and "flame-mark-carbon" not in rules else ""


def care_about(remedy: Remedy | None) -> str:
    """Say what is done with the parts and what to be careful of, where they cure something."""
    if remedy is None:
        return ""
    caution = f" {remedy.caution[:1].upper()}{remedy.caution[1:]}." if remedy.caution else ""
    return f"{remedy.says}.{caution}"

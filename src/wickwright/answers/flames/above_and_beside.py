"""What may be above a burning lamp and beside it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial
from typing import TYPE_CHECKING, Final

from wickwright.burn.error_bars import Estimate
from wickwright.room.above import Column, column_of
from wickwright.room.nearby import (
    Thing,
    above_findings,
    beside_finding,
    needed_above,
    needed_beside,
)
from wickwright.terms.finding import Kind

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from wickwright.burn.predicting import Prediction
    from wickwright.catalogue.records import Part
    from wickwright.terms.finding import Finding

__all__ = ["RATED_KINDS", "WOOD", "AboveAndBeside", "above_and_beside", "column_over"]

RATED_KINDS: Final = ("shade", "bell")
"""Kinds of part that hang or stand over the flame and may bear a maker's rating."""
WOOD: Final = "wood"
"""What the distances to be kept are given for: walls, shelves and ceilings."""
_LEAST_SHARE = 0.2


@dataclass(frozen=True, slots=True)
class AboveAndBeside:
    """What is above a lamp and beside it.

    Attributes
    ----------
    column : Column
        The gas over the chimney.
    keep_above, keep_beside : Estimate
        Distance that wood must keep from the chimney's top and from the mantle, by the
        greatest of three plume laws and the upper end of the assumed radiant share; error
        bars are those of the heat [m].
    findings : tuple of Finding
        Gravest first.
    """

    column: Column
    keep_above: Estimate
    keep_beside: Estimate
    findings: tuple[Finding, ...]


def column_over(prediction: Prediction) -> Column:
    """Return the gas over the chimney of a burning lamp.

    Parameters
    ----------
    prediction : Prediction
        How the lamp burns.

    Returns
    -------
    Column
        With the exit temperature the flame's balance has. Of the heat 0.7 is taken to rise
        (``nureg1805``): the air that warms along the glass joins what leaves at the top.

    Raises
    ------
    RoomError
        When a number cannot be.
    """
    flames, lamps = prediction.flames, prediction.lamp.lamps
    return column_of(
        heat=float(flames.heat),
        diameter=float(lamps.chimney.body_bore),
        exit_temperature=float(flames.exit_temperature),
        air=float(lamps.air.temperature),
        pressure=float(lamps.air.pressure),
    )


def above_and_beside(
    prediction: Prediction,
    above: Sequence[Thing] = (),
    beside: Sequence[Thing] = (),
    parts: Iterable[Part] = (),
) -> AboveAndBeside:
    """Judge what is above a lamp and beside it.

    Parameters
    ----------
    prediction : Prediction
        How the lamp burns.
    above, beside : sequence of Thing
        What is there: ceiling, shelf, bell; curtain, wall.
    parts : iterable of Part
        What is on the lamp: shades and bells that bear a rating are held to it.

    Returns
    -------
    AboveAndBeside
        Findings, and the distances wood must keep.

    Raises
    ------
    RoomError
        When there is no limit for a material, or the room is hotter than it.
    """
    column = column_over(prediction)
    rated = tuple(_thing(part, column) for part in parts if _is_rated(part))
    found = [*above_findings(column, (*above, *rated))]
    found += [beside_finding(column.heat, it, column.air, column.pressure) for it in beside]
    return AboveAndBeside(
        column=column,
        keep_above=_kept(prediction, partial(_above, column)),
        keep_beside=_kept(prediction, partial(_beside, column)),
        findings=tuple(sorted(found, key=lambda finding: -finding.severity)),
    )


def _is_rated(part: Part) -> bool:
    return part.kind in RATED_KINDS and part.heat_rating is not None


def _thing(part: Part, column: Column) -> Thing:
    """Take a rated part for a thing at the edge of the hottest gas."""
    name = f"{part.name} ({part.id})"
    return Thing(name, part.material or "", column.zone, part.heat_rating, part.id)


# -- distances to be kept ------------------------------------------------------------------------


def _kept(prediction: Prediction, needed: Callable[[float], float]) -> Estimate:
    """Carry the doubt of the heat over to a distance that follows from it [m]."""
    heat = prediction["heat"]
    least = max(_LEAST_SHARE * heat.value, heat.value - heat.spread)
    most = heat.value + heat.spread
    slope = (needed(most) - needed(least)) / (most - least) if most > least else 0.0
    drivers = tuple(replace(one, change=one.change * slope) for one in heat.drivers)
    return Estimate(needed(heat.value), abs(slope) * heat.spread, Kind.DISTANCE, drivers)


def _above(column: Column, heat: float) -> float:
    """Return what wood must keep above a lamp of another heat and the same gas."""
    share = column.rising / column.heat
    return float(needed_above(replace(column, heat=heat, rising=share * heat), WOOD))


def _beside(column: Column, heat: float) -> float:
    return float(needed_beside(heat, WOOD, column.air, column.pressure))

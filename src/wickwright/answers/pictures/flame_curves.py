"""A lamp's flame over elevations and over chimney heights, for charts.

The level of the light is known far less well than how chimneys and places compare: what is
not known of the mantle bears on all of them alike. Error bars here are therefore those of the
comparison with the lamp's own chimney at sea level, and are said to be.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

import numpy as np

from wickwright.burn.error_bars import values_and_spreads
from wickwright.burn.flames import solve
from wickwright.burn.heights import at_elevations
from wickwright.burn.parts import FULLEST, columned, with_leaf
from wickwright.fit.joints.verdict import ACCEPTED

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from numpy.typing import NDArray

    from wickwright.answers.flames.predict_burn import Burns
    from wickwright.burn.lamp import BurningLamp, Input
    from wickwright.burn.parts import Lamps
    from wickwright.catalogue.records import Part
    from wickwright.fit.compiled import Compiled

    Floats = NDArray[np.float64]

__all__ = ["Curve", "chimneys_beside", "over_elevations", "over_heights"]

_SECTIONS: Final = ("height", "foot_bore", "foot_length", "body_bore", "wall")
_ALIKE: Final = 3e-3  # m, heights this near draw alike
_MOST: Final = 3


@dataclass(frozen=True, slots=True)
class Curve:
    """One line of figures.

    Attributes
    ----------
    name : str
        What it is of.
    along : array
        Where the figures are: elevation, or height of the chimney [m].
    light, fuel, margin : array
        Light [lm] and fuel [kg/s] of the fullest clean flame, and the air to spare of a wick
        left as the lamp's own chimney allows at sea level [-].
    light_spread, fuel_spread, margin_spread : array
        One standard uncertainty of each beside the lamp's own chimney at sea level.
    """

    name: str
    along: Floats
    light: Floats
    fuel: Floats
    margin: Floats
    light_spread: Floats
    fuel_spread: Floats
    margin_spread: Floats


def chimneys_beside(compiled: Compiled, burns: Burns) -> tuple[Part, ...]:
    """Return chimneys of other heights that the lamp could carry as it stands.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    burns : Burns
        How the lamp burns.

    Returns
    -------
    tuple of Part
        That fit the same seat, are of the same glass, can be had and stand its heat; at most
        three with the lamp's own, which comes first, then the tallest. Of those that draw
        alike the cheapest is named.
    """
    own = burns.prediction.lamp.chimney
    chosen = [own]
    for part in sorted(_others(compiled, burns), key=lambda one: one.price or 0):
        if all(abs((part.height or 0.0) - (it.height or 0.0)) > _ALIKE for it in chosen):
            chosen.append(part)
    others = sorted(chosen[1:], key=lambda one: -(one.height or 0.0))
    return (own, *others[: _MOST - 1])


def _others(compiled: Compiled, burns: Burns) -> Iterator[Part]:
    gallery = burns.seat.gallery if burns.seat else None
    own, heat = burns.prediction.lamp.chimney, burns.prediction["heat"].value
    if gallery is None:
        return
    on = next(port for port in gallery.carries if "chimney" in port.takes)
    for part in compiled.book.parts.values():
        rated = part.heat_rating is None or part.heat_rating >= heat
        alike = part.kind == "chimney" and part.material == own.material
        if alike and part.height is not None and part.price and rated:
            best = compiled.joiner.best(gallery, on, part)
            if best is not None and best[1].fit in ACCEPTED:
                yield part


def _under(lamps: Lamps, own: Lamps, other: Lamps) -> Lamps:
    """Put another chimney on lamps whose numbers were moved; it errs as the own one does."""
    for name in _SECTIONS:
        leaf = f"chimney.{name}"
        moved = np.asarray(getattr(lamps.chimney, name)) - getattr(own.chimney, name)
        lamps = with_leaf(lamps, leaf, np.asarray(getattr(other.chimney, name) + moved))
    return lamps


def _figures(lamps: Lamps, left: Floats, reference: Floats) -> Mapping[str, Floats]:
    """Return light over a reference light, fuel over the fuel it is left at, and the margin."""
    fullest = solve(replace(lamps, fuel=FULLEST))
    alone = solve(replace(lamps, fuel=left[:, None]))
    return {
        "light": np.asarray(fullest.light) / reference[:, None],
        "fuel": np.asarray(fullest.fuel) / left[:, None],
        "margin": np.asarray(alone.margin),
    }


def _curve(
    lamp: BurningLamp, other: Lamps, along: Floats, places: _Places, inputs: Sequence[Input]
) -> Curve:
    own = replace(lamp.lamps, fuel=FULLEST)
    base = solve(at_elevations(own, np.zeros(1)))
    light, fuel = (float(np.asarray(one)[0]) for one in (base.light, base.fuel))

    def answers(moved: Lamps) -> Mapping[str, Floats]:
        low = columned(moved)
        start = solve(at_elevations(low, np.zeros(1)))
        left, bright = (np.asarray(one)[..., 0] for one in (start.fuel, start.light))
        return _figures(places.put(columned(_under(moved, own, other))), left, bright)

    found = values_and_spreads(own, inputs, answers)
    return Curve(
        places.name,
        along,
        light * found["light"][0],
        fuel * found["fuel"][0],
        found["margin"][0],
        light * found["light"][1],
        fuel * found["fuel"][1],
        found["margin"][1],
    )


@dataclass(frozen=True, slots=True)
class _Places:
    """Where a curve is taken: at elevations, or at one elevation under chimney heights."""

    name: str
    elevations: Floats
    heights: Floats | None = None

    def put(self, lamps: Lamps) -> Lamps:
        """Lay lamps out along the curve."""
        if self.heights is not None:
            lamps = with_leaf(lamps, "chimney.height", self.heights)
        return at_elevations(lamps, self.elevations)


_NOT_COMPARED: Final = frozenset({"air.pressure"})
"""Numbers that an elevation stands for itself."""


def _compared(lamp: BurningLamp, *left_out: str) -> list[Input]:
    dropped = {*_NOT_COMPARED, *left_out}
    return [one for one in lamp.inputs if one.name not in dropped]


def over_elevations(
    lamp: BurningLamp, chimneys: Sequence[tuple[str, BurningLamp]], elevations: Floats
) -> tuple[Curve, ...]:
    """Return the flame of a lamp over elevations, a curve for each chimney.

    Parameters
    ----------
    lamp : BurningLamp
        The lamp with its own chimney.
    chimneys : sequence of (str, BurningLamp)
        Names, and the same lamp under each of the chimneys.
    elevations : array
        Above sea level [m].

    Returns
    -------
    tuple of Curve
        One for each chimney, in a heated room.

    Raises
    ------
    BurnError
        When an elevation is out of range.
    """
    inputs = _compared(lamp)
    return tuple(
        _curve(lamp, under.lamps, elevations, _Places(name, elevations), inputs)
        for name, under in chimneys
    )


def over_heights(
    lamp: BurningLamp, heights: Floats, places: Sequence[tuple[str, float]]
) -> tuple[Curve, ...]:
    """Return the flame of a lamp over heights of its chimney, a curve for each place.

    Parameters
    ----------
    lamp : BurningLamp
        The lamp; its chimney lends the bores.
    heights : array
        Of the chimney [m].
    places : sequence of (str, float)
        Names, and elevations [m].

    Returns
    -------
    tuple of Curve
        One for each place, in a heated room.

    Raises
    ------
    BurnError
        When an elevation is out of range.
    """
    inputs = _compared(lamp, "chimney.height")
    return tuple(
        _curve(
            lamp,
            lamp.lamps,
            heights,
            _Places(name, np.full(heights.shape, elevation), heights),
            inputs,
        )
        for name, elevation in places
    )

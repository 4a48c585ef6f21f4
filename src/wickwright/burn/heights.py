"""What another chimney height, or another elevation, does to a flame."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

import numpy as np

from wickwright.burn.checks import LIMITS, BurnError
from wickwright.burn.error_bars import Estimate, estimates
from wickwright.burn.flames import Flames, solve
from wickwright.burn.parts import FULLEST, Lamps, columned, with_leaf
from wickwright.burn.ready import air_here
from wickwright.physics.air import pressure_at, temperature_at
from wickwright.terms.finding import Kind
from wickwright.terms.units import ELEVATION_RANGE

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from wickwright.burn.lamp import BurningLamp, Input

    Floats = NDArray[np.float64]

__all__ = [
    "ALL_LAMINAR",
    "ALL_TURBULENT",
    "RULE_OF_THUMB",
    "Restoring",
    "Taller",
    "at_elevations",
    "of_heights",
    "restoring",
    "taller",
    "with_regime",
]

RULE_OF_THUMB: Final = 914.4
"""Elevation above which a taller chimney is recommended [m]: 3,000 ft, ``practice``."""
ALL_TURBULENT: Final = 0.0
ALL_LAMINAR: Final = 1.0
"""Share of a burner's pressure loss that is laminar, at its ends [-]."""

_ROOMS = ("heated", "standard")
_GRID = 61
_GAINS = {"light": Kind.RATIO, "fuel": Kind.RATIO, "air": Kind.RATIO}


@dataclass(frozen=True, slots=True)
class Taller:
    """What a taller chimney does, both flames at their fullest.

    Attributes
    ----------
    light, fuel, air : Estimate
        Gain over the shorter one [-]: 0.1 is 10 % more.
    turbulent, laminar : dict of str to float
        The same gains were the burner's loss all turbulent, or all laminar, with the shorter
        chimney's air flow unchanged [-].
    """

    light: Estimate
    fuel: Estimate
    air: Estimate
    turbulent: dict[str, float]
    laminar: dict[str, float]


@dataclass(frozen=True, slots=True)
class Restoring:
    """Where a taller chimney gives back the air flow that the shorter one has at sea level.

    Attributes
    ----------
    elevation : Estimate
        Above sea level [m].
    room : str
        ``'heated'``: the room's temperature stays; ``'standard'``: it is that of the standard
        atmosphere outside.
    from_rule : float
        Elevation less :data:`RULE_OF_THUMB` [m].
    why : str
        What the two have to do with each other.
    """

    elevation: Estimate
    room: str
    from_rule: float
    why: str


def at_elevations(lamps: Lamps, elevations: Floats, room: str = "heated") -> Lamps:
    """Return lamps along an axis of elevations.

    Parameters
    ----------
    lamps : Lamps
        One state, or states along other axes.
    elevations : array
        Above sea level [m]; its shape is put as it is.
    room : str
        ``'heated'`` keeps the room's temperature, ``'standard'`` takes that of the standard
        atmosphere (``usstd1976``).

    Returns
    -------
    Lamps
        The same otherwise.

    Raises
    ------
    BurnError
        When an elevation is out of range, or the room is neither.
    """
    low, high = ELEVATION_RANGE
    if room not in _ROOMS:
        msg = f"'{room}' is not a kind of room: give {' or '.join(map(repr, _ROOMS))}"
        raise BurnError(msg)
    wrong = elevations[~((elevations >= low) & (elevations <= high))]
    if wrong.size:
        msg = (
            f"an elevation of {wrong.flat[0]:.0f} m is outside {low:.0f} m (the lowest shore) to "
            f"{high:.0f} m (the highest dwellings): check the figure and its unit"
        )
        raise BurnError(msg)
    air = replace(lamps.air, pressure=pressure_at(elevations))
    if room == "standard":
        air = replace(air, temperature=temperature_at(elevations))
    return replace(lamps, air=air)


def of_heights(lamp: BurningLamp, heights: Floats, *, workers: int = 1) -> Flames:
    """Return the flames of a lamp under chimneys of its own shape and other heights.

    Parameters
    ----------
    lamp : BurningLamp
        The lamp.
    heights : array
        Heights of the chimney [m].
    workers : int
        Threads to use.

    Returns
    -------
    Flames
        At the fullest clean flame, along the axis of heights.
    """
    return solve(with_leaf(lamp.lamps, "chimney.height", heights), workers=workers)


def _unhindered(lamps: Lamps) -> Lamps:
    """Return lamps at their fullest flame with a wick that never falls short."""
    free = replace(lamps.wick, limit=LIMITS["wick.limit"].high)
    return replace(lamps, wick=free, fuel=FULLEST)


def with_regime(lamps: Lamps, laminar: float) -> Lamps:
    """Return lamps whose burner passes the same air with another kind of resistance.

    Parameters
    ----------
    lamps : Lamps
        One state.
    laminar : float
        Share of the burner's pressure loss that is laminar [-], 0 all turbulent to 1 all
        laminar.

    Returns
    -------
    Lamps
        With the same air flow and loss at the fullest flame.
    """
    flow = float(solve(_unhindered(lamps)).air_flow)
    here, passages = air_here(lamps.air), lamps.passages
    speed = flow / (here.density * passages.area)
    quadratic = 0.5 * here.density * speed**2  # Pa for each head
    linear = here.viscosity * flow / here.density  # Pa for each 1/m3
    total = float(quadratic * passages.loss + linear * passages.laminar)
    changed = replace(
        passages,
        loss=(1.0 - laminar) * total / float(quadratic),
        laminar=laminar * total / float(linear),
    )
    return replace(lamps, passages=changed)


def _gains(lamps: Lamps, height: float, shorter: float) -> dict[str, Floats]:
    """Return the gains of one height over another for lamps along an axis."""
    scale = np.asarray(lamps.chimney.height) / shorter
    low = solve(lamps)
    high = solve(with_leaf(lamps, "chimney.height", scale * height))
    pairs = (("light", "light"), ("fuel", "fuel"), ("air", "air_flow"))
    return {
        name: np.asarray(getattr(high, of)) / np.asarray(getattr(low, of)) - 1.0
        for name, of in pairs
    }


def taller(lamp: BurningLamp, height: float) -> Taller:
    """Return what a chimney of another height does to the fullest clean flame.

    Parameters
    ----------
    lamp : BurningLamp
        The lamp with the chimney it has.
    height : float
        Height of the other chimney, of the same bores [m].

    Returns
    -------
    Taller
        Gains with error bars, and at both ends of what the burner's resistance could be.
    """
    shorter = float(lamp.lamps.chimney.height)
    lamps = replace(lamp.lamps, fuel=FULLEST)
    found = estimates(lamps, lamp.inputs, lambda some: _gains(some, height, shorter), _GAINS)
    ends = [
        {k: float(v) for k, v in _gains(with_regime(lamps, share), height, shorter).items()}
        for share in (ALL_TURBULENT, ALL_LAMINAR)
    ]
    return Taller(found["light"], found["fuel"], found["air"], ends[0], ends[1])


def _crossings(flows: Floats, wanted: Floats, elevations: Floats) -> Floats:
    """Return where falling flows meet what is wanted, by straight lines; NaN where never."""
    over = flows >= wanted[..., None]
    last = over.sum(axis=-1) - 1
    inside = (last >= 0) & (last < flows.shape[-1] - 1)
    at = np.clip(last, 0, flows.shape[-1] - 2)
    rows = np.arange(len(flows))
    high, low = flows[rows, at], flows[rows, at + 1]
    share = (high - wanted) / (high - low)
    found = elevations[at] + share * (elevations[at + 1] - elevations[at])
    return np.where(inside, found, np.nan)


def _meeting(lamps: Lamps, height: float, shorter: float, room: str) -> dict[str, Floats]:
    """Return the elevation asked for, for lamps along an axis."""
    elevations = np.linspace(*ELEVATION_RANGE, _GRID)
    lamps = columned(_unhindered(lamps))
    wanted = solve(at_elevations(lamps, np.zeros(1), room)).air_flow
    scale = np.asarray(lamps.chimney.height) / shorter
    tall = with_leaf(lamps, "chimney.height", scale * height)
    flows = np.asarray(solve(at_elevations(tall, elevations, room)).air_flow)
    return {"elevation": _crossings(flows, np.asarray(wanted)[..., 0], elevations)}


def _why(room: str) -> str:
    """Say what sets the answer, and what the rule of thumb leaves out."""
    warm = (
        "A heated room keeps its warmth, so that its air thins with the pressure alone."
        if room == "heated"
        else "A room as cool as the standard atmosphere outside has denser air than a heated "
        "one, so that the shorter chimney draws well to a greater height."
    )
    return (
        f"{warm} The top of a taller chimney is its coolest part and adds less draft than its "
        "length, which brings the answer down. The rule of thumb is one round figure for all "
        "lamps and rooms, and an owner is told it when the loss of light is plain to see, not "
        "when it begins."
    )


def restoring(lamp: BurningLamp, height: float, room: str = "heated") -> Restoring:
    """Return the elevation at which a taller chimney gives back the shorter one's sea-level air.

    Parameters
    ----------
    lamp : BurningLamp
        The lamp with the shorter chimney.
    height : float
        Height of the taller one, of the same bores [m].
    room : str
        ``'heated'`` or ``'standard'``: see :class:`Restoring`.

    Returns
    -------
    Restoring
        Both flames at their fullest, the wick never falling short. NaN where no elevation the
        desk answers for does it.

    Raises
    ------
    BurnError
        When the other chimney is not taller, or the room is of no known kind.
    """
    shorter = float(lamp.lamps.chimney.height)
    if height <= shorter:
        msg = (
            f"a chimney of {1000.0 * height:.0f} mm is not taller than the lamp's own of "
            f"{1000.0 * shorter:.0f} mm, so it gives nothing back: name a taller one"
        )
        raise BurnError(msg)
    left_out = {"air.pressure", *(("air.temperature",) if room == "standard" else ())}
    inputs: Sequence[Input] = [one for one in lamp.inputs if one.name not in left_out]
    kinds = {"elevation": Kind.ELEVATION}
    found = estimates(
        lamp.lamps, inputs, lambda some: _meeting(some, height, shorter, room), kinds
    )["elevation"]
    return Restoring(found, room, found.value - RULE_OF_THUMB, _why(room))

"""How much air a room needs, and how wide something must stand open for it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickwright.physics.air import GRAVITY
from wickwright.room.air import Air, Room, air_settled, humidity_of, rates
from wickwright.room.box import change_that_holds, time_to_reach
from wickwright.room.checks import Bound, demand

if TYPE_CHECKING:
    from wickwright.room.burning import Exchange
    from wickwright.room.limits import Limit

__all__ = [
    "CPSC_GAP",
    "HOMES",
    "Homes",
    "change_needed",
    "flow_through_opening",
    "limit_as_share",
    "opening_needed",
    "reading",
    "settled_reading",
    "time_until",
]

CPSC_GAP: Final = 0.0254
"""With the door shut, a window to outside open about this much [m]; ``cpsc5052``, written for
kerosene heaters."""


@dataclass(frozen=True, slots=True)
class Homes:
    """Air changes measured in homes.

    Attributes
    ----------
    where : str
        What was measured.
    median : float
        Half the homes have less [1/s].
    source : str
        Key of the bibliography.
    """

    where: str
    median: float
    source: str


HOMES: Final = (
    Homes("living rooms of 126 houses", 0.57 / 3600.0, "du2012"),
    Homes("bedrooms of 126 houses", 1.23 / 3600.0, "du2012"),
    Homes("homes of three US cities", 0.71 / 3600.0, "rates2010"),
)
"""What a room's air change may be where nobody measured it. Half the homes have less."""


def limit_as_share(limit: Limit, room: Room) -> float:
    """Return a limit as the share of the room's air that it allows.

    Parameters
    ----------
    limit : Limit
        Of a gas or of the humidity.
    room : Room
        The room.

    Returns
    -------
    float
        Share of the air [-].
    """
    if limit.gas != "humidity":
        return limit.value
    one = humidity_of(Air(0.0, 0.0, 1.0), room.temperature, room.pressure)
    return limit.value / one


def _gas(limit: Limit) -> str:
    return "water vapour" if limit.gas == "humidity" else limit.gas


def reading(limit: Limit, room: Room, air: Air) -> float:
    """Return what a limit is held against.

    Parameters
    ----------
    limit : Limit
        Of a gas or of the humidity.
    room : Room
        The room.
    air : Air
        Its air.

    Returns
    -------
    float
        Share of the gas, or relative humidity [-].
    """
    if limit.gas == "humidity":
        return humidity_of(air, room.temperature, room.pressure)
    return air.of(limit.gas)


def settled_reading(limit: Limit, room: Room, exchange: Exchange) -> float | None:
    """Return what a limit is held against when the room has settled.

    Parameters
    ----------
    limit : Limit
        Of a gas or of the humidity.
    room : Room
        The room.
    exchange : Exchange
        All sources together.

    Returns
    -------
    float or None
        Share of the gas, or relative humidity [-]; None for a sealed room, which never
        settles.
    """
    if room.change == 0.0:
        return None
    return reading(limit, room, air_settled(room, exchange))


def time_until(
    limit: Limit, room: Room, exchange: Exchange, start: Air | None = None
) -> float | None:
    """Return how long until a room's air passes a limit.

    Parameters
    ----------
    limit : Limit
        Of a gas or of the humidity. The moment is meant, not the mean over the limit's time:
        the mean passes later.
    room : Room
        The room.
    exchange : Exchange
        All sources together.
    start : Air or None
        The air at the start; None for aired through.

    Returns
    -------
    float or None
        Time [s], zero when it starts beyond the limit; None when it never passes.
    """
    gas, allowed = _gas(limit), limit_as_share(limit, room)
    first = (start or room.outside).of(gas)
    if (first < allowed) if limit.at_least else (first > allowed):
        return 0.0
    return time_to_reach(
        start=first,
        outside=room.outside.of(gas),
        source=rates(room, exchange).of(gas),
        change=room.change,
        limit=allowed,
    )


def change_needed(
    limit: Limit, room: Room, exchange: Exchange, time: float | None = None
) -> float | None:
    """Return the least air change that keeps a room within a limit.

    Parameters
    ----------
    limit : Limit
        Of a gas or of the humidity.
    room : Room
        The room; its own air change does not count.
    exchange : Exchange
        All sources together.
    time : float or None
        How long it must hold, from an aired room [s]; None for ever.

    Returns
    -------
    float or None
        Air changes [1/s]; None when the air outside is itself beyond the limit.
    """
    gas = _gas(limit)
    return change_that_holds(
        start=room.outside.of(gas),
        outside=room.outside.of(gas),
        source=rates(room, exchange).of(gas),
        limit=limit_as_share(limit, room),
        time=time,
    )


def flow_through_opening(area: float, height: float, inside: float, outside: float) -> float:
    """Return the air that warmth alone drives through one upright opening.

    Parameters
    ----------
    area : float
        Area of the opening [m2].
    height : float
        Height of the opening, from its lower to its upper edge [m].
    inside, outside : float
        Temperatures on its two sides [K].

    Returns
    -------
    float
        Air in, and as much out [m3/s].

    Raises
    ------
    RoomError
        When a size is not above zero.

    Notes
    -----
    C A/3 sqrt(g H dT/T), warm air leaving above and cold air entering below, with
    C = 0.40 + 0.0045 dT of ``ashrae-opening``. On a still day; wind brings more or less.
    """
    demand(
        Bound("area of the opening", area, 1e-6, 100.0, "m2", "Multiply its width and height"),
        Bound("height of the opening", height, 1e-3, 20.0, "m", "Measure from edge to edge"),
    )
    difference = abs(inside - outside)
    push = math.sqrt(GRAVITY * height * difference / max(inside, outside))
    return (0.40 + 0.0045 * difference) * area / 3.0 * push


def opening_needed(flow: float, height: float, inside: float, outside: float) -> float | None:
    """Return the area of one upright opening that lets a flow of air through.

    Parameters
    ----------
    flow : float
        Air wanted [m3/s].
    height : float
        Height of the opening [m].
    inside, outside : float
        Temperatures on its two sides [K].

    Returns
    -------
    float or None
        Area [m2]; None where it is as warm outside as in, for then only wind moves air.

    Raises
    ------
    RoomError
        When the height is not above zero.

    Notes
    -----
    The inverse of :func:`flow_through_opening`.
    """
    through = flow_through_opening(1.0, height, inside, outside)
    return flow / through if through > 0.0 else None

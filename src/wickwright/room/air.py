"""The air of a room over hours: carbon dioxide, oxygen and water vapour."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickwright.physics.humidity import saturation_pressure
from wickwright.room.box import share_after, share_settled
from wickwright.room.burning import Exchange
from wickwright.room.checks import Bound, RoomError, demand

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

__all__ = [
    "GASES",
    "OUTDOOR_CARBON_DIOXIDE",
    "Air",
    "Room",
    "air_after",
    "air_over",
    "air_settled",
    "humidity_of",
    "outdoor_air",
    "rates",
]

OUTDOOR_CARBON_DIOXIDE: Final = 420e-6
"""Carbon dioxide of outdoor air [-]; about that of 2022, an assumption."""
_DRY_OXYGEN: Final = 0.20946  # usstd1976
_MOLAR_GAS_CONSTANT: Final = 8.314462618  # J/(mol K), codata2018
GASES: Final = {"carbon dioxide": 0.0440095, "oxygen": 0.0319988, "water vapour": 0.01801528}
"""Molar mass of each gas that is followed [kg/mol]."""


@dataclass(frozen=True, slots=True)
class Air:
    """Air by volume.

    Attributes
    ----------
    carbon_dioxide, oxygen, water : float
        Share of the air, water vapour counted in [-].
    """

    carbon_dioxide: float
    oxygen: float
    water: float

    def of(self, gas: str) -> float:
        """Return the share of one of :data:`GASES` [-]."""
        match gas:
            case "carbon dioxide":
                return self.carbon_dioxide
            case "oxygen":
                return self.oxygen
            case _:
                return self.water


def outdoor_air(
    temperature: float,
    humidity: float,
    pressure: float,
    carbon_dioxide: float = OUTDOOR_CARBON_DIOXIDE,
) -> Air:
    """Return the air outside.

    Parameters
    ----------
    temperature : float
        Outdoor temperature [K].
    humidity : float
        Relative humidity there [-].
    pressure : float
        Air pressure [Pa].
    carbon_dioxide : float
        Share of the air [-].

    Returns
    -------
    Air
        With the oxygen of dry air, thinned by the vapour.

    Notes
    -----
    ``ashrae-psychrometrics`` for the vapour, ``usstd1976`` for the oxygen.
    """
    water = humidity * float(saturation_pressure(temperature)) / pressure
    return Air(carbon_dioxide, _DRY_OXYGEN * (1.0 - water), water)


@dataclass(frozen=True, slots=True)
class Room:
    """A room with its doors and windows as they are.

    Attributes
    ----------
    volume : float
        What it holds, furniture left out [m3].
    change : float
        Air changes, zero for a sealed room [1/s].
    temperature : float
        Temperature of its air [K].
    pressure : float
        Air pressure [Pa].
    outside : Air
        The air that comes in.
    """

    volume: float
    change: float
    temperature: float
    pressure: float
    outside: Air

    def __post_init__(self) -> None:
        """Refuse what is no room, all faults at once."""
        demand(
            Bound(
                "volume of the room",
                self.volume,
                0.5,
                1e5,
                "m3",
                "Multiply length, width and height of the room, in metres",
            ),
            Bound(
                "air change of the room",
                self.change * 3600.0,
                0.0,
                100.0,
                "an hour",
                "A closed room in a house has 0.2 to 1, one with a window open 2 to 10",
            ),
            Bound(
                "temperature of the room",
                self.temperature,
                253.15,
                323.15,
                "K",
                "Give kelvin: 293.15 is 20 °C",
            ),
            Bound(
                "air pressure",
                self.pressure,
                45e3,
                110e3,
                "Pa",
                "Give pascal at the place, not reduced to sea level",
            ),
        )

    @property
    def molar_volume(self) -> float:
        """Volume of a mole of the room's air [m3/mol]."""
        return _MOLAR_GAS_CONSTANT * self.temperature / self.pressure


def rates(room: Room, exchange: Exchange) -> Air:
    """Return how fast sources would change each share in a sealed room.

    Parameters
    ----------
    room : Room
        The room.
    exchange : Exchange
        All sources together.

    Returns
    -------
    Air
        Volume of gas over the volume of the room, oxygen below zero [1/s].
    """
    per_mole = room.molar_volume / room.volume
    return Air(
        exchange.carbon_dioxide / GASES["carbon dioxide"] * per_mole,
        -exchange.oxygen / GASES["oxygen"] * per_mole,
        exchange.water / GASES["water vapour"] * per_mole,
    )


def _each(room: Room, start: Air, source: Air, time: float) -> Air:
    out, change = room.outside, room.change
    shares = (
        share_after(start=c0, outside=co, source=s, change=change, time=time)
        for c0, co, s in (
            (start.carbon_dioxide, out.carbon_dioxide, source.carbon_dioxide),
            (start.oxygen, out.oxygen, source.oxygen),
            (start.water, out.water, source.water),
        )
    )
    return Air(*shares)


def air_after(room: Room, exchange: Exchange, time: float, start: Air | None = None) -> Air:
    """Return the room's air after a time of steady burning and breathing.

    Parameters
    ----------
    room : Room
        The room.
    exchange : Exchange
        All sources together.
    time : float
        Time since the start [s].
    start : Air or None
        The air at the start; None for aired through.

    Returns
    -------
    Air
        As if no vapour settled on anything: a humidity above 1 means wet walls.

    Notes
    -----
    :func:`~wickwright.room.box.share_after` for each gas, ``box``.
    """
    return _each(room, start or room.outside, rates(room, exchange), time)


def air_settled(room: Room, exchange: Exchange) -> Air:
    """Return the air the room comes to in the end.

    Parameters
    ----------
    room : Room
        The room, not sealed.
    exchange : Exchange
        All sources together.

    Returns
    -------
    Air
        As if no vapour settled on anything.

    Raises
    ------
    RoomError
        When no air comes in: then a room never settles.
    """
    source, out, change = rates(room, exchange), room.outside, room.change
    return Air(
        share_settled(outside=out.carbon_dioxide, source=source.carbon_dioxide, change=change),
        share_settled(outside=out.oxygen, source=source.oxygen, change=change),
        share_settled(outside=out.water, source=source.water, change=change),
    )


def air_over(
    room: Room,
    sources: Callable[[Air], Exchange],
    times: Sequence[float],
    *,
    start: Air | None = None,
    step: float = 120.0,
) -> tuple[Air, ...]:
    """Return the room's air at given times where the sources depend on the air.

    Parameters
    ----------
    room : Room
        The room.
    sources : callable
        Gives all sources together, from the air they burn and breathe in.
    times : sequence of float
        When the air is asked for, rising, from zero [s].
    start : Air or None
        The air at time zero; None for aired through.
    step : float
        Longest step [s].

    Returns
    -------
    tuple of Air
        One for each time.

    Raises
    ------
    RoomError
        When the times run backwards or the step is not above zero.

    Notes
    -----
    Each step is the closed form with the mean of the rates at its start and at its foreseen
    end, so that steady rates come out exact whatever the step, and the error falls with the
    square of the step.
    """
    demand(Bound("step", step, 1e-3, math.inf, "s", "Take a minute or two"))
    if any(late < early for early, late in zip((0.0, *times), times, strict=False)):
        raise RoomError(["The times run backwards; allowed is zero or later, rising. Sort them."])
    air, now, found = start or room.outside, 0.0, []
    for until in times:
        count = max(1, math.ceil((until - now) / step))
        for _ in range(count):
            air = _stepped(room, sources, air, (until - now) / count)
        now = until
        found.append(air)
    return tuple(found)


def _stepped(room: Room, sources: Callable[[Air], Exchange], air: Air, step: float) -> Air:
    first = sources(air)
    foreseen = _each(room, air, rates(room, first), step)
    last = sources(foreseen)
    mean = Exchange(
        0.5 * (first.carbon_dioxide + last.carbon_dioxide),
        0.5 * (first.water + last.water),
        0.5 * (first.oxygen + last.oxygen),
    )
    return _each(room, air, rates(room, mean), step)


def humidity_of(air: Air, temperature: float, pressure: float) -> float:
    """Return the relative humidity of air.

    Parameters
    ----------
    air : Air
        The air.
    temperature : float
        Its temperature [K].
    pressure : float
        Air pressure [Pa].

    Returns
    -------
    float
        Relative humidity [-]; above 1 where the vapour would settle.

    Notes
    -----
    Vapour pressure over saturation pressure, ``ashrae-psychrometrics``.
    """
    return air.water * pressure / float(saturation_pressure(temperature))

"""The air a lamp burns in: from where it stands to the air of its flame."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from wickwright.burn.checks import LIMITS, checked_air
from wickwright.burn.parts import Air
from wickwright.fit.place import Place
from wickwright.physics.air import elevation_at
from wickwright.physics.combustion import AIR
from wickwright.terms.units import ELEVATION_RANGE

__all__ = ["INDOORS", "RoomAir", "standing_air", "standing_place"]


@dataclass(frozen=True, slots=True)
class RoomAir:
    """The air of the room, but for its pressure, which is that of the place.

    Attributes
    ----------
    temperature : float
        Of the room [K].
    humidity : float
        Relative humidity [-].
    oxygen, carbon_dioxide : float
        Mole fractions in the dry air [-].
    """

    temperature: float = 293.15
    humidity: float = 0.5
    oxygen: float = AIR["O2"]
    carbon_dioxide: float = AIR["CO2"]


INDOORS: Final = RoomAir()
"""A heated room with fresh air."""


def standing_place(elevation: float | None = None, pressure: float | None = None) -> Place:
    """Return where a lamp stands.

    Parameters
    ----------
    elevation : float or None
        Above sea level [m].
    pressure : float or None
        Read from a barometer there, not reduced to sea level [Pa].

    Returns
    -------
    Place
        At sea level when nothing is given. With a pressure alone the elevation is that of the
        standard atmosphere (``usstd1976``), and only for words.

    Raises
    ------
    ValueError
        When a figure is none that anyone can mean.
    """
    low, high = ELEVATION_RANGE
    if elevation is not None and not low <= elevation <= high:
        msg = (
            f"an elevation of {elevation} m is outside {low:.0f} m (the lowest shore) to "
            f"{high:.0f} m (the highest dwellings): give metres as a number"
        )
        raise ValueError(msg)
    if pressure is None:
        return Place(elevation or 0.0)
    least, most = LIMITS["air.pressure"].low, LIMITS["air.pressure"].high
    if not least <= pressure <= most:
        msg = (
            f"an air pressure of {pressure:g} Pa is outside {least:.0f} Pa (a storm over the "
            f"highest dwellings) to {most:.0f} Pa (the lowest shore in fine weather): give pascals "
            "as a barometer shows them where the lamp stands, not reduced to sea level"
        )
        raise ValueError(msg)
    return Place(elevation_at(pressure) if elevation is None else elevation, pressure)


def standing_air(place: Place, room: RoomAir = INDOORS) -> Air:
    """Return the air a flame burns in.

    Parameters
    ----------
    place : Place
        Where the lamp stands.
    room : RoomAir
        The room it stands in.

    Returns
    -------
    Air
        Of the place's pressure and the room's warmth, damp and composition.

    Raises
    ------
    BurnError
        With every number of the room that cannot be.
    """
    return checked_air(
        Air(place.pressure, room.temperature, room.humidity, room.oxygen, room.carbon_dioxide)
    )

"""What a burning lamp and a breathing person give to the room's air and take from it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickwright.physics.combustion import (
    KEROSENE,
    carbon_dioxide_yield,
    oxygen_demand,
    water_yield,
)
from wickwright.room.checks import Bound, demand

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wickwright.physics.combustion import Fuel

__all__ = ["Burning", "Exchange", "burning_of_fuel", "burning_of_heat", "together"]

_CURE = "Give what the lamp burns, zero when it is out"
_ALL: Final = math.inf


@dataclass(frozen=True, slots=True)
class Exchange:
    """What a source gives to the air of a room and takes from it.

    Attributes
    ----------
    carbon_dioxide, water : float
        Given off [kg/s].
    oxygen : float
        Taken [kg/s].
    """

    carbon_dioxide: float = 0.0
    water: float = 0.0
    oxygen: float = 0.0

    def __post_init__(self) -> None:
        """Refuse a source that runs backwards."""
        cure = "Give the amount as a positive number: oxygen is what is taken from the air"
        demand(
            Bound("carbon dioxide given off", self.carbon_dioxide, 0.0, _ALL, "kg/s", cure),
            Bound("water given off", self.water, 0.0, _ALL, "kg/s", cure),
            Bound("oxygen taken", self.oxygen, 0.0, _ALL, "kg/s", cure),
        )


@dataclass(frozen=True, slots=True)
class Burning:
    """One lamp as the room feels it.

    Attributes
    ----------
    heat : float
        Heat given off [W].
    fuel : float
        Fuel burnt [kg/s].
    exchange : Exchange
        What it gives to the air and takes from it.
    """

    heat: float
    fuel: float
    exchange: Exchange

    def __post_init__(self) -> None:
        """Refuse a flame that gives fuel back."""
        demand(
            Bound("heat of the lamp", self.heat, 0.0, _ALL, "W", _CURE),
            Bound("fuel burnt", self.fuel, 0.0, _ALL, "kg/s", _CURE),
        )


def burning_of_fuel(burnt: float, fuel: Fuel = KEROSENE) -> Burning:
    """Return what a lamp is to the room from the fuel it burns.

    Parameters
    ----------
    burnt : float
        Fuel burnt [kg/s].
    fuel : Fuel
        What it burns.

    Returns
    -------
    Burning
        With complete burning: all carbon to carbon dioxide, all hydrogen to water vapour.

    Raises
    ------
    RoomError
        When ``burnt`` is below zero.
    """
    demand(Bound("fuel burnt", burnt, 0.0, _ALL, "kg/s", _CURE))
    given = Exchange(
        carbon_dioxide=burnt * carbon_dioxide_yield(fuel),
        water=burnt * water_yield(fuel),
        oxygen=burnt * oxygen_demand(fuel),
    )
    return Burning(burnt * fuel.lower_heating_value, burnt, given)


def burning_of_heat(heat: float, fuel: Fuel = KEROSENE) -> Burning:
    """Return what a lamp is to the room from its heat.

    Parameters
    ----------
    heat : float
        Heat given off, the water leaving as vapour [W].
    fuel : Fuel
        What it burns.

    Returns
    -------
    Burning
        With complete burning.

    Raises
    ------
    RoomError
        When ``heat`` is below zero.
    """
    demand(Bound("heat of the lamp", heat, 0.0, _ALL, "W", _CURE))
    return burning_of_fuel(heat / fuel.lower_heating_value, fuel)


def together(sources: Iterable[Exchange]) -> Exchange:
    """Add up what several sources give and take.

    Parameters
    ----------
    sources : iterable of Exchange
        Lamps and people.

    Returns
    -------
    Exchange
        Their sum; nothing at all for no source.
    """
    rows = [(one.carbon_dioxide, one.water, one.oxygen) for one in sources]
    return (
        Exchange(*(math.fsum(column) for column in zip(*rows, strict=True))) if rows else Exchange()
    )

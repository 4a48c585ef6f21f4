"""The hot gas over a chimney, and what may hang or stand in it.

Near the top the gas has the temperature it left with. Higher up three published plume laws
say how it cools; all three were fitted to fires far larger than a lamp, so their spread is
shown and the answer is marked as an extrapolation. The greatest of the three decides.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from wickwright.physics.formula import Real, in_kind, outside
from wickwright.physics.plume import (
    CONVECTIVE_SHARE,
    PLUME_RANGES,
    alpert_rise,
    heskestad_rise,
    mccaffrey_rise,
    virtual_origin,
)
from wickwright.room.checks import Bound, RoomError, demand

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickwright.physics.formula import Floats, Validity

__all__ = [
    "EXIT_ZONE",
    "LAWS",
    "Column",
    "Rises",
    "column_of",
    "extrapolated",
    "height_that_cools",
    "rise_by",
    "rises_at",
]

EXIT_ZONE: Final = 2.0
"""Within this many diameters of the chimney's top no plume law holds [-]; ``assumption``."""
_HIGHEST = 50.0  # m


@dataclass(frozen=True, slots=True)
class Column:
    """Hot gas as it leaves a chimney.

    Attributes
    ----------
    heat : float
        All heat of the lamp [W].
    rising : float
        Heat that leaves with the gas [W].
    diameter : float
        Bore of the chimney's top [m].
    exit : float
        Temperature of the gas there [K].
    air : float
        Temperature of the room [K].
    pressure : float
        Air pressure [Pa].
    """

    heat: float
    rising: float
    diameter: float
    exit: float
    air: float
    pressure: float

    def __post_init__(self) -> None:
        """Refuse what is no chimney, all faults at once."""
        demand(
            Bound("heat of the lamp", self.heat, 1.0, 1e5, "W", "A mantle lamp gives 700 to 950 W"),
            Bound("heat in the gas", self.rising, 1.0, self.heat, "W", "It is part of the lamp's"),
            Bound("bore of the chimney's top", self.diameter, 5e-3, 0.5, "m", "Measure inside"),
            Bound("temperature of the room", self.air, 253.15, 323.15, "K", "293.15 is 20 °C"),
            Bound(
                "temperature of the gas", self.exit, self.air, 2500.0, "K", "It is hotter than air"
            ),
            Bound("air pressure", self.pressure, 45e3, 110e3, "Pa", "Give pascal at the place"),
        )

    @property
    def zone(self) -> float:
        """Height up to which the gas is as hot as it left [m]."""
        return EXIT_ZONE * self.diameter


def column_of(
    *,
    heat: float,
    diameter: float,
    exit_temperature: float,
    air: float,
    pressure: float,
    rising: float | None = None,
) -> Column:
    """Return the column of gas over a chimney.

    Parameters
    ----------
    heat : float
        All heat of the lamp [W].
    diameter : float
        Bore of the chimney's top [m].
    exit_temperature : float
        Temperature of the gas there [K].
    air : float
        Temperature of the room [K].
    pressure : float
        Air pressure [Pa].
    rising : float or None
        Heat that leaves with the gas [W]; None for 0.7 of all, ``nureg1805``.

    Returns
    -------
    Column
        The gas.

    Raises
    ------
    RoomError
        When a number cannot be.
    """
    leaving = CONVECTIVE_SHARE * heat if rising is None else rising
    return Column(heat, leaving, diameter, exit_temperature, air, pressure)


def _alike(column: Column) -> tuple[Floats, Floats, Floats, Floats, Floats]:
    """Give the numbers of a column as arrays, to stand beside heights."""
    numbers = (column.heat, column.rising, column.diameter, column.air, column.pressure)
    heat, rising, diameter, air, pressure = (np.asarray(number, float) for number in numbers)
    return heat, rising, diameter, air, pressure


def _heskestad(column: Column, height: Floats) -> Floats:
    heat, rising, diameter, air, pressure = _alike(column)
    origin = virtual_origin(heat, diameter)
    over = np.maximum(height, origin + 1e-3)
    return heskestad_rise(over, rising, origin, air, pressure)


def _mccaffrey(column: Column, height: Floats) -> Floats:
    heat, _, _, air, _ = _alike(column)
    return mccaffrey_rise(np.maximum(height, 1e-3), heat, air)


def _alpert(column: Column, height: Floats) -> Floats:
    heat, *_ = _alike(column)
    return alpert_rise(np.maximum(height, 1e-3), np.asarray(0.0), heat)


LAWS: Final[dict[str, Callable[[Column, Floats], Floats]]] = {
    "Heskestad": _heskestad,
    "McCaffrey": _mccaffrey,
    "Alpert": _alpert,
}
"""The three laws by name, ``nureg1805``, ``mccaffrey1979`` and ``alpert1972``. Only the first
knows the air pressure and the size of the source."""


def rise_by(law: str, column: Column, height: Real) -> Real:
    """Return how much hotter than the room the gas over a chimney is, by one law.

    Parameters
    ----------
    law : str
        One of :data:`LAWS`.
    column : Column
        The gas.
    height : float or array
        Height over the chimney's top [m].

    Returns
    -------
    float or array
        Rise on the axis [K]: that of the gas as it left within two diameters of the top, and
        never more than that above.

    Raises
    ------
    RoomError
        When there is no such law.
    """
    if law not in LAWS:
        raise RoomError([f"There is no plume law '{law}': the laws are {', '.join(LAWS)}."])
    left = column.exit - column.air
    over = np.asarray(height, float)
    risen = np.minimum(LAWS[law](column, over), left)
    return in_kind(np.asarray(np.where(over <= column.zone, left, risen)), height)


@dataclass(frozen=True, slots=True)
class Rises:
    """How hot it is at one height over a chimney.

    Attributes
    ----------
    height : float
        Over the chimney's top [m].
    by_law : tuple of (str, float)
        Temperature by each law [K].
    exit_zone : bool
        Whether the gas still has the temperature it left with.
    """

    height: float
    by_law: tuple[tuple[str, float], ...]
    exit_zone: bool

    @property
    def low(self) -> float:
        """The least of the three [K]."""
        return min(kelvin for _, kelvin in self.by_law)

    @property
    def high(self) -> float:
        """The greatest of the three [K]."""
        return max(kelvin for _, kelvin in self.by_law)


def rises_at(column: Column, height: float) -> Rises:
    """Return how hot it is at a height over a chimney, by all three laws.

    Parameters
    ----------
    column : Column
        The gas.
    height : float
        Over the chimney's top [m].

    Returns
    -------
    Rises
        The three temperatures.

    Raises
    ------
    RoomError
        When the height is below zero.
    """
    demand(Bound("height over the chimney", height, 0.0, _HIGHEST, "m", "Measure from its top"))
    found = tuple((law, column.air + rise_by(law, column, height)) for law in LAWS)
    return Rises(height, found, height <= column.zone)


def height_that_cools(column: Column, temperature: float) -> tuple[tuple[str, float], ...]:
    """Return the height over a chimney at which the gas has cooled to a temperature.

    Parameters
    ----------
    column : Column
        The gas.
    temperature : float
        Temperature allowed, above that of the room [K].

    Returns
    -------
    tuple of (str, float)
        Height by each law [m]; zero where the gas leaves no hotter than that. The greatest
        is the one to keep.

    Raises
    ------
    RoomError
        When the temperature is no higher than the room's.
    """
    demand(
        Bound(
            "temperature allowed above the lamp",
            temperature,
            column.air + 1.0,
            2500.0,
            "K",
            "The room itself is warmer: cool the room, or ask for more",
        )
    )
    if column.exit <= temperature:
        return tuple((law, 0.0) for law in LAWS)
    return tuple((law, _cooled(law, column, temperature - column.air)) for law in LAWS)


def _cooled(law: str, column: Column, rise: float) -> float:
    """Halve down, on a scale of ratios, to the height at which one law gives a rise."""
    low, high = column.zone, _HIGHEST
    for _ in range(60):
        middle = math.sqrt(low * high)
        if rise_by(law, column, middle) > rise:
            low = middle
        else:
            high = middle
    return high


def extrapolated(column: Column) -> tuple[Validity, ...]:
    """Return the laws whose fires were all larger, or all smaller, than this lamp.

    Parameters
    ----------
    column : Column
        The gas.

    Returns
    -------
    tuple of Validity
        The ranges it lies outside of.
    """
    return tuple(valid for valid in PLUME_RANGES if outside(valid, column.heat))

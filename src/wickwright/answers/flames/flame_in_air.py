"""A lamp's flame in air that changes: a table of flames, read between its places.

The flame takes oxygen from the room and feels the want of it. One array call finds the flames
over all airs the evening can bring; a straight line between neighbours serves every moment of
it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from wickwright.burn.flames import solve
from wickwright.burn.parts import FULLEST, with_leaf
from wickwright.physics.combustion import AIR, KEROSENE, carbon_dioxide_yield, oxygen_demand
from wickwright.room.air import GASES, humidity_of

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from wickwright.burn.parts import Lamps
    from wickwright.room.air import Air

    Floats = NDArray[np.float64]

__all__ = ["GOES_OUT", "FlameInAir", "FlameNow", "flame_in_air"]

GOES_OUT: Final = 0.16
"""Oxygen of dry air at which an oil flame goes out [-]; ``safety-lamp``."""

_OXYGENS: Final = np.linspace(GOES_OUT, AIR["O2"], 14)
_HUMIDITIES: Final = np.linspace(0.0, 1.0, 5)


@dataclass(frozen=True, slots=True)
class FlameNow:
    """A flame at one moment.

    Attributes
    ----------
    fuel : float
        Fuel burnt [kg/s].
    light : float
        Luminous flux [lm].
    margin : float
        Air to spare above the least that burns clean [-].
    """

    fuel: float
    light: float
    margin: float


_OUT: Final = FlameNow(0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True)
class FlameInAir:
    """The flames of a lamp over oxygen and humidity.

    Attributes
    ----------
    table : array
        Fuel [kg/s], light [lm] and margin [-] along its first axis, oxygen along its second,
        relative humidity along its third.
    dry : float
        Share of dry air in the air that comes in [-]. The laws of the room count each gas over
        the air there was at the start, so that oxygen over this is oxygen of dry air.
    temperature, pressure : float
        Of the room [K, Pa].
    """

    table: Floats
    dry: float
    temperature: float
    pressure: float

    def at(self, air: Air) -> FlameNow:
        """Return the flame in a room's air.

        Parameters
        ----------
        air : Air
            The air by volume; vapour beyond what it holds has settled on the walls.

        Returns
        -------
        FlameNow
            Nothing at all where the flame has gone out for want of oxygen.
        """
        humidity = humidity_of(air, self.temperature, self.pressure)
        oxygen = air.oxygen / self.dry
        if oxygen < GOES_OUT:
            return _OUT
        row, over = _place(oxygen, _OXYGENS)
        column, right = _place(humidity, _HUMIDITIES)
        corner = self.table[:, row : row + 2, column : column + 2]
        mixed = corner[:, 0] + over * (corner[:, 1] - corner[:, 0])
        fuel, light, margin = mixed[:, 0] + right * (mixed[:, 1] - mixed[:, 0])
        return FlameNow(float(fuel), float(light), float(margin))


def _place(value: float, axis: Floats) -> tuple[int, float]:
    """Return the place below a value on an even axis and how far on it lies, ends held."""
    steps = len(axis) - 1
    along = (value - float(axis[0])) / float(axis[-1] - axis[0]) * steps
    along = min(max(along, 0.0), float(steps))
    at = min(int(along), steps - 1)
    return at, along - at


def flame_in_air(lamps: Lamps, fresh: Air, fuel: float = FULLEST) -> FlameInAir:
    """Return how a lamp burns in air that loses its oxygen.

    Parameters
    ----------
    lamps : Lamps
        One state.
    fresh : Air
        The air that comes into the room.
    fuel : float
        Fuel the wick is set to and left at [kg/s]; :data:`~wickwright.burn.parts.FULLEST` for
        a wick that is turned down as the air fails, so that the flame stays clean.

    Returns
    -------
    FlameInAir
        For oxygen from :data:`GOES_OUT` to that of fresh air, carbon dioxide risen by what
        burning the oxygen makes.
    """
    oxygen = _OXYGENS[:, None]
    made = carbon_dioxide_yield(KEROSENE) / GASES["carbon dioxide"]
    taken = oxygen_demand(KEROSENE) / GASES["oxygen"]
    risen = np.asarray(lamps.air.carbon_dioxide) + (AIR["O2"] - oxygen) * made / taken
    for name, value in (
        ("air.oxygen", oxygen),
        ("air.humidity", _HUMIDITIES[None, :]),
        ("air.carbon_dioxide", risen),
        ("fuel", fuel),
    ):
        lamps = with_leaf(lamps, name, value)
    flames = solve(lamps)
    table = np.stack([np.asarray(one) for one in (flames.fuel, flames.light, flames.margin)])
    return FlameInAir(
        table, 1.0 - fresh.water, float(lamps.air.temperature), float(lamps.air.pressure)
    )

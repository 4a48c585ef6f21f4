"""People in the room: they breathe too."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from wickwright.room.burning import Exchange

__all__ = ["ASLEEP", "BUSY", "PEOPLE", "SEATED", "Person"]


@dataclass(frozen=True, slots=True)
class Person:
    """A grown person at one activity.

    Attributes
    ----------
    activity : str
        What the person does.
    exchange : Exchange
        What the person gives to the air and takes from it.
    low, high : float
        Range of the carbon dioxide over men, women and the old [kg/s].
    source, water_source : str
        Key of the bibliography for the gases, and for the water.
    """

    activity: str
    exchange: Exchange
    low: float
    high: float
    source: str
    water_source: str


_NORMAL = 101325.0 / (8.314462618 * 273.15)  # mol/m3 at 0 °C and 1 atm
_CO2, _O2 = 0.0440095, 0.0319988  # kg/mol
_QUOTIENT = 0.85  # carbon dioxide given over oxygen taken, by volume; from memory
_VAPORISING = 2.43e6  # J/kg, water at skin temperature; from memory


def _person(activity: str, litres: tuple[float, float, float], latent: float) -> Person:
    """Make a person of carbon dioxide [l/s at 0 °C]: low, middle, high; and latent heat [W]."""
    low, middle, high = (volume * 1e-3 * _NORMAL for volume in litres)
    given = Exchange(middle * _CO2, latent / _VAPORISING, middle / _QUOTIENT * _O2)
    return Person(activity, given, low * _CO2, high * _CO2, "persily2017", "ashrae-people")


ASLEEP: Final = _person("asleep", (0.0026, 0.0032, 0.0037), 27.0)
SEATED: Final = _person("seated", (0.0036, 0.0043, 0.0050), 45.0)
BUSY: Final = _person("busy about the house", (0.0060, 0.0072, 0.0083), 80.0)
PEOPLE: Final = (ASLEEP, SEATED, BUSY)
"""At 1.0, 1.2 and 2.0 met. Gas volumes, their quotient and latent heats: from memory, not
seen (``persily2017``, ``ashrae-people``)."""

"""Kerosene: what it weighs, what it holds, what its grades promise."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.physics.formula import Validity

if TYPE_CHECKING:
    from wickwright.physics.formula import Real

__all__ = [
    "CARBON_DIOXIDE_PER_ENERGY",
    "DENSITY",
    "FLASH_POINT",
    "HIGHER_HEATING_VALUE",
    "HYDROGEN_PER_CARBON",
    "LOWER_HEATING_VALUE",
    "PROPERTIES",
    "SMOKE_POINT_RANGE",
    "SULFUR_LIMIT_1K",
    "SULFUR_LIMIT_2K",
    "Property",
    "energy_per_volume",
    "smoke_point_repeatability_automated",
    "smoke_point_reproducibility",
]


@dataclass(frozen=True, slots=True)
class Property:
    """One property of the fuel with what is known of its spread.

    Attributes
    ----------
    name : str
        What it is.
    value : float
        The value used, in ``unit``.
    low, high : float
        The range met in trade or stated by the source, in ``unit``.
    unit : str
        SI unit.
    source : str
        Key of the bibliography for the value.
    range_source : str
        Key of the bibliography for the range.
    """

    name: str
    value: float
    low: float
    high: float
    unit: str
    source: str
    range_source: str


DENSITY = Property(
    "density at 15 °C", 807.0, 780.0, 820.0, "kg/m3", "staffell2011", "kerosene-range"
)
LOWER_HEATING_VALUE = Property(
    "lower heating value", 43.2e6, 42.4e6, 45.2e6, "J/kg", "kerosene-range", "ipcc2006"
)
HIGHER_HEATING_VALUE = Property(
    "higher heating value", 46.35e6, 46.2e6, 46.5e6, "J/kg", "kerosene-range", "kerosene-range"
)
HYDROGEN_PER_CARBON = Property(
    "hydrogen atoms per carbon atom", 1.95, 23 / 12, 26 / 12, "-", "assumption", "assumption"
)
CARBON_DIOXIDE_PER_ENERGY = Property(
    "carbon dioxide per lower heating value",
    71.9e-9,
    70.8e-9,
    73.7e-9,
    "kg/J",
    "ipcc2006",
    "ipcc2006",
)
FLASH_POINT = Property(
    "flash point, least allowed", 311.15, 311.15, 338.15, "K", "astm-d3699-table", "kerosene-range"
)
SULFUR_LIMIT_1K = Property(
    "sulfur of grade No. 1-K, most allowed", 4e-4, 0.0, 4e-4, "kg/kg", *["astm-d3699-table"] * 2
)
SULFUR_LIMIT_2K = Property(
    "sulfur of grade No. 2-K, most allowed", 3e-3, 0.0, 3e-3, "kg/kg", *["astm-d3699-table"] * 2
)
PROPERTIES = (
    DENSITY,
    LOWER_HEATING_VALUE,
    HIGHER_HEATING_VALUE,
    HYDROGEN_PER_CARBON,
    CARBON_DIOXIDE_PER_ENERGY,
    FLASH_POINT,
    SULFUR_LIMIT_1K,
    SULFUR_LIMIT_2K,
)
"""All of them, for a table."""

SMOKE_POINT_RANGE = Validity("smoke_point_reproducibility", "height", "m", 0.0, 0.05, "astm-d1322")
"""Heights the standard lamp can show: a scale of 50 mm, from memory, not seen."""


def energy_per_volume(density: Real, heating_value: Real) -> Real:
    """Return the energy in a volume of fuel.

    Parameters
    ----------
    density : float or array
        Density [kg/m3].
    heating_value : float or array
        Heating value [J/kg].

    Returns
    -------
    float or array
        Energy per volume [J/m3].

    Notes
    -----
    Their product.
    """
    return density * heating_value


def smoke_point_reproducibility(height: Real) -> Real:
    """Return how far two laboratories may differ in a smoke point taken by hand.

    Parameters
    ----------
    height : float or array
        Smoke point: tallest flame without smoke in the standard wick-fed lamp [m].

    Returns
    -------
    float or array
        Reproducibility, exceeded in one case in twenty [m].

    Notes
    -----
    R = 0.09363 (x + 16 mm), section 14 of ``astm-d1322``.
    """
    return 0.09363 * (height + 0.016)


def smoke_point_repeatability_automated(height: Real) -> Real:
    """Return the repeatability of a smoke point taken by the automated lamp.

    Parameters
    ----------
    height : float or array
        Smoke point [m].

    Returns
    -------
    float or array
        Repeatability of one operator and lamp, exceeded in one case in twenty [m].

    Notes
    -----
    r = 0.02231 x, section 14 of ``astm-d1322``.
    """
    return 0.02231 * height

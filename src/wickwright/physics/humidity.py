"""Water in air: saturation, density of moist air."""

from __future__ import annotations

import numpy as np

from wickwright.physics.air import GAS_CONSTANT
from wickwright.physics.formula import Real, Validity

__all__ = ["SATURATION_RANGE", "WATER_AIR_RATIO", "moist_density", "saturation_pressure"]

WATER_AIR_RATIO = 0.621945
"""Molar mass of water over that of dry air [-]; ``ashrae-psychrometrics``."""
SATURATION_RANGE = Validity(
    "saturation_pressure", "temperature", "K", 273.15, 473.15, "ashrae-psychrometrics"
)
"""Over liquid water."""

_LIQUID = (1.3914993, -4.8640239e-2, 4.1764768e-5, -1.4452093e-8)


def saturation_pressure(temperature: Real) -> Real:
    """Return the saturation pressure of water vapour over liquid water.

    Parameters
    ----------
    temperature : float or array
        Temperature [K].

    Returns
    -------
    float or array
        Saturation pressure [Pa].

    Notes
    -----
    Hyland and Wexler 1983 as given by ``ashrae-psychrometrics``, equation 6; within
    300 parts in a million of its table 3.
    """
    series = sum(c * temperature**i for i, c in enumerate(_LIQUID))
    pressure: Real = np.exp(-5.8002206e3 / temperature + series + 6.5459673 * np.log(temperature))
    return pressure


def moist_density(pressure: Real, temperature: Real, humidity: Real) -> Real:
    """Return the density of moist air.

    Parameters
    ----------
    pressure : float or array
        Pressure [Pa].
    temperature : float or array
        Temperature [K].
    humidity : float or array
        Relative humidity [-], 0 dry to 1 saturated.

    Returns
    -------
    float or array
        Density [kg/m3].

    Notes
    -----
    Ideal mixture of dry air and vapour, equations 20 and 26 of ``ashrae-psychrometrics``.
    """
    vapour = humidity * saturation_pressure(temperature)
    lighter = pressure - (1.0 - WATER_AIR_RATIO) * vapour
    return lighter / (GAS_CONSTANT * temperature)

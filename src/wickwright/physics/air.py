"""Air: the standard atmosphere, density dry and moist, and how it carries heat and flows.

Nothing here needs numpy, so that a pressure at an elevation costs no start-up time.
"""

from __future__ import annotations

from typing import Final

from wickwright.physics.formula import Real, Validity, power

__all__ = [
    "ATMOSPHERE_RANGE",
    "GAS_CONSTANT",
    "GRAVITY",
    "SEA_LEVEL_PRESSURE",
    "density_at",
    "dry_density",
    "elevation_at",
    "geopotential",
    "pressure_at",
    "pressure_ratio",
    "temperature_at",
]

GRAVITY: Final = 9.80665
"""Standard gravity [m/s2]."""
GAS_CONSTANT: Final = 287.05287
"""Specific gas constant of dry air [J/(kg K)]; ``usstd1976``."""
SEA_LEVEL_PRESSURE: Final = 101325.0
"""Standard pressure at sea level [Pa]."""
SEA_LEVEL_TEMPERATURE: Final = 288.15
"""Standard temperature at sea level [K]."""
_LAPSE = 0.0065  # K per metre of geopotential height
_EARTH_RADIUS = 6356766.0  # m, the standard's effective radius
_EXPONENT = GRAVITY / (GAS_CONSTANT * _LAPSE)

ATMOSPHERE_RANGE = Validity("pressure_at", "elevation", "m", -5000.0, 11019.0, "usstd1976")
"""The lowest layer of the standard atmosphere, in geometric height."""


def geopotential(elevation: Real) -> Real:
    """Return the geopotential height of a geometric height.

    Parameters
    ----------
    elevation : float or array
        Geometric height above mean sea level [m].

    Returns
    -------
    float or array
        Geopotential height [m].

    Notes
    -----
    H = r0 Z / (r0 + Z), equation 18 of ``usstd1976``, with r0 = 6356.766 km.
    """
    return _EARTH_RADIUS * elevation / (_EARTH_RADIUS + elevation)


def _temperature_ratio(elevation: Real) -> Real:
    return 1.0 - _LAPSE / SEA_LEVEL_TEMPERATURE * geopotential(elevation)


def temperature_at(elevation: Real) -> Real:
    """Return the standard air temperature at an elevation.

    Parameters
    ----------
    elevation : float or array
        Geometric height above mean sea level [m].

    Returns
    -------
    float or array
        Temperature [K].

    Notes
    -----
    T = T0 - 6.5 K/km H, equation 23 of ``usstd1976``; range ``ATMOSPHERE_RANGE``.
    """
    return SEA_LEVEL_TEMPERATURE * _temperature_ratio(elevation)


def pressure_ratio(elevation: Real) -> Real:
    """Return the ratio of the standard pressure at an elevation to that at sea level.

    Parameters
    ----------
    elevation : float or array
        Geometric height above mean sea level [m].

    Returns
    -------
    float or array
        Pressure ratio [-]; the draft of a heated column goes with it.

    Notes
    -----
    delta = (T/T0) ** (g0/(R L)), equation 33a of ``usstd1976``; range ``ATMOSPHERE_RANGE``.
    """
    return power(_temperature_ratio(elevation), _EXPONENT)


def pressure_at(elevation: Real) -> Real:
    """Return the standard air pressure at an elevation.

    Parameters
    ----------
    elevation : float or array
        Geometric height above mean sea level [m].

    Returns
    -------
    float or array
        Pressure [Pa].

    Notes
    -----
    Equation 33a of ``usstd1976``; range ``ATMOSPHERE_RANGE``.
    """
    return SEA_LEVEL_PRESSURE * pressure_ratio(elevation)


def elevation_at(pressure: Real) -> Real:
    """Return the elevation at which the standard atmosphere has a pressure.

    Parameters
    ----------
    pressure : float or array
        Pressure [Pa].

    Returns
    -------
    float or array
        Geometric height above mean sea level [m].

    Notes
    -----
    Equations 33a and 18 of ``usstd1976`` turned round; range ``ATMOSPHERE_RANGE``.
    """
    ratio = power(pressure / SEA_LEVEL_PRESSURE, 1.0 / _EXPONENT)
    height = SEA_LEVEL_TEMPERATURE / _LAPSE * (1.0 - ratio)
    return _EARTH_RADIUS * height / (_EARTH_RADIUS - height)


def dry_density(pressure: Real, temperature: Real) -> Real:
    """Return the density of dry air.

    Parameters
    ----------
    pressure : float or array
        Pressure [Pa].
    temperature : float or array
        Temperature [K].

    Returns
    -------
    float or array
        Density [kg/m3].

    Notes
    -----
    Ideal gas, rho = p/(R T), equation 42 of ``usstd1976``.
    """
    return pressure / (GAS_CONSTANT * temperature)


def density_at(elevation: Real) -> Real:
    """Return the standard air density at an elevation.

    Parameters
    ----------
    elevation : float or array
        Geometric height above mean sea level [m].

    Returns
    -------
    float or array
        Density [kg/m3], at the outdoor standard temperature: for a heated room take
        ``dry_density(pressure_at(elevation), room)``.

    Notes
    -----
    Equation 42 of ``usstd1976``; range ``ATMOSPHERE_RANGE``.
    """
    return dry_density(pressure_at(elevation), temperature_at(elevation))

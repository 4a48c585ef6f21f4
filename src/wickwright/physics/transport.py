"""How hot air flows and carries heat: viscosity, conductivity, heat capacity.

Dilute dry air. Burnt gas of a kerosene flame with 30 % excess air differs from it between
600 K and 1600 K by -5 to -2 % in viscosity, +1 to +8 % in conductivity and +7 to +10 % in
heat capacity (``cantera``, GRI 3.0 data, mixture averaged).
"""

from __future__ import annotations

import numpy as np

from wickwright.physics.air import GAS_CONSTANT
from wickwright.physics.formula import Real, Validity, power

__all__ = [
    "AIR_RANGES",
    "conductivity",
    "heat_capacity",
    "prandtl",
    "standard_viscosity",
    "viscosity",
]

AIR_RANGES = (
    Validity("standard_viscosity", "temperature", "K", 100.0, 1000.0, "usstd1976"),
    Validity("viscosity", "temperature", "K", 60.0, 2000.0, "lemmon2004"),
    Validity("conductivity", "temperature", "K", 60.0, 2000.0, "lemmon2004"),
    Validity("heat_capacity", "temperature", "K", 60.0, 2000.0, "lemmon2000"),
)
"""Ranges of this module's formulas."""

_MOLAR_MASS = 28.9586  # g/mol, as the equations were fitted
_WELL_DEPTH = 103.3  # K, Lennard-Jones energy over Boltzmann's constant
_DIAMETER = 0.360  # nm, Lennard-Jones size
_OMEGA = (0.431, -0.4623, 0.08406, 0.005341, -0.00331)
_CRITICAL = 132.6312  # K, reducing temperature
_LAMBDA = (1.308, 1.405, -1.1, -1.036, -0.3)
_POLYNOMIAL = (
    (0.605719400e-7, -3.0),
    (-0.210274769e-4, -2.0),
    (-0.158860716e-3, -1.0),
    (-0.195363420e-3, 1.5),
)
_LOGARITHM = 2.490888032
_VIBRATION = ((0.791309509, 25.36365), (0.212236768, 16.90741))
_EXCITED = (-0.197938904, 87.31279, 2.0 / 3.0)


def standard_viscosity(temperature: Real) -> Real:
    """Return the viscosity of air as the standard atmosphere has it.

    Parameters
    ----------
    temperature : float or array
        Temperature [K].

    Returns
    -------
    float or array
        Dynamic viscosity [Pa s].

    Notes
    -----
    Sutherland's form, mu = 1.458e-6 T**1.5 / (T + 110.4), equation 51 of ``usstd1976``.
    Low by 4 % at 1000 K and by 9 % at 2000 K: for hot gas take :func:`viscosity`.
    """
    return 1.458e-6 * power(temperature, 1.5) / (temperature + 110.4)


def viscosity(temperature: Real) -> Real:
    """Return the viscosity of dilute air, hot or cold.

    Parameters
    ----------
    temperature : float or array
        Temperature [K].

    Returns
    -------
    float or array
        Dynamic viscosity [Pa s].

    Notes
    -----
    Equations 2 and 3 of ``lemmon2004``, within 5 %. The default for a flue: the fit of the
    standard atmosphere was never meant for it.
    """
    reduced = np.log(temperature / _WELL_DEPTH)
    exponent = sum(b * reduced**i for i, b in enumerate(_OMEGA))
    micro: Real = 0.0266958 * np.sqrt(_MOLAR_MASS * temperature) / (_DIAMETER**2 * np.exp(exponent))
    return 1e-6 * micro


def conductivity(temperature: Real) -> Real:
    """Return the thermal conductivity of dilute air.

    Parameters
    ----------
    temperature : float or array
        Temperature [K].

    Returns
    -------
    float or array
        Thermal conductivity [W/(m K)].

    Notes
    -----
    Equation 5 of ``lemmon2004``, within 5 %.
    """
    tau = _CRITICAL / temperature
    n1, n2, t2, n3, t3 = _LAMBDA
    return 1e-3 * (n1 * viscosity(temperature) * 1e6 + n2 * power(tau, t2) + n3 * power(tau, t3))


def _einstein(tau: Real, weight: float, level: float) -> Real:
    fading = np.exp(-level * tau)
    term: Real = weight * (level * tau) ** 2 * fading / (1.0 - fading) ** 2
    return term


def _excited(tau: Real) -> Real:
    weight, level, offset = _EXCITED
    fading = np.exp(-level * tau)
    term: Real = weight * (level * tau) ** 2 * offset * fading / (1.0 + offset * fading) ** 2
    return term


def heat_capacity(temperature: Real) -> Real:
    """Return the specific heat capacity of dry air at constant pressure.

    Parameters
    ----------
    temperature : float or array
        Temperature [K].

    Returns
    -------
    float or array
        Specific heat capacity [J/(kg K)], as an ideal gas.

    Notes
    -----
    From the second derivative of the ideal part of the Helmholtz energy of ``lemmon2000``,
    with ``air.GAS_CONSTANT``.
    """
    tau = _CRITICAL / temperature
    fitted: Real = sum((n * e * (e - 1.0) * power(tau, e) for n, e in _POLYNOMIAL), 0.0 * tau)
    waves: Real = sum((_einstein(tau, n, level) for n, level in _VIBRATION), 0.0 * tau)
    return GAS_CONSTANT * (1.0 + _LOGARITHM - fitted + waves - _excited(tau))


def prandtl(temperature: Real) -> Real:
    """Return the Prandtl number of dry air.

    Parameters
    ----------
    temperature : float or array
        Temperature [K].

    Returns
    -------
    float or array
        Prandtl number [-].

    Notes
    -----
    mu cp / k, by definition.
    """
    return viscosity(temperature) * heat_capacity(temperature) / conductivity(temperature)

"""The burnt gas of a kerosene flame, laid out in tables so that a million of them are quick.

Everything here comes from :mod:`wickwright.physics` and is kept: heat content as a polynomial,
flame temperature by ratio of air, how hot gas conducts and flows. The equilibria behind the flame
temperatures are worked out once for all, not in every run.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Final

import numpy as np

from wickwright.burn.flame_nodes import FLAME_NODES
from wickwright.burn.steps import Steps, refined, steps_of
from wickwright.physics.air import SEA_LEVEL_PRESSURE
from wickwright.physics.combustion import (
    AIR_MOLAR_MASS,
    AIR_SHARES,
    KEROSENE,
    stoichiometric_air,
)
from wickwright.physics.flame import complete_gas, flame_temperature
from wickwright.physics.species import MOLAR_GAS_CONSTANT, enthalpy
from wickwright.physics.transport import conductivity, viscosity

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from wickwright.physics.formula import Real

    Floats = NDArray[np.float64]

__all__ = [
    "DEGREE",
    "NEEDED_AIR",
    "RATIO_RANGE",
    "Gas",
    "adiabatic",
    "conductivity_of",
    "flame_nodes",
    "gas",
    "polynomial",
    "viscosity_of",
]

NEEDED_AIR: Final = stoichiometric_air(KEROSENE)
"""Standard dry air that just burns a kilogram of fuel [kg/kg]."""
RATIO_RANGE: Final = (0.7, 10.0)
"""Ratios of air to air needed that the table of flame temperatures covers [-]."""
DEGREE: Final = 3
"""Degree of the polynomials of heat content."""

_COLDEST, _HOTTEST = 270.0, 2100.0
_NODES, _FINE = 49, 2048
_FUEL_RANGE = (1.0 / RATIO_RANGE[1], 1.0 / RATIO_RANGE[0])
_STEP = 0.05  # share of the heat by which the table's slope is taken
_THIN = 0.6  # pressure ratio by which its slope with pressure is taken


@dataclass(frozen=True, slots=True)
class Gas:
    """Tables of burnt kerosene.

    Attributes
    ----------
    air, products : tuple of float
        Heat content of a kilogram of standard air, and of what just enough air leaves, as
        coefficients of T in kelvin, lowest first [J/kg]; zero at 298.15 K. Within 2 kJ/kg from
        270 K to 2100 K, which is 1.5 K.
    flame : Steps
        By fuel over fuel that the air would burn [-], four rows: adiabatic temperature [K], its
        slope and half its bend with the share of heat lost [K], its slope with the logarithm of
        pressure [K].
    conductivity, viscosity : tuple of float
        Of air, as coefficients of T, lowest first [W/(m K), Pa s]; within 1.2 % from 280 K to
        2000 K.
    """

    air: tuple[float, ...]
    products: tuple[float, ...]
    flame: Steps
    conductivity: tuple[float, ...]
    viscosity: tuple[float, ...]


_KILO = 1000.0
"""Temperatures are fitted in thousands, so that no power of them swamps another [K]."""


def _fit(
    at: Floats, values: Floats, degree: int, weights: Floats | None = None
) -> tuple[float, ...]:
    highest_first = np.polyfit(at / _KILO, values, degree, w=weights)
    return tuple(float(c) / _KILO**power for power, c in enumerate(highest_first[::-1]))


def _zeroed(at: Floats, heat: Floats) -> tuple[float, ...]:
    """Fit a heat content and shift it so that it is exactly zero at 298.15 K."""
    lowest, *rest = _fit(at, heat, DEGREE)
    offset = polynomial((lowest, *rest), 298.15)
    return (lowest - offset, *rest)


def _heat_of(shares: Floats, mass: float, at: Floats) -> Floats:
    """Heat content of a mixture [J/kg]."""
    moles = (shares * enthalpy(at)).sum(axis=-1)
    return np.asarray(moles * MOLAR_GAS_CONSTANT * at / mass)


def flame_nodes() -> Floats:
    """Work out the flame temperatures that :mod:`wickwright.burn.flame_nodes` keeps.

    Returns
    -------
    array, shape (4, 49)
        By even steps of fuel over fuel that the air would burn, between the ends of
        :data:`RATIO_RANGE`: the rows of :attr:`Gas.flame`, from ``nasa-tm4513`` and
        ``nasa-rp1311`` by :func:`wickwright.physics.flame.flame_temperature`.
    """
    coarse = np.linspace(*_FUEL_RANGE, _NODES)
    lost = np.array([0.0, -_STEP, _STEP, 0.0])[:, None]
    pressure = SEA_LEVEL_PRESSURE * np.array([1.0, 1.0, 1.0, _THIN])[:, None]
    hot = flame_temperature(KEROSENE, 1.0 / coarse + 0.0 * lost, pressure, 298.15, lost)
    middle, more, less, thin = hot
    rows = (
        middle,
        (less - more) / (2.0 * _STEP),
        (less + more - 2.0 * middle) / (2.0 * _STEP**2),
        (thin - middle) / np.log(_THIN),
    )
    return np.array(rows)


def _flames() -> Steps:
    """Return the four rows of :attr:`Gas.flame`."""
    fine = np.linspace(*_FUEL_RANGE, _FINE)
    coarse = np.linspace(*_FUEL_RANGE, _NODES)
    rows = (refined(coarse, np.array(row), fine) for row in FLAME_NODES)
    return steps_of(*_FUEL_RANGE, *rows)


@lru_cache(maxsize=1)
def gas() -> Gas:
    """Return the tables, made at the first call.

    Returns
    -------
    Gas
        From ``nasa-tm4513`` and ``nasa-rp1311`` by :mod:`wickwright.physics.flame`.
    """
    at = np.linspace(_COLDEST, _HOTTEST, 300)
    just = complete_gas(KEROSENE, 1.0)
    warm = np.linspace(280.0, 2000.0, 200)
    carries, sticks = conductivity(warm), viscosity(warm)
    return Gas(
        air=_zeroed(at, _heat_of(AIR_SHARES, AIR_MOLAR_MASS, at)),
        products=_zeroed(at, _heat_of(just.moles, just.mass(), at)),
        flame=_flames(),
        conductivity=_fit(warm, carries, 3, 1.0 / carries),
        viscosity=_fit(warm, sticks, 3, 1.0 / sticks),
    )


def polynomial(coefficients: tuple[float, ...], at: Real) -> Real:
    """Return a polynomial at numbers.

    Parameters
    ----------
    coefficients : tuple of float
        Lowest first.
    at : float or array
        Where [unit of the polynomial].

    Returns
    -------
    float or array
        Its value [unit of the polynomial].
    """
    value = 0.0 * at
    for coefficient in reversed(coefficients):
        value = value * at + coefficient
    return value


def _cubic(coefficients: tuple[float, ...], at: Floats) -> Floats:
    a, b, c, d = coefficients
    return ((d * at + c) * at + b) * at + a


def conductivity_of(temperature: Floats) -> Floats:
    """Return the conductivity of hot air, fast.

    Parameters
    ----------
    temperature : array
        Temperature [K].

    Returns
    -------
    array
        Conductivity [W/(m K)], within 1.2 % of ``lemmon2004``.
    """
    return _cubic(gas().conductivity, temperature)


def viscosity_of(temperature: Floats) -> Floats:
    """Return the viscosity of hot air, fast.

    Parameters
    ----------
    temperature : array
        Temperature [K].

    Returns
    -------
    array
        Viscosity [Pa s], within 1.2 % of ``lemmon2004``.
    """
    return _cubic(gas().viscosity, temperature)


def adiabatic(ratio: Floats, lost: Floats, thin: Floats) -> Floats:
    """Return the flame temperature of kerosene, fast.

    Parameters
    ----------
    ratio : array
        Standard air, or what warms as much, over the air needed [-].
    lost : array
        Share of the fuel's heat that is lacking [-]; below zero where the air came warm.
    thin : array
        Logarithm of the air pressure over that at sea level [-].

    Returns
    -------
    array
        Temperature with dissociation [K]; beyond :data:`RATIO_RANGE` that of its end.

    Notes
    -----
    Interpolates :func:`wickwright.physics.flame.flame_temperature`; within 1 K of it where
    less than 5 % of the heat is lacking.
    """
    table = gas().flame
    place = table.place(1.0 / ratio)
    at, by_lost, bend, by_pressure = (table.row(number, place) for number in range(4))
    return np.asarray(at + lost * (by_lost + lost * bend) + thin * by_pressure)

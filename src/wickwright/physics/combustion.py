"""Burning a liquid hydrocarbon in air: what it takes and what it gives.

The air ratio is the air supplied over the air needed: 1 just enough, above 1 air to spare.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from wickwright.physics.formula import Real, Validity
from wickwright.physics.species import (
    ATOMIC_MASS,
    ELEMENTS,
    MOLAR_GAS_CONSTANT,
    MOLAR_MASS,
    SPECIES,
    enthalpy,
    index,
)

__all__ = [
    "AIR",
    "AIR_MOLAR_MASS",
    "AIR_SHARES",
    "BURNING_RANGES",
    "DODECANE",
    "KEROSENE",
    "REFERENCE_TEMPERATURE",
    "Fuel",
    "air_ratio_of_oxygen",
    "carbon_dioxide_yield",
    "carbon_fraction",
    "dry_carbon_dioxide",
    "dry_oxygen",
    "formation_of_products",
    "higher_heating_value",
    "lower_heating_value",
    "oxygen_demand",
    "stoichiometric_air",
    "sulfur_dioxide_yield",
    "water_yield",
]

REFERENCE_TEMPERATURE: Final = 298.15
"""Temperature of heating values and of heats of formation [K]."""
AIR: Final = {"O2": 0.20946, "N2": 0.78080, "Ar": 0.00934, "CO2": 0.00040}
"""Dry air, mole fractions [-]; ``usstd1976`` with the carbon dioxide of about 2015."""
AIR_SHARES = np.array([AIR.get(gas.name, 0.0) for gas in SPECIES])
AIR_MOLAR_MASS: Final = float(AIR_SHARES @ MOLAR_MASS)
"""Molar mass of dry air [kg/mol]."""
_MASS: dict[str, float] = dict(zip(ELEMENTS, ATOMIC_MASS.tolist(), strict=True))
_SULFUR = 0.03206  # kg/mol
_VAPORISATION = 44.004e3  # J/mol, water at 298.15 K

BURNING_RANGES = (
    Validity("dry_oxygen", "air_ratio", "-", 1.0, 100.0, "assumption"),
    Validity("dry_carbon_dioxide", "air_ratio", "-", 1.0, 100.0, "assumption"),
)
"""Ranges of this module's formulas: with less air than needed burning is not complete."""


@dataclass(frozen=True, slots=True)
class Fuel:
    """A liquid hydrocarbon, by its mean molecule.

    Attributes
    ----------
    name : str
        What it is.
    carbon, hydrogen : float
        Atoms in the mean molecule [-].
    lower_heating_value : float
        Heat of the liquid at 298.15 K, the water leaving as vapour [J/kg].
    source : str
        Key of the bibliography.
    """

    name: str
    carbon: float
    hydrogen: float
    lower_heating_value: float
    source: str

    @property
    def molar_mass(self) -> float:
        """Molar mass of the mean molecule [kg/mol]."""
        return self.carbon * _MASS["C"] + self.hydrogen * _MASS["H"]

    @property
    def oxygen(self) -> float:
        """Molecules of oxygen that burn one molecule of fuel [-]."""
        return self.carbon + self.hydrogen / 4.0


KEROSENE: Final = Fuel("kerosene", 12.0, 23.4, 43.2e6, "kerosene-range")
"""Mean molecule chosen so that carbon per heat meets the figure of ``ipcc2006``."""
DODECANE: Final = Fuel("n-dodecane", 12.0, 26.0, 44.115e6, "dodecane-heat")
"""The pure substance most often taken for kerosene."""


def lower_heating_value(carbon: float, hydrogen: float, formation: float) -> float:
    """Return the lower heating value of a substance from its heat of formation.

    Parameters
    ----------
    carbon, hydrogen : float
        Atoms in a molecule [-].
    formation : float
        Enthalpy of formation of the liquid at 298.15 K [J/mol].

    Returns
    -------
    float
        Lower heating value [J/kg].

    Notes
    -----
    Hess's law with the enthalpies of ``nasa-tm4513``.
    """
    heat = formation - formation_of_products(carbon, hydrogen)
    return heat / (carbon * _MASS["C"] + hydrogen * _MASS["H"])


def formation_of_products(carbon: float, hydrogen: float) -> float:
    """Return the enthalpy of formation of what a molecule burns to.

    Parameters
    ----------
    carbon, hydrogen : float
        Atoms in a molecule [-].

    Returns
    -------
    float
        Enthalpy of its carbon dioxide and water vapour at 298.15 K [J/mol].

    Notes
    -----
    ``nasa-tm4513``.
    """
    formed = enthalpy(np.asarray(REFERENCE_TEMPERATURE))
    formed = formed * MOLAR_GAS_CONSTANT * REFERENCE_TEMPERATURE
    return float(carbon * formed[index("CO2")] + hydrogen / 2.0 * formed[index("H2O")])


def higher_heating_value(fuel: Fuel) -> float:
    """Return the heating value with the water condensed.

    Parameters
    ----------
    fuel : Fuel
        The fuel.

    Returns
    -------
    float
        Higher heating value [J/kg].

    Notes
    -----
    The lower value and 44.004 kJ for each mole of water (``codata-thermo``).
    """
    return fuel.lower_heating_value + _VAPORISATION * fuel.hydrogen / 2.0 / fuel.molar_mass


def carbon_fraction(fuel: Fuel) -> float:
    """Return the mass fraction of carbon.

    Parameters
    ----------
    fuel : Fuel
        The fuel.

    Returns
    -------
    float
        Carbon in the fuel [kg/kg].
    """
    return fuel.carbon * _MASS["C"] / fuel.molar_mass


def oxygen_demand(fuel: Fuel) -> float:
    """Return the oxygen that burns the fuel.

    Parameters
    ----------
    fuel : Fuel
        The fuel.

    Returns
    -------
    float
        Oxygen for each kilogram of fuel [kg/kg].

    Notes
    -----
    CxHy + (x + y/4) O2 -> x CO2 + y/2 H2O.
    """
    return fuel.oxygen * 2.0 * _MASS["O"] / fuel.molar_mass


def stoichiometric_air(fuel: Fuel) -> float:
    """Return the dry air that just burns the fuel.

    Parameters
    ----------
    fuel : Fuel
        The fuel.

    Returns
    -------
    float
        Dry air for each kilogram of fuel [kg/kg].
    """
    return fuel.oxygen / AIR["O2"] * AIR_MOLAR_MASS / fuel.molar_mass


def carbon_dioxide_yield(fuel: Fuel) -> float:
    """Return the carbon dioxide of complete burning.

    Parameters
    ----------
    fuel : Fuel
        The fuel.

    Returns
    -------
    float
        Carbon dioxide from each kilogram of fuel [kg/kg].
    """
    return carbon_fraction(fuel) * (1.0 + 2.0 * _MASS["O"] / _MASS["C"])


def water_yield(fuel: Fuel) -> float:
    """Return the water of complete burning.

    Parameters
    ----------
    fuel : Fuel
        The fuel.

    Returns
    -------
    float
        Water vapour from each kilogram of fuel [kg/kg].
    """
    return (1.0 - carbon_fraction(fuel)) * (1.0 + _MASS["O"] / (2.0 * _MASS["H"]))


def sulfur_dioxide_yield(sulfur: Real) -> Real:
    """Return the sulfur dioxide when all sulfur burns to it.

    Parameters
    ----------
    sulfur : float or array
        Sulfur in the fuel [kg/kg].

    Returns
    -------
    float or array
        Sulfur dioxide from each kilogram of fuel [kg/kg].
    """
    return sulfur * (1.0 + 2.0 * _MASS["O"] / _SULFUR)


def dry_carbon_dioxide(fuel: Fuel, air_ratio: Real) -> Real:
    """Return the carbon dioxide in dry flue gas after complete burning.

    Parameters
    ----------
    fuel : Fuel
        The fuel.
    air_ratio : float or array
        Air supplied over air needed [-], at least 1.

    Returns
    -------
    float or array
        Mole fraction [-].
    """
    air = air_ratio * (fuel.oxygen / AIR["O2"])
    return (fuel.carbon + AIR["CO2"] * air) / (air - fuel.oxygen + fuel.carbon)


def dry_oxygen(fuel: Fuel, air_ratio: Real) -> Real:
    """Return the oxygen in dry flue gas after complete burning.

    Parameters
    ----------
    fuel : Fuel
        The fuel.
    air_ratio : float or array
        Air supplied over air needed [-], at least 1.

    Returns
    -------
    float or array
        Mole fraction [-].
    """
    air = air_ratio * (fuel.oxygen / AIR["O2"])
    return (air_ratio - 1.0) * fuel.oxygen / (air - fuel.oxygen + fuel.carbon)


def air_ratio_of_oxygen(fuel: Fuel, oxygen: Real) -> Real:
    """Return the air ratio from the oxygen measured in dry flue gas.

    Parameters
    ----------
    fuel : Fuel
        The fuel.
    oxygen : float or array
        Mole fraction of oxygen in the dry gas [-], below that of air.

    Returns
    -------
    float or array
        Air supplied over air needed [-].

    Notes
    -----
    The inverse of :func:`dry_oxygen`.
    """
    share = AIR["O2"]
    lean = fuel.oxygen + oxygen * (fuel.carbon - fuel.oxygen)
    return lean / (fuel.oxygen * (1.0 - oxygen / share))

"""How hot a flame gets and what its gas is made of.

Two answers: complete burning, within 6 K below 1700 K, and chemical equilibrium, which
lets the gas dissociate and stands for a hot flame or one short of air.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Generic

import numpy as np

from wickwright.physics.combustion import AIR, AIR_SHARES, formation_of_products
from wickwright.physics.equilibrium import at_enthalpy, at_temperature
from wickwright.physics.formula import Real, Validity, in_kind
from wickwright.physics.species import (
    ATOMS,
    ELEMENTS,
    MOLAR_GAS_CONSTANT,
    MOLAR_MASS,
    SPECIES,
    enthalpy,
    heat_capacity,
    index,
)

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from wickwright.physics.combustion import Fuel

    Floats = NDArray[np.float64]
    Shape = tuple[int, ...]

__all__ = [
    "FLAME_RANGES",
    "BurntGas",
    "burnt_gas",
    "complete_flame_temperature",
    "complete_gas",
    "flame_temperature",
    "gas_at",
]

FLAME_RANGES = (
    Validity("flame_temperature", "air_ratio", "-", 0.7, 2.5, "assumption"),
    Validity("complete_flame_temperature", "air_ratio", "-", 1.0, 100.0, "assumption"),
    Validity("gas_at", "temperature", "K", 1000.0, 3000.0, "assumption"),
)
"""Ranges of this module's formulas: richer than 0.7 soot forms, which they leave out."""


@dataclass(frozen=True, slots=True)
class BurntGas(Generic[Real]):
    """What leaves the flame.

    Attributes
    ----------
    temperature : float or array
        Temperature [K]; NaN where no equilibrium was found.
    moles : array
        Amount of each gas for one kilogram of fuel [mol/kg], the gases as last axis in the
        order of ``SPECIES``.
    """

    temperature: Real
    moles: Floats

    def wet(self, gas: str) -> Real:
        """Return the mole fraction of one gas in all of it [-]."""
        return in_kind(self.moles[..., index(gas)] / self.moles.sum(axis=-1), self.temperature)

    def dry(self, gas: str) -> Real:
        """Return the mole fraction of one gas once the water is taken out [-]."""
        rest = self.moles.sum(axis=-1) - self.moles[..., index("H2O")]
        return in_kind(self.moles[..., index(gas)] / rest, self.temperature)

    def mass(self) -> Real:
        """Return the mass of gas for one kilogram of fuel [kg/kg]."""
        return in_kind(np.asarray(self.moles @ MOLAR_MASS), self.temperature)


def _air_moles(fuel: Fuel, air_ratio: Floats) -> Floats:
    """Amount of each gas of the air for one molecule of fuel."""
    needed = fuel.oxygen / AIR["O2"]
    return air_ratio[:, None] * (needed * AIR_SHARES)[None, :]


def _complete_moles(fuel: Fuel, air_ratio: Floats) -> Floats:
    """Amount of each gas after complete burning of one molecule; NaN without enough air."""
    moles = _air_moles(fuel, air_ratio)
    moles[..., index("CO2")] += fuel.carbon
    moles[..., index("H2O")] += fuel.hydrogen / 2.0
    moles[..., index("O2")] -= fuel.oxygen
    moles[air_ratio < 1.0] = np.nan
    return moles


def _elements(fuel: Fuel, air_ratio: Floats) -> Floats:
    burnt = np.zeros(len(ELEMENTS))
    burnt[[0, 1]] = fuel.carbon, fuel.hydrogen
    return np.asarray(_air_moles(fuel, air_ratio) @ ATOMS + burnt)


def _heat(fuel: Fuel, air_ratio: Floats, air_temperature: Floats, lost: Floats) -> Floats:
    """Enthalpy of fuel and air, less the share of heat lost [J for one molecule]."""
    air = (_air_moles(fuel, air_ratio) * enthalpy(air_temperature)).sum(axis=-1)
    given = (1.0 - lost) * fuel.lower_heating_value * fuel.molar_mass
    formed = formation_of_products(fuel.carbon, fuel.hydrogen)
    return np.asarray(air * MOLAR_GAS_CONSTANT * air_temperature + given + formed)


def _temperature_of(moles: Floats, heat: Floats) -> Floats:
    """Temperature at which gases that no longer react hold an enthalpy."""
    temperature = np.full(heat.shape, 1500.0)
    for _ in range(30):
        held = (moles * enthalpy(temperature)).sum(axis=-1) * temperature
        slope = (moles * heat_capacity(temperature)).sum(axis=-1)
        step = (heat / MOLAR_GAS_CONSTANT - held) / slope
        temperature = np.clip(temperature + step, 150.0, 6500.0)
        if not np.any(np.abs(step) > 1e-9 * temperature):
            break
    return temperature


def _spread(*values: float | Floats) -> tuple[list[Floats], Shape]:
    """Bring floats and arrays to one flat length; give the shape to go back to."""
    arrays = np.broadcast_arrays(*(np.asarray(v, dtype=np.float64) for v in values))
    return [a.reshape(-1) for a in arrays], arrays[0].shape


def complete_gas(
    fuel: Fuel, air_ratio: Real, air_temperature: Real | float = 298.15, lost: Real | float = 0.0
) -> BurntGas[Real]:
    """Return the gas of complete burning, none of it dissociated.

    Parameters
    ----------
    fuel : Fuel
        The fuel, fed at 298.15 K.
    air_ratio : float or array
        Air supplied over air needed [-], at least 1; NaN comes back below.
    air_temperature : float or array
        Temperature of the air [K].
    lost : float or array
        Share of the lower heating value that left as radiation or through walls [-].

    Returns
    -------
    BurntGas
        Temperature and amounts. The default for a flue: below 1700 K equilibrium lies
        within 6 K of it.

    Notes
    -----
    Energy balance with the enthalpies of ``nasa-tm4513``.
    """
    (ratio, warm, loss), shape = _spread(air_ratio, air_temperature, lost)
    moles = _complete_moles(fuel, ratio)
    temperature = _temperature_of(moles, _heat(fuel, ratio, warm, loss))
    return _gas(fuel, temperature, moles, shape, air_ratio)


def _gas(
    fuel: Fuel, temperature: Floats, moles: Floats, shape: Shape, like: Real
) -> BurntGas[Real]:
    """Give back what was asked for: a float for floats, an array for arrays."""
    each = (moles / fuel.molar_mass).reshape((*shape, len(SPECIES)))
    return BurntGas(in_kind(temperature.reshape(shape), like), each)


def complete_flame_temperature(
    fuel: Fuel, air_ratio: Real, air_temperature: Real | float = 298.15, lost: Real | float = 0.0
) -> Real:
    """Return the flame temperature of complete burning, no dissociation.

    Parameters
    ----------
    fuel : Fuel
        The fuel, fed at 298.15 K.
    air_ratio : float or array
        Air supplied over air needed [-], at least 1; NaN comes back below.
    air_temperature : float or array
        Temperature of the air [K].
    lost : float or array
        Share of the lower heating value lost before [-].

    Returns
    -------
    float or array
        Temperature [K].

    Notes
    -----
    :func:`complete_gas`.
    """
    return complete_gas(fuel, air_ratio, air_temperature, lost).temperature


def burnt_gas(
    fuel: Fuel,
    air_ratio: Real,
    pressure: Real | float,
    air_temperature: Real | float = 298.15,
    lost: Real | float = 0.0,
) -> BurntGas[Real]:
    """Return the gas of an insulated flame at chemical equilibrium.

    Parameters
    ----------
    fuel : Fuel
        The fuel, fed at 298.15 K.
    air_ratio : float or array
        Air supplied over air needed [-].
    pressure : float or array
        Pressure [Pa].
    air_temperature : float or array
        Temperature of the air [K].
    lost : float or array
        Share of the lower heating value lost before [-].

    Returns
    -------
    BurntGas
        Temperature and amounts, dissociation included.

    Notes
    -----
    ``nasa-rp1311`` with the data of ``nasa-tm4513``; ranges ``FLAME_RANGES``.
    Equilibrium is where the gas would end, not what leaves: a flame has no time to form the
    nitric oxide of equilibrium, and a chilled or starved one keeps more carbon monoxide.
    """
    (ratio, press, warm, loss), shape = _spread(air_ratio, pressure, air_temperature, lost)
    heat = _heat(fuel, ratio, warm, loss)
    found = at_enthalpy(_elements(fuel, ratio), press, heat, 2000.0)
    return _gas(
        fuel, np.where(found.reached, found.temperature, np.nan), found.moles, shape, air_ratio
    )


def flame_temperature(
    fuel: Fuel,
    air_ratio: Real,
    pressure: Real | float,
    air_temperature: Real | float = 298.15,
    lost: Real | float = 0.0,
) -> Real:
    """Return the adiabatic flame temperature with dissociation.

    Parameters
    ----------
    fuel : Fuel
        The fuel, fed at 298.15 K.
    air_ratio : float or array
        Air supplied over air needed [-].
    pressure : float or array
        Pressure [Pa].
    air_temperature : float or array
        Temperature of the air [K].
    lost : float or array
        Share of the lower heating value lost before [-].

    Returns
    -------
    float or array
        Temperature [K].

    Notes
    -----
    :func:`burnt_gas`.
    """
    return burnt_gas(fuel, air_ratio, pressure, air_temperature, lost).temperature


def gas_at(
    fuel: Fuel, air_ratio: Real, pressure: Real | float, temperature: Real
) -> BurntGas[Real]:
    """Return the equilibrium gas at a given temperature.

    Parameters
    ----------
    fuel : Fuel
        The fuel.
    air_ratio : float or array
        Air supplied over air needed [-].
    pressure : float or array
        Pressure [Pa].
    temperature : float or array
        Temperature [K].

    Returns
    -------
    BurntGas
        Temperature as given and amounts.

    Notes
    -----
    ``nasa-rp1311`` with the data of ``nasa-tm4513``.
    """
    (ratio, press, hot), shape = _spread(air_ratio, pressure, temperature)
    found = at_temperature(_elements(fuel, ratio), press, hot)
    return _gas(fuel, np.where(found.reached, hot, np.nan), found.moles, shape, air_ratio)

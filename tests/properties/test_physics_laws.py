"""Laws that hold whatever the numbers: balances, monotone answers, inverses."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wickwright.physics.air import pressure_at, temperature_at
from wickwright.physics.combustion import (
    AIR_MOLAR_MASS,
    AIR_SHARES,
    DODECANE,
    KEROSENE,
    Fuel,
    air_ratio_of_oxygen,
    carbon_dioxide_yield,
    dry_oxygen,
    oxygen_demand,
    stoichiometric_air,
    water_yield,
)
from wickwright.physics.draft import draft, heated_column_flow, velocity_loss
from wickwright.physics.flame import BurntGas, burnt_gas, complete_gas, gas_at
from wickwright.physics.light import luminous_efficacy
from wickwright.physics.plume import heskestad_rise, point_source_flux
from wickwright.physics.radiation import fraction_below
from wickwright.physics.species import (
    ATOMS,
    MOLAR_GAS_CONSTANT,
    STANDARD_PRESSURE,
    enthalpy,
    free_energy,
    index,
)

FUELS = st.builds(
    Fuel,
    st.just("any"),
    st.floats(8.0, 16.0),
    st.floats(14.0, 34.0),
    st.floats(42.4e6, 45.2e6),
    st.just("assumption"),
)
LEAN = st.floats(1.0, 4.0)
NEAR = st.floats(0.7, 2.5)
PRESSURES = st.floats(5e4, 1.1e5)
LAW = settings(max_examples=40, deadline=None)
"""Enough cases to fall over a wrong law, few enough for a shared machine."""


def _air(fuel: Fuel, ratio: float) -> float:
    """Amount of air for a kilogram of fuel [mol]."""
    return ratio * stoichiometric_air(fuel) / AIR_MOLAR_MASS


def _atoms_in(fuel: Fuel, ratio: float) -> list[float]:
    given_air = (_air(fuel, ratio) * AIR_SHARES) @ ATOMS
    given_air[0] += fuel.carbon / fuel.molar_mass
    given_air[1] += fuel.hydrogen / fuel.molar_mass
    return [float(atoms) for atoms in given_air]


@LAW
@given(FUELS, LEAN)
def test_complete_burning_keeps_every_atom_and_gram(fuel: Fuel, ratio: float) -> None:
    """Mass or atoms would be made or lost by burning."""
    gas = complete_gas(fuel, ratio)
    assert list(gas.moles @ ATOMS) == pytest.approx(_atoms_in(fuel, ratio), rel=1e-9)
    assert gas.mass() == pytest.approx(1.0 + ratio * stoichiometric_air(fuel), rel=1e-9)


@LAW
@given(FUELS, NEAR, PRESSURES)
def test_equilibrium_keeps_every_atom_and_gram(fuel: Fuel, ratio: float, pressure: float) -> None:
    """The solver would stop before it met its own balances."""
    gas = burnt_gas(fuel, ratio, pressure)
    assert list(gas.moles @ ATOMS) == pytest.approx(_atoms_in(fuel, ratio), rel=1e-9)
    assert gas.mass() == pytest.approx(1.0 + ratio * stoichiometric_air(fuel), rel=1e-9)


@LAW
@given(FUELS, NEAR, st.floats(0.0, 0.4))
def test_equilibrium_keeps_the_heat(fuel: Fuel, ratio: float, lost: float) -> None:
    """The flame would be hotter or cooler than its heat allows."""
    gas = burnt_gas(fuel, ratio, 101325.0, lost=lost)
    cold = burnt_gas(fuel, ratio, 101325.0, lost=0.0)
    held = _enthalpy(cold) - _enthalpy(gas)
    assert held == pytest.approx(lost * fuel.lower_heating_value, abs=2.0)


def _enthalpy(gas: BurntGas[float]) -> float:
    kelvin = np.asarray(gas.temperature)
    return float(gas.moles @ enthalpy(kelvin)) * MOLAR_GAS_CONSTANT * gas.temperature


@LAW
@given(NEAR, PRESSURES, st.floats(1200.0, 2800.0))
def test_law_of_mass_action(ratio: float, pressure: float, kelvin: float) -> None:
    """Four reactions would not be in balance: what Newton found would be no equilibrium."""
    gas = gas_at(KEROSENE, ratio, pressure, kelvin)
    share = np.log(gas.moles / gas.moles.sum() * pressure / STANDARD_PRESSURE)
    potential = free_energy(np.asarray(kelvin)) + share
    reactions: list[dict[str, float]] = [
        {"CO2": -1, "CO": 1, "O2": 0.5},
        {"H2O": -1, "H2": 1, "O2": 0.5},
        {"H2O": -1, "OH": 1, "H": 1},
        {"N2": -0.5, "O2": -0.5, "NO": 1},
    ]
    for reaction in reactions:
        left = sum(n * potential[index(gas_name)] for gas_name, n in reaction.items())
        assert left == pytest.approx(0.0, abs=1e-7)


@LAW
@given(FUELS)
def test_yields_balance(fuel: Fuel) -> None:
    """Fuel and oxygen in would not weigh what carbon dioxide and water weigh."""
    burnt = carbon_dioxide_yield(fuel) + water_yield(fuel)
    assert burnt == pytest.approx(1.0 + oxygen_demand(fuel), rel=1e-9)


@LAW
@given(FUELS, st.floats(1.0, 20.0))
def test_air_ratio_comes_back_from_oxygen(fuel: Fuel, ratio: float) -> None:
    """A measured flue gas would be read as another air ratio than made it."""
    assert air_ratio_of_oxygen(fuel, dry_oxygen(fuel, ratio)) == pytest.approx(ratio, rel=1e-9)


def test_more_air_cools_the_flame() -> None:
    """Beyond the hottest point air to spare must cool, with dissociation and without."""
    ratios = np.linspace(1.05, 3.0, 60)
    assert np.all(np.diff(burnt_gas(DODECANE, ratios, 101325.0).temperature) < 0.0)
    assert np.all(np.diff(complete_gas(DODECANE, ratios).temperature) < 0.0)


@LAW
@given(st.floats(1.0, 2.5), PRESSURES)
def test_dissociation_cools(ratio: float, pressure: float) -> None:
    """A flame that dissociates would be hotter than one that burns out."""
    hot = complete_gas(KEROSENE, ratio).temperature
    assert burnt_gas(KEROSENE, ratio, pressure).temperature < hot


def test_without_enough_air_complete_burning_is_not_a_number() -> None:
    """A starved flame would be given a temperature by a formula that does not hold."""
    gas = complete_gas(KEROSENE, np.array([0.99, 1.0]))
    assert math.isnan(gas.temperature[0])
    assert gas.temperature[1] > 2300.0


@LAW
@given(FUELS, NEAR, PRESSURES, st.floats(0.0, 0.5))
def test_equilibrium_is_found_wherever_it_is_asked(
    fuel: Fuel, ratio: float, pressure: float, lost: float
) -> None:
    """NaN would come back inside the stated range."""
    assert not math.isnan(burnt_gas(fuel, ratio, pressure, lost=lost).temperature)


@LAW
@given(st.floats(-400.0, 6000.0), st.floats(1.0, 500.0))
def test_pressure_and_temperature_fall_with_elevation(place: float, step: float) -> None:
    """A higher place would have more air."""
    assert pressure_at(place + step) < pressure_at(place)
    assert temperature_at(place + step) < temperature_at(place)


@LAW
@given(
    st.floats(0.05, 0.6),
    st.floats(1e-5, 1e-2),
    st.floats(0.1, 50.0),
    st.floats(10.0, 3000.0),
    PRESSURES,
)
def test_heated_column_balances(
    height: float, area: float, loss: float, heat: float, pressure: float
) -> None:
    """The flow found would not be the one at which draft and loss are equal."""
    outside, capacity = 293.15, 1100.0
    flow = heated_column_flow(
        height=height,
        area=area,
        loss=loss,
        heat=heat,
        capacity=capacity,
        pressure=pressure,
        outside=outside,
    )
    inside = outside + heat / (flow * capacity)
    density = pressure / (287.05287 * outside)
    push = draft(height, pressure, outside, inside)
    assert velocity_loss(loss, flow, area, density) == pytest.approx(push, rel=1e-9)


@LAW
@given(st.floats(1e-4, 9.0), st.floats(1.001, 1.5))
def test_band_fraction_grows_to_one(product: float, step: float) -> None:
    """A wider band would hold less heat, or more than all of it."""
    low, high = fraction_below(product, 1.0), fraction_below(product * step, 1.0)
    assert 0.0 <= low <= high <= 1.0


@LAW
@given(st.floats(1000.0, 5000.0), st.floats(1.0, 100.0))
def test_hotter_is_brighter_for_its_heat(kelvin: float, step: float) -> None:
    """Below the best colour a hotter black body would give less light for its heat."""
    assert luminous_efficacy(kelvin + step) > luminous_efficacy(kelvin)


@LAW
@given(st.floats(0.2, 3.0), st.floats(0.01, 1.0), st.floats(100.0, 2000.0))
def test_farther_is_cooler(height: float, step: float, heat: float) -> None:
    """Moving away from a source, up or aside, would warm."""
    near = heskestad_rise(height, heat, 0.0, 293.15, 101325.0)
    assert heskestad_rise(height + step, heat, 0.0, 293.15, 101325.0) < near
    assert point_source_flux(heat, 0.3, height + step) < point_source_flux(heat, 0.3, height)

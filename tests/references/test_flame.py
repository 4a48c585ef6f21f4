"""Flame temperatures and flame gas against a general-purpose equilibrium code."""

from __future__ import annotations

import numpy as np
import pytest

from wickwright.physics.combustion import (
    DODECANE,
    Fuel,
    dry_carbon_dioxide,
    dry_oxygen,
)
from wickwright.physics.flame import burnt_gas, complete_flame_temperature, flame_temperature
from wickwright.physics.species import enthalpy, index

SEA_LEVEL = 101325.0
FIVE_THOUSAND_FEET = 84311.0
RATIOS = np.array([1.0, 1.1, 1.2, 1.3, 1.4, 1.5, 1.6])


def test_dodecane_at_equilibrium() -> None:
    """Cantera 3.2.0 with nasa_gas.yaml, real dry air: a wrong species or solver shows here."""
    published = [2267.2, 2191.0, 2092.8, 1995.0, 1904.0, 1821.1, 1745.8]
    ours = flame_temperature(DODECANE, RATIOS, SEA_LEVEL)
    assert ours == pytest.approx(np.array(published), abs=0.5)


def test_dodecane_without_dissociation() -> None:
    """Cantera 3.2.0 with nasa_gas.yaml, five gases only: a wrong heat capacity shows here."""
    published = [2397.5, 2251.3, 2124.9, 2014.3, 1916.8, 1830.1, 1752.5]
    assert complete_flame_temperature(DODECANE, RATIOS) == pytest.approx(
        np.array(published), abs=0.2
    )


def test_dodecane_in_simple_air() -> None:
    """Another mechanism and simple air (Cantera 3.2.0) would part from us by over 8 K."""
    published = [2275.1, 2198.4, 2099.9, 2001.5, 1909.5, 1825.5, 1749.2]
    ours = flame_temperature(DODECANE, RATIOS, SEA_LEVEL)
    assert ours == pytest.approx(np.array(published), abs=8.0)


def test_lumped_kerosene() -> None:
    """C12H23 of 43.2 MJ/kg (Cantera 3.2.0, simple air) would lie outside that spread."""
    published = [2275.2, 2199.8, 2101.9, 2003.8, 1912.2, 1828.7, 1752.8]
    fuel = Fuel("C12H23", 12.0, 23.0, 43.2e6, "cantera")
    ours = flame_temperature(fuel, RATIOS, SEA_LEVEL)
    assert ours == pytest.approx(np.array(published), abs=8.0)


def test_altitude_hardly_cools_the_flame() -> None:
    """Altitude would cool the flame itself by more than Cantera 3.2.0 says, 5.0 to 0.4 K."""
    ratios = np.array([1.0, 1.2, 1.4])
    low = flame_temperature(DODECANE, ratios, FIVE_THOUSAND_FEET)
    loss = flame_temperature(DODECANE, ratios, SEA_LEVEL) - low
    assert loss == pytest.approx(np.array([5.0, 1.6, 0.4]), abs=0.06)


def test_dodecane_at_five_thousand_feet() -> None:
    """At 84311 Pa another mechanism (Cantera 3.2.0, simple air) would part from us by over 8 K."""
    published = [2270.1, 2195.2, 2098.3, 2000.7, 1909.1, 1825.3, 1749.2]
    ours = flame_temperature(DODECANE, RATIOS, FIVE_THOUSAND_FEET)
    assert ours == pytest.approx(np.array(published), abs=8.0)


def test_what_altitude_takes_at_every_air_ratio() -> None:
    """The same table's differences, printed to 0.1 K, would not be ours."""
    sea = np.array([2275.1, 2198.4, 2099.9, 2001.5, 1909.5, 1825.5, 1749.2])
    high = np.array([2270.1, 2195.2, 2098.3, 2000.7, 1909.1, 1825.3, 1749.2])
    low = flame_temperature(DODECANE, RATIOS, FIVE_THOUSAND_FEET)
    loss = flame_temperature(DODECANE, RATIOS, SEA_LEVEL) - low
    assert loss == pytest.approx(sea - high, abs=0.15)


def test_ten_thousand_feet() -> None:
    """10000 ft would not cost the 10.2 K of Cantera 3.2.0 with just enough air."""
    loss = flame_temperature(DODECANE, 1.0, SEA_LEVEL) - flame_temperature(DODECANE, 1.0, 69694.6)
    assert loss == pytest.approx(2275.1 - 2264.9, abs=0.2)


# Cantera 3.2.0, nasa_gas.yaml, real dry air, the eleven gases of our table: dry CO2 % and
# O2 %, wet CO and NO ppm.
@pytest.mark.parametrize(
    ("ratio", "dioxide", "oxygen", "monoxide", "nitric"),
    [
        (1.0, 12.918, 0.709, 13494.0, 2396.6),
        (1.2, 11.876, 3.543, 1647.1, 3644.2),
        (1.4, 10.250, 6.137, 223.5, 2886.1),
        (2.0, 7.094, 10.825, 1.12, 854.1),
    ],
)
def test_flame_gas(
    ratio: float, dioxide: float, oxygen: float, monoxide: float, nitric: float
) -> None:
    """The gas of a hot flame would be split wrongly into burnt and dissociated."""
    gas = burnt_gas(DODECANE, ratio, SEA_LEVEL)
    assert gas.dry("CO2") * 100 == pytest.approx(dioxide, abs=6e-3)
    assert gas.dry("O2") * 100 == pytest.approx(oxygen, abs=3e-3)
    assert gas.wet("CO") * 1e6 == pytest.approx(monoxide, rel=8e-3)
    assert gas.wet("NO") * 1e6 == pytest.approx(nitric, rel=1e-3)


# Cantera 3.2.0, nDodecane_Reitz, which has no nitric oxide and no argon.
@pytest.mark.parametrize(
    ("ratio", "dioxide", "oxygen", "monoxide"),
    [(1.2, 11.87, 3.76, 1662.0), (1.5, 9.54, 7.35, 88.0), (2.0, 7.07, 10.91, 1.1)],
)
def test_flue_gas(ratio: float, dioxide: float, oxygen: float, monoxide: float) -> None:
    """A measured flue gas would be read as the wrong air ratio."""
    gas = burnt_gas(DODECANE, ratio, SEA_LEVEL)
    assert gas.dry("CO2") * 100 == pytest.approx(dioxide, abs=0.03)
    assert dry_oxygen(DODECANE, ratio) * 100 == pytest.approx(oxygen, abs=0.05)
    assert gas.wet("CO") * 1e6 == pytest.approx(monoxide, rel=0.03)


def test_complete_flue_gas_by_hand() -> None:
    """Flue gas with twice the air, counted by hand, would be read wrongly."""
    air = 2 * 18.5 / 0.20946
    dry = air - 18.5 + 12
    assert dry_oxygen(DODECANE, 2.0) == pytest.approx(18.5 / dry, rel=1e-12)
    assert dry_carbon_dioxide(DODECANE, 2.0) == pytest.approx((12 + 4e-4 * air) / dry, rel=1e-12)


# CODATA key values, from memory: formation at 298.15 K [kJ/mol].
@pytest.mark.parametrize(
    ("gas", "formation"),
    [("CO2", -393.51), ("H2O", -241.826), ("CO", -110.53), ("OH", 38.99), ("O2", 0.0), ("N2", 0.0)],
)
def test_heat_of_formation(gas: str, formation: float) -> None:
    """A mistyped polynomial would shift every heat that rests on it."""
    kelvin = np.asarray(298.15)
    ours = enthalpy(kelvin)[index(gas)] * 8.31446261815324e-3 * 298.15
    assert ours == pytest.approx(formation, abs=0.4)

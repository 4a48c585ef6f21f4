"""Kerosene against published figures."""

from __future__ import annotations

import pytest

from wickwright.physics import kerosene
from wickwright.physics.combustion import (
    DODECANE,
    KEROSENE,
    Fuel,
    carbon_dioxide_yield,
    carbon_fraction,
    higher_heating_value,
    lower_heating_value,
    oxygen_demand,
    stoichiometric_air,
    sulfur_dioxide_yield,
    water_yield,
)
from wickwright.physics.light import flux_of_candlepower

HOUR = 3600.0


# Closed form, dry air with 0.20946 oxygen and 28.9647 g/mol.
@pytest.mark.parametrize(
    ("hydrogen", "air", "dioxide", "water", "carbon"),
    [
        (26.0, 15.018, 3.1003, 1.3749, 0.8461),
        (23.4, 14.717, 3.1488, 1.2567, 0.8594),
        (23.0, 14.670, 3.1564, 1.2382, 0.8614),
    ],
)
def test_stoichiometry(
    hydrogen: float, air: float, dioxide: float, water: float, carbon: float
) -> None:
    """A wrong atom count would starve or flood the flame in every prediction."""
    fuel = Fuel("test", 12.0, hydrogen, 43.2e6, "assumption")
    assert stoichiometric_air(fuel) == pytest.approx(air, abs=5e-3)
    assert carbon_dioxide_yield(fuel) == pytest.approx(dioxide, abs=1e-4)
    assert water_yield(fuel) == pytest.approx(water, abs=1e-4)
    assert carbon_fraction(fuel) == pytest.approx(carbon, abs=6e-5)


def test_carbon_dioxide_of_the_ipcc() -> None:
    """71,900 kg/TJ at 43.8 TJ/Gg (IPCC 2006, from memory) would not follow from the molecule."""
    assert carbon_dioxide_yield(KEROSENE) == pytest.approx(71_900 * 43.8 / 1e6, abs=2e-3)
    assert kerosene.CARBON_DIOXIDE_PER_ENERGY.value * 43.8e6 == pytest.approx(
        carbon_dioxide_yield(KEROSENE), abs=2e-3
    )


def test_carbon_dioxide_of_the_eia() -> None:
    """EIA 2016 (text seen), 9.75 kg CO2 a US gallon at 0.81 kg/L, would be missed by 1 %."""
    per_litre = 9.75 / 3.785412
    assert per_litre == pytest.approx(2.576, abs=6e-4)
    assert carbon_dioxide_yield(KEROSENE) == pytest.approx(per_litre / 0.81, rel=0.01)


def test_energy_per_litre_of_the_eia() -> None:
    """72.30 kg/MMBtu and 9.75 kg/gal imply 37.586 MJ/L; ours would be off by over 1 %."""
    ours = kerosene.energy_per_volume(kerosene.DENSITY.value, kerosene.HIGHER_HEATING_VALUE.value)
    assert ours == pytest.approx(37.586e9, rel=0.01)


def test_heating_values_of_dodecane() -> None:
    """Formation enthalpy -350.9 kJ/mol (chemicals 1.5.2) would not give 44.115 and 47.474."""
    assert lower_heating_value(12.0, 26.0, -350.9e3) == pytest.approx(44.115e6, abs=0.05e6)
    assert higher_heating_value(DODECANE) == pytest.approx(47.474e6, abs=0.05e6)


def test_higher_heating_value_of_kerosene() -> None:
    """46.2 to 46.5 MJ/kg (from memory) would not follow from the lower value and the water."""
    known = kerosene.HIGHER_HEATING_VALUE
    assert known.low <= higher_heating_value(KEROSENE) <= known.high


@pytest.mark.parametrize(
    ("grade", "grams"), [(kerosene.SULFUR_LIMIT_1K, 0.799), (kerosene.SULFUR_LIMIT_2K, 5.99)]
)
def test_sulfur_dioxide_at_the_limit(grade: kerosene.Property, grams: float) -> None:
    """Closed form: the grade would be blamed for a wrong amount of sulfur dioxide."""
    assert sulfur_dioxide_yield(grade.value) * 1000 == pytest.approx(grams, abs=6e-3)


def test_smoke_point_precision() -> None:
    """Precision at 15 mm would not be the 2.90 and 0.33 mm of ASTM D1322-19 (text seen)."""
    assert kerosene.smoke_point_reproducibility(0.015) == pytest.approx(2.90e-3, abs=5e-6)
    assert kerosene.smoke_point_repeatability_automated(0.015) == pytest.approx(0.33e-3, abs=6e-6)


def test_an_hour_of_a_small_burner() -> None:
    """Heat, water, CO2 and O2 of 65 g/h (closed form) would be wrong in every room."""
    burnt = 0.065
    litre = 8.31446 * 293.15 / 101325.0 * 1000.0
    assert burnt * KEROSENE.lower_heating_value / HOUR == pytest.approx(780.0, abs=0.05)
    assert burnt * carbon_dioxide_yield(KEROSENE) == pytest.approx(0.2047, abs=5e-5)
    assert burnt * water_yield(KEROSENE) == pytest.approx(0.0817, abs=5e-5)
    dioxide = burnt * carbon_dioxide_yield(KEROSENE) / 0.04401 * litre
    assert dioxide == pytest.approx(111.87, abs=0.02)
    oxygen = burnt * oxygen_demand(KEROSENE) / 0.031998 * litre
    assert oxygen == pytest.approx(166.4, abs=0.05)


# Leeds and Butterfield, Acetylene (text seen): burning time of an imperial gallon, candles.
@pytest.mark.parametrize(
    ("hours", "candles", "watts", "efficacy"), [(55, 20, 793, 0.25), (140, 5, 312, 0.16)]
)
def test_old_house_lamps(hours: int, candles: int, watts: int, efficacy: float) -> None:
    """Old lamp tables would come out with a wrong heat or a wrong light per watt."""
    gallon = 4.54609e-3 * kerosene.energy_per_volume(800.0, 43.2e6)
    heat = gallon / (hours * HOUR)
    assert heat == pytest.approx(watts, abs=1.0)
    assert flux_of_candlepower(candles, 10.0) / heat == pytest.approx(efficacy, abs=6e-3)

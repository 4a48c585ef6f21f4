"""Air, moist air and hot air against published values."""

from __future__ import annotations

import pytest

from wickwright.physics.air import (
    density_at,
    elevation_at,
    geopotential,
    pressure_at,
    pressure_ratio,
    temperature_at,
)
from wickwright.physics.humidity import moist_density, saturation_pressure
from wickwright.physics.transport import (
    conductivity,
    heat_capacity,
    prandtl,
    standard_viscosity,
    viscosity,
)

FOOT = 0.3048
POUND_PER_SQUARE_INCH = 6894.757


# US Standard Atmosphere 1976 as computed by fluids 1.3.1, ambiance 1.3.1 agreeing to 0.02 Pa.
@pytest.mark.parametrize(
    ("feet", "temperature", "pressure", "ratio", "density"),
    [
        (0, 288.150, 101325.0, 1.00000, 1.22500),
        (1000, 286.169, 97716.7, 0.96439, 1.18956),
        (2000, 284.188, 94213.6, 0.92982, 1.15490),
        (3000, 282.207, 90813.1, 0.89626, 1.12103),
        (5000, 278.246, 84311.1, 0.83209, 1.05558),
        (8000, 272.307, 75271.2, 0.74287, 0.96296),
        (10000, 268.348, 69694.6, 0.68783, 0.90477),
    ],
)
def test_standard_atmosphere(
    feet: int, temperature: float, pressure: float, ratio: float, density: float
) -> None:
    """A wrong pressure at a place would recommend the wrong height of chimney."""
    place = feet * FOOT
    assert temperature_at(place) == pytest.approx(temperature, abs=6e-4)
    assert pressure_at(place) == pytest.approx(pressure, abs=0.06)
    assert pressure_ratio(place) == pytest.approx(ratio, abs=6e-6)
    assert density_at(place) == pytest.approx(density, abs=6e-6)
    assert elevation_at(pressure) == pytest.approx(place, abs=0.006)


@pytest.mark.parametrize(("feet", "psia"), [(5000, 12.228), (10000, 10.108)])
def test_pressure_of_an_engineering_table(feet: int, psia: float) -> None:
    """A table printed in psia (quoted by engineeringtoolbox) would disagree with ours."""
    assert pressure_at(feet * FOOT) / POUND_PER_SQUARE_INCH == pytest.approx(psia, abs=1e-3)


@pytest.mark.parametrize(("feet", "psia"), [(5000, 12.2278), (10000, 10.1066)])
def test_pressure_of_the_handbook_formula(feet: int, psia: float) -> None:
    """ASHRAE's 14.696 (1 - 6.8754e-6 Z)**5.2559 (PsychroLib 2.5.0) would be missed by 0.1 %."""
    assert pressure_at(feet * FOOT) / POUND_PER_SQUARE_INCH == pytest.approx(psia, rel=1e-3)


def test_five_kilometres() -> None:
    """The docstring values of fluids 1.3.1 at 5 km would not be met."""
    assert pressure_at(5000.0) == pytest.approx(54048.0, abs=1.0)
    assert density_at(5000.0) == pytest.approx(0.73643, abs=1e-5)
    assert standard_viscosity(temperature_at(5000.0)) == pytest.approx(1.62825e-5, abs=1e-10)


def test_height_is_geometric() -> None:
    """Feet taken for geopotential would give 84307.3 Pa at 5000 ft (closed form)."""
    assert geopotential(5000 * FOOT) == pytest.approx(1523.6347, abs=1e-3)
    assert pressure_at(5000 * FOOT) - 84307.3 == pytest.approx(3.7, abs=0.1)


# ASHRAE Handbook, Fundamentals 2017, chapter 1, table 3, quoted by the tests of PsychroLib.
@pytest.mark.parametrize(
    ("celsius", "pascal"), [(5, 872.6), (25, 3169.7), (50, 12351.3), (100, 101418.0)]
)
def test_saturation_pressure(celsius: int, pascal: float) -> None:
    """The handbook asserts 300 parts in a million; a worse fit has a wrong coefficient."""
    assert saturation_pressure(celsius + 273.15) == pytest.approx(pascal, rel=3e-4)


def test_moist_air_density() -> None:
    """Moist air at 25 °C, half saturated, would differ from PsychroLib 2.5.0."""
    mixing_ratio, volume = 0.009881043690749623, 0.8580432638526019
    assert moist_density(101325.0, 298.15, 0.5) == pytest.approx(
        (1.0 + mixing_ratio) / volume, rel=1e-4
    )


# Lemmon and Jacobsen 2004, table V, zero density, from memory; CoolProp 8.0.0 gives the same.
@pytest.mark.parametrize(
    ("kelvin", "micropascal_seconds", "milliwatts"),
    [(100, 7.09559, 9.35902), (300, 18.5230, 26.3529)],
)
def test_transport_at_printed_points(
    kelvin: float, micropascal_seconds: float, milliwatts: float
) -> None:
    """A mistyped coefficient would miss the authors' own check values."""
    assert viscosity(kelvin) * 1e6 == pytest.approx(micropascal_seconds, abs=6e-5)
    assert conductivity(kelvin) * 1e3 == pytest.approx(milliwatts, abs=6e-5)


# CoolProp 8.0.0, dry air at zero density.
@pytest.mark.parametrize(
    ("kelvin", "micropascal_seconds", "milliwatts", "molar_heat"),
    [
        (500, 27.08028, 39.92669, 29.81654),
        (1000, 43.27457, 67.66877, 33.04683),
        (1500, 56.32195, 91.77621, 35.07679),
        (2000, 68.06567, 114.48241, 36.21075),
    ],
)
def test_hot_air(
    kelvin: float, micropascal_seconds: float, milliwatts: float, molar_heat: float
) -> None:
    """The gas in a flue would be too thin or too thick, or hold too little heat."""
    assert viscosity(kelvin) * 1e6 == pytest.approx(micropascal_seconds, rel=1e-6)
    assert conductivity(kelvin) * 1e3 == pytest.approx(milliwatts, rel=1e-6)
    molar = heat_capacity(kelvin) / 287.05287 * 8.31451
    assert molar == pytest.approx(molar_heat, rel=1e-6)


# Incropera, table A.4, air, from memory: Prandtl number at 300 K and 400 K.
@pytest.mark.parametrize(("kelvin", "number"), [(300, 0.707), (400, 0.690)])
def test_prandtl_number(kelvin: float, number: float) -> None:
    """Viscosity, conductivity and heat capacity would not belong together."""
    assert prandtl(kelvin) == pytest.approx(number, abs=0.01)


def test_cold_sutherland_and_hot_equation_meet() -> None:
    """Two sources for the same viscosity would disagree where both hold."""
    assert viscosity(300.0) == pytest.approx(standard_viscosity(300.0), rel=5e-3)

"""Draft and flow losses against published values."""

from __future__ import annotations

import math

import pytest

from wickwright.physics.air import pressure_at
from wickwright.physics.draft import (
    EXIT_LOSS,
    SHARP_ENTRANCE_LOSS,
    annulus_friction,
    annulus_loss,
    development_length,
    draft,
    heated_column_flow,
    opening_flow,
    pipe_loss,
    reynolds,
    rounded_entrance,
    short_annulus_loss,
    short_pipe_loss,
    sudden_contraction,
    sudden_expansion,
    velocity_loss,
)

FOOT = 0.3048
INCH_OF_MERCURY = 3386.389
INCH_OF_WATER = 249.089
SEA_LEVEL = 101325.0


def _kelvin(fahrenheit: float) -> float:
    return (fahrenheit + 459.67) / 1.8


def test_coefficient() -> None:
    """A draft by another coefficient than g/R, printed as 0.0342 (quoted), would mislead all."""
    assert draft(1.0, 1.0, 1.0, 1e12) == pytest.approx(0.03416, abs=5e-6)


def test_coefficient_in_inches() -> None:
    """Closed form 0.25482 for inHg, ft, °R and inches of water (ASHRAE, quoted: 0.2554)."""
    rankine = 1.0 / 1.8
    ours = draft(FOOT, INCH_OF_MERCURY, rankine, 1e12) / INCH_OF_WATER
    assert ours == pytest.approx(0.25482, abs=2e-5)
    assert ours == pytest.approx(0.2554, rel=3e-3)


def test_handbook_chimney() -> None:
    """ASHRAE (quoted): 29.92 inHg, 25 ft, 70 and 250 °F would not give 0.091 inches of water."""
    ours = draft(25 * FOOT, 29.92 * INCH_OF_MERCURY, _kelvin(70), _kelvin(250))
    assert ours / INCH_OF_WATER == pytest.approx(0.091, abs=5e-4)
    # The handbook's own SI coefficient 0.03413 is 0.1 % below g/R.
    assert ours == pytest.approx(22.71, rel=2e-3)


# Closed form: 0.30 m, 293.15 K outside, 800 K inside.
@pytest.mark.parametrize(
    ("feet", "pascal"),
    [
        (0, 2.2444),
        (1000, 2.1645),
        (2000, 2.0869),
        (3000, 2.0115),
        (5000, 1.8675),
        (8000, 1.6673),
        (10000, 1.5438),
    ],
)
def test_tube_of_thirty_centimetres(feet: int, pascal: float) -> None:
    """Draft would not fall with the air pressure as it must."""
    ours = draft(0.30, pressure_at(feet * FOOT), 293.15, 800.0)
    assert ours == pytest.approx(pascal, abs=6e-5)


def test_temperatures_are_absolute() -> None:
    """Two public calculators put degrees Celsius into the ratio and get 118.7 Pa for 40.4."""
    assert draft(10.0, SEA_LEVEL, 283.15, 423.15) == pytest.approx(40.4, abs=0.05)


def test_opening_and_draft_agree() -> None:
    """The stack formula Q = C A sqrt(2 g H dT/Ti) would belong to another draft than ours."""
    density = SEA_LEVEL / (287.05287 * 293.15)
    drop = draft(2.0, SEA_LEVEL, 293.15, 320.0)
    flow = opening_flow(0.65, 0.01, 2.0, 320.0, 293.15)
    assert flow == pytest.approx(0.65 * 0.01 * math.sqrt(2 * drop / density), rel=1e-9)


def test_laminar_pipe() -> None:
    """128 mu L Q/(pi D**4) (closed form; fluids 1.3.1 agrees) would be off."""
    assert pipe_loss(1.81e-5, 0.3, 0.04, 3e-4) == pytest.approx(0.025926, abs=6e-7)
    area = math.pi / 4 * 0.04**2
    number = reynolds(1.204 * 3e-4, 0.04, area, 1.81e-5)
    assert number == pytest.approx(635.2, abs=0.1)
    heads = 64 / number * 0.3 / 0.04
    by_friction = velocity_loss(heads, 1.204 * 3e-4, area, 1.204)
    assert by_friction == pytest.approx(pipe_loss(1.81e-5, 0.3, 0.04, 3e-4), rel=1e-12)


# Closed form; Shah and London 1978 tabulate a quarter of them.
@pytest.mark.parametrize(
    ("ratio", "factor"),
    [
        (0.05, 86.270),
        (0.10, 89.372),
        (0.25, 93.207),
        (0.50, 95.250),
        (0.75, 95.868),
        (0.90, 95.982),
    ],
)
def test_annulus_friction(ratio: float, factor: float) -> None:
    """The slit between two tubes would be given the resistance of another one."""
    assert annulus_friction(ratio) == pytest.approx(factor, abs=6e-4)


def test_annulus_friction_limits() -> None:
    """A narrow gap would not be a slit (96), or a thread in a pipe would not slow it (64)."""
    assert annulus_friction(0.999) == pytest.approx(96.0, abs=1e-3)
    assert 64.0 < annulus_friction(1e-6) < annulus_friction(1e-3)


def test_annulus() -> None:
    """Radii 10 and 16 mm, 50 mm long (closed form): the two forms of one law would part."""
    loss = annulus_loss(1.81e-5, 0.05, 0.010, 0.016, 1e-4)
    assert loss == pytest.approx(0.061329, abs=6e-7)
    area = math.pi * (0.016**2 - 0.010**2)
    number = reynolds(1.204e-4, 0.012, area, 1.81e-5)
    assert number == pytest.approx(162.9, abs=0.1)
    heads = annulus_friction(10 / 16) / number * 0.05 / 0.012
    assert velocity_loss(heads, 1.204e-4, area, 1.204) == pytest.approx(loss, rel=1e-12)


def test_flow_in_a_short_annulus_never_settles() -> None:
    """0.06 Re D (from memory) would not warn that flow in a 50 mm passage is undeveloped."""
    assert development_length(0.012, 162.9) == pytest.approx(0.117, abs=6e-4)


def test_short_passages_lose_more() -> None:
    """Far from the entrance the extra loss would not be Shah's 1.25 and 0.678 velocity heads."""
    density, mu = 1.2, 1.81e-5
    pipe = short_pipe_loss(mu, density, 30.0, 0.04, 3e-4) - pipe_loss(mu, 30.0, 0.04, 3e-4)
    head = velocity_loss(1.0, density * 3e-4, math.pi / 4 * 0.04**2, density)
    assert pipe / head == pytest.approx(1.25, abs=0.02)
    sizes = {"inner": 0.012, "outer": 0.016}
    long = short_annulus_loss(viscosity=mu, density=density, length=30.0, flow=1e-4, **sizes)
    ring = long - annulus_loss(mu, 30.0, 0.012, 0.016, 1e-4)
    head = velocity_loss(1.0, density * 1e-4, math.pi * (0.016**2 - 0.012**2), density)
    assert ring / head == pytest.approx(0.678, abs=0.02)


def test_at_the_entrance_the_core_does_not_matter() -> None:
    """Just inside, the loss would not be that of a boundary layer, 13.76 sqrt(L/(D Re)) heads."""
    reach = 1e-6
    length = reach * 4 * 1.2 * 3e-4 / (math.pi * 1.81e-5)
    head = velocity_loss(1.0, 1.2 * 3e-4, math.pi / 4 * 0.04**2, 1.2)
    ours = short_pipe_loss(1.81e-5, 1.2, length, 0.04, 3e-4) / head
    assert ours == pytest.approx(4 * 3.44 * math.sqrt(reach), rel=0.01)


def test_local_losses() -> None:
    """Entries, steps and exits would not cost what fluids 1.3.1 says by Rennels and Crane."""
    assert rounded_entrance(0.1) == pytest.approx(0.2029, abs=5e-5)
    assert rounded_entrance(0.0) == pytest.approx(0.57, abs=5e-4)
    assert sudden_contraction(0.5) == pytest.approx(0.4956, abs=5e-5)
    assert sudden_contraction(0.9) == pytest.approx(0.0936, abs=5e-5)
    assert sudden_expansion(0.5) == 0.5625
    assert (SHARP_ENTRANCE_LOSS, EXIT_LOSS) == (0.5, 1.0)


def _flow(height: float, feet: float) -> float:
    return heated_column_flow(
        height=height,
        area=3e-4,
        loss=2.0,
        heat=600.0,
        capacity=1150.0,
        pressure=pressure_at(feet * FOOT),
        outside=293.15,
    )


@pytest.mark.parametrize(
    ("feet", "grams", "share"), [(0, 0.5424, 1.0), (5000, 0.4596, 0.8473), (10000, 0.3863, 0.7122)]
)
def test_flow_of_a_heated_column(feet: int, grams: float, share: float) -> None:
    """Closed form, 0.30 m, 3 cm2, K 2.0, 600 W: air falls a little less than the pressure."""
    assert _flow(0.30, feet) * 1000 == pytest.approx(grams, abs=6e-5)
    assert _flow(0.30, feet) / _flow(0.30, 0) == pytest.approx(share, abs=6e-5)


def test_a_taller_column() -> None:
    """Half as tall again would not give 19.7 % more (closed form): the gas cools as it grows."""
    assert _flow(0.45, 0) / _flow(0.30, 0) == pytest.approx(1.197, abs=6e-4)

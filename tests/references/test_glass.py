"""Thermal stress of glass against published values."""

from __future__ import annotations

from dataclasses import replace

import pytest

from wickwright.physics.glass import (
    BOROSILICATE,
    BRASS,
    EXPANSION,
    SODA_LIME,
    clamped_stress,
    gap_change,
    shock_limit,
    shock_limit_one_way,
    stress_per_kelvin,
    wall_drop,
    wall_stress,
)

CALLISTER = {
    "soda-lime": replace(SODA_LIME, modulus=69e9),
    "borosilicate": replace(BOROSILICATE, modulus=70e9),
}


# Callister's one-way form; 50 MPa with inputs quoted, 69 MPa with inputs from memory.
@pytest.mark.parametrize(
    ("glass", "strength", "kelvin"),
    [
        ("soda-lime", 50e6, 80.5),
        ("borosilicate", 50e6, 216.5),
        ("soda-lime", 69e6, 111.1),
        ("borosilicate", 69e6, 298.7),
    ],
)
def test_textbook_shock(glass: str, strength: float, kelvin: float) -> None:
    """The textbook problem would come out otherwise."""
    assert shock_limit_one_way(CALLISTER[glass], strength) == pytest.approx(kelvin, abs=0.06)


def test_stress_per_kelvin() -> None:
    """Stress per kelvin would not be the 0.264 and 0.831 MPa/K of the data sheets' values."""
    assert stress_per_kelvin(BOROSILICATE) == pytest.approx(0.264e6, abs=5e2)
    assert stress_per_kelvin(SODA_LIME) == pytest.approx(0.831e6, abs=5e2)


def test_shock_of_a_wall() -> None:
    """The lower grade would pass for the better: 36.1 K against 113.6 K at 30 MPa."""
    assert shock_limit(BOROSILICATE, 30e6) == pytest.approx(113.6, abs=0.05)
    assert shock_limit(SODA_LIME, 30e6) == pytest.approx(36.1, abs=0.05)
    assert clamped_stress(BOROSILICATE, shock_limit(BOROSILICATE, 30e6)) == pytest.approx(30e6)


def test_seat_between_brass_and_glass() -> None:
    """A 66 mm seat 100 K warmer would not open by 0.1036 mm (closed form)."""
    change = gap_change(0.066, 100.0, BRASS.value, BOROSILICATE.expansion)
    assert change == pytest.approx(0.1036e-3, abs=5e-8)


def test_steady_wall_by_hand() -> None:
    """2 mm of glass under 3 kW/m2 would not drop 5 K, or not bear half of its clamped stress."""
    drop = wall_drop(BOROSILICATE, 3000.0, 0.002)
    assert drop == pytest.approx(5.0, rel=1e-12)
    assert wall_stress(BOROSILICATE, drop) == pytest.approx(0.66e6, rel=1e-12)


def test_expansions_lie_in_their_range() -> None:
    """A value outside the spread of its sources is a slip of the pen."""
    assert all(entry.low <= entry.value <= entry.high for entry in EXPANSION)
    by_name = {entry.material: entry.value for entry in EXPANSION}
    assert by_name[SODA_LIME.name] == SODA_LIME.expansion
    assert by_name[BOROSILICATE.name] == BOROSILICATE.expansion

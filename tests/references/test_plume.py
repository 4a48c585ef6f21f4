"""Plume, ceiling jet and radiant flux against published values."""

from __future__ import annotations

import pytest

from wickwright.physics.plume import (
    alpert_rise,
    alpert_velocity,
    flame_height,
    heskestad_height,
    heskestad_rise,
    heskestad_strength,
    heskestad_velocity,
    heskestad_width,
    mccaffrey_rise,
    mccaffrey_velocity,
    point_source_distance,
    point_source_flux,
    virtual_origin,
)

ROOM = 293.15
SEA_LEVEL = 101325.0
ORIGIN = virtual_origin(800.0, 0.05)


def test_strength() -> None:
    """NUREG-1805 (text seen): 24.949 at 20 °C, and 13 % more at 5000 ft, would be missed."""
    assert heskestad_strength(ROOM, SEA_LEVEL) == pytest.approx(24.949, abs=6e-4)
    ratio = heskestad_strength(ROOM, 0.832085 * SEA_LEVEL) / heskestad_strength(ROOM, SEA_LEVEL)
    assert ratio == pytest.approx(1.1304, abs=5e-5)


# Closed form from the program source and handbook text seen: 0.8 kW, 50 mm, 20 °C.
@pytest.mark.parametrize(
    ("height", "heskestad", "mccaffrey", "alpert"),
    [
        (0.50, 58.6, 61.1, 46.2),
        (0.75, 28.96, 31.07, 23.52),
        (1.00, 17.68, 19.23, 14.56),
        (1.50, 8.87, 9.79, 7.41),
    ],
)
def test_above_a_small_source(
    height: float, heskestad: float, mccaffrey: float, alpert: float
) -> None:
    """A shelf would be called safe at the wrong distance."""
    ours = heskestad_rise(height, 560.0, ORIGIN, ROOM, SEA_LEVEL)
    assert ours == pytest.approx(heskestad, abs=0.05)
    assert mccaffrey_rise(height, 800.0, ROOM) == pytest.approx(mccaffrey, abs=0.05)
    assert alpert_rise(height, 0.0, 800.0) == pytest.approx(alpert, abs=0.05)


def test_origin_of_the_sheet() -> None:
    """The sheet of NUREG-1805 (input seen), 5000 kW over 2.02 m, would start elsewhere."""
    assert virtual_origin(5e6, 2.02) == pytest.approx(0.4438, abs=5e-5)


def test_safe_shelf() -> None:
    """A shelf kept below 77 °C in a room of 20 °C (closed form) would not be 0.508 m up."""
    height = heskestad_height(57.0, 560.0, ORIGIN, ROOM, SEA_LEVEL)
    assert height == pytest.approx(0.508, abs=5e-4)
    back = heskestad_rise(height, 560.0, ORIGIN, ROOM, SEA_LEVEL)
    assert back == pytest.approx(57.0, rel=1e-12)


@pytest.mark.parametrize(
    ("distance", "flux"), [(0.1, 1.910), (0.2, 0.477), (0.3, 0.212), (0.5, 0.0764)]
)
def test_point_source(distance: float, flux: float) -> None:
    """0.8 kW, 0.3 of it radiant (closed form) [kW/m2]: curtains would hang too near."""
    ours = point_source_flux(800.0, 0.3, distance)
    assert ours / 1000 == pytest.approx(flux, abs=5e-4)
    assert point_source_distance(800.0, 0.3, ours) == pytest.approx(distance, rel=1e-12)


def test_mccaffrey_regions() -> None:
    """Flame and intermittent flame, worked by hand, would run into each other."""
    reach = (800.0 / 1000) ** 0.4
    flame = (6.8 / 0.9) ** 2 / 19.62 * ROOM
    assert mccaffrey_rise(0.01 * reach, 800.0, ROOM) == pytest.approx(flame, rel=1e-12)
    assert mccaffrey_rise(0.079 * reach, 800.0, ROOM) == pytest.approx(flame, rel=1e-12)
    between = (1.9 / 0.9) ** 2 / 19.62 / 0.1 * ROOM
    assert mccaffrey_rise(0.1 * reach, 800.0, ROOM) == pytest.approx(between, rel=1e-12)


def test_mccaffrey_velocity() -> None:
    """Velocities of flame, intermittent flame and plume would not be those worked by hand."""
    assert mccaffrey_velocity(0.1, 1000.0) == pytest.approx(1.9, rel=1e-12)
    assert mccaffrey_velocity(0.15, 32_000.0) == pytest.approx(6.8 * (0.15 / 4) ** 0.5 * 2)
    assert mccaffrey_velocity(1.0, 1000.0) == pytest.approx(1.1, rel=1e-12)


def test_heskestad_by_hand() -> None:
    """Velocity and width of 1 kW at 1 m, worked by hand, would be missed."""
    velocity = heskestad_velocity(1.0, 1000.0, 0.0, ROOM, SEA_LEVEL)
    assert velocity == pytest.approx(3.4 * (9.81 / 353.0) ** (1 / 3), rel=1e-12)
    assert heskestad_width(1.0, 3 * ROOM, 0.0, ROOM) == pytest.approx(0.24, rel=1e-12)


def test_flame_height_by_hand() -> None:
    """1 kW over 0.1 m would not flame 0.235 - 0.102 m high."""
    assert flame_height(1000.0, 0.1) == pytest.approx(0.133, rel=1e-12)


def test_alpert_by_hand() -> None:
    """The coefficients of the ceiling jet would not show at 1 kW and 1 m."""
    assert alpert_rise(1.0, 0.1, 1000.0) == pytest.approx(16.9, rel=1e-12)
    assert alpert_rise(1.0, 1.0, 1000.0) == pytest.approx(5.38, rel=1e-12)
    assert alpert_velocity(1.0, 0.1, 1000.0) == pytest.approx(0.96, rel=1e-12)
    assert alpert_velocity(1.0, 1.0, 1000.0) == pytest.approx(0.195, rel=1e-12)


def test_alpert_is_continuous() -> None:
    """The two branches must meet at their bounds to 1 %, as the source made them."""
    assert alpert_rise(1.0, 0.181, 1000.0) == pytest.approx(16.9, rel=0.01)
    assert alpert_velocity(1.0, 0.151, 1000.0) == pytest.approx(0.96, rel=0.02)

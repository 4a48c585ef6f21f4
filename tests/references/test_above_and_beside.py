"""What is above and beside a lamp, through the room's own functions, against worked values."""

from __future__ import annotations

import pytest
from tests.support.rooms import ROOM_AIR, SEA_LEVEL

from wickwright.room.above import column_of, height_that_cools, rises_at
from wickwright.room.beside import radiant_flux
from wickwright.room.materials import WOOD_IN_CODES, tolerance_of

LAMP = column_of(
    heat=800.0, diameter=0.05, exit_temperature=900.0, air=ROOM_AIR, pressure=SEA_LEVEL
)


# Closed form with the formulas of NUREG-1805, McCaffrey and Alpert (texts or quotes seen).
@pytest.mark.parametrize(
    ("height", "rises"),
    [
        (0.50, (58.6, 61.1, 46.2)),
        (0.75, (28.96, 31.07, 23.52)),
        (1.00, (17.68, 19.23, 14.56)),
        (1.50, (8.87, 9.79, 7.41)),
    ],
)
def test_three_laws_above_a_lamp(height: float, rises: tuple[float, float, float]) -> None:
    """A law would lose its numbers on the way to the room."""
    found = rises_at(LAMP, height)
    assert [name for name, _ in found.by_law] == ["Heskestad", "McCaffrey", "Alpert"]
    assert [kelvin - ROOM_AIR for _, kelvin in found.by_law] == pytest.approx(rises, abs=0.05)
    assert not found.exit_zone


def test_safe_shelf() -> None:
    """Wood at 77 °C in a room of 20 °C (closed form, Heskestad) would not be safe at 0.508 m."""
    heights = dict(height_that_cools(LAMP, ROOM_AIR + 57.0))
    assert heights["Heskestad"] == pytest.approx(0.508, abs=5e-4)


@pytest.mark.parametrize(
    ("distance", "flux"), [(0.1, 1.910), (0.2, 0.477), (0.3, 0.212), (0.5, 0.0764)]
)
def test_radiation_beside_a_lamp(distance: float, flux: float) -> None:
    """0.8 kW, 0.3 of it radiant (closed form, point source) [kW/m2]: curtains would hang near."""
    assert radiant_flux(800.0, 0.3, distance) / 1000 == pytest.approx(flux, abs=5e-4)


def test_limits_of_wood() -> None:
    """77 °C for years (abstract seen) and 90 °C in appliance standards (from memory) would go."""
    assert tolerance_of("wood").limit - 273.15 == pytest.approx(77.0)
    assert WOOD_IN_CODES.limit - 273.15 == pytest.approx(90.0)

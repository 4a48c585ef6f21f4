"""Natural and forced convection against published values."""

from __future__ import annotations

import math

import pytest

from wickwright.physics.air import pressure_at
from wickwright.physics.convection import (
    coefficient,
    graetz,
    grashof,
    horizontal_cylinder_nusselt,
    plate_facing_down_nusselt,
    plate_facing_up_nusselt,
    slender_cylinder_nusselt,
    thick_enough,
    tube_inside_nusselt,
    upright_tube_coefficient,
    upright_wall_nusselt,
)
from wickwright.physics.radiation import enclosed_exchange
from wickwright.physics.transport import conductivity, heat_capacity, prandtl

WALL, ROOM = 473.15, 293.15
FILM = 0.5 * (WALL + ROOM)


def test_upright_wall() -> None:
    """Incropera example 9.2 (quoted by ht 1.2.0) would not come out at 147.16."""
    assert upright_wall_nusselt(0.69, 2.63e9) == pytest.approx(147.1619, abs=5e-5)


def test_other_shapes() -> None:
    """Values of ht 1.2.0: a mistyped coefficient of the other shapes shows here."""
    assert horizontal_cylinder_nusselt(0.69, 2.63e9) == pytest.approx(139.13494, abs=1e-5)
    assert slender_cylinder_nusselt(0.7, 1e10, 2.5) == pytest.approx(228.8979, abs=1e-4)
    assert plate_facing_up_nusselt(5.54, 3.21e8) == pytest.approx(181.73121, abs=1e-5)
    assert plate_facing_up_nusselt(0.01, 3.21e8) == pytest.approx(22.85704, abs=1e-5)
    assert plate_facing_down_nusselt(5.54, 3.21e8) == pytest.approx(55.44565, abs=1e-5)


def test_inside_a_tube() -> None:
    """Hausen's entry (ht 1.2.0) or the 3.66 of a long tube would be lost."""
    assert tube_inside_nusselt(1e5 * 1.1 * 0.1) == pytest.approx(39.01352, abs=1e-5)
    assert tube_inside_nusselt(0.0) == 3.66


def test_graetz_number_does_not_know_the_diameter() -> None:
    """Re Pr D/L formed by hand would differ from the short form."""
    flow, kelvin, length, diameter = 5e-4, 900.0, 0.3, 0.04
    velocity_head = 4 * flow / (math.pi * diameter)
    by_hand = velocity_head * heat_capacity(kelvin) / conductivity(kelvin) * diameter / length
    assert graetz(flow, kelvin, length) == pytest.approx(by_hand, rel=1e-12)


# fluids 1.3.1 and ht 1.2.0: a tube of 0.30 m at 200 °C in a room of 20 °C. Their air conducts
# 0.5 % better than that of Lemmon and Jacobsen.
@pytest.mark.parametrize(("feet", "published"), [(0, 7.394), (5000, 6.624), (10000, 5.915)])
def test_hot_tube_in_a_room(feet: int, published: float) -> None:
    """The glass would be cooled too much or too little, and less so with altitude."""
    pressure = pressure_at(feet * 0.3048)
    grash = grashof(0.30, WALL, ROOM, pressure)
    ours = coefficient(upright_wall_nusselt(prandtl(FILM), grash), 0.30, FILM)
    assert ours == pytest.approx(published, rel=4e-3)


def test_numbers_of_that_tube() -> None:
    """Gr 2.151e8 and Nu 68.34 (ht 1.2.0) would not be met within the spread of air data."""
    grash = grashof(0.30, WALL, ROOM, 101325.0)
    assert grash == pytest.approx(2.151e8, rel=0.02)
    assert upright_wall_nusselt(prandtl(FILM), grash) == pytest.approx(68.34, rel=5e-3)


def test_slender_tube() -> None:
    """A tube of 50 mm is no flat wall: its default must give 9 % more (ht 1.2.0: Nu 74.7)."""
    assert not thick_enough(0.05, 0.30, 2.151e8)
    assert thick_enough(0.10, 0.30, 2.151e8)
    assert slender_cylinder_nusselt(0.69, 2.151e8, 6.0) == pytest.approx(74.7, rel=5e-3)
    ours = upright_tube_coefficient(
        height=0.30, diameter=0.05, wall=WALL, air=ROOM, pressure=101325.0
    )
    assert ours / 7.394 == pytest.approx(1.09, abs=6e-3)


def test_radiation_outweighs_convection() -> None:
    """50 mm by 0.30 m at 200 °C (library values): 62.7 W and 102.8 W would change places."""
    area = math.pi * 0.05 * 0.30
    assert area == pytest.approx(0.04712, abs=5e-6)
    grash = grashof(0.30, WALL, ROOM, 101325.0)
    convected = area * 180.0 * coefficient(upright_wall_nusselt(prandtl(FILM), grash), 0.30, FILM)
    assert convected == pytest.approx(62.7, rel=4e-3)
    assert enclosed_exchange(0.9, area, WALL, ROOM) == pytest.approx(102.8, abs=0.05)


def test_a_wall_as_cool_as_the_air() -> None:
    """Without a temperature difference more would be left than conduction, 0.825 squared."""
    assert grashof(0.3, ROOM, ROOM, 101325.0) == 0.0
    assert upright_wall_nusselt(0.7, 0.0) == pytest.approx(0.825**2, rel=1e-12)

from __future__ import annotations

import numpy as np
import pytest

from wickwright.burn.burnt_gas import (
    NEEDED_AIR,
    adiabatic,
    conductivity_of,
    flame_nodes,
    gas,
    polynomial,
    viscosity_of,
)
from wickwright.burn.flame_nodes import FLAME_NODES
from wickwright.physics.combustion import KEROSENE
from wickwright.physics.flame import complete_gas, flame_temperature
from wickwright.physics.transport import conductivity, viscosity

WARM = np.linspace(280.0, 2000.0, 50)


def test_the_table_of_flames_follows_the_equilibrium_it_was_made_from() -> None:
    """A lamp would burn hotter or cooler than its own physics says, rich or lean."""
    ratios = np.array([0.75, 0.95, 1.0, 1.03, 1.2, 1.5, 2.2, 4.0])
    ours = adiabatic(ratios, np.zeros(8), np.zeros(8))
    assert ours == pytest.approx(flame_temperature(KEROSENE, ratios, 101325.0), abs=0.05)


def test_the_numbers_kept_are_those_the_equilibrium_gives_today() -> None:
    """A change of the physics would never reach the lamps: python scripts/documents.py."""
    assert np.array(FLAME_NODES) == pytest.approx(flame_nodes(), abs=1e-4)


@pytest.mark.parametrize("pressure", [47000.0, 70000.0, 108000.0])
def test_thin_air_cools_the_table_as_it_cools_the_flame(pressure: float) -> None:
    """Elevation would change the flame's temperature by more than dissociation does."""
    ratios = np.array([1.0, 1.1, 1.3, 2.0])
    ours = adiabatic(ratios, np.zeros(4), np.full(4, np.log(pressure / 101325.0)))
    assert ours == pytest.approx(flame_temperature(KEROSENE, ratios, pressure), abs=2.0)


@pytest.mark.parametrize("lost", [-0.04, 0.03, 0.08])
def test_heat_lost_cools_the_table_as_it_cools_the_flame(lost: float) -> None:
    """Warm rooms and cooled flames would be off by more than a kelvin or two."""
    ratios = np.array([1.0, 1.1, 1.3, 2.0])
    ours = adiabatic(ratios, np.full(4, lost), np.zeros(4))
    theirs = flame_temperature(KEROSENE, ratios, 101325.0, 298.15, lost)
    assert ours == pytest.approx(theirs, abs=2.0)


def test_beyond_the_table_its_end_holds() -> None:
    """A very lean or very rich setting would read memory that is not the table's."""
    ends = adiabatic(np.array([0.7, 0.1, 10.0, 500.0]), np.zeros(4), np.zeros(4))
    assert ends[1] == ends[0]
    assert ends[3] == ends[2]


def test_the_gas_of_a_lean_flame_holds_the_heat_of_its_fuel() -> None:
    """Gas temperatures up the chimney would be off by more than the polynomials allow."""
    ratios = np.array([1.2, 1.6, 3.0])
    hot = complete_gas(KEROSENE, ratios).temperature
    tables = gas()
    held = [
        (1.0 + NEEDED_AIR) * polynomial(tables.products, float(t))
        + NEEDED_AIR * (ratio - 1.0) * polynomial(tables.air, float(t))
        for ratio, t in zip(ratios, hot, strict=True)
    ]
    assert held == pytest.approx([KEROSENE.lower_heating_value] * 3, rel=2e-3)


def test_how_hot_air_conducts_and_flows_is_within_a_hundredth() -> None:
    """The quick cubics would drift from the equations they stand for."""
    assert conductivity_of(WARM) == pytest.approx(conductivity(WARM), rel=0.0125)
    assert viscosity_of(WARM) == pytest.approx(viscosity(WARM), rel=0.0125)

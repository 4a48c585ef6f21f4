"""Laws of a flame under a chimney, whatever the lamp."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.support.flames import GRAM_AN_HOUR

from wickwright.burn.balance import SETTLED
from wickwright.burn.flames import Flames, solve
from wickwright.burn.parts import (
    FULLEST,
    Air,
    Chimney,
    Lamps,
    Mantle,
    Passages,
    Wick,
    with_leaf,
)
from wickwright.physics.combustion import KEROSENE, oxygen_demand
from wickwright.physics.humidity import saturation_pressure

LAW = settings(max_examples=25, deadline=None)

PASSAGES = st.builds(
    Passages,
    st.floats(150e-6, 600e-6),
    st.floats(0.0, 4.0),
    st.floats(1e6, 3e8),
    st.floats(0.0, 0.6),
)
WICKS = st.builds(Wick, st.floats(40.0, 200.0).map(GRAM_AN_HOUR.__mul__), st.floats(1.1, 2.0))
MANTLES = st.builds(
    Mantle, st.floats(0.0, 70e-4), st.floats(0.2, 0.8), st.floats(0.03, 0.15), st.floats(0.5, 5.0)
)
CHIMNEYS = st.builds(
    Chimney,
    st.floats(0.2, 0.5),
    st.floats(0.045, 0.07),
    st.floats(0.05, 0.11),
    st.floats(0.030, 0.045),
    st.floats(0.001, 0.003),
)
AIRS = st.builds(
    Air,
    st.floats(60e3, 106e3),
    st.floats(275.0, 310.0),
    st.floats(0.0, 1.0),
    st.floats(0.18, 0.2096),
    st.floats(0.0, 0.02),
)
LAMPS = st.builds(Lamps, PASSAGES, WICKS, MANTLES, CHIMNEYS, AIRS)
FUELS = st.floats(25.0, 90.0).map(GRAM_AN_HOUR.__mul__)


def _fullest(lamps: Lamps) -> Lamps:
    return replace(lamps, fuel=FULLEST)


def _rising(lamps: Lamps, name: str, factors: tuple[float, ...]) -> Flames:
    """Light a lamp with one number scaled."""
    group, leaf = name.split(".")
    value = float(getattr(getattr(lamps, group), leaf))
    return solve(with_leaf(lamps, name, value * np.array(factors)))


@LAW
@given(LAMPS, FUELS | st.just(FULLEST))
def test_heat_is_neither_made_nor_lost(lamps: Lamps, fuel: float) -> None:
    """Some heat would vanish between fuel, glass, glow and the gas that leaves."""
    found = solve(replace(lamps, fuel=fuel))
    leaving = found.glass_loss + found.glow_out + found.exit_heat
    assert leaving == pytest.approx(found.heat, rel=1e-9)


@LAW
@given(LAMPS, FUELS)
def test_the_air_ratio_is_oxygen_over_what_the_fuel_takes(lamps: Lamps, fuel: float) -> None:
    """Oxygen would be made or lost: mass would not balance."""
    found = solve(replace(lamps, fuel=fuel))
    air = lamps.air
    saturation = saturation_pressure(float(air.temperature))
    steam = float(air.humidity) * saturation / float(air.pressure)
    dry = (
        0.031998 * float(air.oxygen)
        + 0.044009 * float(air.carbon_dioxide)
        + 0.028155 * (1.0 - float(air.oxygen) - float(air.carbon_dioxide))
    )
    mass = (1.0 - steam) * dry + steam * 0.018015
    oxygen = (1.0 - steam) * float(air.oxygen) * 0.031998 / mass
    drawn = float(found.air_flow) * oxygen
    assert drawn / (fuel * oxygen_demand(KEROSENE)) == pytest.approx(found.air_ratio, rel=1e-9)


@LAW
@given(LAMPS, FUELS | st.just(FULLEST))
def test_more_height_never_lowers_the_air_flow(lamps: Lamps, fuel: float) -> None:
    """A taller chimney would be sold that draws less."""
    flow = np.asarray(
        _rising(replace(lamps, fuel=fuel), "chimney.height", (1.0, 1.02, 1.3, 1.6)).air_flow
    )
    assert (np.diff(flow) >= -1e-9 * flow[0]).all()


@LAW
@given(LAMPS, FUELS | st.just(FULLEST))
def test_more_pressure_never_lowers_the_air_flow(lamps: Lamps, fuel: float) -> None:
    """A lamp would draw better up a mountain."""
    flow = np.asarray(
        _rising(replace(lamps, fuel=fuel), "air.pressure", (0.8, 0.82, 0.9, 1.0)).air_flow
    )
    assert (np.diff(flow) >= -1e-9 * flow[0]).all()


@LAW
@given(LAMPS, FUELS | st.just(FULLEST), st.sampled_from(("loss", "laminar")))
def test_less_resistance_never_lowers_the_air_flow(lamps: Lamps, fuel: float, name: str) -> None:
    """Cleaning a burner's holes would starve its flame."""
    flow = np.asarray(
        _rising(replace(lamps, fuel=fuel), f"passages.{name}", (1.5, 1.0, 0.9, 0.0)).air_flow
    )
    assert (np.diff(flow) >= -1e-9 * flow[0]).all()


@LAW
@given(LAMPS)
def test_no_clean_setting_is_brighter_than_the_fullest(lamps: Lamps) -> None:
    """'The fullest clean flame' would not be the fullest."""
    best = solve(_fullest(lamps))
    lower = np.linspace(0.3, 1.0, 15) * float(best.fuel)
    found = solve(replace(lamps, fuel=lower))
    light, margin = np.asarray(found.light), np.asarray(found.margin)
    assert (light[margin >= 0.0] <= float(best.light) * (1.0 + 1e-6)).all()


@LAW
@given(LAMPS)
def test_a_wick_set_beyond_the_fullest_flame_is_told(lamps: Lamps) -> None:
    """An owner who turns the wick too high would not be warned of carbon."""
    best = solve(_fullest(lamps))
    if float(best.margin) < 1e-9:
        assert float(solve(replace(lamps, fuel=1.05 * float(best.fuel))).margin) < 0.0


@LAW
@given(LAMPS, FUELS)
def test_temperatures_keep_their_order(lamps: Lamps, fuel: float) -> None:
    """Glass would be hotter than the gas that heats it, or a mantle than its flame."""
    found = solve(replace(lamps, fuel=fuel))
    room = float(lamps.air.temperature)
    assert found.flame >= found.mantle > room
    assert found.gas > found.gas_neck > found.gas_middle > found.exit_temperature > room
    assert found.gas > found.glass_foot > room
    assert found.exit_temperature > found.glass_upper > room


@LAW
@given(LAMPS, FUELS | st.just(FULLEST))
def test_draft_is_what_the_losses_use_up(lamps: Lamps, fuel: float) -> None:
    """The air flow found would not be the one at which draft and losses balance."""
    assert abs(float(solve(replace(lamps, fuel=fuel)).settled)) <= SETTLED

from __future__ import annotations

from dataclasses import fields, replace

import numpy as np
import pytest
from tests.support.flames import GRAM_AN_HOUR, table_lamp

from wickwright.burn.flames import Flames, along, solve
from wickwright.burn.parts import with_leaf
from wickwright.physics.air import pressure_at

HEIGHTS = np.array([0.25, 0.296, 0.371])
PRESSURES = np.array([101325.0, 80000.0])
FUELS = np.array([40.0, 55.0, 90.0]) * GRAM_AN_HOUR


def test_a_float_in_gives_floats_out() -> None:
    """A single lamp would come back as arrays, and its figures could not be printed."""
    found = solve(table_lamp())
    assert all(isinstance(getattr(found, one.name), float) for one in fields(Flames))


def test_chimneys_by_places_by_settings_are_the_same_one_by_one() -> None:
    """A chart would show other figures than the same lamp computed alone."""
    lamps = with_leaf(table_lamp(), "chimney.height", HEIGHTS[:, None, None])
    lamps = with_leaf(lamps, "air.pressure", PRESSURES[:, None])
    lamps = replace(lamps, fuel=np.append(FUELS, np.inf))
    many = solve(lamps)
    for at in np.ndindex(3, 2, 4):
        one = replace(
            with_leaf(
                with_leaf(table_lamp(), "chimney.height", float(HEIGHTS[at[0]])),
                "air.pressure",
                float(PRESSURES[at[1]]),
            ),
            fuel=float(np.append(FUELS, np.inf)[at[2]]),
        )
        alone = solve(one)
        assert np.asarray(many.air_flow)[at] == pytest.approx(alone.air_flow, rel=2e-9)
        assert np.asarray(many.light)[at] == pytest.approx(alone.light, rel=1e-6)


def test_threads_change_nothing() -> None:
    """The answer would depend on how many cores the machine has."""
    lamps = replace(table_lamp(), fuel=np.linspace(30.0, 90.0, 40000) * GRAM_AN_HOUR)
    assert np.array_equal(solve(lamps).light, solve(lamps, workers=2).light)


def test_at_its_fullest_the_flame_has_just_the_air_it_must() -> None:
    """The fullest clean flame would be dirty, or short of what it could give."""
    found = solve(table_lamp())
    assert found.air_ratio == pytest.approx(1.3, rel=1e-12)
    assert found.margin == pytest.approx(0.0, abs=1e-12)


def test_a_wick_that_gives_out_first_leaves_air_to_spare() -> None:
    """A small-flame burner would burn fuel its wick cannot give."""
    found = solve(with_leaf(table_lamp(), "wick.limit", 50.0 * GRAM_AN_HOUR))
    assert found.fuel == pytest.approx(50.0 * GRAM_AN_HOUR, rel=1e-12)
    assert found.margin > 0.2


def test_density_follows_the_room_and_pressure_the_place() -> None:
    """A mountain lamp in a heated room would be given the thin cold air outside.

    With one room temperature the draft goes with pressure, 0.832 at 5,000 ft, and a little
    less, since the smaller flow cools more on its way.
    """
    high = solve(with_leaf(table_lamp(), "air.pressure", pressure_at(1524.0)))
    low = solve(table_lamp())
    assert 0.80 < high.draft / low.draft < 0.832
    assert 0.76 < high.air_flow / low.air_flow < 0.832


def test_a_colder_room_draws_better() -> None:
    """The temperature of the room would not reach the draft."""
    cold = solve(with_leaf(table_lamp(), "air.temperature", 278.15))
    assert cold.draft > solve(table_lamp()).draft


def test_stale_air_starves_the_flame() -> None:
    """Air short of oxygen would feed as much fuel as fresh air."""
    stale = with_leaf(table_lamp(), "air.oxygen", 0.19)
    stale = with_leaf(stale, "air.carbon_dioxide", 0.013)
    found, fresh = solve(stale), solve(table_lamp())
    assert found.fuel / fresh.fuel == pytest.approx(0.19 / 0.20946, rel=0.03)
    assert found.light < 0.8 * fresh.light


def test_damp_air_costs_a_little_fuel() -> None:
    """Water in the air would not take the place of oxygen."""
    damp = with_leaf(with_leaf(table_lamp(), "air.temperature", 303.15), "air.humidity", 1.0)
    dry = with_leaf(damp, "air.humidity", 0.0)
    assert 0.90 < solve(damp).fuel / solve(dry).fuel < 0.97


def test_gas_and_glass_cool_towards_the_top() -> None:
    """The temperature along the chimney would not fall, or would jump between its lengths."""
    lamps = table_lamp()
    found = solve(lamps)
    gas = [float(along(found, lamps, share)[0]) for share in np.linspace(0.0, 1.0, 200)]
    falls = -np.diff(gas)
    assert gas[0] == pytest.approx(found.gas, rel=1e-12)
    assert gas[-1] == pytest.approx(found.exit_temperature, rel=1e-12)
    assert falls.min() > 0.0
    assert falls.max() < 15.0


def test_a_bare_flame_lights_by_its_efficacy() -> None:
    """A flat-wick lamp would have no light, or a mantle's."""
    lamps = with_leaf(table_lamp(30.0 * GRAM_AN_HOUR), "mantle.area", 0.0)
    lamps = with_leaf(with_leaf(lamps, "wick.efficacy", 0.19), "wick.radiant", 0.2)
    found = solve(lamps)
    assert found.light == pytest.approx(0.19 * found.heat * 0.9, rel=1e-9)
    assert found.glow == pytest.approx(0.2 * found.heat, rel=1e-9)


def test_without_air_enough_not_all_the_fuel_burns() -> None:
    """A wick far too high would give heat that its air cannot."""
    found = solve(table_lamp(150.0 * GRAM_AN_HOUR))
    assert found.air_ratio < 1.0
    assert found.heat == pytest.approx(found.fuel * found.air_ratio * 43.2e6, rel=1e-9)


def test_a_burner_nearly_shut_is_seen_not_to_settle_or_burns_very_low() -> None:
    """A choked burner would crash the solver or be given a flame it cannot have."""
    found = solve(with_leaf(table_lamp(), "passages.area", 1.2e-5))
    assert found.air_flow < 0.1 * solve(table_lamp()).air_flow
    assert np.isfinite(found.light)


def test_the_quick_first_passes_change_no_answer() -> None:
    """A chart of many lamps, begun in single precision, would be less exact than a lamp alone."""
    fuels = np.linspace(30.0, 90.0, 4096) * GRAM_AN_HOUR
    many = solve(replace(table_lamp(), fuel=fuels))
    for at in (0, 1000, 4095):
        alone = solve(table_lamp(float(fuels[at])))
        assert np.asarray(many.air_flow)[at] == pytest.approx(alone.air_flow, rel=8e-9)
        assert np.asarray(many.heat).dtype == np.float64

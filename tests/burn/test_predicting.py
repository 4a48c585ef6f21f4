from __future__ import annotations

import math
from functools import lru_cache

import numpy as np
import pytest
from tests.support.flames import GRAM_AN_HOUR, put_together

from wickwright.burn.bulb import bulb_light
from wickwright.burn.checks import BurnError, air_at
from wickwright.burn.flames import solve
from wickwright.burn.lamp import burning_lamp
from wickwright.burn.parts import with_leaf
from wickwright.burn.predicting import HEADLINES, Prediction, predict
from wickwright.terms.finding import Kind


@lru_cache(maxsize=4)
def _lamp(setting: str | float = "fullest") -> Prediction:
    return predict(put_together("DU-401"), air_at(0.0), setting=setting)


def test_every_headline_has_an_error_bar_and_three_reasons() -> None:
    """A figure would be printed as if it were known exactly."""
    found = _lamp()
    assert set(found.estimates) == set(HEADLINES)
    for name, estimate in found.estimates.items():
        if name != "margin":
            assert 0.0 < estimate.spread < abs(estimate.value)
            assert len(estimate.drivers) == 3
            sizes = [abs(driver.change) for driver in estimate.drivers]
            assert sizes == sorted(sizes, reverse=True)
            assert all(driver.says and driver.source for driver in estimate.drivers)


def test_an_error_bar_is_what_drawing_the_numbers_at_random_gives() -> None:
    """Error bars would be too narrow or too wide by more than their own purpose allows.

    A thousand lamps are drawn with every number normally distributed within its limits.
    """
    lamp = burning_lamp(put_together("DU-401"), air_at(0.0))
    rng = np.random.default_rng(7)
    lamps = lamp.lamps
    for one in lamp.inputs:
        if one.spread:
            drawn = one.value + one.spread * rng.standard_normal(1000)
            lamps = with_leaf(lamps, one.name, np.clip(drawn, 0.2 * one.value, 3.0 * one.value))
    many = solve(lamps)
    for name, share in (("draft", 0.15), ("air_flow", 0.15), ("fuel", 0.15), ("heat", 0.15)):
        spread = float(np.std(np.asarray(getattr(many, name))))
        assert _lamp()[name].spread == pytest.approx(spread, rel=share)
    logs = np.log(np.asarray(many.light))
    share = _lamp()["light"].spread / _lamp()["light"].value
    assert share == pytest.approx(float(np.std(logs)), rel=0.3)


def test_the_error_bar_of_a_product_is_that_of_its_factors() -> None:
    """Uncertainties would be added wrongly: the heat is fuel times heating value."""
    found = _lamp("mark")
    share = math.hypot(2.0 / 62.0, 0.5 / 43.2)
    assert found["heat"].spread / found["heat"].value == pytest.approx(share, rel=1e-3)
    assert [driver.name for driver in found["heat"].drivers][:2] == [
        "fuel",
        "model.heating_value",
    ]


def test_fuel_is_told_in_every_unit_the_desk_uses() -> None:
    """A caller would be told grams for millilitres, or imperial ounces."""
    found = _lamp("mark")
    assert found.grams_an_hour == pytest.approx(62.0)
    assert found.millilitres_an_hour == pytest.approx(62.0 / 0.807)
    assert found.fluid_ounces_an_hour == pytest.approx(62.0 / 0.807 / 29.5735296)
    assert found.btu_an_hour == pytest.approx(62.0 * 43.2 / 1.05505585, rel=1e-6)


def test_a_font_lasts_its_volume_over_what_is_burnt() -> None:
    """A lamp would be said to burn longer than its font holds."""
    found = _lamp("mark")
    assert found.hours == pytest.approx(880.0 / (62.0 / 0.807))
    assert found["run_time"].kind is Kind.TIME


def test_the_glass_named_is_the_hottest() -> None:
    """The glass would be judged by a cooler part of it."""
    flames = _lamp().flames
    assert _lamp()["glass"].value == max(
        float(flames.glass_foot), float(flames.glass_lower), float(flames.glass_upper)
    )


def test_the_profile_runs_from_foot_to_top() -> None:
    """A chart of the chimney would show the wrong height or the wrong end."""
    found = _lamp()
    assert found.heights[0] == 0.0
    assert found.heights[-1] == pytest.approx(0.296)
    assert (np.diff(found.gas_along) < 0.0).all()
    assert (found.gas_along > found.glass_along).all()


def test_a_higher_place_dims_the_lamp() -> None:
    """A caller in the mountains would be promised the light of the coast."""
    high = predict(put_together("DU-401"), air_at(1600.0))
    assert high["light"].value < 0.75 * _lamp()["light"].value
    assert high["fuel"].value < _lamp()["fuel"].value < 70.0 * GRAM_AN_HOUR


def test_the_light_of_a_bulb_stands_beside() -> None:
    """A caller who asks for a bulb would be told a light no bulb gives."""
    sixty = bulb_light(60.0)
    assert (sixty.value, sixty.kind) == (710.0, Kind.LIGHT)
    assert bulb_light(25.0).value / 25.0 < sixty.value / 60.0
    with pytest.raises(BurnError) as error:
        bulb_light(1000.0)
    assert str(error.value) == (
        "a bulb of 1000 W is none this was thought out for (5 W to 200 W): check the figure "
        "stamped on it"
    )

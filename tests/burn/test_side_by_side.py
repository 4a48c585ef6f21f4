"""Several lamps solved together, and what each has over another."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
import pytest
from tests.support.flames import put_together

from wickwright.burn.checks import air_at
from wickwright.burn.heights import taller
from wickwright.burn.lamp import BurningLamp, burning_lamp
from wickwright.burn.predicting import HEADLINES, predict_lamp
from wickwright.burn.side_by_side import Burnt, gain, side_by_side, solve_each


def _lamp(lamp: str = "DU-401", **changed: str) -> BurningLamp:
    return burning_lamp(put_together(lamp, **changed), air_at(1200.0))


@lru_cache(maxsize=1)
def _three() -> tuple[Burnt, ...]:
    tall = _lamp(chimney="CH-3371")
    return side_by_side([(_lamp(), "fullest"), (tall, "fullest"), (_lamp("TU-601"), "mark")])


def test_lamps_side_by_side_burn_as_they_do_alone() -> None:
    """If this failed, a lamp's light would depend on what it is compared with."""
    cases = ((_lamp(), "fullest"), (_lamp(chimney="CH-3371"), "fullest"), (_lamp("TU-601"), "mark"))
    for burnt, (lamp, setting) in zip(_three(), cases, strict=True):
        alone = predict_lamp(lamp, setting)
        for name in HEADLINES:
            if name == "margin":  # rounding noise at the fullest flame
                assert burnt.prediction[name].value == pytest.approx(alone[name].value, abs=1e-8)
                continue
            assert burnt.prediction[name].value == pytest.approx(alone[name].value, rel=1e-7)
            assert burnt.prediction[name].spread == pytest.approx(alone[name].spread, rel=1e-3)
        assert burnt.prediction.glass_along == pytest.approx(alone.glass_along, rel=1e-7)


def test_a_gain_is_known_better_than_either_light() -> None:
    """If this failed, a caller would hear that nobody knows whether the tall glass is brighter."""
    here, tall, _ = _three()
    more = gain(here, tall, "light")
    lights = here.prediction["light"], tall.prediction["light"]
    assert more.value == pytest.approx(lights[1].value / lights[0].value - 1.0)
    assert 0.0 < more.spread < 0.25 * lights[0].spread / lights[0].value


def test_a_gain_in_height_alone_is_that_of_a_taller_chimney() -> None:
    """If this failed, two answers on the same chimney would differ.

    The two chimneys' own tolerances are what the other answer leaves out.
    """
    here, tall, _ = _three()
    other = taller(here.prediction.lamp, 0.371)
    for name, estimate in (("light", other.light), ("fuel", other.fuel)):
        found = gain(here, tall, name)
        assert found.value == pytest.approx(estimate.value, rel=1e-6)
        assert estimate.spread * 0.9 < found.spread < estimate.spread + 0.06


def test_a_lamp_has_nothing_over_itself() -> None:
    """If this failed, a lamp left as it is would be sold as brighter or dimmer."""
    here = _three()[0]
    same = gain(here, here, "light")
    assert (same.value, same.spread, same.drivers) == (0.0, 0.0, ())


def test_no_lamps_need_no_flame() -> None:
    """If this failed, an answer without a route would end in an error."""
    assert side_by_side([]) == ()
    assert solve_each([], []) == []


def test_each_keeps_its_own_states() -> None:
    """If this failed, one lamp would be given the flame of its neighbour."""
    lamps = [_lamp().lamps, _lamp("TU-601").lamps]
    first, second = solve_each(lamps, [1, 1])
    assert np.shape(first.light) == np.shape(second.light) == (1,)
    assert float(np.asarray(first.light)[0]) > 2.0 * float(np.asarray(second.light)[0])

"""How bright burner, chimney and mantle are together, as the route search is told."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.support.demo import demo

from wickwright.answers.flames.flame_lights import (
    FlameLights,
    flame_known,
    light_of_bulb,
    lights_at,
)
from wickwright.answers.flames.standing_air import RoomAir
from wickwright.burn.checks import air_at
from wickwright.burn.flames import solve
from wickwright.burn.lamp import burning_parts
from wickwright.burn.trios import light_of_trios
from wickwright.fit.light import Trio
from wickwright.fit.place import Place

PARTS = demo().book.parts
ROUND = ("BU-1100", "BU-2200", "BU-3200", "BU-3220", "BU-5100")
SAME_BORES = ("CH-3250", "CH-3296", "CH-3318", "CH-3371")
"""Chimneys of one shape, shortest first."""


def _trio(burner: str, chimney: str, mantle: str = "") -> Trio:
    return Trio(PARTS[burner], PARTS[chimney], PARTS[mantle] if mantle else None)


def test_many_trios_shine_as_each_does_alone() -> None:
    """If this failed, the search would rank lamps by a light they do not give."""
    trios = [
        _trio(burner, chimney, mantle)
        for burner, chimney, mantle in product(
            ("BU-3200", "BU-3220", "BU-6100"),
            ("CH-3296", "CH-3371", "CH-6214", "CH-3301"),
            ("MA-3300", "MA-3310", ""),
        )
    ]
    air = air_at(1200.0)
    alone = [solve(burning_parts(*trio, air).lamps).light for trio in trios]
    assert light_of_trios(trios, air) == pytest.approx(alone, rel=1e-7)


def test_points_are_hundredths_of_a_natural_log_unit() -> None:
    """If this failed, a tenth more light would not be ten points."""
    trio = _trio("BU-3200", "CH-3296", "MA-3300")
    (points,) = FlameLights(Place()).points([trio])
    (light,) = light_of_trios([trio], air_at(0.0))
    assert points == round(100.0 * math.log(light))


@given(st.sampled_from(ROUND), st.floats(-400.0, 3000.0))
@settings(max_examples=25, deadline=None)
def test_height_never_costs_light_while_the_air_is_short(burner: str, elevation: float) -> None:
    """If this failed, a taller chimney would be refused where it helps.

    A wick that gives out first is another matter: more air only cools its flame.
    """
    air = air_at(elevation)
    trios = [_trio(burner, chimney, "MA-3300") for chimney in SAME_BORES]
    solved = [solve(burning_parts(*trio, air).lamps) for trio in trios]
    for lower, higher in pairwise(solved):
        assert float(higher.air_flow) > float(lower.air_flow)
        if float(higher.margin) < 1e-6:
            assert float(higher.light) > float(lower.light)


@given(st.sampled_from(ROUND), st.floats(-400.0, 2900.0), st.floats(10.0, 3000.0))
@settings(max_examples=25, deadline=None)
def test_thinner_air_never_makes_a_flame_short_of_air_brighter(
    burner: str, elevation: float, climb: float
) -> None:
    """If this failed, a lamp would be promised more light for being carried uphill."""
    trio = _trio(burner, "CH-3296", "MA-3300")
    low, high = (
        solve(burning_parts(*trio, air_at(at)).lamps)
        for at in (elevation, min(elevation + climb, 6000.0))
    )
    assert float(high.air_flow) < float(low.air_flow)
    if float(low.margin) < 1e-6:
        assert float(high.light) < float(low.light)


def test_a_chimney_of_no_height_or_all_foot_is_not_known() -> None:
    """If this failed, a part with a slip in its row would be the brightest of all."""
    lights = FlameLights(Place())
    trio = _trio("BU-3200", "CH-3296", "MA-3300")
    for height in (None, 0.05, 5.0):
        wrong = trio._replace(chimney=replace(trio.chimney, id="CH-X", height=height))
        assert FlameLights(Place()).points([wrong]) == [None]
    assert lights.points([]) == []


def test_what_was_not_measured_is_not_known() -> None:
    """If this failed, a general figure would pass for a measured burner."""
    bare = replace(PARTS["BU-3200"], flame={})
    assert not flame_known(bare)
    assert not flame_known(PARTS["BU-7200"])
    trio = _trio("BU-3200", "CH-3296", "MA-3300")._replace(burner=bare)
    assert FlameLights(Place()).points([trio]) == [None]


def test_parts_alike_are_one_sort() -> None:
    """If this failed, the search would solve the same flame again for every finish."""
    lights = FlameLights(Place())
    assert lights.sort_of(PARTS["BU-2200"]) == lights.sort_of(PARTS["BU-2205"])
    assert lights.sort_of(PARTS["CH-3296"]) == lights.sort_of(PARTS["CH-3305"])
    assert lights.sort_of(PARTS["CH-3296"]) != lights.sort_of(PARTS["CH-3371"])
    assert lights.sort_of(PARTS["MA-3300"]) != lights.sort_of(PARTS["MA-3310"])


def test_a_book_remembers_a_place_and_keeps_places_and_rooms_apart() -> None:
    """If this failed, a lamp in the hills would be given the light of the shore."""
    here = lights_at(demo(), Place(100.0))
    assert lights_at(demo(), Place(100.0)) is here
    assert lights_at(demo(), Place(200.0)) is not here
    assert lights_at(demo(), Place(100.0), RoomAir(oxygen=0.19)) is not here
    trio = [_trio("BU-3200", "CH-3296", "MA-3300")]
    low, high = (lights_at(demo(), Place(at)).points(trio)[0] for at in (100.0, 2500.0))
    assert low is not None
    assert high is not None
    assert high < low


def test_a_bulb_without_watts_has_no_light() -> None:
    """If this failed, an empty lampholder would shine."""
    assert light_of_bulb(replace(PARTS["LB-2760"], heat=0.0)) is None
    assert FlameLights(Place()).bulb_points(PARTS["LB-2760"]) == round(100.0 * math.log(710.0))

"""Laws of a room's air: what goes in stays or leaves, and more air is never worse."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.support.rooms import HOUR, OUTSIDE, ROOM_AIR, SEA_LEVEL, a_lamp

from wickwright.room.above import LAWS, Column, height_that_cools, rise_by
from wickwright.room.air import GASES, Air, Room, air_after, air_over, air_settled, rates
from wickwright.room.beside import distance_that_cools, flux_held, radiant_flux, surface_beside
from wickwright.room.box import share_after, time_to_reach
from wickwright.room.burning import Exchange, together
from wickwright.room.limits import LIMITS, Limit, limit_named
from wickwright.room.people import SEATED
from wickwright.room.ventilation import change_needed, limit_as_share, reading, time_until

LAW = settings(max_examples=40, deadline=None)
ROOMS = st.builds(
    Room,
    st.floats(5.0, 200.0),
    st.floats(0.05 / HOUR, 10.0 / HOUR),
    st.floats(275.0, 305.0),
    st.floats(6e4, 1.04e5),
    st.just(OUTSIDE),
)
SOURCES = st.builds(Exchange, st.floats(0.0, 2e-4), st.floats(0.0, 1e-4), st.floats(0.0, 2e-4))
TIMES = st.floats(10.0, 24 * HOUR)
COLUMNS = st.builds(
    Column,
    st.floats(600.0, 1000.0),
    st.floats(300.0, 600.0),
    st.floats(0.03, 0.07),
    st.floats(450.0, 900.0),
    st.floats(280.0, 305.0),
    st.floats(6e4, 1.04e5),
)


@LAW
@given(ROOMS, SOURCES, TIMES)
def test_what_is_given_off_stays_or_leaves(room: Room, source: Exchange, time: float) -> None:
    """Gas would be made or lost: given off = stored + carried off, gas by gas."""
    nodes, weights = np.polynomial.legendre.leggauss(40)
    fast, end = rates(room, source), air_after(room, source, time)
    for gas in GASES:
        outside, given_off = room.outside.of(gas), fast.of(gas)
        then = share_after(
            start=np.asarray(outside),
            outside=np.asarray(outside),
            source=np.asarray(given_off),
            change=np.asarray(room.change),
            time=0.5 * time * (nodes + 1.0),
        )
        carried = room.change * 0.5 * time * float(weights @ (then - outside))
        stored = end.of(gas) - outside
        assert stored + carried == pytest.approx(given_off * time, rel=1e-7, abs=1e-12)


@LAW
@given(ROOMS, SOURCES, TIMES, st.floats(1.01, 4.0))
def test_more_air_is_never_worse(room: Room, source: Exchange, time: float, more: float) -> None:
    """Opening a window would fill the room with carbon dioxide or water, or take its oxygen."""
    aired = Room(room.volume, room.change * more, room.temperature, room.pressure, room.outside)
    shut, opened = air_after(room, source, time), air_after(aired, source, time)
    assert opened.carbon_dioxide <= shut.carbon_dioxide + 1e-15
    assert opened.water <= shut.water + 1e-15
    assert opened.oxygen >= shut.oxygen - 1e-15


@LAW
@given(ROOMS, TIMES, st.integers(1, 6))
def test_lamps_add_up(room: Room, time: float, lamps: int) -> None:
    """The second lamp would count for more or less than the first."""
    one = air_after(room, a_lamp().exchange, time).carbon_dioxide - OUTSIDE.carbon_dioxide
    all_lamps = together([a_lamp().exchange] * lamps)
    many = air_after(room, all_lamps, time).carbon_dioxide - OUTSIDE.carbon_dioxide
    assert many == pytest.approx(lamps * one, rel=1e-9)


@LAW
@given(ROOMS, SOURCES, st.lists(TIMES, min_size=1, max_size=4), st.floats(1200.0, 9000.0))
def test_steps_at_steady_rates_are_exact(
    room: Room, source: Exchange, times: list[float], step: float
) -> None:
    """Stepping would drift away from the closed form."""
    ordered = sorted(times)
    stepped = air_over(room, lambda _: source, ordered, step=step)
    for time, air in zip(ordered, stepped, strict=True):
        closed = air_after(room, source, time)
        for gas in GASES:
            assert air.of(gas) == pytest.approx(closed.of(gas), rel=1e-9)


def test_steps_with_feedback_close_in_by_their_square() -> None:
    """A flame that fades with the oxygen would be stepped by a method of lower order."""
    room, taken = Room(20.0, 0.5 / HOUR, ROOM_AIR, SEA_LEVEL, OUTSIDE), a_lamp(300.0).exchange

    def fading(air: Air) -> Exchange:
        share = air.oxygen / OUTSIDE.oxygen
        return Exchange(oxygen=taken.oxygen * share)

    pull = -rates(room, taken).oxygen / OUTSIDE.oxygen
    change = room.change + pull
    end = room.change * OUTSIDE.oxygen / change
    exact = end + (OUTSIDE.oxygen - end) * float(np.exp(-change * 2 * HOUR))
    errors = [
        abs(air_over(room, fading, [2 * HOUR], step=step)[0].oxygen - exact)
        for step in (1800.0, 900.0, 450.0)
    ]
    for coarse, fine in pairwise(errors):
        assert 3.3 < coarse / fine < 4.8
    assert errors[-1] < 1e-5


@LAW
@given(ROOMS, SOURCES)
def test_a_long_evening_ends_where_the_room_settles(room: Room, source: Exchange) -> None:
    """The end of the closed form and the steady values would differ."""
    late, settled = air_after(room, source, 60.0 / room.change), air_settled(room, source)
    for gas in GASES:
        assert late.of(gas) == pytest.approx(settled.of(gas), rel=1e-9)


@LAW
@given(ROOMS, st.lists(TIMES, min_size=2, max_size=5), st.floats(-1e-6, 1e-6))
def test_array_equals_scalar(room: Room, times: list[float], source: float) -> None:
    """A sweep over times would answer otherwise than a question about one."""
    for change in (0.0, room.change):
        many = share_after(
            start=np.asarray(0.001),
            outside=np.asarray(0.0004),
            source=np.asarray(source),
            change=np.asarray(change),
            time=np.array(times),
        )
        one = [
            share_after(start=0.001, outside=0.0004, source=source, change=change, time=time)
            for time in times
        ]
        assert all(isinstance(share, float) for share in one)
        assert many.tolist() == pytest.approx(one, rel=1e-14)


@LAW
@given(ROOMS, SOURCES, st.sampled_from([one for one in LIMITS if one.gas != "carbon monoxide"]))
def test_the_time_to_a_limit_is_when_it_is_passed(
    room: Room, source: Exchange, limit: Limit
) -> None:
    """A caller would be told the wrong hour."""
    when = time_until(limit, room, source)
    if when is None or when == 0.0:
        return
    at = reading(limit, room, air_after(room, source, when))
    assert at == pytest.approx(limit.value, rel=1e-6)


@LAW
@given(ROOMS, st.integers(1, 4), st.one_of(st.none(), TIMES))
def test_the_air_change_needed_just_holds_the_limit(
    room: Room, lamps: int, time: float | None
) -> None:
    """The opening advised would be too small, or larger than it need be."""
    limit = limit_named("co2-unacceptable")
    exchange = together([*[a_lamp().exchange] * lamps, SEATED.exchange])
    needed = change_needed(limit, room, exchange, time)
    assert needed is not None
    aired = Room(room.volume, min(needed, 100 / HOUR), room.temperature, room.pressure, OUTSIDE)
    after = 1e9 if time is None else time
    reached = air_after(aired, exchange, after).carbon_dioxide
    if 0.0 < needed < 100 / HOUR:
        assert reached == pytest.approx(limit_as_share(limit, room), rel=1e-6)
    elif needed == 0.0:
        assert reached <= limit.value * (1 + 1e-9)


@LAW
@given(st.floats(0.0, 5e-6), st.floats(1e-6, 1e-3), st.floats(60.0, 1e5))
def test_time_to_reach_undoes_share_after(source: float, change: float, time: float) -> None:
    """The inverse would not be one."""
    end = share_after(start=0.0004, outside=0.0004, source=source, change=change, time=time)
    back = time_to_reach(start=0.0004, outside=0.0004, source=source, change=change, limit=end)
    if back is not None and back > 0.0 and change * time < 5.0:
        assert back == pytest.approx(time, rel=1e-4)


@LAW
@given(COLUMNS, st.floats(0.01, 3.0), st.floats(1.01, 3.0))
def test_it_is_never_hotter_higher_up(column: Column, height: float, further: float) -> None:
    """A shelf would be advised to move down into hotter gas, or gas be hotter than it left."""
    for law in LAWS:
        near, far = rise_by(law, column, height), rise_by(law, column, height * further)
        assert far <= near + 1e-12
        assert near <= column.exit - column.air + 1e-9


@LAW
@given(COLUMNS, st.lists(st.floats(0.0, 3.0), min_size=2, max_size=6))
def test_heights_in_an_array_equal_heights_one_by_one(column: Column, heights: list[float]) -> None:
    """The chart above a lamp would show other degrees than the finding."""
    for law in LAWS:
        many = rise_by(law, column, np.array(heights))
        one = [rise_by(law, column, height) for height in heights]
        assert all(isinstance(rise, float) for rise in one)
        assert many.tolist() == pytest.approx(one, rel=1e-12)


@LAW
@given(COLUMNS, st.floats(320.0, 440.0))
def test_the_height_that_cools_is_where_it_is_that_cool(column: Column, allowed: float) -> None:
    """The distance advised would not be the distance at which the limit is kept."""
    for law, height in height_that_cools(column, allowed):
        assert column.air + rise_by(law, column, height) <= allowed + 1e-6
        if height > column.zone * 1.001:
            below = column.air + rise_by(law, column, height * 0.999)
            assert below > allowed


@LAW
@given(st.floats(300.0, 1000.0), st.floats(0.05, 1.0), st.floats(0.1, 0.5))
def test_beside_there_and_back(heat: float, distance: float, share: float) -> None:
    """Flux, temperature and distance beside a lamp would contradict each other."""
    flux = radiant_flux(heat, share, distance)
    warm = surface_beside(flux, ROOM_AIR, SEA_LEVEL)
    assert flux_held(warm, ROOM_AIR, SEA_LEVEL) == pytest.approx(flux, rel=1e-6)
    if warm > ROOM_AIR + 1.5:
        back = distance_that_cools(heat, share, warm, ROOM_AIR, SEA_LEVEL)
        assert back == pytest.approx(distance, rel=1e-6)

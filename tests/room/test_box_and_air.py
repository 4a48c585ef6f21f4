from __future__ import annotations

import dataclasses
import math

import pytest
from tests.support.rooms import HOUR, OUTSIDE, ROOM_AIR, SEA_LEVEL, a_lamp, a_room

from wickwright.room.air import (
    Air,
    Room,
    air_after,
    air_over,
    air_settled,
    humidity_of,
    outdoor_air,
    rates,
)
from wickwright.room.box import (
    air_change_of_decay,
    change_that_holds,
    share_after,
    time_to_reach,
)
from wickwright.room.checks import RoomError


def test_what_the_box_leaves_out_is_as_small_as_it_says() -> None:
    """The fall of oxygen would be off by more than the 0.05 % of the air that is admitted.

    Counting every molecule, what leaves is what comes in and what burning adds, so that
    n' = n + sum of sources and each gas gains its source less its share of that sum.
    """
    room = a_room(40.0, 0.5)
    fast = rates(room, a_lamp().exchange)
    added = fast.carbon_dioxide + fast.oxygen + fast.water
    exact = (room.change * OUTSIDE.oxygen + fast.oxygen) / (room.change + added)
    plain = air_settled(room, a_lamp().exchange).oxygen
    assert 4e-4 < plain - exact < 6e-4


def test_at_the_start_nothing_has_changed() -> None:
    """The air would jump when the lamp is lit."""
    start = Air(0.001, 0.2, 0.01)
    assert air_after(a_room(), a_lamp().exchange, 0.0, start) == start
    assert air_after(a_room(), a_lamp().exchange, 0.0) == OUTSIDE


def test_thin_air_fills_faster() -> None:
    """A lamp at 5000 ft would not count for more in the same room."""
    low, high = a_room(), dataclasses.replace(a_room(), pressure=84311.0)
    ratio = (
        rates(high, a_lamp().exchange).carbon_dioxide / rates(low, a_lamp().exchange).carbon_dioxide
    )
    assert ratio == pytest.approx(SEA_LEVEL / 84311.0, rel=1e-12)


def test_outdoor_air_is_thinned_by_its_vapour() -> None:
    """Damp air would have the oxygen of dry air."""
    dry, damp = (outdoor_air(ROOM_AIR, humidity, SEA_LEVEL) for humidity in (0.0, 1.0))
    assert dry.oxygen == pytest.approx(0.20946)
    assert damp.oxygen == pytest.approx(0.20946 * (1 - damp.water))
    assert humidity_of(damp, ROOM_AIR, SEA_LEVEL) == pytest.approx(1.0, rel=1e-12)
    assert damp.of("water vapour") == damp.water


def test_every_fault_of_a_room_is_told_at_once() -> None:
    """The user would mend one number after the other."""
    with pytest.raises(RoomError) as refused:
        Room(0.0, -1.0 / HOUR, 20.0, 1013.0, OUTSIDE)
    assert refused.value.faults == (
        (
            "The volume of the room is 0 m3; allowed is 0.5 m3 to 100000 m3. Multiply length, "
            "width and height of the room, in metres."
        ),
        (
            "The air change of the room is -1 an hour; allowed is 0 an hour to 100 an hour. A "
            "closed room in a house has 0.2 to 1, one with a window open 2 to 10."
        ),
        (
            "The temperature of the room is 20 K; allowed is 253.15 K to 323.15 K. Give kelvin: "
            "293.15 is 20 °C."
        ),
        (
            "The air pressure is 1013 Pa; allowed is 45000 Pa to 110000 Pa. Give pascal at the "
            "place, not reduced to sea level."
        ),
    )


def test_a_sealed_room_never_settles() -> None:
    """An endless rise would be given an end."""
    with pytest.raises(RoomError) as refused:
        air_settled(a_room(changes=0.0), a_lamp().exchange)
    assert str(refused.value) == (
        "With 0 air changes an hour the air never settles; allowed is anything above 0. Ask for "
        "the share after a time, or give the room an air change."
    )


def test_times_that_run_backwards_are_refused() -> None:
    """Steps would be taken into the past."""
    with pytest.raises(RoomError) as refused:
        air_over(a_room(), lambda _: a_lamp().exchange, [60.0, 30.0])
    assert str(refused.value) == (
        "The times run backwards; allowed is zero or later, rising. Sort them."
    )


def test_a_step_of_nothing_is_refused() -> None:
    """Stepping would never end."""
    with pytest.raises(RoomError) as refused:
        air_over(a_room(), lambda _: a_lamp().exchange, [60.0], step=0.0)
    assert str(refused.value) == (
        "The step is 0 s; allowed is 0.001 s to no upper end. Take a minute or two."
    )


def test_the_sources_are_asked_about_the_air_as_it_is() -> None:
    """A lamp in spent air would burn as in fresh air."""
    seen: list[float] = []

    def watching(air: Air) -> object:
        seen.append(air.oxygen)
        return a_lamp().exchange

    air_over(a_room(changes=0.0), watching, [0.0, HOUR], step=600.0)  # type: ignore[arg-type]
    assert seen[0] == OUTSIDE.oxygen
    assert seen[-1] < seen[3] < OUTSIDE.oxygen


def test_a_limit_that_is_never_reached_has_no_time() -> None:
    """A caller would be told an hour for what never happens."""
    steady = {"start": 0.0004, "outside": 0.0004, "source": 1e-7, "change": 1e-4}
    assert time_to_reach(**steady, limit=0.0015) is None
    assert time_to_reach(**{**steady, "source": 0.0}, limit=0.0015) is None
    assert time_to_reach(**{**steady, "change": 0.0, "source": 0.0}, limit=0.0015) is None
    assert time_to_reach(**{**steady, "change": 0.0}, limit=0.0003) is None
    assert time_to_reach(**steady, limit=0.0004) == 0.0


def test_a_sealed_room_reaches_a_limit_on_a_straight_line() -> None:
    """The special case without air change would be wrong."""
    sealed = {"start": 0.0004, "outside": 0.0004, "source": 1e-7, "change": 0.0}
    assert time_to_reach(**sealed, limit=0.0014) == pytest.approx(1e4, rel=1e-9)
    assert share_after(**sealed, time=1e4) == pytest.approx(0.0014, rel=1e-12)


def test_no_air_change_is_needed_without_a_source_and_none_helps_with_bad_air_outside() -> None:
    """A window would be opened for nothing."""
    still = {"start": 0.0004, "outside": 0.0004}
    assert change_that_holds(**still, source=0.0, limit=0.001) == 0.0
    assert change_that_holds(**still, source=1e-7, limit=0.0004) is None
    assert change_that_holds(**still, source=1e-9, limit=0.001, time=60.0) == 0.0
    assert change_that_holds(start=0.2, outside=0.2, source=-1e-6, limit=0.19) == pytest.approx(
        1e-4
    )


def test_a_decay_that_does_not_fade_is_refused() -> None:
    """Two readings of a room still filling would give a negative air change."""
    with pytest.raises(RoomError) as refused:
        air_change_of_decay(start=1000e-6, end=1200e-6, outside=420e-6, time=0.0)
    assert str(refused.value) == (
        "The time between the readings is 0 s; allowed is 1 s to no upper end. Take both readings "
        "with lamps out and people gone, some time apart. The second reading is 1200 ppm; allowed "
        "is 421 ppm to 1000 ppm. Take both readings with lamps out and people gone, some time "
        "apart."
    )


def test_a_nearly_sealed_room_is_nearly_sealed() -> None:
    """The closed form would lose its digits as the air change goes to nothing."""
    common = {"start": 0.0004, "outside": 0.0004, "source": 1e-7, "time": 3600.0}
    sealed, nearly = (share_after(**common, change=change) for change in (0.0, 1e-15))
    assert math.isclose(sealed, nearly, rel_tol=1e-11)

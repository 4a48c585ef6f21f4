from __future__ import annotations

import pytest
from tests.support.rooms import HOUR, OUTSIDE, ROOM_AIR, a_lamp, a_room

from wickwright.room.air import Air
from wickwright.room.carbon_monoxide import ASSUMED_YIELD, assumed_band, share_of_yield
from wickwright.room.checks import RoomError
from wickwright.room.limits import LIMITS, limit_named, limits_of
from wickwright.room.ventilation import (
    change_needed,
    flow_through_opening,
    limit_as_share,
    opening_needed,
    settled_reading,
    time_until,
)
from wickwright.room.yardsticks import known_rate_volume, yardsticks
from wickwright.terms.source import SOURCES, Seen


def test_every_limit_has_its_own_name_and_a_source() -> None:
    """A finding would cite nothing, or the wrong limit."""
    assert len({limit.key for limit in LIMITS}) == len(LIMITS)
    assert {limit.source for limit in LIMITS} <= set(SOURCES)
    assert SOURCES[limit_named("co-indoor").source].seen is Seen.MEMORY
    assert {limit.gas for limit in LIMITS} == {
        "carbon dioxide",
        "carbon monoxide",
        "oxygen",
        "humidity",
    }
    assert [limit.key for limit in limits_of("oxygen")] == ["oxygen-low"]


def test_an_unknown_limit_is_refused_with_the_nearest() -> None:
    """A slip of the pen would end in a bare KeyError."""
    with pytest.raises(RoomError) as refused:
        limit_named("co2-wrk")
    assert str(refused.value) == (
        "There is no limit 'co2-wrk': did you mean 'co2-work'? the limits are co2-elevated, "
        "co2-unacceptable, co2-work, co2-work-niosh, co2-short, oxygen-low, humid, wet, co-work, "
        "co-work-niosh, co-ceiling, co-danger, co-ambient-hour, co-ambient, co-europe-quarter, "
        "co-europe-half, co-europe-hour, co-europe, co-indoor-quarter, co-indoor-hour, co-indoor, "
        "co-indoor-day, co-day."
    )


def test_humidity_is_a_share_of_the_air_at_the_rooms_warmth() -> None:
    """60 % at 20 °C, 2339 Pa saturated, would be held against another amount of water."""
    assert limit_as_share(limit_named("humid"), a_room()) * 101325 == pytest.approx(1403.5, abs=1.0)


def test_a_room_that_starts_beyond_a_limit_has_no_time_left() -> None:
    """A stuffy or spent room would be given time."""
    stuffy = Air(0.006, 0.19, 0.01)
    lamp = a_lamp().exchange
    assert time_until(limit_named("co2-work"), a_room(), lamp, stuffy) == 0.0
    assert time_until(limit_named("oxygen-low"), a_room(), lamp, stuffy) == 0.0


def test_oxygen_is_held_from_below() -> None:
    """The air change for oxygen would be worked out as for a gas that is given off."""
    limit, lamps = limit_named("oxygen-low"), a_lamp(650.0).exchange
    needed = change_needed(limit, a_room(), lamps)
    assert needed is not None
    aired = a_room(changes=needed * HOUR)
    assert settled_reading(limit, aired, lamps) == pytest.approx(0.195, rel=1e-9)


def test_a_sealed_room_has_no_settled_reading() -> None:
    """A sealed room would be called settled."""
    assert settled_reading(limit_named("co2-work"), a_room(changes=0.0), a_lamp().exchange) is None


def test_bad_air_outside_cannot_be_aired_away() -> None:
    """An air change would be advised that cannot help."""
    foul = a_room(outside=Air(2500e-6, 0.205, 0.005))
    assert change_needed(limit_named("co2-unacceptable"), foul, a_lamp().exchange) is None


def test_opening_undoes_flow() -> None:
    """The opening advised would not let through the air it is for."""
    area = opening_needed(0.02, 2.0, ROOM_AIR, ROOM_AIR - 5.0)
    assert area is not None
    assert flow_through_opening(area, 2.0, ROOM_AIR, ROOM_AIR - 5.0) == pytest.approx(0.02)
    assert opening_needed(0.02, 2.0, ROOM_AIR, ROOM_AIR) is None


def test_an_opening_without_size_is_refused() -> None:
    """A shut window would let air through."""
    with pytest.raises(RoomError) as refused:
        flow_through_opening(0.0, -1.0, 293.0, 283.0)
    assert str(refused.value) == (
        "The area of the opening is 0 m2; allowed is 1e-06 m2 to 100 m2. Multiply its width and "
        "height. The height of the opening is -1 m; allowed is 0.001 m to 20 m. Measure from edge "
        "to edge."
    )


def test_yardsticks_follow_what_the_code_allows() -> None:
    """The standard method would be used in a tight room, or the other in a sealed one."""
    assert yardsticks(800.0, 0.39 / HOUR).standard is None
    assert yardsticks(800.0, 0.40 / HOUR).standard is not None
    assert yardsticks(800.0, 0.0).known_rate is None
    assert yardsticks(800.0, 0.5 / HOUR).outdoors < yardsticks(800.0, 0.5 / HOUR).indoors


def test_yardsticks_of_nonsense_are_refused() -> None:
    """A negative lamp would need a negative room."""
    with pytest.raises(RoomError) as refused:
        yardsticks(-1.0, 0.0)
    assert str(refused.value) == (
        "The heat of the lamps is -1 W; allowed is 0 W to no upper end. Add up the lamps that burn."
    )
    with pytest.raises(RoomError) as sealed:
        known_rate_volume(800.0, 0.0)
    assert str(sealed.value) == (
        "The air change is 0 an hour; allowed is 1e-06 an hour to 100 an hour. Measure it, or ask "
        "without it."
    )


def test_carbon_monoxide_is_a_band_and_called_an_assumption() -> None:
    """A figure nobody measured would be shown as known."""
    low, high = assumed_band(a_room(), a_lamp().fuel, 4 * HOUR)
    assert ASSUMED_YIELD.source == "assumption"
    assert high / low == pytest.approx(ASSUMED_YIELD.high / ASSUMED_YIELD.low)
    assert high / low >= 50
    assert low < limit_named("co-indoor").value < high


def test_a_yield_out_of_reason_is_refused() -> None:
    """Grams would be taken for kilograms."""
    with pytest.raises(RoomError) as refused:
        share_of_yield(a_room(outside=OUTSIDE), -1.0, 5.0, HOUR)
    assert str(refused.value) == (
        "The fuel burnt is -1 kg/s; allowed is 0 kg/s to 1 kg/s. Add up the lamps that burn. The "
        "yield of carbon monoxide is 5 kg/kg; allowed is 0 kg/kg to 2 kg/kg. A gram is 0.001."
    )

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING

import numpy as np
import pytest
from tests.support.flames import put_together
from tests.support.rooms import HOUR, in_words

from wickwright.answers.flames.flame_in_air import GOES_OUT, FlameNow, flame_in_air
from wickwright.answers.flames.room_air import RoomPlan, room_air
from wickwright.burn.checks import air_at
from wickwright.burn.flames import solve
from wickwright.burn.parts import FULLEST, Air
from wickwright.burn.predicting import Prediction, predict
from wickwright.physics.combustion import KEROSENE, carbon_dioxide_yield
from wickwright.room import air as room
from wickwright.room.checks import RoomError
from wickwright.room.evening import course_of
from wickwright.terms.finding import Severity

if TYPE_CHECKING:
    from wickwright.answers.flames.room_air import RoomAnswer
    from wickwright.terms.finding import Finding

PLAN = RoomPlan(40.0, lamps=1, people=2, duration=4 * HOUR, change=0.5 / HOUR)
CUPBOARD = RoomPlan(5.0, people=1, duration=10 * HOUR, change=0.0)
GRAMS = 3.6e6
FRESH = room.outdoor_air(293.15, 0.5, 101325.0)


@cache
def lamp(setting: str | float = "fullest") -> Prediction:
    return predict(put_together("DU-401"), air_at(0.0), setting=setting)


@cache
def evening(plan: RoomPlan = PLAN, setting: str | float = "fullest") -> RoomAnswer:
    return room_air(lamp(setting), plan)


def found(rule: str, plan: RoomPlan = PLAN, setting: str | float = "fullest") -> list[Finding]:
    return [one for one in evening(plan, setting).findings if one.rule == rule]


def solved(air: room.Air, fuel: float) -> FlameNow:
    """Return the flame in a room's air, solved anew; vapour it cannot hold has settled."""
    humidity = room.humidity_of(air, 293.15, 101325.0)
    dry = 1.0 - FRESH.water
    here = Air(
        101325.0,
        293.15,
        min(1.0, humidity),
        air.oxygen / dry,
        air.carbon_dioxide / dry,
    )
    flames = solve(replace(lamp().lamp.lamps, air=here, fuel=fuel))
    return FlameNow(float(flames.fuel), float(flames.light), float(flames.margin))


@pytest.mark.parametrize("fuel", [FULLEST, 62.0 / GRAMS])
@pytest.mark.parametrize("oxygen", [0.162, 0.185, 0.1997, 0.2085])
@pytest.mark.parametrize("humidity", [0.1, 0.6, 0.97])
def test_the_table_reads_as_a_flame_solved_anew(
    fuel: float, oxygen: float, humidity: float
) -> None:
    """If this failed, a room's lamps would burn otherwise than lamps burn."""
    dry = 1.0 - FRESH.water
    air = room.Air(dry * (0.2094 - oxygen) * 0.68, dry * oxygen, humidity * 0.02308)
    read, there = flame_in_air(lamp().lamp.lamps, FRESH, fuel).at(air), solved(air, fuel)
    assert read.fuel == pytest.approx(there.fuel, rel=2e-4)
    assert read.light == pytest.approx(there.light, rel=2e-3)
    assert read.margin == pytest.approx(there.margin, abs=5e-4)


def test_every_moment_of_the_evening_is_a_flame_of_its_air() -> None:
    """If this failed, the loop between flame and air would not be closed."""
    it = evening()
    for at in (0, 60, 240):
        there = solved(it.course.airs[at], FULLEST)
        assert it.flames[at].fuel == pytest.approx(there.fuel, rel=2e-4)


def test_lamps_that_feel_the_air_spoil_it_less_than_steady_ones() -> None:
    """If this failed, the fall of oxygen would make a flame burn more, or nothing."""
    it = evening()
    steady = course_of(it.evening)
    assert it.course.airs[-1].carbon_dioxide < steady.airs[-1].carbon_dioxide
    assert it.course.airs[-1].oxygen > steady.airs[-1].oxygen
    lights = [one.light for one in it.flames]
    assert lights == sorted(lights, reverse=True)


def test_a_wick_left_as_set_burns_the_same_fuel_on_less_air() -> None:
    """If this failed, a lamp nobody touches would look after itself."""
    it = evening(setting=0.7)
    fuels = {round(one.fuel * GRAMS, 6) for one in it.flames}
    assert fuels == {round(lamp(0.7)["fuel"].value * GRAMS, 6)}
    assert it.flames[-1].margin < it.flames[0].margin


def test_a_room_aired_through_leaves_flame_and_air_as_they_are() -> None:
    """If this failed, an open window would not help."""
    it = evening(replace(PLAN, change=100.0 / HOUR))
    assert it.flames[-1].light == pytest.approx(lamp()["light"].value, rel=0.01)
    assert not found("room-flame-carbon", replace(PLAN, change=100.0 / HOUR))


def test_carbon_of_the_fuel_is_carbon_of_the_room() -> None:
    """If this failed, carbon dioxide would come from nowhere."""
    sealed = RoomPlan(200.0, duration=2 * HOUR, change=0.0)
    it = evening(sealed)
    fuels = np.array([one.fuel for one in it.flames])
    burnt = float(np.sum(0.5 * (fuels[1:] + fuels[:-1]) * np.diff(it.course.times)))
    moles = burnt * carbon_dioxide_yield(KEROSENE) / room.GASES["carbon dioxide"]
    risen = it.course.airs[-1].carbon_dioxide - it.course.airs[0].carbon_dioxide
    assert risen * 200.0 / it.evening.room.molar_volume == pytest.approx(moles, rel=1e-4)


def test_in_a_sealed_cupboard_the_flame_goes_out() -> None:
    """If this failed, an adviser would not know that a dim flame is the last warning."""
    it = evening(CUPBOARD)
    (out,) = found("room-flame-out", CUPBOARD)
    assert out.severity is Severity.DANGER
    assert it.flames[-1].fuel == 0.0
    assert not found("room-flame-dims", CUPBOARD)
    assert in_words(out) == (
        "With 1 lamp burning and 1 person there, the flames go out for want of oxygen after "
        "1.5 h: below 16.0 % of the air an oil flame does not burn. Lamps out, everybody out, "
        "air in. Never burn a lamp in a closed small room."
    )


def test_the_flame_goes_out_at_sixteen_per_cent_of_oxygen() -> None:
    """The mark is that of a printed safety-lamp placard: 16 to 18 % dim, 10 to 16 % no flame."""
    burning = flame_in_air(lamp().lamp.lamps, room.Air(0.0, 0.2095, 0.0))
    assert GOES_OUT == 0.16
    assert burning.at(room.Air(0.0, 0.1599, 0.0)).fuel == 0.0
    assert burning.at(room.Air(0.0, 0.1601, 0.0)).fuel > 0.0


def test_vapour_that_a_lamp_adds_takes_no_oxygen_away_twice() -> None:
    """If this failed, damp air would hold more oxygen for the flame than was ever let in."""
    burning = flame_in_air(lamp().lamp.lamps, FRESH)
    damp = replace(FRESH, water=2.0 * FRESH.water)
    assert burning.at(damp).fuel < burning.at(FRESH).fuel


def test_a_lamp_set_to_its_fullest_and_left_alone_lays_down_carbon() -> None:
    """If this failed, the commonest way to a blackened mantle would not be told."""
    (carbon,) = found("room-flame-carbon")
    assert carbon.severity is Severity.FAULT
    assert in_words(carbon) == (
        "With 1 lamp burning and 2 people there, a lamp left as it was set has too little oxygen "
        "to burn clean after 10 min; after 4.0 h it lacks 5 % of the least. Open the door to the "
        "rest of the house, or a window; burn fewer lamps, or for less long. Set the wicks a "
        "little below their fullest, and look at the mantles often. Never leave a lit lamp alone."
    )


def test_the_light_that_is_left_is_said() -> None:
    """If this failed, a dim lamp in a closed room would be taken for a fault of the lamp."""
    (dims,) = found("room-flame-dims")
    assert dims.severity is Severity.CAUTION
    assert in_words(dims) == (
        "With 1 lamp burning and 2 people there and the wicks turned down as far as the flames "
        "then need to stay clean, a lamp gives 76 % of its light in fresh air after 4.0 h, on "
        "61.7 g/h. Open the door to the rest of the house, or a window; burn fewer lamps, or for "
        "less long. Turning the wick up instead lays carbon on the mantle."
    )


@pytest.mark.parametrize("plan", [PLAN, CUPBOARD, replace(PLAN, change=None)])
def test_the_alarm_is_advised_whatever_the_figures(plan: RoomPlan) -> None:
    """If this failed, someone would take a low figure for leave to do without an alarm."""
    assert len(found("room-co-alarm", plan)) == 1
    assert len(found("room-ventilation", plan)) == 1


def test_an_air_change_nobody_gave_is_assumed_and_carries_its_doubt() -> None:
    """If this failed, a guessed room would look as well known as a measured one."""
    given, guessed = evening(), evening(replace(PLAN, change=None))
    assert guessed.estimates["carbon_dioxide"].drivers[0].name == "change"
    assert guessed.estimates["carbon_dioxide"].spread > 2 * given.estimates["carbon_dioxide"].spread
    assert guessed.assumptions[0].says == (
        "air changes: median of living rooms of 126 houses; half the homes have less"
    )
    assert all("air changes" not in one.says for one in given.assumptions)


def test_what_cannot_be_is_refused_with_what_can() -> None:
    """If this failed, a room of no size would get an answer."""
    with pytest.raises(RoomError) as refused:
        RoomPlan(40.0, lamps=0, people=-1)
    assert str(refused.value) == (
        "The number of lamps is 0; allowed is 1 to 100. Count those that burn. "
        "The number of people is -1; allowed is 0 to 1000. Count who is there."
    )
    with pytest.raises(RoomError) as refused:
        room_air(lamp(), RoomPlan(0.0, change=-1.0 / HOUR))
    assert str(refused.value) == (
        "The volume of the room is 0 m3; allowed is 0.5 m3 to 100000 m3. Multiply length, width "
        "and height of the room, in metres. The air change of the room is -1 an hour; allowed is "
        "0 an hour to 100 an hour. A closed room in a house has 0.2 to 1, one with a window open "
        "2 to 10."
    )

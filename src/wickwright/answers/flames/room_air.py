"""What lamps do to the air of a room, and what that air does to their flames."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from wickwright.answers.flames.flame_in_air import GOES_OUT, flame_in_air
from wickwright.burn.error_bars import DRIVERS, Driver, Estimate
from wickwright.burn.parts import FULLEST
from wickwright.room.air import Air, Room, air_after, humidity_of, outdoor_air
from wickwright.room.burning import Exchange, burning_of_fuel, together
from wickwright.room.checks import Bound, demand
from wickwright.room.evening import Course, Evening, course_of
from wickwright.room.findings import (
    air_findings,
    closed_finding,
    monoxide_finding,
    ventilation_finding,
    yardstick_findings,
)
from wickwright.room.flame_findings import carbon_finding, dimmed_finding, out_finding
from wickwright.room.people import SEATED, Person
from wickwright.room.ventilation import HOMES
from wickwright.terms.finding import Kind, Quantity

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from wickwright.answers.flames.flame_in_air import FlameInAir, FlameNow
    from wickwright.burn.predicting import Prediction
    from wickwright.terms.finding import Fact, Finding

__all__ = ["ROOM_HEADLINES", "RoomAnswer", "RoomAssumption", "RoomPlan", "room_air"]

ROOM_HEADLINES: Final[dict[str, Kind]] = {
    "carbon_dioxide": Kind.SHARE,
    "oxygen": Kind.SHARE,
    "humidity": Kind.RATIO,
}
"""The figures of a room at the end of the time asked about, and what each measures."""

_MOST_LAMPS, _MOST_PEOPLE = 100, 1000
_CHANGE_SPREAD: Final = 0.76 / 0.73
"""Standard deviation over mean of the living rooms of 126 houses [-]; ``du2012``."""


@dataclass(frozen=True, slots=True)
class RoomPlan:
    """What goes on in a room.

    Attributes
    ----------
    volume : float
        What the room holds, furniture left out [m3].
    lamps, people : int
        How many burn, all alike, and how many sit there [-].
    duration : float
        How long [s].
    change : float or None
        Air changes, zero for a sealed room [1/s]; None takes the median of living rooms.
    """

    volume: float
    lamps: int = 1
    people: int = 0
    duration: float = 4 * 3600.0
    change: float | None = None

    def __post_init__(self) -> None:
        """Refuse a room without a lamp, and crowds."""
        demand(
            Bound("number of lamps", self.lamps, 1, _MOST_LAMPS, "", "Count those that burn"),
            Bound("number of people", self.people, 0, _MOST_PEOPLE, "", "Count who is there"),
        )


@dataclass(frozen=True, slots=True)
class RoomAssumption:
    """What was taken because nobody said.

    Attributes
    ----------
    says : str
        What, in words.
    value : Fact
        The value taken.
    source : str
        Key of the bibliography.
    """

    says: str
    value: Fact
    source: str


@dataclass(frozen=True, slots=True)
class RoomAnswer:
    """A room over the time asked about.

    Attributes
    ----------
    plan : RoomPlan
        As asked.
    evening : Evening
        The same as the room's laws see it, with the fuel burnt at the start.
    course : Course
        The air, moment by moment.
    flames : tuple of FlameNow
        One lamp at those moments, its wick turned down as the air fails where the fullest
        flame was asked for.
    estimates : mapping of str to Estimate
        By name of :data:`ROOM_HEADLINES`, at the end.
    inputs : mapping of str to Estimate
        What these lean on: ``fuel``, and where they matter ``change`` and ``breath``.
    findings : tuple of Finding
        Gravest first.
    assumptions : tuple of RoomAssumption
        What nobody said.
    """

    plan: RoomPlan
    evening: Evening
    course: Course
    flames: tuple[FlameNow, ...]
    estimates: Mapping[str, Estimate]
    inputs: Mapping[str, Estimate]
    findings: tuple[Finding, ...]
    assumptions: tuple[RoomAssumption, ...]


def room_air(prediction: Prediction, plan: RoomPlan) -> RoomAnswer:
    """Return what lamps do to a room's air over hours.

    Parameters
    ----------
    prediction : Prediction
        How one of the lamps burns in fresh air.
    plan : RoomPlan
        Room, people, lamps and hours.

    Returns
    -------
    RoomAnswer
        With the loop closed: the flame burns in the air it has changed.

    Raises
    ------
    RoomError
        When the room, the lamps, the people or the hours cannot be.
    """
    start = _Start(
        fuel=prediction["fuel"].value,
        change=HOMES[0].median if plan.change is None else plan.change,
    )
    air = _outside(prediction)
    evening = _evening(plan, air, start)
    course, flames = _followed(evening, prediction, _setting(prediction))
    found = (
        *air_findings(evening, course),
        closed_finding(evening),
        *_flame_findings(prediction, evening, course, flames),
        monoxide_finding(evening),
        ventilation_finding(),
        *yardstick_findings(evening),
    )
    return RoomAnswer(
        plan=plan,
        evening=evening,
        course=course,
        flames=flames,
        estimates=_estimates(plan, air, start, prediction["fuel"], course.airs[-1]),
        inputs=_inputs(plan, start, prediction["fuel"]),
        findings=tuple(sorted(found, key=lambda finding: -finding.severity)),
        assumptions=tuple(_assumptions(plan, evening)),
    )


# -- the evening ---------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Start:
    """What an evening begins with and nobody knows for sure.

    Attributes
    ----------
    fuel : float
        Fuel one lamp burns [kg/s].
    change : float
        Air changes [1/s].
    breath : float
        What a person breathes, over what is usual [-].
    """

    fuel: float
    change: float
    breath: float = 1.0


@dataclass(frozen=True, slots=True)
class _Outside:
    """The air that comes in, and the room's temperature and pressure [K, Pa]."""

    air: Air
    temperature: float
    pressure: float


def _outside(prediction: Prediction) -> _Outside:
    """Take the air that comes in for as moist as the one the prediction was made in."""
    air = prediction.lamp.lamps.air
    temperature, pressure = float(air.temperature), float(air.pressure)
    fresh = outdoor_air(temperature, float(air.humidity), pressure)
    return _Outside(fresh, temperature, pressure)


def _breathing(factor: float) -> Person:
    usual = SEATED.exchange
    scaled = Exchange(usual.carbon_dioxide * factor, usual.water, usual.oxygen * factor)
    return replace(SEATED, exchange=scaled)


def _evening(plan: RoomPlan, outside: _Outside, start: _Start) -> Evening:
    return Evening(
        room=Room(plan.volume, start.change, outside.temperature, outside.pressure, outside.air),
        lamps=(burning_of_fuel(start.fuel),) * plan.lamps,
        people=(_breathing(start.breath),) * plan.people,
        duration=plan.duration,
    )


def _setting(prediction: Prediction) -> float:
    """Return the fuel the wick is set to, or that it follows the fullest clean flame."""
    return FULLEST if prediction.setting == "fullest" else prediction["fuel"].value


def _followed(
    evening: Evening, prediction: Prediction, fuel: float
) -> tuple[Course, tuple[FlameNow, ...]]:
    """Return the air over the evening and one lamp's flame in it."""
    burning = flame_in_air(prediction.lamp.lamps, evening.room.outside, fuel)
    course = course_of(evening, _sources(evening, burning))
    return course, tuple(burning.at(air) for air in course.airs)


def _sources(evening: Evening, burning: FlameInAir) -> Callable[[Air], Exchange]:
    """Return what lamps and people exchange, from the air they do it in."""
    breathing = together(person.exchange for person in evening.people)
    lamps = len(evening.lamps)

    def exchanged(air: Air) -> Exchange:
        return together((breathing, burning_of_fuel(lamps * burning.at(air).fuel).exchange))

    return exchanged


def _flame_findings(
    prediction: Prediction, evening: Evening, course: Course, flames: tuple[FlameNow, ...]
) -> Iterator[Finding]:
    """Say what the room's air does to the flames, turned down with care or left alone."""
    first = flames[0]
    if any(one.fuel == 0.0 for one in flames):
        at = next(number for number, one in enumerate(flames) if one.fuel == 0.0)
        yield out_finding(evening, course.times[at], GOES_OUT)
    elif prediction.setting == "fullest" and first.light > 0.0:
        yield dimmed_finding(evening, flames[-1].light / first.light, flames[-1].fuel)
    alone, left = _followed(evening, prediction, first.fuel)
    margins = tuple(one.margin for one in left if one.fuel)
    yield from carbon_finding(evening, alone.times[: len(margins)], margins)


# -- error bars ----------------------------------------------------------------------------------


def _read(evening: Evening, air: Air) -> dict[str, float]:
    room = evening.room
    return {
        "carbon_dioxide": air.carbon_dioxide,
        "oxygen": air.oxygen,
        "humidity": humidity_of(air, room.temperature, room.pressure),
    }


def _end(plan: RoomPlan, outside: _Outside, start: _Start) -> dict[str, float]:
    """Return the headlines at the end, every flame burning on as it began."""
    evening = _evening(plan, outside, start)
    return _read(evening, air_after(evening.room, evening.exchange, evening.duration))


_Doubt = tuple[str, str, str, _Start, _Start]
"""Name, words and source of a number, and the start with it one standard uncertainty less
and more."""


def _doubts(plan: RoomPlan, start: _Start, fuel: Estimate) -> Iterator[_Doubt]:
    least, most = max(0.0, start.fuel - fuel.spread), start.fuel + fuel.spread
    yield (
        "fuel",
        "fuel a lamp burns",
        "model",
        replace(start, fuel=least),
        replace(start, fuel=most),
    )
    if plan.change is None:
        slow, fast = start.change / (1.0 + _CHANGE_SPREAD), start.change * (1.0 + _CHANGE_SPREAD)
        yield (
            "change",
            "air changes of the room",
            HOMES[0].source,
            replace(start, change=slow),
            replace(start, change=fast),
        )
    if plan.people:
        usual = SEATED.exchange.carbon_dioxide
        low, high = SEATED.low / usual, SEATED.high / usual
        yield (
            "breath",
            "what people breathe, over what is usual",
            SEATED.source,
            replace(start, breath=low),
            replace(start, breath=high),
        )


def _inputs(plan: RoomPlan, start: _Start, fuel: Estimate) -> dict[str, Estimate]:
    found = {"fuel": fuel}
    if plan.change is None:
        spread = start.change * _CHANGE_SPREAD
        found["change"] = Estimate(start.change, spread, Kind.AIR_CHANGE)
    if plan.people:
        spread = 0.5 * (SEATED.high - SEATED.low) / SEATED.exchange.carbon_dioxide
        found["breath"] = Estimate(1.0, spread, Kind.RATIO)
    return found


def _estimates(
    plan: RoomPlan, outside: _Outside, start: _Start, fuel: Estimate, last: Air
) -> dict[str, Estimate]:
    ends = [
        (name, says, source, _end(plan, outside, low), _end(plan, outside, high))
        for name, says, source, low, high in _doubts(plan, start, fuel)
    ]
    values = _read(_evening(plan, outside, start), last)
    found = {}
    for headline, kind in ROOM_HEADLINES.items():
        drivers = [
            Driver(name, says, 0.5 * (high[headline] - low[headline]), source)
            for name, says, source, low, high in ends
        ]
        drivers.sort(key=lambda driver: -abs(driver.change))
        spread = math.hypot(*(driver.change for driver in drivers))
        leading = tuple(driver for driver in drivers[:DRIVERS] if driver.change)
        found[headline] = Estimate(values[headline], spread, kind, leading)
    return found


# -- what nobody said ----------------------------------------------------------------------------


def _assumptions(plan: RoomPlan, evening: Evening) -> Iterator[RoomAssumption]:
    room, outside = evening.room, evening.room.outside
    if plan.change is None:
        says = f"air changes: median of {HOMES[0].where}; half the homes have less"
        yield RoomAssumption(says, Quantity(room.change, Kind.AIR_CHANGE), HOMES[0].source)
    yield RoomAssumption(
        "the air that comes in: carbon dioxide",
        Quantity(outside.carbon_dioxide, Kind.SHARE),
        "assumption",
    )
    humidity = humidity_of(outside, room.temperature, room.pressure)
    yield RoomAssumption(
        "its humidity, once as warm as the room", Quantity(humidity, Kind.RATIO), "assumption"
    )
    if plan.people:
        yield RoomAssumption("each person", "grown, and sits", SEATED.source)
    yield RoomAssumption("the air of the room", "well mixed, the same everywhere", "box")

"""What is found out about a room's air, as data."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickwright.room.carbon_monoxide import ASSUMED_YIELD, assumed_band
from wickwright.room.evening import passing, who
from wickwright.room.limits import limit_named
from wickwright.room.ventilation import CPSC_GAP, change_needed, opening_needed
from wickwright.room.yardsticks import yardsticks
from wickwright.terms.finding import Fact, Finding, Kind, Quantity, Range, Severity

if TYPE_CHECKING:
    from wickwright.room.evening import Course, Evening
    from wickwright.room.limits import Limit

__all__ = [
    "air_findings",
    "closed_finding",
    "monoxide_finding",
    "ventilation_finding",
    "yardstick_findings",
]

_RULES: Final = {
    "carbon dioxide": ("room-co2", Kind.SHARE),
    "oxygen": ("room-oxygen", Kind.SHARE),
    "humidity": ("room-humidity", Kind.RATIO),
}
JUDGED: Final = ("co2-unacceptable", "co2-work", "oxygen-low", "humid", "wet")
"""Limits an evening is held against unless others are chosen."""
_BEYOND: Final = {
    "co2-elevated": Severity.NOTE,
    "co2-unacceptable": Severity.CAUTION,
    "humid": Severity.CAUTION,
    "wet": Severity.FAULT,
}
_DOORWAY = 2.0  # m, height of a door left ajar
_COOLER = 5.0  # K, what lies behind it is cooler by


def air_findings(
    evening: Evening, course: Course, chosen: tuple[str, ...] = JUDGED
) -> tuple[Finding, ...]:
    """Hold the air of an evening against limits.

    Parameters
    ----------
    evening : Evening
        What goes on.
    course : Course
        How its air goes.
    chosen : tuple of str
        Limits by name: of carbon dioxide, oxygen or humidity.

    Returns
    -------
    tuple of Finding
        One for each limit, kept or passed, with the time until it is passed. Limits that are
        means over hours are held against the moment, which errs on the safe side.

    Raises
    ------
    RoomError
        When there is no limit of a name.
    """
    return tuple(_judged(evening, course, limit_named(key)) for key in chosen)


def _judged(evening: Evening, course: Course, limit: Limit) -> Finding:
    rule, kind = _RULES[limit.gas]
    when = passing(course, limit)
    beyond = _BEYOND.get(limit.key, Severity.DANGER)
    facts: dict[str, Fact] = {
        "sources": who(evening),
        "duration": Quantity(evening.duration, Kind.TIME),
        "limit": limit.says,
        "passed": "more than that" if when is None else Quantity(when, Kind.TIME),
    }
    low, high = (limit.value, None) if limit.at_least else (None, limit.value)
    return Finding(
        rule,
        Severity.GOOD if when is None else beyond,
        facts=facts,
        measured=Quantity(course.readings(limit)[-1], kind),
        permitted=Range(low, high, kind),
        source=limit.source,
    )


def closed_finding(evening: Evening, key: str = "co2-unacceptable") -> Finding:
    """Tell whether the room is too small or too closed for its lamps.

    Parameters
    ----------
    evening : Evening
        What goes on.
    key : str
        Name of the limit to stay within, for ever.

    Returns
    -------
    Finding
        The air change it has beside the air change it takes, and a door ajar that would
        give it: 2 m tall, 5 K cooler behind, no wind (``ashrae-opening``).

    Raises
    ------
    RoomError
        When there is no limit of that name.
    """
    limit, room = limit_named(key), evening.room
    needed = change_needed(limit, room, evening.exchange)
    enough = needed is not None and room.change >= needed
    facts: dict[str, Fact] = {
        "sources": who(evening),
        "volume": Quantity(room.volume, Kind.VOLUME),
        "limit": limit.says,
        "allowed": _value(limit),
        "tall": Quantity(_DOORWAY, Kind.DISTANCE),
        "opening": _opening(evening, needed),
    }
    return Finding(
        "room-open-enough" if enough else "room-closed",
        Severity.GOOD if enough else Severity.CAUTION,
        facts=facts,
        measured=Quantity(room.change, Kind.AIR_CHANGE),
        permitted=None if needed is None else Range(needed, None, Kind.AIR_CHANGE),
        source="box",
    )


def _value(limit: Limit) -> str:
    rare = limit.gas in {"carbon dioxide", "carbon monoxide"}
    return f"{limit.value * 1e6:,.0f} ppm" if rare else f"{limit.value * 100:g} %"


def _opening(evening: Evening, needed: float | None) -> Fact:
    room = evening.room
    if needed is None:
        return "no size that would do: the air outside is no better"
    missing = max(0.0, needed - room.change) * room.volume
    area = opening_needed(missing, _DOORWAY, room.temperature, room.temperature - _COOLER)
    return "any size" if area is None else Quantity(area, Kind.AREA)


def monoxide_finding(evening: Evening, key: str = "co-indoor") -> Finding:
    """Advise an alarm, whatever the assumption says.

    Parameters
    ----------
    evening : Evening
        What goes on.
    key : str
        Name of a limit of carbon monoxide.

    Returns
    -------
    Finding
        Always a caution: both ends of the assumed band, never one figure.

    Raises
    ------
    RoomError
        When there is no limit of that name.
    """
    limit = limit_named(key)
    low, high = assumed_band(evening.room, evening.fuel, evening.duration)
    facts: dict[str, Fact] = {
        "assumed": f"{ASSUMED_YIELD.low * 1e3:g} to {ASSUMED_YIELD.high * 1e3:g} g/kg",
        "duration": Quantity(evening.duration, Kind.TIME),
        "limit": limit.says,
    }
    return Finding(
        "room-co-alarm",
        Severity.CAUTION,
        facts=facts,
        measured=Range(low, high, Kind.SHARE),
        permitted=Range(None, limit.value, Kind.SHARE),
        source="assumption",
    )


def ventilation_finding() -> Finding:
    """Return the caution that goes with every lamp in a room.

    Returns
    -------
    Finding
        The advice written for kerosene heaters, ``cpsc5052``.
    """
    return Finding(
        "room-ventilation", Severity.CAUTION, permitted=Range(CPSC_GAP, None, Kind.LENGTH)
    )


def yardstick_findings(evening: Evening) -> tuple[Finding, ...]:
    """Hold the room against the fuel-gas code, as a yardstick.

    Parameters
    ----------
    evening : Evening
        What goes on.

    Returns
    -------
    tuple of Finding
        One for each method the code allows for this air change; none for a sealed room with
        neither.
    """
    room = evening.room
    stick = yardsticks(evening.heat, room.change)
    methods = (
        ("standard method, for a room whose air change nobody measured", stick.standard),
        ("method for a known air change", stick.known_rate),
    )
    return tuple(
        Finding(
            "room-yardstick",
            Severity.NOTE,
            facts={"heat": Quantity(evening.heat, Kind.POWER), "method": method},
            measured=Quantity(room.volume, Kind.VOLUME),
            permitted=Range(asked, None, Kind.VOLUME),
        )
        for method, asked in methods
        if asked is not None
    )

"""Rooms, lamps and words for tests of the room."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.room.air import Air, Room
from wickwright.room.burning import Burning, burning_of_fuel
from wickwright.room.rules import RULES
from wickwright.terms.units import Units, say

if TYPE_CHECKING:
    from wickwright.terms.finding import Fact, Finding

HOUR = 3600.0
ROOM_AIR = 293.15
SEA_LEVEL = 101325.0
OUTSIDE = Air(carbon_dioxide=420e-6, oxygen=0.2085, water=0.0046)
_BY_KEY = {rule.key: rule for rule in RULES}


def a_room(volume: float = 40.0, changes: float = 0.5, outside: Air = OUTSIDE) -> Room:
    """Return a room at 20 °C and sea level, by its air changes an hour."""
    return Room(volume, changes / HOUR, ROOM_AIR, SEA_LEVEL, outside)


def a_lamp(grams: float = 65.0) -> Burning:
    """Return a lamp by the kerosene it burns in an hour."""
    return burning_of_fuel(grams * 1e-3 / HOUR)


def in_words(finding: Finding, system: str = "metric") -> str:
    """Return a finding's sentence and its cure."""
    rule = _BY_KEY[finding.rule]
    facts: dict[str, Fact] = dict(finding.facts)
    if finding.measured is not None:
        facts["measured"] = finding.measured
    if finding.permitted is not None:
        facts["permitted"] = finding.permitted
    words = {name: say(fact, Units(system)) for name, fact in facts.items()}
    return f"{rule.says.format_map(words)} {rule.cure.format_map(words)}"

from __future__ import annotations

import re

import pytest
from tests.support.rooms import HOUR, OUTSIDE, ROOM_AIR, SEA_LEVEL, a_lamp, a_room, in_words

from wickwright.room.above import column_of
from wickwright.room.air import Air
from wickwright.room.burning import Exchange, burning_of_heat
from wickwright.room.checks import RoomError
from wickwright.room.evening import Evening, course_of, passing, who
from wickwright.room.findings import (
    air_findings,
    closed_finding,
    monoxide_finding,
    ventilation_finding,
    yardstick_findings,
)
from wickwright.room.flame_findings import carbon_finding, dimmed_finding, out_finding
from wickwright.room.limits import limit_named
from wickwright.room.nearby import (
    Thing,
    above_findings,
    beside_finding,
    needed_above,
    needed_beside,
)
from wickwright.room.people import SEATED
from wickwright.room.rules import RULES
from wickwright.room.ventilation import time_until
from wickwright.terms.finding import Finding, Severity
from wickwright.terms.source import SOURCES

EVENING = Evening(a_room(30.0, 0.5), (a_lamp(),), (SEATED, SEATED), 4 * HOUR)
COLUMN = column_of(
    heat=780.0, diameter=0.045, exit_temperature=690.0, air=ROOM_AIR, pressure=SEA_LEVEL
)
SHELF = Thing("shelf", "wood", 0.4)


def _air(key: str, evening: Evening = EVENING) -> Finding:
    (finding,) = air_findings(evening, course_of(evening), (key,))
    return finding


def _all() -> list[Finding]:
    things = (SHELF, Thing("bell", "brass", 0.05), Thing("bell", "brass", 0.05, 500.0))
    return [
        *air_findings(EVENING, course_of(EVENING)),
        closed_finding(EVENING),
        closed_finding(Evening(a_room(90.0, 10.0), (a_lamp(),))),
        monoxide_finding(EVENING),
        dimmed_finding(EVENING, 0.8, 60e-3 / 3.6e6),
        *carbon_finding(EVENING, (0.0, 600.0), (0.0, -0.02)),
        out_finding(EVENING, 3600.0, 0.16),
        ventilation_finding(),
        *yardstick_findings(EVENING),
        *above_findings(COLUMN, things),
        *above_findings(COLUMN, (Thing("ceiling", "plaster", 1.5),)),
        beside_finding(780.0, Thing("curtain", "cloth", 0.1), ROOM_AIR, SEA_LEVEL),
        beside_finding(780.0, Thing("curtain", "cloth", 1.0), ROOM_AIR, SEA_LEVEL),
    ]


def test_every_rule_speaks_and_cites() -> None:
    """A rule would never be heard, want a fact that is not there, or cite nothing."""
    spoken = {finding.rule for finding in _all()}
    assert spoken == {rule.key for rule in RULES}
    assert {rule.source for rule in RULES} | {f.source for f in _all() if f.source} <= set(SOURCES)
    for finding in _all():
        for system in ("metric", "us"):
            assert not re.search(r"[{}]|None|nan", in_words(finding, system))


def test_carbon_dioxide_in_words() -> None:
    """The adviser would not know how much, how long, and by whose limit."""
    assert in_words(_air("co2-work")) == (
        "With 1 lamp burning and 2 people there, carbon dioxide comes to 8,784 ppm after 4.0 h; by "
        "the OSHA limit at work over 8 hours it should be at most 5,000 ppm. Time until that is "
        "passed: 1.3 h. Open the door to the rest of the house, or a window; burn fewer lamps, or "
        "for less long."
    )


def test_severity_follows_the_limit() -> None:
    """A hint and a danger would look alike."""
    assert _air("co2-elevated").severity is Severity.NOTE
    assert _air("co2-unacceptable").severity is Severity.CAUTION
    assert _air("co2-work").severity is Severity.DANGER
    assert _air("oxygen-low").severity is Severity.GOOD


def test_the_time_told_is_the_closed_forms() -> None:
    """The hour read off the course would drift from the exact one."""
    course = course_of(EVENING)
    for key in ("co2-unacceptable", "co2-work", "humid"):
        exact = time_until(limit_named(key), EVENING.room, EVENING.exchange)
        assert passing(course, limit_named(key)) == pytest.approx(exact, rel=2e-3)


def test_a_start_beyond_the_limit_is_passed_at_once() -> None:
    """A stuffy room would be given time."""
    stuffy = Evening(a_room(), (a_lamp(),), duration=HOUR, start=Air(0.006, 0.2, 0.01))
    assert passing(course_of(stuffy), limit_named("co2-work")) == 0.0


def test_feedback_of_the_air_changes_the_course() -> None:
    """A lamp handed in as fading would burn on steadily."""
    fading = course_of(EVENING, lambda air: Exchange(oxygen=1e-5 * (air.oxygen / 0.21)))
    assert fading.airs[-1].oxygen > 0.2
    assert fading.airs[-1].carbon_dioxide == pytest.approx(OUTSIDE.carbon_dioxide)


def test_a_room_too_small_in_words() -> None:
    """The caller would not know how far to open which door."""
    assert in_words(closed_finding(EVENING)) == (
        "30.0 m³ with 0.50 air changes an hour is too little air for 1 lamp burning and 2 people "
        "there: to stay within the German guide value for unacceptable air (2,000 ppm) it takes at "
        "least 3.06 air changes an hour. On a still day that is an opening 2.00 m tall, such as a "
        "door ajar, of 2,620 cm². Open the door to the rest of the house or a tall window by that "
        "much or more, take a larger room, or burn fewer lamps. The air behind the opening must be "
        "fresh: a closed house fills up too."
    )


def test_no_opening_helps_against_bad_air_outside() -> None:
    """A size would be named that cannot help."""
    foul = Evening(a_room(outside=Air(3e-3, 0.205, 0.005)), (a_lamp(),))
    found = closed_finding(foul)
    assert found.permitted is None
    assert found.facts["opening"] == "no size that would do: the air outside is no better"


def test_a_monoxide_finding_is_always_a_caution_with_both_ends() -> None:
    """Carbon monoxide would be foretold, or a tiny lamp called safe."""
    assert in_words(monoxide_finding(EVENING)) == (
        "How much carbon monoxide a lamp gives off is not known: assumed 0.3 to 30 g/kg of the "
        "fuel, it would come to 1 ppm to 97 ppm after 4.0 h; by the WHO guideline indoors over 8 "
        "hours it should be at most 9 ppm. Have a carbon monoxide alarm in the room and one where "
        "people sleep. When it sounds, or a head aches: lamp out, everybody out, call for help "
        "from outside."
    )
    barn = Evening(a_room(1e5, 50.0), (a_lamp(5.0),))
    assert monoxide_finding(barn).severity is Severity.CAUTION


def test_ventilation_in_words() -> None:
    """The advice written for kerosene heaters would not reach the caller."""
    assert in_words(ventilation_finding(), "us") == (
        "While a lamp burns, keep the door open to the rest of the house, or a window to outside "
        "open at least 1.000 in with the door shut. Never sleep with it burning. Follow the "
        "maker's leaflet and the local code first. Air the room well afterwards."
    )


def test_yardsticks_say_that_they_were_not_written_for_lamps() -> None:
    """A gas rule would pass for a permit."""
    words = [in_words(finding, "us") for finding in yardstick_findings(EVENING)]
    assert words[0] == (
        "The fuel-gas code would ask at least 133 ft³ for a gas appliance of 780 W (standard "
        "method, for a room whose air change nobody measured); this room has 1,059 ft³. The rule "
        "was not written for lamps: a yardstick, not a permit. Local codes come first. Where the "
        "room is smaller, open it to the next one."
    )
    assert len(words) == 2
    assert yardstick_findings(Evening(a_room(changes=0.0), (a_lamp(),))) == ()


def test_a_shelf_too_near_in_words() -> None:
    """The caller would not know how high the shelf must be, and that it is dangerous."""
    shelf, note = above_findings(COLUMN, (SHELF,))
    assert shelf.severity is Severity.DANGER
    assert in_words(shelf) == (
        "The shelf (wood) is 0.40 m above the chimney: the gas is 86 °C to 107 °C there (by three "
        "plume laws). It should be at most 77 °C: wood kept hotter for years chars and can light "
        "by itself. Keep 0.52 m or more above the chimney's top, or hang a bell between that is "
        "made for this lamp. Local codes and the maker's leaflet come first."
    )
    assert in_words(note) == (
        "The heat above the lamp is reckoned by laws fitted to fires of at least 10,000 W; this "
        "lamp is 780 W. Half a metre up they differ by 15 K (26 °F). Keep the larger distance, and "
        "measure with a thermometer where it matters."
    )


def test_a_bell_in_the_gas_that_leaves_is_judged_by_it() -> None:
    """A bell two fingers above the glass would be judged by a law for fires."""
    (bell,) = above_findings(COLUMN, (Thing("bell", "brass", 0.05, part="BE-1"),))
    assert bell.parts == ("BE-1",)
    assert in_words(bell).startswith(
        "The bell (brass) is 0.05 m above the chimney: the gas is 417 °C there (the gas as it left "
        "the chimney). It should be at most 180 °C: soft solder lets go and lacquer burns. "
    )


@pytest.mark.parametrize(
    ("rating", "severity", "end"),
    [
        (900.0, Severity.GOOD, "at most 900 W; the lamp gives off 780 W."),
        (500.0, Severity.FAULT, "at most 500 W; the lamp gives off 780 W."),
    ],
)
def test_a_makers_rating_comes_first(rating: float, severity: Severity, end: str) -> None:
    """A thing its maker tried over this heat would be condemned by an assumption of ours."""
    bell = Thing("bell", "brass", 0.05, rating, "BE-1")
    (found,) = above_findings(COLUMN, (bell,))[:1]
    beside = beside_finding(780.0, Thing("shade", "cloth", 0.1, rating), ROOM_AIR, SEA_LEVEL)
    assert (found.severity, beside.severity) == (severity, severity)
    assert in_words(found).startswith(f"The bell is rated for {end}")


def test_a_curtain_in_words() -> None:
    """The caller would not know how far to tie the curtain back."""
    near = beside_finding(780.0, Thing("curtain", "cloth", 0.12), ROOM_AIR, SEA_LEVEL)
    assert near.severity is Severity.DANGER
    assert in_words(near, "us") == (
        "The curtain (cloth) is 5 in from the mantle: it warms to 177 °F to 253 °F there. It "
        "should be at most 171 °F: it is the stuff of wood and is held to the limit of wood. Keep "
        "7 in or more from the mantle, and tie curtains back. Local codes and the maker's leaflet "
        "come first."
    )


def test_what_keeps_its_distance_is_clear() -> None:
    """A thing just outside the distance advised would still be called too near."""
    up = needed_above(COLUMN, "wood")
    aside = needed_beside(780.0, "cloth", ROOM_AIR, SEA_LEVEL)
    for share, severity in ((1.001, Severity.GOOD), (0.999, Severity.DANGER)):
        found = above_findings(COLUMN, (Thing("shelf", "wood", up * share),))[0]
        curtain = Thing("curtain", "cloth", aside * share)
        assert found.severity is severity
        assert beside_finding(780.0, curtain, ROOM_AIR, SEA_LEVEL).severity is severity


def test_things_and_evenings_out_of_reason_are_refused() -> None:
    """A shelf inside the chimney or an evening of no time would be judged."""
    with pytest.raises(RoomError) as thing:
        Thing("shelf", "wood", 0.0, -1.0)
    assert str(thing.value) == (
        "The distance of the shelf is 0 m; allowed is 0.001 m to 50 m. Measure it. The heat rating "
        "of the shelf is -1 W; allowed is 1 W to no upper end. Leave it out where the maker states "
        "none."
    )
    with pytest.raises(RoomError) as evening:
        Evening(a_room(), (a_lamp(),), duration=0.0)
    assert str(evening.value) == (
        "The length of the evening is 0 s; allowed is 60 s to 2.592e+06 s. An hour is 3600."
    )


def test_who_is_there() -> None:
    """One lamp would be called lamps."""
    assert who(Evening(a_room(), (a_lamp(), a_lamp()))) == "2 lamps burning"
    assert who(Evening(a_room(), (burning_of_heat(1.0),), (SEATED,))) == (
        "1 lamp burning and 1 person there"
    )
    assert EVENING.heat == pytest.approx(780.0)

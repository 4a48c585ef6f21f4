"""Closed cases are read line by line, with every fault and without losing a good line."""

from __future__ import annotations

import json
from datetime import date

from tests.support.demo import demo

from wickwright.cause.case import Act, Answer, Case, Cleared, Computed, Danger, Outcome, Said
from wickwright.cause.closed import ClosedCase, Confirmed, read_closed, written_closed

BOOK = demo().book
LAMP = next(iter(BOOK.lamps.values()))
EVENTS = (
    Danger("wet-font", Said.NO),
    Cleared("wet-font"),
    Answer("uneven", Said.YES),
    Computed("wick-crusted", 0.25, "by its age"),
    Act(next(iter(BOOK.calls.remedies)), Outcome.CURED),
)
GOOD = ClosedCase(
    Case(LAMP.id, tuple(LAMP.as_sold), "dim", EVENTS),
    Outcome.CURED,
    ("wick-crusted",),
    Confirmed.BENCH,
    date(2026, 3, 14),
)


def broken(**changes: object) -> str:
    return json.dumps({**json.loads(written_closed(GOOD)), **changes})


def told(line: str) -> list[str]:
    _, faults = read_closed([line], BOOK)
    return [f"{one.row} {one.column}: {one.what}; {one.cure}" for one in faults]


def test_a_case_comes_back_as_it_was_written() -> None:
    """A kind of event or a field would be lost or changed between two programs."""
    assert read_closed([written_closed(GOOD) + "\n"], BOOK) == ((GOOD,), ())


def test_a_broken_line_loses_no_other() -> None:
    """One slip in a long file would throw away the year's cases, or count its lines wrongly."""
    cases, faults = read_closed([written_closed(GOOD), "{", "", written_closed(GOOD)], BOOK)
    assert cases == (GOOD, GOOD)
    assert [(one.row, one.what, one.cure) for one in faults] == [
        (2, "the line is no JSON", "write one object { } on one line")
    ]


def test_all_faults_of_a_line_at_once() -> None:
    """The desk would mend a line fault by fault, running the command anew each time."""
    line = broken(causes=["wick-crustd"], closed="14.3.2026", confirmed="bensh", colour=1)
    assert told(line) == [
        (
            "1 : there is no key 'colour'; the keys are lamp, parts, complaint, events, outcome, "
            "causes, confirmed, closed"
        ),
        (
            "1 causes: there is no 'wick-crustd'; did you mean 'wick-crusted'? it has to be one of "
            "the table causes"
        ),
        (
            "1 confirmed: there is no 'bensh'; did you mean 'bench'? it has to be one of "
            "telephone, returned part, bench, not confirmed"
        ),
        "1 closed: '\"14.3.2026\"' is no day; write it as 2026-03-14",
    ]


def test_faults_of_events_are_named() -> None:
    """An event nobody can read would be passed over, and the case learned from without it."""
    events = [{"sign": "unevn", "said": "yes"}, {"what": 1}, 7, {"remedy": "bench"}]
    assert told(broken(events=events)) == [
        "1 events: there is no 'unevn'; did you mean 'uneven'? it has to be one of the table signs",
        (
            "1 events: nobody can tell what '{\"what\": 1}' is; an event has one of the keys sign, "
            "remedy, danger, cleared, cause, spoken"
        ),
        '1 events: \'7\' is no event; write it as {"sign": "...", "said": "yes"}',
        "1 events: the key 'outcome' is missing; add it",
    ]


def test_confirmed_by_nothing_is_refused() -> None:
    """A case said to be confirmed, without a cause, would count as a lamp with nothing wrong."""
    assert told(broken(causes=[])) == [
        (
            "1 causes: no cause is named though it was confirmed by 'bench'; name what was found, "
            "or write 'not confirmed'"
        )
    ]

"""The measuring rig of whole calls, on a few callers."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from benchmarks.calls.charts import chart
from benchmarks.calls.diagnosing import Group, drawn, lit_while_shut, worked_through
from benchmarks.calls.places import Lives, Place, frequencies, lives_at
from benchmarks.calls.policies import ANSWERED, ORACLE, POLICIES, Call, Policy, desk
from benchmarks.calls.troubled import Lamp, as_it_is, caller
from hypothesis import given
from hypothesis import strategies as st
from tests.support.demo import demo
from tests.support.small_calls import small_calls

from wickwright.cause.case import Computed
from wickwright.cause.costs import Costs
from wickwright.cause.dangers import GUARDS
from wickwright.cause.knowledge import knowledge_of
from wickwright.chance.evidence import NO, YES
from wickwright.chance.repair import Do

BOOK = demo().book
KNOWN = knowledge_of(small_calls(), {"chimney"}, "", "dim")
BARE = desk(KNOWN, Costs(hand_over=90.0), 5.0)
DESK = replace(BARE, chart=chart([(1.0, BARE)], 90.0))


@pytest.fixture(scope="module")
def few() -> list[Group]:
    return list(drawn(demo(), 2, 3, 0.0, homes=3))


@pytest.mark.parametrize("danger", GUARDS)
def test_no_step_with_a_flame_is_offered_while_the_gate_is_shut(
    few: list[Group], danger: str
) -> None:
    """A caller would be told to light a lamp that leaks, or in a room that makes them ill."""
    group = few[list(GUARDS).index(danger) % len(few)]
    assert lit_while_shut(BOOK, group.lamp, group.known, group.callers[0], danger) == 0


@pytest.mark.parametrize("policy", [*POLICIES, ANSWERED, ORACLE], ids=lambda policy: policy.name)
def test_every_way_of_working_ends_in_a_cure_or_at_the_bench(policy: Policy) -> None:
    """The rig would hang, or count minutes of a call that never ended."""
    rng = np.random.default_rng(5)
    for _ in range(10):
        told = worked_through(DESK, caller(KNOWN, rng), policy)
        assert told.cured or told.minutes >= DESK.hand_over
        assert told.questions <= len(KNOWN.signs)
        assert told.acts <= len(KNOWN.remedies)


def test_knowing_the_causes_costs_less_than_finding_them() -> None:
    """The oracle, against which ours is measured, would be no bound at all."""
    rng = np.random.default_rng(11)
    people = [caller(KNOWN, rng) for _ in range(40)]
    mean = {
        policy.name: np.mean([worked_through(DESK, who, policy).minutes for who in people])
        for policy in (*POLICIES, ORACLE)
    }
    assert min(mean, key=lambda name: mean[name]) == ORACLE.name


@given(st.integers(0, 2**32 - 1))
def test_a_caller_errs_the_same_way_again(seed: int) -> None:
    """Asking twice would wash out errors that no real caller's second answer washes out."""
    lamp = Lamp.of(caller(KNOWN, np.random.default_rng(seed)))
    signs = range(len(KNOWN.signs))
    assert [lamp.says(sign) for sign in signs] == [lamp.says(sign) for sign in signs]


def test_callers_have_the_causes_and_say_the_answers_that_the_tables_give() -> None:
    """Every figure of the rig would be of another book than the one it names."""
    rng = np.random.default_rng(2)
    people = [caller(KNOWN, rng) for _ in range(6000)]
    expected = KNOWN.weights @ KNOWN.sets
    seen = np.mean([who.faults for who in people], axis=0)
    assert np.abs(seen - expected).max() < 4.0 * 0.5 / 6000**0.5
    assert DESK.questions is not None
    said = np.zeros(len(DESK.questions.rows))
    for who in people:
        lamp = Lamp.of(who)
        for sign, start in enumerate(DESK.questions.starts):
            said[start + lamp.says(sign)] += 1.0 / len(people)
    assert np.abs(said - DESK.questions.rows @ KNOWN.weights).max() < 4.0 * 0.5 / 6000**0.5


def test_a_lamp_with_nothing_left_that_makes_the_complaint_burns_well() -> None:
    """An act that worked would count as failed, or one that failed as a cure."""
    rng = np.random.default_rng(8)
    for _ in range(50):
        who = caller(KNOWN, rng)
        lamp = Lamp.of(who)
        gone = [lamp.treated(remedy) for remedy in range(len(KNOWN.remedies))]
        left = who.faults & who.complains & ~who.works.any(axis=0)
        assert gone[-1] == (not (who.anyway or left.any()))
        assert gone == sorted(gone)


def test_a_book_that_is_off_is_off_by_as_much_as_was_asked_for() -> None:
    """Wrong tables would be tried out with tables that are right."""
    rng = np.random.default_rng(4)
    assert as_it_is(KNOWN, 0.0, rng) is KNOWN
    there = KNOWN.net.links > 0.0
    links = KNOWN.net.links[there]
    moved = np.array([as_it_is(KNOWN, 0.7, rng).net.links[there] for _ in range(400)])
    odds = np.log(moved / (1.0 - moved)) - np.log(links / (1.0 - links))
    assert np.abs(odds.std(axis=0) - 0.7).max() < 4.0 * 0.7 / 800**0.5


def test_the_paper_chart_goes_on_as_it_is_written() -> None:
    """The fixed chart would be another than the one its name promises, or never come to its end."""
    call, asked, done = Call(DESK, DESK.start), [], []
    policy = next(one for one in POLICIES if one.name == "fixed chart, fixed acts")
    while (step := policy.choose(call)).do is not Do.HAND_OVER:
        if step.do is Do.ASK:
            sign = KNOWN.signs[step.which].id
            asked.append(sign)
            call.hears(step.which, YES if sign == "carbon" else NO)
        else:
            done.append(KNOWN.remedies[step.which].id)
            call.fails(step.which)
            if KNOWN.remedies[step.which].id in DESK.chart.boxes["carbon"]:
                assert asked[-1] == "carbon"
    box = DESK.chart.boxes["carbon"]
    assert box[0] == "tall-chimney"
    assert tuple(asked) == DESK.chart.questions
    assert tuple(done) == (*box, *(one for one in DESK.chart.rest if one not in box))


def test_a_chart_over_two_lamps_asks_both_the_same() -> None:
    """A chart with its own questions for each lamp would pass for the one on paper."""
    bare = knowledge_of(small_calls(), set(), "", "dim")
    other = desk(bare, Costs(hand_over=90.0), 5.0)
    both = chart([(0.7, BARE), (0.3, other)], 90.0)
    for known, at in ((KNOWN, BARE), (bare, other)):
        call, asked = Call(replace(at, chart=both), at.start), []
        policy = next(one for one in POLICIES if one.name == "fixed chart, then p/c")
        while (step := policy.choose(call)).do is Do.ASK:
            asked.append(known.signs[step.which].id)
            call.hears(step.which, NO)
        able = {sign.id for sign in known.signs}
        assert asked == [sign for sign in both.questions if sign in able]


def _lives() -> Lives:
    """Return three places: nothing worked out, glass that is far too short, glass tall enough."""
    homes: list[Place] = [(), (Computed("short", 0.9, "high"),), (Computed("short", 0.002, "low"),)]
    return Lives.of(KNOWN, homes)


def test_places_leave_causes_as_frequent_as_the_book_says() -> None:
    """Where callers live would make a cause more or less frequent than the tables have it."""
    chance = np.array([[0.9], [0.3], [0.002]])
    found = frequencies(chance, np.array([0.05]))
    assert found.sum() == pytest.approx(1.0)
    assert float(found @ chance[:, 0]) == pytest.approx(0.05, abs=1e-9)


def test_what_is_worked_out_is_as_right_as_it_says() -> None:
    """The desk would be told more, or less, than its own tables take what it is told for."""
    lives, rng = _lives(), np.random.default_rng(6)
    short = [cause.id for cause in KNOWN.causes].index("short")
    people = [caller(KNOWN, rng) for _ in range(6000)]
    homes = [lives_at(lives, who.faults, rng) for who in people]
    for place in lives.places[1:]:
        call = Call(DESK, DESK.start)
        call.works_out(place)
        there = [
            who.faults[short] for who, home in zip(people, homes, strict=True) if home == place
        ]
        said = float(call.repair.beliefs.marginals(KNOWN.sets)[short])
        error = max(said * (1.0 - said) / len(there), 1.0 / len(there) ** 2) ** 0.5
        assert abs(float(np.mean(there)) - said) < 4.0 * error


def test_what_was_worked_out_is_not_asked() -> None:
    """The rig would count minutes for questions that the desk does not ask."""
    call = Call(DESK, DESK.start)
    call.works_out([Computed("short", 0.9, "high")])
    carbon = [sign.id for sign in KNOWN.signs].index("carbon")
    assert call.asked == [carbon]

"""The measuring rig of whole calls, on a few callers."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest
from benchmarks.calls.diagnosing import ORACLE, Group, drawn, lit_while_shut, worked_through
from benchmarks.calls.policies import POLICIES, desk, oracle
from benchmarks.calls.troubled import Lamp, as_it_is, caller
from hypothesis import given
from hypothesis import strategies as st
from tests.support.demo import demo
from tests.support.small_calls import small_calls

from wickwright.cause.costs import Costs
from wickwright.cause.dangers import GUARDS
from wickwright.cause.knowledge import knowledge_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from benchmarks.calls.policies import Call

    from wickwright.chance.repair import Step

BOOK = demo().book
KNOWN = knowledge_of(small_calls(), {"chimney"}, "", "dim")
DESK = desk(KNOWN, Costs(hand_over=90.0), 5.0)


@pytest.fixture(scope="module")
def few() -> list[Group]:
    return list(drawn(BOOK, 2, 3, 0.0))


@pytest.mark.parametrize("danger", GUARDS)
def test_no_step_with_a_flame_is_offered_while_the_gate_is_shut(
    few: list[Group], danger: str
) -> None:
    """A caller would be told to light a lamp that leaks, or in a room that makes them ill."""
    group = few[list(GUARDS).index(danger) % len(few)]
    assert lit_while_shut(BOOK, group.lamp, group.known, group.callers[0], danger) == 0


@pytest.mark.parametrize(
    ("name", "choose"), [*POLICIES, (ORACLE, oracle)], ids=[*dict(POLICIES), ORACLE]
)
def test_every_way_of_working_ends_in_a_cure_or_at_the_bench(
    name: str, choose: Callable[[Call], Step]
) -> None:
    """The rig would hang, or count minutes of a call that never ended."""
    rng = np.random.default_rng(5)
    for _ in range(10):
        told = worked_through(DESK, caller(KNOWN, rng), choose)
        assert told.cured or told.minutes >= DESK.hand_over, name
        assert told.questions <= len(KNOWN.signs)
        assert told.acts <= len(KNOWN.remedies)


def test_knowing_the_causes_costs_less_than_finding_them() -> None:
    """The oracle, against which ours is measured, would be no bound at all."""
    rng = np.random.default_rng(11)
    people = [caller(KNOWN, rng) for _ in range(40)]
    mean = {
        name: np.mean([worked_through(DESK, who, choose).minutes for who in people])
        for name, choose in (POLICIES[0], POLICIES[3], (ORACLE, oracle))
    }
    assert min(mean, key=lambda name: mean[name]) == ORACLE


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

"""Repairs against every outcome, one by one."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.support.broken_things import Thing, cheapest, outcomes, spent, things

from wickwright.chance.acts import Acts, Repair, acts
from wickwright.chance.beliefs import Beliefs
from wickwright.chance.evidence import Said, answers_given
from wickwright.chance.fault_sets import fault_sets
from wickwright.chance.next_question import Question, Questions, stack
from wickwright.chance.noisy_or import NoisyOr, set_weights, sign_given
from wickwright.chance.repair import costs, expected_cost, steps

if TYPE_CHECKING:
    from wickwright.chance.arrays import Floats

HAND_OVER = st.sampled_from([5.0, 20.0, 60.0])
SETTINGS = settings(max_examples=12, deadline=None)


def repair_of(thing: Thing) -> tuple[Repair, Acts]:
    """Return the program's own view of a thing whose complaint was heard."""
    causes = len(thing.prior)
    sets = fault_sets(causes, causes)
    prior, links = np.array(thing.prior), np.array(thing.links)
    net = NoisyOr(prior, links[None, :], np.array([thing.leak]))
    beliefs = Beliefs(set_weights(prior, sets)).given(sign_given(net, sets)[0])
    able = acts(thing.cost, thing.cures)
    return Repair.begun(beliefs, sets, links, thing.leak, able), able


def two_questions(repair: Repair) -> Questions:
    """Return a question about the first cause and one about the last that costs more."""
    first, last = repair.held[:, 0], repair.held[:, -1]
    return stack(
        [
            Question(answers_given(Said(0.9, 0.8, 0.1), first), 0.5),
            Question(answers_given(Said(0.95, 0.95, 0.05, 0.2), last), 1.5),
        ]
    )


@SETTINGS
@given(things(), st.permutations([0, 1, 2]), st.integers(0, 3))
def test_beliefs_after_acts_that_failed(thing: Thing, order: list[int], many: int) -> None:
    """Causes would be believed in that the acts have cured, or dropped that they have not."""
    repair, able = repair_of(thing)
    found = [one for one in outcomes(thing) if one.broken(order[:many])]
    total = sum(one.weight for one in found)
    for act in order[:many]:
        repair = repair.failed(able, act)
    held = repair.sets.tolist()
    expected = [
        sum(one.weight for one in found if list(one.causes) == causes) / total for causes in held
    ]
    assert repair.beliefs.weights == pytest.approx(expected, abs=1e-12)
    gone = repair.gone_after(able)
    for act in order:
        mended = sum(one.weight for one in found if not one.broken([*order[:many], act])) / total
        assert gone[act] == pytest.approx(mended, abs=1e-12)


@SETTINGS
@given(things(), st.permutations([0, 1, 2]), st.integers(0, 3))
def test_what_is_behind_the_complaint(thing: Thing, order: list[int], many: int) -> None:
    """A cause that is there would be blamed for a complaint that another makes."""
    repair, able = repair_of(thing)
    found = [one for one in outcomes(thing) if one.broken(order[:many])]
    total = sum(one.weight for one in found)
    for act in order[:many]:
        repair = repair.failed(able, act)
    cured = [frozenset[int]().union(*(one.cured[act] for act in order[:many])) for one in found]
    expected = [
        sum(
            one.weight
            for one, gone in zip(found, cured, strict=True)
            if cause in one.active and cause not in gone
        )
        / total
        for cause in range(len(thing.prior))
    ]
    assert repair.behind() == pytest.approx(expected, abs=1e-12)


@SETTINGS
@given(things(), st.permutations([0, 1, 2]), st.integers(0, 3), HAND_OVER)
def test_cost_of_an_order(thing: Thing, order: list[int], many: int, hand_over: float) -> None:
    """An order would be said to cost more or less than it does on average."""
    repair, able = repair_of(thing)
    ours = costs(repair, able, order[:many], hand_over) @ repair.beliefs.weights
    assert ours == pytest.approx(spent(thing, outcomes(thing), order[:many], hand_over), rel=1e-12)


@SETTINGS
@given(things(), HAND_OVER)
def test_order_found(thing: Thing, hand_over: float) -> None:
    """The plan would not cost what is said, or be beyond four times the cheapest of all."""
    repair, able = repair_of(thing)
    found = outcomes(thing)
    cost, order = expected_cost(repair, able, hand_over)
    assert cost == pytest.approx(spent(thing, found, order, hand_over), rel=1e-12)
    least = cheapest(thing, found, hand_over)
    assert least * (1.0 - 1e-12) <= cost <= 4.0 * least


@SETTINGS
@given(things(), HAND_OVER)
def test_every_step_is_worth_what_its_plan_costs(thing: Thing, hand_over: float) -> None:
    """A question's or an act's value would differ from planning anew after each answer."""
    repair, able = repair_of(thing)
    questions = two_questions(repair)
    found = steps(repair, able, questions, hand_over, most=None)
    for place in range(len(questions)):
        assert found.ask[place] == pytest.approx(
            _asked(repair, able, questions, place, hand_over), rel=1e-9
        )
    for act in range(len(able)):
        assert found.act[act] == pytest.approx(
            _acted(repair, able, questions, act, hand_over), rel=1e-9
        )
    assert found.repair == pytest.approx(expected_cost(repair, able, hand_over)[0], rel=1e-12)
    assert found.gone == pytest.approx(repair.gone_after(able), abs=1e-12)


def _asked(repair: Repair, able: Acts, questions: Questions, place: int, hand_over: float) -> float:
    total = float(questions.minutes[place])
    for row in np.flatnonzero(questions.owner == place):
        answer: Floats = questions.rows[row]
        chance = float(answer @ repair.beliefs.weights)
        if chance > 0.0:
            total += chance * expected_cost(repair.given(answer), able, hand_over)[0]
    return total


def _acted(repair: Repair, able: Acts, questions: Questions, act: int, hand_over: float) -> float:
    still = 1.0 - float(repair.gone_after(able)[act])
    if still <= 1e-12:
        return float(able.cost[act])
    after = repair.failed(able, act)
    ways = [_asked(after, able, questions, place, hand_over) for place in range(len(questions))]
    ways.append(expected_cost(after, able, hand_over)[0])
    return float(able.cost[act]) + still * min(ways)

"""Worked examples of repair and learning: every value by hand and confirmed by brute force."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

import numpy as np
import pytest

from wickwright.chance.acts import Acts, Repair, acts
from wickwright.chance.beliefs import Beliefs
from wickwright.chance.fault_sets import fault_sets
from wickwright.chance.learning import Cases, beta_mean, responsibilities
from wickwright.chance.next_question import Question, Questions, stack
from wickwright.chance.noisy_or import NoisyOr, sign_given
from wickwright.chance.repair import Do, expected_cost, steps

if TYPE_CHECKING:
    from wickwright.chance.arrays import Floats

NOBODY = float("inf")
A, B, C, D, E = range(5)
COST = [2.0, 6.0, 8.0, 12.0, 20.0]


def single_fault(chances: list[float], cost: list[float], cures: Floats) -> tuple[Repair, Acts]:
    """Return a repair where exactly one cause holds and is sure to make the complaint."""
    causes = len(chances)
    able = acts(cost, cures)
    beliefs = Beliefs(np.array([0.0, *chances]))
    return Repair.begun(beliefs, fault_sets(causes, 1), np.ones(causes), 0.0, able), able


@pytest.fixture
def lamp() -> tuple[Repair, Acts]:
    """Five causes, each with its own sure act."""
    return single_fault([0.35, 0.25, 0.12, 0.20, 0.08], COST, np.eye(5))


@pytest.fixture
def is_it_d() -> Questions:
    """One question of cost 1: yes is nine times as probable if D is the cause."""
    yes = np.where(np.arange(6) == 1 + D, 0.9, 0.1)
    return stack([Question(np.stack([yes, 1.0 - yes]), 1.0)])


def test_order_by_chance_over_cost(lamp: tuple[Repair, Acts]) -> None:
    """The cheapest of the 120 orders (13.9) would be missed."""
    cost, order = expected_cost(*lamp)
    assert order == (A, B, D, C, E)
    assert cost == pytest.approx(13.9, rel=1e-14)


@pytest.mark.parametrize(
    ("service", "cost", "order"),
    [(15.0, 11.75, (A,)), (25.0, 13.9, (A, B, D, C, E))],
)
def test_hand_over_after_the_best_prefix(
    lamp: tuple[Repair, Acts], service: float, cost: float, order: tuple[int, ...]
) -> None:
    """A case would be handed over too soon or too late: the cost has two valleys."""
    found, plan = expected_cost(*lamp, service)
    assert plan == order
    assert found == pytest.approx(cost, rel=1e-14)


def test_acts_that_overlap() -> None:
    """An act would be counted for a fault that another act has cured already."""
    cures = np.array([[0, 0, 1, 0], [1, 0, 0, 1], [0, 1, 1, 0], [1, 1, 0, 0]], dtype=np.float64)
    case = single_fault([0.20, 0.25, 0.40, 0.15], [5.0, 2.0, 8.0, 4.0], cures)
    cost, order = expected_cost(*case)
    assert order == (1, 2)
    assert cost == pytest.approx(7.20, rel=1e-14)


def test_question_before_and_after_an_act(lamp: tuple[Repair, Acts], is_it_d: Questions) -> None:
    """'Ask now' (12.52) would beat 'do A, then ask' (12.17), the best of all strategies."""
    found = steps(*lamp, is_it_d, NOBODY)
    assert found.ask[0] == pytest.approx(float(Fraction(313, 25)), rel=1e-14)
    assert found.act[A] == pytest.approx(float(Fraction(1217, 100)), rel=1e-14)
    assert found.repair == pytest.approx(13.9, rel=1e-14)
    assert found.ask_later == (A,)
    assert [(step.do, step.which) for step in found.ranked()[:2]] == [(Do.ACT, A), (Do.ASK, 0)]


def test_without_deferring_a_question_comes_before_the_act(
    lamp: tuple[Repair, Acts], is_it_d: Questions
) -> None:
    """A desk that wants the cause first could not have it: 12.52 against 13.9 by acts alone."""
    found = steps(*lamp, is_it_d, NOBODY, defer=False)
    assert found.act[A] == pytest.approx(13.9, rel=1e-14)
    assert found.ask[0] == pytest.approx(float(Fraction(313, 25)), rel=1e-14)
    assert found.ask_later == ()
    assert found.ranked()[0].do is Do.ASK


@pytest.mark.parametrize(
    ("answer", "cost", "order"),
    [(0, 14.653846153846153, (A, D, B, C, E)), (1, 10.418918918918919, (A, B, C, E, D))],
)
def test_repair_after_an_answer(
    lamp: tuple[Repair, Acts],
    is_it_d: Questions,
    answer: int,
    cost: float,
    order: tuple[int, ...],
) -> None:
    """An answer would leave the order of the acts as it was."""
    repair, able = lamp
    assert is_it_d.rows[0] @ repair.beliefs.weights == pytest.approx(0.26, rel=1e-14)
    found, plan = expected_cost(repair.given(is_it_d.rows[answer]), able)
    assert plan == order
    assert found == pytest.approx(cost, rel=1e-14)


def test_who_made_the_sign_seen() -> None:
    """Two causes and a leak would share one sign by their size, not by their chance."""
    net = NoisyOr(np.array([0.5, 0.5]), np.array([[0.8, 0.5]]), np.array([0.1]))
    both = np.array([[True, True]])
    assert sign_given(net, both)[0, 0] == pytest.approx(0.91, rel=1e-15)
    share = responsibilities(net, Cases(both, np.ones((1, 1)), np.zeros((1, 1)), np.ones(1)))
    assert share.links[0] == pytest.approx([80 / 91, 50 / 91], rel=1e-15)
    assert share.leak[0] == pytest.approx(10 / 91, rel=1e-15)


def test_belief_and_counts() -> None:
    """Beta(8, 2) and 3 of 10 would not come to 0.55."""
    after = beta_mean(np.array(0.8), 10.0, np.array(3.0), np.array(10.0))
    assert float(after) == pytest.approx(0.55, rel=1e-15)

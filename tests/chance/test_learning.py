"""Learning from closed cases: what moves, what may not, and whether it finds the truth."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wickwright.chance.learning import (
    HIGH,
    LOW,
    Cases,
    case_weights,
    counts_for,
    learned,
    log_likelihood,
    responsibilities,
)
from wickwright.chance.noisy_or import NoisyOr

if TYPE_CHECKING:
    from wickwright.chance.arrays import Floats

CAUSES, SIGNS = 6, 8


def true_net(seed: int) -> NoisyOr:
    """Return a net to draw cases from."""
    rng = np.random.default_rng(seed)
    links = rng.uniform(0.15, 0.9, (SIGNS, CAUSES)) * (rng.random((SIGNS, CAUSES)) < 0.5)
    return NoisyOr(rng.uniform(0.05, 0.3, CAUSES), links, rng.uniform(0.01, 0.05, SIGNS))


def expert_net(truth: NoisyOr, seed: int) -> NoisyOr:
    """Return the same links, each off by one unit of log-odds on average."""
    rng = np.random.default_rng(seed)

    def off(values: Floats) -> Floats:
        inner = np.clip(values, 0.01, 0.99)
        logit = np.log(inner / (1.0 - inner)) + rng.normal(0.0, 1.0, values.shape)
        return np.where(values > 0.0, 1.0 / (1.0 + np.exp(-logit)), 0.0)

    return NoisyOr(off(truth.prior), off(truth.links), truth.leak)


def draw(truth: NoisyOr, many: int, seed: int, asked: float = 0.6) -> Cases:
    """Return cases drawn from a net, some signs asked after and answered 92 % rightly."""
    rng = np.random.default_rng(seed)
    causes = rng.random((many, CAUSES)) < truth.prior
    silent = 1.0 - causes[:, None, :] * truth.links
    sign = rng.random((many, SIGNS)) > (1.0 - truth.leak) * silent.prod(axis=2)
    yes = np.where(rng.random((many, SIGNS)) < 0.92, sign, ~sign)
    there, absent = np.where(yes, 0.92, 0.08), np.where(yes, 0.08, 0.92)
    open_ = rng.random((many, SIGNS)) < asked
    ones = np.ones((many, SIGNS))
    return Cases(causes, np.where(open_, there, ones), np.where(open_, absent, ones), np.ones(many))


@pytest.mark.parametrize("seed", range(4))
def test_likelihood_rises_with_every_round(seed: int) -> None:
    """With no belief before (strength 0) a round of EM would make the cases less probable."""
    truth = true_net(seed)
    cases = draw(truth, 200, seed + 10)
    fits = [
        log_likelihood(learned(expert_net(truth, seed), cases, strength=0.0, rounds=rounds), cases)
        for rounds in range(1, 12)
    ]
    assert all(later >= sooner - 1e-9 for sooner, later in itertools.pairwise(fits))


@pytest.mark.parametrize("seed", range(3))
def test_nearer_the_truth_on_cases_not_seen(seed: int) -> None:
    """Two hundred cases would bring the links no nearer the truth, or two thousand no nearer."""
    truth, expert = true_net(seed), expert_net(true_net(seed), seed)
    fresh = draw(truth, 4000, seed + 50)
    scores = [log_likelihood(expert, fresh)]
    scores += [
        log_likelihood(learned(expert, draw(truth, many, seed + 20)), fresh) for many in (200, 2000)
    ]
    best = log_likelihood(truth, fresh)
    assert scores[0] < scores[1] < scores[2]
    assert best - scores[2] < 0.3 * (best - scores[0])


def test_a_strong_belief_is_not_swamped_by_fifty_cases() -> None:
    """Fifty cases would undo what the expert knew: their own fit is worse on cases not seen."""
    truth = true_net(5)
    expert = expert_net(truth, 5)
    few, fresh = draw(truth, 50, 6), draw(truth, 4000, 7)
    held, loose = (log_likelihood(learned(expert, few, strength=s), fresh) for s in (10.0, 0.1))
    assert held > loose


def test_unconfirmed_cases_change_nothing() -> None:
    """A case whose cause nobody confirmed would be learned from."""
    truth = true_net(1)
    cases = draw(truth, 100, 2)
    age, kind = np.zeros(100), np.full(100, -1)
    weight = case_weights(age, kind, np.array([0.3, 0.7, 1.0]), 730.0)
    after = learned(truth, Cases(cases.causes, cases.if_there, cases.if_not, weight))
    assert after.links.tolist() == truth.links.tolist()
    assert after.prior.tolist() == truth.prior.tolist()
    assert after.leak.tolist() == truth.leak.tolist()


def test_weight_of_a_case_by_hand() -> None:
    """A returned part two half lives ago would count for more than a quarter of its worth."""
    age, kind = np.array([0.0, 730.0, 1460.0, 0.0]), np.array([2, 0, 1, -1])
    found = case_weights(age, kind, np.array([0.4, 0.8, 1.0]), 730.0)
    assert found == pytest.approx([1.0, 0.2, 0.2, 0.0], rel=1e-14)


def test_two_half_cases_are_one() -> None:
    """Weights of cases would not add up."""
    truth, expert = true_net(2), expert_net(true_net(2), 3)
    cases = draw(truth, 40, 4)
    twice = Cases(
        np.tile(cases.causes, (2, 1)),
        np.tile(cases.if_there, (2, 1)),
        np.tile(cases.if_not, (2, 1)),
        np.full(80, 0.5),
    )
    once, halves = learned(expert, cases), learned(expert, twice)
    assert halves.links == pytest.approx(once.links, abs=1e-10)
    assert halves.prior == pytest.approx(once.prior, abs=1e-12)


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 10_000), st.integers(0, 60), st.floats(0.5, 50.0))
def test_nothing_learned_is_sure(seed: int, many: int, strength: float) -> None:
    """A cause or a link would become impossible or sure, or a link appear that nobody drew."""
    truth = true_net(seed % 7)
    floor = np.full(CAUSES, 0.03)
    after = learned(truth, draw(truth, many, seed), strength=strength, floor=floor)
    drawn = truth.links > 0.0
    assert (after.links[~drawn] == 0.0).all()
    assert (after.links[drawn] >= min(LOW, truth.links[drawn].min())).all()
    assert (after.links[drawn] <= max(HIGH, truth.links[drawn].max())).all()
    assert (after.prior >= 0.03).all()
    assert (after.prior < 1.0).all()


def test_a_sign_that_was_not_asked_after_counts_for_nothing() -> None:
    """'Don't know' would be learned from as 'no'."""
    truth = true_net(3)
    causes = np.ones((5, CAUSES), dtype=np.bool_)
    unasked = Cases(causes, np.full((5, SIGNS), 0.1), np.full((5, SIGNS), 0.1), np.ones(5))
    share = responsibilities(truth, unasked)
    assert share.links.max() == share.link_trials.max() == 0.0
    assert share.leak.max() == share.leak_trials.max() == 0.0


def test_what_is_seldom_counts_for_as_long_as_it_takes_to_meet_it() -> None:
    """A few dozen cases would overrule what an expert knows of something rare."""
    found = counts_for(np.array([0.04, 0.5, 0.0, 1.0]), 10.0, 3.0)
    assert found == pytest.approx([75.0, 10.0, 10.0, 10.0])


def test_a_rare_leak_and_a_rare_cause_move_as_on_paper() -> None:
    """One odd answer of sixteen would make a sign that hardly any lamp shows a common one."""
    before = NoisyOr(np.array([0.04]), np.array([[0.0]]), np.array([0.005]))
    seen = np.zeros((16, 1))
    seen[0] = 1.0
    cases = Cases(np.zeros((16, 1), np.bool_), seen, 1.0 - seen, np.ones(16))
    after = learned(before, cases, finds=3.0)
    assert after.leak == pytest.approx([(3.0 + 1.0) / (600.0 + 16.0)])
    assert after.prior == pytest.approx([3.0 / (75.0 + 16.0)])
    ten = learned(before, cases)
    assert ten.leak == pytest.approx([(0.05 + 1.0) / (10.0 + 16.0)])

"""Answers, lengths, sets and scores with values by hand."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np
import pytest

from wickwright.chance.beliefs import Beliefs, clash, combined
from wickwright.chance.evidence import Ruler, Said, answers_given, confusion, measured
from wickwright.chance.fault_sets import fault_sets
from wickwright.chance.noisy_or import quiet, still_there
from wickwright.chance.scores import brier_score, calibration, log_score

if TYPE_CHECKING:
    from wickwright.chance.arrays import Ints


def test_sets_in_their_order() -> None:
    """Rows of every table would be read against another set of causes."""
    assert len(fault_sets(40)) == 10701
    assert len(fault_sets(28)) == 3683
    named = ["".join("abc"[k] for k in np.flatnonzero(row)) for row in fault_sets(3, 2)]
    assert named == ["", "a", "b", "c", "ab", "ac", "bc"]
    assert fault_sets(2, 5).shape == (4, 2)
    assert fault_sets(0).shape == (1, 0)


def test_a_sure_link() -> None:
    """A link of 1 would turn into no number, or leave a chance of silence."""
    sets = fault_sets(2)
    assert quiet(np.array([1.0, 0.5]), sets).tolist() == [1.0, 0.0, 0.5, 0.0]


def test_complaint_after_one_of_two_causes_is_cured() -> None:
    """By hand, links .8 and .5, the first of two cured: not .5/.9 of the complaint would stay."""
    both = np.array([[True, True], [False, False]])
    still = still_there(np.array([0.8, 0.5]), 0.0, both, np.array([1.0, 0.0]))
    assert still[0] == pytest.approx(5 / 9, rel=1e-14)
    assert still[1] == 1.0


def test_answers_by_hand() -> None:
    """'Yes' to a sign of chance .5 would not be .9 (.9 x .5 + .2 x .5)."""
    told = answers_given(Said(0.9, 0.8, 0.1), np.array([0.5]))
    assert told[:, 0] == pytest.approx([0.9 * 0.55, 0.9 * 0.45, 0.1], rel=1e-14)


def test_not_knowing_that_tells() -> None:
    """Where those without the sign are less sure, 'don't know' would not speak against it."""
    told = answers_given(Said(0.9, 0.9, 0.05, 0.2), np.array([1.0, 0.0]))
    assert told[2] == pytest.approx([0.05, 0.2], rel=1e-14)
    assert told.sum(axis=0) == pytest.approx([1.0, 1.0], rel=1e-14)


def test_ruler_by_hand() -> None:
    """Errors of 3 mm and 4 mm (10 % of 40 mm) would not add to 5 mm."""
    density = measured(0.045, Ruler(0.003, 0.1), np.array([0.040]))[0]
    assert density == pytest.approx(math.exp(-0.5) / (0.005 * math.sqrt(2 * math.pi)), rel=1e-12)


def test_a_blunder_keeps_a_hypothesis_alive() -> None:
    """A slip of the ruler would rule out the right lamp for good."""
    far = measured(0.3, Ruler(0.003, blunder=0.02, span=0.5), np.array([0.1]))[0]
    assert far == pytest.approx(0.04, rel=1e-12)


def test_confusion_by_class() -> None:
    """Hypotheses of one colour would be heard as different colours."""
    heard = confusion(np.array([[0.7, 0.2, 0.1], [0.1, 0.8, 0.1]]), np.array([1, 0, 1]))
    assert heard.tolist() == [[0.1, 0.7, 0.1], [0.8, 0.2, 0.8], [0.1, 0.1, 0.1]]


def test_beliefs_by_hand() -> None:
    """Shares, marginals and entropy would be of other weights."""
    beliefs = Beliefs(np.array([2.0, 1.0, 1.0]))
    groups: Ints = np.array([0, 1, 1], dtype=np.intp)
    assert beliefs.share(groups).tolist() == [0.5, 0.5]
    assert beliefs.entropy == pytest.approx(1.5, rel=1e-15)
    assert Beliefs(np.array([0.0, 1.0])).entropy == 0.0
    assert beliefs.marginals(np.array([[1, 0], [1, 1], [0, 1]], dtype=np.bool_)).tolist() == [
        0.75,
        0.5,
    ]


def test_many_unlikely_answers() -> None:
    """Five hundred answers of chance 1e-3 would leave no weight where one hypothesis is right."""
    rows = [np.array([1e-3, 1e-4])] * 500
    found = combined(np.ones(2), rows)
    assert isinstance(found, Beliefs)
    assert found.weights[0] == pytest.approx(1.0, abs=1e-300)


def test_three_answers_that_clash_only_together() -> None:
    """Two of three would be blamed though any two of them agree."""
    heard = [
        np.array(row, dtype=np.float64) for row in ([1, 1, 0], [1, 1, 1], [1, 0, 1], [0, 1, 1])
    ]
    assert clash(np.ones(3), heard) == (0, 2, 3)
    assert clash(np.ones(3), []) == ()
    assert clash(np.ones(3), [np.ones(3), np.zeros(3)]) == (1,)


def test_scores_by_hand() -> None:
    """Forecasts of .8 and .4 for what happened would be scored otherwise."""
    said, happened = np.array([[0.8, 0.2], [0.6, 0.4]]), np.array([0, 1])
    assert log_score(said, happened) == pytest.approx(-math.log(0.8 * 0.4) / 2, rel=1e-14)
    assert brier_score(said, happened) == pytest.approx((0.08 + 0.72) / 2, rel=1e-14)
    assert log_score(np.eye(2), np.array([0, 1])) == 0.0
    assert log_score(np.eye(2), np.array([1, 1])) == math.inf


def test_calibration_by_hand() -> None:
    """Two bins a tenth off each would not come to an error of 0.1."""
    said = np.array([0.3, 0.3, 0.3, 0.3, 0.3, 1.0, 1.0, 1.0, 1.0, 1.0])
    happened = np.array([1, 1, 0, 0, 0, 1, 1, 1, 1, 0], dtype=np.bool_)
    found = calibration(said, happened, 10)
    assert found.count.tolist() == [0, 0, 0, 5, 0, 0, 0, 0, 0, 5]
    assert found.happened[[3, 9]] == pytest.approx([0.4, 0.8], rel=1e-14)
    assert found.error == pytest.approx(0.15, rel=1e-12)
    assert math.isnan(found.said[0])

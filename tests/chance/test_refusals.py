"""What the floor refuses, in whole sentences."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest

from wickwright.chance.acts import Acts, Repair, acts
from wickwright.chance.arrays import ChanceError
from wickwright.chance.beliefs import Beliefs, ImpossibleEvidenceError
from wickwright.chance.evidence import Ruler, Said, confusion, measured
from wickwright.chance.fault_sets import fault_sets
from wickwright.chance.learning import Cases, case_weights, learned
from wickwright.chance.next_question import Question, stack
from wickwright.chance.noisy_or import NoisyOr, set_weights
from wickwright.chance.scores import brier_score, calibration, log_score

if TYPE_CHECKING:
    from collections.abc import Callable

ONE = np.ones(1)
NET = NoisyOr(np.array([0.5]), np.array([[0.5]]), np.array([0.1]))
NO = "a chance lies between 0 and 1. Was it a percentage, or a blank?"
REFUSALS: list[tuple[str, Callable[[], object], str]] = [
    ("sets below zero", lambda: fault_sets(-1, 2), "causes is -1; it has to be at least 0."),
    (
        "too many sets",
        lambda: fault_sets(100, 5),
        (
            "100 causes, up to 5 at once, make 79,375,496 sets; at most 2,000,000 fit. "
            "Allow fewer at once."
        ),
    ),
    (
        "a net of other shapes",
        lambda: NoisyOr(np.full(3, 0.1), np.full((2, 4), 0.5), np.full(2, 0.1)),
        "links is 2 x 4; it has to be 2 x 3, in the order of the other tables.",
    ),
    (
        "every wrong number of a net",
        lambda: NoisyOr(np.array([0.1, 35.0]), np.array([[0.5, np.nan]]), np.array([-0.1])),
        f"prior[1] is 35; {NO}\nlinks[0, 1] is nan; {NO}\nleak[0] is -0.1; {NO}",
    ),
    (
        "sure causes beyond the sets",
        lambda: set_weights(np.ones(3), fault_sets(3, 1)),
        "No set of causes has any weight. Is a prior 0 or 1, or are the sets too small?",
    ),
    (
        "two wrong rates",
        lambda: Said(92.0, 0.9, -0.5),
        f"yes_right is 92; {NO}\nunsure is -0.5; {NO}",
    ),
    (
        "a ruler without error",
        lambda: Ruler(0.0),
        (
            "A ruler's errors are 0 and 0; at least one has to be above 0 and none below: "
            "nobody measures without error."
        ),
    ),
    (
        "a blunder without a span",
        lambda: Ruler(0.003, blunder=0.1),
        (
            "A blunder of 0.1 over a span of 0 is no chance: it lies from 0 to below 1, "
            "with a span above 0."
        ),
    ),
    (
        "a length that is none",
        lambda: measured(0.3, Ruler(0.003), np.array([0.3, np.nan])),
        "A length is not a number. Leave out hypotheses that have no such length.",
    ),
    (
        "a confusion and a class",
        lambda: confusion(np.array([[0.5, 0.4], [0.0, 1.0]]), np.array([0, 2])),
        (
            "Row 0 of the matrix sums to 0.9; the answers to one truth sum to 1.\n"
            "A class lies outside the 2 rows of the matrix: they go from 0 to 2."
        ),
    ),
    (
        "a weight below zero",
        lambda: Beliefs(np.array([0.5, -0.5])),
        "A weight is below 0 or no finite number; weights are chances.",
    ),
    (
        "a question without don't know",
        lambda: Question(np.array([[0.5, 0.9], [0.5, 0.05]]), 1.0),
        "Under hypothesis 1 the answers sum to 0.95, not to 1. Is 'don't know' missing from them?",
    ),
    (
        "a question that costs no number",
        lambda: Question(np.ones((1, 2)), np.inf),
        "minutes[0] is inf; a cost is a finite number of at least 0.",
    ),
    (
        "no questions",
        lambda: stack([]),
        "There is no question to lay beside another. Leave the step out instead.",
    ),
    (
        "questions about other things",
        lambda: stack([Question(np.ones((1, 2)), 1.0), Question(np.ones((1, 3)), 1.0)]),
        "Question 1 is about 3 hypotheses and question 0 about 2; all have to be about the same.",
    ),
    (
        "acts of other shapes",
        lambda: Acts(np.array([1.0, -2.0]), np.array([[1.5]]), np.array([0, 1]), np.zeros(1)),
        (
            "cost[1] is -2; a cost is a finite number of at least 0.\n"
            "cures is 1 x 1; it has to be 2 x any, in the order of the other tables.\n"
            f"cures[0, 0] is 1.5; {NO}\n"
            "A cluster lies outside the 1 that have an entry cost."
        ),
    ),
    (
        "a repair of other causes",
        lambda: Repair.begun(
            Beliefs(np.ones(2)), fault_sets(2, 1), np.ones(1), 2.0, acts([1.0], [[1.0]])
        ),
        (
            "links is 1; it has to be 2, in the order of the other tables.\n"
            f"leak[0] is 2; {NO}\n"
            "acts.cures is 1 x 1; it has to be 1 x 2, in the order of the other tables.\n"
            "beliefs is 2; it has to be 3, in the order of the other tables."
        ),
    ),
    (
        "cases of other shapes",
        lambda: Cases(np.ones((2, 1), np.bool_), np.ones((2, 3)), np.ones((2, 2)), ONE),
        (
            "if_not is 2 x 2; it has to be 2 x 3, in the order of the other tables.\n"
            "weight is 1; it has to be 2, in the order of the other tables."
        ),
    ),
    (
        "no half life",
        lambda: case_weights(ONE, np.zeros(1, np.intp), ONE, 0.0),
        "A half life of 0 is none; it has to be above 0.",
    ),
    (
        "a strength below zero",
        lambda: learned(
            NET,
            Cases(np.ones((1, 1), np.bool_), np.ones((1, 1)), np.zeros((1, 1)), ONE),
            strength=-1.0,
        ),
        "A strength of -1 cases is none; it has to be at least 0.",
    ),
    (
        "one outcome for two forecasts",
        lambda: log_score(np.full((2, 2), 0.5), np.zeros(1, np.intp)),
        "2 forecasts have 1 outcomes; one each is needed.",
    ),
    (
        "nothing to score",
        lambda: brier_score(np.empty((0, 2)), np.zeros(0, np.intp)),
        "There are no forecasts to score.",
    ),
    (
        "no bins",
        lambda: calibration(np.ones(2), np.ones(2, np.bool_), 0),
        (
            "2 forecasts, 2 outcomes and 0 bins do not go together: one outcome each, "
            "at least one of each, at least one bin."
        ),
    ),
]


@pytest.mark.parametrize(
    ("work", "text"), [case[1:] for case in REFUSALS], ids=[case[0] for case in REFUSALS]
)
def test_refusal(work: Callable[[], object], text: str) -> None:
    """Arrays that mean nothing would be taken, or refused without saying what mends it."""
    with pytest.raises(ChanceError) as refused:
        work()
    assert str(refused.value) == text


def test_impossible_evidence_is_its_own_error() -> None:
    """Answers that clash would look like a fault of the tables."""
    beliefs = Beliefs(np.array([1.0, 0.0]))
    with pytest.raises(ImpossibleEvidenceError) as refused:
        beliefs.given(np.array([0.0, 1.0]))
    assert str(refused.value) == (
        "No hypothesis is left with any weight: two of the answers clash, or one is wrong."
    )


def test_tables_cannot_be_written_to() -> None:
    """One case would change the table that the next case reads."""
    for table in (NET.links, Beliefs(np.ones(3)).weights, fault_sets(3)):
        with pytest.raises(ValueError, match="read-only"):
            table[0] = 0

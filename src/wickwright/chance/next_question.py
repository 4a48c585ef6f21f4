"""Which question tells most, in all or by the minute.

A *class* is what has to be known: hypotheses that lead to the same decision are of one class, and
telling them apart is worth nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from wickwright.chance.arrays import (
    Bools,
    Floats,
    Ints,
    chance_faults,
    cost_faults,
    fixed,
    refuse,
    shape_faults,
)

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from wickwright.chance.beliefs import Beliefs

__all__ = ["Question", "Questions", "best", "edges_cut", "gains", "settled", "stack"]

_SUM = 1e-9
_SAME = 1e-12


@dataclass(frozen=True, slots=True, eq=False)
class Question:
    """Something that can be asked, looked at or measured.

    Attributes
    ----------
    likelihood : array
        P(answer | hypothesis) (answers, hypotheses) [-]; columns sum to 1. 'Don't know' is an
        answer too.
    minutes : float
        What asking costs [min].
    cluster : int
        Which cost cluster has to be open to ask it, as in
        :class:`~wickwright.chance.repair.Acts` [-]; -1 for none.

    Raises
    ------
    ChanceError
        If a column does not sum to 1, or a number is no chance or no cost.
    """

    likelihood: Floats
    minutes: float
    cluster: int = -1

    def __post_init__(self) -> None:
        table = fixed(self.likelihood)
        faults = shape_faults("likelihood", table, (None, None))
        faults = faults or chance_faults("likelihood", table)
        faults += cost_faults("minutes", np.atleast_1d(np.float64(self.minutes)))
        sums = np.empty(0) if faults else table.sum(axis=0)
        wrong = np.flatnonzero(np.abs(sums - 1.0) > _SUM)
        if wrong.size:
            faults.append(
                f"Under hypothesis {wrong[0]} the answers sum to {sums[wrong[0]]:.6g}, not to 1. "
                "Is 'don't know' missing from them?"
            )
        refuse(faults)
        object.__setattr__(self, "likelihood", table)


@dataclass(frozen=True, slots=True, eq=False)
class Questions:
    """Questions laid side by side, so that all are weighed in a few products.

    Attributes
    ----------
    rows : array
        Every answer of every question (answers, hypotheses) [-].
    by_set : array
        The same, a hypothesis in one piece (hypotheses, answers) [-].
    owner : array
        Which question each row answers (answers) [-].
    starts : array
        First row of each question (questions) [-].
    minutes : array
        What each costs (questions) [min].
    clusters : array
        Which cost cluster each needs open (questions) [-].
    flat : array
        Whether an answer is as probable under every hypothesis and so tells nothing (answers) [-].
    doubt : array
        Entropy of the answer under each hypothesis (questions, hypotheses) [bit].
    """

    rows: Floats
    by_set: Floats
    owner: Ints
    starts: Ints
    minutes: Floats
    clusters: Ints
    flat: Bools
    doubt: Floats

    def __len__(self) -> int:
        """How many questions there are."""
        return len(self.minutes)


def _self_information(chances: Floats) -> Floats:
    """Return -p log2 p, 0 for p = 0."""
    return -chances * np.log2(np.where(chances > 0.0, chances, 1.0))


def stack(questions: Sequence[Question]) -> Questions:
    """Lay questions side by side; do it once, not at every step.

    Parameters
    ----------
    questions : sequence of Question
        In an order that decides between equals.

    Returns
    -------
    Questions
        The same, ready to be weighed.

    Raises
    ------
    ChanceError
        If there are none, or they are about different numbers of hypotheses.
    """
    if not questions:
        refuse(["There is no question to lay beside another. Leave the step out instead."])
    widths = [question.likelihood.shape[1] for question in questions]
    refuse(
        [
            f"Question {place} is about {width} hypotheses and question 0 about {widths[0]}; "
            "all have to be about the same."
            for place, width in enumerate(widths)
            if width != widths[0]
        ]
    )
    rows = np.concatenate([question.likelihood for question in questions])
    lengths = np.array([len(question.likelihood) for question in questions], dtype=np.intp)
    starts = np.concatenate([[0], np.cumsum(lengths)[:-1]]).astype(np.intp)
    doubt: Floats = np.add.reduceat(_self_information(rows), starts, axis=0)
    return Questions(
        rows,
        np.ascontiguousarray(rows.T),
        np.repeat(np.arange(len(questions)), lengths),
        starts,
        np.array([question.minutes for question in questions], dtype=np.float64),
        np.array([question.cluster for question in questions], dtype=np.intp),
        np.ptp(rows, axis=1) == 0.0,
        doubt,
    )


def _by_class(beliefs: Beliefs, questions: Questions, classes: Ints) -> Floats:
    """Return P(answer, class) (answers, classes)."""
    joint = questions.rows * beliefs.weights
    order = np.argsort(classes, kind="stable")
    starts = np.flatnonzero(np.diff(classes[order], prepend=-1))
    summed: Floats = np.add.reduceat(joint[:, order], starts, axis=1)
    return summed


def gains(beliefs: Beliefs, questions: Questions, classes: Ints | None = None) -> Floats:
    """Return how much each question is expected to tell.

    Parameters
    ----------
    beliefs : Beliefs
        What is believed now.
    questions : Questions
        What could be asked.
    classes : array, optional
        Class of each hypothesis (hypotheses) [-]; each its own if left out.

    Returns
    -------
    array
        Expected fall of the entropy of the class (questions) [bit], never below zero.

    Notes
    -----
    Mutual information of answer and class, ``lindley1956``: H(answer) - H(answer | hypothesis), or
    H(answer) + H(class) - H(answer, class).
    """
    alone = questions.rows @ beliefs.weights
    answer = np.add.reduceat(_self_information(alone), questions.starts)
    if classes is None:
        told = answer - questions.doubt @ beliefs.weights
    else:
        joint = _by_class(beliefs, questions, classes)
        together = np.add.reduceat(_self_information(joint).sum(axis=1), questions.starts)
        told = answer - together + _self_information(beliefs.share(classes)).sum()
    return np.maximum(told, 0.0)


def settled(beliefs: Beliefs, questions: Questions, classes: Ints, sure: float) -> Floats:
    """Return how much is expected to be left open after answers that make one class sure.

    Parameters
    ----------
    beliefs : Beliefs
        What is believed now.
    questions : Questions
        What could be asked.
    classes : array
        Class of each hypothesis (hypotheses) [-].
    sure : float
        Share of one class at which asking stops [-].

    Returns
    -------
    array
        Expected entropy that nobody asks about (questions) [bit], never below zero.

    Notes
    -----
    The sum of P(a) H(class | a) over the answers a for which max P(class | a) >= sure, with
    P(a) H(class | a) = sum over classes of -p log2 p for p = P(a, class), less the same of P(a).
    A call that goes on until nothing is open is spared what a question tells (:func:`gains`); one
    that stops at a share is spared this too. The sum of both is at most H(class), and is all of it
    where every answer settles. It ranks questions, a rule of thumb without a guarantee;
    ``assumption``. It decides nothing of when asking stops.
    """
    joint = _by_class(beliefs, questions, classes)
    alone = joint.sum(axis=1)
    left = _self_information(joint).sum(axis=1) - _self_information(alone)
    ends = joint.max(axis=1) >= sure * alone
    spared: Floats = np.add.reduceat(np.where(ends, left, 0.0), questions.starts)
    return spared


def edges_cut(beliefs: Beliefs, questions: Questions, classes: Ints) -> Floats:
    """Return how much of what has to be told apart each question is expected to tell apart.

    Parameters
    ----------
    beliefs : Beliefs
        What is believed now.
    questions : Questions
        What could be asked.
    classes : array
        Class of each hypothesis (hypotheses) [-].

    Returns
    -------
    array
        Expected weight of the pairs of hypotheses of different classes that are told apart
        (questions) [-].

    Notes
    -----
    EC2 of ``golovin2010``: a pair weighs p p'; after an answer it weighs p p' P(answer | h)
    P(answer | h'). Where hypotheses fix the answers this is their objective, and greedy choice by
    it is near the best; where answers err, they take each hypothesis with each error as one of its
    own, and this is the short form without that guarantee. An alternative to :func:`gains`, which
    is the default: it is bounded by what is left to learn and works where answers err.
    """
    joint = _by_class(beliefs, questions, classes)
    alone = joint.sum(axis=1)
    left = alone**2 - (joint**2).sum(axis=1)
    before = 1.0 - float((beliefs.share(classes) ** 2).sum())
    kept = np.add.reduceat(alone * left, questions.starts)
    return np.maximum(0.5 * (before - kept), 0.0)


def best(
    beliefs: Beliefs,
    questions: Questions,
    classes: Ints | None = None,
    *,
    per_minute: bool = True,
    among: Iterable[int] | None = None,
) -> int | None:
    """Return the question worth asking next.

    Parameters
    ----------
    beliefs : Beliefs
        What is believed now.
    questions : Questions
        What could be asked.
    classes : array, optional
        Class of each hypothesis (hypotheses) [-]; each its own if left out.
    per_minute : bool
        Whether to weigh what a question tells by what it costs.
    among : iterable of int, optional
        Questions still open; all if left out.

    Returns
    -------
    int or None
        Place of the question; the first of equals; None if none tells anything. A question that
        costs nothing comes before all that cost something.
    """
    told = gains(beliefs, questions, classes)
    open_ = np.zeros(len(questions), dtype=np.bool_)
    open_[list(range(len(questions)) if among is None else among)] = True
    open_ &= told > _SAME
    if not open_.any():
        return None
    free = open_ & (questions.minutes == 0.0)
    if per_minute and free.any():
        open_ = free
    elif per_minute:
        told = told / np.where(questions.minutes > 0.0, questions.minutes, 1.0)
    told = np.where(open_, told, -np.inf)
    return int(np.flatnonzero(told >= told.max() * (1.0 - _SAME))[0])

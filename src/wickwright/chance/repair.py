"""What to do next about a complaint: ask, act or hand over, each by its expected cost."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

import numpy as np

from wickwright.chance.plans import Start, bench, planned

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.chance.acts import Acts, Repair
    from wickwright.chance.arrays import Floats, Ints
    from wickwright.chance.next_question import Questions
    from wickwright.chance.plans import Bench, Plans

__all__ = ["Do", "Step", "Steps", "expected_cost", "steps"]

KEPT = 0.999
"""Weight of the sets that plans are weighed on [-]; the lightest beyond it are left out."""
DEFER_ACTS, DEFER_QUESTIONS = 3, 8
"""Acts that are tried before a question, and questions tried after each [-]: the cheapest few."""


class Do(Enum):
    """Kinds of step."""

    ASK = "ask"
    ACT = "act"
    HAND_OVER = "hand over"


@dataclass(frozen=True, slots=True)
class Step:
    """One thing that could be done next.

    Attributes
    ----------
    do : Do
        What kind.
    which : int
        Place among the questions or acts [-]; 0 for the hand-over.
    cost : float
        Expected cost of the whole repair if it is done next [min].
    """

    do: Do
    which: int
    cost: float


@dataclass(frozen=True, slots=True, eq=False)
class Steps:
    """What everything that could be done next would come to.

    Attributes
    ----------
    ask : array
        Expected cost of asking, then repairing by what was answered (questions) [min];
        infinite for one that is not open.
    act : array
        Expected cost of doing the act, then going on by the cheaper of repairing and asking
        (acts) [min]; infinite for one that is done.
    hand_over : float
        Cost of handing over at once [min].
    repair : float
        Expected cost of repairing with no more questions [min]: the plan below.
    plan : tuple of int
        Acts in order, before the hand-over if they all fail.
    gone : array
        Chance that each act would make the complaint go (acts) [-].
    ask_later : tuple of int
        Acts worth doing first and asking after, rather than asking at once.
    left_out : float
        Weight of the sets that were left out [-]; each cost errs by no more than this times the
        dearest plan, and the differences between them by much less.
    """

    ask: Floats
    act: Floats
    hand_over: float
    repair: float
    plan: tuple[int, ...]
    gone: Floats
    ask_later: tuple[int, ...]
    left_out: float

    def ranked(self) -> tuple[Step, ...]:
        """Return every open step, the cheapest first.

        Returns
        -------
        tuple of Step
            Equals in the order act, question, hand-over, and then in their own order.
        """
        found = [Step(Do.ACT, place, float(cost)) for place, cost in enumerate(self.act)]
        found += [Step(Do.ASK, place, float(cost)) for place, cost in enumerate(self.ask)]
        found.append(Step(Do.HAND_OVER, 0, self.hand_over))
        open_ = [step for step in found if np.isfinite(step.cost)]
        return tuple(sorted(open_, key=lambda step: round(step.cost, 9)))


def _heaviest(weights: Floats, share: float) -> Ints:
    """Return the heaviest hypotheses that hold a share of the weight, in their own order."""
    order = np.argsort(-weights, kind="stable")
    if share >= 1.0:
        return np.flatnonzero(weights > 0.0)
    many = int(np.searchsorted(np.cumsum(weights[order]), share)) + 1
    return np.sort(order[:many])


@dataclass(frozen=True, slots=True, eq=False)
class _Case:
    """A repair on the sets that are looked at."""

    repair: Repair
    acts: Acts
    bench: Bench
    kept: Ints
    weights: Floats
    hand_over: float

    def start(self, weights: Floats) -> Start:
        rows, many = len(weights), len(self.acts)
        none = np.full(rows, -1)
        done = np.broadcast_to(self.repair.done, (rows, many))
        return Start(weights, done, none, np.full(rows, self.repair.inside), none)

    def plans(self, start: Start) -> Plans:
        return planned(self.bench, start, self.hand_over)


def _case(repair: Repair, acts: Acts, hand_over: float, share: float) -> _Case:
    kept = _heaviest(repair.beliefs.weights, share)
    weights = repair.beliefs.weights[kept]
    table = bench(repair, acts, kept)
    return _Case(repair, acts, table, kept, weights / weights.sum(), hand_over)


def expected_cost(
    repair: Repair, acts: Acts, hand_over: float = np.inf, share: float = 1.0
) -> tuple[float, tuple[int, ...]]:
    """Return what a repair is expected to cost with no more questions, and its order.

    Parameters
    ----------
    repair : Repair
        The repair in hand.
    acts : Acts
        What can be done.
    hand_over : float
        Cost of handing the case over [min]; infinite where nobody takes it.
    share : float
        Weight of the sets that are looked at [-]; 1 for all.

    Returns
    -------
    float
        Expected cost [min].
    tuple of int
        Acts in order, before the hand-over if they all fail.

    Notes
    -----
    Sum of cost times P(not gone before), ``heckerman1995``; see
    :func:`~wickwright.chance.plans.planned` for the order.
    """
    case = _case(repair, acts, hand_over, share)
    plans = case.plans(case.start(case.weights[None, :]))
    return float(plans.cost[0]), _order(plans, 0)


def _order(plans: Plans, row: int) -> tuple[int, ...]:
    return tuple(int(act) for act in plans.order[row, : plans.length[row]])


def steps(
    repair: Repair,
    acts: Acts,
    questions: Questions | None,
    hand_over: float,
    *,
    among: Sequence[int] | None = None,
    share: float = KEPT,
) -> Steps:
    """Return what everything that could be done next would come to.

    Parameters
    ----------
    repair : Repair
        The repair in hand.
    acts : Acts
        What can be done.
    questions : Questions or None
        What can be asked, about the same sets; None for nothing.
    hand_over : float
        Cost of handing the case over [min]; infinite where nobody takes it.
    among : sequence of int, optional
        Questions still open; all if left out. One that was answered tells nothing new if it is
        asked again.
    share : float
        Weight of the sets that are looked at [-]; 1 for all, which takes longer.

    Returns
    -------
    Steps
        Every question, every act and the hand-over.

    Notes
    -----
    A question is worth its cost plus, over its answers, P(answer) times the expected cost of repair
    after it (ECO of ``heckerman1995``). That looks one question ahead and so asks too early: for
    the cheapest few acts the cost of doing the act first and asking only if it fails is found too,
    and is the act's own if it is less.
    """
    case = _case(repair, acts, hand_over, share)
    places = _open_questions(questions, among)
    answers = _answers(case, questions, places)
    plans = case.plans(_joined(case, answers))
    ask = _asked(case, questions, places, answers, plans.cost[1 + len(acts) :])
    act = np.where(repair.done, np.inf, plans.cost[1 : 1 + len(acts)])
    act = np.minimum(act, _deferred(case, questions, ask, act))
    later = act < ask.min(initial=np.inf)
    gone = np.where(repair.done, 0.0, repair.gone_after(acts))
    return Steps(
        ask,
        act,
        hand_over,
        float(plans.cost[0]),
        _order(plans, 0),
        gone,
        tuple(int(a) for a in np.flatnonzero(later & (ask.size > 0))),
        1.0 - float(repair.beliefs.weights[case.kept].sum()),
    )


def _open_questions(questions: Questions | None, among: Sequence[int] | None) -> Ints:
    if questions is None:
        return np.empty(0, dtype=np.intp)
    return np.arange(len(questions)) if among is None else np.array(among, dtype=np.intp)


@dataclass(frozen=True, slots=True, eq=False)
class _Answers:
    """Rows of the questions that are open: likelihood of each answer, and whose it is."""

    rows: Floats
    owner: Ints


def _answers(case: _Case, questions: Questions | None, places: Ints) -> _Answers:
    if questions is None or not places.size:
        return _Answers(np.empty((0, case.kept.size)), np.empty(0, dtype=np.intp))
    which = np.flatnonzero(np.isin(questions.owner, places))
    rows = np.take(questions.rows, case.kept, axis=1)[which]
    return _Answers(rows, questions.owner[which])


def _joined(case: _Case, answers: _Answers) -> Start:
    """Return rows for now, for each act done first, and for each answer."""
    many = len(case.acts)
    now = np.broadcast_to(case.weights, (1 + many, case.weights.size))
    start = case.start(np.concatenate([now, answers.rows * case.weights]))
    first = np.full(len(start.weights), -1)
    first[1 : 1 + many] = np.where(case.repair.done, -1, np.arange(many))
    return Start(start.weights, start.done, start.failed, start.inside, first)


def _paid(case: _Case, questions: Questions) -> Floats:
    """Return what each question costs, the opening of its cluster included."""
    entry = np.append(case.acts.entry, 0.0)[questions.clusters]
    return questions.minutes + np.where(questions.clusters == case.repair.inside, 0.0, entry)


def _asked(
    case: _Case, questions: Questions | None, places: Ints, answers: _Answers, cost: Floats
) -> Floats:
    """Return the expected cost of asking each question now."""
    if questions is None:
        return np.empty(0)
    total = np.bincount(answers.owner, weights=cost, minlength=len(questions))
    ask = np.full(len(questions), np.inf)
    ask[places] = (_paid(case, questions) + total)[places]
    return ask


def _deferred(case: _Case, questions: Questions | None, ask: Floats, act: Floats) -> Floats:
    """Return the expected cost of each act done first, a question asked only if it fails."""
    later = np.full(len(act), np.inf)
    acts = [int(a) for a in np.argsort(act, kind="stable")[:DEFER_ACTS] if np.isfinite(act[a])]
    places = np.sort(np.argsort(ask, kind="stable")[:DEFER_QUESTIONS])
    places = places[np.isfinite(ask[places])]
    if questions is None or not places.size or not acts:
        return later
    answers = _answers(case, questions, places)
    paid = _paid(case, questions)
    still = _still(case, acts)
    weights = (still[:, None, :] * (answers.rows * case.weights)[None]).reshape(
        -1, case.weights.size
    )
    start = case.start(weights)
    failed = np.repeat(np.array(acts, dtype=np.intp), len(answers.rows))
    cost = case.plans(Start(weights, start.done, failed, start.inside, start.first)).cost
    for place, a in enumerate(acts):
        mine = cost[place * len(answers.rows) : (place + 1) * len(answers.rows)]
        total = np.bincount(answers.owner, weights=mine, minlength=len(questions))
        left = float(still[place] @ case.weights)
        later[a] = _price(case, a) + (paid[places] * left + total[places]).min()
    return later


def _price(case: _Case, act: int) -> float:
    group = int(case.acts.cluster[act])
    opened = group < 0 or group == case.repair.inside
    return float(case.acts.cost[act]) + (0.0 if opened else float(case.acts.entry[group]))


def _still(case: _Case, acts: Sequence[int]) -> Floats:
    """Return P(complaint after the act | set) over the sets looked at (acts, sets)."""
    after: Floats = 1.0 - case.bench.quiet * case.bench.lifts[:, list(acts)].T
    possible = case.bench.possible
    return np.where(possible > 0.0, after / np.where(possible > 0.0, possible, 1.0), 1.0)

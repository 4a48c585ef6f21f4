"""What to do next about a complaint: ask, act or hand over, each by its expected cost."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

import numpy as np

from wickwright.chance.noisy_or import quiet
from wickwright.chance.plans import Start, bench, planned

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.chance.acts import Acts, Repair
    from wickwright.chance.arrays import Bools, Floats, Ints
    from wickwright.chance.next_question import Questions
    from wickwright.chance.plans import Bench, Plans

__all__ = ["MOST_SETS", "Do", "Step", "Steps", "costs", "expected_cost", "steps"]

MOST_SETS = 1000
"""Sets that plans are weighed on [-], the heaviest: the lightest beyond them are left out."""
DEFER_ACTS, DEFER_QUESTIONS = 3, 8
"""Acts that are tried before a question, and questions tried after each [-]: the cheapest few."""

_CLOSED = -1
_FEW = 4  # from fewer than one answer in so many, each is picked out of the table by itself


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
        (acts) [min]; infinite for one that is done. By repairing alone where nothing is deferred.
    hand_over : float
        Cost of handing over at once [min].
    repair : float
        Expected cost of repairing with no more questions [min]: the plan below.
    plan : tuple of int
        Acts in order, before the hand-over if they all fail.
    gone : array
        Chance that each act would make the complaint go (acts) [-].
    tells : array
        Whether a question tells anything about the sets on which it was weighed (questions) [-].
    ask_later : tuple of int
        Acts worth doing first and asking after, rather than asking at once.
    left_out : float
        Weight of the sets on which only the plan was weighed, not what else might be done [-].
    """

    ask: Floats
    act: Floats
    hand_over: float
    repair: float
    plan: tuple[int, ...]
    gone: Floats
    tells: Bools
    ask_later: tuple[int, ...]
    left_out: float

    def ranked(self, near: float = 0.0) -> tuple[Step, ...]:
        """Return every open step, the cheapest first; a question that tells nothing is none.

        Parameters
        ----------
        near : float
            The best question comes first where it costs less than this more than the cheapest
            step [min]: it counts on no question after it, and so is worth more than it says.

        Returns
        -------
        tuple of Step
            Equals in the order act, question, hand-over, and then in their own order.
        """
        found = [Step(Do.ACT, place, float(cost)) for place, cost in enumerate(self.act)]
        ask = np.where(self.tells, self.ask, np.inf)
        found += [Step(Do.ASK, place, float(cost)) for place, cost in enumerate(ask)]
        found.append(Step(Do.HAND_OVER, 0, self.hand_over))
        open_ = [step for step in found if np.isfinite(step.cost)]
        order = sorted(open_, key=lambda step: round(step.cost, 9))
        first = next((step for step in order if step.do is Do.ASK), order[0])
        if first.cost < order[0].cost + near:
            order.remove(first)
            order.insert(0, first)
        return tuple(order)


def _heaviest(weights: Floats, most: int | None) -> Ints:
    """Return the heaviest hypotheses, in their own order; all that weigh anything for None."""
    possible = np.flatnonzero(weights > 0.0)
    if most is None or possible.size <= most:
        return possible
    return np.sort(np.argpartition(-weights, most - 1)[:most])


def costs(
    repair: Repair,
    acts: Acts,
    order: Sequence[int],
    hand_over: float = np.inf,
    fresh: Sequence[bool] | None = None,
) -> Floats:
    """Return what a plan is expected to cost under each hypothesis.

    Parameters
    ----------
    repair : Repair
        The repair in hand.
    acts : Acts
        What can be done.
    order : sequence of int
        Acts one after the other until the complaint is gone.
    hand_over : float
        Cost of handing the case over after the last [min]; infinite where nobody takes it, and
        then a complaint that persists costs no more.
    fresh : sequence of bool, optional
        Whether there is a look before each act; before all if left out.

    Returns
    -------
    array
        Expected cost (sets) [min].

    Notes
    -----
    Sum of cost times P(not gone at the last look before), ``heckerman1995``.
    """
    looks = [True] * len(order) if fresh is None else list(fresh)
    still = _still_after(repair, acts, order)
    total: Floats = np.zeros(len(repair.sets))
    before, inside = still[0], repair.inside
    for place, act in enumerate(order):
        group = int(acts.cluster[act])
        if looks[place]:
            before = still[place]
            inside = inside if not place else -1
        entry = float(acts.entry[group]) if group not in {-1, inside} else 0.0
        total = total + (float(acts.cost[act]) + entry) * before
        inside = group
    last: Floats = still[-1]
    return total + (0.0 if np.isinf(hand_over) else hand_over) * last


def _still_after(repair: Repair, acts: Acts, order: Sequence[int]) -> Floats:
    """Return P(complaint | set, complaint now) before each act and after the last."""
    left = np.cumprod(np.vstack([repair.left, 1.0 - acts.cures[list(order)]]), axis=0)
    still = 1.0 - (1.0 - repair.leak) * quiet(repair.links * left, repair.held)
    return np.where(still[0] > 0.0, still / np.where(still[0] > 0.0, still[0], 1.0), 1.0)


@dataclass(frozen=True, slots=True, eq=False)
class _Case:
    """A repair on the sets that are looked at."""

    repair: Repair
    acts: Acts
    bench: Bench
    hand_over: float

    @property
    def weight(self) -> float:
        """Weight of all that is looked at."""
        return float(self.bench.weights.sum())

    def start(self, weights: Floats, *, failed: int | Ints = -1, first: int | Ints = -1) -> Start:
        rows = len(weights)
        return Start(
            weights,
            np.broadcast_to(self.repair.done, (rows, len(self.acts))),
            np.broadcast_to(np.asarray(failed), (rows,)),
            np.full(rows, self.repair.inside),
            np.broadcast_to(np.asarray(first), (rows,)),
        )


def _case(repair: Repair, acts: Acts, hand_over: float, most: int | None) -> _Case:
    kept = _heaviest(repair.beliefs.weights, most)
    return _Case(repair, acts, bench(repair, acts, kept), hand_over)


def expected_cost(
    repair: Repair, acts: Acts, hand_over: float = np.inf, most: int | None = None
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
    most : int, optional
        Sets that the order is chosen on, the heaviest [-]; all if left out. The cost is of all.

    Returns
    -------
    float
        Expected cost [min].
    tuple of int
        Acts in order, before the hand-over if they all fail.

    Notes
    -----
    See :func:`~wickwright.chance.plans.planned` for the order and :func:`costs` for its cost.
    """
    case = _case(repair, acts, hand_over, most)
    plans = planned(case.bench, case.start(case.bench.weights[None]), hand_over)
    each = _plan_costs(case, plans)
    return float(each @ repair.beliefs.weights), _order(plans, 0)


def _order(plans: Plans, row: int) -> tuple[int, ...]:
    return tuple(int(act) for act in plans.order[row, : plans.length[row]])


def _plan_costs(case: _Case, plans: Plans) -> Floats:
    """Return the cost of the first row's plan under every hypothesis, those left out included."""
    order = _order(plans, 0)
    fresh = [bool(look) for look in plans.fresh[0, : len(order)]]
    return costs(case.repair, case.acts, order, case.hand_over, fresh)


def steps(
    repair: Repair,
    acts: Acts,
    questions: Questions | None,
    hand_over: float,
    *,
    among: Sequence[int] | None = None,
    most: int | None = MOST_SETS,
    defer: bool = True,
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
    most : int, optional
        Sets on which every question and act is weighed, the heaviest [-]; None for all, which
        takes longer. On the others the plan in hand is taken to be followed whatever is answered.
    defer : bool
        Whether an act may count on a question after it. A question never counts on another
        question, so acts come sooner then: a shorter call, with causes less sure before the first.

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
    case = _case(repair, acts, hand_over, most)
    answers = _answers(case, questions, among, repair.inside)
    many = 1 + len(acts)
    now = np.tile(case.bench.weights, (many, 1))
    first = np.full(many + len(answers.rows), -1)
    first[1:many] = np.where(repair.done, -1, np.arange(len(acts)))
    start = case.start(np.concatenate([now, answers.rows]), first=first)
    start.inside[many:] = _inside(questions, answers, repair.inside)
    plans = planned(case.bench, start, hand_over)
    each = _plan_costs(case, plans)
    exact = float(each @ repair.beliefs.weights)
    scale = exact / float(plans.cost[0]) if plans.cost[0] > 0.0 else 1.0
    ask = scale * _asked(case, questions, answers, plans.cost[many:], float(plans.cost[0]))
    only = np.where(repair.done, np.inf, plans.cost[1:many])
    act = scale * (np.minimum(only, _deferred(case, questions, ask, only)) if defer else only)
    return Steps(
        ask,
        act,
        hand_over,
        exact,
        _order(plans, 0),
        plans.gone[0] / case.weight,
        answers.tells,
        tuple(
            int(a)
            for a in np.flatnonzero(act < ask.min(initial=-np.inf if not ask.size else np.inf))
        ),
        1.0 - case.weight,
    )


@dataclass(frozen=True, slots=True, eq=False)
class _Answers:
    """Answers that have to be planned for.

    Attributes
    ----------
    places : array
        Questions that are open [-].
    rows, owner : array
        Weight of each kind of set with each answer that tells something, and whose it is [-].
    flat : array
        Chance of an answer that tells nothing, of every question [-].
    tells : array
        Whether any answer to it tells anything, of every question [-].
    """

    places: Ints
    rows: Floats
    owner: Ints
    flat: Floats
    tells: Bools


def _answers(
    case: _Case, questions: Questions | None, among: Sequence[int] | None, inside: int
) -> _Answers:
    none = np.empty(0, dtype=np.intp)
    if questions is None:
        rows = np.empty((0, len(case.bench.weights)))
        return _Answers(none, rows, none, np.zeros(0), np.zeros(0, dtype=np.bool_))
    places = np.arange(len(questions)) if among is None else np.array(among, dtype=np.intp)
    opens = (questions.clusters >= 0) & (questions.clusters != inside)
    asked = np.zeros(len(questions), dtype=np.bool_)
    asked[places] = True
    tells = ~questions.flat | opens[questions.owner]
    which = np.flatnonzero(tells & asked[questions.owner])
    flat = np.bincount(
        questions.owner,
        weights=np.where(tells, 0.0, questions.rows[:, 0]),
        minlength=len(questions),
    ).astype(np.float64)
    few, kept = which.size * _FEW < len(questions.rows), case.bench.kept
    some = questions.rows[np.ix_(which, kept)].T if few else questions.by_set[kept][:, which]
    owner = questions.owner[which]
    unlike = np.bincount(owner, (some != some[0]).any(axis=0), len(questions)) > 0.0
    return _Answers(places, case.bench.weighed(some).T, owner, flat, unlike)


def _inside(questions: Questions | None, answers: _Answers, inside: int) -> Ints:
    """Return the cluster that is open after each answer."""
    if questions is None:
        return answers.owner
    group = questions.clusters[answers.owner]
    return np.where(group >= 0, group, inside)


def _paid(case: _Case, questions: Questions, inside: int) -> Floats:
    """Return what each question costs, the opening of its cluster included."""
    entry = np.append(case.acts.entry, 0.0)[questions.clusters]
    return questions.minutes + np.where(questions.clusters == inside, 0.0, entry)


def _asked(
    case: _Case, questions: Questions | None, answers: _Answers, cost: Floats, now: float
) -> Floats:
    """Return the expected cost of asking each question, from that of its answers and of none."""
    if questions is None:
        return np.empty(0)
    total = np.bincount(answers.owner, weights=cost, minlength=len(questions))
    ask = np.full(len(questions), np.inf)
    value = _paid(case, questions, case.repair.inside) * case.weight + total + answers.flat * now
    ask[answers.places] = value[answers.places]
    return ask


def _deferred(case: _Case, questions: Questions | None, ask: Floats, act: Floats) -> Floats:
    """Return the expected cost of each act done first, a question asked only if it fails."""
    later = np.full(len(act), np.inf)
    acts = [int(a) for a in np.argsort(act, kind="stable")[:DEFER_ACTS] if np.isfinite(act[a])]
    places = [int(q) for q in np.argsort(ask, kind="stable")[:DEFER_QUESTIONS]]
    places = sorted(q for q in places if np.isfinite(ask[q]))
    if questions is None or not places or not acts:
        return later
    answers = _answers(case, questions, places, _CLOSED)
    rows = np.vstack([case.bench.weights, answers.rows])
    failed = np.repeat(np.array(acts, dtype=np.intp), len(rows))
    start = case.start(np.tile(rows, (len(acts), 1)), failed=failed)
    inside = np.append(_CLOSED, _inside(questions, answers, _CLOSED))
    start.inside[:] = np.tile(inside, len(acts))
    cost = planned(case.bench, start, case.hand_over).cost.reshape(len(acts), len(rows))
    for a, mine in zip(acts, cost, strict=True):
        later[a] = _price(case, a) * case.weight + _then(case, questions, answers, a, mine)
    return later


def _then(case: _Case, questions: Questions, answers: _Answers, act: int, cost: Floats) -> float:
    """Return the expected cost of the best question after an act failed."""
    possible = np.where(case.bench.possible > 0.0, case.bench.possible, np.inf)
    after = 1.0 - (1.0 - case.bench.leak) * case.bench.calm * case.bench.lifts[act]
    left = float((after / possible) @ case.bench.weights)
    total = np.bincount(answers.owner, weights=cost[1:], minlength=len(questions))
    value = _paid(case, questions, _CLOSED) * left + total + answers.flat * cost[0]
    return float(value[answers.places].min())


def _price(case: _Case, act: int) -> float:
    group = int(case.acts.cluster[act])
    opened = group in {-1, case.repair.inside}
    return float(case.acts.cost[act]) + (0.0 if opened else float(case.acts.entry[group]))

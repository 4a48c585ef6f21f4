"""Orders of acts for many beliefs at once: the next act by what it cures for what it costs.

One *row* is one belief to plan for: what would be believed after one answer, or after one act
failed. All rows take their next act together, so a stage is one product of rows by sets by acts.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from wickwright.chance.acts import Acts, Repair
    from wickwright.chance.arrays import Bools, Floats, Ints

__all__ = ["Bench", "Plans", "Start", "bench", "planned"]

_LEAST_LEFT = 1e-15  # stands for a link of 1 where a table is divided by 1 - link
_NOTHING = 1e-14  # a fall of the chance that is only rounding


@dataclass(frozen=True, slots=True, eq=False)
class Bench:
    """What every row shares: the sets that are looked at, and what acts do to them.

    Attributes
    ----------
    acts : Acts
        What can be done.
    links, left : array
        Complaint's links, and what withstood the acts so far (causes) [-].
    leak : float
        Complaint's leak [-].
    held : array
        Which causes each set holds, as numbers (causes, sets) [-].
    quiet, possible : array
        P(no complaint | set) and P(complaint | set) now (sets) [-].
    lifts : array
        By how much an act alone raises the chance that a set is quiet (sets, acts) [-].
    touches : array
        Whether two acts work on one cause (acts, acts) [-].
    """

    acts: Acts
    links: Floats
    left: Floats
    leak: float
    held: Floats
    quiet: Floats
    possible: Floats
    lifts: Floats
    touches: Bools


@dataclass(frozen=True, slots=True, eq=False)
class Start:
    """Rows to plan for.

    Attributes
    ----------
    weights : array
        Weight of each set, complaint there; a row sums to the chance of its answer
        (rows, sets) [-].
    done : array
        Acts that may not be done (rows, acts) [-].
    failed : array
        Act that was done and did not help; -1 for none (rows) [-]. Its effect is in the weights.
    inside : array
        Cost cluster that is open (rows) [-].
    first : array
        Act to begin with, whatever it is worth; -1 for free choice (rows) [-].
    """

    weights: Floats
    done: Bools
    failed: Ints
    inside: Ints
    first: Ints


@dataclass(frozen=True, slots=True, eq=False)
class Plans:
    """What the rows come to.

    Attributes
    ----------
    cost : array
        Expected cost of the plan, times the weight of the row (rows) [min].
    order : array
        Acts in order, -1 beyond the last (rows, stages) [-].
    length : array
        How many of them before the hand-over (rows) [-].
    fresh : array
        Whether each act begins a bundle, so that a look comes before it (rows, stages) [-].
    """

    cost: Floats
    order: Ints
    length: Ints
    fresh: Bools


def _logs(kept: Floats) -> Floats:
    return np.log(np.maximum(kept, _LEAST_LEFT))


def bench(repair: Repair, acts: Acts, kept: Ints) -> Bench:
    """Lay out what every row shares.

    Parameters
    ----------
    repair : Repair
        The repair in hand.
    acts : Acts
        What can be done.
    kept : array
        Sets that are looked at (kept sets) [-].

    Returns
    -------
    Bench
        Tables over those sets.
    """
    held = np.ascontiguousarray(repair.sets[kept].T, dtype=np.float64)
    now = repair.links * repair.left
    change = _logs(1.0 - now * (1.0 - acts.cures)) - _logs(1.0 - now)
    quiet = (1.0 - repair.leak) * np.exp(_logs(1.0 - now) @ held)
    works = (acts.cures * now > 0.0).astype(np.float64)
    return Bench(
        acts,
        repair.links,
        repair.left,
        repair.leak,
        held,
        quiet,
        1.0 - quiet,
        np.ascontiguousarray(np.exp(change @ held).T),
        works @ works.T > 0.0,
    )


@dataclass(slots=True, eq=False)
class _Running:
    """Rows under way; ``now`` is the weight that is still not cured, ``before`` that at the look.

    ``gain`` and ``price`` are those of the bundle in hand, ``spent`` what was expected to be spent.
    """

    row: Ints
    weights: Floats
    done: Bools
    tried: Bools
    inside: Ints
    spent: Floats
    before: Floats
    now: Floats
    gain: Floats
    price: Floats

    def keep(self, which: Bools) -> _Running:
        return _Running(
            *(getattr(self, name)[which] for name in self.__slots__),
        )


def _started(b: Bench, start: Start) -> _Running:
    share = np.where(b.possible > 0.0, b.possible, 1.0)
    weights = np.where(b.possible > 0.0, start.weights / share, 0.0)
    rows, acts = start.done.shape
    total = start.weights.sum(axis=1)
    tried = np.zeros((rows, acts), dtype=np.bool_)
    failed = np.flatnonzero(start.failed >= 0)
    tried[failed, start.failed[failed]] = True
    return _Running(
        np.arange(rows),
        weights,
        start.done | tried,
        tried,
        start.inside.copy(),
        np.zeros(rows),
        total.copy(),
        total.copy(),
        np.zeros(rows),
        np.zeros(rows),
    )


def _falls(b: Bench, s: _Running) -> Floats:
    """Return by how much each act would lower the weight not cured (rows, acts)."""
    states, which = np.unique(s.tried, axis=0, return_inverse=True)
    which = which.reshape(-1)
    withstood = np.array([np.prod(1.0 - b.acts.cures[done], axis=0) for done in states])
    there = b.links * b.left * withstood
    calm = np.exp(_logs(1.0 - there) @ b.held)
    quiet = (s.weights * calm[which]) @ b.lifts
    _touched(b, s, quiet, states, which, there)
    still = s.weights.sum(axis=1)[:, None] - (1.0 - b.leak) * quiet
    falls: Floats = np.maximum(s.now[:, None] - still, 0.0)
    falls[falls <= _NOTHING * s.before[:, None]] = 0.0
    falls[s.done] = 0.0
    return falls


def _touched(
    b: Bench, s: _Running, quiet: Floats, states: Bools, which: Ints, there: Floats
) -> None:
    """Put right the acts whose causes something tried has worked on already."""
    state, act = np.nonzero((states.astype(np.float64) @ b.touches > 0.0) & ~states)
    if not state.size:
        return
    left = there[state] * (1.0 - b.acts.cures[act])
    calm = np.exp(_logs(1.0 - left) @ b.held)
    for column, (of, does) in enumerate(zip(state.tolist(), act.tolist(), strict=True)):
        rows = np.flatnonzero(which == of)
        quiet[rows, does] = s.weights[rows] @ calm[column]


def _ratio(gain: Floats, price: Floats) -> Floats:
    """Return gain over price; a gain for nothing is worth most, no gain nothing."""
    paid = np.where(price > 0.0, price, 1.0)
    worth = np.where(price > 0.0, gain / paid, np.where(gain > 0.0, np.inf, 0.0))
    return np.asarray(np.where(gain > 0.0, worth, -1.0), dtype=np.float64)


def _fresh_worth(b: Bench, s: _Running, falls: Floats) -> tuple[Floats, Floats]:
    """Return what each act is worth as the first of a bundle, and its price.

    A cluster is worth what its best bundle is (bottom-up p over c), and begins with the act that
    bundle begins with.
    """
    cluster = b.acts.cluster
    entry = np.append(b.acts.entry, 0.0)[cluster]
    opened = (s.price == 0.0)[:, None] & (s.inside[:, None] == cluster) & (cluster >= 0)
    paid = np.where(opened, 0.0, entry)
    worth = _ratio(falls, b.acts.cost + paid)
    for group in range(len(b.acts.entry)):
        members = np.flatnonzero(cluster == group)
        if members.size > 1:
            worth[:, members] = _bundled(
                falls[:, members], b.acts.cost[members], paid[:, members[:1]]
            )
    return worth, b.acts.cost + paid


def _bundled(falls: Floats, cost: Floats, entry: Floats) -> Floats:
    """Return the worth of a cluster's best bundle at its first act, nothing elsewhere."""
    alone = _ratio(falls, np.broadcast_to(cost, falls.shape))
    order = np.argsort(-alone, axis=1, kind="stable")
    gain = np.cumsum(np.take_along_axis(falls, order, axis=1), axis=1)
    price = entry + np.cumsum(cost[order], axis=1)
    worth = np.full(falls.shape, -1.0)
    rows = np.arange(len(falls))
    worth[rows, order[:, 0]] = _ratio(gain, price).max(axis=1)
    return worth


def _chosen(b: Bench, s: _Running, falls: Floats) -> tuple[Ints, Bools, Floats]:
    """Return each row's next act, whether it begins a bundle, and its price."""
    fresh, price = _fresh_worth(b, s, falls)
    act = np.argmax(fresh, axis=1)
    begins = np.ones(len(act), dtype=np.bool_)
    rows = np.arange(len(act))
    if len(b.acts.entry):
        same = (b.acts.cluster == s.inside[:, None]) & (b.acts.cluster >= 0)
        on = np.where(same & (s.price > 0.0)[:, None], _ratio(falls, b.acts.cost[None, :]), -1.0)
        further = np.argmax(on, axis=1)
        begins = ~(on[rows, further] >= _ratio(s.gain, s.price)) | (s.price == 0.0)
        begins |= on[rows, further] < 0.0
        act = np.where(begins, act, further)
    return act, begins, np.where(begins, price[rows, act], b.acts.cost[act])


def _step(b: Bench, s: _Running, first: Ints) -> tuple[Ints, Bools, Bools]:
    """Do one act in every row; return it, whether it began a bundle, and who had none to do."""
    falls = _falls(b, s)
    act, begins, price = _chosen(b, s, falls)
    rows = np.arange(len(act))
    forced = first >= 0
    if forced.any():
        _, prices = _fresh_worth(b, s, falls)
        act = np.where(forced, first, act)
        begins |= forced
        price = np.where(forced, prices[rows, act], price)
    fall = falls[rows, act]
    idle = (fall <= 0.0) & ~forced
    s.before = np.where(begins, s.now, s.before)
    s.gain = np.where(begins, fall, s.gain + fall)
    s.price = np.where(begins, price, s.price + price)
    s.spent = s.spent + np.where(idle, 0.0, price * s.before)
    s.now = s.now - np.where(idle, 0.0, fall)
    s.inside = b.acts.cluster[act]
    s.done[rows, act] = True
    s.tried[rows, act] = True
    return act, begins, idle


def planned(b: Bench, start: Start, hand_over: float) -> Plans:
    """Return the best of the plans that each row's greedy order allows.

    Parameters
    ----------
    b : Bench
        What every row shares.
    start : Start
        Rows to plan for.
    hand_over : float
        Cost of handing the case over [min]; infinite where nobody takes it, and then the order
        goes on while any act may help.

    Returns
    -------
    Plans
        The cheapest prefix of each row's order, the hand-over after it.

    Notes
    -----
    The next act is the one of greatest P(gone)/cost, P updated for all acts before it, which is
    optimal for one fault and acts that share no fault (``heckerman1995``) and within a factor of 4
    for min-sum set cover (``feige2004``). Every prefix is weighed, not only the first that looks
    enough: the cost is not unimodal in the length. A prefix is not followed further once what it
    spent is more than the best found.
    """
    rows, width = start.done.shape
    s = _started(b, start)
    best = s.now * hand_over if np.isfinite(hand_over) else np.full(rows, np.inf)
    best = np.where(start.first >= 0, np.inf, best)
    order, fresh = np.full((rows, width), -1), np.zeros((rows, width), dtype=np.bool_)
    length = np.zeros(rows, dtype=np.intp)
    first = start.first
    for stage in range(width):
        act, begins, idle = _step(b, s, first)
        order[s.row, stage] = np.where(idle, -1, act)
        fresh[s.row, stage] = begins
        total = s.spent + (s.now * hand_over if np.isfinite(hand_over) else 0.0)
        better = ~idle & ((total < best[s.row]) if np.isfinite(hand_over) else True)
        best[s.row[better]] = total[better]
        length[s.row[better]] = stage + 1
        on = ~idle & (s.spent < best[s.row]) if np.isfinite(hand_over) else ~idle
        s = s.keep(on)
        first = np.full(len(s.row), -1)
        if not s.row.size:
            break
    best = np.where(np.isinf(best), 0.0, best)
    return Plans(best, order, length, fresh)

"""Orders of acts for many beliefs at once: the next act by what it cures for what it costs.

One *row* is one belief to plan for: what would be believed after one answer, or after one act
failed. All rows take their next act together, so a stage is one product of rows by sets by acts.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from wickwright.chance.acts import Acts, Repair
    from wickwright.chance.arrays import Bools, Floats, Ints

__all__ = ["Bench", "Plans", "Start", "bench", "planned"]

_LEAST_LEFT = 1e-15  # stands for a link of 1 where a table is divided by 1 - link
_WORD = 50  # bits that a double holds exactly, with some to spare
_NOTHING = 1e-13  # a fall of the chance that is only rounding


@dataclass(frozen=True, slots=True, eq=False)
class Bench:
    """What every row shares: the sets that are looked at, and what acts do to them.

    Attributes
    ----------
    acts : Acts
        What can be done.
    weights : array
        Weight of each set (sets) [-].
    there : array
        Complaint's links after the acts so far (causes) [-].
    leak : float
        Complaint's leak [-].
    held : array
        Which causes each set holds, as numbers (causes, sets) [-].
    calm : array
        Chance that no cause makes the complaint, the leak left aside (sets) [-].
    possible : array
        P(complaint | set) now (sets) [-].
    lifts : array
        By what factor an act alone raises ``calm`` (acts, sets) [-].
    bits : array
        Of an act that was tried, its bit beside each act that works on a cause it works on, in
        words of few enough bits to be exact; 0 beside the others (acts, words, acts) [-].
    """

    acts: Acts
    weights: Floats
    there: Floats
    leak: float
    held: Floats
    calm: Floats
    possible: Floats
    lifts: Floats
    bits: Floats


@dataclass(frozen=True, slots=True, eq=False)
class Start:
    """Rows to plan for.

    Attributes
    ----------
    answers : array
        Chance of the row's answer under each set (rows, sets) [-].
    done : array
        Acts that may not be done (rows, acts) [-].
    failed : array
        Act that was done since and did not help, not in the bench's weights; -1 for none (rows)
        [-].
    inside : array
        Cost cluster that is open (rows) [-].
    first : array
        Act to begin with, whatever it is worth; -1 for free choice (rows) [-].
    """

    answers: Floats
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
    fresh : array
        Whether each act begins a bundle, so that a look comes before it (rows, stages) [-].
    length : array
        How many of them before the hand-over (rows) [-].
    gone : array
        By how much each act would lower the weight of the row at once (rows, acts) [-].
    """

    cost: Floats
    order: Ints
    fresh: Bools
    length: Ints
    gone: Floats


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
    held = np.ascontiguousarray(repair.held[kept].T)
    there = repair.links * repair.left
    change = _logs(1.0 - there * (1.0 - acts.cures)) - _logs(1.0 - there)
    calm = np.exp(_logs(1.0 - there) @ held)
    possible = 1.0 - (1.0 - repair.leak) * calm
    works = (acts.cures * there > 0.0).astype(np.float64)
    bits = _bits(works @ works.T > 0.0)
    lifts = np.exp(change @ held)
    weights = repair.beliefs.weights[kept]
    return Bench(acts, weights, there, repair.leak, held, calm, possible, lifts, bits)


def _bits(touches: Bools) -> Floats:
    """Return the bits whose sums over tried acts tell which of them touch each act."""
    rank = np.cumsum(touches, axis=1) - 1
    words = int(rank.max(initial=0)) // _WORD + 1
    bits = np.where(touches, 2.0 ** (rank % _WORD), 0.0)
    split = bits[None] * (rank // _WORD == np.arange(words)[:, None, None])
    return np.ascontiguousarray(split.transpose(2, 0, 1))


@dataclass(slots=True, eq=False)
class _Running:
    """Rows under way.

    ``total`` less (1 - leak) times the sum of ``calm`` is the weight not cured, ``now``; it was
    ``before`` at the last look. ``gain`` and ``price`` are those of the bundle in hand, ``spent``
    is what was expected to be spent. ``codes`` are the sums of bits of the acts tried, ``where``
    the lift that each act has after them; the act of ``last`` is not in these two yet.
    """

    row: Ints
    first: Ints
    total: Floats
    calm: Floats
    tried: Bools
    done: Bools
    inside: Ints
    spent: Floats
    before: Floats
    now: Floats
    gain: Floats
    price: Floats
    codes: Floats
    where: Ints
    last: Ints

    def keep(self, which: Bools) -> _Running:
        if which.all():
            return self
        return _Running(*(getattr(self, field.name)[which] for field in fields(self)))


def _started(b: Bench, start: Start) -> _Running:
    share = b.weights / np.where(b.possible > 0.0, b.possible, np.inf)
    rows = np.arange(len(start.answers))
    tried = (start.failed[:, None] == np.arange(len(b.acts))) & (start.failed >= 0)[:, None]
    calm = start.answers * (share * b.calm)
    failed = np.flatnonzero(start.failed >= 0)
    calm[failed] *= b.lifts[start.failed[failed]]
    total = start.answers @ share
    now = total - (1.0 - b.leak) * calm.sum(axis=1)
    none = np.zeros(len(rows))
    done = start.done | tried
    many = len(b.acts)
    codes = np.zeros((len(rows), *b.bits.shape[1:]))
    where = np.tile(np.arange(many), (len(rows), 1))
    before = (rows, start.first, total, calm, tried, done, start.inside)
    return _Running(*before, none, now, now, none, none, codes, where, start.failed)


@dataclass(slots=True)
class _Lifts:
    """Lifts known by now: of each act alone, then of acts after others, by act and others' bits."""

    table: Floats
    later: dict[tuple[float, ...], int]


def _update(b: Bench, s: _Running, known: _Lifts) -> None:
    """Bring up to date which of the lifts each act has in each row, adding those not known.

    An act that shares a cause with one that was tried lifts less than it would alone.
    """
    rows = np.flatnonzero(s.last >= 0)
    if not rows.size:
        return
    bits = b.bits[s.last[rows]]
    s.codes[rows] += bits
    row, act = np.nonzero(bits.any(axis=1) & ~s.done[rows])
    row = rows[row]
    keys = [(a, *code) for a, code in zip(act.tolist(), s.codes[row, :, act].tolist(), strict=True)]
    new: list[int] = []
    for place, key in enumerate(keys):
        if key not in known.later:
            known.later[key] = len(known.table) + len(new)
            new.append(place)
    if new:
        known.table = np.concatenate([known.table, _lifts_after(b, act[new], s.tried[row[new]])])
    s.where[row, act] = [known.later[key] for key in keys]


def _lifts_after(b: Bench, act: Ints, tried: Bools) -> Floats:
    """Return the lifts of acts after others were tried (pairs, sets)."""
    withstood = np.prod(1.0 - tried[:, :, None] * b.acts.cures, axis=1)
    mine = b.acts.cures[act]
    there = np.where(mine > 0.0, b.there * withstood, 0.0)
    lifts: Floats = np.exp((_logs(1.0 - there * (1.0 - mine)) - _logs(1.0 - there)) @ b.held)
    return lifts


def _picked(values: Floats, columns: Ints) -> Floats:
    """Return the values that stand in these columns of each row (rows, columns)."""
    rows = np.arange(len(values))[:, None] * values.shape[1]
    found: Floats = values.ravel().take(rows + columns)
    return found


def _falls(b: Bench, s: _Running, known: _Lifts) -> Floats:
    """Return by how much each act would lower the weight not cured (rows, acts)."""
    calm = s.calm @ known.table.T
    calm = _picked(calm, s.where) if known.later else calm
    still = s.total[:, None] - (1.0 - b.leak) * calm
    falls: Floats = s.now[:, None] - still
    falls[(falls <= _NOTHING * s.total[:, None]) | s.done] = 0.0
    return falls


def _ratio(gain: Floats, price: Floats) -> Floats:
    """Return gain over price; a gain for nothing is worth most, no gain nothing."""
    costs = price > 0.0
    worth = gain / np.where(costs, price, 1.0)
    if not costs.all():
        worth = np.where(costs, worth, np.inf)
    return np.asarray(np.where(gain > 0.0, worth, -1.0), dtype=np.float64)


def _prices(b: Bench, s: _Running) -> Floats:
    """Return what each act costs as the first of a bundle (rows, acts) [min]."""
    cluster = b.acts.cluster
    if not b.acts.entry.size:
        return np.broadcast_to(b.acts.cost, s.done.shape)
    entry = np.append(b.acts.entry, 0.0)[cluster]
    opened = (s.price == 0.0)[:, None] & (s.inside[:, None] == cluster)
    return b.acts.cost + np.where(opened, 0.0, entry)


def _worth(b: Bench, falls: Floats, alone: Floats, prices: Floats) -> Floats:
    """Return what each act is worth as the first of a bundle (rows, acts).

    A cluster is worth what its best bundle is (bottom-up p over c), and begins with the act that
    bundle begins with.
    """
    worth = _ratio(falls, prices)
    for group in range(len(b.acts.entry)):
        members = np.flatnonzero(b.acts.cluster == group)
        if members.size > 1:
            entry = prices[:, members[:1]] - b.acts.cost[members[0]]
            worth[:, members] = _bundled(
                falls[:, members], alone[:, members], b.acts.cost[members], entry
            )
    return worth


def _bundled(falls: Floats, alone: Floats, cost: Floats, entry: Floats) -> Floats:
    """Return the worth of a cluster's best bundle at its first act, nothing elsewhere."""
    order = np.argsort(-alone, axis=1, kind="stable")
    gain = np.cumsum(_picked(falls, order), axis=1)
    price = entry + np.cumsum(cost[order], axis=1)
    worth = np.full(falls.shape, -1.0)
    worth[np.arange(len(falls)), order[:, 0]] = _ratio(gain, price).max(axis=1)
    return worth


@dataclass(frozen=True, slots=True, eq=False)
class _Choice:
    """Each row's next act, whether it begins a bundle, its price, and gain for cost."""

    act: Ints
    begins: Bools
    price: Floats
    worth: Floats

    def keep(self, which: Bools) -> _Choice:
        return _Choice(self.act[which], self.begins[which], self.price[which], self.worth[which])


def _chosen(b: Bench, s: _Running, falls: Floats, alone: Floats) -> _Choice:
    rows, prices = np.arange(len(s.row)), _prices(b, s)
    worth = _worth(b, falls, alone, prices)
    act = np.where(s.first >= 0, s.first, np.argmax(worth, axis=1))
    worth[rows, act] = np.where(s.first >= 0, np.inf, worth[rows, act])
    fresh = _Choice(act, np.ones(len(rows), np.bool_), prices[rows, act], worth[rows, act])
    if not b.acts.entry.size:
        return fresh
    same = (b.acts.cluster == s.inside[:, None]) & (b.acts.cluster >= 0) & (falls > 0.0)
    on = np.where(same, alone, -1.0)
    further = np.argmax(on, axis=1)
    begins = (on[rows, further] < _ratio(s.gain, s.price)) | (s.price == 0.0) | ~same.any(axis=1)
    begins |= s.first >= 0
    return _Choice(
        np.where(begins, act, further),
        begins,
        np.where(begins, fresh.price, b.acts.cost[further]),
        np.where(begins, fresh.worth, on[rows, further]),
    )


def _apply(b: Bench, s: _Running, c: _Choice, fall: Floats, lifts: Floats) -> None:
    """Do the chosen act in every row."""
    rows = np.arange(len(s.row))
    s.calm *= lifts
    s.before = np.where(c.begins, s.now, s.before)
    s.gain = np.where(c.begins, fall, s.gain + fall)
    s.price = np.where(c.begins, c.price, s.price + c.price)
    s.spent = s.spent + c.price * s.before
    s.now = s.now - fall
    s.inside = b.acts.cluster[c.act]
    s.done[rows, c.act] = True
    s.tried[rows, c.act] = True
    s.last = c.act
    s.first = np.full(len(rows), -1)


def _hopeful(
    b: Bench,
    s: _Running,
    c: _Choice,
    falls: Floats,
    alone: Floats,
    best: Floats,
    hand_over: float,
) -> Bools:
    """Tell which rows may still find a cheaper plan further on.

    No act will lower the chance by more than it would now, unless two faults hide each other; so
    the plan these falls would allow, each cluster open already, costs no more than any to come.
    """
    order = np.argsort(-alone, axis=1)
    fall = _picked(falls, order)
    after = s.now[:, None] - np.cumsum(fall, axis=1)
    spent = np.cumsum(b.acts.cost[order] * (after + fall), axis=1)
    closed = 0.0 if np.isinf(hand_over) else hand_over
    least = s.spent + (spent + closed * np.maximum(after, 0.0)).min(axis=1)
    on: Bools = (c.worth > 0.0) & ((least < best) | np.isinf(hand_over))
    return on | (s.first >= 0)


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
    for min-sum set cover (``feige2004``). Every prefix that may be the cheapest is weighed, not
    only the first that looks enough: the cost is not unimodal in the length. Acts of one cluster
    are bundled before one look while that raises gain for cost (bottom-up p over c,
    ``ottosen2012``).
    """
    rows, width = start.done.shape
    nobody = np.isinf(hand_over)
    closed = 0.0 if nobody else hand_over
    s = _started(b, start)
    best = np.where(start.first >= 0, np.inf, np.inf if nobody else s.now * hand_over)
    best[s.now <= 0.0] = 0.0
    order, fresh = np.full((rows, width), -1), np.zeros((rows, width), dtype=np.bool_)
    length, gone = np.zeros(rows, dtype=np.intp), np.zeros((rows, width))
    known = _Lifts(b.lifts, {})
    for stage in range(width):
        if not s.row.size:
            break
        _update(b, s, known)
        falls = _falls(b, s, known)
        alone = _ratio(falls, b.acts.cost)
        if not stage:
            gone = falls
        choice = _chosen(b, s, falls, alone)
        each = np.arange(len(s.row))
        fall, column = falls[each, choice.act], s.where[each, choice.act]
        on = _hopeful(b, s, choice, falls, alone, best[s.row], hand_over)
        s, choice, fall, column = s.keep(on), choice.keep(on), fall[on], column[on]
        _apply(b, s, choice, fall, known.table[column])
        order[s.row, stage], fresh[s.row, stage] = choice.act, choice.begins
        total = s.spent + s.now * closed
        better = (total < best[s.row]) | nobody
        best[s.row[better]] = total[better]
        length[s.row[better]] = stage + 1
    return Plans(np.where(np.isinf(best), 0.0, best), order, fresh, length, gone)

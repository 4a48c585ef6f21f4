"""Orders of acts for many beliefs at once: the next act by what it cures for what it costs.

One *row* is one belief to plan for: what would be believed after one answer, or after one act
failed. All rows take their next act together, so a stage is one product of rows by sets by acts.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.chance.acts import Acts, Repair
    from wickwright.chance.arrays import Bools, Floats, Ints

__all__ = ["Bench", "Plans", "Start", "bench", "planned"]

_LEAST_LEFT = 1e-15  # stands for a link of 1 where a table is divided by 1 - link
_WORD = 40  # bits that a double holds exactly, with the number of an act beside them
_NOTHING = 1e-13  # a fall of the chance that is only rounding


@dataclass(frozen=True, slots=True, eq=False)
class Bench:
    """What every row shares: the sets that are looked at, and what acts do to them.

    Sets that differ only in causes which do not make the complaint are of one *kind*: acts do the
    same to all of them, so a kind is planned for as one.

    Attributes
    ----------
    acts : Acts
        What can be done.
    kept : array
        Sets that are looked at, those of a kind together (kept sets) [-].
    starts : array
        Where each kind begins among them (kinds) [-].
    share : array
        Weight of each set that is looked at (kept sets) [-].
    weights : array
        Weight of each kind (kinds) [-].
    there : array
        Complaint's links after the acts so far (causes) [-].
    leak : float
        Complaint's leak [-].
    held : array
        Which of the causes that make the complaint each kind holds, as numbers (causes, kinds) [-].
    calm : array
        Chance that no cause makes the complaint, the leak left aside (kinds) [-].
    possible : array
        P(complaint | set) now (kinds) [-].
    lifts : array
        By what factor an act alone raises ``calm`` (acts, kinds) [-].
    touches : array
        Whether two acts work on one cause (acts, acts) [-].
    bits : array
        Of an act that was tried, its bit beside each act that it touches, in words of few enough
        bits to be exact; 0 beside the others (acts, words, acts) [-].
    """

    acts: Acts
    kept: Ints
    starts: Ints
    share: Floats
    weights: Floats
    there: Floats
    leak: float
    held: Floats
    calm: Floats
    possible: Floats
    lifts: Floats
    touches: Bools
    bits: Floats

    @property
    def groups(self) -> range:
        """Cost clusters."""
        return range(len(self.acts.entry))

    def weighed(self, by_set: Floats) -> Floats:
        """Return the weight of every kind under every answer.

        Parameters
        ----------
        by_set : array
            Chance of each answer under each set that is looked at (kept sets, answers) [-].

        Returns
        -------
        array
            Weights (kinds, answers) [-].
        """
        found: Floats = np.add.reduceat(by_set * self.share[:, None], self.starts, axis=0)
        return found


@dataclass(frozen=True, slots=True, eq=False)
class Start:
    """Rows to plan for.

    Attributes
    ----------
    weights : array
        Weight of each kind of set together with the row's answer (rows, kinds) [-].
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
    there = repair.links * repair.left
    makes = there > 0.0
    first, kind = _alike(repair.sets[kept][:, makes])
    order = np.argsort(kind, kind="stable")
    starts = np.flatnonzero(np.diff(kind[order], prepend=-1))
    share = repair.beliefs.weights[kept[order]]
    held = np.where(makes[:, None], repair.held[kept[first]].T, 0.0)
    change = _logs(1.0 - there * (1.0 - acts.cures)) - _logs(1.0 - there)
    calm = np.exp(_logs(1.0 - there) @ held)
    possible = 1.0 - (1.0 - repair.leak) * calm
    works = (acts.cures * there > 0.0).astype(np.float64)
    touches = works @ works.T > 0.0
    return Bench(
        acts,
        kept[order],
        starts,
        share,
        np.add.reduceat(share, starts),
        there,
        repair.leak,
        held,
        calm,
        possible,
        np.exp(change @ held),
        touches,
        _bits(touches),
    )


def _alike(held: Bools) -> tuple[Ints, Ints]:
    """Return the first set of each kind, and of which kind each set is."""
    bits = 2.0 ** (np.arange(held.shape[1]) % _WORD)
    words = [held[:, at : at + _WORD] @ bits[at : at + _WORD] for at in range(0, len(bits), _WORD)]
    return _unlike(words or [np.zeros(len(held))])


def _unlike(columns: Sequence[Floats]) -> tuple[Ints, Ints]:
    """Return the first row of each kind, rows of a kind alike in every column, and each row's."""
    _, first, kind = np.unique(columns[0], return_index=True, return_inverse=True)
    for column in columns[1:]:
        each, among = np.unique(column, return_inverse=True)
        both = kind * len(each) + among
        _, first, kind = np.unique(both, return_index=True, return_inverse=True)
    return first, kind


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
    sure = np.where(b.possible > 0.0, b.possible, np.inf)
    rows = np.arange(len(start.weights))
    tried = (start.failed[:, None] == np.arange(len(b.acts))) & (start.failed >= 0)[:, None]
    calm = start.weights * (b.calm / sure)
    failed = np.flatnonzero(start.failed >= 0)
    calm[failed] *= b.lifts[start.failed[failed]]
    total = start.weights @ (1.0 / sure)
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
    s.codes[rows] += b.bits[s.last[rows]]
    row, act = np.nonzero(b.touches[s.last[rows]] & ~s.done[rows])
    row = rows[row]
    code = s.codes[row, :, act]
    once, which = _unlike([code[:, 0] * len(b.acts) + act, *code.T[1:]])
    keys = [(a, *c) for a, c in zip(act[once].tolist(), code[once].tolist(), strict=True)]
    new = [place for key, place in zip(keys, once, strict=True) if key not in known.later]
    if new:
        known.table = np.concatenate([known.table, _lifts_after(b, act[new], s.tried[row[new]])])
    for key in keys:
        known.later.setdefault(key, len(b.acts) + len(known.later))
    s.where[row, act] = np.array([known.later[key] for key in keys], dtype=np.intp)[which]


def _lifts_after(b: Bench, act: Ints, tried: Bools) -> Floats:
    """Return the lifts of acts after others were tried (pairs, kinds)."""
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


def _entries(b: Bench, s: _Running) -> Floats:
    """Return what opening each cluster costs before a bundle; 0, the last, for none (rows, any)."""
    opened = (s.price == 0.0)[:, None] & (s.inside[:, None] == np.array(b.groups))
    entries = np.zeros((len(s.row), len(b.groups) + 1))
    entries[:, :-1] = np.where(opened, 0.0, b.acts.entry)
    return entries


def _worth(b: Bench, falls: Floats, alone: Floats, order: Ints, entries: Floats) -> Floats:
    """Return what each act is worth as the first of a bundle (rows, acts).

    A cluster is worth what its best bundle is (bottom-up p over c), and begins with the act that
    bundle begins with. ``order`` has the acts of each row by what they are worth ``alone``.
    """
    worth = np.where(b.acts.cluster < 0, alone, -1.0)
    cluster = b.acts.cluster[order]
    for group in b.groups:
        mine = order[cluster == group].reshape(len(order), -1)
        if mine.shape[1]:
            bundle = _bundled(falls, mine, b.acts.cost, entries[:, group])
            worth[np.arange(len(order)), mine[:, 0]] = bundle
    return worth


def _bundled(falls: Floats, order: Ints, cost: Floats, entry: Floats) -> Floats:
    """Return the worth of a cluster's best bundle, its acts in order (rows)."""
    gain = np.cumsum(_picked(falls, order), axis=1)
    price = entry[:, None] + np.cumsum(cost[order], axis=1)
    best: Floats = _ratio(gain, price).max(axis=1)
    return best


@dataclass(frozen=True, slots=True, eq=False)
class _Choice:
    """Each row's next act, whether it begins a bundle, its price, and gain for cost."""

    act: Ints
    begins: Bools
    price: Floats
    worth: Floats

    def keep(self, which: Bools) -> _Choice:
        return _Choice(self.act[which], self.begins[which], self.price[which], self.worth[which])


def _chosen(b: Bench, s: _Running, falls: Floats, alone: Floats, order: Ints) -> _Choice:
    rows, entries = np.arange(len(s.row)), _entries(b, s)
    worth = _worth(b, falls, alone, order, entries)
    act = np.where(s.first >= 0, s.first, np.argmax(worth, axis=1))
    best = np.where(s.first >= 0, np.inf, worth[rows, act])
    price = b.acts.cost[act] + entries[rows, b.acts.cluster[act]]
    fresh = _Choice(act, np.ones(len(rows), np.bool_), price, best)
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
    order: Ints,
    best: Floats,
    hand_over: float,
) -> Bools:
    """Tell which rows may still find a cheaper plan further on.

    No act will lower the chance by more than it would now, unless two faults hide each other; so
    the plan these falls would allow, no cluster opened but that of the next act, costs no more
    than any to come.
    """
    fall = _picked(falls, order)
    after = s.now[:, None] - np.cumsum(fall, axis=1)
    spent = np.cumsum(b.acts.cost[order] * (after + fall), axis=1)
    closed = 0.0 if np.isinf(hand_over) else hand_over
    opening = np.where(c.begins, c.price - b.acts.cost[c.act], 0.0) * s.now
    least = s.spent + opening + (spent + closed * np.maximum(after, 0.0)).min(axis=1)
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
        by_worth = np.argsort(-alone, axis=1, kind="stable")
        choice = _chosen(b, s, falls, alone, by_worth)
        each = np.arange(len(s.row))
        fall, column = falls[each, choice.act], s.where[each, choice.act]
        on = _hopeful(b, s, choice, falls, by_worth, best[s.row], hand_over)
        s, choice, fall, column = s.keep(on), choice.keep(on), fall[on], column[on]
        _apply(b, s, choice, fall, known.table[column])
        order[s.row, stage], fresh[s.row, stage] = choice.act, choice.begins
        total = s.spent + s.now * closed
        better = (total < best[s.row]) | nobody
        best[s.row[better]] = total[better]
        length[s.row[better]] = stage + 1
    return Plans(np.where(np.isinf(best), 0.0, best), order, fresh, length, gone)

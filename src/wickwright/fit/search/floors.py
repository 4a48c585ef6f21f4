"""What a choice must cost at least: a relaxed search over the whole tree in array sweeps.

Left out are that a kind stands only once, that demands differ from way to way, and which
price goes with which count: for each number of dying candidates the least price and the least
count are kept. So nothing real is below these floors, and they are found for all classes at
once.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from wickwright.fit.search.effort import LAYOUT
from wickwright.fit.search.labels import nondominated
from wickwright.fit.search.query import PACKING, Aim, How
from wickwright.fit.search.skeleton import FREE, NOTHING_CAME, Had

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.fit.search.caps import Cap
    from wickwright.fit.search.finder import Finder
    from wickwright.fit.search.memory import Kits
    from wickwright.fit.search.skeleton import Bools, Came, Ints, Layer
    from wickwright.fit.search.tree import Row

__all__ = ["NEVER", "Floors"]

DYING = 3
"""Numbers of dying candidates told apart: 0, 1, 2, and any."""

NEVER = 1 << 40
"""Dearer than anything: there is no filling."""

_BONUS = PACKING.shifts[Aim.SHORTFALL]

_AT_ONCE = 12
"""Comparisons of whole arrays that take as long as a step."""

_SPLITS = [(mine, dying - mine) for dying in range(DYING) for mine in range(dying + 1)]
_MINE = np.array([mine for mine, _ in _SPLITS] + [DYING])
_YOURS = np.array([yours for _, yours in _SPLITS] + [DYING])
_TOGETHER = np.array([dying * (dying + 1) // 2 for dying in range(DYING + 1)])
_START = np.zeros(1, dtype=np.int64)
_NOTHING = np.zeros((2, DYING + 1, 1), dtype=np.int64)
"""How a number of dying candidates is split between two tables, and where each number starts."""

Labels = tuple[int, ...]
"""Packed costs of which none is nowhere worse than another."""


class _Sweep(NamedTuple):
    """Floors of one set of wanted kinds; arrays of shape (2, DYING + 1, ...), price and count."""

    places: Ints
    footings: Ints


class Floors:
    """Floors for one query.

    Parameters
    ----------
    finder : Finder
        The query being answered.
    """

    def __init__(self, finder: Finder) -> None:
        self.finder, self.tree, self.query = finder, finder.tree, finder.query
        self.skeleton = finder.memory.skeleton(finder.admitting, finder.query.root)
        self.wanted = self.query.required & ~self.tree.climbing
        self.star = self._star()
        self.plain = self.wanted & ~self.tree.doubled
        self.root = self.skeleton.place[finder.alike(finder.query.root), NOTHING_CAME]
        finder.spend(LAYOUT * len(self.skeleton.candidate))
        self._price_rows()
        self._reached()
        self.sweeps = self._sweeps()
        self._low: dict[int, Labels] = {}
        self._known: dict[tuple[int, bool], Labels] = {}

    def _star(self) -> int:
        """One wanted kind that could stand in several branches, best one that carries nothing."""
        wanted = self.wanted & self.tree.doubled
        leaves = [k for k in range(wanted.bit_length()) if wanted >> k & 1]
        leaves.sort(key=lambda kind: self.tree.beneath.get(kind, 0).bit_count())
        return 1 << leaves[0] if leaves else 0

    # -- what each row costs by itself -------------------------------------------------

    def _price_rows(self) -> None:
        finder, bones = self.finder, self.skeleton
        usable: Bools = np.frombuffer(self.query.usable, dtype=np.uint8).astype(np.bool_)
        shop = np.frombuffer(self.query.buyable, dtype=np.uint8).astype(np.bool_)
        hand = np.zeros(len(usable), dtype=np.bool_)
        hand[list(self.query.owned)] = True
        hand = hand & usable
        number, had = bones.candidate, bones.had
        shop, hand = shop[number], hand[number]
        came = (had == Had.CAME) & usable[number]
        kept = hand & ((had == Had.ANYHOW) | (had == Had.KEPT)) | came
        prices, dying = finder.memory.plain_costs
        self.sold: Bools = shop & ((had == Had.ANYHOW) | (had == Had.BOUGHT))
        self.there: Bools = kept | self.sold
        paid = ~kept
        counts = int(Aim.BOUGHT in self.query.aims)
        self.costs: Ints = np.stack((prices[number] * paid, counts * paid))
        self.dying: Bools = dying[number] & (Aim.DYING in self.query.aims)
        self.bears: Bools = self._bearing()[number]

    def _bearing(self) -> Bools:
        """Whether each candidate bears the mildest demands that could be made on it."""
        bones, finder = self.skeleton, self.finder
        there = np.zeros(bones.demands.shape[1], dtype=np.bool_)
        there[bones.candidate[self.there]] = True
        demanding = there & finder.memory.demanding
        if not demanding.any():
            return np.ones(len(demanding), dtype=np.bool_)
        mildest = bones.demands[:, demanding].min(axis=1)
        asked = [finder.keys.rounded(entry, int(least)) for entry, least in enumerate(mildest)]
        enough: Bools = bones.gives >= np.array(asked, dtype=np.int64)[:, None]
        bears: Bools = np.logical_and.reduce(enough, axis=0)
        return bears

    # -- what the query can reach ----------------------------------------------------------

    def _reached(self) -> None:
        """Follow the tree down from the root; keep the edges met, layer by layer."""
        bones = self.skeleton
        worth = bones.required | (bones.reach & self.finder.wanted != 0)
        alive = np.zeros(len(worth), dtype=np.bool_)
        alive[self.root] = True
        met = np.zeros(len(bones.columns), dtype=np.bool_)
        edges: list[tuple[Ints, Ints]] = []
        for layer in reversed(bones.layers):
            alive[layer.alone[alive[layer.over]]] = True
            rows, places = layer.rows, layer.places
            keep = alive[places] & self.there[rows]
            keep &= self.bears[rows] | ~bones.asked[places]
            rows, places = rows[keep], places[keep]
            edges.append((rows, places))
            fresh = np.zeros_like(met)
            fresh[bones.footing[rows]] = True
            fresh &= ~met
            met |= fresh
            below = bones.columns[fresh]
            alive[below] = worth[below]
        self.alive, self.met, self.edges = alive, met, edges[::-1]

    # -- the sweeps --------------------------------------------------------------------------

    def _sweeps(self) -> tuple[_Sweep, ...]:
        """Floors without the starred kind, and with it where it is wanted."""
        without = self._sweep(self.plain, None)
        if not self.star:
            return (without,)
        return without, self._sweep(self.plain | self.star, without)

    def _sweep(self, wanted: int, other: _Sweep | None) -> _Sweep:
        bones = self.skeleton
        shape = (2, DYING + 1)
        places = np.zeros((*shape, len(bones.required)), dtype=np.int64)
        must = self.alive & (bones.required | (bones.reach & wanted != 0))
        places[:, :, must] = NEVER
        footings = np.zeros((*shape, len(bones.columns)), dtype=np.int64)
        sweep = _Sweep(places, footings)
        for layer, (rows, at) in zip(bones.layers, self.edges, strict=True):
            self._load(layer, sweep, other, must)
            self._fill(rows, at, sweep, wanted, must)
            used = must[layer.over]
            if used.any():
                over, alone = layer.over[used], layer.alone[used]
                places[:, :, over] = np.minimum(places[:, :, over], places[:, :, alone])
        return sweep

    def _load(self, layer: Layer, sweep: _Sweep, other: _Sweep | None, must: Bools) -> None:
        """Add up what stands in the places of each footing."""
        met = self.met[layer.footings]
        if not met.any():
            return
        footings, columns = layer.footings[met], layer.columns[met]
        filled = must[columns]
        if other is None:
            total = _added_up(sweep.places, columns, filled)
        else:
            starred = filled & (self.skeleton.reach[columns] & self.star != 0)
            total = _one_starred(sweep.places, other.places, columns, filled, starred)
        sweep.footings[:, :, footings] = total

    def _fill(self, rows: Ints, at: Ints, sweep: _Sweep, wanted: int, must: Bools) -> None:
        """Find the least in each place over all that can stand there."""
        keep = must[at]
        rows, at = rows[keep], at[keep]
        if not len(rows):
            return
        tables = self._tables(rows, at, sweep, wanted)
        changes = at[1:] != at[:-1]
        starts = np.concatenate((_START, np.flatnonzero(changes) + 1))
        least = np.minimum.reduceat(tables, starts, axis=2)
        sweep.places[:, :, at[starts]] = np.minimum(least, NEVER)

    def _tables(self, rows: Ints, at: Ints, sweep: _Sweep, wanted: int) -> Ints:
        """Return the floors of rows standing in places, their own cost included."""
        bones = self.skeleton
        tables = sweep.footings.take(bones.footing[rows], axis=2)
        tables += self.costs.take(rows, axis=1)[:, None]
        dying = np.flatnonzero(self.dying[rows])
        if len(dying):
            tables[:, 1:-1, dying] = tables[:, :-2].take(dying, axis=2)
            tables[:, 0, dying] = NEVER
        if wanted:
            tables[:, :, bones.reach[at] & bones.lacks[rows] & wanted != 0] = NEVER
        return tables

    # -- what the finder asks ----------------------------------------------------------------

    def sweep_for(self, socket: int, end: int) -> int:
        """Return which sweep bounds a class that ends up with these wanted kinds."""
        starred = self.star & self.tree.reach[socket] & end
        return int(bool(starred))

    def offers(
        self,
        socket: int,
        kits: Kits,
        tests: Sequence[tuple[int, Sequence[Row]]],
        cap: Cap | None,
    ) -> dict[int, int]:
        """Return what is worth buying for a class: its row by candidate.

        Parameters
        ----------
        socket : int
            The class.
        kits : Kits
            Things at hand.
        tests : sequence of (int, sequence of Row)
            For each end, its sweep and the rows that would serve as well.
        cap : Cap or None
            What must not be beaten besides.

        Returns
        -------
        dict of int to int
            Without the candidates that are beaten for every end.
        """
        rows, at = self._for_sale(socket, self._came(kits))
        if not len(rows):
            return {}
        alive = np.zeros(len(rows), dtype=np.bool_)
        for which, rivals in tests:
            sweep = self.sweeps[which]
            tables = self._tables(rows, at, sweep, self.plain | (self.star if which else 0))
            own = [label for label, _ in rivals]
            useful = self._unbeaten(tables, rows, own, (0,))
            if cap:
                useful &= self._unbeaten(tables, rows, cap.rivals, cap.offsets)
            alive |= useful
        chosen = rows[alive]
        return dict(zip(self.skeleton.candidate[chosen].tolist(), chosen.tolist(), strict=True))

    def _came(self, kits: Kits) -> Came:
        return frozenset(number for number, how in kits if how == How.INCLUDED)

    def _for_sale(self, socket: int, came: Came) -> tuple[Ints, Ints]:
        """Return the rows of a class that may be bought, and their places."""
        place = self.skeleton.place.get((socket, came), FREE)
        rows, at = self._edges_of(place)
        if came:
            others, elsewhere = self._edges_of(self.skeleton.place[socket, NOTHING_CAME])
            number = self.skeleton.candidate
            left = ~np.isin(number[others], number[rows])
            rows = np.concatenate((rows, others[left]))
            at = np.concatenate((at, elsewhere[left]))
        keep = self.sold[rows]
        return rows[keep], at[keep]

    def _edges_of(self, place: int) -> tuple[Ints, Ints]:
        rows, at = self.edges[self.skeleton.layer[place]]
        start, stop = np.searchsorted(at, (place, place + 1))
        return rows[start:stop], at[start:stop]

    def _unbeaten(
        self, tables: Ints, rows: Ints, rivals: Sequence[int], offsets: Sequence[int]
    ) -> Bools:
        """Tell which rows with some offset could still give something that no rival beats."""
        possible = tables[0] < NEVER
        if rivals:
            self.finder.spend(len(rivals) * len(offsets) * (DYING + 1) * len(rows) // _AT_ONCE)
            found, more = np.array(_unpacked(rivals)), np.array(_unpacked(offsets))
            costs = (found[None] - more[:, None]).transpose(2, 0, 1)[..., None, None]
            beaten = (costs[0] <= tables[0]) & (costs[1] <= tables[1])
            beaten &= costs[2] <= np.arange(DYING + 1)[:, None]
            if self.finder.bonus_kinds:
                light = self.finder.best.candidates[self.skeleton.candidate[rows]]
                beaten &= costs[3] <= -light
            possible &= ~beaten.any(axis=1).all(axis=0)
        result: Bools = possible.any(axis=0)
        return result

    def place(self, socket: int, kits: Kits) -> int:
        """Return the place of a class with what came of the things at hand."""
        return self.skeleton.place.get((socket, self._came(kits)), FREE)

    def low(self, socket: int, kits: Kits) -> Labels:
        """Return floors of all that can stand in a class, light left out."""
        if kits:
            kits = self.finder.touching(socket, kits)
        place = self.place(socket, kits)
        found = self._low.get(place)
        if found is None:
            found = self._low[place] = _labels(self.sweeps[0].places[:, :, place])
        return found

    def hung(self, row: int, which: int) -> Labels:
        """Return floors of all that must hang on the candidate of a row, light left out."""
        footing = int(self.skeleton.footing[row])
        found = self._known.get((footing, bool(which)))
        if found is None:
            found = _labels(self.sweeps[which].footings[:, :, footing])
            self._known[footing, bool(which)] = found
        return found


@lru_cache(maxsize=1 << 15)
def _costs(label: int) -> tuple[int, ...]:
    return PACKING.unpack(label)


def _unpacked(labels: Sequence[int]) -> list[tuple[int, ...]]:
    return [_costs(label) for label in labels]


def _labels(table: Ints) -> Labels:
    labels = [
        PACKING.pack((price, count, dying, 0, 0))
        for dying, (price, count) in enumerate(table.T.tolist())
        if price < NEVER
    ]
    return tuple(nondominated(labels, PACKING.guards))


def _joined(one: Ints, other: Ints) -> Ints:
    """Add two tables: what is dying in one and in the other counts together."""
    return np.minimum.reduceat(one[:, _MINE] + other[:, _YOURS], _TOGETHER, axis=1)


def _added_up(places: Ints, columns: Ints, filled: Bools) -> Ints:
    """Add up the tables of the places in each line of columns, where they must be filled."""
    total: Ints | None = None
    for at in np.flatnonzero(filled.any(axis=0)):
        more = places.take(columns[:, at], axis=2)
        total = more if total is None else _joined(total, more)
    return _NOTHING if total is None else total


def _one_starred(places: Ints, others: Ints, columns: Ints, filled: Bools, starred: Bools) -> Ints:
    """Add up tables where one of the starred places holds the starred kind, if there are any."""
    none = np.zeros((*places.shape[:2], len(columns)), dtype=np.int64)
    one = np.full_like(none, NEVER)
    for at in np.flatnonzero(filled.any(axis=0)):
        column = columns[:, at]
        without = others.take(column, axis=2)
        if starred[:, at].any():
            within = np.where(starred[:, at], places.take(column, axis=2), NEVER)
            one = np.minimum(_joined(one, without), _joined(none, within))
        else:
            one = _joined(one, without)
        none = _joined(none, without)
    return np.where(starred.any(axis=1), one, none)

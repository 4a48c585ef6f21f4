"""How little leverage anything can have: a relaxed search in array sweeps, as for the floors.

A place can stand at several heights. Below a fixed filling leverage is a straight line in the
height, so the least over all fillings bends downwards only, and between two heights it lies
nowhere below the chord. So the least is found at the lowest and at the highest arm of each
place, and read off the chord in between. Of a varying load one is taken for the whole range.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

import numpy as np
from numpy.typing import NDArray

from wickwright.fit.search.skeleton import FREE

if TYPE_CHECKING:
    from typing import TypeAlias

    from wickwright.fit.search.floors import Floors
    from wickwright.fit.search.skeleton import Bools, Ints
    from wickwright.fit.search.tree import Candidate, Tree

__all__ = ["Bodies", "Leaning", "bodies_of"]

Floats: TypeAlias = NDArray[np.float64]

_SLACK = 2.0
"""Leverage given away in each sum, far more than rounding can add."""


class Bodies(NamedTuple):
    """What the leverage of each candidate follows from.

    Attributes
    ----------
    rises : Floats
        Height of each socket above the foot; shape (candidates, most).
    mass, moment : Floats
        Without and with each of two loads, about the foot; shape (3, candidates).
    """

    rises: Floats
    mass: Floats
    moment: Floats


def bodies_of(tree: Tree) -> Bodies:
    """Collect the bodies of a tree.

    Parameters
    ----------
    tree : Tree
        The compiled tree.

    Returns
    -------
    Bodies
        Of loads only the lightest and the heaviest.
    """
    most = max((len(it.rises) for it in tree.candidates), default=0) or 1
    rises = np.zeros((len(tree.candidates), most))
    for number, it in enumerate(tree.candidates):
        rises[number, : len(it.rises)] = it.rises
    bodies = np.array([_body(it) for it in tree.candidates], dtype=np.float64).reshape(-1, 3, 2)
    return Bodies(rises, bodies[:, :, 0].T.copy(), bodies[:, :, 1].T.copy())


def _body(it: Candidate) -> list[tuple[int, int]]:
    plain = it.mass, it.mass * it.centre
    loads = sorted(it.loads, key=lambda load: load.mass)
    ends = [loads[0], loads[-1]] if loads else []
    full = [(plain[0] + one.mass, plain[1] + one.mass * one.centre) for one in ends]
    return [plain, *(full or [plain, plain])]


class Leaning:
    """The least leverage for one query.

    Parameters
    ----------
    floors : Floors
        With what the query can reach.
    """

    def __init__(self, floors: Floors) -> None:
        self.floors, self.bones, self.query = floors, floors.skeleton, floors.query
        self.bodies = floors.finder.memory.bodies
        places = len(self.bones.required)
        self.low = np.full(places, np.inf)
        self.high = np.full(places, -np.inf)
        self.root = floors.root
        self._arms()
        self.least = self._swept()
        self._tables: list[tuple[list[float], list[float]]] = [
            (low.tolist(), high.tolist()) for low, high in self.least
        ]
        self._heights: tuple[list[float], list[float]] = (
            self.low.tolist(),
            (self.high - self.low).tolist(),
        )

    # -- how high each place can be --------------------------------------------------------

    def _pivots(self, rows: Ints) -> Floats:
        """Pivot height under each root; infinite where there is no limit."""
        pivots = self.query.pivots
        numbers = self.bones.candidate[rows].tolist()
        return np.array([pivots.get(number, np.inf) for number in numbers], dtype=np.float64)

    def _arms(self) -> None:
        for layer, (rows, at) in reversed(
            list(zip(self.bones.layers, self.floors.edges, strict=True))
        ):
            np.minimum.at(self.low, layer.alone, self.low[layer.over])
            np.maximum.at(self.high, layer.alone, self.high[layer.over])
            low, high = self._ends(rows, at)
            limited = np.isfinite(low)
            number = self.bones.candidate[rows]
            columns = self.bones.columns[self.bones.footing[rows]]
            for column in range(min(columns.shape[1], self.bodies.rises.shape[1])):
                below = columns[:, column]
                used = limited & (below != FREE)
                rise = self.bodies.rises[number[used], column]
                np.minimum.at(self.low, below[used], low[used] + rise)
                np.maximum.at(self.high, below[used], high[used] + rise)
        unmet = ~np.isfinite(self.low)
        self.low[unmet] = self.high[unmet] = 0.0

    def _ends(self, rows: Ints, at: Ints) -> tuple[Floats, Floats]:
        """Lowest and highest arm of the foot of each row."""
        low, high = self.low[at], self.high[at]
        roots = at == self.root
        if roots.any():
            low, high = low.copy(), high.copy()
            low[roots] = high[roots] = -self._pivots(rows[roots])
        return low, high

    # -- the least leverage ----------------------------------------------------------------

    def _swept(self) -> tuple[tuple[Floats, Floats], ...]:
        """Least leverage of each place at its lowest and highest arm, by sweep."""
        without = self._sweep(self.floors.plain, None)
        if not self.floors.star:
            return (without,)
        return without, self._sweep(self.floors.plain | self.floors.star, without)

    def _sweep(self, wanted: int, other: tuple[Floats, Floats] | None) -> tuple[Floats, Floats]:
        bones = self.bones
        must = bones.required | (bones.reach & wanted != 0)
        ends = (np.zeros(len(must)), np.zeros(len(must)))
        for layer, (rows, at) in zip(bones.layers, self.floors.edges, strict=True):
            places = np.unique(layer.places)
            places = places[self.floors.alive[places] & must[places]]
            for end in ends:
                end[places] = np.inf
            if len(rows):
                self._fill(rows, at, ends, other, (wanted, must))
            used = self.floors.alive[layer.over]
            over, alone = layer.over[used], layer.alone[used]
            for which, arms in enumerate((self.low, self.high)):
                lent = self._read(ends, alone, arms[over])
                ends[which][over] = np.minimum(ends[which][over], lent)
        return ends

    def _read(self, ends: tuple[Floats, Floats], places: Ints, arms: Floats) -> Floats:
        """Read the least leverage of places at some arms off the chords."""
        low, high = self.low[places], self.high[places]
        wide = high > low
        share = np.where(wide, (arms - low) / np.where(wide, high - low, 1.0), 0.0)
        first, last = ends[0][places], ends[1][places]
        never = ~(np.isfinite(first) & np.isfinite(last))
        between = np.where(never, 0.0, first) * (1 - share) + np.where(never, 0.0, last) * share
        return np.where(never, np.inf, between - _SLACK)

    def _fill(
        self,
        rows: Ints,
        at: Ints,
        ends: tuple[Floats, Floats],
        other: tuple[Floats, Floats] | None,
        needs: tuple[int, Bools],
    ) -> None:
        wanted, must = needs
        short = self.bones.reach[at] & self.bones.lacks[rows] & wanted != 0
        arms = self._ends(rows, at)
        limited = np.isfinite(arms[0])
        number = self.bones.candidate[rows]
        load = self._load(number, (arms[0] + arms[1]) / 2)
        for end, arm in zip(ends, arms, strict=True):
            safe = np.where(limited, arm, 0.0)
            total = self.bodies.mass[load, number] * safe + self.bodies.moment[load, number]
            total += self._hung(rows, safe, ends, other, must)
            total = np.where(limited, total - _SLACK, -np.inf)
            total[short] = np.inf
            np.minimum.at(end, at, total)

    def _load(self, number: Ints, arms: Floats) -> Ints:
        """Which load weighs most in the middle of the range."""
        if self.query.dry:
            return np.zeros(len(number), dtype=np.int64)
        safe = np.where(np.isfinite(arms), arms, 0.0)
        tried = self.bodies.mass[1:, number] * safe + self.bodies.moment[1:, number]
        heavier: Ints = 1 + np.argmax(tried, axis=0)
        return heavier

    def _hung(
        self,
        rows: Ints,
        arms: Floats,
        ends: tuple[Floats, Floats],
        other: tuple[Floats, Floats] | None,
        must: Bools,
    ) -> Floats:
        """Least leverage of all that hangs on rows with their feet at some arms."""
        columns = self.bones.columns[self.bones.footing[rows]]
        rises = self.bodies.rises[self.bones.candidate[rows]]
        total, gain = np.zeros(len(rows)), np.full(len(rows), np.inf)
        starred = self.bones.reach[columns] & self.floors.star != 0
        for column in range(columns.shape[1]):
            below = columns[:, column]
            if not below.any():
                continue
            at = arms + (rises[:, column] if column < rises.shape[1] else 0.0)
            least = self._read(other or ends, below, at)
            needed = must[below] if other is None else must[below] & ~starred[:, column]
            needed = needed | self.bones.required[below]
            least = np.where(below == FREE, 0.0, np.where(needed, least, np.minimum(least, 0.0)))
            total += least
            if other is not None:
                more = self._read(ends, below, at) - np.where(np.isfinite(least), least, 0.0)
                gain = np.where(starred[:, column], np.minimum(gain, more), gain)
        if other is None:
            return total
        return np.where(starred.any(axis=1), total + gain, total)

    # -- what the finder asks ----------------------------------------------------------------

    def arms(self, place: int) -> tuple[int, int]:
        """Return the lowest and the highest arm of a place."""
        low, span = self._heights[0][place], self._heights[1][place]
        return math.floor(low), math.ceil(low + span)

    def lowest(self, place: int, arm: int, *, starred: bool = False) -> float:
        """Return the least leverage of anything standing in a place at an arm."""
        tables = self._tables[int(starred and len(self._tables) > 1)]
        first, last = tables[0][place], tables[1][place]
        foot, span = self._heights[0][place], self._heights[1][place]
        if not span or first == last:
            return first - _SLACK
        share = (arm - foot) / span
        return first + (last - first) * share - _SLACK

    def falls(self) -> bool:
        """Tell whether nothing that the query can reach stands."""
        return self.least_of_all() > 0

    def least_of_all(self) -> float:
        """Return the least leverage of the whole; infinitely low where something cannot tip."""
        return float(self.least[-1][0][self.root])

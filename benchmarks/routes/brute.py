"""A judge for small books: every way there is, by numpy's outer sums.

Parts that carry others are tried one combination after another; what stands on each such
frame and carries nothing is added up in one outer sum. Nothing is left out before the end.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product
from typing import TYPE_CHECKING

import numpy as np
from benchmarks.routes.fitting import unbeaten
from benchmarks.routes.rows import COSTS, WIDTH, Rows, crossed, one_row

from wickwright.catalogue.records import KINDS
from wickwright.fit.search.query import How

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchmarks.routes.fitting import Case, Costs, Slot

__all__ = ["Tried", "try_everything"]

_BELL = list(KINDS).index("bell")


@dataclass(frozen=True, slots=True)
class Tried:
    """What trying everything found.

    Attributes
    ----------
    costs : set of tuple of int
        Of the unbeaten ways.
    ways : int
        How many were tried.
    """

    costs: set[Costs]
    ways: int


@dataclass(frozen=True, slots=True)
class _Axis:
    """A place on a frame for something that carries nothing."""

    slot: Slot
    arm: int
    asked: tuple[int, int]
    included: frozenset[int]


@dataclass(frozen=True, slots=True)
class _Frame:
    """Parts that carry, in their places, and the places left on them."""

    kinds: frozenset[int]
    rows: Rows
    axes: tuple[_Axis, ...]


_BARE = _Frame(frozenset(), one_row(*[0] * WIDTH), ())


def try_everything(case: Case) -> Tried:
    """Try every way.

    Parameters
    ----------
    case : Case
        The book and a plain query.

    Returns
    -------
    Tried
        The costs of the unbeaten ways, and how many there were.
    """
    return _Brute(case).tried()


class _Brute:
    def __init__(self, case: Case) -> None:
        self.case, self.book, self.query = case, case.book, case.query
        self.wanted = case.required | case.lit
        self.ways = 0

    def tried(self) -> Tried:
        """Try every base, every frame on it and everything on the frame."""
        found: set[tuple[int, ...]] = set()
        for number in self.book.bases:
            pivot = self.query.pivots.get(number)
            arm = 0 if pivot is None else -pivot
            for frame in self._framed(number, arm, (0, 0), frozenset()):
                found.update(self._on(frame, limited=pivot is not None))
            found = unbeaten(found)
        return Tried({(a, b, c, d) for a, b, c, d in unbeaten(found)}, self.ways)

    # -- frames ------------------------------------------------------------------------

    def _framed(
        self, number: int, arm: int, asked: tuple[int, int], included: frozenset[int]
    ) -> Iterator[_Frame]:
        """Yield a carrying part, had any way, with every frame on it."""
        it = self.book.parts[number]
        own = self.case.asked(number)
        asked = max(asked[0], own[0]), max(asked[1], own[1])
        loads = () if self.query.dry else it.loads
        weight = it.mass * (arm + it.centre)
        weight += max((load.mass * (arm + load.centre) for load in loads), default=0)
        for how, costs in self.case.ways(number, included):
            more = included.union(it.brings) if how == How.BOUGHT else included
            row = one_row(*costs, weight, self.case.beside(number)[0], *_UNWEIGHED)
            options = [
                list(self._options(slot, arm + slot.rise, asked, more))
                for slot in self.book.slots[number]
            ]
            for chosen in product(*options):
                kinds = [it.kind, *(kind for frame in chosen for kind in frame.kinds)]
                if len(kinds) == len(set(kinds)):
                    rows = row + sum(frame.rows for frame in chosen)
                    axes = tuple(axis for frame in chosen for axis in frame.axes)
                    yield _Frame(frozenset(kinds), rows, axes)

    def _options(
        self, slot: Slot, arm: int, asked: tuple[int, int], included: frozenset[int]
    ) -> Iterator[_Frame]:
        """Yield what a place can hold: a frame, something that carries nothing, or nothing."""
        if not slot.required and not slot.reach & self.wanted:
            yield _BARE
            return
        leaves = {n for n in slot.fits if not self.book.slots[n]}
        if leaves:
            yield _Frame(frozenset(), _BARE.rows, (_Axis(slot, arm, asked, included),))
        elif not slot.required:
            yield _BARE
        for number in slot.fits - leaves:
            for frame in self._framed(number, arm, asked, included):
                if slot.required or self.case.lit or self._useful(frame):
                    yield frame

    def _useful(self, frame: _Frame) -> bool:
        """Whether a frame holds or may hold a kind that is asked for."""
        may = {kind for axis in frame.axes for kind in axis.slot.reach}
        return bool((frame.kinds | may) & self.case.required)

    # -- what stands on a frame -----------------------------------------------------------

    def _on(self, frame: _Frame, *, limited: bool) -> set[tuple[int, ...]]:
        """Return the costs of all complete ways on one frame that stand."""
        found: set[tuple[int, ...]] = set()
        options = [list(self._leaves(axis, frame)) for axis in frame.axes]
        for chosen in product(*options):
            kinds = [*frame.kinds, *(kind for kind, _ in chosen if kind is not None)]
            if len(kinds) == len(set(kinds)) and self.case.required <= set(kinds):
                if self._idle(frame, chosen):
                    continue
                rows = frame.rows
                for _, more in chosen:
                    rows = crossed(rows, more)
                self.ways += len(rows)
                found.update(self._within(rows, limited=limited))
        return found

    def _idle(self, frame: _Frame, chosen: tuple[tuple[int | None, Rows], ...]) -> bool:
        """Whether a frame in an optional place carries nothing that is asked for after all."""
        if self.case.lit:
            return False
        holder = _HOLDER in frame.kinds and _HOLDER not in self.case.required
        return holder and _SHADE not in {kind for kind, _ in chosen}

    def _leaves(self, axis: _Axis, frame: _Frame) -> Iterator[tuple[int | None, Rows]]:
        """Yield, kind by kind, the rows of what can stand in a place; and nothing."""
        if not axis.slot.required:
            yield None, _BARE.rows
        by_kind: dict[int, list[tuple[int, ...]]] = {}
        for number in axis.slot.fits:
            it = self.book.parts[number]
            allowed = axis.slot.required or it.kind in self.case.required or self.case.lit
            if allowed and not self.book.slots[number] and self._bears(number, axis, frame):
                weight = it.mass * (axis.arm + it.centre)
                for _, costs in self.case.ways(number, axis.included):
                    by_kind.setdefault(it.kind, []).append((*costs, weight, 0, *_UNWEIGHED))
        for kind, rows in by_kind.items():
            yield kind, np.array(rows, dtype=np.int64)

    def _bears(self, number: int, axis: _Axis, frame: _Frame) -> bool:
        if self.book.parts[number].kind == _BELL:
            return bool(frame.rows[0, 5] <= self.case.beside(number)[1])
        return self.case.stands_up_to(number, axis.asked)

    def _within(self, rows: Rows, *, limited: bool) -> set[tuple[int, ...]]:
        if limited:
            rows = rows[rows[:, 4] <= 0]
        for aim, most in self.query.most.items():
            rows = rows[rows[:, int(aim)] <= most]
        return {tuple(int(cost) for cost in row) for row in np.unique(rows[:, :4], axis=0)}


_UNWEIGHED = (0,) * (WIDTH - COSTS)
_HOLDER = list(KINDS).index("holder")
_SHADE = list(KINDS).index("shade")

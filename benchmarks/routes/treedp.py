"""A judge for large books: plain label setting over the tree of parts.

From the base up every part of every place is tried at its own height. Rows hold price, parts
bought, dying parts, light, and mass times height as it is; nothing is packed, bounded,
compiled or kept between queries. Balance is first left out, which cannot hide a better way;
where an unbeaten way found so tips, everything is searched again with leverage as a cost.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from benchmarks.routes.fitting import unbeaten
from benchmarks.routes.rows import COSTS, WIDTH, Rows, crossed, one_row, pareto

from wickwright.catalogue.records import KINDS
from wickwright.fit.search.query import How

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchmarks.routes.fitting import Case, Costs, Slot

__all__ = ["tree_dp"]

Fillings = dict[int, Rows]
"""Unbeaten rows by the watched kinds they hold, as bits."""

_Asked = tuple[int, int]
_BELL, _CHIMNEY, _SHADE = (list(KINDS).index(kind) for kind in ("bell", "chimney", "shade"))
_STANDS_ALL = (1 << 40, 1 << 40)
_NOTHING: Fillings = {0: one_row(*[0] * WIDTH)}
_NONE = np.zeros((0, WIDTH), dtype=np.int64)


def tree_dp(case: Case) -> set[Costs]:
    """Return the costs of all unbeaten ways.

    Parameters
    ----------
    case : Case
        The book and a plain query.

    Returns
    -------
    set of tuple of int
        Price, bought, dying and minus the light.
    """
    return _TreeDp(case).answer()


class _TreeDp:
    def __init__(self, case: Case) -> None:
        self.case, self.book, self.query = case, case.book, case.query
        self.required = case.required
        self.wanted = case.required | case.lit
        self.watched = case.required | self._doubled()
        self.exact = self.balanced = False
        self.leaves: dict[tuple[int, frozenset[int]], list[Leaves]] = {}
        self.known: dict[tuple[int, bool, int, _Asked, frozenset[int]], Fillings] = {}

    def _doubled(self) -> frozenset[int]:
        """Kinds that two places of one part can hold."""
        twice: set[int] = set()
        for slots in set(self.book.slots):
            once: set[int] = set()
            for slot in slots:
                twice |= once & slot.reach
                once |= slot.reach
        return frozenset(twice)

    def answer(self) -> set[Costs]:
        """Leave balance out; where an unbeaten way so found tips, search with it."""
        self.exact = False
        rows = pareto([_NONE, *self._at_bases()])
        if (rows[:, 4] > 0).any():
            self.exact = True
            rows = pareto([_NONE, *self._at_bases()])
        found = {(int(r[0]), int(r[1]), int(r[2]), int(r[3])) for r in rows}
        return {(a, b, c, d) for a, b, c, d in unbeaten(found)}

    def _at_bases(self) -> Iterator[Rows]:
        """Yield the complete ways on each base within the limits, leverage in its column."""
        must = _bits(self.required)
        for number in self.book.bases:
            pivot = self.query.pivots.get(number)
            self.balanced = self.exact and pivot is not None
            self.known.clear()
            arm = 0 if pivot is None else -pivot
            for mask, rows in self._placed(number, arm, (0, 0), frozenset()).items():
                if mask & must == must:
                    yield self._within(rows, pivot)

    def _within(self, rows: Rows, pivot: int | None) -> Rows:
        rows = rows.copy()
        for aim, most in self.query.most.items():
            rows = rows[rows[:, int(aim)] <= most]
        if self.exact:
            rows = rows[rows[:, 4] <= 0]
        elif pivot is not None:
            mass, moment = rows[:, COSTS::2], rows[:, COSTS + 1 :: 2]
            about = moment - pivot * mass
            rows[:, 4] = about[:, 0] + about[:, 1:].max(axis=1)
        rows[:, 5:] = 0
        return rows

    def _filled(self, slot: Slot, arm: int, asked: _Asked, included: frozenset[int]) -> Fillings:
        """Return the unbeaten fillings of a place, remembered for the same height."""
        if not slot.required and not slot.reach & self.wanted:
            return _NOTHING
        height = arm if self.balanced else 0
        asked, included = self._of_matter(slot, asked, included)
        key = (id(slot.fits), slot.required, height, asked, included)
        found = self.known.get(key)
        if found is None:
            found = self.known[key] = self._fill(slot, arm, asked, included)
        return found

    def _of_matter(
        self, slot: Slot, asked: _Asked, included: frozenset[int]
    ) -> tuple[_Asked, frozenset[int]]:
        """Leave out what nothing of the kinds in or above a place is touched by."""
        heat = asked[0] if slot.reach & {_CHIMNEY, _SHADE} else 0
        height = asked[1] if _CHIMNEY in slot.reach else 0
        kinds, parts = slot.reach, self.book.parts
        return (heat, height), frozenset(one for one in included if parts[one].kind in kinds)

    def _fill(self, slot: Slot, arm: int, asked: _Asked, included: frozenset[int]) -> Fillings:
        parts: dict[int, list[Rows]] = {}
        for leaves in self._leaves(slot, included):
            height = arm if self.balanced else None
            rows = leaves.standing(height, asked, weighed=not self.exact)
            if len(rows):
                parts.setdefault(leaves.bit, []).append(rows)
        for number in slot.fits:
            if self.book.slots[number]:
                for mask, rows in self._placed(number, arm, asked, included).items():
                    parts.setdefault(mask, []).append(rows)
        if not slot.required:
            if not self.case.lit:
                must = _bits(self.required)
                parts = {mask: rows for mask, rows in parts.items() if mask & must}
            parts.setdefault(0, []).append(_NOTHING[0])
        return {mask: pareto(rows) for mask, rows in parts.items()}

    def _leaves(self, slot: Slot, included: frozenset[int]) -> list[Leaves]:
        """Return what fits in a place and carries nothing, by kind."""
        key = (id(slot.fits), included)
        found = self.leaves.get(key)
        if found is None:
            by_kind: dict[int, list[int]] = {}
            for number in slot.fits:
                if not self.book.slots[number]:
                    by_kind.setdefault(self.book.parts[number].kind, []).append(number)
            found = self.leaves[key] = [
                Leaves.of(self.case, numbers, included, _bits({kind} & self.watched))
                for kind, numbers in by_kind.items()
            ]
        return found

    def _placed(self, number: int, arm: int, asked: _Asked, included: frozenset[int]) -> Fillings:
        """Return the unbeaten rows of a part with all that can stand on it, had any way."""
        parts: dict[int, list[Rows]] = {}
        for how, costs in self.case.ways(number, included):
            heat = self.case.beside(number)[0]
            row = one_row(*costs, self._leverage(number, arm), heat, *self._weights(number))
            more = self.book.parts[number].brings if how == How.BOUGHT else ()
            for mask, rows in self._carried(number, arm, asked, included.union(more)).items():
                parts.setdefault(mask, []).append(rows + row)
        bit = _bits({self.book.parts[number].kind} & self.watched)
        return {
            mask | bit: rows[0] if len(rows) == 1 else pareto(rows)
            for mask, rows in parts.items()
            if not mask & bit
        }

    def _leverage(self, number: int, arm: int) -> int:
        if not self.balanced:
            return 0
        it = self.book.parts[number]
        loads = () if self.query.dry else it.loads
        worst = max((load.mass * (arm + load.centre) for load in loads), default=0)
        return it.mass * (arm + it.centre) + worst

    def _weights(self, number: int) -> list[int]:
        """Mass and moment of a part and of its loads, where they are only carried along."""
        if self.exact:
            return [0] * (WIDTH - COSTS)
        it = self.book.parts[number]
        loads = () if self.query.dry else it.loads
        pairs = [(it.mass, it.centre), *((load.mass, load.centre) for load in loads)]
        weights = [value for mass, centre in pairs for value in (mass, mass * centre)]
        return weights + [0] * (WIDTH - COSTS - len(weights))

    def _raised(self, fillings: Fillings, rise: int) -> Fillings:
        """Lift fillings from their own foot to that of the part below."""
        if self.exact:
            return fillings
        lifted: Fillings = {}
        for mask, rows in fillings.items():
            lifted[mask] = rows.copy()
            lifted[mask][:, COSTS + 1 :: 2] += rise * rows[:, COSTS::2]
        return lifted

    def _carried(self, number: int, arm: int, asked: _Asked, included: frozenset[int]) -> Fillings:
        own = self.case.asked(number)
        asked = max(asked[0], own[0]), max(asked[1], own[1])
        total = _NOTHING
        bells: Slot | None = None
        for slot in self.book.slots[number]:
            if slot.reach == {_BELL}:
                bells = slot
            else:
                more = self._filled(slot, arm + slot.rise, asked, included)
                total = _joined(total, self._raised(more, slot.rise))
        return total if bells is None else self._with_bell(bells, arm, included, total)

    def _with_bell(
        self, slot: Slot, arm: int, included: frozenset[int], burning: Fillings
    ) -> Fillings:
        """Hang each bell over the burners whose heat it stands."""
        out: dict[int, list[Rows]] = {}
        if not slot.required:
            out = {mask: [rows] for mask, rows in burning.items()}
        if slot.required or slot.reach & self.wanted:
            for number in slot.fits:
                stands = self.case.beside(number)[1]
                hung = self._placed(number, arm + slot.rise, (0, 0), included)
                hung = self._raised(hung, slot.rise)
                for other, below in burning.items():
                    for mask, rows in _joined({other: below[below[:, 5] <= stands]}, hung).items():
                        out.setdefault(mask, []).append(rows)
        return {mask: pareto(rows) for mask, rows in out.items()}


@dataclass(frozen=True, slots=True)
class Leaves:
    """Parts of one kind that carry nothing, in columns.

    Attributes
    ----------
    bit : int
        The kind, where it is watched.
    costs : Rows
        Price, bought, dying, minus light.
    mass, moment : Rows
        Of each, about its own foot.
    gives : Rows
        What each stands.
    """

    bit: int
    costs: Rows
    mass: Rows
    moment: Rows
    gives: Rows

    @classmethod
    def of(cls, case: Case, numbers: list[int], included: frozenset[int], bit: int) -> Leaves:
        """Write parts in columns, each in every way it can be had."""
        had = [(n, costs) for n in numbers for _, costs in case.ways(n, included)]
        parts = [case.book.parts[n] for n, _ in had]
        return cls(
            bit,
            np.array([costs for _, costs in had], dtype=np.int64).reshape(-1, 4),
            np.array([it.mass for it in parts], dtype=np.int64),
            np.array([it.mass * it.centre for it in parts], dtype=np.int64),
            np.array([(it.gives or _STANDS_ALL)[:2] for it in parts], np.int64).reshape(-1, 2),
        )

    def standing(self, arm: int | None, asked: _Asked, *, weighed: bool) -> Rows:
        """Return the rows of those that stand what is asked; balance left out without an arm."""
        rows = np.zeros((len(self.costs), WIDTH), dtype=np.int64)
        rows[:, :4] = self.costs
        if arm is not None:
            rows[:, 4] = self.mass * arm + self.moment
        if weighed:
            rows[:, COSTS], rows[:, COSTS + 1] = self.mass, self.moment
        fine = np.ones(len(rows), dtype=bool)
        for entry, want in enumerate(asked):
            if want > 0:
                fine &= self.gives[:, entry] >= want
        return pareto([rows[fine]])


def _joined(one: Fillings, other: Fillings) -> Fillings:
    out: dict[int, list[Rows]] = {}
    for mask, rows in one.items():
        for more, extra in other.items():
            if not mask & more:
                out.setdefault(mask | more, []).append(crossed(rows, extra))
    return {
        mask: rows[0] if len(rows) == 1 and len(rows[0]) == 1 else pareto(rows)
        for mask, rows in out.items()
    }


def _bits(kinds: set[int] | frozenset[int]) -> int:
    return sum(1 << kind for kind in kinds)

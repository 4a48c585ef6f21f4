"""What a compiled tree remembers from one query to the next."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING

from wickwright.fit.search.lanes import Lanes
from wickwright.fit.search.packs import DEMANDS, PLENTY, four
from wickwright.fit.search.query import PACKING, Aim, How
from wickwright.fit.search.tree import UNKNOWN, Admits

if TYPE_CHECKING:
    from collections.abc import Hashable, Sequence

    from wickwright.fit.search.tree import Front, Tree

__all__ = ["Extent", "Kits", "Memory"]

MOST_FRAMES = 1000
"""Frames remembered at once; a desk asks a few dozen different wishes."""

Extent = tuple[int, int, int, int]
"""Least and most mass, least and most moment about the socket."""

Kits = frozenset[tuple[int, int]]
"""Things at hand for nothing: candidate and how it came."""


@dataclass
class Memory:
    """Fronts no owned thing touches, and packed tables, for one tree.

    Attributes
    ----------
    tree : Tree
        The tree they belong to.
    fronts : dict
        By frame of query, then by class, context and included things.
    extents : dict
        By frame of query, then by class: how far mass and moment can range.
    """

    tree: Tree
    fronts: dict[Hashable, dict[tuple[int, int, Kits], Front]] = field(default_factory=dict)
    extents: dict[Hashable, dict[int, Extent]] = field(default_factory=dict)
    _labels: dict[tuple[tuple[Aim, ...], How], list[int]] = field(default_factory=dict)
    _gives: dict[Admits, list[int]] = field(default_factory=dict)
    _ends: list[list[int]] | None = None
    _bonus: int | None = None

    @cached_property
    def lanes(self) -> Lanes:
        """Sets of candidates, each worked out once."""
        return Lanes(self.tree)

    def fronts_of(self, frame: Hashable) -> dict[tuple[int, int, Kits], Front]:
        """Return what is remembered for a frame; all is forgotten when frames grow many."""
        if len(self.fronts) > MOST_FRAMES:
            self.fronts.clear()
        return self.fronts.setdefault(frame, {})

    def extents_of(self, frame: Hashable) -> dict[int, Extent]:
        """Return the extents remembered for a frame, forgotten like the fronts."""
        if len(self.extents) > MOST_FRAMES:
            self.extents.clear()
        return self.extents.setdefault(frame, {})

    def labels(self, aims: tuple[Aim, ...], how: How) -> list[int]:
        """Return the packed cost of placing each candidate."""
        key = (aims, how)
        found = self._labels.get(key)
        if found is None:
            found = self._labels[key] = _labels(self.tree, aims, bought=how is How.BOUGHT)
        return found

    def gives(self, admits: Admits) -> list[int]:
        """Return what each candidate gives, packed."""
        found = self._gives.get(admits)
        if found is None:
            floor = PLENTY if admits is Admits.UNSURE else 0
            found = self._gives[admits] = [
                DEMANDS.pack([floor if g == UNKNOWN else g for g in four(it.gives, PLENTY)])
                for it in self.tree.candidates
            ]
        return found

    def ends(self) -> list[list[int]]:
        """Return the distinct amounts given, per entry, ascending."""
        if self._ends is None:
            distinct: list[set[int]] = [set() for _ in range(4)]
            for candidate in self.tree.candidates:
                for entry, value in enumerate(candidate.gives):
                    distinct[entry].add(value)
            self._ends = [sorted(values) for values in distinct]
        return self._ends

    def bonus_kinds(self) -> int:
        """Return the kinds of which some candidate has a bonus, as bits."""
        if self._bonus is None:
            self._bonus = 0
            for candidate in self.tree.candidates:
                if candidate.bonus > 0:
                    self._bonus |= 1 << candidate.kind
        return self._bonus


def _labels(tree: Tree, aims: Sequence[Aim], *, bought: bool) -> list[int]:
    price, number, dying, bonus = (aim in aims for aim in list(Aim)[:4])
    return [
        PACKING.pack(
            (
                it.price if bought and price else 0,
                1 if bought and number else 0,
                it.dying if dying else 0,
                -it.bonus if bonus else 0,
                0,
            )
        )
        for it in tree.candidates
    ]

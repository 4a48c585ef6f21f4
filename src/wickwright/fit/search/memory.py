"""What a compiled tree remembers from one query to the next."""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from wickwright.fit.search.admitting import Admitting
from wickwright.fit.search.brightness import best_of
from wickwright.fit.search.lanes import Lanes
from wickwright.fit.search.leaning import bodies_of
from wickwright.fit.search.packs import DEMAND_BITS, DEMANDS, PLENTY, four
from wickwright.fit.search.query import PACKING, Aim, How
from wickwright.fit.search.skeleton import skeleton
from wickwright.fit.search.tree import UNKNOWN, Admits

if TYPE_CHECKING:
    from collections.abc import Hashable, Sequence

    from wickwright.fit.search.brightness import Best
    from wickwright.fit.search.leaning import Bodies
    from wickwright.fit.search.skeleton import Bools, Ints, Skeleton
    from wickwright.fit.search.tree import Candidate, Front, Tree

__all__ = ["MOST_KEPT", "Entry", "Extent", "FrontKey", "Kits", "Memory", "ProofKey"]

MOST_KEPT = 400_000
"""Fronts remembered at once; when there are more, all are forgotten and worked out anew."""

MOST_OWN = 8_000
"""Fronts remembered at once that something in hand touches."""

MOST_ROWS = 300_000
"""Rows of leniencies laid out at once."""

MOST_BESTS = 64
"""Sets of usable candidates whose best bonuses are remembered at once."""

Extent = tuple[int, int, int, int]
"""Least and most mass, least and most moment about the socket."""

Kits = frozenset[tuple[int, int]]
"""Things at hand for nothing: candidate and how it came."""

FrontKey = tuple[int, int, Kits, int]
"""Class, kinds above, things at hand, and the number of what else the front depends on."""


class Entry(NamedTuple):
    """A front with the demands it was found under and the strictest it holds for.

    Attributes
    ----------
    demands, bears : int
        Packed; the front is right for all demands between the two.
    front : Front
        The front.
    """

    demands: int
    bears: int
    front: Front


ProofKey = tuple[int, int, int, int, int]
"""Class, context, included things, the number of what else it depends on, things in hand."""


@dataclass
class Memory:
    """Fronts no owned thing touches, and packed tables, for one tree.

    Attributes
    ----------
    tree : Tree
        The tree they belong to.
    fronts : dict
        Fronts by all they depend on, those that nothing in hand touches.
    own : dict
        The others; few, for they serve only callers who have the same.
    masks, lines : dict
        What can stand in a class at all, and how lightly, by all it depends on.
    extents : dict
        How far mass and moment can range, by class and number.
    """

    tree: Tree
    fronts: dict[FrontKey, list[Entry]] = field(default_factory=dict)
    own: dict[FrontKey, list[Entry]] = field(default_factory=dict)
    extents: dict[tuple[int, int], Extent] = field(default_factory=dict)
    masks: dict[ProofKey, frozenset[int]] = field(default_factory=dict)
    lines: dict[ProofKey, dict[int, list[tuple[int, int]]]] = field(default_factory=dict)
    _admitting: dict[tuple[Admits, frozenset[int]], Admitting] = field(default_factory=dict)
    _skeletons: dict[tuple[Admits, frozenset[int], int], Skeleton] = field(default_factory=dict)
    _local: dict[tuple[int, int], int] = field(default_factory=dict)
    _alike: dict[tuple[int, Admits], int] = field(default_factory=dict)
    _first: dict[Hashable, int] = field(default_factory=dict)
    _numbers: dict[Hashable, int] = field(default_factory=dict)
    _labels: dict[tuple[tuple[Aim, ...], How], list[int]] = field(default_factory=dict)
    _gives: dict[Admits, list[int]] = field(default_factory=dict)
    _of_kind: dict[int, frozenset[int]] = field(default_factory=dict)
    _best: dict[tuple[Admits, frozenset[int], bytes], Best] = field(default_factory=dict)

    def number(self, content: Hashable) -> int:
        """Return a small number for some content, the same for equal content."""
        return self._numbers.setdefault(content, len(self._numbers))

    def local(self, socket: int, context: int) -> int:
        """Return a context as far as it matters in a class.

        Each demand is raised to the next amount that anything in or below the class gives;
        one that everything there bears is dropped.
        """
        key = (socket, context)
        found = self._local.get(key)
        if found is None:
            offers = self.tree.offers[socket]
            demands = DEMANDS.unpack(context & DEMAND_BITS)
            local = [_raised(value, offer) for value, offer in zip(demands, offers, strict=True)]
            found = DEMANDS.pack(local) | context & ~DEMAND_BITS
            self._local[key] = found
        return found

    def alike(self, socket: int, admits: Admits) -> int:
        """Return the first class of the same atom, members and surroundings: one speaks for all."""
        found = self._alike.get((socket, admits))
        if found is None:
            entry = self.tree.sockets[socket]
            members = self.tree.members(socket, admits)
            content = (members, entry.required, entry.atom, self.tree.outside[socket], admits)
            found = self._alike[socket, admits] = self._first.setdefault(content, socket)
        return found

    def tidy(self) -> None:
        """Forget fronts when there are too many; called between queries."""
        if len(self.fronts) > MOST_KEPT:
            self.fronts.clear()
            self.extents.clear()
        if len(self.own) > MOST_OWN:
            self.own.clear()
        if len(self.masks) + len(self.lines) > MOST_KEPT:
            self.masks.clear()
            self.lines.clear()

    def admitting(self, admits: Admits, loose: frozenset[int]) -> Admitting:
        """Return the tree under one leniency."""
        found = self._admitting.get((admits, loose))
        if found is None:
            found = self._admitting[admits, loose] = Admitting(self, admits, loose)
        return found

    def skeleton(self, admitting: Admitting, root: int) -> Skeleton:
        """Return the tree laid out in arrays under one leniency."""
        key = (admitting.admits, admitting.loose, root)
        found = self._skeletons.get(key)
        if found is None:
            if sum(len(one.candidate) for one in self._skeletons.values()) > MOST_ROWS:
                self._skeletons.clear()
            gives = [DEMANDS.unpack(given) for given in self.gives(admitting.admits)]
            found = self._skeletons[key] = skeleton(self.tree, root, admitting, gives)
        return found

    @cached_property
    def plain_costs(self) -> tuple[Ints, Bools]:
        """Price of each candidate, and whether it is dying."""
        candidates = self.tree.candidates
        prices = np.array([it.price for it in candidates], dtype=np.int64)
        return prices, np.array([bool(it.dying) for it in candidates], dtype=np.bool_)

    @cached_property
    def bodies(self) -> Bodies:
        """Masses and heights of all candidates."""
        return bodies_of(self.tree)

    @cached_property
    def rank(self) -> list[int]:
        """Place of each candidate among all: of equals the earlier is taken."""
        candidates = self.tree.candidates
        order = sorted(range(len(candidates)), key=lambda at: _preference(candidates[at]))
        rank = [0] * len(order)
        for place, number in enumerate(order):
            rank[number] = place
        return rank

    @cached_property
    def demanding(self) -> Bools:
        """Whether each candidate demands something."""
        return np.array([bool(it.demands) for it in self.tree.candidates], dtype=np.bool_)

    @cached_property
    def lanes(self) -> Lanes:
        """Sets of candidates, each worked out once."""
        return Lanes(self.tree)

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

    @cached_property
    def ends(self) -> list[list[int]]:
        """The distinct amounts given, per entry, ascending."""
        distinct: list[set[int]] = [set() for _ in range(4)]
        for candidate in self.tree.candidates:
            for entry, value in enumerate(candidate.gives):
                distinct[entry].add(value)
        return [sorted(values) for values in distinct]

    @cached_property
    def demanded(self) -> list[list[int]]:
        """The distinct amounts demanded, per entry, ascending."""
        distinct: list[set[int]] = [set() for _ in range(4)]
        for candidate in self.tree.candidates:
            for entry, value in enumerate(candidate.demands):
                distinct[entry].add(value)
        return [sorted(values) for values in distinct]

    def best(self, admitting: Admitting, usable: bytes) -> Best:
        """Return the most bonus of everything where only some candidates may be used."""
        key = (admitting.admits, admitting.loose, usable)
        found = self._best.get(key)
        if found is None:
            if len(self._best) >= MOST_BESTS:
                self._best.clear()
            found = self._best[key] = best_of(admitting, usable)
        return found

    def of_kind(self, kind: int) -> frozenset[int]:
        """Return the candidates of a kind."""
        found = self._of_kind.get(kind)
        if found is None:
            candidates = enumerate(self.tree.candidates)
            found = frozenset(number for number, it in candidates if it.kind == kind)
            self._of_kind[kind] = found
        return found

    @cached_property
    def bonus_kinds(self) -> int:
        """Kinds of which some candidate has a bonus, as bits."""
        bits = 0
        for candidate in self.tree.candidates:
            if candidate.bonus > 0:
                bits |= 1 << candidate.kind
        return bits


def _preference(it: Candidate) -> tuple[int, int, int]:
    return it.price, it.dying, -it.bonus


def _raised(value: int, offer: Sequence[int]) -> int:
    if value <= 0 or not offer:
        return 0
    at = bisect_left(offer, value)
    if at == len(offer):
        return PLENTY
    return 0 if at == 0 and offer[0] >= 0 else offer[at]


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

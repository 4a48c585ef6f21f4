"""The tree laid out in arrays, so that bounds for all classes come from a few sweeps.

A *place* is a class with the things that came with a bought candidate above it; a class by
itself is the place to which nothing came. A *row* is a candidate standing in a place by one
way of having it; rows over the same places below share a *footing*. Places are sorted so
that a sweep meets what stands in them first.
"""

from __future__ import annotations

from collections import defaultdict
from enum import IntEnum
from typing import TYPE_CHECKING, NamedTuple, TypeAlias

import numpy as np
from numpy.typing import NDArray

from wickwright.fit.search.packs import PLENTY, four

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from wickwright.fit.search.admitting import Admitting
    from wickwright.fit.search.tree import Tree

__all__ = ["FREE", "NOTHING_CAME", "Bools", "Came", "Had", "Ints", "Layer", "Skeleton", "skeleton"]

Ints: TypeAlias = NDArray[np.int64]
Bools: TypeAlias = NDArray[np.bool_]

Came = frozenset[int]
"""Candidates that came with something bought above."""

NOTHING_CAME: Came = frozenset()

FREE = 0
"""The place that costs nothing: stands for no socket at all."""


class Had(IntEnum):
    """How the candidate of a row can be had."""

    ANYHOW = 0
    BOUGHT = 1
    KEPT = 2
    CAME = 3


class Layer(NamedTuple):
    """The places of one height, with the footings that are met just before them.

    Attributes
    ----------
    footings : Ints
        Their numbers.
    columns : Ints
        Places below each of these footings, as many as the widest has.
    places : Ints
        The place of each edge, ascending.
    rows : Ints
        The row of each edge.
    over, alone : Ints
        Places to which something came, and the same classes by themselves.
    """

    footings: Ints
    columns: Ints
    places: Ints
    rows: Ints
    over: Ints
    alone: Ints


class Skeleton(NamedTuple):
    """A tree in arrays.

    Attributes
    ----------
    candidate, had, footing : Ints
        Of each row.
    columns : Ints
        Places below each footing, filled up with :data:`FREE`; shape (footings, most).
    lacks : Ints
        Kinds that can neither be the candidate of a row nor stand on it, as bits.
    required : Bools
        Whether each place must be filled.
    reach : Ints
        Kinds that can stand in or below each place, as bits.
    asked : Bools
        Whether something that demands stands above each place on every way from the root.
    layers : sequence of Layer
        From the leaves up.
    place : mapping of (int, Came) to int
        Place of a class with what came.
    layer : Ints
        Number of the layer of each place.
    demands, gives : Ints
        Of each candidate, entry by entry; shape (4, candidates).
    """

    candidate: Ints
    had: Ints
    footing: Ints
    columns: Ints
    lacks: Ints
    required: Bools
    reach: Ints
    asked: Bools
    layers: Sequence[Layer]
    place: Mapping[tuple[int, Came], int]
    layer: Ints
    demands: Ints
    gives: Ints


def skeleton(
    tree: Tree,
    root: int,
    admitting: Admitting,
    gives: Sequence[Sequence[int]],
) -> Skeleton:
    """Lay out a tree.

    Parameters
    ----------
    tree : Tree
        The compiled tree.
    root : int
        Class of the root, which alone has nothing above it.
    admitting : Admitting
        Which candidates a class lets in.
    gives : sequence of sequence of int
        What each candidate gives, entry by entry.

    Returns
    -------
    Skeleton
        For any query that starts there and admits the same.
    """
    layout = _Layout(tree, admitting)
    start = layout.place_of(root, NOTHING_CAME)
    layers = layout.layers()
    candidate = _ints(number for number, _, _ in layout.rows)
    demanding = np.array([bool(it.demands) for it in tree.candidates], dtype=np.bool_)
    columns = _padded(layout.footings)
    footing = _ints(at for _, _, at in layout.rows)
    return Skeleton(
        candidate=candidate,
        had=_ints(how for _, how, _ in layout.rows),
        footing=footing,
        columns=columns,
        lacks=~_ints(layout.kinds_of(*row) for row in layout.rows),
        required=np.array(
            [False, *(tree.sockets[s].required for s, _ in layout.places)], dtype=np.bool_
        ),
        reach=_ints(layout.reach),
        asked=_asked(layers, demanding[candidate], footing, columns, (start, len(layout.reach))),
        layers=layers,
        place=layout.known,
        layer=_ints(layout.height),
        demands=_ints(four(it.demands, 0) for it in tree.candidates).reshape(-1, 4).T.copy(),
        gives=_ints(four(some, PLENTY) for some in gives).reshape(-1, 4).T.copy(),
    )


def _ints(values: Iterable[object]) -> Ints:
    return np.array(list(values), dtype=np.int64)


def _padded(footings: Sequence[tuple[int, ...]]) -> Ints:
    most = max(map(len, footings), default=0) or 1
    return _ints([*below, *[FREE] * (most - len(below))] for below in footings).reshape(-1, most)


def _asked(
    layers: Sequence[Layer], demanding: Bools, footing: Ints, columns: Ints, ends: tuple[int, int]
) -> Bools:
    """Whether every way from the root to a place passes something that demands."""
    start, count = ends
    asked = np.ones(count, dtype=np.bool_)
    asked[start] = False
    for layer in reversed(layers):
        asked[layer.alone[~asked[layer.over]]] = False
        quiet = ~demanding[layer.rows] & ~asked[layer.places]
        asked[columns[footing[layer.rows[quiet]]]] = False
    return asked


class _Layout:
    """Places and rows as they turn up, each worked out after what is below it."""

    def __init__(
        self,
        tree: Tree,
        admitting: Admitting,
    ) -> None:
        self.tree, self.admitting = tree, admitting
        self.places: list[tuple[int, Came]] = []
        self.known: dict[tuple[int, Came], int] = {}
        self.rows: list[tuple[int, Had, int]] = []
        self.footings: list[tuple[int, ...]] = [()]
        self.below = [0]
        self.reach = [0]
        self._footing: dict[tuple[tuple[int, ...], int], int] = {((), 0): 0}
        self._rows_of: dict[tuple[int, Came], list[int]] = {}
        self._edges: dict[int, list[int]] = {}
        self._alone: dict[int, int] = {}
        self.height = [0]  # of each place; what stands in it is one lower at most
        self._footing_height = [0]

    def place_of(self, socket: int, came: Came) -> int:
        """Return the place of a class; one that stands below itself counts as free there."""
        socket = self.admitting.alike(socket)
        came = self.admitting.touching(socket, came)
        key = (socket, came)
        found = self.known.get(key)
        if found is None:
            self.known[key] = FREE  # while it is being worked out
            alone = self.place_of(socket, NOTHING_CAME) if came else FREE
            rows = [row for number in self._there(*key) for row in self._rows(number, came)]
            self.places.append(key)
            found = self.known[key] = len(self.places)
            self._edges[found] = rows
            heights = [self._footing_height[self.rows[row][2]] for row in rows]
            reach = self.reach[alone]
            for row in rows:
                reach |= self.kinds_of(*self.rows[row])
            self.reach.append(reach)
            if came:
                self._alone[found] = alone
                heights.append(self.height[alone] + 1)
            self.height.append(max(heights, default=0))
        return found

    def _there(self, socket: int, came: Came) -> list[int]:
        """Return the members of a class; where something came, those it makes a difference to."""
        members = self.admitting.members(socket)
        if not came:
            return sorted(members)
        return sorted(
            number
            for number in members
            if number in came
            or any(
                self.admitting.touching(one, came) for one in self.tree.candidates[number].sockets
            )
        )

    def _rows(self, number: int, came: Came) -> list[int]:
        key = (number, came)
        found = self._rows_of.get(key)
        if found is None:
            brings = self.tree.candidates[number].brings
            plain = Had.BOUGHT if brings else Had.ANYHOW
            first = self._row(number, plain, came.union(brings))
            found = [first]
            if brings:
                found.append(self._row(number, Had.KEPT, came))
            if number in came:
                found.append(self._row(number, Had.CAME, came))
            self._rows_of[key] = found
        return found

    def kinds_of(self, number: int, _: Had, footing: int) -> int:
        """Return the kinds that a row can hold, as bits."""
        return 1 << self.tree.candidates[number].kind | self.below[footing]

    def _row(self, number: int, had: Had, came: Came) -> int:
        sockets = self.tree.candidates[number].sockets
        below = tuple(self.place_of(one, came) for one in sockets)
        reach = 0
        for socket, place in zip(sockets, below, strict=True):
            reach |= self.reach[place] if place != FREE else self.tree.reach[socket]
        footing = self._footing.get((below, reach))
        if footing is None:
            footing = self._footing[below, reach] = len(self.footings)
            self.footings.append(below)
            self.below.append(reach)
            self._footing_height.append(1 + max(self.height[one] for one in below))
        self.rows.append((number, had, footing))
        return len(self.rows) - 1

    def layers(self) -> list[Layer]:
        """Return places and footings by height."""
        places: defaultdict[int, list[int]] = defaultdict(list)
        for place in range(1, len(self.height)):
            places[self.height[place]].append(place)
        footings: defaultdict[int, list[int]] = defaultdict(list)
        for at, height in enumerate(self._footing_height):
            footings[height].append(at)
        top = max([*places, *footings])
        return [self._layer(footings[at], places[at]) for at in range(top + 1)]

    def _layer(self, footings: list[int], places: list[int]) -> Layer:
        rows = [_ints(self._edges[place]) for place in places]
        return Layer(
            footings=_ints(footings),
            columns=_padded([self.footings[at] for at in footings]),
            places=np.repeat(_ints(places), [len(some) for some in rows]),
            rows=np.concatenate(rows) if rows else _ints(()),
            over=_ints(place for place in places if place in self._alone),
            alone=_ints(self._alone[place] for place in places if place in self._alone),
        )

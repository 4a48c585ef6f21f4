"""The most bonus anything can add, and the least it must add where a bonus is asked for.

At most one of a kind stands in a tree. So what stands in or below a class must earn what is
asked of the whole, less the best of every kind that could stand elsewhere; what earns less is
left out before it is worked out any further.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from wickwright.fit.search.query import PACKING, Aim

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wickwright.fit.search.admitting import Admitting
    from wickwright.fit.search.memory import Memory
    from wickwright.fit.search.query import Query
    from wickwright.fit.search.skeleton import Ints

__all__ = ["Best", "Brightness", "bar", "best_by_kind", "best_of", "reaches"]

_FIELD = PACKING.shifts[Aim.SHORTFALL]
_GUARD = 1 << _FIELD + PACKING.widths[Aim.SHORTFALL]


class Best(NamedTuple):
    """Most bonus by class, and of each candidate with all that can hang on it."""

    classes: list[int]
    candidates: Ints


def best_of(admitting: Admitting, usable: bytes) -> Best:
    """Work out the most bonus of everything.

    Parameters
    ----------
    admitting : Admitting
        Which candidates a class lets in.
    usable : bytes
        1 for each candidate that may be used.

    Returns
    -------
    Best
        No kind twice on a path.
    """
    climb = _Climb(admitting, usable)
    tree = admitting.tree
    classes = [climb.best(socket, 0) for socket in range(len(tree.sockets))]
    light = [it.bonus + sum(classes[at] for at in it.sockets) for it in tree.candidates]
    return Best(classes, np.array(light, dtype=np.int64))


class _Climb:
    """The most bonus of classes, worked out from the leaves up."""

    def __init__(self, admitting: Admitting, usable: bytes) -> None:
        self.admitting, self.tree, self.usable = admitting, admitting.tree, usable
        self.known: dict[tuple[int, int], int] = {}
        self.shapes: dict[frozenset[int], dict[tuple[int, tuple[int, ...]], int]] = {}

    def best(self, socket: int, above: int) -> int:
        """Return the most bonus in a class, none when it is best left empty."""
        key = (self.admitting.alike(socket), above)
        if key not in self.known:
            best = 0
            for (kind, below), bonus in self._best_by_shape(socket).items():
                if not above >> kind & 1:
                    wider = above | (1 << kind & self.tree.climbing)
                    best = max(best, bonus + sum(self.best(s, wider) for s in below))
            self.known[key] = best
        return self.known[key]

    def _best_by_shape(self, socket: int) -> dict[tuple[int, tuple[int, ...]], int]:
        members = self.admitting.members(socket)
        found = self.shapes.get(members)
        if found is None:
            found = self.shapes[members] = {}
            for number in members:
                if self.usable[number]:
                    it = self.tree.candidates[number]
                    shape = (it.kind, it.sockets)
                    found[shape] = max(found.get(shape, it.bonus), it.bonus)
        return found


def best_by_kind(memory: Memory, query: Query, never: Iterable[int] = ()) -> dict[int, int]:
    """Return the most bonus by kind, where there is any.

    Parameters
    ----------
    memory : Memory
        The compiled tree.
    query : Query
        What is asked.
    never : iterable of int
        Candidates that are not placed.

    Returns
    -------
    dict of int to int
        Of all that can be had and stands on such down to the root.
    """
    lanes = memory.lanes
    usable = int.from_bytes(query.usable, "little")
    there = int.from_bytes(query.buyable, "little") | lanes.of(query.owned) | lanes.included
    able = usable & there & ~lanes.of(never)
    best: dict[int, int] = {}
    for number in _reached(memory, query, able) if able & lanes.bright else ():
        it = memory.tree.candidates[number]
        if it.bonus > best.get(it.kind, 0):
            best[it.kind] = it.bonus
    return best


def _reached(memory: Memory, query: Query, able: int) -> list[int]:
    """Return the able candidates that stand on able ones down to the root."""
    admitting = memory.admitting(query.admits, query.loose)
    tree, lanes = memory.tree, memory.lanes
    todo, seen = [admitting.alike(query.root)], {admitting.alike(query.root)}
    found: list[int] = []
    while todo:
        socket = todo.pop()
        fresh = lanes.members(socket, admitting.leniency(socket)) & able
        able &= ~fresh
        numbers = [at for at, flag in enumerate(lanes.flags(fresh)) if flag] if fresh else []
        found += numbers
        below = {admitting.alike(s) for n in numbers for s in tree.candidates[n].sockets} - seen
        seen |= below
        todo += below
    return found


class Brightness:
    """What the classes of one query must earn.

    Parameters
    ----------
    memory : Memory
        The compiled tree.
    query : Query
        What is asked; with a limit on the shortfall, or nothing must be earned.
    """

    def __init__(self, memory: Memory, query: Query) -> None:
        self.tree = memory.tree
        self.asked = -query.most.get(Aim.SHORTFALL, 0)
        self.best = best_by_kind(memory, query) if self.asked > 0 else {}
        self._needs: dict[tuple[int, int], int] = {}

    def need(self, socket: int) -> int:
        """Return the least bonus of all in or below a class that is of use; 0 for any."""
        if self.asked <= 0:
            return 0
        inside = self.tree.reach[socket] & ~self.tree.climbing
        key = (inside, self.tree.outside[socket])
        found = self._needs.get(key)
        if found is None:
            only = inside & ~self.tree.outside[socket]
            elsewhere = sum(most for kind, most in self.best.items() if not only >> kind & 1)
            found = self._needs[key] = max(0, self.asked - elsewhere)
        return found


def bar(need: int) -> int:
    """Return what :func:`reaches` compares labels with.

    Parameters
    ----------
    need : int
        The bonus to be reached.

    Returns
    -------
    int
        A label as costly as can be, with that bonus, and the guard bit of the bonus.
    """
    costs = [(1 << width - 1) - 1 for width in PACKING.widths]
    costs[Aim.SHORTFALL] = -need
    return PACKING.pack(costs) + PACKING.guards


def reaches(label: int, against: int) -> bool:
    """Tell whether the bonus of a label is as much as was asked of :func:`bar`."""
    return bool((against - label) & _GUARD)

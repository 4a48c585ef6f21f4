"""A bonus that several kinds earn jointly, beside the bonus each candidate has by itself.

Sums are what the search is fast at. Where a few kinds earn a bonus together that is no sum,
candidates alike in it are put into sorts; with one sort of each kind picked, the joint bonus
is a constant, and the search does the rest exactly. Picks are tried kind by kind, the best
first, and left alone when nothing can be built with them, or when even their best is beaten.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from wickwright.fit.search.labels import unbeaten
from wickwright.fit.search.possible import possible
from wickwright.fit.search.query import PACKING, Aim, Found, GaveUp, Query, Way
from wickwright.fit.search.solve import solve

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from wickwright.fit.search.memory import Memory
    from wickwright.fit.search.tree import Node

__all__ = ["NONE", "Jointly", "Pick", "solve_jointly"]

NONE = -1
"""Stands for the sort of a kind of which there is nothing."""

Pick = tuple[int, ...]
"""One sort of each kind, by number; :data:`NONE` where none of the kind stands."""


@dataclass(frozen=True, slots=True)
class Jointly:
    """What some kinds earn together.

    Attributes
    ----------
    kinds : tuple of int
        The kinds, in the order they are picked.
    sorts : tuple of tuple of frozenset of int
        Of each kind, its candidates, those that earn alike together; nothing outside these
        sets is ever placed.
    points : mapping of Pick to int
        What each pick earns; a pick that is not there is never placed.
    """

    kinds: tuple[int, ...]
    sorts: tuple[tuple[frozenset[int], ...], ...]
    points: Mapping[Pick, int]


def solve_jointly(memory: Memory, query: Query, jointly: Jointly) -> Found | GaveUp:
    """Find every way that no other beats, the joint bonus counted.

    Parameters
    ----------
    memory : Memory
        A compiled tree in which candidates of the joint kinds have no bonus of their own.
    query : Query
        What is asked; its limit on the shortfall is on the whole bonus.
    jointly : Jointly
        What some kinds earn together.

    Returns
    -------
    Found or GaveUp
        As of :func:`wickwright.fit.search.solve.solve`. Where any way will do, one way.
    """
    picks = _Picks(memory, query, jointly)
    try:
        picks.try_all((), query)
    except _GivenUpError as stopped:
        return GaveUp(stopped.looked_at)
    rows = unbeaten(picks.rows, PACKING.guards)
    return Found(tuple(Way(PACKING.unpack(label), node) for label, node in rows))


class _GivenUpError(Exception):
    """One of the searches gave up."""

    def __init__(self, looked_at: int) -> None:
        super().__init__(looked_at)
        self.looked_at = looked_at


class _Picks:
    """The picks of one query, tried one after the other."""

    def __init__(self, memory: Memory, query: Query, jointly: Jointly) -> None:
        self.memory, self.jointly = memory, jointly
        self.most = query.most.get(Aim.SHORTFALL)
        self.more = memory.best_bonus[query.root]
        self.rows: list[tuple[int, Node]] = []
        self.best = _best_of_prefixes(jointly)

    def try_all(self, pick: Pick, query: Query) -> None:
        """Try every way to go on with a pick."""
        if len(pick) == len(self.jointly.kinds):
            self._settle(pick, query)
            return
        for longer in self._longer(pick):
            if self._done(query) or self._too_dim(self.best[longer]):
                return
            narrower = self._narrowed(longer, query)
            if len(longer) == len(self.jointly.kinds) or self._promising(longer, narrower):
                self.try_all(longer, narrower)

    def _longer(self, pick: Pick) -> list[Pick]:
        """Return the picks that add one kind, the most promising first."""
        sorts = range(NONE, len(self.jointly.sorts[len(pick)]))
        longer = [one for at in sorts if (one := (*pick, at)) in self.best]
        return sorted(longer, key=lambda one: -self.best[one])

    def _done(self, query: Query) -> bool:
        """Whether any way will do, and there is one."""
        return bool(self.rows) and not set(query.aims) - {Aim.SHORTFALL}

    def _too_dim(self, points: int) -> bool:
        return self.most is not None and -(points + self.more) > self.most

    def _narrowed(self, pick: Pick, query: Query) -> Query:
        """Let nothing of the kind picked last stand but its sort."""
        at = len(pick) - 1
        kind, sorts = self.jointly.kinds[at], self.jointly.sorts[at]
        allowed = sorts[pick[at]] if pick[at] != NONE else frozenset()
        usable, buyable = bytearray(query.usable), bytearray(query.buyable)
        for number in self._of_kind(kind) - allowed:
            usable[number] = buyable[number] = 0
        masks = list(query.masks)
        masks[kind] = (masks[kind], allowed)
        return replace(
            query,
            usable=bytes(usable),
            buyable=bytes(buyable),
            masks=tuple(masks),
            required=query.required | (1 << kind if allowed else 0),
        )

    def _of_kind(self, kind: int) -> frozenset[int]:
        return self.memory.of_kind(kind)

    def _promising(self, pick: Pick, query: Query) -> bool:
        """Whether anything can be built, and could be unbeaten at its best.

        Balance is left out of the first question: a part that earns a bonus of its own may
        be what makes a tree stand.
        """
        most = dict(query.most)
        most.pop(Aim.SHORTFALL, None)
        free = replace(query, most=most)
        if not most and possible(self.memory, replace(free, pivots={})) is False:
            return False
        if not self.rows:
            return True
        best = PACKING.pack((0, 0, 0, -self.best[pick], 0))
        ways = self._solved(free)
        return any(not self._beaten(PACKING.pack(way.costs) + best) for way in ways)

    def _beaten(self, label: int) -> bool:
        reach = label + PACKING.guards
        return any((reach - other) & PACKING.guards == PACKING.guards for other, _ in self.rows)

    def _settle(self, pick: Pick, query: Query) -> None:
        """Search with the whole pick made."""
        points = self.jointly.points[pick]
        most = dict(query.most)
        if self.most is not None:
            most[Aim.SHORTFALL] = self.most + points
        for way in self._solved(replace(query, most=most)):
            earned = PACKING.pack((0, 0, 0, -points, 0))
            self.rows.append((PACKING.pack(way.costs) + earned, way.root))

    def _solved(self, query: Query) -> tuple[Way, ...]:
        outcome = solve(self.memory, query)
        if isinstance(outcome, GaveUp):
            raise _GivenUpError(outcome.looked_at)
        return outcome.ways


def _best_of_prefixes(jointly: Jointly) -> dict[Pick, int]:
    """Return the most that each beginning of a pick can still earn."""
    best: dict[Pick, int] = {}
    for pick, points in jointly.points.items():
        for prefix in _prefixes(pick):
            best[prefix] = max(best.get(prefix, points), points)
    return best


def _prefixes(pick: Pick) -> Iterator[Pick]:
    for length in range(1, len(pick) + 1):
        yield pick[:length]

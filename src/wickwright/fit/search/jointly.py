"""A bonus that several kinds earn jointly, beside the bonus each candidate has by itself.

Sums are what the search is fast at. Where a few kinds earn a bonus together that is no sum,
candidates alike in it are put into sorts; with one sort of each kind picked, the joint bonus
is a constant, and the search does the rest exactly. Picks are tried kind by kind, the best
first, and left alone when nothing can be built with them, or when even their best is beaten.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from wickwright.fit.search.brightness import best_by_kind
from wickwright.fit.search.effort import Effort
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


def solve_jointly(
    memory: Memory, query: Query, jointly: Jointly, effort: Effort | None = None
) -> Found | GaveUp:
    """Find every way that no other beats, the joint bonus counted.

    Parameters
    ----------
    memory : Memory
        A compiled tree in which candidates of the joint kinds have no bonus of their own.
    query : Query
        What is asked; its limit on the shortfall is on the whole bonus.
    jointly : Jointly
        What some kinds earn together.
    effort : Effort, optional
        What may be spent on all picks; else as much as the query says.

    Returns
    -------
    Found or GaveUp
        As of :func:`wickwright.fit.search.solve.solve`. Where any way will do, one way.
    """
    picks = _Picks(memory, query, jointly, effort or Effort(query.effort))
    try:
        picks.try_all()
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

    def __init__(self, memory: Memory, query: Query, jointly: Jointly, effort: Effort) -> None:
        self.effort = effort
        self.memory, self.query, self.jointly = memory, query, jointly
        self.most = query.most.get(Aim.SHORTFALL)
        self.more = sum(best_by_kind(memory, query, self._never()).values())
        self.rows: list[tuple[int, Node]] = []
        self.best, self.used = self._beginnings()

    def _never(self) -> frozenset[int]:
        """Candidates of the joint kinds that are in no sort."""
        pairs = zip(self.jointly.kinds, self.jointly.sorts, strict=True)
        return frozenset().union(
            *(self.memory.of_kind(kind).difference(*sorts) for kind, sorts in pairs)
        )

    def _beginnings(self) -> tuple[dict[Pick, int], dict[Pick, list[set[int]]]]:
        """For each beginning of a pick that may be bright enough, how it can go on.

        The most that it can still earn, and the sorts of each kind in the picks it begins.
        """
        best: dict[Pick, int] = {}
        used: dict[Pick, list[set[int]]] = {}
        for pick, points in self.jointly.points.items():
            if not self._too_dim(points):
                for prefix in _prefixes(pick):
                    best[prefix] = max(best.get(prefix, points), points)
                    for sorts, sort in zip(
                        used.setdefault(prefix, [set() for _ in pick]), pick, strict=True
                    ):
                        sorts.add(sort)
        return best, used

    def try_all(self) -> None:
        """Try every pick."""
        if () in self.best and self._promising((), self._narrowed(())):
            self._go_on(())

    def _go_on(self, pick: Pick) -> None:
        """Try every way to go on with a pick."""
        for longer in self._longer(pick):
            if self._done():
                return
            narrower = self._narrowed(longer)
            if self._bright_enough(longer, narrower) and self._promising(longer, narrower):
                if len(longer) == len(self.jointly.kinds):
                    self._settle(longer, narrower)
                else:
                    self._go_on(longer)

    def _longer(self, pick: Pick) -> list[Pick]:
        """Return the picks that add one kind, the most promising first."""
        sorts = range(NONE, len(self.jointly.sorts[len(pick)]))
        longer = [one for at in sorts if (one := (*pick, at)) in self.best]
        return sorted(longer, key=lambda one: -self.best[one])

    def _any_way(self) -> bool:
        return not set(self.query.aims) - {Aim.SHORTFALL}

    def _done(self) -> bool:
        """Whether any way will do, and there is one."""
        return bool(self.rows) and self._any_way()

    def _too_dim(self, points: int) -> bool:
        return self.most is not None and -(points + self.more) > self.most

    def _bright_enough(self, pick: Pick, query: Query) -> bool:
        """Whether what can stand beside a pick could make up what it lacks by itself."""
        if self.most is None or -self.best[pick] <= self.most:
            return True
        more = sum(best_by_kind(self.memory, query).values())
        return -(self.best[pick] + more) <= self.most

    def _narrowed(self, pick: Pick) -> Query:
        """Let nothing of the joint kinds stand but the sorts of the picks begun so."""
        query, jointly = self.query, self.jointly
        usable, buyable = bytearray(query.usable), bytearray(query.buyable)
        masks, required = list(query.masks), query.required
        for kind, sorts, used in zip(jointly.kinds, jointly.sorts, self.used[pick], strict=True):
            allowed = frozenset().union(*(sorts[at] for at in used if at != NONE))
            for number in self.memory.of_kind(kind) - allowed:
                usable[number] = buyable[number] = 0
            masks[kind] = (masks[kind], allowed)
            required |= 0 if NONE in used else 1 << kind
        return replace(
            query,
            usable=bytes(usable),
            buyable=bytes(buyable),
            masks=tuple(masks),
            required=required,
        )

    def _promising(self, pick: Pick, query: Query) -> bool:
        """Whether anything can be built, and could be unbeaten at its best."""
        most = dict(query.most)
        most.pop(Aim.SHORTFALL, None)
        whole = len(pick) == len(self.jointly.kinds)
        if (not whole or self._any_way()) and not self._buildable(query):
            return False
        if not self.rows or whole:
            return True
        best = PACKING.pack((0, 0, 0, -self.best[pick], 0))
        ways = self._solved(replace(query, most=most))
        return any(not self._beaten(PACKING.pack(way.costs) + best) for way in ways)

    def _buildable(self, query: Query) -> bool:
        """Whether there is any way, whatever it costs and however dim it is.

        Balance is left out where a part that earns a bonus of its own may be what makes a
        tree stand.
        """
        free = replace(query, most={}, aims=(), pivots={} if self.more else query.pivots)
        found = possible(self.memory, free, self.effort)
        if isinstance(found, GaveUp):
            raise _GivenUpError(found.looked_at)
        return found

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
        outcome = solve(self.memory, query, self.effort)
        if isinstance(outcome, GaveUp):
            raise _GivenUpError(outcome.looked_at)
        return outcome.ways


def _prefixes(pick: Pick) -> Iterator[Pick]:
    for length in range(len(pick) + 1):
        yield pick[:length]

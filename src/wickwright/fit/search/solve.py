"""The search from end to end: a query in, every unbeaten way out, or word that it gave up."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.fit.search.balance import leverage_of
from wickwright.fit.search.finder import GUARDS, Exhausted, Finder
from wickwright.fit.search.labels import unbeaten
from wickwright.fit.search.query import PACKING, Found, GaveUp, How, Way
from wickwright.fit.search.standing import StandingFinder, leverage

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.fit.search.memory import Memory
    from wickwright.fit.search.query import Query
    from wickwright.fit.search.tree import Front, Node, Row, Tree

__all__ = ["solve", "stands"]


def stands(tree: Tree, query: Query, root: Node) -> bool:
    """Tell whether a filled tree balances.

    Parameters
    ----------
    tree : Tree
        The compiled tree.
    query : Query
        With the pivot of each root whose balance is limited.
    root : Node
        The placed root.

    Returns
    -------
    bool
        True when its leverage about its pivot is not positive, or has no limit.
    """
    pivot = query.pivots.get(root[0])
    return pivot is None or leverage_of(tree, root, -pivot, dry=query.dry) <= 0


def solve(memory: Memory, query: Query) -> Found | GaveUp:
    """Find every way that no other beats.

    Parameters
    ----------
    memory : Memory
        The compiled tree and what is remembered of it.
    query : Query
        What is asked.

    Returns
    -------
    Found or GaveUp
        One way for each unbeaten combination of costs, ascending by the first cost.
    """
    finder = Finder(memory, query)
    try:
        rows = _plain_rows(finder)
        if query.pivots and not all(row[1] and stands(memory.tree, query, row[1]) for row in rows):
            finder = steady = StandingFinder(memory, query, finder.looked)
            rows = _steady_rows(steady)
    except Exhausted:
        return GaveUp(finder.looked)
    return Found(tuple(Way(PACKING.unpack(label), node) for label, node in rows if node))


def _plain_rows(finder: Finder) -> list[Row]:
    """Search without balance."""
    query = finder.query
    kits = frozenset((number, int(How.KEPT)) for number in query.owned)
    fronts = [finder.front(query.root, context, kits) for context in finder.openings()]
    return _finished(finder, fronts)


def _steady_rows(finder: StandingFinder) -> list[Row]:
    """Search with balance."""
    fronts = [_steady_front(finder, finder.query, context) for context in finder.openings()]
    return _finished(finder, fronts)


def _steady_front(finder: StandingFinder, query: Query, context: int) -> Front:
    """Try each root about its own pivot; leverage is settled there and leaves the label."""
    kits = finder.touching(query.root, frozenset((n, int(How.KEPT)) for n in query.owned))
    rows: Front = {}
    for choice in finder.choices(query.root, context, kits):
        pivot = query.pivots.get(choice[1])
        one: Front = {}
        if pivot is None:
            finder.place_unlimited(choice, context, one)
        else:
            finder.stand_one(choice, context, -pivot, 0, 0, one)
        for mask, some in one.items():
            rows.setdefault(mask, []).extend(
                (label - leverage(label), node) for label, node in some
            )
    return rows


def _finished(finder: Finder, fronts: Sequence[Front]) -> list[Row]:
    """Keep complete trees within the limits, and of them the unbeaten."""
    required = finder.query.required
    whole = [
        row
        for front in fronts
        for mask, rows in front.items()
        if mask & required == required
        for row in rows
        if _within(row[0], finder.query)
    ]
    return unbeaten(whole, GUARDS)


def _within(label: int, query: Query) -> bool:
    if not query.most:
        return True
    costs = PACKING.unpack(label)
    return all(costs[aim] <= most for aim, most in query.most.items())

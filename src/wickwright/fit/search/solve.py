"""The search from end to end: a query in, every unbeaten way out, or word that it gave up."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.fit.search.balance import leverage_of
from wickwright.fit.search.caps import Cap
from wickwright.fit.search.effort import Effort, Exhausted
from wickwright.fit.search.finder import GUARDS, Finder
from wickwright.fit.search.labels import unbeaten
from wickwright.fit.search.query import PACKING, Found, GaveUp, Way
from wickwright.fit.search.standing import StandingFinder, leverage

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.fit.search.memory import Memory
    from wickwright.fit.search.query import Query
    from wickwright.fit.search.standing import Choice
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


def solve(memory: Memory, query: Query, effort: Effort | None = None) -> Found | GaveUp:
    """Find every way that no other beats.

    Parameters
    ----------
    memory : Memory
        The compiled tree and what is remembered of it.
    query : Query
        What is asked.
    effort : Effort, optional
        What may be spent; else as much as the query says.

    Returns
    -------
    Found or GaveUp
        One way for each unbeaten combination of costs, ascending by the first cost.
    """
    effort = effort or Effort(query.effort)
    try:
        finder = Finder(memory, query, effort)
        rows = _plain_rows(finder)
        steady = [row for row in rows if row[1] and stands(memory.tree, query, row[1])]
        if query.pivots and len(steady) < len(rows):
            standing = StandingFinder(memory, query, effort)
            rows = [] if standing.leaning.falls() else _steady_rows(standing, steady)
    except Exhausted:
        return GaveUp(effort.spent)
    return Found(tuple(Way(PACKING.unpack(label), node) for label, node in rows if node))


def _plain_rows(finder: Finder) -> list[Row]:
    """Search without balance."""
    root, hand = finder.query.root, finder.in_hand()
    fronts = [finder.front(root, context, hand) for context in finder.openings()]
    return _finished(finder, fronts)


def _steady_rows(finder: StandingFinder, known: list[Row]) -> list[Row]:
    """Search with balance; ways known already that stand are among the unbeaten."""
    rows = known
    for context in finder.openings():
        for choice in finder.choices(finder.query.root, context, finder.in_hand()):
            fresh = _stood(finder, context, choice, tuple(label for label, _ in rows))
            rows = unbeaten([*rows, *_finished(finder, [fresh])], GUARDS, finder.spend)
    return rows


def _stood(finder: StandingFinder, context: int, choice: Choice, known: tuple[int, ...]) -> Front:
    """Try a root about its own pivot; leverage is settled there and leaves the label."""
    rows: Front = {}
    pivot = finder.query.pivots.get(choice[1])
    if pivot is None:
        finder.place_unlimited(choice, context, rows)
        return rows
    limit = Cap((choice[0],), known) if known else None
    finder.stand_one(choice, context, -pivot, 0, 0, rows, limit=limit)
    return {
        mask: [(label - leverage(label), node) for label, node in some]
        for mask, some in rows.items()
    }


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
    return unbeaten(whole, GUARDS, finder.spend)


def _within(label: int, query: Query) -> bool:
    if not query.most:
        return True
    costs = PACKING.unpack(label)
    return all(costs[aim] <= most for aim, most in query.most.items())

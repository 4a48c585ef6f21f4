"""Whether a tree can be filled at all, whatever it costs.

First whether the wanted kinds can stand at all, then whether one tree put together for low
leverage stands, and only then the least leverage of every tree.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from wickwright.fit.search.effort import Effort, Exhausted
from wickwright.fit.search.least import Least
from wickwright.fit.search.prover import Prover
from wickwright.fit.search.query import GaveUp
from wickwright.fit.search.solve import solve
from wickwright.fit.search.witness import Witness

if TYPE_CHECKING:
    from wickwright.fit.search.memory import Memory
    from wickwright.fit.search.query import Query

__all__ = ["possible"]


def possible(memory: Memory, query: Query, effort: Effort | None = None) -> bool | GaveUp:
    """Tell whether there is any way at all.

    Parameters
    ----------
    memory : Memory
        The compiled tree and what is remembered of it.
    query : Query
        What is asked; its aims do not matter.
    effort : Effort, optional
        What may be spent; else as much as the query says.

    Returns
    -------
    bool or GaveUp
        True exactly when :func:`~wickwright.fit.search.solve.solve` finds a way; that it gave
        up is neither.
    """
    effort = effort or Effort(query.effort)
    if not query.most:
        return _proved(memory, query, effort)
    if _proved(memory, replace(query, most={}, aims=(), pivots={}), effort) is False:
        return False
    outcome = solve(memory, query, effort)
    return outcome if isinstance(outcome, GaveUp) else bool(outcome.ways)


def _proved(memory: Memory, query: Query, effort: Effort) -> bool | GaveUp:
    """Tell whether there is any way, limits on costs left out."""
    prover = Prover(memory, query, effort)
    try:
        return any(_opens(prover, context) for context in prover.openings())
    except Exhausted:
        return GaveUp(effort.spent)


def _opens(prover: Prover, context: int) -> bool:
    """Tell whether there is a way that meets one set of demands on the whole."""
    query, required = prover.query, prover.query.required
    if not all(prover.there_is(1 << kind) for kind in range(required.bit_length())):
        return False
    if not any(mask & required == required for mask in prover.can(query.root, context, 0)):
        return False
    return not query.pivots or Witness(prover).stands(context) or Least(prover).balances(context)

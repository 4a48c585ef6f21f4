"""The most bonus that anything a query lets in could add up to."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wickwright.fit.search.memory import Memory
    from wickwright.fit.search.query import Query

__all__ = ["most_bonus"]


def most_bonus(memory: Memory, query: Query, never: Iterable[int] = ()) -> int:
    """Return a bonus that no way of a query exceeds.

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
    int
        The best of each kind that can be had and reached from the root, added up: at most one
        of a kind stands in a tree.
    """
    lanes = memory.lanes
    usable = int.from_bytes(query.usable, "little")
    there = int.from_bytes(query.buyable, "little") | lanes.of(query.owned) | lanes.included
    able = usable & there & ~lanes.of(never)
    if not able & lanes.bright:
        return 0
    best: dict[int, int] = {}
    for number in _reached(memory, query, able):
        it = memory.tree.candidates[number]
        if it.bonus > best.get(it.kind, 0):
            best[it.kind] = it.bonus
    return sum(best.values())


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

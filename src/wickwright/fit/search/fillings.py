"""Joining what stands in several sockets of one candidate."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.fit.search.effort import ROW
from wickwright.fit.search.labels import unbeaten
from wickwright.fit.search.query import PACKING

if TYPE_CHECKING:
    from wickwright.fit.search.effort import Effort
    from wickwright.fit.search.tree import Front, Node

__all__ = ["BARE", "EMPTY", "Joint", "crossed"]

GUARDS = PACKING.guards

Joint = tuple[int, "tuple[Node | None, ...]"]
"""A label and the fillings of several sockets."""

BARE: dict[int, list[Joint]] = {0: [(0, ())]}
"""The fillings of no sockets at all."""

EMPTY: Front = {0: [(0, None)]}
"""The front of a socket that stays empty."""


def crossed(joint: dict[int, list[Joint]], front: Front, effort: Effort) -> dict[int, list[Joint]]:
    """Join every filling so far with every filling of one more socket.

    Parameters
    ----------
    joint : dict
        Fillings of the sockets before, by tracked kinds.
    front : Front
        Fillings of the next socket.
    effort : Effort
        What may be spent on it.

    Returns
    -------
    dict
        Unbeaten joint fillings that hold no kind twice.

    Raises
    ------
    Exhausted
        When there would be more rows than the effort allows.
    """
    out: dict[int, list[Joint]] = {}
    single = len(joint) == 1 and len(front) == 1
    for mask, rows in joint.items():
        for other, more in front.items():
            if not mask & other:
                effort.spend(ROW * len(rows) * len(more))
                joined = [(a + b, (*nodes, node)) for a, nodes in rows for b, node in more]
                if single:
                    plain = len(rows) == 1 or len(more) == 1
                    return {
                        mask | other: joined if plain else unbeaten(joined, GUARDS, effort.spend)
                    }
                out.setdefault(mask | other, []).extend(joined)
    return {mask: unbeaten(rows, GUARDS, effort.spend) for mask, rows in out.items() if rows}

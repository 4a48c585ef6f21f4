"""The leverage of a placed tree about a pivot height: it stands while the sum is not positive.

A body of weight ``m`` at height ``z`` over a base of radius ``R`` stays on a slope ``a``
while ``sum m (z - R / tan a) <= 0`` (source key ``statics``). With the pivot height
``R / tan a`` fixed by the root, every placed candidate adds its own share.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from wickwright.fit.search.tree import Candidate, Node, Tree

__all__ = ["leverage_of", "share"]


def share(candidate: Candidate, arm: int, *, dry: bool) -> int:
    """Return what one candidate adds.

    Parameters
    ----------
    candidate : Candidate
        What is placed.
    arm : int
        Height of its foot above the pivot, negative below.
    dry : bool
        True when varying loads do not count.

    Returns
    -------
    int
        Mass times lever arm, with the worst of the varying loads.
    """
    own = candidate.mass * (arm + candidate.centre)
    if dry or not candidate.loads:
        return own
    return own + max(load.mass * (arm + load.centre) for load in candidate.loads)


def leverage_of(tree: Tree, node: Node, arm: int, *, dry: bool) -> int:
    """Return the leverage of a placed candidate and all that stands on it.

    Parameters
    ----------
    tree : Tree
        The compiled tree.
    node : Node
        The placed candidate.
    arm : int
        Height of its foot above the pivot.
    dry : bool
        True when varying loads do not count.

    Returns
    -------
    int
        Not positive when it stands.
    """
    number, _, below = node
    candidate = tree.candidates[number]
    total = share(candidate, arm, dry=dry)
    for child, rise in zip(below, candidate.rises, strict=True):
        if child is not None:
            total += leverage_of(tree, child, arm + rise, dry=dry)
    return total

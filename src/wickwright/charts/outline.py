"""Curves through a few chosen points, and hatching inside them."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING, Final, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = [
    "Bend",
    "Node",
    "bends",
    "corner",
    "curve",
    "flattened",
    "hatched",
    "is_straight",
    "level",
    "mirrored",
    "upright",
]

_STEPS: Final = 8
_HANDLE: Final = 0.37
_ROUND: Final = 0.55
"""Handles of a quarter of an ellipse [-]."""
_MOST: Final = 0.75
"""Most of the room to the other end that a handle takes [-]."""
_FLAT: Final = 1e-9


class Node(NamedTuple):
    """A point an outline goes through.

    Attributes
    ----------
    x, z : float
        Distance to the right of the axis, and height [m].
    turn : {'corner', 'curve', 'level', 'upright'}
        How it goes through: with a corner, smoothly, or with a level or upright tangent.
    """

    x: float
    z: float
    turn: str = "corner"


Bend = tuple[Node, Node, Node, Node]
"""A cubic: its start, two handles and its end."""


def corner(x: float, z: float) -> Node:
    """Return a point with a corner [m]."""
    return Node(x, z)


def curve(x: float, z: float) -> Node:
    """Return a point passed smoothly [m]."""
    return Node(x, z, "curve")


def level(x: float, z: float) -> Node:
    """Return a point passed with a level tangent [m]."""
    return Node(x, z, "level")


def upright(x: float, z: float) -> Node:
    """Return a point passed with an upright tangent [m]."""
    return Node(x, z, "upright")


def mirrored(nodes: Sequence[Node]) -> tuple[Node, ...]:
    """Return an outline on the other side of the axis."""
    return tuple(Node(-it.x, it.z, it.turn) for it in nodes)


def bends(nodes: Sequence[Node]) -> list[Bend]:
    """Return the pieces of an outline as cubics.

    Parameters
    ----------
    nodes : sequence of Node
        The points it goes through, in order.

    Returns
    -------
    list
        The pieces; a straight one has its handles at its ends. A curve never goes beyond its
        points: where a coordinate turns back, the tangent has no share of it.
    """
    tangents = [_tangent(nodes, at) for at in range(len(nodes))]
    found: list[Bend] = []
    for (a, b), (ta, tb) in zip(pairwise(nodes), pairwise(tangents), strict=True):
        if a.turn == b.turn == "corner":
            found.append((a, a, b, b))
            continue
        first = _handle(a, ta, b, 1.0) if a.turn != "corner" else a
        last = _handle(b, tb, a, -1.0) if b.turn != "corner" else b
        found.append((a, first, last, b))
    return found


def is_straight(piece: Bend) -> bool:
    """Tell whether a piece has its handles at its ends, or all on one upright."""
    ends = piece[0] == piece[1] and piece[2] == piece[3]
    return ends or len({round(it.x, 7) for it in piece}) == 1


def _handle(start: Node, tangent: tuple[float, float], end: Node, way: float) -> Node:
    """A third of the way along the tangent, but never beyond the other end."""
    dx, dz = abs(end.x - start.x), abs(end.z - start.z)
    span = math.hypot(*tangent)
    if span == 0.0:
        return start
    ux, uz = tangent[0] / span, tangent[1] / span
    reach = _ROUND * (dz if tangent[0] == 0.0 else dx) if 0.0 in tangent else 0.0
    reach = reach or _HANDLE * math.hypot(dx, dz)
    for share, room in ((abs(ux), dx), (abs(uz), dz)):
        reach = min(reach, room * _MOST / share) if share > _FLAT else reach
    return Node(start.x + way * ux * reach, start.z + way * uz * reach)


def _tangent(nodes: Sequence[Node], at: int) -> tuple[float, float]:
    here = nodes[at]
    before, after = nodes[max(at - 1, 0)], nodes[min(at + 1, len(nodes) - 1)]
    x = _through(before.x, here.x, after.x)
    z = _through(before.z, here.z, after.z)
    if here.turn == "level":
        return after.x - before.x, 0.0
    if here.turn == "upright":
        return 0.0, after.z - before.z
    return x, z


def _through(before: float, here: float, after: float) -> float:
    """Slope through a point; none where the coordinate turns back there."""
    return 0.0 if (here - before) * (after - here) < 0.0 else after - before


def flattened(nodes: Sequence[Node]) -> tuple[Node, ...]:
    """Return an outline as short straight lines.

    Parameters
    ----------
    nodes : sequence of Node
        The points it goes through.

    Returns
    -------
    tuple of Node
        Corners along it.
    """
    found = [Node(nodes[0].x, nodes[0].z)] if nodes else []
    for piece in bends(nodes):
        if is_straight(piece):
            found.append(Node(piece[-1].x, piece[-1].z))
        else:
            found += [_on(piece, step / _STEPS) for step in range(1, _STEPS + 1)]
    return tuple(found)


def _on(bend: Bend, at: float) -> Node:
    a, b, c, d = bend
    on_a, on_b = (1 - at) ** 3, 3 * at * (1 - at) ** 2
    on_c, on_d = 3 * at**2 * (1 - at), at**3
    return Node(
        on_a * a.x + on_b * b.x + on_c * c.x + on_d * d.x,
        on_a * a.z + on_b * b.z + on_c * c.z + on_d * d.z,
    )


def hatched(
    edge: Sequence[tuple[float, float]], gap: float
) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    """Return slanting lines that fill a closed outline.

    Parameters
    ----------
    edge : sequence of (float, float)
        Its corners [px].
    gap : float
        Between lines, measured level [px].

    Returns
    -------
    list of pairs of points
        Ends of each line [px], at 45 degrees.
    """
    sums = [x + y for x, y in edge]
    if not sums:
        return []
    found = []
    at = math.ceil(min(sums) / gap) * gap
    while at < max(sums):
        cuts = sorted(_cuts(edge, at))
        found += [((x, at - x), (u, at - u)) for x, u in zip(cuts[::2], cuts[1::2], strict=False)]
        at += gap
    return found


def _cuts(edge: Sequence[tuple[float, float]], at: float) -> list[float]:
    """Where the line ``x + y = at`` crosses the edge: each ``x`` [px]."""
    found = []
    for (ax, ay), (bx, by) in pairwise([*edge, edge[0]]):
        low, high = ax + ay - at, bx + by - at
        if (low < 0.0) != (high < 0.0):
            found.append(ax + (bx - ax) * low / (low - high))
    return found

"""The fuel vessel and its collar."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from wickwright.charts.lamp_piece import Ring
from wickwright.charts.outline import corner, curve, flattened, level, upright
from wickwright.charts.shape import MM, Look, Shape, Stroke, box, line, turned

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.charts.lamp_piece import Piece
    from wickwright.charts.outline import Node

__all__ = ["font_shape", "radius_at", "reducer_shape"]

_HUNG = 20 * MM
"""A font whose seat is higher than this above its foot hangs by a flange [m]."""


def font_shape(piece: Piece) -> Shape:
    """Return the shape of a font.

    Parameters
    ----------
    piece : Piece
        The font.

    Returns
    -------
    Shape
        Its strokes; fuel up to the full line where it holds fuel.
    """
    collar = _collar(piece)
    neck = collar.height - 11 * MM
    nodes = (*_vessel(piece, neck), *_neck(collar, neck, piece.tall))
    outside, wall = turned(nodes)
    seen = [outside, *_threads(collar, neck, piece.tall)]
    cut = [wall, *_fuel(piece, nodes), *_tube(piece)]
    if "cap" in piece.marks:
        seen.insert(0, _cap(nodes, nodes[-3], _body(piece)))
    if piece.by and piece.by.height > _HUNG:
        flange = box(0.0, piece.by.height, piece.by.radius + 3 * MM, piece.by.height + 3 * MM)
        seen.append(flange)
        edge = piece.by.radius
        cut.append(box(edge - 5 * MM, piece.by.height, edge + 3 * MM, piece.by.height + 3 * MM))
    return Shape(tuple(seen), tuple(cut), point=_widest(nodes))


def _collar(piece: Piece) -> Ring:
    return (
        piece.takes.get("burner")
        or piece.takes.get("reducer")
        or Ring(piece.tall - 2 * MM, 24 * MM)
    )


def _body(piece: Piece) -> float:
    """Radius of the vessel outside; guessed from its foot where it holds no fuel."""
    if piece.fuel:
        return piece.fuel[2] + 2 * MM
    return 1.1 * piece.by.radius if piece.by else 55 * MM


def _foot(piece: Piece, radius: float) -> tuple[Node, ...]:
    """How the vessel begins: a flat foot, or a bowl where it hangs in a band."""
    if piece.by is None or piece.by.height > _HUNG:
        held = min(radius, piece.by.radius - 2 * MM) if piece.by else radius
        return (corner(0.3 * radius, 0.0), level(0.32 * held, 0.0))
    foot = piece.by.radius
    return (corner(foot, 0.0), corner(foot, 4 * MM))


def _vessel(piece: Piece, neck: float) -> tuple[Node, ...]:
    radius = _body(piece)
    foot = _foot(piece, radius)
    sides: tuple[Node, ...]
    match piece.form:
        case "pear":
            sides = (
                upright(radius * 1.05, 0.3 * neck),
                curve(radius * 0.78, 0.72 * neck),
            )
        case "straight":
            sides = (
                corner(radius, 12 * MM),
                corner(radius, neck - 18 * MM),
                corner(radius - 2 * MM, neck - 15 * MM),
            )
        case "sloping":
            sides = (
                upright(radius * 1.06, 0.16 * neck),
                curve(radius * 0.95, 0.74 * neck),
            )
        case _:
            sides = (upright(radius, 0.44 * neck),)
    return (*foot, *sides)


def _neck(collar: Ring, neck: float, tall: float) -> tuple[Node, ...]:
    outer = collar.radius + 3.5 * MM
    return (level(outer + 4 * MM, neck), corner(outer, neck + 1 * MM), corner(outer, tall))


def _threads(collar: Ring, neck: float, tall: float) -> list[Stroke]:
    """Ridges of a rolled collar, seen from outside as lines across it."""
    outer, room = collar.radius + 3.5 * MM, tall - neck
    return [
        line(corner(0.0, neck + share * room), corner(outer, neck + share * room))
        for share in (0.12, 0.5, 0.75)
    ]


def _cap(nodes: Sequence[Node], neck: Node, radius: float) -> Stroke:
    """The filler cap in the shoulder, nearer to the neck than to the side."""
    at = 0.72 * neck.x + 0.28 * radius
    low, high = (_height_at(nodes, at + out) for out in (6 * MM, 0.0))
    return box(at - 6 * MM, low, at + 6 * MM, high + 5 * MM)


def _height_at(nodes: Sequence[Node], radius: float) -> float:
    """Return how high the shoulder is at a radius [m]."""
    for a, b in pairwise(reversed(flattened(nodes))):
        if a.x <= radius <= b.x and a.x < b.x:
            return a.z + (b.z - a.z) * (radius - a.x) / (b.x - a.x)
    return nodes[-1].z


def radius_at(nodes: Sequence[Node], height: float) -> float:
    """Return how wide an outline is at a height [m]; at its top where it does not reach there."""
    for a, b in pairwise(flattened(nodes)):
        if a.z <= height <= b.z and a.z < b.z:
            return a.x + (b.x - a.x) * (height - a.z) / (b.z - a.z)
    return nodes[-1].x


def _widest(nodes: Sequence[Node]) -> tuple[float, float]:
    it = max(nodes, key=lambda node: node.x)
    return it.x - 2 * MM, it.z + 4 * MM


def _fuel(piece: Piece, nodes: Sequence[Node]) -> list[Stroke]:
    """The fuel, from its bottom to the full line, within the wall."""
    if piece.fuel is None:
        return []
    low, depth, _ = piece.fuel
    start = piece.bore if "tube" in piece.marks else 0.0
    between = [it for it in flattened(nodes) if low < it.z < low + depth]
    ends = [corner(radius_at(nodes, at), at) for at in (low, low + depth)]
    rim = [corner(max(it.x - 2.5 * MM, start), it.z) for it in (ends[0], *between, ends[1])]
    closed = (corner(start, low), *rim, corner(start, low + depth))
    return [Stroke(closed, Look.FUEL), line(corner(start, low + depth), rim[-1])]


def _tube(piece: Piece) -> list[Stroke]:
    """The draft tube, open from below to the burner."""
    if "tube" not in piece.marks:
        return []
    radius = piece.bore or 12 * MM
    return [Stroke((corner(radius, 0.0), corner(radius, piece.tall)), Look.WALL)]


def reducer_shape(piece: Piece) -> Shape:
    """Return the shape of a reducer: a ring with a thread outside and one inside.

    Parameters
    ----------
    piece : Piece
        The reducer.

    Returns
    -------
    Shape
        Its strokes.
    """
    below = piece.by.radius if piece.by else 24 * MM
    above = _collar(piece).radius + 3 * MM
    widest = max(below, above) + 2 * MM
    nodes = (
        corner(below, 0.0),
        corner(below, 0.3 * piece.tall),
        corner(widest, 0.35 * piece.tall),
        corner(widest, 0.6 * piece.tall),
        corner(above, 0.65 * piece.tall),
        corner(above, piece.tall),
    )
    outside, wall = turned(nodes)
    bead = line(corner(0.0, nodes[3].z), nodes[3])
    return Shape((outside, bead), (wall,), point=(widest, 0.5 * piece.tall))

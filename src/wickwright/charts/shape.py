"""The shape of one part: strokes outside on the left of the axis, strokes cut on the right."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from wickwright.charts.outline import corner, mirrored

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.charts.outline import Node

__all__ = [
    "MM",
    "Look",
    "Shape",
    "Stroke",
    "body",
    "box",
    "fingers",
    "left",
    "line",
    "turned",
    "whole",
]

MM = 0.001


class Look(StrEnum):
    """How a stroke is drawn."""

    BODY = "body"
    HALF = "half"
    WALL = "wall"
    LINE = "line"
    ROD = "rod"
    DOTS = "dots"
    SLOTS = "slots"
    FUEL = "fuel"
    BLANK = "blank"


@dataclass(frozen=True, slots=True)
class Stroke:
    """Points and how they are joined; a body and fuel are closed, a half along the axis."""

    nodes: tuple[Node, ...]
    look: Look


@dataclass(frozen=True, slots=True)
class Shape:
    """What is drawn of a part, each stroke from the part's own foot [m].

    Attributes
    ----------
    outside : tuple of Stroke
        Seen from outside, left of the axis.
    cut : tuple of Stroke
        Cut open, right of the axis.
    signed : tuple of Stroke
        What is not the same on both sides and is drawn once.
    point : tuple of (float, float)
        Where a leader points, on the right of the axis [m].
    inner : bool
        Whether it is hidden inside others and is seen only where they are cut.
    """

    outside: tuple[Stroke, ...] = ()
    cut: tuple[Stroke, ...] = ()
    signed: tuple[Stroke, ...] = ()
    point: tuple[float, float] = (0.0, 0.0)
    inner: bool = False

    @property
    def widest(self) -> float:
        """Farthest from the axis that anything of it reaches [m]."""
        strokes = (*self.outside, *self.cut, *self.signed)
        return max((abs(it.x) for stroke in strokes for it in stroke.nodes), default=0.0)


def body(nodes: Sequence[Node]) -> Stroke:
    """Return a closed outline."""
    return Stroke(tuple(nodes), Look.BODY)


def line(*nodes: Node) -> Stroke:
    """Return a thin line."""
    return Stroke(nodes, Look.LINE)


def box(inner: float, low: float, outer: float, high: float) -> Stroke:
    """Return a closed rectangle between two radii and two heights [m]."""
    edges = ((inner, low), (outer, low), (outer, high), (inner, high))
    nodes = tuple(corner(x, z) for x, z in edges)
    return Stroke(nodes, Look.HALF if inner == 0.0 else Look.BODY)


def left(strokes: Sequence[Stroke]) -> tuple[Stroke, ...]:
    """Return strokes on the other side of the axis."""
    return tuple(Stroke(mirrored(it.nodes), it.look) for it in strokes)


def whole(shape: Shape) -> tuple[Stroke, ...]:
    """Return a part from outside, each half joined to its other half.

    Parameters
    ----------
    shape : Shape
        The part.

    Returns
    -------
    tuple of Stroke
        On both sides of the axis; what is drawn once is not among them.
    """
    found: list[Stroke] = []
    for it in shape.outside:
        if it.look is Look.HALF:
            edge = it.nodes[1:-1]
            found.append(Stroke((*edge, *mirrored(edge)[::-1]), Look.BODY))
        else:
            found += [it, *left((it,))]
    return tuple(found)


def turned(nodes: Sequence[Node]) -> tuple[Stroke, Stroke]:
    """Return a body turned on a lathe: its half from outside, and its wall.

    Parameters
    ----------
    nodes : sequence of Node
        From its foot to its top, right of the axis.

    Returns
    -------
    tuple of Stroke
        The half, closed along the axis; the wall, open.
    """
    half = [corner(0.0, nodes[0].z), *nodes, corner(0.0, nodes[-1].z)]
    return Stroke(tuple(half), Look.HALF), Stroke(tuple(nodes), Look.WALL)


def fingers(radius: float, foot: float, tall: float = 20 * MM) -> tuple[Stroke, ...]:
    """Return spring fingers that hold a glass: one from the side and one from the front.

    Parameters
    ----------
    radius : float
        Of the glass they hold [m].
    foot, tall : float
        Where they begin, and how tall they are [m].

    Returns
    -------
    tuple of Stroke
        The strokes.
    """
    out, top = radius + 1.2 * MM, foot + tall
    side = (
        corner(out, foot),
        corner(out + 2.4 * MM, foot),
        corner(out + 1.6 * MM, foot + 0.75 * tall),
        corner(out + 5.0 * MM, top),
        corner(out + 3.0 * MM, top),
        corner(out, foot + 0.75 * tall),
    )
    return body(side), box(0.42 * radius, foot, 0.68 * radius, foot + 0.9 * tall)

"""Parts seen along their axis, and strokes turned round it."""

from __future__ import annotations

import math

from wickwright.charts.outline import corner, flattened, level, upright
from wickwright.charts.shape import Stroke, body

__all__ = ["band", "disc", "oblong", "round_the_axis", "spoke", "spun", "waved"]


def disc(radius: float, x: float = 0.0, z: float = 0.0) -> Stroke:
    """Return a full circle, closed [m]."""
    return oblong(radius, radius, x, z)


def oblong(wide: float, tall: float, x: float = 0.0, z: float = 0.0) -> Stroke:
    """Return an ellipse by half its width and half its height, about a middle [m]."""
    return body(
        (
            level(x, z + tall),
            upright(x + wide, z),
            level(x, z - tall),
            upright(x - wide, z),
            level(x, z + tall),
        )
    )


def spun(stroke: Stroke, angle: float) -> Stroke:
    """Return a stroke turned about the axis, anticlockwise [rad]; its curves as short lines."""
    turn, side = math.cos(angle), math.sin(angle)
    nodes = flattened(stroke.nodes)
    return Stroke(
        tuple(corner(it.x * turn - it.z * side, it.x * side + it.z * turn) for it in nodes),
        stroke.look,
    )


def round_the_axis(stroke: Stroke, count: int, first: float = 0.0) -> tuple[Stroke, ...]:
    """Return a stroke as often as it stands round the axis, the first turned by an angle [rad]."""
    return tuple(spun(stroke, first + 2 * math.pi * at / count) for at in range(count))


def spoke(inner: float, outer: float, half: float) -> Stroke:
    """Return a closed bar that lies to the right of the axis: two radii, half its width [m]."""
    ends = ((inner, -half), (outer, -half), (outer, half), (inner, half))
    return body([corner(x, z) for x, z in ends])


def band(outer: float, inner: float) -> tuple[Stroke, Stroke]:
    """Return a ring as its outer disc and what is open inside it [m]."""
    return disc(outer), disc(inner)


def waved(radius: float, deep: float, count: int) -> Stroke:
    """Return a closed edge that goes in and out: its mean radius, how far [m], how often."""
    steps = 8 * count
    turns = [2 * math.pi * at / steps for at in range(steps)]
    edge = [(radius + deep * math.cos(count * turn), turn) for turn in turns]
    return body([corner(r * math.cos(turn), r * math.sin(turn)) for r, turn in edge])

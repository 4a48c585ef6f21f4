"""Chimneys, shades, what carries them and bells, drawn to tell one from another."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from wickwright.charts.compared import lit, plain
from wickwright.charts.glass_shapes import bell_shape, holder_shape, shade_shape
from wickwright.charts.outline import corner, curve
from wickwright.charts.plans import band, disc, round_the_axis, spoke, waved
from wickwright.charts.shape import MM, Look, Stroke, body, box, left, line, whole
from wickwright.charts.view import View, count_in

if TYPE_CHECKING:
    from wickwright.charts.compared import Touch
    from wickwright.charts.lamp_piece import Piece
    from wickwright.charts.outline import Node

__all__ = ["bell_view", "foot_view", "holder_view", "joint_view", "shade_view"]

_GLASS: Final = 2.2 * MM
_SHOWN: Final = 40 * MM
"""How much of the foot of a chimney is drawn [m]."""


def foot_view(piece: Piece, _: str) -> View | None:
    """Draw the foot of a chimney from the front and from underneath, with its grooves."""
    if piece.by is None:
        return None
    foot = piece.by.radius
    glass = Stroke((*_torn(foot), corner(-foot, 0.0), corner(foot, 0.0)), Look.BODY)
    outer, inner = band(foot, foot - _GLASS)
    plan = plain((outer, inner))
    seen = "Above from the front, below from underneath; the glass goes on above."
    if not piece.lugs:
        return View(plain((glass,)), plan, seen)
    first = 0.5 * math.pi
    notches = round_the_axis(
        spoke(foot - _GLASS - 0.6 * MM, foot + 0.6 * MM, 3.5 * MM), piece.lugs, first
    )
    front = (*plain((glass,)), *lit(_grooves(foot, piece.lugs)))
    note = "How wide and long the grooves are is not in the fit book."
    return View(front, (*plan, *lit(notches)), seen, note)


def _torn(foot: float) -> tuple[Node, ...]:
    """The upper edge where the drawing ends, from right to left."""
    return (
        corner(foot, _SHOWN),
        curve(0.5 * foot, _SHOWN + 3 * MM),
        curve(0.0, _SHOWN),
        curve(-0.5 * foot, _SHOWN - 3 * MM),
        corner(-foot, _SHOWN),
    )


def _grooves(foot: float, count: int) -> tuple[Stroke, ...]:
    """Grooves that can be seen from the front: up from the edge, then to one side."""
    wide, turn = 3.5 * MM / foot, 0.9 * math.pi / count
    ends = ((-wide, 0.0), (-wide, 9.0), (turn, 9.0), (turn, 5.0), (wide, 5.0), (wide, 0.0))
    found = []
    for at in range(count):
        middle = 2 * math.pi * at / count
        turns = [(middle + way, z * MM) for way, z in ends]
        if all(math.cos(way) > 0.0 for way, _ in turns):
            found.append(body([corner(foot * math.sin(way), z) for way, z in turns]))
    return tuple(found)


def holder_view(piece: Piece, answer: str) -> View | None:
    """Draw a shade holder from the front and from above: a full ring, or open arms."""
    end = piece.takes.get("shade")
    if end is None or piece.by is None:
        return None
    foot, shape = piece.by.radius, holder_shape(piece)
    hub_outer, hub_inner = band(foot + 2.5 * MM, foot)
    seen = "Above from the front, below from above."
    count = count_in(answer) if piece.form == "arms" else 3
    if count is None:
        return None
    if piece.form == "arms":
        out = max(it.x for it in shape.outside[1].nodes)
        arms = round_the_axis(_arm(foot, out), count, 0.5 * math.pi)
        plan: tuple[Touch, ...] = (*plain((hub_outer, hub_inner)), *lit(arms))
        band_seen, *arms_seen = whole(shape)
        return View((*lit(arms_seen), *plain((band_seen,))), plan, seen)
    arms = round_the_axis(_arm(foot, end.radius), count, 0.5 * math.pi)
    outer, inner = band(end.radius + 3 * MM, end.radius - 5 * MM)
    plan = (*lit((outer,)), *plain((inner, *arms, hub_outer, hub_inner)))
    *arms_seen, ring = whole(shape)
    return View((*plain(arms_seen), *lit((ring,))), plan, seen)


def _arm(foot: float, out: float) -> Stroke:
    return Stroke((corner(foot + 2.5 * MM, 0.0), corner(out, 0.0)), Look.ROD)


def joint_view(_: Piece, answer: str) -> View | None:
    """Draw where an arm meets a ring: with rivet heads, or smooth."""
    ring = box(-40 * MM, -9 * MM, 40 * MM, 9 * MM)
    arm = body(
        [
            corner(-8 * MM, -40 * MM),
            corner(8 * MM, -40 * MM),
            corner(8 * MM, 9 * MM),
            corner(-8 * MM, 9 * MM),
        ]
    )
    if "rivet" in answer:
        heads = (disc(3 * MM, 0.0, -4.5 * MM), disc(3 * MM, 0.0, 4.5 * MM))
        return View((*plain((ring, arm)), *lit(heads)))
    if "smooth" in answer:
        fillet = (
            corner(-8 * MM, -40 * MM), corner(8 * MM, -40 * MM), curve(8.5 * MM, -18 * MM),
            corner(18 * MM, -9 * MM), corner(-18 * MM, -9 * MM), curve(-8.5 * MM, -18 * MM),
            corner(-8 * MM, -40 * MM),
        )  # fmt: skip
        return View((*plain((ring,)), *lit((Stroke(fillet, Look.BODY),))))
    return None


def shade_view(piece: Piece, _: str) -> View | None:
    """Draw the outline of a shade."""
    note = "How wide it is away from its fitter is drawn as usual for the form."
    return View(plain(whole(shade_shape(piece))), note=note)


def bell_view(piece: Piece, answer: str) -> View | None:
    """Draw a bell from the front and its edge from underneath: plain, or fluted."""
    shape = bell_shape(piece)
    edge = shape.widest
    front = plain(whole(shape))
    seen = "Above from the front, below from underneath."
    note = "How wide the bell is, is not in the fit book."
    if "flute" not in answer:
        return View(front, (*lit((disc(edge),)), *plain((disc(0.92 * edge),))), seen, note)
    flutes = tuple(
        line(corner(share * edge, 0.0), corner(0.25 * share * edge, 0.4 * piece.tall))
        for share in (0.2, 0.5, 0.78)
    )
    plan = (*lit((waved(0.96 * edge, 0.04 * edge, 16),)), *plain((disc(0.86 * edge),)))
    return View((*front, *plain((*flutes, *left(flutes)))), plan, seen, note)

"""Burners and galleries, drawn to tell one from another."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from wickwright.charts.burner_shapes import burner_shape, gallery_shape
from wickwright.charts.compared import lit, plain
from wickwright.charts.outline import corner
from wickwright.charts.plans import band, disc, round_the_axis, spoke
from wickwright.charts.shape import MM, Look, Shape, Stroke, body, left, whole
from wickwright.charts.view import View, count_in

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickwright.charts.compared import Touch
    from wickwright.charts.lamp_piece import Piece, Ring

__all__ = [
    "basket_view",
    "burner_rim_view",
    "flame_view",
    "gallery_rim_view",
    "mantle_ring_view",
    "post_view",
    "seat_view",
]

_ABOVE: Final = "Above from the front, below from above."
_FINGERS: Final = 8


def _box(left: float, low: float, right: float, high: float) -> Stroke:
    return body([corner(left, low), corner(right, low), corner(right, high), corner(left, high)])


def _front(shape: Shape) -> tuple[Touch, ...]:
    return (*plain(shape.signed), *plain(whole(shape)))


def _rim(ring: Ring) -> tuple[Touch, ...]:
    return lit((_box(-ring.radius, ring.height - 2.5 * MM, ring.radius, ring.height),))


def flame_view(piece: Piece, _: str) -> View | None:
    """Draw what comes up in the middle of a burner: a round wick, a flat one, a lampholder."""
    shape = burner_shape(piece)
    wick = piece.takes.get("wick")
    plan: tuple[Touch, ...]
    if piece.form == "electric":
        cap = piece.takes["bulb"].radius if "bulb" in piece.takes else 13 * MM
        plan = (*plain((disc(20 * MM),)), *lit((disc(18 * MM),)), *plain((disc(cap),)))
        low = max(it.z for it in shape.outside[1].nodes)
        holder = _box(-18 * MM, low, 18 * MM, piece.tall - 4 * MM)
        front = (*plain(whole(shape)), *lit((holder,)))
    elif wick is None:
        return None
    else:
        high = piece.tall + 5 * MM
        front = (
            *lit((_box(-wick.radius, piece.tall - 6 * MM, wick.radius, high),)),
            *_front(shape),
        )
        flat = _box(-wick.radius, -1.8 * MM, wick.radius, 1.8 * MM)
        outer, inner = band(wick.radius, wick.radius - 3.2 * MM)
        plan = lit((flat,)) if piece.form == "flat" else (*lit((outer,)), *plain((inner,)))
    return View(front, (*plain((disc(_deck(piece)),)), *plan), _ABOVE)


def basket_view(piece: Piece, answer: str) -> View | None:
    """Draw the band of holes of a burner, where words tell what they are like."""
    wide = _deck(piece)
    strip = _box(-wide, 0.0, wide, _STRIP)
    rows = count_in(answer) or 0
    if "lozenge" in answer:
        holes = _pattern(wide, rows, _lozenge)
    elif "slot" in answer:
        holes = _pattern(wide, max(rows, 1), _slot)
    elif "plate" in answer:
        holes = _pattern(wide, 5, _small)
    elif "round" in answer:
        holes = _pattern(wide, rows, _round)
    elif answer == "none":
        holes = ()
    else:
        return None
    note = "How wide the basket is, is to scale; how large and how many the holes are is not."
    return View((*plain((strip,)), *lit(holes)), note=note)


_STRIP: Final = 36 * MM
_MANY: Final = 4


def _deck(piece: Piece) -> float:
    """Radius of the widest of a burner: its basket, or the deck its glass stands on."""
    if "gallery" in piece.takes:
        return piece.takes["gallery"].radius
    return piece.takes["chimney"].radius + 2.5 * MM if "chimney" in piece.takes else 33 * MM


def _round(x: float, z: float) -> Stroke:
    return disc(2.4 * MM, x, z)


def _small(x: float, z: float) -> Stroke:
    return disc(1.0 * MM, x, z)


def _slot(x: float, z: float) -> Stroke:
    return _box(x - 1.6 * MM, z - 11 * MM, x + 1.6 * MM, z + 11 * MM)


def _lozenge(x: float, z: float) -> Stroke:
    ends = ((0.0, -4.2 * MM), (2.8 * MM, 0.0), (0.0, 4.2 * MM), (-2.8 * MM, 0.0))
    return body([corner(x + dx, z + dz) for dx, dz in ends])


def _pattern(wide: float, rows: int, hole: Callable[[float, float], Stroke]) -> tuple[Stroke, ...]:
    """Rows of holes, every other one half a step along."""
    step = (9.0 if rows < _MANY else 13.0) * MM
    count = int((2 * wide - 8 * MM) / step)
    found = []
    for row in range(rows):
        z = _STRIP * (row + 0.5) / rows
        along = count - row % 2
        found += [hole((at - 0.5 * (along - 1)) * step, z) for at in range(along)]
    return tuple(found)


def post_view(piece: Piece, _: str) -> View | None:
    """Draw a burner cut open and from above, with the post a mantle stands on or without it."""
    shape = burner_shape(piece)
    tube = piece.takes["wick"].radius + 2 * MM if "wick" in piece.takes else 18 * MM
    post = piece.takes.get("mantle")
    cut = [it for it in shape.cut if post is None or not _on_axis(it)]
    front = (*plain(shape.signed), *plain(left(shape.outside)), *plain(cut))
    plan = plain((disc(_deck(piece)), disc(tube)))
    seen = "Above from the front, its right half cut open; below from above."
    if post is None:
        return View(front, plan, seen)
    stem = _box(0.0, 0.4 * piece.tall, post.radius, post.height)
    return View((*front, *lit((stem,))), (*plan, *lit((disc(post.radius),))), seen)


def _on_axis(stroke: Stroke) -> bool:
    return stroke.look is Look.WALL and all(it.x == 0.0 for it in stroke.nodes)


def burner_rim_view(piece: Piece, _: str) -> View | None:
    """Draw a burner with the rim a shade holder stands on, or without it."""
    ring = piece.takes.get("holder")
    front = _front(burner_shape(piece))
    return View((*front, *_rim(ring)) if ring else front)


def gallery_rim_view(piece: Piece, _: str) -> View | None:
    """Draw a gallery with the rim a shade holder stands on, or without it."""
    ring = piece.takes.get("holder")
    front = _front(_seatless(piece))
    return View((*front, *_rim(ring)) if ring else front, note=_LEFT_OFF)


_LEFT_OFF: Final = "What holds the glass is left off."


def _seatless(piece: Piece) -> Shape:
    """Draw a gallery without what holds its glass, which another question asks for."""
    shape = gallery_shape(_bare(piece))
    return replace(shape, outside=shape.outside[3 if piece.lugs else 2 :])


def _bare(piece: Piece) -> Piece:
    """Take the ring of the mantle off a gallery, so that it hides nothing."""
    takes = {kind: it for kind, it in piece.takes.items() if kind != "mantle"}
    seat = piece.takes.get("chimney")
    return replace(
        piece, takes=takes, tall=min(piece.tall, seat.height + 20 * MM) if seat else piece.tall
    )


def _slots(seat: Ring, out: float, count: int) -> tuple[Stroke, ...]:
    """Lugs on the near side, as they are seen from the front: one of them is at the back."""
    low, half = seat.height + 6 * MM, 5.5 * MM / out
    turns = [math.pi + 2 * math.pi * at / count for at in range(count)]
    return tuple(
        _box(out * math.sin(turn - half), low, out * math.sin(turn + half), low + 2.5 * MM)
        for turn in turns
        if math.cos(turn) > 0.1  # noqa: PLR2004 - not edge-on
    )


def mantle_ring_view(piece: Piece, _: str) -> View | None:
    """Draw a gallery from the front and from above, with the ring of its mantle or open."""
    seat = piece.takes.get("chimney")
    if seat is None:
        return None
    ring = piece.takes.get("mantle")
    front = _front(_seatless(piece))
    plan: tuple[Touch, ...] = plain((disc(_wall(piece, seat)), disc(seat.radius - 5 * MM)))
    if ring is None:
        return View(front, plan, _ABOVE, _LEFT_OFF)
    hoop = _box(-ring.radius, ring.height, ring.radius, max(piece.tall, ring.height + 3 * MM))
    wires = [
        Stroke(
            (
                corner(side * (seat.radius - 6 * MM), seat.height),
                corner(side * ring.radius, ring.height),
            ),
            Look.WALL,
        )
        for side in (-1, 1)
    ]
    spokes = round_the_axis(
        Stroke((corner(ring.radius, 0.0), corner(seat.radius - 5 * MM, 0.0)), Look.WALL),
        3,
        0.5 * math.pi,
    )
    outer, inner = band(ring.radius + 1.5 * MM, ring.radius - 1.5 * MM)
    plan = (*plan, *lit(spokes), *lit((outer,)), *plain((inner,)))
    return View((*lit(wires), *lit((hoop,)), *front), plan, _ABOVE, _LEFT_OFF)


def _wall(piece: Piece, seat: Ring) -> float:
    skirt = piece.by.radius if piece.by else seat.radius + 4 * MM
    return max(skirt, seat.radius + 3 * MM) + 1.5 * MM


def seat_view(piece: Piece, _: str) -> View | None:
    """Draw a gallery from the front and from above: spring fingers, or lugs to turn under."""
    seat = piece.takes.get("chimney")
    if seat is None:
        return None
    shape = gallery_shape(_bare(piece))
    held, rest = shape.outside[:2], shape.outside[3 if piece.lugs else 2 :]
    out = seat.radius + 1.2 * MM
    rings = (disc(_wall(piece, seat)), disc(out), disc(seat.radius - 5 * MM))
    if piece.lugs:
        holds = round_the_axis(spoke(out - 5 * MM, out, 5.5 * MM), piece.lugs, 0.5 * math.pi)
        front = (*plain(whole(Shape((*held, *rest)))), *lit(_slots(seat, out, piece.lugs)))
        return View(front, (*plain(rings), *lit(holds)), _ABOVE)
    holds = round_the_axis(
        spoke(out - 1 * MM, out + 2.6 * MM, 6 * MM), _FINGERS, math.pi / _FINGERS
    )
    front = (*lit(whole(Shape(held))), *plain(whole(Shape(rest))))
    note = "How many fingers there are is not in the fit book."
    return View(front, (*plain(rings), *lit(holds)), _ABOVE, note)

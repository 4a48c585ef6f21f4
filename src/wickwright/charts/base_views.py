"""What a lamp stands or hangs by, drawn to tell one kind from another."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from wickwright.charts.base_shapes import base_shape
from wickwright.charts.compared import lit, plain
from wickwright.charts.outline import corner, curve, level
from wickwright.charts.plans import disc, oblong, round_the_axis
from wickwright.charts.shape import MM, Look, Stroke, body, whole
from wickwright.charts.view import View, count_in

if TYPE_CHECKING:
    from wickwright.charts.compared import Touch
    from wickwright.charts.lamp_piece import Piece

__all__ = ["plate_view", "stance_view"]

_SHORT: Final = 0.17
"""Height from which on a base is drawn shortened [m]."""


def stance_view(piece: Piece, _: str) -> View | None:
    """Draw how a base stands or hangs; what is tall is drawn shortened, with a break across it."""
    drawn = _shortened(piece)
    shape = base_shape(drawn, 0.0)
    behind = drawn.form in {"hung", "fixed"}
    front = (
        (*lit(shape.signed), *plain(whole(shape)))
        if behind
        else (*plain(whole(shape)), *lit(shape.signed))
    )
    plan, seen = _from_below(drawn)
    if drawn.tall < piece.tall:
        return View((*front, *_break(drawn)), plan, seen, "It is drawn shortened.")
    note = "How far the wall is away is not in the fit book." if drawn.form == "fixed" else ""
    return View(front, plan, seen, note)


def _shortened(piece: Piece) -> Piece:
    """Take out the middle; what stands above the middle comes down with the top."""
    cut = piece.tall - _SHORT
    if cut <= 0.0:
        return piece
    takes = {
        kind: ring._replace(height=ring.height - cut) if ring.height > 0.5 * piece.tall else ring
        for kind, ring in piece.takes.items()
    }
    return replace(piece, tall=_SHORT, takes=takes)


def _break(piece: Piece) -> tuple[Touch, ...]:
    """A white strip with wavy edges where the middle was taken out."""
    half = 0.5 * base_shape(piece, 0.0).widest + 20 * MM if piece.form == "hung" else 22 * MM
    middle, deep = (0.55 if piece.form == "hung" else 0.62) * piece.tall, 4 * MM
    edges = [
        Stroke(
            (
                corner(-half, middle + at),
                curve(-0.5 * half, middle + at + deep),
                curve(0.0, middle + at),
                curve(0.5 * half, middle + at - deep),
                corner(half, middle + at),
            ),
            Look.LINE,
        )
        for at in (-4 * MM, 4 * MM)
    ]
    gap = Stroke((*edges[0].nodes, *edges[1].nodes[::-1]), Look.BLANK)
    return plain((gap, *edges))


def _from_below(piece: Piece) -> tuple[tuple[Touch, ...], str]:
    """The round foot or the toes; what hangs is not seen from below."""
    seat = piece.takes.get("font")
    hub = disc(0.6 * min(seat.radius if seat else piece.edge, piece.edge))
    seen = "Above from the front, below from underneath."
    if piece.form == "feet":
        toe = 0.13 * piece.edge
        leg = Stroke((corner(0.0, 0.0), corner(piece.edge - toe, 0.0)), Look.ROD)
        first = math.pi / piece.feet
        legs = round_the_axis(leg, piece.feet, first)
        toes = round_the_axis(disc(toe, piece.edge - toe), piece.feet, first)
        return (*plain(legs), *plain((hub,)), *lit(toes)), seen
    if piece.form in {"hung", "fixed"}:
        return (), "Seen from the front."
    return (*lit((disc(piece.edge),)), *plain((disc(0.9 * piece.edge), hub))), seen


def plate_view(_: Piece, answer: str) -> View | None:
    """Draw the outline of a plate on the wall and its screw holes, where words tell them."""
    wide, tall = (20 * MM, 34 * MM) if "small" in answer else (34 * MM, 58 * MM)
    if "oval" in answer:
        plate = oblong(wide, tall)
    elif "round" in answer:
        wide = tall = 46 * MM
        plate = disc(wide)
    elif "square" in answer:
        wide = tall = 44 * MM
        plate = body([corner(x * wide, z * tall) for x, z in _SQUARE])
    elif "bar" in answer:
        wide, tall = 12 * MM, 66 * MM
        plate = body([corner(x * wide, z * tall) for x, z in _SQUARE])
    else:
        return None
    holes = count_in(answer) if "hole" in answer else 0
    knot = _knot() if "knot" in answer else ()
    drawn = (*plain((plate,)), *lit((*_holes(holes or 0, tall), *knot)))
    return View(drawn, seen="Seen from the front, off the wall.")


_SQUARE: Final = ((-1, -1), (1, -1), (1, 1), (-1, 1))


def _holes(count: int, tall: float) -> tuple[Stroke, ...]:
    out = 0.0 if count == 1 else 0.72 * tall
    hole = disc(4.5 * MM, out)
    return round_the_axis(hole, count, 0.5 * math.pi) if count else ()


def _knot() -> tuple[Stroke, ...]:
    """A cord crossed over itself, with two ends."""
    return (
        Stroke(
            (
                corner(-36 * MM, -14 * MM),
                curve(-4 * MM, -8 * MM),
                curve(18 * MM, 8 * MM),
                level(2 * MM, 24 * MM),
                curve(-16 * MM, 8 * MM),
                curve(4 * MM, -8 * MM),
                corner(36 * MM, -14 * MM),
            ),
            Look.ROD,
        ),
    )

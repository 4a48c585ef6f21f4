"""What a lamp stands or hangs by: feet, stems, floor stands, arms on the wall, frames."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from wickwright.charts.lamp_piece import Ring
from wickwright.charts.outline import corner, curve, level, upright
from wickwright.charts.shape import MM, Look, Shape, Stroke, body, box, left, line, turned

if TYPE_CHECKING:
    from wickwright.charts.lamp_piece import Piece
    from wickwright.charts.outline import Node

__all__ = ["WALL", "base_shape", "feet_across"]

WALL: Final = 0.16
"""From the axis to the wall where nothing wider stands on the arm [m]; drawn, not measured."""
_LOW, _TALL, _FLOOR = 0.05, 0.16, 0.6
_CUP: Final = 4 * MM


def base_shape(piece: Piece, room: float) -> Shape:
    """Return the shape of a base.

    Parameters
    ----------
    piece : Piece
        The base.
    room : float
        Farthest that anything it carries reaches from the axis [m].

    Returns
    -------
    Shape
        Its strokes.
    """
    match piece.form:
        case "hung":
            return _frame(piece, room)
        case "fixed":
            return _arm(piece, room)
        case "feet":
            return _on_feet(piece)
        case _:
            return _round(piece)


def feet_across(edge: float, feet: int) -> tuple[float, ...]:
    """Return where the feet stand, seen so that the nearest edge lies on the right.

    Parameters
    ----------
    edge : float
        Radius of the circle through the feet [m].
    feet : int
        How many.

    Returns
    -------
    tuple of float
        Distances to the right of the axis, the right one first [m]; feet behind each other
        once.
    """
    step = 2 * math.pi / feet
    places = [edge * math.cos(step / 2 + step * at) for at in range(feet)]
    return tuple(sorted({round(x, 6) for x in places}, reverse=True))


def _seat(piece: Piece) -> Ring:
    """Where the font rests; guessed from the base where the book has no port."""
    return piece.takes.get("font") or Ring(0.9 * piece.tall, 45 * MM)


def _cup(piece: Piece) -> tuple[Node, ...]:
    """The ring round the foot of the font, from below the recess to the top."""
    seat = _seat(piece)
    outer = seat.radius + _CUP
    low = max(seat.height - 6 * MM, 0.3 * piece.tall)
    return (level(outer - 3 * MM, low), corner(outer, low), corner(outer, piece.tall))


def _recess(piece: Piece) -> Stroke:
    seat = _seat(piece)
    return Stroke(
        (
            corner(0.0, seat.height),
            corner(seat.radius, seat.height),
            corner(seat.radius, piece.tall),
            corner(seat.radius + _CUP, piece.tall),
        ),
        Look.WALL,
    )


def _round(piece: Piece) -> Shape:
    nodes = (*_round_foot(piece), *_cup(piece))
    outside, wall = turned(nodes)
    rim = line(corner(0.0, nodes[1].z), nodes[1])
    lip = line(corner(0.0, nodes[-2].z), nodes[-2])
    return Shape((outside, rim, lip), (wall, _recess(piece)), point=_half_way(piece))


def _half_way(piece: Piece) -> tuple[float, float]:
    return 0.75 * piece.edge, 4 * MM


def _round_foot(piece: Piece) -> tuple[Node, ...]:
    edge, seat, tall = piece.edge, _seat(piece), piece.tall
    rim = (corner(edge, 0.0), corner(edge, min(7 * MM, 0.2 * tall)))
    if tall < _LOW:
        return (*rim, curve(0.5 * edge + 0.5 * seat.radius, 0.45 * tall))
    inside = level(edge - 4 * MM, 10 * MM)
    if tall < _TALL:
        return (*rim, inside, upright(0.44 * min(edge, seat.radius), 0.5 * tall))
    return (*rim, inside, *_stem(piece, 10 * MM))


def _stem(piece: Piece, low: float) -> tuple[Node, ...]:
    """A slender column with a knop, from a height up to below the cup."""
    seat, tall = _seat(piece), piece.tall
    thin = max(9 * MM, min(14 * MM, 0.02 * tall + 5 * MM))
    span = seat.height - low
    knop = low + 0.5 * span
    return (
        upright(thin + 3 * MM, low + min(0.16 * span, 45 * MM)),
        corner(thin, knop - 10 * MM),
        level(thin, knop - 9 * MM),
        upright(thin + 8 * MM, knop),
        level(thin, knop + 9 * MM),
        corner(thin, knop + 10 * MM),
        upright(thin + 1 * MM, seat.height - 62 * MM),
    )


def _on_feet(piece: Piece) -> Shape:
    hub = 0.2 * piece.tall if piece.tall > _FLOOR else 0.42 * piece.tall
    seat = _seat(piece)
    if piece.tall > _TALL:
        column: tuple[Node, ...] = (corner(18 * MM, hub - 10 * MM), *_stem(piece, hub))
    else:
        column = (corner(0.42 * seat.radius, hub - 6 * MM), upright(0.42 * seat.radius, hub))
    outside, wall = turned((*column, *_cup(piece)))
    legs = tuple(_leg(x, hub, column[0].x) for x in feet_across(piece.edge, piece.feet))
    lip = line(corner(0.0, _cup(piece)[1].z), _cup(piece)[1])
    point = (feet_across(piece.edge, piece.feet)[0] - 5 * MM, 5 * MM)
    return Shape((outside, lip), (wall, _recess(piece)), legs, point)


def _leg(x: float, hub: float, waist: float) -> Stroke:
    """One leg, bowed, from the hub to a toe that ends at ``x``."""
    side = math.copysign(1.0, x)
    far = abs(x)
    start = min(waist, 0.75 * far)
    thick = max(5 * MM, 0.05 * far)
    span = far - start
    outer = (
        corner(start, hub + 0.9 * thick),
        curve(start + 0.55 * span, 0.72 * hub),
        curve(far - 0.12 * span, 9 * MM),
        corner(far, 5 * MM),
        corner(far, 0.0),
    )
    inner = (
        corner(far - max(12 * MM, 0.1 * far), 0.0),
        curve(start + 0.5 * span, 0.72 * hub - thick),
        corner(start, hub - 0.8 * thick),
    )
    return body([it._replace(x=side * it.x) for it in (*outer, *inner)])


def _band(piece: Piece) -> tuple[Stroke, Stroke, Stroke]:
    """The band a font hangs or stands in: half from outside, and its cut on the right."""
    seat = _seat(piece)
    low = 0.0 if piece.form == "hung" else max(0.0, seat.height - 12 * MM)
    high = seat.height + 2 * MM
    cut = box(seat.radius - 3 * MM, low, seat.radius + _CUP, high)
    return (
        box(0.0, low, seat.radius + _CUP, high),
        cut,
        line(corner(0.0, high - 3 * MM), corner(seat.radius + _CUP, high - 3 * MM)),
    )


def _frame(piece: Piece, room: float) -> Shape:
    """Two rods from the band up to a crown, and the hook it all hangs by."""
    seat, tall = _seat(piece), piece.tall
    half, cut, bead = _band(piece)
    across = max(seat.radius + 26 * MM, room + 14 * MM)
    crown = tall - 40 * MM
    rod = Stroke(
        (
            level(seat.radius + _CUP, seat.height - 7 * MM),
            upright(across, seat.height + 45 * MM),
            upright(across, 0.74 * tall),
            level(7 * MM, crown),
        ),
        Look.ROD,
    )
    signed = (*_crown(crown, tall), *_hook(piece, crown), *left((rod,)), rod)
    point = (across, 0.55 * tall)
    return Shape((half, bead), (cut,), signed, point)


def _crown(crown: float, tall: float) -> tuple[Stroke, ...]:
    ball = (
        level(0.0, crown - 6 * MM),
        upright(9 * MM, crown + 2 * MM),
        level(0.0, crown + 10 * MM),
        upright(-9 * MM, crown + 2 * MM),
        level(0.0, crown - 6 * MM),
    )
    middle = 0.5 * (crown + 10 * MM + tall)
    ring = (
        level(0.0, crown + 10 * MM),
        upright(9 * MM, middle),
        level(0.0, tall),
        upright(-9 * MM, middle),
        level(0.0, crown + 10 * MM),
    )
    return Stroke(ring, Look.ROD), body(ball)


def _hook(piece: Piece, start: float) -> tuple[Stroke, ...]:
    """The hook for a bell, from what it hangs on."""
    bell = piece.takes.get("bell")
    if bell is None:
        return ()
    bend = (
        corner(0.0, start),
        corner(0.0, bell.height + 6 * MM),
        curve(5 * MM, bell.height + 1 * MM),
        level(0.0, bell.height - 5 * MM),
        upright(-5 * MM, bell.height),
    )
    return (Stroke(bend, Look.WALL),)


def _arm(piece: Piece, room: float) -> Shape:
    """A plate on the wall, an arm to the ring of the font, and one above for a bell."""
    seat = _seat(piece)
    half, cut, bead = _band(piece)
    wall = -max(WALL, room + 30 * MM)
    inner = wall + 7 * MM
    plate = box(wall, 0.0, inner, piece.tall)
    reach = -(seat.radius + _CUP)
    bell = piece.takes.get("bell")
    spring = 0.75 * (piece.tall if bell is None else min(piece.tall, 3.5 * seat.height))
    arms = [
        Stroke(
            (corner(inner, seat.height - 5 * MM), corner(reach, seat.height - 5 * MM)), Look.ROD
        ),
        Stroke(
            (
                upright(inner, spring),
                level(reach - 4 * MM, seat.height + 1 * MM),
            ),
            Look.ROD,
        ),
    ]
    if bell is not None:
        arms.append(_upper_arm(piece, inner, bell.height))
    hook = _hook(piece, piece.tall - 9 * MM)
    screws = [_screw(0.5 * (wall + inner), share * piece.tall) for share in (0.12, 0.9)]
    return Shape((half, bead), (cut,), (*arms, plate, *screws, *hook), (seat.radius, seat.height))


def _upper_arm(piece: Piece, inner: float, hook: float) -> Stroke:
    low = hook - 60 * MM
    top = piece.tall - 6 * MM
    return Stroke(
        (upright(inner, low), level(0.4 * inner, top), corner(0.0, top)),
        Look.ROD,
    )  # fmt: skip


def _screw(x: float, z: float) -> Stroke:
    return line(corner(x - 2 * MM, z), corner(x + 2 * MM, z))

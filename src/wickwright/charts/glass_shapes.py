"""Glass, cloth and what carries it: chimney, bulb, shade holder, shade, smoke bell."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickwright.charts.lamp_piece import Ring
from wickwright.charts.outline import corner, curve, level, upright
from wickwright.charts.shape import MM, Look, Shape, Stroke, body, box, line, turned

if TYPE_CHECKING:
    from wickwright.charts.lamp_piece import Piece
    from wickwright.charts.outline import Node

__all__ = ["bell_shape", "bulb_shape", "chimney_shape", "grooves", "holder_shape", "shade_shape"]

_BELL: Final = 58 * MM
"""Radius of a smoke bell [m]; drawn, not measured."""


def chimney_shape(piece: Piece) -> Shape:
    """Return the shape of a chimney: a wide foot, a shoulder, a long tube.

    Parameters
    ----------
    piece : Piece
        The chimney; ``bore`` and ``shoulder`` are those of the book where it has them.

    Returns
    -------
    Shape
        Its strokes.
    """
    foot = piece.by.radius if piece.by else 30 * MM
    tube = piece.bore or 0.68 * foot
    middle = piece.shoulder or 0.3 * piece.tall
    half = min(22 * MM, 0.4 * middle)
    nodes = (
        corner(foot, 0.0),
        upright(foot, middle - half),
        upright(tube, middle + half),
        corner(tube, piece.tall),
    )
    outside, wall = turned(nodes)
    seen = [outside, *(grooves(foot) if piece.lugs else ())]
    return Shape(tuple(seen), (wall,), point=(tube, 0.82 * piece.tall))


def grooves(foot: float) -> tuple[Stroke, ...]:
    """Return a groove in the foot of a glass that is dropped in and turned.

    Parameters
    ----------
    foot : float
        Radius of the foot [m].

    Returns
    -------
    tuple of Stroke
        Up from the edge, then to one side.
    """
    turn = (
        corner(0.28 * foot, 0.0),
        corner(0.28 * foot, 8.5 * MM),
        corner(0.75 * foot, 8.5 * MM),
        corner(0.75 * foot, 5 * MM),
        corner(0.45 * foot, 5 * MM),
        corner(0.45 * foot, 0.0),
    )
    return (Stroke(turn, Look.LINE),)


def bulb_shape(piece: Piece) -> Shape:
    """Return the shape of a bulb on its cap.

    Parameters
    ----------
    piece : Piece
        The bulb.

    Returns
    -------
    Shape
        Its strokes.
    """
    cap = piece.by.radius if piece.by else 13 * MM
    candle = piece.form == "candle"
    wide = 17.5 * MM if candle else 30 * MM
    low = 24 * MM
    nodes = (
        corner(0.7 * cap, 0.0),
        corner(cap, 4 * MM),
        corner(cap, low),
        curve(cap + 1 * MM, low + 6 * MM),
        upright(wide, (0.5 if candle else 0.66) * piece.tall),
        *((curve(0.35 * wide, 0.93 * piece.tall),) if candle else ()),
        corner(0.0, piece.tall) if candle else level(0.0, piece.tall),
    )
    outside, wall = turned(nodes)
    threads = [line(corner(0.0, z * MM), corner(cap, z * MM)) for z in (8, 13, 18, 24)]
    stem = 0.55 * piece.tall
    filament = line(
        corner(2 * MM, low), corner(7 * MM, stem), corner(3.5 * MM, stem + 5 * MM),
        corner(0.0, stem + 1 * MM),
    )  # fmt: skip
    return Shape((outside, *threads), (wall, filament), point=(0.8 * wide, 0.62 * piece.tall))


def holder_shape(piece: Piece) -> Shape:
    """Return the shape of a shade holder: a full ring on arms, or open arms.

    Parameters
    ----------
    piece : Piece
        The holder.

    Returns
    -------
    Shape
        Its strokes.
    """
    foot = piece.by.radius if piece.by else 40 * MM
    end = piece.takes.get("shade") or Ring(0.92 * piece.tall, 60 * MM)
    cut = box(foot, 0.0, foot + 2.5 * MM, 7 * MM)
    band = box(0.0, 0.0, foot + 2.5 * MM, 7 * MM)
    if piece.form == "arms":
        crook = _open_arm(piece, foot, end)
        on_arm = crook[0].nodes[2]
        return Shape((band, *crook), (cut, *crook), point=(on_arm.x, on_arm.z))
    arm = (
        corner(foot + 2.5 * MM, 4 * MM),
        curve(0.45 * foot + 0.55 * end.radius, 12 * MM),
        curve(0.93 * end.radius, 0.62 * end.height),
        corner(end.radius - 1 * MM, end.height - 2 * MM),
    )
    rod = Stroke(arm, Look.ROD)
    ring = box(0.0, end.height - 3 * MM, end.radius + 3 * MM, piece.tall)
    ring_cut = body(
        [
            corner(end.radius - 5 * MM, end.height - 3 * MM),
            corner(end.radius + 3 * MM, end.height - 3 * MM),
            corner(end.radius + 3 * MM, piece.tall),
            corner(end.radius + 0.5 * MM, piece.tall),
            corner(end.radius + 0.5 * MM, end.height),
            corner(end.radius - 5 * MM, end.height),
        ]
    )
    return Shape((band, rod, ring), (cut, rod, ring_cut), point=(arm[1].x, arm[1].z))


def _open_arm(piece: Piece, foot: float, end: Ring) -> tuple[Stroke, ...]:
    """One arm that ends in a crook the wire frame of a shade lies in."""
    bend = (
        corner(foot + 2.5 * MM, 4 * MM),
        curve(0.6 * foot + 0.4 * end.radius + 9 * MM, 0.3 * end.height),
        curve(0.25 * foot + 0.75 * end.radius + 6 * MM, 0.8 * end.height),
        corner(end.radius - 5 * MM, end.height),
    )
    tip = line(
        corner(end.radius + 6 * MM, end.height - 1 * MM), corner(end.radius + 6 * MM, piece.tall)
    )
    return Stroke(bend, Look.ROD), tip


def shade_shape(piece: Piece) -> Shape:
    """Return the shape of a shade, on its fitter or hung from its frame.

    Parameters
    ----------
    piece : Piece
        The shade.

    Returns
    -------
    Shape
        Its strokes. The book has the fitter and the height; how wide it is elsewhere is drawn
        as is usual for its form.
    """
    fitter = piece.by or Ring(0.0, 70 * MM)
    if fitter.height > 0.25 * piece.tall:
        return _framed(piece, fitter)
    nodes = (corner(fitter.radius, 0.0), corner(fitter.radius, 10 * MM), *_glass(piece, fitter))
    outside, wall = turned(nodes)
    bead = line(corner(0.0, 10 * MM), corner(fitter.radius, 10 * MM))
    return Shape((outside, bead), (wall,), point=(nodes[2].x, nodes[2].z))


def _glass(piece: Piece, fitter: Ring) -> tuple[Node, ...]:
    wide, tall = fitter.radius, piece.tall
    throat = max(0.34 * wide, 32 * MM)
    if piece.form == "tulip":
        return (
            upright(wide * 1.03, 0.36 * tall),
            upright(wide * 0.72, 0.8 * tall),
            corner(wide * 0.94, tall),
        )
    bulge = 1.05 if piece.form == "wide" else 1.02
    return (
        upright(wide * bulge, 0.22 * tall),
        level(throat, tall - 6 * MM),
        corner(throat, tall),
    )


def _framed(piece: Piece, fitter: Ring) -> Shape:
    """A cone or drum of cloth or parchment on a wire frame."""
    top = max(1.2 * fitter.radius, 52 * MM)
    low = top + 0.5 * piece.tall
    if piece.form == "drum":
        top, low = 0.62 * piece.tall, 0.66 * piece.tall
    at = low + (top - low) * fitter.height / piece.tall
    outside, wall = turned((corner(low, 0.0), corner(top, piece.tall)))
    trims = [
        line(corner(0.0, z), corner(low + (top - low) * z / piece.tall, z))
        for z in (5 * MM, piece.tall - 5 * MM)
    ]
    if "pleats" in piece.marks:
        trims += [line(corner(low * s, 0.0), corner(top * s, piece.tall)) for s in _PLEATS]
    if "fringe" in piece.marks:
        trims.append(Stroke((corner(0.0, 4 * MM), corner(low, 4 * MM)), Look.SLOTS))
    spoke = Stroke((corner(fitter.radius, fitter.height), corner(at, fitter.height)), Look.WALL)
    return Shape((outside, *trims), (wall, spoke), point=(0.5 * (low + at), 0.5 * fitter.height))


_PLEATS: Final = (0.15, 0.3, 0.45, 0.6, 0.74, 0.86, 0.95)


def bell_shape(piece: Piece) -> Shape:
    """Return the shape of a smoke bell, hung by its eye.

    Parameters
    ----------
    piece : Piece
        The bell.

    Returns
    -------
    Shape
        Its strokes.
    """
    eye = piece.by.height if piece.by else 0.94 * piece.tall
    throat = eye - 8 * MM
    nodes = (
        corner(_BELL, 0.0),
        curve(0.38 * _BELL, 0.42 * throat),
        upright(4 * MM, throat),
    )
    outside, wall = turned(nodes)
    loop = (
        level(0.0, throat),
        upright(5 * MM, 0.5 * (throat + piece.tall)),
        level(0.0, piece.tall),
    )
    return Shape(
        (outside, Stroke(loop, Look.WALL)),
        (wall, Stroke(loop, Look.WALL)),
        point=(0.38 * _BELL, 0.42 * throat),
    )

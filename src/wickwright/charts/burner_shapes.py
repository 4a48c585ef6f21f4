"""The burner and what stands in it: wick, spreader, gallery, mantle."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickwright.charts.lamp_piece import Ring, State
from wickwright.charts.outline import corner, curve, flattened, level, upright
from wickwright.charts.shape import MM, Look, Shape, Stroke, box, fingers, line, turned

if TYPE_CHECKING:
    from wickwright.charts.lamp_piece import Piece
    from wickwright.charts.outline import Node

__all__ = [
    "burner_shape",
    "gallery_shape",
    "lugs",
    "mantle_shape",
    "spreader_shape",
    "wick_shape",
]

_THICK: Final = 3.2 * MM
"""Of a tubular wick [m]; drawn, not measured."""


def _screw(piece: Piece) -> float:
    return piece.by.radius if piece.by else 23 * MM


def burner_shape(piece: Piece) -> Shape:
    """Return the shape of a burner: for a mantle, for a flat wick, or for a bulb.

    Parameters
    ----------
    piece : Piece
        The burner.

    Returns
    -------
    Shape
        Its strokes.
    """
    match piece.form:
        case "electric":
            return _electric(piece)
        case "flat":
            return _flat(piece)
        case _:
            return _round(piece)


def _bowl(screw: float, radius: float, high: float) -> tuple[Node, ...]:
    """From the screw outwards to the band of holes."""
    return (
        corner(screw, 0.0),
        corner(screw, 5 * MM),
        upright(radius, 0.5 * high),
        corner(radius, high),
    )


def _rim(piece: Piece) -> tuple[Stroke, ...]:
    """The rim a shade holder stands on."""
    ring = piece.takes.get("holder")
    if ring is None:
        return ()
    return (box(0.0, ring.height - 2.5 * MM, ring.radius, ring.height),)


def _rim_cut(piece: Piece, inner: float) -> tuple[Stroke, ...]:
    ring = piece.takes.get("holder")
    if ring is None or ring.radius <= inner:
        return ()
    return (box(inner, ring.height - 2.5 * MM, ring.radius, ring.height),)


def _knob(piece: Piece, start: float, out: float) -> tuple[Stroke, ...]:
    """The wick raiser on the left: a stem and a milled knob."""
    high = 0.2 * piece.tall
    stem = Stroke((corner(-start, high), corner(-out, high)), Look.ROD)
    head = box(-out - 5 * MM, high - 10 * MM, -out, high + 10 * MM)
    mills = [
        line(corner(-out - 5 * MM, high + at * MM), corner(-out, high + at * MM))
        for at in (-6, -2, 2, 6)
    ]
    return (stem, head, *mills)


def _holes(piece: Piece, radius: float, low: float, high: float) -> tuple[Stroke, ...]:
    """The band of holes or slots that meters the outer air."""
    if "slots" in piece.marks:
        middle = 0.5 * (low + high)
        return (Stroke((corner(3 * MM, middle), corner(0.95 * radius, middle)), Look.SLOTS),)
    rows = 3 if "rows" in piece.marks else 2
    return tuple(
        Stroke((corner(3 * MM, z), corner(0.95 * radius, z)), Look.DOTS)
        for z in (low + (high - low) * (at + 0.5) / rows for at in range(rows))
    )


def _round(piece: Piece) -> Shape:
    basket = piece.takes.get("gallery") or Ring(0.55 * piece.tall, 35 * MM)
    wick = piece.takes.get("wick") or Ring(0.65 * piece.tall, 15 * MM)
    inner = piece.takes.get("spreader") or Ring(0.7 * piece.tall, 7 * MM)
    tube = wick.radius + 2 * MM
    bowl = _bowl(_screw(piece), basket.radius, basket.height)
    deck = (curve(tube + 8 * MM, basket.height + 3 * MM), corner(tube, basket.height + 12 * MM))
    outside, wall = turned((*bowl, *deck, corner(tube, piece.tall)))
    cut_wall = Stroke(bowl, Look.WALL)
    tubes = [
        Stroke((corner(tube, 4 * MM), corner(tube, piece.tall)), Look.WALL),
        Stroke((corner(inner.radius, 0.0), corner(inner.radius, inner.height)), Look.WALL),
        line(corner(tube, basket.height + 2 * MM), corner(basket.radius, basket.height - 1 * MM)),
    ]
    del wall
    holes = _holes(piece, basket.radius, 0.55 * basket.height, 0.95 * basket.height)
    post = _post(piece)
    return Shape(
        (outside, *holes, *_rim(piece)),
        (cut_wall, *tubes, *_rim_cut(piece, basket.radius), *post),
        _knob(piece, _screw(piece), basket.radius + 13 * MM),
        (basket.radius - 2 * MM, 0.5 * basket.height),
    )


def _post(piece: Piece) -> tuple[Stroke, ...]:
    """A post in the middle that a mantle on a stem stands on."""
    mantle = piece.takes.get("mantle")
    if mantle is None:
        return ()
    return (Stroke((corner(0.0, 0.4 * piece.tall), corner(0.0, mantle.height)), Look.WALL),)


def _flat(piece: Piece) -> Shape:
    seat = piece.takes.get("chimney") or Ring(0.5 * piece.tall, 30 * MM)
    wick = piece.takes.get("wick") or Ring(0.7 * piece.tall, 12 * MM)
    deck = seat.radius + 2.5 * MM
    bowl = (
        *_bowl(_screw(piece), deck, seat.height - 2 * MM),
        corner(deck + 1.5 * MM, seat.height - 2 * MM),
        corner(deck + 1.5 * MM, seat.height),
    )
    dome = (
        corner(seat.radius - 5 * MM, seat.height),
        upright(seat.radius - 5.5 * MM, 0.75 * seat.height + 0.25 * piece.tall),
        level(0.3 * seat.radius, piece.tall),
    )
    outside, wall = turned(bowl)
    cone, cone_wall = turned(dome)
    springs = fingers(seat.radius, seat.height, 15 * MM)
    holes = _holes(piece, deck, 0.55 * seat.height, 0.9 * seat.height)
    tube = Stroke(
        (corner(wick.radius, 2 * MM), corner(wick.radius, wick.height + 6 * MM)), Look.WALL
    )
    return Shape(
        (cone, outside, *holes, *_rim(piece), springs[0]),
        (wall, cone_wall, springs[0], tube, *_rim_cut(piece, deck)),
        _knob(piece, _screw(piece), deck + 22 * MM),
        (deck - 2 * MM, 0.5 * seat.height),
    )


def _electric(piece: Piece) -> Shape:
    seat = piece.takes.get("chimney")
    socket = piece.takes.get("bulb") or Ring(0.66 * piece.tall, 13 * MM)
    wide = seat.radius + 3 * MM if seat else 33 * MM
    deck = seat.height if seat else 0.56 * piece.tall
    outside, wall = turned((*_bowl(_screw(piece), wide, deck - 3 * MM), corner(wide, deck)))
    shell = (
        corner(18 * MM, deck),
        corner(18 * MM, piece.tall - 4 * MM),
        corner(20 * MM, piece.tall - 4 * MM),
        corner(20 * MM, piece.tall),
    )
    holder, holder_wall = turned(shell)
    floor = Stroke((corner(0.0, socket.height), corner(18 * MM, socket.height)), Look.WALL)
    springs = fingers(seat.radius, seat.height)[:1] if seat else ()
    return Shape(
        (holder, outside, *springs, *_rim(piece)),
        (wall, holder_wall, floor, *springs, *_rim_cut(piece, wide)),
        _cord(piece, wide),
        (wide - 2 * MM, 0.5 * deck),
    )


def _cord(piece: Piece, wide: float) -> tuple[Stroke, ...]:
    """The flex that leaves the body on the left, and the switch above it."""
    high = 0.22 * piece.tall
    flex = (
        corner(-0.85 * wide, high),
        upright(-wide - 42 * MM, high - 38 * MM),
        upright(-wide - 36 * MM, high - 75 * MM),
    )
    turn = (corner(-wide, 0.42 * piece.tall), corner(-wide - 12 * MM, 0.42 * piece.tall))
    return (Stroke(flex, Look.WALL), Stroke(turn, Look.ROD))


def wick_shape(piece: Piece) -> Shape:
    """Return the shape of a wick, seen only where the lamp is cut open.

    Parameters
    ----------
    piece : Piece
        The wick.

    Returns
    -------
    Shape
        Its strokes.
    """
    outer = piece.by.radius if piece.by else 14 * MM
    inner = 0.0 if piece.form == "flat" else outer - _THICK
    middle = (corner(0.5 * (inner + outer), 0.0), corner(0.5 * (inner + outer), piece.tall))
    if piece.state is State.NEW and inner > 0.0:
        strip = [Stroke(middle, Look.WALL)]
    else:
        strip = [box(inner, 0.0, outer, piece.tall), line(*middle)]
    whole = box(0.0, 0.0, outer, piece.tall)
    high = 0.3 * piece.tall
    return Shape((whole,), tuple(strip), point=(0.5 * (inner + outer), high), inner=True)


def spreader_shape(piece: Piece) -> Shape:
    """Return the shape of a flame spreader: a thimble with small holes.

    Parameters
    ----------
    piece : Piece
        The spreader.

    Returns
    -------
    Shape
        Its strokes.
    """
    radius = piece.by.radius if piece.by else 6 * MM
    cap = radius + 1.5 * MM
    nodes = (
        corner(radius, 0.0),
        corner(radius, 0.35 * piece.tall),
        corner(cap, 0.45 * piece.tall),
        upright(cap, 0.85 * piece.tall),
        level(0.0, piece.tall),
    )
    outside, wall = turned(nodes)
    holes = [
        Stroke((corner(1 * MM, z), corner(cap - 1 * MM, z)), Look.DOTS)
        for z in (0.55 * piece.tall, 0.75 * piece.tall)
    ]
    return Shape((outside, *holes), (wall,), point=(0.6 * cap, 0.7 * piece.tall))


def gallery_shape(piece: Piece) -> Shape:
    """Return the shape of a gallery: skirt, seat of the glass, ring of the mantle.

    Parameters
    ----------
    piece : Piece
        The gallery.

    Returns
    -------
    Shape
        Its strokes; spring fingers or the lugs of a seat that turns.
    """
    seat = piece.takes.get("chimney") or Ring(0.25 * piece.tall, 31 * MM)
    skirt = piece.by.radius if piece.by else seat.radius + 4 * MM
    wide = max(skirt, seat.radius + 3 * MM) + 1.5 * MM
    nodes = (
        corner(skirt, 0.0),
        corner(skirt, seat.height - 3 * MM),
        corner(wide, seat.height - 3 * MM),
        corner(wide, seat.height),
        corner(seat.radius + 1.2 * MM, seat.height + 1 * MM),
    )
    outside, wall = turned(nodes)
    ledge = Stroke(
        (corner(seat.radius - 5 * MM, seat.height), corner(wide, seat.height)), Look.WALL
    )
    high = piece.tall if piece.takes.get("mantle") is None else seat.height + 12 * MM
    hold = (
        lugs(seat, high)
        if piece.lugs
        else fingers(seat.radius, seat.height, piece.tall - seat.height)
    )
    ring, ring_cut = _mantle_ring(piece, seat)
    return Shape(
        (*ring, *hold, outside, *_rim(piece)),
        (wall, ledge, hold[0], *ring_cut, *_rim_cut(piece, wide)),
        point=(wide - 1 * MM, seat.height - 1 * MM),
    )


def lugs(seat: Ring, high: float) -> tuple[Stroke, ...]:
    """Return the upstand of a seat that turns: a plain wall with a lug bent inwards.

    Parameters
    ----------
    seat : Ring
        Where the glass stands.
    high : float
        Top of the upstand above the gallery's foot [m].

    Returns
    -------
    tuple of Stroke
        The wall with its lug, cut; the wall and a lug from the front.
    """
    out, low, lug = seat.radius + 1.2 * MM, seat.height, seat.height + 6 * MM
    side = (
        corner(out, low),
        corner(out + 2 * MM, low),
        corner(out + 2 * MM, high),
        corner(out, high),
        corner(out, lug + 2.5 * MM),
        corner(out - 3.5 * MM, lug + 2.5 * MM),
        corner(out - 3.5 * MM, lug),
        corner(out, lug),
    )
    front = box(0.0, low, out + 2 * MM, high)
    slot = box(0.36 * out, lug, 0.66 * out, lug + 2.5 * MM)
    return Stroke(side, Look.BODY), front, slot


def _mantle_ring(piece: Piece, seat: Ring) -> tuple[list[Stroke], list[Stroke]]:
    """The wires that carry the ring, outside and cut."""
    ring = piece.takes.get("mantle")
    if ring is None:
        return [], []
    wire = Stroke(
        (
            corner(seat.radius - 5 * MM, seat.height),
            curve(seat.radius - 8 * MM, 0.5 * (seat.height + ring.height)),
            curve(ring.radius + 4 * MM, ring.height - 3 * MM),
            corner(ring.radius, ring.height),
        ),
        Look.WALL,
    )
    top = box(0.0, ring.height, ring.radius, piece.tall)
    cut = box(ring.radius - 1.5 * MM, ring.height, ring.radius, piece.tall)
    return [wire, top], [wire, cut]


def mantle_shape(piece: Piece) -> Shape:
    """Return the shape of a mantle: a thimble of web, open below.

    Parameters
    ----------
    piece : Piece
        The mantle; ``bore`` is the radius its area tells.

    Returns
    -------
    Shape
        Its strokes.
    """
    own = piece.by.radius if piece.by else 11 * MM
    stemmed = piece.form == "stem"
    web = piece.bore or (11 * MM if stemmed else own)
    start = web if stemmed else own
    nodes = (
        corner(start, 0.0),
        upright(web * 1.04, 0.3 * piece.tall),
        upright(web * 0.96, 0.62 * piece.tall),
        level(0.0, piece.tall),
    )
    outside, wall = turned(nodes)
    cut = [wall]
    if stemmed:
        cut.append(Stroke((corner(0.0, 0.0), corner(0.0, piece.tall)), Look.WALL))
    return Shape((outside, *_web(nodes)), tuple(cut), point=(0.9 * web, 0.45 * piece.tall))


def _web(nodes: tuple[Node, ...]) -> list[Stroke]:
    """Threads round the mantle and up it."""
    edge, tall = flattened(nodes), nodes[-1].z
    round_it = []
    for at in range(1, 9):
        height = tall * at / 9
        near = min(edge, key=lambda it: abs(it.z - height))
        round_it.append(line(corner(0.0, height), corner(near.x, height)))
    share = 0.55
    up = [it for it in edge if it.z < 0.96 * tall]
    return [*round_it, line(*(corner(share * it.x, it.z) for it in up))]

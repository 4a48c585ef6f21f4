"""From shapes in metres to SVG: weights, fills, dashes and hatching."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby
from typing import TYPE_CHECKING, Final

from wickwright.charts.lamp_piece import State
from wickwright.charts.outline import bends, flattened, hatched, is_straight
from wickwright.charts.shape import Look, whole
from wickwright.charts.svg import group, tag

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from wickwright.charts.lamp_piece import Piece
    from wickwright.charts.outline import Node
    from wickwright.charts.shape import Shape, Stroke
    from wickwright.charts.svg import Point

__all__ = ["GREY", "INK", "YELLOW", "Paper", "inked", "laid_aside", "traced"]

INK: Final = "#222"
GREY: Final = "#777"
YELLOW: Final = "#f4c430"
_FUEL: Final = "#dcdcdc"
_DASH: Final = "5 3"
_DOTTED: Final = "1.6 2.4"
_HATCH: Final = 9.0


@dataclass(frozen=True, slots=True)
class Paper:
    """Where metres fall on the paper.

    Attributes
    ----------
    scale : float
        Pixels for one metre [px/m].
    axis, ground : float
        Where the axis and height 0 are [px].
    """

    scale: float
    axis: float
    ground: float

    def at(self, x: float, z: float) -> Point:
        """Return where a place is on the paper [px]."""
        return self.axis + x * self.scale, self.ground - z * self.scale


def traced(nodes: Sequence[Node], paper: Paper, foot: float = 0.0, *, closed: bool = False) -> str:
    """Write an outline as the data of a path.

    Parameters
    ----------
    nodes : sequence of Node
        The points it goes through.
    paper : Paper
        Where they fall.
    foot : float
        Height of the part's foot [m].
    closed : bool
        Whether the end is joined to the start.

    Returns
    -------
    str
        Path data, in tenths of a pixel, each point told from the one before.
    """

    def tenths(it: Node) -> tuple[int, int]:
        x, y = paper.at(it.x, foot + it.z)
        return round(10 * x), round(10 * y)

    at = tenths(nodes[0])
    said = [f"M{_pair(at)}"]
    for piece in bends(nodes):
        ends = [tenths(it) for it in (piece[3:] if is_straight(piece) else piece[1:])]
        letter = "l" if is_straight(piece) else "c"
        said.append(letter + " ".join(_pair((x - at[0], y - at[1])) for x, y in ends))
        at = ends[-1]
    return "".join(said) + ("Z" if closed else "")


def _pair(tenths: tuple[int, int]) -> str:
    x, y = (f"{value / 10:.1f}".removesuffix(".0") for value in tenths)
    return f"{x}{y}" if y.startswith("-") else f"{x} {y}"


def inked(strokes: Iterable[Stroke], piece: Piece, paper: Paper) -> str:
    """Draw strokes of a mounted part.

    Parameters
    ----------
    strokes : iterable of Stroke
        From the part's own foot.
    piece : Piece
        Whose they are; new parts are yellow and heavy, missing ones dashed.
    paper : Paper
        Where they fall.

    Returns
    -------
    str
        The elements.
    """
    runs = groupby(strokes, key=lambda it: it.look)
    return "".join(_run(look, tuple(run), piece, paper) for look, run in runs)


def _run(look: Look, run: Sequence[Stroke], piece: Piece, paper: Paper) -> str:
    """Draw strokes of one look; what is closed hides what came before, so each by itself."""
    closed = look in {Look.BODY, Look.HALF, Look.FUEL, Look.BLANK}
    lines = [traced(it.nodes, paper, piece.foot, closed=look in _CLOSED) for it in run]
    new = piece.state is State.NEW
    return "".join(_line(look, it, new=new) for it in (lines if closed else ("".join(lines),)))


_CLOSED: Final = frozenset({Look.BODY, Look.FUEL, Look.BLANK})


def _line(look: Look, line: str, *, new: bool) -> str:
    fill = YELLOW if new else "#fff"
    if look in {Look.BODY, Look.HALF}:
        heavy: dict[str, float] = {"stroke_width": 2.0} if new else {}
        return _path(line, fill=fill, **heavy)
    if look is Look.WALL:
        under = _path(line, stroke=YELLOW, stroke_width=6.5) if new else ""
        return under + _path(line, stroke_width=2.2 if new else 1.7)
    if look is Look.ROD:
        under = _path(line, stroke_width=6.4 if new else 4.8)
        return under + _path(line, stroke=fill, stroke_width=3.0)
    return _path(line, **_PLAIN[look])


_PLAIN: Final[dict[Look, dict[str, str | float]]] = {
    Look.FUEL: {"fill": _FUEL, "stroke": "none"},
    Look.BLANK: {"fill": "#fff", "stroke": "none"},
    Look.DOTS: {"stroke_width": 2.4, "stroke_dasharray": "0 5", "stroke_linecap": "round"},
    Look.SLOTS: {"stroke_width": 7.0, "stroke_dasharray": "2 3.4"},
    Look.LINE: {"stroke_width": 0.6},
}


def _path(line: str, **look: str | float) -> str:
    return tag("path", {"d": line, **look})


def dash_of(piece: Piece) -> dict[str, str | float]:
    """Return the dash of a part: none unless it is missing or a size is guessed."""
    if piece.state is State.MISSING:
        return {"stroke_dasharray": _DASH}
    return {} if piece.known else {"stroke_dasharray": _DOTTED}


def laid_aside(shape: Shape, piece: Piece, paper: Paper) -> str:
    """Draw a part that is put aside: both halves from outside, dashed and hatched.

    Parameters
    ----------
    shape : Shape
        Its shape.
    piece : Piece
        The part.
    paper : Paper
        Where it falls.

    Returns
    -------
    str
        One group.
    """
    strokes = [it for it in (*shape.signed, *whole(shape)) if it.look in _OUTLINED]
    bodies = [it for it in strokes if it.look is Look.BODY]
    lines = "".join(_hatching(it, paper, piece.foot) for it in bodies)
    edges = "".join(
        traced(it.nodes, paper, piece.foot, closed=it.look is Look.BODY) for it in strokes
    )
    hatch = _path(lines, stroke=GREY, stroke_width=0.7) if lines else ""
    outline = _path(edges, stroke_width=1.2, stroke_dasharray=_DASH)
    return group([hatch, outline], data_aside=piece.id, fill="none", stroke=INK)


_OUTLINED: Final = frozenset({Look.BODY, Look.WALL, Look.ROD})


def _hatching(stroke: Stroke, paper: Paper, foot: float) -> str:
    edge = [paper.at(it.x, foot + it.z) for it in flattened(stroke.nodes)]
    return "".join(
        f"M{x:.0f} {y:.0f}l{u - x:.0f}{v - y:.0f}" for (x, y), (u, v) in hatched(edge, _HATCH)
    )

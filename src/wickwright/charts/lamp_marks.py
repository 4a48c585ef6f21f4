"""What is written beside a drawn lamp: balloons and names, heights, balance, scale."""

from __future__ import annotations

import math
from dataclasses import dataclass
from html import escape
from typing import TYPE_CHECKING, Final

from wickwright.charts.inking import GREY, INK, YELLOW
from wickwright.charts.lamp_piece import State
from wickwright.charts.lettering import wrapped
from wickwright.charts.placing import spread
from wickwright.charts.svg import group, path, tag
from wickwright.terms.finding import Kind, Quantity
from wickwright.terms.units import say

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.charts.inking import Paper
    from wickwright.charts.lamp_piece import Piece, Section, Tip
    from wickwright.charts.svg import Point
    from wickwright.terms.units import Units

__all__ = [
    "COLUMN",
    "Measured",
    "Named",
    "balance_mark",
    "balloon",
    "height_marks",
    "length",
    "letter_group",
    "letters",
    "measured_heights",
    "name_marks",
    "named_in",
    "names_tall",
    "scale_bar",
    "tip_marks",
    "written",
]

SIZE: Final = 12.0
ROW: Final = 15.0
ROOM: Final = 250.0
"""Widest line of a name [px]."""
COLUMN: Final = 25.0
"""Between two dimension lines [px]."""
_BALLOON: Final = 9.5
_HEAD: Final = 5.5


@dataclass(frozen=True, slots=True)
class Named:
    """A name beside the lamp: where it points, its balloon, its words."""

    at: Point
    letter: str
    lines: tuple[str, ...]
    state: State | None

    @property
    def tall(self) -> float:
        """Height it takes up [px]."""
        return max(ROW * len(self.lines), 2 * _BALLOON) + 7.0


@dataclass(frozen=True, slots=True)
class Measured:
    """A height with its two ends [m] and what is between them."""

    low: float
    high: float
    says: str


def letter_group(inside: str) -> str:
    """Group what is written in letters of the common size and colour."""
    return tag("g", {"font_size": SIZE, "fill": INK, "stroke_linejoin": "round"}, inside)


def written(x: float, y: float, said: str, *, anchor: str = "", bold: bool = False) -> str:
    """Write words inside :func:`letter_group`.

    Parameters
    ----------
    x, y : float
        Where their base line is anchored [px].
    said : str
        The words; escaped here.
    anchor : str
        ``'middle'`` or nothing for the start.
    bold : bool
        Whether they are bold.

    Returns
    -------
    str
        The element.
    """
    look: dict[str, str | float] = {"x": round(x, 1), "y": round(y, 1)}
    if anchor:
        look["text_anchor"] = anchor
    if bold:
        look["font_weight"] = "bold"
    return tag("text", look, escape(said))


def length(value: float, units: Units) -> str:
    """Print a length."""
    return say(Quantity(value, Kind.LENGTH), units)


def letters(pieces: Sequence[Piece]) -> dict[str, str]:
    """Return the mark of each piece: letters for new ones, R for those put aside, else numbers.

    Parameters
    ----------
    pieces : sequence of Piece
        In the order they are marked in.

    Returns
    -------
    dict of str to str
        By part number.
    """
    found: dict[str, str] = {}
    counts = dict.fromkeys(State, 0)
    for it in pieces:
        state = State.KEPT if it.state is State.MISSING else it.state
        counts[state] += 1
        found[it.id] = _mark(state, counts[state])
    return found


def _mark(state: State, count: int) -> str:
    match state:
        case State.NEW:
            return chr(ord("A") + count - 1)
        case State.ASIDE:
            return f"R{count}"
        case _:
            return str(count)


def named_in(said: str, at: Point, letter: str, state: State | None) -> Named:
    """Return a name broken into lines."""
    lines = wrapped(said, SIZE, ROOM, bold=state is State.NEW)
    return Named(at, letter, lines, state)


def names_tall(names: Sequence[Named]) -> float:
    """Return the height all names take up together [px]."""
    return sum(it.tall for it in names)


def balloon(x: float, y: float, letter: str, state: State | None) -> str:
    """Draw a balloon with its letter: yellow and heavy for new, dashed for what is not there."""
    new = state is State.NEW
    look: dict[str, str | float] = {"cx": round(x, 1), "cy": round(y, 1), "r": _BALLOON}
    look |= {"fill": YELLOW if new else "#fff", "stroke": INK}
    if new:
        look["stroke_width"] = 2.2
    if state in {State.MISSING, State.ASIDE}:
        look["stroke_dasharray"] = "3 2"
    return tag("circle", look) + written(x, y + 4, letter, anchor="middle", bold=new)


def name_marks(names: Sequence[Named], start: float, top: float, bottom: float) -> str:
    """Draw each name with its balloon and a leader to its part.

    Parameters
    ----------
    names : sequence of Named
        From the highest down.
    start, top, bottom : float
        Left edge, and between which heights they stand [px].

    Returns
    -------
    str
        The elements.
    """
    middles = spread([it.at[1] for it in names], [it.tall for it in names], top, bottom)
    leaders, dots, drawn = [], [], []
    for it, middle in zip(names, middles, strict=True):
        leaders.append(
            f"M{it.at[0]:.1f} {it.at[1]:.1f}L{start - 12:.1f} {middle:.1f}L{start:.1f} {middle:.1f}"
        )
        dots.append(f"M{it.at[0]:.1f} {it.at[1]:.1f}h0")
        if it.state is None:
            drawn.append(quartered(start + _BALLOON, middle, _BALLOON - 1.5))
        else:
            drawn.append(balloon(start + _BALLOON, middle, it.letter, it.state))
        base = middle + 4.0 - 0.5 * ROW * (len(it.lines) - 1)
        bold = it.state is State.NEW
        drawn += [
            written(start + 2 * _BALLOON + 7, base + ROW * row, said, bold=bold)
            for row, said in enumerate(it.lines)
        ]
    line = tag("path", {"d": "".join(leaders), "fill": "none", "stroke": GREY, "stroke_width": 0.8})
    ends: dict[str, str | float] = {"d": "".join(dots), "stroke": INK, "stroke_width": 3.8}
    return line + tag("path", {**ends, "stroke_linecap": "round"}) + "".join(drawn)


def measured_heights(section: Section, units: Units) -> list[Measured]:
    """Return the heights that are measured: of the light, the chimney, the shade, the whole.

    Parameters
    ----------
    section : Section
        What is drawn.
    units : Units
        What to print in.

    Returns
    -------
    list of Measured
        The shortest first, as they stand from the lamp outwards.
    """
    found = []
    for kind in ("mantle", "bulb", "chimney"):
        it = section.of_kind(kind)
        if it is not None and it.known:
            found.append(Measured(it.foot, it.top, f"{kind} {length(it.tall, units)}"))
    low = min(0.0, *(it.foot for it in section.pieces))
    high = max(it.top for it in section.pieces)
    return [*found, Measured(low, high, f"whole lamp {length(high - low, units)}")]


def height_marks(heights: Sequence[Measured], paper: Paper, edge: float) -> str:
    """Draw dimension lines to the left of a lamp.

    Parameters
    ----------
    heights : sequence of Measured
        The innermost first.
    paper : Paper
        Where metres fall.
    edge : float
        Left edge of the lamp [px].

    Returns
    -------
    str
        The elements.
    """
    drawn = []
    for at, it in enumerate(heights):
        x = edge - 16.0 - COLUMN * at
        low, high = paper.ground - it.low * paper.scale, paper.ground - it.high * paper.scale
        ticks = "".join(path([(x - 4, y), (paper.axis, y)]) for y in (low, high))
        drawn.append(tag("path", {"d": ticks, "stroke": GREY, "stroke_width": 0.5}))
        line = path([(x, low), (x, high)]) + _heads(x, low, high)
        look: dict[str, str | float] = {"d": line, "stroke": INK, "stroke_width": 0.8}
        drawn.append(tag("path", {**look, "fill": INK}))
        drawn.append(_upright(x - 4.0, 0.5 * (low + high), it.says))
    return group(drawn)


def _heads(x: float, low: float, high: float) -> str:
    half = _HEAD / 3
    up = path([(x - half, high + _HEAD), (x, high), (x + half, high + _HEAD)])
    down = path([(x - half, low - _HEAD), (x, low), (x + half, low - _HEAD)])
    return f"{up}Z{down}Z"


def _upright(x: float, y: float, said: str) -> str:
    inside = written(0.0, 0.0, said, anchor="middle")
    return tag("g", {"transform": f"translate({x:.1f} {y:.1f}) rotate(-90)"}, inside)


def quartered(x: float, y: float, radius: float) -> str:
    """Draw the sign of a centre of mass: a circle in quarters, two of them filled."""
    quarters = "".join(
        f"M{x:.1f} {y:.1f}L{x:.1f} {y + up:.1f}A{radius:.1f} {radius:.1f} 0 0 1 "
        f"{x + up * -1:.1f} {y:.1f}Z"
        for up in (-radius, radius)
    )
    disc: dict[str, str | float] = {
        "cx": x,
        "cy": y,
        "r": radius,
        "fill": "#ffffff",
        "stroke": INK,
        "stroke_width": 1.2,
    }
    return tag("circle", disc) + tag("path", {"d": quarters, "fill": INK})


def balance_mark(centre: float, paper: Paper) -> str:
    """Draw the centre of mass on the axis [m]."""
    return group([quartered(*paper.at(0.0, centre), 7.0)], data_centre="1")


def tip_marks(tip: Tip, paper: Paper) -> str:
    """Draw the line about which a lamp tips, its angle, and the angle it must stand.

    Parameters
    ----------
    tip : Tip
        The slope at which it tips.
    paper : Paper
        Where metres fall.

    Returns
    -------
    str
        One group: from the edge of the foot an upright, the line to the centre of mass, and an
        arc between them; dashed, the same for the limit.
    """
    edge, centre = paper.at(tip.reach, 0.0), paper.at(0.0, tip.centre)
    span = math.dist(edge, centre)
    thin: dict[str, str | float] = {"fill": "none", "stroke": INK}
    plumb = path([edge, (edge[0], edge[1] - span)])
    bound = path([edge, _leaning(edge, tip.limit, 0.86 * span)])
    lines = [
        tag("path", {"d": plumb, **thin, "stroke_width": 0.7}),
        tag("path", {"d": path([edge, centre]), **thin, "stroke_width": 1.3, "data_tip": "line"}),
        tag("path", {"d": _arc(edge, tip.angle, 0.62 * span), **thin, "stroke_width": 1.3}),
        tag("path", {"d": bound + _arc(edge, tip.limit, 0.8 * span), **thin, **_BOUND}),
        tag("circle", {"cx": edge[0], "cy": edge[1], "r": 2.4, "fill": INK}),
    ]
    return group(lines)


_BOUND: Final[dict[str, str | float]] = {"stroke_width": 1.0, "stroke_dasharray": "4 2.5"}


def _leaning(edge: Point, angle: float, span: float) -> Point:
    """A point at an angle to the left of upright from the edge."""
    return edge[0] - span * math.sin(angle), edge[1] - span * math.cos(angle)


def _arc(edge: Point, angle: float, radius: float) -> str:
    start, end = _leaning(edge, 0.0, radius), _leaning(edge, angle, radius)
    return (
        f"M{start[0]:.1f} {start[1]:.1f}A{radius:.1f} {radius:.1f} 0 0 0 {end[0]:.1f} {end[1]:.1f}"
    )


def scale_bar(x: float, y: float, paper: Paper, units: Units) -> str:
    """Draw a bar of 100 mm, or of 4 in where inches are printed.

    Parameters
    ----------
    x, y : float
        Its left end [px].
    paper : Paper
        Where metres fall.
    units : Units
        What to print in.

    Returns
    -------
    str
        The elements.
    """
    inches = units.system == "us"
    metres, said = (0.1016, "4 in") if inches else (0.1, "100 mm")
    end = x + metres * paper.scale
    ends = path([(x, y - 4), (x, y + 4)]) + path([(end, y - 4), (end, y + 4)])
    bar = tag("path", {"d": path([(x, y), (end, y)]) + ends, "stroke": INK, "stroke_width": 1.2})
    return bar + written(end + 8, y + 4, f"{said} on the lamp")

"""An assembled lamp to scale: its outside on the left of the axis, a section on the right.

Heights and the radii of joints are those of the pieces; the curve between them is only
indicative of the kind. Nothing is drawn that is not handed in.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickwright.charts.lettering import width_of, wrapped
from wickwright.charts.svg import document, group, path, shape, tag, words
from wickwright.terms.finding import Kind, Quantity
from wickwright.terms.units import say

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from wickwright.charts.svg import Point
    from wickwright.terms.units import Units

__all__ = [
    "Piece",
    "Section",
    "Tip",
    "lamp_section",
    "pixels_per_metre",
    "profile",
    "small_section",
]

_TALL: Final = 640.0
_TOP: Final = 74.0
_EDGE: Final = 24.0
_GAP: Final = 18.0
_SIZE: Final = 12.0
_INK: Final = "#222222"
_GREY: Final = "#777777"
_YELLOW: Final = "#f4c430"
_DASH: Final = "5 4"

_DRAWN_FIRST: Final = (
    "wick", "base", "font", "reducer", "spreader", "mantle", "bulb", "burner", "chimney",
    "gallery", "holder", "shade", "bell",
)  # fmt: skip
"""From the inside out: on the left half what is later hides what is earlier."""

_CURVES: Final[dict[str, tuple[tuple[float, int, float], ...]]] = {
    "base": (
        (0.0, 0, 1.0), (0.08, 0, 1.0), (0.2, 0, 0.5),
        (0.8, 2, 0.45), (0.95, 2, 1.0), (1.0, 2, 1.0),
    ),
    "font": ((0.0, 0, 1.0), (0.12, 1, 1.0), (0.75, 1, 1.0), (0.92, 2, 1.15), (1.0, 2, 1.0)),
    "burner": (
        (0.0, 0, 1.0), (0.2, 0, 1.0), (0.4, 1, 1.0),
        (0.75, 1, 1.0), (0.8, 2, 1.0), (1.0, 2, 1.0),
    ),
    "mantle": ((0.0, 0, 1.0), (0.3, 1, 1.0), (0.75, 1, 0.9), (1.0, 2, 1.0)),
    "chimney": ((0.0, 0, 1.0), (0.06, 0, 1.0), (0.2, 1, 1.0), (0.36, 2, 1.0), (1.0, 2, 1.0)),
    "shade": ((0.0, 0, 1.0), (0.35, 0, 0.96), (0.7, 0, 0.75), (0.92, 2, 1.1), (1.0, 2, 1.0)),
    "bell": ((0.0, 0, 1.0), (0.4, 0, 0.8), (0.8, 2, 1.6), (1.0, 2, 1.0)),
    "bulb": (
        (0.0, 0, 1.0), (0.3, 0, 1.0), (0.5, 1, 0.9),
        (0.75, 1, 1.0), (0.93, 1, 0.6), (1.0, 2, 0.0),
    ),
}  # fmt: skip
"""Corners by kind: share of the height, which radius (foot, body, top), share of it."""
_TUBE: Final = ((0.0, 0, 1.0), (0.15, 0, 1.0), (0.85, 2, 1.0), (1.0, 2, 1.0))


@dataclass(frozen=True, slots=True)
class Piece:
    """One part as it is drawn.

    Attributes
    ----------
    id, kind, label : str
        Part number, kind and name.
    foot, top : float
        Heights above the table, or above the foot of a frame that hangs [m].
    radii : tuple of float
        At its foot, its body and its top [m].
    new : bool
        Whether it is new; otherwise it is kept.
    known : bool
        False where a size is not in the book and the drawing guesses.
    fuel : tuple of float or None
        Heights of the bottom and the full line of the fuel [m].
    frame : bool
        True for a frame or bracket, which is drawn as rods beside the lamp.
    """

    id: str
    kind: str
    label: str
    foot: float
    top: float
    radii: tuple[float, float, float]
    new: bool = False
    known: bool = True
    fuel: tuple[float, float] | None = None
    frame: bool = False


@dataclass(frozen=True, slots=True)
class Tip:
    """The slope at which the lamp tips.

    Attributes
    ----------
    reach, centre : float
        Axis to the nearest edge of the base; height of the centre of mass there [m].
    angle, limit : float
        Slope at which it tips, and the slope it must stand on [rad].
    """

    reach: float
    centre: float
    angle: float
    limit: float


@dataclass(frozen=True, slots=True)
class Section:
    """All that is drawn.

    Attributes
    ----------
    title : str
        Name of the lamp.
    pieces, aside : tuple of Piece
        What is mounted; what is put aside, each with its foot at 0.
    centres : tuple of (float, float)
        Filling, 0 to 1, and height of the centre of mass [m].
    tip : Tip or None
        None where it cannot tip.
    note : str
        What else the reader must know.
    """

    title: str
    pieces: tuple[Piece, ...]
    aside: tuple[Piece, ...] = ()
    centres: tuple[tuple[float, float], ...] = ()
    tip: Tip | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class _Paper:
    """Where heights and radii fall on the paper."""

    scale: float
    axis: float
    ground: float

    def at(self, radius: float, height: float) -> Point:
        return self.axis + radius * self.scale, self.ground - height * self.scale


def profile(piece: Piece) -> tuple[tuple[float, float], ...]:
    """Return the radius and height of each corner of a piece, from its foot up.

    Parameters
    ----------
    piece : Piece
        The piece.

    Returns
    -------
    tuple of (float, float)
        Radius and height [m].
    """
    tall = piece.top - piece.foot
    corners = _CURVES.get(piece.kind, _TUBE)
    return tuple(
        (piece.radii[which] * share, piece.foot + tall * rise) for rise, which, share in corners
    )


def pixels_per_metre(section: Section) -> float:
    """Return the scale of a drawing.

    Parameters
    ----------
    section : Section
        What is drawn.

    Returns
    -------
    float
        Pixels of the drawing for one metre [px/m].
    """
    everything = (*section.pieces, *section.aside)
    low = min((it.foot for it in everything), default=0.0)
    high = max((it.top for it in everything), default=0.1)
    wide = max((max(it.radii) for it in everything), default=0.1)
    return min(_TALL / max(high - min(low, 0.0), 0.05), _TALL / (2.4 * max(wide, 0.02)))


def lamp_section(section: Section, units: Units) -> str:
    """Draw a lamp.

    Parameters
    ----------
    section : Section
        What is drawn.
    units : Units
        What heights and angles are printed in.

    Returns
    -------
    str
        SVG text.

    Raises
    ------
    ValueError
        When there is nothing to draw.
    """
    if not section.pieces:
        msg = "there is no lamp to draw: no part of it stands on a base"
        raise ValueError(msg)
    scale = pixels_per_metre(section)
    wide = max(max(it.radii) for it in section.pieces) * scale
    beside = sum(2 * max(it.radii) * scale + _GAP for it in section.aside)
    levels = _levels(section, units)
    column = max(width_of(said, _SIZE) for _, said in levels)
    axis = _EDGE + beside + column + 44 + wide
    high = max(it.top for it in (*section.pieces, *section.aside))
    low = min(0.0, *(it.foot for it in section.pieces))
    paper = _Paper(scale, axis, _TOP + high * scale)
    labels = _labels(section, units)
    start = axis + wide + 56
    width = max(start + max(width_of(it[2], _SIZE, bold=True) for it in labels) + _EDGE, 560.0)
    lettered = _TOP + _GAP * max(len(labels), len(levels))
    bottom = max(paper.ground - low * scale, lettered) + 30
    caption = [
        line for said in _caption(section, units) for line in wrapped(said, _SIZE, width - 48)
    ]
    body = [
        _hatching(),
        words(_EDGE, 32, section.title, size=17, bold=True),
        words(_EDGE, 52, "Left of the axis from outside, right of it cut open.", size=_SIZE),
        _floor(section, paper, width),
        _asides(section, paper),
        *(_drawn(it, paper) for it in _inside_out(section.pieces)),
        _balance(section, paper),
        _level_marks(levels, paper, _EDGE + beside + column, bottom - 30),
        _label_marks(labels, paper, start, bottom - 30),
        *(words(_EDGE, bottom + 17 * at, said, size=_SIZE) for at, said in enumerate(caption)),
    ]
    told = " ".join([*(f"{said}." for _, _, said, _ in labels), *_caption(section, units)])
    return document(width, bottom + 17 * len(caption) + 10, section.title, told, body)


_SMALL: Final = 300.0
_SMALL_TOP: Final = 16.0


def small_section(section: Section) -> str:
    """Draw a lamp for a narrow column: the same lines, with part numbers and nothing else.

    Parameters
    ----------
    section : Section
        What is drawn.

    Returns
    -------
    str
        SVG text.

    Raises
    ------
    ValueError
        When there is nothing to draw.
    """
    if not section.pieces:
        msg = "there is no lamp to draw: no part of it stands on a base"
        raise ValueError(msg)
    scale = pixels_per_metre(section) * _SMALL / _TALL
    wide = max(max(it.radii) for it in section.pieces) * scale
    beside = sum(2 * max(it.radii) * scale + _GAP for it in section.aside)
    high = max(it.top for it in (*section.pieces, *section.aside))
    low = min(0.0, *(it.foot for it in section.pieces))
    paper = _Paper(scale, _EDGE + beside + wide, _SMALL_TOP + high * scale)
    labels = [(*_pointed(it), it.id, it.new) for it in section.pieces]
    start = paper.axis + wide + 50
    width = start + max(width_of(it.id, _SIZE, bold=True) for it in section.pieces) + 4
    bottom = max(paper.ground - low * scale, _SMALL_TOP + _GAP * len(labels)) + 4
    body = [
        _hatching(),
        _floor(section, paper, start - 44),
        _asides(section, paper),
        *(_drawn(it, paper) for it in _inside_out(section.pieces)),
        _balance(section, paper),
        _label_marks(labels, paper, start, bottom - 8, _SMALL_TOP),
    ]
    told = " ".join(f"{_said(it)}." for it in section.pieces)
    return document(width, bottom, section.title, told, body)


def _inside_out(pieces: Iterable[Piece]) -> list[Piece]:
    order = {kind: at for at, kind in enumerate(_DRAWN_FIRST)}
    return sorted(pieces, key=lambda it: order.get(it.kind, len(order)))


def _length(value: float, units: Units) -> str:
    return say(Quantity(value, Kind.LENGTH), units)


def _hatching() -> str:
    line = tag("path", {"d": "M0 6L6 0", "stroke": _GREY, "stroke_width": 1.0})
    size: dict[str, str | float] = {"id": "aside", "width": 6.0, "height": 6.0}
    return tag("defs", {}, tag("pattern", {**size, "patternUnits": "userSpaceOnUse"}, line))


def _floor(section: Section, paper: _Paper, width: float) -> str:
    if any(it.frame for it in section.pieces) and not section.aside:
        return ""
    ends = [(_EDGE, paper.ground), (min(width - _EDGE, 2 * paper.axis), paper.ground)]
    return tag("path", {"d": path(ends), "stroke": _INK, "stroke_width": 1.0})


def _look(piece: Piece, fill: str, weight: float) -> dict[str, str | float]:
    look: dict[str, str | float] = {
        "fill": fill,
        "stroke": _INK,
        "stroke_width": weight,
        "stroke_linejoin": "round",
    }
    return look if piece.known else {**look, "stroke_dasharray": _DASH}


def _drawn(piece: Piece, paper: _Paper) -> str:
    if piece.frame:
        return group(_rods(piece, paper), data_part=piece.id)
    edge = [paper.at(radius, height) for radius, height in profile(piece)]
    other = [(2 * paper.axis - x, y) for x, y in edge]
    outside = shape([(paper.axis, edge[0][1]), *other, (paper.axis, edge[-1][1])])
    fill = _YELLOW if piece.new else "#ffffff"
    drawn = [tag("path", {"d": outside, **_look(piece, fill, 1.2)})]
    if piece.fuel:
        drawn.append(_fuel(piece, piece.fuel, paper))
    if piece.new:
        wide: dict[str, str | float] = {"fill": "none", "stroke": _YELLOW, "stroke_width": 6.0}
        drawn.append(tag("path", {"d": path(edge), **wide}))
    drawn.append(tag("path", {"d": path(edge), **_look(piece, "none", 1.8)}))
    return group(drawn, data_part=piece.id)


def _fuel(piece: Piece, fuel: tuple[float, float], paper: _Paper) -> str:
    low, high = (paper.ground - height * paper.scale for height in fuel)
    across = max(piece.radii[1] * paper.scale - 3, 1.0)
    box: dict[str, str | float] = {
        "x": paper.axis,
        "y": high,
        "width": across,
        "height": max(low - high, 0.5),
    }
    return tag("rect", {**box, "fill": "#d9d9d9"})


def _rods(piece: Piece, paper: _Paper) -> list[str]:
    """Draw a frame or bracket: rods beside the lamp, closed over it."""
    fill = _YELLOW if piece.new else "#ffffff"
    reach, rise = max(piece.radii), piece.foot + 0.72 * (piece.top - piece.foot)
    corners = ((piece.radii[0], piece.foot), (reach, rise), (0.0, piece.top))
    drawn = []
    for side in (-1, 1):
        line = path([paper.at(side * radius, height) for radius, height in corners])
        drawn += [
            tag("path", {"d": line, "fill": "none", "stroke": _INK, "stroke_width": 5.0}),
            tag("path", {"d": line, "fill": "none", "stroke": fill, "stroke_width": 2.6}),
        ]
    return drawn


def _asides(section: Section, paper: _Paper) -> str:
    at, drawn = _EDGE, []
    for piece in section.aside:
        reach = max(piece.radii) * paper.scale
        own = _Paper(paper.scale, at + reach, paper.ground)
        edge = [own.at(radius, height) for radius, height in profile(piece)]
        other = [(2 * own.axis - x, y) for x, y in reversed(edge)]
        outline = {"d": shape([*edge, *other]), **_look(piece, "url(#aside)", 1.0)}
        drawn.append(group([tag("path", outline)], data_aside=piece.id))
        at += 2 * reach + _GAP
    return "".join(drawn)


def _balance(section: Section, paper: _Paper) -> str:
    drawn = []
    if section.tip:
        edge = paper.at(section.tip.reach, 0.0)
        centre = paper.at(0.0, section.tip.centre)
        look: dict[str, str | float] = {"stroke": _INK, "stroke_dasharray": "8 3 2 3"}
        drawn.append(tag("path", {"d": path([edge, centre]), **look}))
    for fill, height in section.centres:
        x, y = paper.at(0.0, height)
        inside = "#ffffff" if fill <= 0 else _INK if fill >= 1 else _GREY
        dot: dict[str, str | float] = {"cx": x, "cy": y, "r": 4.0, "fill": inside}
        drawn.append(tag("circle", {**dot, "stroke": _INK}))
    return group(drawn)


def _levels(section: Section, units: Units) -> list[tuple[float, str]]:
    """Return each height that is dimensioned, once."""
    tops = {round(it.top, 4): it.kind for it in section.pieces if it.known and it.kind != "wick"}
    return [(top, f"{kind} {_length(top, units)}") for top, kind in sorted(tops.items())] or [
        (0.0, _length(0.0, units))
    ]


def _labels(section: Section, units: Units) -> list[tuple[float, float, str, bool]]:
    """Return where each label points [m], its words, and whether it is bold."""
    found = [(*_pointed(it), _said(it), it.new) for it in section.pieces]
    if section.centres:
        names = {0.0: "empty", 0.5: "half full", 1.0: "full"}
        each = ", ".join(
            f"{names.get(fill, f'{fill:.0%} full')} {_length(height, units)}"
            for fill, height in section.centres
        )
        found.append((0.0, section.centres[0][1], f"Centre of mass: {each}", False))
    return found


def _pointed(piece: Piece) -> tuple[float, float]:
    corners = profile(piece)
    if piece.frame:
        return max(piece.radii), piece.foot + 0.72 * (piece.top - piece.foot)
    (r0, z0), (r1, z1) = corners[len(corners) // 2 - 1 : len(corners) // 2 + 1]
    return (r0 + r1) / 2, (z0 + z1) / 2


def _said(piece: Piece) -> str:
    unsure = "" if piece.known else " (a size is not known)"
    return f"{'NEW ' if piece.new else ''}{piece.label}, {piece.id}{unsure}"


def _spread(wanted: Sequence[float], bottom: float, top: float = _TOP) -> list[float]:
    """Move heights that rise [px] apart, none beyond the bottom."""
    placed: list[float] = []
    for y in wanted:
        placed.append(max(y, placed[-1] + _GAP if placed else top))
    limit = bottom
    for at in range(len(placed) - 1, -1, -1):
        placed[at] = min(placed[at], limit)
        limit = placed[at] - _GAP
    return placed


def _level_marks(
    levels: list[tuple[float, str]], paper: _Paper, right: float, bottom: float
) -> str:
    falling = sorted(levels, reverse=True)
    real = [paper.ground - height * paper.scale for height, _ in falling]
    drawn = []
    for y, at, (_, said) in zip(real, _spread(real, bottom), falling, strict=True):
        drawn.append(words(right, at + 4, said, size=_SIZE, anchor="end"))
        line = path([(right + 4, at), (right + 16, y), (right + 30, y)])
        drawn.append(tag("path", {"d": line, "fill": "none", "stroke": _GREY}))
    return group(drawn)


def _label_marks(
    labels: list[tuple[float, float, str, bool]],
    paper: _Paper,
    start: float,
    bottom: float,
    top: float = _TOP,
) -> str:
    falling = sorted(labels, key=lambda it: -it[1])
    real = [paper.at(radius, height) for radius, height, _, _ in falling]
    drawn = []
    rows = _spread([y for _, y in real], bottom, top)
    for (x, y), at, (_, _, said, bold) in zip(real, rows, falling, strict=True):
        line = path([(x, y), (start - 40, y), (start - 6, at)])
        drawn.append(tag("path", {"d": line, "fill": "none", "stroke": _GREY, "stroke_width": 0.7}))
        drawn.append(tag("circle", {"cx": x, "cy": y, "r": 1.8, "fill": _INK}))
        drawn.append(words(start, at + 4, said, size=_SIZE, bold=bold))
    return group(drawn)


def _caption(section: Section, units: Units) -> list[str]:
    said = []
    if section.tip:
        angle, limit = (
            say(Quantity(value, Kind.ANGLE), units)
            for value in (section.tip.angle, section.tip.limit)
        )
        said.append(f"Tips at a slope of {angle}; it must stand on {limit}.")
    if section.aside:
        names = ", ".join(f"{it.label} ({it.id})" for it in section.aside)
        said.append(f"Put aside, hatched, from the left: {names}.")
    if not all(it.known for it in (*section.pieces, *section.aside)):
        said.append("Dashed: a size is not in the fit book and is guessed.")
    said.append(
        "Heights and joint diameters are to scale from the fit book; curves between are indicative."
    )
    return [*said, section.note] if section.note else said

"""Lines, their marks, and the shading of what is uncertain."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from wickwright.charts.figure import INKS
from wickwright.charts.svg import number, path, shape, tag

if TYPE_CHECKING:
    from wickwright.charts.axis import Axis
    from wickwright.charts.figure import Figure, Ink, Line, Panel
    from wickwright.charts.layout import Frame
    from wickwright.charts.svg import Point

__all__ = ["ink_of", "line_stroke", "mark", "places", "shading"]

_MARKS: Final = 5
_RADIUS: Final = 4.2
_CLEAR: Final = 42.0


def ink_of(which: int) -> Ink:
    """Return an ink; after the last the first comes again."""
    return INKS[which % len(INKS)]


def places(
    axis: Axis, panel: Panel, frame: Frame, x: tuple[float, ...], y: tuple[float, ...]
) -> list[Point]:
    """Return where SI values stand on the paper [px]."""
    return [
        (frame.across.at(axis.shown(one)), frame.up.at(panel.axis.shown(two)))
        for one, two in zip(x, y, strict=True)
    ]


def mark(kind: str, x: float, y: float, colour: str) -> str:
    """Draw the mark of an ink.

    Parameters
    ----------
    kind : str
        Which, as :class:`~wickwright.charts.figure.Ink` names it.
    x, y : float
        Its middle [px].
    colour : str
        Its colour.

    Returns
    -------
    str
        The element.
    """
    r = _RADIUS
    look: dict[str, str | float] = {"fill": colour, "stroke": "#ffffff", "stroke_width": 1.2}
    match kind:
        case "disc":
            return tag("circle", {"cx": x, "cy": y, "r": r, **look})
        case "ring":
            ringed: dict[str, str | float] = {
                "fill": "#ffffff",
                "stroke": colour,
                "stroke_width": 1.8,
            }
            return tag("circle", {"cx": x, "cy": y, "r": r - 0.6, **ringed})
        case "square":
            corners = [(-r, -r), (r, -r), (r, r), (-r, r)]
        case "triangle":
            corners = [(0, -1.25 * r), (1.15 * r, 0.85 * r), (-1.15 * r, 0.85 * r)]
        case "diamond":
            corners = [(0, -1.35 * r), (1.35 * r, 0), (0, 1.35 * r), (-1.35 * r, 0)]
        case _:
            return _cross(x, y, colour)
    return tag("path", {"d": shape([(x + dx, y + dy) for dx, dy in corners]), **look})


def _cross(x: float, y: float, colour: str) -> str:
    r = _RADIUS
    strokes = path([(x - r, y - r), (x + r, y + r)]) + path([(x - r, y + r), (x + r, y - r)])
    return tag("path", {"d": strokes, "stroke": colour, "stroke_width": 2.2})


def shading(figure: Figure, panel: Panel, frame: Frame, line: Line) -> str:
    """Shade one standard uncertainty on either side of a line; nothing where none is given."""
    if not line.low:
        return ""
    above = places(figure.axis, panel, frame, line.x, line.high)
    below = places(figure.axis, panel, frame, line.x, line.low)
    edge = shape([*above, *reversed(below)])
    fill = ink_of(line.ink).colour
    return tag("path", {"d": edge, "fill": fill, "fill_opacity": 0.13}) if edge else ""


def _marked(points: list[Point], ink: int, free_of: list[Point]) -> list[Point]:
    """Choose the points that carry marks, staggered so that those of two lines do not meet."""
    real = [point for point in points if math.isfinite(point[0]) and math.isfinite(point[1])]
    start = (0.35 + 0.3 * (ink % 3)) / _MARKS
    wanted = [start + part / _MARKS for part in range(_MARKS)]
    chosen = [real[min(len(real) - 1, int(share * len(real)))] for share in wanted]
    return [one for one in chosen if all(math.dist(one, dot) > _CLEAR for dot in free_of)]


def line_stroke(
    points: list[Point], which: int, *, marks: bool = True, free_of: list[Point] | None = None
) -> str:
    """Draw a line with its dash and its marks.

    Parameters
    ----------
    points : list of (float, float)
        Its corners [px].
    which : int
        Its ink [-].
    marks : bool
        Whether it carries marks.
    free_of : list of (float, float) or None
        Points that no mark comes near [px].

    Returns
    -------
    str
        The elements.
    """
    ink = ink_of(which)
    look: dict[str, str | float] = {
        "d": path(points),
        "stroke": ink.colour,
        "stroke_width": 2.4,
        "stroke_linejoin": "round",
    }
    if ink.dash:
        look["stroke_dasharray"] = " ".join(number(float(part)) for part in ink.dash.split())
    drawn = [tag("path", {**look, "fill": "none"})]
    if marks:
        drawn += [
            mark(ink.mark, x, y, ink.colour) for x, y in _marked(points, which, free_of or [])
        ]
    return "".join(drawn)

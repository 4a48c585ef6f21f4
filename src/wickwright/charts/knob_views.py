"""Knobs as their words describe them; the fit book has no dimension of a knob."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from wickwright.charts.compared import lit, plain
from wickwright.charts.outline import corner, curve
from wickwright.charts.plans import disc, round_the_axis, spoke
from wickwright.charts.shape import MM, Look, Stroke, body
from wickwright.charts.view import View, count_in

if TYPE_CHECKING:
    from wickwright.charts.compared import Touch
    from wickwright.charts.lamp_piece import Piece

__all__ = ["knob_view"]

_LARGE: Final = 16 * MM
_USUAL: Final = 12 * MM
_SMALL: Final = 9 * MM


def knob_view(_: Piece, answer: str) -> View | None:
    """Draw a knob from its face, and its stem from above where the words speak of it.

    Parameters
    ----------
    answer : str
        The mark's words: large or small; a milled or thin edge; holes, a cross, a shell or a
        rivet in its face; a long stem; a second knob; a switch that turns or is pushed.

    Returns
    -------
    View or None
        None where the words describe no form.
    """
    if "switch" in answer:
        return _switch(answer)
    face = _face(answer)
    if face is None:
        return None
    seen = "Seen from its face; below it, from above with its stem."
    return View(face, _side(answer), seen)


def _radius(answer: str) -> float:
    return _LARGE if "large" in answer else _SMALL if "small, " in answer else _USUAL


def _face(answer: str) -> tuple[Touch, ...] | None:
    radius = _radius(answer)
    rim = plain((disc(radius),))
    if "hole" in answer:
        holes = round_the_axis(
            disc(0.2 * radius, 0.52 * radius), count_in(answer) or 1, 0.25 * math.pi
        )
        return (*rim, *lit(holes))
    if "shell" in answer:
        return (*_milled(radius), *lit((_shell(0.62 * radius),)), *plain(_ribs(0.62 * radius)))
    if "milled" in answer:
        return (*_milled(radius), *lit((disc(0.78 * radius),)))
    if "cross" in answer:
        bars = round_the_axis(spoke(0.0, radius, 0.24 * radius), 4)
        return lit((*bars, disc(0.34 * radius)))
    if "thin edge" in answer:
        face = (*rim, *plain((disc(0.9 * radius),)))
        return (*face, *lit((disc(0.2 * radius),))) if "rivet" in answer else face
    return None


def _milled(radius: float) -> tuple[Touch, ...]:
    """Short cuts round the rim."""
    cut = Stroke((corner(0.86 * radius, 0.0), corner(radius, 0.0)), Look.LINE)
    return plain((disc(radius), *round_the_axis(cut, 36)))


def _shell(radius: float) -> Stroke:
    """A fan with a scalloped edge, from its hinge at the bottom."""
    edge = [
        (radius * (1.5 + 0.1 * math.cos(2 * math.pi * at / 4)), math.radians(150 - 5 * at))
        for at in range(25)
    ]
    fan = [corner(r * math.cos(turn), r * math.sin(turn) - 0.7 * radius) for r, turn in edge]
    hinge = (corner(0.3 * radius, -0.8 * radius), corner(-0.3 * radius, -0.8 * radius))
    return body([*fan, *hinge])


def _ribs(radius: float) -> tuple[Stroke, ...]:
    turns = [math.radians(angle) for angle in (50, 70, 90, 110, 130)]
    return tuple(
        Stroke(
            (
                corner(0.0, -0.7 * radius),
                corner(1.4 * radius * math.cos(turn), 1.4 * radius * math.sin(turn) - 0.7 * radius),
            ),
            Look.LINE,
        )
        for turn in turns
    )


def _side(answer: str) -> tuple[Touch, ...]:
    """The head and its stem, from above; the burner is to the right."""
    radius = _radius(answer)
    thick = 2 * MM if "thin" in answer else 6 * MM
    far = 44 * MM if "long stem" in answer else 24 * MM
    stem = Stroke((corner(thick, 0.0), corner(far, 0.0)), Look.ROD)
    head = _head(0.0, thick, radius)
    mills = _mills(thick, radius) if "milled" in answer else ()
    drawn: tuple[Touch, ...] = (
        *(lit((stem,)) if "long stem" in answer else plain((stem,))),
        *plain((head, *mills)),
    )
    if "second" in answer:
        drawn = (*drawn, *lit((_head(13 * MM, 4 * MM, 0.5 * radius),)))
    return drawn


def _head(start: float, thick: float, radius: float) -> Stroke:
    ends = ((start, -radius), (start + thick, -radius), (start + thick, radius), (start, radius))
    return body([corner(x, z) for x, z in ends])


def _mills(thick: float, radius: float) -> tuple[Stroke, ...]:
    heights = [radius * math.sin(math.pi * at / 16) for at in range(-7, 8)]
    return tuple(Stroke((corner(0.0, z), corner(thick, z)), Look.LINE) for z in heights)


def _switch(answer: str) -> View | None:
    if "turn" in answer:
        ends = (corner(-9 * MM, 0.0), curve(0.0, 3.6 * MM), corner(9 * MM, 0.0))
        wing = Stroke((*ends, curve(0.0, -3.6 * MM), ends[0]), Look.BODY)
        side = (
            *plain((_head(8 * MM, 16 * MM, 5 * MM),)),
            *lit((_head(0.0, 8 * MM, 9 * MM),)),
        )
        return View((*plain((disc(7 * MM),)), *lit((wing,))), side, _SWITCH)
    if "push" in answer:
        side = (
            *lit((_head(0.0, 8 * MM, 4 * MM),)),
            *plain((_head(8 * MM, 16 * MM, 8 * MM),)),
        )
        return View((*plain((disc(8 * MM),)), *lit((disc(4 * MM),))), side, _SWITCH)
    return None


_SWITCH: Final = "Seen from its face; below it, from above."

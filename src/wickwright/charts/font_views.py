"""Fonts and their collars, drawn to tell one from another."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from wickwright.charts.compared import lit, plain
from wickwright.charts.font_shapes import font_shape, radius_at
from wickwright.charts.outline import Node, corner, flattened
from wickwright.charts.plans import disc
from wickwright.charts.shape import MM, Look, Stroke, body, line, whole
from wickwright.charts.view import View, count_in

if TYPE_CHECKING:
    from wickwright.charts.compared import Touch
    from wickwright.charts.lamp_piece import Piece

__all__ = ["cap_view", "font_view", "thread_view", "tube_view"]

_NECK: Final = 11 * MM
"""From the rim of a collar down to the vessel, as the font is drawn [m]."""


def font_view(piece: Piece, answer: str) -> View | None:
    """Draw the form of a font from the front, with the band, ring or panels its mark names."""
    bare = replace(piece, marks=piece.marks - {"cap"})
    shape = font_shape(bare)
    edge = flattened(shape.outside[0].nodes[1:-1])
    neck = (piece.takes["burner"].height if "burner" in piece.takes else piece.tall) - _NECK
    drawn = (*plain(whole(shape)), *_trims(edge, neck, answer))
    return View(drawn, note="Curves are as usual for the form.")


def _trims(edge: tuple[Node, ...], neck: float, answer: str) -> tuple[Touch, ...]:
    if "rope" in answer:
        return _rope(edge, 0.7 * neck, 9 * MM)
    if "seam" in answer:
        return lit((_belt(edge, 12 * MM, 4 * MM), _belt(edge, neck - 22 * MM, 4 * MM)))
    if "ring round the middle" in answer:
        return lit((_belt(edge, 0.42 * neck, 6 * MM),))
    if "panels" in answer:
        count = count_in(answer) or 0
        return lit(_uprights(edge, neck, tuple(_panel_edges(count))))
    if "ribs" in answer:
        turns = tuple(math.sin(math.pi * at / 14) for at in range(-6, 7))
        return plain(_uprights(edge, neck, turns))
    return ()


def _belt(edge: tuple[Node, ...], low: float, tall: float) -> Stroke:
    """A band round a vessel, a little proud of it."""
    below, above = (radius_at(edge, z) + 1 * MM for z in (low, low + tall))
    ends = ((-below, low), (below, low), (above, low + tall), (-above, low + tall))
    return body([corner(x, z) for x, z in ends])


def _rope(edge: tuple[Node, ...], low: float, tall: float) -> tuple[Touch, ...]:
    """A band with the lay of a rope drawn on it."""
    wide = min(radius_at(edge, low), radius_at(edge, low + tall)) - tall
    lays = [
        line(
            corner(wide * at / 5 - 0.5 * tall, low), corner(wide * at / 5 + 0.5 * tall, low + tall)
        )
        for at in range(-5, 6)
    ]
    return (*lit((_belt(edge, low, tall),)), *plain(lays))


def _panel_edges(count: int) -> list[float]:
    """Where edges between flat panels are, one panel to the front, as shares of the radius."""
    turns = [2 * math.pi * (at + 0.5) / count for at in range(count)] if count else []
    return [math.sin(turn) for turn in turns if math.cos(turn) > 0.05]  # noqa: PLR2004 - not edge-on


def _uprights(edge: tuple[Node, ...], neck: float, shares: tuple[float, ...]) -> list[Stroke]:
    """Lines up the side of a vessel, each at a share of its radius."""
    heights = [0.1 * neck + 0.75 * neck * at / 6 for at in range(7)]
    nodes = [tuple(corner(share * radius_at(edge, z), z) for z in heights) for share in shares]
    return [Stroke(it, Look.WALL if len(shares) < _MANY else Look.LINE) for it in nodes]


_MANY: Final = 8


def cap_view(piece: Piece, _: str) -> View | None:
    """Draw a font with its filler cap, or without one."""
    shape = font_shape(piece)
    if "cap" not in piece.marks:
        return View(plain(whole(shape)))
    cap, *others = shape.outside
    rest = whole(replace(shape, outside=tuple(others)))
    return View((*lit((cap,)), *plain(rest)), note="How wide the cap is, is not in the fit book.")


def tube_view(piece: Piece, _: str) -> View | None:
    """Draw a font from underneath: closed, or with a tube through it."""
    edge = font_shape(piece).widest
    foot = piece.by.radius if piece.by else 0.6 * edge
    rings = (disc(edge), disc(min(foot, edge)), disc(0.86 * min(foot, edge)))
    if "tube" not in piece.marks:
        return View(plan=plain(rings), seen="Seen from underneath.")
    radius = piece.bore or 12 * MM
    tube = (*lit((disc(radius + 3 * MM),)), *plain((disc(radius),)))
    return View(plan=(*plain(rings), *tube), seen="Seen from underneath.")


def thread_view(pitch: float, form: str, reach: float) -> View:
    """Draw the ridges of a thread cut open, with a rule of 10 mm beside them.

    Parameters
    ----------
    pitch : float
        From ridge to ridge [m].
    form : str
        ``round``, ``tube`` for ridges flat on top, or any other for sharp ones.
    reach : float
        How long the thread is [m].

    Returns
    -------
    View
        The metal on the left, its ridges to the right.
    """
    deep = _DEPTHS.get(form, 0.61) * pitch
    crests = _CRESTS.get(form, _SHARP)
    count = max(1, round(reach / pitch))
    ridges = [
        corner(deep * out, pitch * (at + share)) for at in range(count) for share, out in crests
    ]
    top = pitch * count
    metal = (corner(-5 * MM, 0.0), *ridges, corner(0.0, top), corner(-5 * MM, top))
    rule = [line(corner(5 * MM, 0.0), corner(5 * MM, 10 * MM))]
    rule += [
        line(corner(5 * MM, z * MM), corner((7 if z % 5 else 8) * MM, z * MM)) for z in range(11)
    ]
    note = "The rule is 10 mm long. How deep the ridges are is drawn as usual for their form."
    return View((*lit((body(metal),)), *plain(rule)), (), "Cut open, enlarged.", note)


_SHARP: Final = ((0.0, 0.0), (0.5, 1.0))
_DEPTHS: Final = {"round": 0.5, "tube": 0.5}
_CRESTS: Final = {
    "tube": ((0.0, 0.0), (0.2, 0.0), (0.32, 1.0), (0.68, 1.0), (0.8, 0.0)),
    "round": tuple((at / 8, 0.5 - 0.5 * math.cos(2 * math.pi * at / 8)) for at in range(8)),
}
"""Ridges over one pitch, root to root: share of the pitch, share of the depth [-]."""

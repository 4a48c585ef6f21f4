"""Pieces and their shapes, in the order they are drawn in, mounted or put aside."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickwright.charts.base_shapes import base_shape
from wickwright.charts.burner_shapes import (
    burner_shape,
    gallery_shape,
    mantle_shape,
    spreader_shape,
    wick_shape,
)
from wickwright.charts.font_shapes import font_shape, reducer_shape
from wickwright.charts.glass_shapes import (
    bell_shape,
    bulb_shape,
    chimney_shape,
    holder_shape,
    shade_shape,
)
from wickwright.charts.inking import Paper, laid_aside
from wickwright.charts.lamp_marks import balloon, letters
from wickwright.charts.lamp_piece import State

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from wickwright.charts.lamp_piece import Piece
    from wickwright.charts.shape import Shape

__all__ = ["GAP", "Drawn", "put_beside", "shaped", "stacked", "width_beside"]

GAP: Final = 20.0
"""Between what is put aside and what stands next to it [px]."""

_SHAPES: Final[dict[str, Callable[[Piece], Shape]]] = {
    "font": font_shape,
    "reducer": reducer_shape,
    "chimney": chimney_shape,
    "burner": burner_shape,
    "wick": wick_shape,
    "spreader": spreader_shape,
    "bulb": bulb_shape,
    "mantle": mantle_shape,
    "gallery": gallery_shape,
    "holder": holder_shape,
    "shade": shade_shape,
    "bell": bell_shape,
}
_ORDER: Final = (
    "font", "base", "reducer", "chimney", "burner", "wick", "spreader", "bulb", "mantle",
    "gallery", "holder", "shade", "bell",
)  # fmt: skip
"""What is later hides what is earlier; a chimney is clear and comes before what is in it."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """A piece and its shape."""

    piece: Piece
    shape: Shape

    @property
    def left(self) -> float:
        """How far it reaches to the left of the axis [m]."""
        signed = [-it.x for stroke in self.shape.signed for it in stroke.nodes]
        outside = [it.x for stroke in self.shape.outside for it in stroke.nodes]
        return max((*signed, *outside), default=0.0)

    @property
    def right(self) -> float:
        """How far it reaches to the right of the axis [m]."""
        strokes = (*self.shape.signed, *self.shape.cut)
        return max((it.x for stroke in strokes for it in stroke.nodes), default=0.0)


def shaped(pieces: Iterable[Piece]) -> list[Drawn]:
    """Give each piece its shape, in the order they are drawn in."""
    others = [Drawn(it, _SHAPES[it.kind](it)) for it in pieces if it.kind in _SHAPES]
    room = max((it.shape.widest for it in others), default=0.0)
    bases = [Drawn(it, base_shape(it, room)) for it in pieces if it.kind == "base"]
    return sorted([*bases, *others], key=lambda it: _ORDER.index(it.piece.kind))


def stacked(aside: list[Drawn], scale: float, room: float) -> list[list[Drawn]]:
    """Put what is laid aside into as few columns as take it, the tallest lowest."""
    columns: list[list[Drawn]] = []
    for it in sorted(aside, key=lambda one: -one.piece.tall):
        free = (c for c in columns if _column_tall(c, scale) + _one_tall(it, scale) <= room)
        column = next(free, None)
        if column is None:
            columns.append([it])
        else:
            column.append(it)
    return columns


def _one_tall(it: Drawn, scale: float) -> float:
    return it.piece.tall * scale + 2 * GAP


def _column_tall(column: list[Drawn], scale: float) -> float:
    return sum(_one_tall(it, scale) for it in column)


def _wide(column: list[Drawn], scale: float) -> float:
    return (_left(column) + max(max(it.left, it.right) for it in column)) * scale


def _left(column: list[Drawn]) -> float:
    return max(it.left for it in column)


def width_beside(columns: list[list[Drawn]], scale: float) -> float:
    """Return how much room columns take beside the lamp [px]."""
    return sum(_wide(column, scale) + GAP for column in columns)


def put_beside(columns: list[list[Drawn]], scale: float, start: float, floor: float) -> str:
    """Draw what is put aside, each above its balloon.

    Parameters
    ----------
    columns : list of list of Drawn
        As :func:`stacked` gives them.
    scale : float
        Pixels for one metre [px/m].
    start, floor : float
        Left edge of the first column, and what the lowest of each stands on [px].

    Returns
    -------
    str
        The elements.
    """
    at, found = start, []
    marks = letters([it.piece for column in columns for it in column])
    for column in columns:
        axis, low = at + _left(column) * scale, floor
        for it in column:
            found.append(laid_aside(it.shape, it.piece, Paper(scale, axis, low)))
            found.append(balloon(axis, low + 16, marks[it.piece.id], State.ASIDE))
            low -= _one_tall(it, scale)
        at += _wide(column, scale) + GAP
    return "".join(found)

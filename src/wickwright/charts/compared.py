"""Small drawings to hold beside each other, all of one question at one scale."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby
from typing import TYPE_CHECKING, Final, NamedTuple

from wickwright.charts.inking import GREY, INK, Paper, inked
from wickwright.charts.lamp_piece import Piece, State
from wickwright.charts.lettering import width_of
from wickwright.charts.outline import flattened
from wickwright.charts.svg import document, group, number, path, tag, words

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from wickwright.charts.shape import Stroke
    from wickwright.charts.svg import Point

__all__ = ["SIDE", "Compared", "Span", "Touch", "lit", "plain", "side_by_side"]

SIDE: Final = 160.0
"""Width and height of a drawing [px]."""
_EDGE: Final = 8.0
_ROW: Final = 13.0
_LETTER: Final = 11.0
_SMALLEST: Final = 8.0
_APART: Final = 8.0
_MEASURE: Final = 10.0
_FINEST: Final = 12_000.0
_ONE: Final = Piece("", "", "", 0.0, 0.0)
_LIT: Final = Piece("", "", "", 0.0, 0.0, State.NEW)


class Touch(NamedTuple):
    """A stroke, and whether it is what the question is about."""

    stroke: Stroke
    lit: bool = False


class Span(NamedTuple):
    """A length that is drawn with its ends: from, to [m], and whether it is a height."""

    start: float
    end: float
    upright: bool = False


@dataclass(frozen=True, slots=True)
class Compared:
    """One answer as it is drawn.

    Attributes
    ----------
    title : str
        The answer.
    told : str
        The drawing in words.
    front : tuple of Touch
        Seen from the front, from the axis and the foot [m].
    plan : tuple of Touch
        Seen along the axis, which is at 0 [m]; it stands below the front.
    span : Span or None
        What is measured: across at the foot of all, or upright at the left of the front.
    says : tuple of str
        What is written below, one line each.
    """

    title: str
    told: str
    front: tuple[Touch, ...] = ()
    plan: tuple[Touch, ...] = ()
    span: Span | None = None
    says: tuple[str, ...] = ()


def plain(strokes: Iterable[Stroke]) -> tuple[Touch, ...]:
    """Return strokes that are only there to show where the lit ones belong."""
    return tuple(Touch(it) for it in strokes)


def lit(strokes: Iterable[Stroke]) -> tuple[Touch, ...]:
    """Return strokes of what the question is about."""
    return tuple(Touch(it, lit=True) for it in strokes)


class _Box(NamedTuple):
    """What strokes take up [m]."""

    left: float
    low: float
    right: float
    high: float

    @property
    def tall(self) -> float:
        """From the lowest to the highest [m]."""
        return self.high - self.low


def _box(touches: Sequence[Touch]) -> _Box:
    nodes = [node for it in touches for node in flattened(it.stroke.nodes)]
    if not nodes:
        return _Box(0.0, 0.0, 0.0, 0.0)
    across, up = [it.x for it in nodes], [it.z for it in nodes]
    return _Box(min(across), min(up), max(across), max(up))


def _room(one: Compared) -> tuple[float, float]:
    """Return the width and height of the paper that is free for the drawing [px]."""
    upright = one.span is not None and one.span.upright
    across = one.span is not None and not one.span.upright
    tall = SIDE - 2 * _EDGE - _ROW * len(one.says) - (_MEASURE if across else 0.0)
    gap = _APART if one.front and one.plan else 0.0
    return SIDE - 2 * _EDGE - (2 * _MEASURE if upright else 0.0), tall - gap


def _scale(one: Compared) -> float:
    front, plan = _box(one.front), _box(one.plan)
    room = _room(one)
    wide = max(front.right, plan.right) - min(front.left, plan.left)
    tall = front.tall + plan.tall
    return min(room[0] / max(wide, 1e-6), room[1] / max(tall, 1e-6), _FINEST)


def side_by_side(drawings: Mapping[str, Compared]) -> dict[str, str]:
    """Draw the answers to one question.

    Parameters
    ----------
    drawings : mapping of str to Compared
        By answer.

    Returns
    -------
    dict of str to str
        SVG text by answer, as wide as high; a metre is the same number of pixels in each, and
        that number is its ``data-scale``.
    """
    scale = min((_scale(it) for it in drawings.values()), default=0.0)
    return {answer: _drawn(it, scale) for answer, it in drawings.items()}


def _drawn(one: Compared, scale: float) -> str:
    front, plan = _box(one.front), _box(one.plan)
    middle = 0.5 * (max(front.right, plan.right) + min(front.left, plan.left))
    wide, tall = _room(one)
    axis = SIDE - _EDGE - 0.5 * wide - middle * scale
    spare = tall - (front.tall + plan.tall) * scale
    ground = _EDGE + 0.5 * spare + front.high * scale
    foot = ground - front.low * scale
    upper, lower = Paper(scale, axis, ground), Paper(scale, axis, 0.0)
    if one.plan:
        top = foot + (_APART if one.front else 0.0)
        lower = Paper(scale, axis, top + plan.high * scale)
        foot = lower.ground - plan.low * scale
    body = [
        *_inked(one.front, upper),
        *_inked(one.plan, lower),
        _measured(one, upper, foot),
        *_written(one.says),
    ]
    look: dict[str, str | float] = {"fill": "none", "stroke": INK, "stroke_width": 1.1}
    drawing = group(body[: -len(one.says)] if one.says else body, data_scale=number(scale), **look)
    said = "".join(body[-len(one.says) :]) if one.says else ""
    return document(SIDE, SIDE, one.title, one.told, [drawing, said])


def _inked(touches: Iterable[Touch], paper: Paper) -> list[str]:
    runs = groupby(touches, key=lambda it: it.lit)
    return [
        inked([it.stroke for it in run], _LIT if is_lit else _ONE, paper) for is_lit, run in runs
    ]


def _measured(one: Compared, paper: Paper, foot: float) -> str:
    """Draw a line with its two ends; its length in metres goes with it."""
    span = one.span
    if span is None:
        return ""
    if span.upright:
        x = _EDGE + 3.0
        ends = [(x, paper.at(0.0, z)[1]) for z in (span.start, span.end)]
        ticks = [[(x - 3.0, y), (x + 3.0, y)] for _, y in ends]
    else:
        y = foot + 6.0
        ends = [(paper.at(x, 0.0)[0], y) for x in (span.start, span.end)]
        ticks = [[(x, y - 3.0), (x, y + 3.0)] for x, _ in ends]
    lines: list[list[Point]] = [ends, *ticks]
    mm = f"{1000.0 * abs(span.end - span.start):.4f}"
    look: dict[str, str | float] = {"stroke": GREY, "stroke_width": 0.8, "data_mm": mm}
    return tag("path", {"d": "".join(path(it) for it in lines), **look})


def _written(says: Sequence[str]) -> list[str]:
    last = SIDE - _EDGE + 3.0
    rows = [last - _ROW * (len(says) - 1 - at) for at in range(len(says))]
    return [
        words(0.5 * SIDE, y, said, size=_size(said), anchor="middle")
        for y, said in zip(rows, says, strict=True)
    ]


def _size(said: str) -> float:
    """Letters as large as the line has room for."""
    size = _LETTER
    while width_of(said, size) > SIDE - _EDGE and size > _SMALLEST:
        size -= 0.5
    return size

"""Where everything of a chart stands on the paper."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickwright.charts.axis import Scale, nice_ticks, tick_text
from wickwright.charts.lettering import balanced, width_of, wrapped

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from wickwright.charts.figure import Figure, Panel

__all__ = ["END_ROOM", "TICK_SIZE", "Frame", "Layout", "laid_out", "line_name"]

EDGE: Final = 22.0
TITLE_SIZE: Final = 20.0
SUBTITLE_SIZE: Final = 13.5
TICK_SIZE: Final = 12.5
NOTE_SIZE: Final = 11.0
NAME_SIZE: Final = 13.0
END_ROOM: Final = 190.0
"""Widest name at the end of a line before it is broken [px]."""
LEADER: Final = 20.0
"""From the end of a line to its name [px]."""
_TICK_APART: Final = 42.0
_ACROSS_APART: Final = 95.0


@dataclass(frozen=True, slots=True)
class Frame:
    """One field on the paper.

    Attributes
    ----------
    left, right, top, bottom : float
        Its edges [px].
    across, up : Scale
        Its two axes.
    across_ticks, up_ticks : tuple of (float, str)
        Where ticks stand [px] and what they say.
    """

    left: float
    right: float
    top: float
    bottom: float
    across: Scale
    up: Scale
    across_ticks: tuple[tuple[float, str], ...]
    up_ticks: tuple[tuple[float, str], ...]


@dataclass(frozen=True, slots=True)
class Layout:
    """A whole chart on the paper.

    Attributes
    ----------
    title, subtitle, note : tuple of str
        In lines.
    subtitle_top, note_top : float
        Base line of their first lines [px].
    frames : tuple of Frame
        One for each panel.
    tall : float
        Height of the drawing [px].
    """

    title: tuple[str, ...]
    subtitle: tuple[str, ...]
    note: tuple[str, ...]
    subtitle_top: float
    note_top: float
    frames: tuple[Frame, ...]
    tall: float


def line_name(name: str) -> tuple[str, ...]:
    """Break the name of a line to the room at its end."""
    return balanced(name, NAME_SIZE, END_ROOM, bold=True)


def _real(values: Iterable[float]) -> list[float]:
    return [value for value in values if math.isfinite(value)]


def _heights(panel: Panel) -> Iterator[float]:
    for line in panel.lines:
        yield from (*line.y, *line.low, *line.high)
    yield from (stop.value for stop in panel.stops if not stop.upright)
    yield from (end for zone in panel.zones for end in (zone.low, zone.high))
    yield from (dot.y for dot in panel.dots)
    yield from (y for band in panel.bands for _, y in band.edge)
    yield from (end for end in (panel.least, panel.most) if end is not None)


def _places(figure: Figure) -> Iterator[float]:
    yield from (mark.value for mark in figure.marks)
    for panel in figure.panels:
        yield from (x for line in panel.lines for x in line.x)
        yield from (stop.value for stop in panel.stops if stop.upright)
        yield from (dot.x for dot in panel.dots)
        yield from (x for band in panel.bands for x, _ in band.edge)


def _up_ticks(panel: Panel) -> tuple[float, ...]:
    shown = [panel.axis.shown(value) for value in _real(_heights(panel))]
    return nice_ticks(min(shown), max(shown), max(3, round(panel.tall / _TICK_APART)))


def _said(ticks: tuple[float, ...]) -> tuple[str, ...]:
    return tuple(tick_text(tick, ticks[1] - ticks[0]) for tick in ticks)


def _left(figure: Figure) -> float:
    widest = max(
        width_of(text, TICK_SIZE) for panel in figure.panels for text in _said(_up_ticks(panel))
    )
    return EDGE + widest + 9.0


def _right(figure: Figure) -> float:
    names = [line for panel in figure.panels if panel.name_lines for line in panel.lines]
    widths = [
        width_of(part, NAME_SIZE, bold=True) for line in names for part in line_name(line.name)
    ]
    return figure.wide - EDGE - (max(widths) + LEADER if widths else 0.0)


def _across(
    figure: Figure, left: float, right: float
) -> tuple[Scale, tuple[tuple[float, str], ...]]:
    shown = [figure.axis.shown(place) for place in _real(_places(figure))]
    most = max(3, round((right - left) / _ACROSS_APART))
    ticks = nice_ticks(min(shown), max(shown), most)
    ends = (ticks[0], ticks[-1]) if figure.rounded else (min(shown), max(shown))
    scale = Scale(*ends, left, right)
    slack = 1e-6 * (scale.high - scale.low)
    inside = [
        (scale.at(tick), text)
        for tick, text in zip(ticks, _said(ticks), strict=True)
        if scale.low - slack <= tick <= scale.high + slack
    ]
    return scale, tuple(inside)


def laid_out(figure: Figure) -> Layout:
    """Give everything its place.

    Parameters
    ----------
    figure : Figure
        The chart.

    Returns
    -------
    Layout
        In pixels from the upper left corner.
    """
    room = figure.wide - 2 * EDGE
    title = balanced(figure.title, TITLE_SIZE, room, bold=True)
    subtitle = wrapped(figure.subtitle, SUBTITLE_SIZE, room)
    note = wrapped(figure.note, NOTE_SIZE, room)
    subtitle_top = 14.0 + 25.0 * len(title) + 22.0
    top = subtitle_top + 18.0 * (len(subtitle) - 1) + (20.0 if figure.marks else 8.0)
    frames, top = _frames(figure, top)
    note_top = top + 60.0
    return Layout(
        title, subtitle, note, subtitle_top, note_top, frames, note_top + 15.0 * len(note) - 2.0
    )


def _frames(figure: Figure, top: float) -> tuple[tuple[Frame, ...], float]:
    left, right = _left(figure), _right(figure)
    across, across_ticks = _across(figure, left, right)
    frames: list[Frame] = []
    for panel in figure.panels:
        start = top + 34.0
        end = start + panel.tall
        ticks = _up_ticks(panel)
        up = Scale(ticks[0], ticks[-1], end, start)
        up_ticks = tuple(zip((up.at(tick) for tick in ticks), _said(ticks), strict=True))
        frames.append(Frame(left, right, start, end, across, up, across_ticks, up_ticks))
        top = end + 10.0
    return tuple(frames), frames[-1].bottom

"""From a chart as data to SVG."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickwright.charts.layout import (
    EDGE,
    LEADER,
    NAME_SIZE,
    NOTE_SIZE,
    SUBTITLE_SIZE,
    TICK_SIZE,
    TITLE_SIZE,
    laid_out,
    line_name,
)
from wickwright.charts.lettering import width_of
from wickwright.charts.placing import spread
from wickwright.charts.sayings import key_of, said_in, stop_colour
from wickwright.charts.strokes import ink_of, line_stroke, places, shading
from wickwright.charts.svg import document, group, path, shape, tag, words

if TYPE_CHECKING:
    from wickwright.charts.figure import Figure, Panel
    from wickwright.charts.layout import Frame, Layout

__all__ = ["drawn", "told"]

_PALE: Final = "#dedede"
_QUIET: Final = "#5a5a5a"
_LINE_TALL: Final = 16.0


def drawn(figure: Figure) -> str:
    """Draw a chart.

    Parameters
    ----------
    figure : Figure
        The chart.

    Returns
    -------
    str
        SVG text, the same for the same chart.
    """
    layout = laid_out(figure)
    body = [_head(figure, layout)]
    for panel, frame in zip(figure.panels, layout.frames, strict=True):
        body.append(_panel(figure, panel, frame))
    body.append(_foot(figure, layout))
    return document(figure.wide, layout.tall, figure.title, told(figure), body)


def told(figure: Figure) -> str:
    """Put a chart into words for a reader who cannot see it.

    Parameters
    ----------
    figure : Figure
        The chart.

    Returns
    -------
    str
        Each line by its first and last point, and each limit.
    """
    said = [figure.subtitle] if figure.subtitle else []
    for panel in figure.panels:
        for line in panel.lines:
            (x0, y0), (x1, y1) = line.first, line.last
            said.append(
                f"{panel.axis.title}, {line.name}: {panel.axis.says(y0)} at "
                f"{figure.axis.says(x0)}, {panel.axis.says(y1)} at {figure.axis.says(x1)}."
            )
        for stop in panel.stops:
            axis = figure.axis if stop.upright else panel.axis
            said.append(f"{stop.says}: {axis.says(stop.value)}.")
        said += [f"{dot.says}." for dot in panel.dots]
    return " ".join(said)


def _head(figure: Figure, layout: Layout) -> str:
    drawn_words = [
        words(EDGE, 14.0 + 25.0 * (row + 1), line, size=TITLE_SIZE, bold=True)
        for row, line in enumerate(layout.title)
    ]
    drawn_words += [
        words(EDGE, layout.subtitle_top + 18.0 * row, line, size=SUBTITLE_SIZE, fill=_QUIET)
        for row, line in enumerate(layout.subtitle)
    ]
    return "".join(drawn_words) + _marks(figure, layout)


def _marks(figure: Figure, layout: Layout) -> str:
    """Draw the places on the horizontal axis through all panels."""
    first, last = layout.frames[0], layout.frames[-1]
    parts: list[str] = []
    for mark in figure.marks:
        x = first.across.at(figure.axis.shown(mark.value))
        line = path([(x, first.top), (x, last.bottom)])
        parts.append(tag("path", {"d": line, "stroke": "#9a9a9a", "stroke_width": 1.2}))
    return group(parts) + _mark_words(figure, first)


def _mark_words(figure: Figure, frame: Frame) -> str:
    """Name the places above the uppermost field, moved apart where they would meet."""
    wanted = [frame.across.at(figure.axis.shown(mark.value)) for mark in figure.marks]
    wide = [width_of(mark.says, TICK_SIZE) + 8.0 for mark in figure.marks]
    middles = spread(wanted, wide, frame.left, figure.wide - EDGE)
    return "".join(
        words(middle, frame.top - 7.0, mark.says, size=TICK_SIZE, anchor="middle", halo=True)
        for mark, middle in zip(figure.marks, middles, strict=True)
    )


def _panel(figure: Figure, panel: Panel, frame: Frame) -> str:
    middle = [_areas(figure, panel, frame), _grid(frame), _stops(figure, panel, frame)]
    dots = [places(figure.axis, panel, frame, (dot.x,), (dot.y,))[0] for dot in panel.dots]
    strokes = [
        line_stroke(places(figure.axis, panel, frame, line.x, line.y), line.ink, free_of=dots)
        for line in panel.lines
    ]
    over = [_axis_line(frame), _heading(panel, frame), *strokes]
    over.append(_names(figure, panel, frame) if panel.name_lines else "")
    over.append(key_of(panel, frame) if panel.key else "")
    return "".join([*middle, *over, said_in(figure, panel, frame)])


def _grid(frame: Frame) -> str:
    lines = [
        tag("path", {"d": path([(frame.left, y), (frame.right, y)])}) for y, _ in frame.up_ticks
    ]
    labels = [
        words(
            frame.left - 8.0, y + 0.34 * TICK_SIZE, said, size=TICK_SIZE, anchor="end", fill=_QUIET
        )
        for y, said in frame.up_ticks
    ]
    return group(lines, stroke=_PALE, stroke_width=1.0) + "".join(labels)


def _axis_line(frame: Frame) -> str:
    line = path([(frame.left, frame.bottom), (frame.right, frame.bottom)])
    ticks = "".join(
        path([(x, frame.bottom), (x, frame.bottom + 5.0)]) for x, _ in frame.across_ticks
    )
    return tag("path", {"d": line + ticks, "stroke": "#6e6e6e", "stroke_width": 1.2})


def _heading(panel: Panel, frame: Frame) -> str:
    return words(EDGE, frame.top - 16.0, panel.axis.heading, size=NAME_SIZE, bold=True)


def _areas(figure: Figure, panel: Panel, frame: Frame) -> str:
    parts: list[str] = []
    for zone in panel.zones:
        low, high = (frame.up.at(panel.axis.shown(end)) for end in (zone.low, zone.high))
        size = {"x": frame.left, "y": high, "width": frame.right - frame.left}
        fill = "#ecd3b8" if zone.strong else "#f8efe4"
        parts.append(tag("rect", {**size, "height": low - high, "fill": fill}))
    parts += [shading(figure, panel, frame, line) for line in panel.lines]
    for band in panel.bands:
        xs, ys = zip(*band.edge, strict=True)
        edge = shape(places(figure.axis, panel, frame, xs, ys))
        parts.append(tag("path", {"d": edge, "fill": "#8d8d8d", "fill_opacity": 0.28}))
    return "".join(parts)


def _stops(figure: Figure, panel: Panel, frame: Frame) -> str:
    parts: list[str] = []
    for stop in panel.stops:
        if stop.upright:
            x = frame.across.at(figure.axis.shown(stop.value))
            ends = [(x, frame.top), (x, frame.bottom)]
        else:
            y = frame.up.at(panel.axis.shown(stop.value))
            ends = [(frame.left, y), (frame.right, y)]
        look: dict[str, str | float] = {"d": path(ends), "stroke": stop_colour(stop)}
        look |= {"stroke_width": 1.6} if stop.firm else {"stroke_width": 1.1}
        parts.append(tag("path", look if stop.firm else {**look, "stroke_dasharray": "2 3"}))
    return "".join(parts)


def _names(figure: Figure, panel: Panel, frame: Frame) -> str:
    """Name each line at its end, with a leader where the name had to move."""
    ends = [places(figure.axis, panel, frame, *_only(line.last))[0] for line in panel.lines]
    names = [line_name(line.name) for line in panel.lines]
    tall = [_LINE_TALL * len(name) + 2.0 for name in names]
    middles = spread([y for _, y in ends], tall, frame.top - 8.0, frame.bottom + 8.0)
    parts: list[str] = []
    for line, name, (x, y), middle in zip(panel.lines, names, ends, middles, strict=True):
        colour = ink_of(line.ink).colour
        lead = path([(x + 1.0, y), (frame.right + 6.0, middle), (frame.right + 14.0, middle)])
        parts.append(tag("path", {"d": lead, "stroke": colour, "fill": "none"}))
        start = middle + 0.34 * NAME_SIZE - 0.5 * _LINE_TALL * (len(name) - 1)
        parts += [
            words(frame.right + LEADER, start + _LINE_TALL * row, part, fill=colour, bold=True)
            for row, part in enumerate(name)
        ]
    return "".join(parts)


def _only(point: tuple[float, float]) -> tuple[tuple[float], tuple[float]]:
    return (point[0],), (point[1],)


def _foot(figure: Figure, layout: Layout) -> str:
    frame = layout.frames[-1]
    labels = [
        words(x, frame.bottom + 20.0, said, size=TICK_SIZE, anchor="middle", fill=_QUIET)
        for x, said in frame.across_ticks
    ]
    middle = 0.5 * (frame.left + frame.right)
    labels.append(
        words(
            middle,
            frame.bottom + 40.0,
            figure.axis.heading,
            size=NAME_SIZE,
            anchor="middle",
            bold=True,
        )
    )
    labels += [
        words(EDGE, layout.note_top + 15.0 * row, line, size=NOTE_SIZE, fill=_QUIET)
        for row, line in enumerate(layout.note)
    ]
    return "".join(labels)

"""The words inside a field: limits, points, shaded stretches, and a key."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickwright.charts.layout import NAME_SIZE, TICK_SIZE
from wickwright.charts.lettering import width_of
from wickwright.charts.placing import Box, Spot, best, box_of, dense
from wickwright.charts.strokes import ink_of, line_stroke, mark, places
from wickwright.charts.svg import tag, words

if TYPE_CHECKING:
    from wickwright.charts.figure import Dot, Figure, Panel, Stop, Zone
    from wickwright.charts.layout import Frame
    from wickwright.charts.svg import Point

__all__ = ["key_of", "said_in", "stop_colour"]

_SAMPLE: Final = 44.0
_ROW: Final = 20.0


def key_of(panel: Panel, frame: Frame) -> str:
    """Name lines that run together beside a sample of each, in the upper right corner."""
    box = _key_box(panel, frame)
    parts = [
        tag(
            "rect",
            {
                "x": box.left,
                "y": box.top,
                "width": box.right - box.left,
                "height": box.bottom - box.top,
                "fill": "#ffffff",
                "fill_opacity": 0.85,
            },
        )
    ]
    for row, line in enumerate(panel.lines):
        y = box.top + 16.0 + _ROW * row
        ink = ink_of(line.ink)
        ends = [(box.left + 6.0, y), (box.left + 6.0 + _SAMPLE, y)]
        parts.append(line_stroke([ends[0], ends[1]], line.ink, marks=False))
        parts.append(mark(ink.mark, ends[0][0] + _SAMPLE / 2, y, ink.colour))
        x = ends[1][0] + 8.0
        parts.append(words(x, y + 0.34 * NAME_SIZE, line.name, fill=ink.colour, bold=True))
    return "".join(parts)


def _key_box(panel: Panel, frame: Frame) -> Box:
    wide = max(width_of(line.name, NAME_SIZE, bold=True) for line in panel.lines)
    wide += _SAMPLE + 20.0
    right, top = frame.right - 8.0, frame.top + 6.0
    return Box(right - wide, top, right, top + 12.0 + _ROW * len(panel.lines))


def stop_colour(stop: Stop) -> str:
    """Return the colour of a limit, or of a thing that is there."""
    return "#8c1515" if stop.limit else "#3b3b3b"


def said_in(figure: Figure, panel: Panel, frame: Frame) -> str:
    """Put the words of a field where they cover the least.

    Parameters
    ----------
    figure : Figure
        The chart.
    panel : Panel
        The field.
    frame : Frame
        Where it stands.

    Returns
    -------
    str
        SVG: points first, then limits, then shaded stretches.
    """
    lines = _obstacles(figure, panel, frame)
    inside = Box(frame.left + 2.0, frame.top - 4.0, frame.right - 2.0, frame.bottom - 1.0)
    taken = [_key_box(panel, frame)] if panel.key else []
    shaded = {zone.says for zone in panel.zones}
    parts: list[str] = []
    for said, spots, colour, bold in _wanted(figure, panel, frame):
        spot = best(spots, said, TICK_SIZE, inside=inside, taken=taken, lines=lines, bold=bold)
        taken.append(box_of(spot, said, TICK_SIZE, bold=bold))
        parts.append(
            words(
                spot.x,
                spot.y,
                said,
                size=TICK_SIZE,
                anchor=spot.anchor,
                bold=bold,
                fill=colour,
                halo=said not in shaded,
            )
        )
    return "".join([*(_dot(figure, panel, frame, dot) for dot in panel.dots), *parts])


def _obstacles(figure: Figure, panel: Panel, frame: Frame) -> list[Point]:
    lines = [
        point
        for line in panel.lines
        for point in dense(places(figure.axis, panel, frame, line.x, line.y))
    ]
    for stop in panel.stops:
        if stop.upright:
            x = frame.across.at(figure.axis.shown(stop.value))
            lines += dense([(x, frame.top), (x, frame.bottom)])
        else:
            y = frame.up.at(panel.axis.shown(stop.value))
            lines += dense([(frame.left, y), (frame.right, y)])
    for mark_at in figure.marks:
        x = frame.across.at(figure.axis.shown(mark_at.value))
        lines += dense([(x, frame.top), (x, frame.bottom)])
    return lines


def _wanted(figure: Figure, panel: Panel, frame: Frame) -> list[tuple[str, list[Spot], str, bool]]:
    """List words, where they could stand, their colour and weight."""
    return [
        *(
            (dot.says, _dot_spots(figure, panel, frame, dot), ink_of(dot.ink).colour, True)
            for dot in panel.dots
            if dot.says
        ),
        *(
            (stop.says, _stop_spots(figure, panel, frame, stop), stop_colour(stop), False)
            for stop in panel.stops
        ),
        *((zone.says, _zone_spots(panel, frame, zone), "#6b4a1f", False) for zone in panel.zones),
    ]


def _dot(figure: Figure, panel: Panel, frame: Frame, dot: Dot) -> str:
    ((x, y),) = places(figure.axis, panel, frame, (dot.x,), (dot.y,))
    look: dict[str, str | float] = {"cx": x, "cy": y, "r": 5.0, "fill": "#ffffff"}
    return tag("circle", {**look, "stroke": ink_of(dot.ink).colour, "stroke_width": 2.2})


def _dot_spots(figure: Figure, panel: Panel, frame: Frame, dot: Dot) -> list[Spot]:
    ((x, y),) = places(figure.axis, panel, frame, (dot.x,), (dot.y,))
    return [
        Spot(x + far * side, y + drop, "start" if side > 0 else "end")
        for far, drop in ((10.0, 18.0), (10.0, -9.0), (11.0, 4.0), (10.0, 34.0), (10.0, -25.0))
        for side in (1.0, -1.0)
    ]


def _stop_spots(figure: Figure, panel: Panel, frame: Frame, stop: Stop) -> list[Spot]:
    if stop.upright:
        x = frame.across.at(figure.axis.shown(stop.value))
        rows = [frame.top + 16.0 + 18.0 * row for row in range(int(frame.bottom - frame.top) // 18)]
        return [
            Spot(x + 6.0 * side, row, "start" if side > 0 else "end")
            for row in rows
            for side in (1.0, -1.0)
        ]
    y = frame.up.at(panel.axis.shown(stop.value))
    shares = [0.0, 1.0, *(part / 8 for part in range(1, 8))]
    across = [frame.left + 6.0 + share * (frame.right - frame.left - 12.0) for share in shares]
    anchors = ["start", "end", *["middle"] * 7]
    return [
        Spot(x, y + drop, anchor)
        for drop in (-5.0, 15.0)
        for x, anchor in zip(across, anchors, strict=True)
    ]


def _zone_spots(panel: Panel, frame: Frame, zone: Zone) -> list[Spot]:
    low, high = (frame.up.at(panel.axis.shown(end)) for end in (zone.low, zone.high))
    middle = 0.5 * (low + high) + 0.34 * TICK_SIZE
    rows = (middle, high + 17.0, low - 8.0)
    wide = frame.right - frame.left
    return [
        *(Spot(frame.right - 8.0, row, "end") for row in rows),
        *(Spot(frame.left + 8.0, row, "start") for row in rows),
        *(
            Spot(frame.left + part / 6 * wide, row, "middle")
            for row in rows
            for part in range(1, 6)
        ),
    ]

"""Carbon dioxide and oxygen in a room over an evening, with limits."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickwright.charts.axis import axis_of
from wickwright.charts.draw import drawn
from wickwright.charts.figure import Dot, Figure, Line, Mark, Panel, Stop

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["OverEvening", "room_chart"]

_HOUR: Final = 3600.0


@dataclass(frozen=True, slots=True)
class OverEvening:
    """The air of a room over an evening, one way of airing it.

    Attributes
    ----------
    name : str
        How the room is aired, or how many lamps burn, in a few words.
    time : tuple of float
        Since the lamps were lit, rising [s].
    carbon_dioxide : tuple of float
        Share of the air [-].
    oxygen : tuple of float
        Share of the air [-]; empty to leave it out.
    """

    name: str
    time: tuple[float, ...]
    carbon_dioxide: tuple[float, ...]
    oxygen: tuple[float, ...] = ()


def room_chart(
    evenings: Sequence[OverEvening],
    *,
    title: str,
    subtitle: str = "",
    carbon_dioxide_limits: Sequence[tuple[float, str]] = (),
    oxygen_limits: Sequence[tuple[float, str]] = (),
    moments: Sequence[tuple[float, str]] = (),
    note: str = "",
    units: str = "metric",
) -> str:
    """Draw carbon dioxide, and oxygen where it is given, over an evening.

    Parameters
    ----------
    evenings : sequence of OverEvening
        A line each.
    title : str
        What the chart says, in a sentence.
    subtitle : str
        What is drawn, under which conditions.
    carbon_dioxide_limits, oxygen_limits : sequence of (float, str)
        Limits as shares of the air, and who sets them [-]. The last of each is drawn firm.
    moments : sequence of (float, str)
        Times to be marked [s].
    note : str
        Sources and cautions.
    units : str
        ``'metric'`` or ``'us'``.

    Returns
    -------
    str
        SVG text. The first crossing of each limit by the first line is marked with its time.

    Raises
    ------
    ChartError
        When there is no line, a line cannot be drawn, or the units are not known.
    """
    panels = [
        Panel(
            axis_of("trace", "Carbon dioxide", units),
            tuple(
                Line(it.name, it.time, it.carbon_dioxide, ink=ink)
                for ink, it in enumerate(evenings)
            ),
            stops=_stops(carbon_dioxide_limits),
            dots=_crossings(evenings[:1], carbon_dioxide_limits),
            tall=300.0,
            least=0.0,
        )
    ]
    breathed = [(ink, it) for ink, it in enumerate(evenings) if it.oxygen]
    if breathed:
        panels.append(
            Panel(
                axis_of("share", "Oxygen", units),
                tuple(Line(it.name, it.time, it.oxygen, ink=ink) for ink, it in breathed),
                stops=_stops(oxygen_limits),
                tall=110.0,
                most=0.21,
            )
        )
    across = axis_of("time", "Time since the lamps were lit", units)
    marks = tuple(Mark(value, says) for value, says in moments)
    return drawn(Figure(title, subtitle, across, tuple(panels), marks, note))


def _stops(limits: Sequence[tuple[float, str]]) -> tuple[Stop, ...]:
    last = len(limits) - 1
    return tuple(
        Stop(value, says, firm=place == last) for place, (value, says) in enumerate(limits)
    )


def _crossings(
    evenings: Sequence[OverEvening], limits: Sequence[tuple[float, str]]
) -> tuple[Dot, ...]:
    """Mark where the first line first rises through each limit."""
    found: list[Dot] = []
    for evening in evenings:
        for limit, _ in limits:
            when = _rises_through(evening, limit)
            if when is not None:
                found.append(Dot(when, limit, _after(when)))
    return tuple(found)


def _rises_through(evening: OverEvening, limit: float) -> float | None:
    times, shares = evening.time, evening.carbon_dioxide
    steps = zip(times, times[1:], shares, shares[1:], strict=False)
    for early, late, before, after in steps:
        if before <= limit < after:
            return early + (late - early) * (limit - before) / (after - before)
    return None


def _after(seconds: float) -> str:
    if seconds < _HOUR:
        return f"after {seconds / 60:.0f} min"
    return f"after {seconds / _HOUR:.1f} h"

"""How hot it is above a lamp, height by height."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.charts.axis import ChartError, axis_of
from wickwright.charts.draw import drawn
from wickwright.charts.figure import Band, Dot, Figure, Line, Panel, Stop, Zone

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.charts.axis import Axis

__all__ = ["above_chart"]


def above_chart(
    heights: Sequence[float],
    laws: Sequence[tuple[str, Sequence[float]]],
    *,
    title: str,
    subtitle: str = "",
    exit_zone: tuple[float, str] | None = None,
    limits: Sequence[tuple[float, str]] = (),
    keep: tuple[float, str] | None = None,
    things: Sequence[tuple[float, str]] = (),
    note: str = "",
    units: str = "metric",
) -> str:
    """Draw the temperature above a lamp as the lamp stands: height upwards.

    Parameters
    ----------
    heights : sequence of float
        Over the chimney's top, rising [m].
    laws : sequence of (str, sequence of float)
        Each law by name, and its temperatures at the heights [K]. The spread of all is
        shaded.
    title : str
        What the chart says, in a sentence.
    subtitle : str
        What is drawn, under which conditions.
    exit_zone : (float, str) or None
        Height up to which the gas has the temperature it left with [m], and what is said.
    limits : sequence of (float, str)
        Temperatures things stand [K], and which things; the degrees are added. The first is
        drawn firm.
    keep : (float, str) or None
        Height to be kept free [m], and what is said of what lies below: shaded, and marked
        where it meets the first limit.
    things : sequence of (float, str)
        What is above the lamp, by height [m].
    note : str
        Sources and cautions.
    units : str
        ``'metric'`` or ``'us'``.

    Returns
    -------
    str
        SVG text.

    Raises
    ------
    ChartError
        When a law has another number of temperatures than there are heights, there is no
        law, or the units are not known.
    """
    up = axis_of("height", "Height above the chimney's top", units)
    rows = tuple(heights)
    for name, kelvins in laws:
        if len(kelvins) != len(rows):
            msg = (
                f"The law '{name}' has {len(kelvins)} temperatures for {len(rows)} heights: "
                "give one for each."
            )
            raise ChartError(msg)
    lines = tuple(
        Line(name, tuple(kelvins), rows, ink=ink) for ink, (name, kelvins) in enumerate(laws)
    )
    across = axis_of("temperature", "Temperature of the gas on the axis", units)
    stops = [
        Stop(value, f"{says}: {_degrees(across, value)}", upright=True, firm=place == 0)
        for place, (value, says) in enumerate(limits)
    ]
    stops += [Stop(value, says, firm=False, limit=False) for value, says in things]
    dots = (Dot(limits[0][0], keep[0], up.says(keep[0], 2), ink=5),) if keep and limits else ()
    panel = Panel(
        up,
        lines,
        stops=tuple(stops),
        zones=_zones(exit_zone, keep),
        dots=dots,
        bands=(_spread(rows, laws),) if laws else (),
        tall=430.0,
        least=0.0,
        name_lines=False,
        key=True,
    )
    return drawn(Figure(title, subtitle, across, (panel,), note=note, rounded=True))


def _degrees(axis: Axis, kelvin: float) -> str:
    return f"{axis.shown(kelvin):.0f} {axis.unit}"


def _zones(exit_zone: tuple[float, str] | None, keep: tuple[float, str] | None) -> tuple[Zone, ...]:
    """Shade what is to be kept free, and darker where the gas is as it left."""
    low = exit_zone[0] if exit_zone else 0.0
    return (
        *((Zone(low, *keep),) if keep and keep[0] > low else ()),
        *((Zone(0.0, *exit_zone, strong=True),) if exit_zone else ()),
    )


def _spread(heights: tuple[float, ...], laws: Sequence[tuple[str, Sequence[float]]]) -> Band:
    """Shade from the least to the greatest of the laws."""
    columns = list(zip(*(kelvins for _, kelvins in laws), strict=True))
    low = [(min(column), height) for column, height in zip(columns, heights, strict=True)]
    high = [(max(column), height) for column, height in zip(columns, heights, strict=True)]
    return Band("spread", (*low, *reversed(high)))

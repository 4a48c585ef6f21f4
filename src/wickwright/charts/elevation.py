"""Light, fuel and margin against elevation, a line for each chimney."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, Final

from wickwright.charts.axis import axis_of
from wickwright.charts.draw import drawn
from wickwright.charts.figure import Dot, Figure, Line, Mark, Panel, Stop

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.charts.axis import Axis

__all__ = ["Measured", "OverElevation", "banded", "dots_at", "elevation_chart"]

_ONE_STANDARD: Final = "Shaded: one standard uncertainty on either side."


@dataclass(frozen=True, slots=True)
class Measured:
    """Values with one standard uncertainty each.

    Attributes
    ----------
    values : tuple of float
        In SI units; NaN where there is none.
    error : tuple of float
        One standard uncertainty in the same units; empty where it is not known.
    """

    values: tuple[float, ...]
    error: tuple[float, ...] = ()


def banded(name: str, x: tuple[float, ...], measured: Measured, ink: int) -> Line:
    """Return the line of measured values with its band.

    Parameters
    ----------
    name : str
        What stands at its end.
    x : tuple of float
        Where the values are, in SI units.
    measured : Measured
        The values.
    ink : int
        Which ink draws it [-].

    Returns
    -------
    Line
        With its band where the uncertainty is known.

    Raises
    ------
    ChartError
        When the numbers do not go together.
    """
    pairs = list(zip(measured.values, measured.error, strict=False))
    low = tuple(value - error for value, error in pairs)
    high = tuple(value + error for value, error in pairs)
    return Line(name, x, measured.values, low, high, ink)


def dots_at(
    axis: Axis, lines: Sequence[Line], places: Sequence[tuple[float, str]]
) -> tuple[Dot, ...]:
    """Return the values of lines at marked places, as points with their values.

    Parameters
    ----------
    axis : Axis
        What the values are shown in.
    lines : sequence of Line
        The lines.
    places : sequence of (float, str)
        Where, in SI units of the horizontal axis; the words are not used.

    Returns
    -------
    tuple of Dot
        One for each line at each place it reaches.
    """
    found: list[Dot] = []
    for place, _ in places:
        for line in lines:
            value = _between(line, place)
            if value is not None:
                found.append(Dot(place, value, axis.says(value), line.ink))
    return tuple(found)


def _between(line: Line, place: float) -> float | None:
    """Read a line at a place, straight between its points; None where it is not drawn."""
    for (x0, x1), (y0, y1) in zip(pairwise(line.x), pairwise(line.y), strict=True):
        if x0 <= place <= x1 and math.isfinite(y0 + y1):
            return y0 + (y1 - y0) * (place - x0) / (x1 - x0)
    return None


@dataclass(frozen=True, slots=True)
class OverElevation:
    """One chimney over elevations.

    Attributes
    ----------
    name : str
        The chimney, in a few words.
    elevation : tuple of float
        Above sea level, rising [m].
    light : Measured
        Light of the fullest clean flame [lm].
    fuel : Measured
        Fuel it burns [kg/s].
    margin : Measured
        Room left before carbon [-].
    """

    name: str
    elevation: tuple[float, ...]
    light: Measured
    fuel: Measured
    margin: Measured


def elevation_chart(
    chimneys: Sequence[OverElevation],
    *,
    title: str,
    subtitle: str = "",
    places: Sequence[tuple[float, str]] = (),
    light_reference: tuple[float, str] | None = None,
    note: str = "",
    units: str = "metric",
    fuel_density: float | None = None,
    margin_title: str = "Margin to carbon",
    margin_limit: tuple[float, str] | None = (0.0, "carbon forms below"),
) -> str:
    """Draw light, fuel and margin against elevation for each chimney.

    Parameters
    ----------
    chimneys : sequence of OverElevation
        A line each.
    title : str
        What the chart says, in a sentence.
    subtitle : str
        What is drawn, under which conditions.
    places : sequence of (float, str)
        Elevations to be marked, such as the caller's [m]; the light there is printed.
    light_reference : (float, str) or None
        Light to compare with, such as that at sea level [lm], and what it is.
    note : str
        Sources and cautions.
    units : str
        ``'metric'`` or ``'us'``.
    fuel_density : float or None
        So that ``us`` can show fluid ounces [kg/m3].
    margin_title : str
        What the margin is called.
    margin_limit : (float, str) or None
        The margin at which carbon forms [-], and what is said of it.

    Returns
    -------
    str
        SVG text.

    Raises
    ------
    ChartError
        When there is no line, a line cannot be drawn, or the units are not known.
    """
    stops = () if margin_limit is None else (Stop(*margin_limit),)
    rows = list(enumerate(chimneys))
    light = axis_of("light", "Light", units)
    bright = tuple(banded(it.name, it.elevation, it.light, ink) for ink, it in rows)
    panels = (
        Panel(
            light,
            bright,
            stops=(Stop(*light_reference, firm=False, limit=False),) if light_reference else (),
            dots=dots_at(light, bright, places),
            tall=280.0,
            least=0.0,
        ),
        Panel(
            axis_of("fuel", "Fuel", units, fuel_density),
            tuple(banded(it.name, it.elevation, it.fuel, ink) for ink, it in rows),
            tall=120.0,
            least=0.0,
        ),
        Panel(
            axis_of("share", margin_title, units),
            tuple(banded(it.name, it.elevation, it.margin, ink) for ink, it in rows),
            stops=stops,
            tall=120.0,
        ),
    )
    across = axis_of("elevation", "Elevation above sea level", units)
    marks = tuple(Mark(value, says) for value, says in places)
    shaded = any(it.light.error or it.fuel.error for it in chimneys)
    foot = f"{_ONE_STANDARD} {note}".strip() if shaded else note
    return drawn(Figure(title, subtitle, across, panels, marks, foot))

"""Light and fuel against the height of the chimney."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.charts.axis import axis_of
from wickwright.charts.draw import drawn
from wickwright.charts.elevation import Measured, banded, dots_at
from wickwright.charts.figure import Figure, Mark, Panel

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["OverHeight", "chimney_height_chart"]


@dataclass(frozen=True, slots=True)
class OverHeight:
    """One burner over chimney heights.

    Attributes
    ----------
    name : str
        The place or the burner, in a few words.
    height : tuple of float
        Height of the chimney, rising [m].
    light : Measured
        Light of the fullest clean flame [lm].
    fuel : Measured
        Fuel it burns [kg/s].
    """

    name: str
    height: tuple[float, ...]
    light: Measured
    fuel: Measured


def chimney_height_chart(
    burners: Sequence[OverHeight],
    *,
    title: str,
    subtitle: str = "",
    chimneys: Sequence[tuple[float, str]] = (),
    note: str = "",
    units: str = "metric",
    fuel_density: float | None = None,
) -> str:
    """Draw light and fuel against the height of the chimney.

    Parameters
    ----------
    burners : sequence of OverHeight
        A line each: one burner at several places, or several burners.
    title : str
        What the chart says, in a sentence.
    subtitle : str
        What is drawn, under which conditions.
    chimneys : sequence of (float, str)
        Heights of the chimneys there are, and their names [m]; the light there is printed.
    note : str
        Sources and cautions.
    units : str
        ``'metric'`` or ``'us'``.
    fuel_density : float or None
        So that ``us`` can show fluid ounces [kg/m3].

    Returns
    -------
    str
        SVG text.

    Raises
    ------
    ChartError
        When there is no line, a line cannot be drawn, or the units are not known.
    """
    rows = list(enumerate(burners))
    light = axis_of("light", "Light", units)
    bright = tuple(banded(it.name, it.height, it.light, ink) for ink, it in rows)
    panels = (
        Panel(
            light,
            bright,
            dots=dots_at(light, bright, chimneys),
            tall=250.0,
            least=0.0,
        ),
        Panel(
            axis_of("fuel", "Fuel", units, fuel_density),
            tuple(banded(it.name, it.height, it.fuel, ink) for ink, it in rows),
            tall=160.0,
            least=0.0,
        ),
    )
    marks = tuple(Mark(value, says) for value, says in chimneys)
    shaded = any(it.light.error or it.fuel.error for it in burners)
    foot = f"Shaded: one standard uncertainty on either side. {note}" if shaded else note
    across = axis_of("length", "Height of the chimney", units)
    return drawn(Figure(title, subtitle, across, panels, marks, foot.strip()))

"""A chart of a lamp that burns, written to a file."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.answers.pictures.burn_charts import above_svg, elevation_svg, height_svg, room_svg
from wickwright.cli.output import write_bytes

if TYPE_CHECKING:
    from pathlib import Path

    from wickwright.answers.flames.predict_burn import Burns
    from wickwright.cli.burn import Asked, Told
    from wickwright.fit.compiled import Compiled
    from wickwright.terms.units import Units

__all__ = ["draw", "drawn"]


def drawn(
    compiled: Compiled, asked: Asked, answer: Burns, told: Told, chart_of: str, units: Units
) -> str:
    """Return a chart as SVG.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    asked : Asked
        What was typed.
    answer : Burns
        How the lamp burns.
    told : Told
        The same with its room and what is near it.
    chart_of : str
        ``'elevation'``, ``'height'``, ``'room'`` or ``'above'``.
    units : Units
        What to print in.

    Returns
    -------
    str
        SVG text.

    Raises
    ------
    BurnError
        When the flame of another chimney cannot be computed.
    """
    if chart_of == "room" and told.room is not None:
        return room_svg(answer, told.room, units)
    if chart_of == "above" and told.near is not None:
        return above_svg(answer, told.near, asked.above, units)
    if chart_of == "height":
        return height_svg(compiled, answer, units)
    return elevation_svg(compiled, answer, units)


def draw(path: Path, svg: str) -> None:
    """Write a chart, as a picture where the file's ending says so.

    Parameters
    ----------
    path : Path
        Ends in ``.svg`` or ``.png``.
    svg : str
        The chart.

    Raises
    ------
    UnusableError
        When the file cannot be written.
    """
    if path.suffix.lower() == ".svg":
        write_bytes(path, svg.encode())
        return
    from wickwright.charts.png import png_of  # noqa: PLC0415 - only for pictures

    write_bytes(path, png_of(svg))

"""The few words of SVG the charts are written in."""

from __future__ import annotations

import math
from html import escape
from typing import TYPE_CHECKING, Final

from wickwright.charts.lettering import FONTS

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

__all__ = ["Point", "document", "group", "number", "path", "shape", "tag", "words"]

Point = tuple[float, float]
_ENOUGH: Final = 2


def number(value: float) -> str:
    """Print a length for the drawing, in hundredths of a pixel at most."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def tag(name: str, attributes: dict[str, str | float], inside: str = "") -> str:
    """Write one element.

    Parameters
    ----------
    name : str
        Its name.
    attributes : dict of str to str or float
        With low lines for hyphens; text is escaped here.
    inside : str
        What it holds, already SVG.

    Returns
    -------
    str
        The element.
    """
    said = "".join(
        f' {key.replace("_", "-")}="{escape(value) if isinstance(value, str) else number(value)}"'
        for key, value in attributes.items()
    )
    return f"<{name}{said}>{inside}</{name}>" if inside else f"<{name}{said}/>"


def group(parts: Iterable[str], **attributes: str | float) -> str:
    """Write elements that share attributes; nothing for no elements."""
    inside = "".join(parts)
    return tag("g", dict(attributes), inside) if inside else ""


def path(points: Sequence[Point]) -> str:
    """Write a path through points, broken where a point is no number."""
    said: list[str] = []
    pen_down = False
    for x, y in points:
        if not (math.isfinite(x) and math.isfinite(y)):
            pen_down = False
            continue
        said.append(f"{'L' if pen_down else 'M'}{number(x)} {number(y)}")
        pen_down = True
    return "".join(said)


def shape(points: Sequence[Point]) -> str:
    """Write a closed path through the points that are numbers; nothing for fewer than three."""
    real = [(x, y) for x, y in points if math.isfinite(x) and math.isfinite(y)]
    return f"{path(real)}Z" if len(real) > _ENOUGH else ""


def words(
    x: float,
    y: float,
    said: str,
    *,
    size: float = 13.0,
    anchor: str = "start",
    bold: bool = False,
    fill: str = "#222222",
    halo: bool = False,
) -> str:
    """Write words.

    Parameters
    ----------
    x, y : float
        Where their base line is anchored [px].
    said : str
        The words; escaped here.
    size : float
        Size of the letters [px].
    anchor : str
        ``'start'``, ``'middle'`` or ``'end'``.
    bold : bool
        Whether they are bold.
    fill : str
        Their colour.
    halo : bool
        Whether they have white around them, to stand on lines.

    Returns
    -------
    str
        The element.
    """
    attributes: dict[str, str | float] = {"x": x, "y": y, "font_size": size, "fill": fill}
    if anchor != "start":
        attributes["text_anchor"] = anchor
    if bold:
        attributes["font_weight"] = "bold"
    if halo:
        attributes |= {
            "stroke": "#ffffff",
            "stroke_width": 4.0,
            "stroke_linejoin": "round",
            "paint_order": "stroke",
        }
    return tag("text", attributes, escape(said))


def document(width: float, height: float, title: str, told: str, body: Iterable[str]) -> str:
    """Write a whole drawing.

    Parameters
    ----------
    width, height : float
        Its size [px].
    title : str
        What it shows, for a reader who cannot see it.
    told : str
        What there is to see, for the same reader.
    body : iterable of str
        What it holds, already SVG.

    Returns
    -------
    str
        A drawing on white paper that stands by itself in a file.
    """
    size = f"{number(width)} {number(height)}"
    head = f"<title>{escape(title)}</title><desc>{escape(told)}</desc>"
    paper = tag("rect", {"width": width, "height": height, "fill": "#ffffff"})
    opening = (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" width="{number(width)}" '
        f'height="{number(height)}" viewBox="0 0 {size}" font-family="{FONTS}">'
    )
    return f"{opening}{head}{paper}{''.join(body)}</svg>\n"

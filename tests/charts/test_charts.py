"""The four charts, from plain numbers to SVG and PNG."""

from __future__ import annotations

import struct
import subprocess
import sys
import xml.etree.ElementTree as ET

import pytest

from wickwright.charts.above_lamp import above_chart
from wickwright.charts.axis import ChartError, axis_of
from wickwright.charts.chimney_height import OverHeight, chimney_height_chart
from wickwright.charts.elevation import (
    Measured,
    OverElevation,
    banded,
    dots_at,
    elevation_chart,
)
from wickwright.charts.png import png_of
from wickwright.charts.room_evening import OverEvening, room_chart

SVG = "{http://www.w3.org/2000/svg}"
UP = (0.0, 1000.0, 2000.0)
NAN = float("nan")


def _said(svg: str) -> list[str]:
    return [text.text or "" for text in ET.fromstring(svg).iter(f"{SVG}text")]  # noqa: S314 - our own


def _chimney(name: str, by: float = 1.0) -> OverElevation:
    return OverElevation(
        name,
        UP,
        Measured((900 * by, 800 * by, 700 * by), (90.0, 80.0, 70.0)),
        Measured((1.8e-5, 1.7e-5, 1.6e-5)),
        Measured((0.2, 0.1, -0.05)),
    )


def _elevation(units: str = "metric") -> str:
    return elevation_chart(
        [_chimney("standard"), _chimney("tall", 1.2)],
        title="The tall chimney gives it back",
        places=[(1700.0, "the caller")],
        light_reference=(900.0, "standard at sea level"),
        units=units,
        fuel_density=807.0,
        note="Computed.",
    )


def test_light_at_the_callers_place_is_printed() -> None:
    """The one number a caller asks for would have to be read off with a ruler."""
    said = _said(_elevation())
    assert {"730 lm", "876 lm", "the caller", "standard at sea level"} <= set(said)
    assert "Shaded: one standard uncertainty on either side. Computed." in said
    assert said.count("standard") == said.count("tall") == 3
    assert "carbon forms below" in said


def test_the_user_chooses_the_units() -> None:
    """A caller in feet would be shown metres, or grams for ounces."""
    metric, us = _said(_elevation()), _said(_elevation("us"))
    assert {"Elevation above sea level, m", "Fuel, g/h"} <= set(metric)
    assert {"Elevation above sea level, ft", "Fuel, US fl oz/h"} <= set(us)
    with pytest.raises(ChartError) as refused:
        _elevation("feet")
    assert str(refused.value) == "There are no units 'feet': choose metric or us."


def test_a_chart_without_chimneys_is_refused() -> None:
    """A lamp no chimney fits would get an empty sheet."""
    with pytest.raises(ChartError) as refused:
        elevation_chart([], title="Light")
    assert str(refused.value) == (
        "The chart 'Light' has a panel without a line: give each at least one."
    )


def test_a_line_is_read_straight_between_its_points() -> None:
    """The value at a place would be that of a neighbour, or told where there is none."""
    axis = axis_of("light", "Light")
    line = banded("one", (*UP, 3000.0), Measured((900.0, 800.0, NAN, 600.0)), 2)
    dots = dots_at(axis, [line], [(250.0, ""), (1500.0, ""), (5000.0, "")])
    assert [(dot.x, dot.y, dot.says, dot.ink) for dot in dots] == [(250.0, 875.0, "875 lm", 2)]


def test_a_band_is_one_standard_on_either_side() -> None:
    """The shading would be twice as wide, or one-sided."""
    line = banded("one", UP, Measured((9.0, 8.0, 7.0), (1.0, 2.0, 3.0)), 0)
    assert line.low == (8.0, 6.0, 4.0)
    assert line.high == (10.0, 10.0, 10.0)
    assert banded("one", UP, Measured((9.0, 8.0, 7.0)), 0).low == ()


def test_uncertainties_for_some_points_only_are_refused() -> None:
    """A band would stop half-way without a word."""
    with pytest.raises(ChartError) as refused:
        banded("one", UP, Measured((9.0, 8.0, 7.0), (1.0, 2.0)), 0)
    assert str(refused.value) == (
        "The line 'one' has 3 places, 3 values, 2 lower and 2 upper ends: give as many of each, or "
        "no ends at all."
    )


def test_light_and_fuel_over_chimney_heights() -> None:
    """The chart of heights would lack a chimney, its light, or the fuel."""
    heights = (0.25, 0.31, 0.40)
    burner = OverHeight(
        "at sea level",
        heights,
        Measured((800.0, 900.0, 1000.0)),
        Measured((1.7e-5, 1.8e-5, 1.9e-5)),
    )
    svg = chimney_height_chart(
        [burner], title="Taller is brighter", chimneys=[(0.31, "standard")], units="us"
    )
    said = _said(svg)
    assert {"standard", "900 lm", "Height of the chimney, in", "Fuel, oz/h"} <= set(said)
    assert not [words for words in said if words.startswith("Shaded")]


def _room(oxygen: bool = True) -> str:  # noqa: FBT001, FBT002 - a switch of a test
    hours = tuple(3600.0 * hour for hour in range(5))
    shut = OverEvening(
        "shut",
        hours,
        (420e-6, 2420e-6, 4420e-6, 6420e-6, 8420e-6),
        (0.209, 0.206, 0.203, 0.200, 0.197) if oxygen else (),
    )
    return room_chart(
        [shut],
        title="Shut, it passes the limit",
        carbon_dioxide_limits=[(920e-6, "mild"), (4920e-6, "at work")],
        oxygen_limits=[(0.195, "hazardous")],
        moments=[(7200.0, "bed time")],
    )


def test_the_hour_a_limit_is_passed_is_printed() -> None:
    """A caller would have to guess how long the room stays good."""
    said = _said(_room())
    assert {"after 15 min", "after 2.2 h", "mild", "at work", "hazardous", "bed time"} <= set(said)
    assert {"Carbon dioxide, ppm", "Oxygen, %", "Time since the lamps were lit, h"} <= set(said)


def test_oxygen_is_left_out_where_it_is_not_given() -> None:
    """An empty field would be drawn."""
    assert "Oxygen, %" not in _said(_room(oxygen=False))


def _above(units: str = "metric") -> str:
    return above_chart(
        (0.0, 0.09, 0.3, 0.6, 1.2),
        [("one law", (690.0, 690.0, 430.0, 340.0, 303.0)), ("other", (690, 690, 400, 330, 300))],
        title="Keep wood away",
        exit_zone=(0.09, "as it left"),
        limits=[(350.15, "wood, for years"), (363.15, "wood, in codes")],
        keep=(0.55, "too hot for wood"),
        things=[(1.0, "the shelf")],
        units=units,
    )


def test_the_height_to_keep_is_printed() -> None:
    """A caller would have to read the safe height off a curve."""
    said = _said(_above())
    assert {"0.55 m", "wood, for years: 77 °C", "wood, in codes: 90 °C"} <= set(said)
    assert {"too hot for wood", "as it left", "the shelf", "one law", "other"} <= set(said)
    assert {"22 in", "wood, for years: 171 °F", "wood, in codes: 194 °F"} <= set(
        _said(_above("us"))
    )


def test_a_law_with_missing_heights_is_refused() -> None:
    """A curve would be drawn against the wrong heights."""
    with pytest.raises(ChartError) as refused:
        above_chart((0.1, 0.2), [("one law", (400.0,))], title="Heat")
    assert str(refused.value) == (
        "The law 'one law' has 1 temperatures for 2 heights: give one for each."
    )
    with pytest.raises(ChartError) as empty:
        above_chart((0.1, 0.2), [], title="Heat")
    assert str(empty.value) == (
        "The chart 'Heat' has a panel without a line: give each at least one."
    )


def _size(png: bytes) -> tuple[int, int]:
    wide, tall = struct.unpack(">II", png[16:24])
    return int(wide), int(tall)


def test_a_picture_has_the_size_of_the_drawing() -> None:
    """A PNG would be cut, or too coarse to print."""
    svg = _above()
    root = ET.fromstring(svg)  # noqa: S314 - our own drawing
    drawn = (float(root.get("width", "0")), float(root.get("height", "0")))
    png = png_of(svg)
    assert png.startswith(b"\x89PNG\r\n\x1a\n")
    assert _size(png) == pytest.approx((2 * drawn[0], 2 * drawn[1]), abs=1.5)
    assert _size(png_of(svg, 1)) == pytest.approx(drawn, abs=1.5)


@pytest.mark.parametrize("bold", ["", ' font-weight="bold"'])
def test_a_picture_has_letters_on_a_machine_without_fonts(bold: str) -> None:
    """On a bare machine the words would be missing from the picture, or not be bold."""
    opening = '<svg xmlns="http://www.w3.org/2000/svg" width="90" height="30"><rect width="90" '
    opening += 'height="30" fill="#fff"/>'
    word = f'<text x="5" y="20" font-size="15" font-family="No Such Font, sans-serif"{bold}>CO₂ ½ °'
    blank, other = png_of(f"{opening}</svg>"), png_of(f"{opening}{word}</text></svg>")
    plain = png_of(f"{opening}{word.replace(bold, '')}</text></svg>")
    assert other != blank
    assert (other != plain) is bool(bold)


def test_what_is_no_drawing_is_refused() -> None:
    """Nonsense would come back as an empty picture."""
    with pytest.raises(ValueError, match="unknown token at 1:1"):
        png_of("nothing")


def test_a_chart_loads_no_heavy_library() -> None:
    """The command line would load numbers and pixels to draw lines."""
    code = (
        "import sys; import wickwright.charts.elevation, wickwright.charts.room_evening; "
        "import wickwright.charts.above_lamp, wickwright.charts.png; "
        "print([name for name in ('numpy', 'resvg_py') if name in sys.modules])"
    )
    done = subprocess.run(  # noqa: S603 - our own interpreter and text
        [sys.executable, "-c", code], capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "[]"

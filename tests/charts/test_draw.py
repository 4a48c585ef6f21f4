from __future__ import annotations

import xml.etree.ElementTree as ET

import pytest

from wickwright.charts.axis import ChartError, axis_of
from wickwright.charts.draw import drawn, told
from wickwright.charts.figure import INKS, Band, Dot, Figure, Line, Mark, Panel, Stop, Zone
from wickwright.charts.lettering import width_of
from wickwright.charts.svg import path, shape, tag, words

SVG = "{http://www.w3.org/2000/svg}"
X = (0.0, 1000.0, 2000.0)


def a_panel(*lines: Line, tall: float = 200.0, stops: tuple[Stop, ...] = ()) -> Panel:
    """Return a field of light."""
    shown = lines or (Line("one", X, (900.0, 800.0, 700.0)),)
    return Panel(axis_of("light", "Light"), shown, stops=stops, tall=tall, least=0.0)


def a_figure(*panels: Panel, title: str = "A title", note: str = "") -> Figure:
    """Return a chart over elevations."""
    axis = axis_of("elevation", "Elevation")
    return Figure(title, "Under which conditions.", axis, panels or (a_panel(),), note=note)


def _texts(svg: str) -> list[ET.Element]:
    return list(ET.fromstring(svg).iter(f"{SVG}text"))  # noqa: S314 - our own drawing


def test_a_chart_is_well_formed_and_says_what_it_shows() -> None:
    """A browser would refuse the drawing, or a reader who cannot see it hear nothing."""
    root = ET.fromstring(drawn(a_figure()))  # noqa: S314 - our own drawing
    assert root.tag == f"{SVG}svg"
    assert root.get("role") == "img"
    assert root.findtext(f"{SVG}title") == "A title"
    assert root.findtext(f"{SVG}desc") == (
        "Under which conditions. Light, one: 900 lm at 0.00 m, 700 lm at 2,000 m."
    )


def test_the_same_chart_gives_the_same_text() -> None:
    """Two runs would differ, and a stored chart look changed."""
    assert drawn(a_figure()) == drawn(a_figure())


def test_words_of_users_are_escaped() -> None:
    """A part named with a sharp bracket would break the drawing, or a script run in it."""
    nasty = '<script>alert("1")</script> & so on'
    line = Line(nasty, X, (1.0, 2.0, 3.0))
    svg = drawn(a_figure(a_panel(line, stops=(Stop(2.0, nasty),)), title=nasty, note=nasty))
    assert "<script" not in svg
    assert ET.fromstring(svg).findtext(f"{SVG}title") == nasty  # noqa: S314 - our own drawing


def test_limits_and_points_are_told_too() -> None:
    """A reader who cannot see the chart would miss the limit."""
    panel = Panel(
        axis_of("light", "Light"),
        (Line("one", X, (900.0, 800.0, 700.0)),),
        stops=(Stop(750.0, "too dim below"), Stop(500.0, "here", upright=True)),
        dots=(Dot(1500.0, 750.0, "too dim from 1,500 m"),),
    )
    said = told(a_figure(panel))
    assert "too dim below: 750 lm. here: 500 m. too dim from 1,500 m." in said


def test_no_two_inks_are_alike_in_grey() -> None:
    """Two lines of a grey print could not be told apart."""
    assert len({ink.dash for ink in INKS}) == len({ink.mark for ink in INKS}) == len(INKS)


@pytest.mark.parametrize("ink", range(len(INKS)))
def test_inks_are_dark_enough_for_letters(ink: int) -> None:
    """A name in a line's colour would be too pale on white (WCAG 2.2, contrast 4.5)."""
    parts = [int(INKS[ink].colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    linear = [
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    ]
    light = 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
    assert 1.05 / (light + 0.05) >= 4.5


def _places(svg: str) -> list[tuple[float, float, float, float]]:
    """Give the room each text takes, in the widest font."""
    found = []
    for text in _texts(svg):
        size, said = float(text.get("font-size", "0")), text.text or ""
        wide = width_of(said, size, bold=text.get("font-weight") == "bold")
        shift = {"middle": wide / 2, "end": wide}.get(text.get("text-anchor", ""), 0.0)
        left, base = float(text.get("x", "0")) - shift, float(text.get("y", "0"))
        found.append((left, base - 0.74 * size, left + wide, base + 0.05 * size))
    return found


@pytest.mark.parametrize("apart", [0.0, 1.0, 30.0])
def test_no_words_cover_words_or_leave_the_paper(apart: float) -> None:
    """Names of lines that end close together would be printed over each other."""
    lines = tuple(
        Line(f"chimney of {ink}00 mm", X, (900.0, 800.0, 700.0 + ink * apart), ink=ink)
        for ink in range(4)
    )
    stops = (Stop(300.0, "a mild limit", firm=False), Stop(310.0, "a firm limit"))
    figure = a_figure(a_panel(*lines, stops=stops), a_panel(*lines, tall=120.0), note="n " * 300)
    svg = drawn(figure)
    boxes = _places(svg)
    tall = float(ET.fromstring(svg).get("height", "0"))  # noqa: S314 - our own drawing
    for place, one in enumerate(boxes):
        assert one[0] >= 0
        assert one[1] >= 0
        assert one[2] <= figure.wide
        assert one[3] <= tall
        for other in boxes[place + 1 :]:
            apart_across = one[2] <= other[0] or other[2] <= one[0]
            apart_down = one[3] <= other[1] or other[3] <= one[1]
            assert apart_across or apart_down


def test_a_gap_in_a_line_stays_a_gap() -> None:
    """A flame that goes out would be drawn as burning on."""
    assert path([(0, 0), (1, 1), (float("nan"), 2), (3, 3), (4, 4)]) == "M0 0L1 1M3 3L4 4"
    assert shape([(0.0, 0.0), (1.0, float("nan")), (2.0, 2.0)]) == ""


def test_shading_is_drawn_where_uncertainty_is_known() -> None:
    """An error bar would be left out, or invented."""
    plain = drawn(a_figure())
    band = Line("one", X, (900.0, 800.0, 700.0), (800.0, 700.0, 600.0), (990.0, 890.0, 790.0))
    assert 'fill-opacity="0.13"' in drawn(a_figure(a_panel(band)))
    assert 'fill-opacity="0.13"' not in plain


def test_zones_bands_marks_and_keys_are_drawn() -> None:
    """A shaded stretch, a caller's place or a key would be missing."""
    panel = Panel(
        axis_of("light", "Light"),
        (Line("one", X, (900.0, 800.0, 700.0)), Line("two", X, (901.0, 801.0, 701.0), ink=1)),
        zones=(Zone(0.0, 100.0, "too dim"),),
        bands=(Band("spread", ((0.0, 900.0), (2000.0, 700.0), (2000.0, 701.0))),),
        name_lines=False,
        key=True,
    )
    axis = axis_of("elevation", "Elevation")
    svg = drawn(Figure("t", "s", axis, (panel,), (Mark(1700.0, "the caller"),)))
    said = [text.text for text in _texts(svg)]
    assert {"too dim", "the caller", "one", "two"} <= set(said)
    assert said.count("one") == 1
    assert 'fill-opacity="0.28"' in svg


@pytest.mark.parametrize("ink", range(7))
def test_every_ink_draws_its_mark(ink: int) -> None:
    """The seventh line would have no ink, or a mark not be drawn."""
    svg = drawn(a_figure(a_panel(Line("one", X, (900.0, 800.0, 700.0), ink=ink))))
    dash = INKS[ink % 6].dash
    assert (f'stroke-dasharray="{dash}"' in svg) is bool(dash)
    assert svg.count(INKS[ink % 6].colour) >= 6


def test_a_line_that_cannot_be_drawn_is_refused() -> None:
    """A chart would be drawn from numbers that do not go together."""
    with pytest.raises(ChartError) as lengths:
        Line("tall", X, (1.0, 2.0), (1.0, 2.0), (1.0, 2.0))
    assert str(lengths.value) == (
        "The line 'tall' has 3 places, 2 values, 2 lower and 2 upper ends: give as many of each, "
        "or no ends at all."
    )
    with pytest.raises(ChartError) as one_sided:
        Line("tall", X, X, X)
    assert str(one_sided.value) == (
        "The line 'tall' has 3 places, 3 values, 3 lower and 0 upper ends: give as many of each, "
        "or no ends at all."
    )
    with pytest.raises(ChartError) as empty:
        Line("tall", X, (float("nan"),) * 3)
    assert str(empty.value) == (
        "The line 'tall' has fewer than two points: give two or more numbers."
    )


def test_a_chart_of_nothing_is_refused() -> None:
    """An empty sheet would be sent to a caller."""
    with pytest.raises(ChartError) as refused:
        Figure("Light", "", axis_of("elevation", "Elevation"), ())
    assert str(refused.value) == (
        "The chart 'Light' has a panel without a line: give each at least one."
    )


def test_attributes_and_words_are_plain_svg() -> None:
    """Numbers would carry rounding, or a hyphen be a low line."""
    assert (
        tag("path", {"stroke_width": 1.23456, "d": "M0 0"})
        == '<path stroke-width="1.23" d="M0 0"/>'
    )
    assert tag("g", {"x": -0.0001}, "in") == '<g x="0">in</g>'
    assert words(1, 2, "a<b", halo=True, bold=True, anchor="end") == (
        '<text x="1" y="2" font-size="13" fill="#222222" text-anchor="end" font-weight="bold" '
        'stroke="#ffffff" stroke-width="4" stroke-linejoin="round" paint-order="stroke">'
        "a&lt;b</text>"
    )

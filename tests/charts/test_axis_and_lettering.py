from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wickwright.charts.axis import Axis, ChartError, Scale, axis_of, nice_ticks, tick_text
from wickwright.charts.lettering import balanced, width_of, wrapped

LAW = settings(max_examples=60, deadline=None)


@LAW
@given(st.floats(-100.0, 100.0), st.floats(1e-3, 1e6), st.integers(2, 12))
def test_ticks_cover_the_range_in_even_round_steps(off: float, wide: float, most: int) -> None:
    """A line would run out of its field, or ticks stand at odd numbers."""
    low = off * wide
    ticks = nice_ticks(low, low + wide, most)
    steps = [late - early for early, late in pairwise(ticks)]
    assert ticks[0] <= low + 1e-6 * wide
    assert ticks[-1] >= low + wide - 1e-6 * wide
    assert steps == pytest.approx([steps[0]] * len(steps), rel=1e-6)
    lead = steps[0] / 10 ** math.floor(math.log10(steps[0]) + 1e-6)
    assert min(abs(lead - part) for part in (1.0, 2.0, 2.5, 5.0)) < 1e-6
    assert len(ticks) <= most + 2


def test_ticks_as_one_would_write_them() -> None:
    """Ticks would stand at numbers nobody would choose."""
    assert nice_ticks(0, 5000, 6) == (0, 1000, 2000, 3000, 4000, 5000)
    assert nice_ticks(19.2, 20.9, 4) == (19, 20, 21)
    assert nice_ticks(3.0, 3.0, 3)[0] < 3.0 < nice_ticks(3.0, 3.0, 3)[-1]
    assert nice_ticks(0.0, 0.0, 3)[0] < 0.0 < nice_ticks(0.0, 0.0, 3)[-1]


@pytest.mark.parametrize(
    ("value", "step", "text"),
    [
        (2500.0, 500.0, "2,500"),
        (0.75, 0.25, "0.75"),
        (-20.0, 20.0, "\N{MINUS SIGN}20"),
        (-0.0, 5.0, "0"),
        (1.0, 0.5, "1.0"),
        (0.1 + 0.2, 0.1, "0.3"),
        (1.0, 1 / 3, "1.000000"),
    ],
)
def test_ticks_in_words(value: float, step: float, text: str) -> None:
    """A tick would show digits of rounding, or too few to tell two apart."""
    assert tick_text(value, step) == text


def test_axes_follow_the_users_units() -> None:
    """A chart for a caller in feet would be in metres."""
    assert axis_of("elevation", "Up", "us").shown(304.8) == pytest.approx(1000.0)
    assert axis_of("temperature", "T", "us").shown(373.15) == pytest.approx(212.0)
    assert axis_of("temperature", "T").shown(373.15) == pytest.approx(100.0)
    assert axis_of("fuel", "Fuel").shown(65e-3 / 3600) == pytest.approx(65.0)
    assert axis_of("fuel", "Fuel", "us").shown(0.028349523125 / 3600) == pytest.approx(1.0)
    fluid = axis_of("fuel", "Fuel", "us", 807.0)
    assert fluid.heading == "Fuel, US fl oz/h"
    assert fluid.shown(65e-3 / 3600) == pytest.approx(65e-3 / 807 / 29.5735295625e-6)
    assert axis_of("length", "Tall", "us").shown(0.254) == pytest.approx(10.0)
    assert axis_of("time", "Time").shown(7200.0) == 2.0
    assert axis_of("trace", "CO2").shown(0.001) == pytest.approx(1000.0)


def test_unknown_units_and_axes_are_refused() -> None:
    """A slip of the pen would end in a bare KeyError."""
    with pytest.raises(ChartError) as units:
        axis_of("light", "Light", "imperial")
    assert str(units.value) == "There are no units 'imperial': choose metric or us."
    with pytest.raises(ChartError) as axis:
        axis_of("lumens", "Light")
    assert str(axis.value) == (
        "There is no axis for 'lumens': the axes are elevation, length, height, light, fuel, "
        "share, trace, time, temperature."
    )


def test_values_in_words() -> None:
    """A point would be told with the digits of a computer."""
    light = axis_of("light", "Light")
    assert light.says(793.4567) == "793 lm"
    assert light.says(1043.7) == "1,040 lm"
    assert light.says(0.0) == "0.00 lm"
    assert light.says(float("nan")) == "nothing"
    assert Axis("Ratio", "", 1.0).says(0.51234) == "0.512"
    assert Axis("Ratio", "", 1.0).heading == "Ratio"


def test_a_scale_may_run_upwards_on_the_paper() -> None:
    """High values would stand low."""
    up = Scale(0.0, 10.0, 300.0, 100.0)
    assert [up.at(value) for value in (0.0, 5.0, 10.0)] == [300.0, 200.0, 100.0]


@LAW
@given(st.text(alphabet="abc W0 ,5mm", max_size=80), st.floats(20.0, 300.0))
def test_breaking_lines_loses_no_word(words: str, room: float) -> None:
    """A word of a title would be lost where a line breaks."""
    for lines in (wrapped(words, 13, room), balanced(words, 13, room)):
        assert " ".join(lines).replace("\N{NO-BREAK SPACE}", " ").split() == words.split()
        for line in lines:
            assert width_of(line, 13) <= room or " " not in line


def test_a_number_keeps_its_unit() -> None:
    """'310' would stand at the end of one line and 'mm' on the next."""
    room = width_of("Standard chimney, 310", 13)
    assert wrapped("Standard chimney, 310 mm", 13, room) == (
        "Standard chimney,",
        "310\N{NO-BREAK SPACE}mm",
    )


def test_balanced_lines_take_no_more_lines() -> None:
    """A title would be broken into more lines, or leave one word alone."""
    words = "a title that is just too long for one line of the paper"
    room = width_of(words, 13) * 0.95
    assert len(wrapped(words, 13, room)) == len(balanced(words, 13, room)) == 2
    first, second = balanced(words, 13, room)
    assert width_of(second, 13) > 0.6 * width_of(first, 13)


def test_bold_letters_are_wider() -> None:
    """Bold names would run over the edge."""
    assert width_of("light", 13, bold=True) > width_of("light", 13) > width_of("ligh", 13)

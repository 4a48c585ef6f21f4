"""Quantities in words, and elevations read."""

from __future__ import annotations

import math

import pytest

from wickwright.terms.finding import Kind, Quantity, Range
from wickwright.terms.units import Units, UnitsError, parse_elevation, say


@pytest.mark.parametrize(
    ("quantity", "metric", "us"),
    [
        (Quantity(0.310, Kind.LENGTH), "310.0 mm", "12.205 in"),
        (Quantity(0.0005, Kind.LENGTH), "0.50 mm", "0.020 in"),
        (Quantity(1700, Kind.ELEVATION), "1,700 m", "5,577 ft"),
        (Quantity(1.25, Kind.MASS), "1,250 g", "2.76 lb"),
        (Quantity(math.radians(8), Kind.ANGLE), "8.0°", "8.0°"),
        (Quantity(820, Kind.POWER), "820 W", "820 W"),
        (Quantity(293.15, Kind.TEMPERATURE), "20 °C", "68 °F"),
        (Quantity(12345, Kind.MONEY), "SKD 123.45", "SKD 123.45"),
    ],
)
def test_each_kind_is_printed_in_the_users_units(quantity: Quantity, metric: str, us: str) -> None:
    """If this fails, an adviser reads out a figure in the wrong unit."""
    assert say(quantity, Units("metric", "SKD")) == metric
    assert say(quantity, Units("us", "SKD")) == us


def test_ranges_say_which_end_is_open() -> None:
    """If this fails, 'at least' and 'at most' are mixed up."""
    units = Units()
    assert say(Range(0.31, None, Kind.LENGTH), units) == "at least 310.0 mm"
    assert say(Range(None, 350, Kind.POWER), units) == "at most 350 W"
    assert say(Range(0.05, 0.0512, Kind.LENGTH), units) == "50.0 mm to 51.2 mm"


@pytest.mark.parametrize(
    ("text", "metres"),
    [
        ("1700m", 1700),
        ("1,700 m", 1700),
        ("5200ft", 1584.96),
        ("5 200 ft", 1584.96),
        ("5\u202f200 FT.", 1584.96),
        ("1'700 metres", 1700),
        ("1.7 km", 1700),
        ("1.700 km", 1700),
        ("-430 m", -430),
        ("\u2212430 m", -430),
        ("0 ft", 0),
        ("0", 0),
    ],
)
def test_elevations_are_read_with_their_unit(text: str, metres: float) -> None:
    """If this fails, a caller in the hills is treated as living by the sea."""
    assert parse_elevation(text) == pytest.approx(metres)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (
            "1700",
            (
                "'1700' has no unit: 1,700 m, or 1,700 ft, which is 518 m: write the unit behind "
                "it, such as 5200ft or 1700m"
            ),
        ),
        (
            "170,5 m",
            (
                "'170,5 m' can be read in more than one way: write a point before a fraction and "
                "leave thousands together, such as 5.2km, 5200ft or 5,200ft"
            ),
        ),
        (
            "hills",
            "'hills' is not an elevation: write a number with its unit, such as 5200ft or 1700m",
        ),
        (
            "5,2km",
            (
                "'5,2km' can be read in more than one way: write a point before a fraction and "
                "leave thousands together, such as 5.2km, 5200ft or 5,200ft"
            ),
        ),
        (
            "1.700 m",
            (
                "'1.700 m' can be read in more than one way: write a point before a fraction and "
                "leave thousands together, such as 5.2km, 5200ft or 5,200ft"
            ),
        ),
        (
            "5200 yd",
            (
                "'5200 yd' is in a unit that elevations are not read in, 'yd': write m, km or ft, "
                "such as 1700m or 5200ft"
            ),
        ),
        (
            "9000 m",
            (
                "9000 m is 9000 m; the desk answers for -430 m (the lowest shore) to 6000 m (the "
                "highest dwellings): check the figure and its unit"
            ),
        ),
    ],
)
def test_what_is_no_elevation_is_refused_with_a_cure(text: str, says: str) -> None:
    """If this fails, a figure without a unit is guessed at."""
    with pytest.raises(UnitsError) as caught:
        parse_elevation(text)
    assert str(caught.value) == says

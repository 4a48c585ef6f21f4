from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickwright.terms.typed import TYPED, parse_typed
from wickwright.terms.units import UnitsError


@pytest.mark.parametrize(
    ("text", "quantity", "value"),
    [
        ("843hPa", "pressure", 84300.0),
        ("24.9 inHg", "pressure", 84321.1),
        ("1,400 ft3", "volume", 39.64358),
        ("40 m³", "volume", 40.0),
        ("2'", "distance", 0.6096),
        ('24"', "distance", 0.6096),
        (".5m", "distance", 0.5),
        ("90 min", "time", 5400.0),
        ("4", "time", 14400.0),
        ("0.5/h", "air change", 0.5 / 3600.0),
        ("0", "air change", 0.0),
    ],
)
def test_what_people_type_is_read(text: str, quantity: str, value: float) -> None:
    """If this failed, a room or a barometer could not be told as people tell it."""
    assert parse_typed(text, quantity) == pytest.approx(value, rel=1e-6)


@pytest.mark.parametrize(
    ("text", "quantity", "message"),
    [
        (
            "1,5m3",
            "volume",
            (
                "'1,5m3' can be read in more than one way: write a point "
                "before a fraction, such as "
                "40m3 or 1400ft3"
            ),
        ),
        (
            "many",
            "time",
            (
                "'many' is not a time: write a number with one of h, hours, "
                "min or no unit, such as "
                "4, 4h or 90min"
            ),
        ),
        (
            "-1m",
            "distance",
            (
                "-1m is out of range for a distance: allowed is 1 mm to 50 m (the plume laws end "
                "there); check the figure and its unit"
            ),
        ),
    ],
)
def test_what_nobody_can_mean_is_refused(text: str, quantity: str, message: str) -> None:
    """If this failed, a comma would make a room ten times its size."""
    with pytest.raises(UnitsError) as refused:
        parse_typed(text, quantity)
    assert str(refused.value) == message


@given(st.sampled_from(sorted(TYPED)), st.text(max_size=12))
def test_any_text_is_read_within_range_or_refused(quantity: str, text: str) -> None:
    """If this failed, some slip of the finger would end in a traceback or a wild figure."""
    try:
        value = parse_typed(text, quantity)
    except UnitsError:
        return
    of = TYPED[quantity]
    assert of.low * (1 - 1e-6) - 1e-9 <= value <= of.high * (1 + 1e-6)

"""Dimensions as makers print them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickwright.terms.dimension import DimensionError, parse_dimension, unstated_tolerance


@pytest.mark.parametrize(
    ("text", "nominal", "low", "high"),
    [
        ("2 5/8 in", 66.675, 66.375, 66.975),
        ("5/8 in", 15.875, 15.675, 16.075),
        ('1.5"', 38.1, 37.8, 38.4),
        ("66.7 mm", 66.7, 66.4, 67.0),
        ("66.7 ± 0.2 mm", 66.7, 66.5, 66.9),
        ("66.7 +/- 0.2 mm", 66.7, 66.5, 66.9),
        ("66.7 +0.1/-0.2 mm", 66.7, 66.5, 66.8),
        ("66.7 +0.1 -0.2 mm", 66.7, 66.5, 66.8),
        ("65.5..67.5 mm", 66.5, 65.5, 67.5),
        ("65.5 to 67.5 mm", 66.5, 65.5, 67.5),
        ("6.67 cm", 66.7, 66.4, 67.0),
        ("1 ft", 304.8, 304.3, 305.3),
    ],
)
def test_every_printed_form_is_read(text: str, nominal: float, low: float, high: float) -> None:
    """If this fails, a size as the maker printed it is misread. The inch is 25.4 mm exactly."""
    size = parse_dimension(text)
    got = [round(value * 1000, 6) for value in (size.nominal, size.low, size.high)]
    assert got == [nominal, low, high]
    assert size.text == text


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (
            "66,7 mm",
            "'66,7 mm' is written with a decimal comma: write a decimal point: '66.7 mm'",
        ),
        ("1/0 in", "'1/0 in' divides by zero: write the fraction again"),
        ("0 mm", "'0 mm' reaches zero or less: a size and its tolerance stay above zero"),
        ("67..65 mm", "'67..65 mm' runs downwards: write the smaller size first"),
        (
            "about 66",
            (
                "'about 66' is not a dimension: write a number and a unit (mm, cm, m, in, ft), "
                "such as '66.7 mm', '2 5/8 in', '66.7 +0.1/-0.2 mm' or '65.5..67.5 mm'"
            ),
        ),
    ],
)
def test_what_is_no_size_is_refused_with_a_cure(text: str, says: str) -> None:
    """If this fails, a slip in the fit book is not explained, or passes unnoticed."""
    with pytest.raises(DimensionError) as caught:
        parse_dimension(text)
    assert str(caught.value) == says


@given(st.text(max_size=20))
def test_any_text_is_read_or_refused(text: str) -> None:
    """If this fails, some text in a cell ends the program instead of being named a fault."""
    try:
        size = parse_dimension(text)
    except DimensionError:
        return
    assert 0 < size.low <= size.nominal <= size.high


@given(st.floats(min_value=1e-5, max_value=2.0))
def test_the_assumed_tolerance_leaves_a_size_above_zero(size: float) -> None:
    """If this fails, a small part without a printed tolerance cannot be entered."""
    assert 0 < unstated_tolerance(size) <= size / 2

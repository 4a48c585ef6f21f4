from __future__ import annotations

import math

import pytest

from wickwright.catalogue.print_cells import (
    print_degrees,
    print_length,
    print_money,
    print_number,
    print_whole,
)


@pytest.mark.parametrize(
    ("printed", "text"),
    [
        (print_number(None), ""),
        (print_number(0.0), "0"),
        (print_number(0.82, 3), "820"),
        (print_number(0.0009, 6), "900"),
        (print_number(1e-9, 3), "0.000001"),
        (print_number(1e20), "100000000000000000000"),
        (print_length(None), ""),
        (print_length(0.0), "0 mm"),
        (print_length(0.066675), "66.675 mm"),
        (print_length(-0.012), "-12 mm"),
        (print_whole(None), ""),
        (print_whole(-5), "-5"),
        (print_money(None), ""),
        (print_money(5), "0.05"),
        (print_money(123456), "1234.56"),
        (print_degrees(math.radians(42.5)), "42.5"),
        (print_degrees(math.radians(90)), "90"),
    ],
)
def test_a_value_is_printed_as_a_person_would_write_it(printed: str, text: str) -> None:
    """A book written out would be full of exponents and long tails of digits."""
    assert printed == text


def test_an_angle_that_no_degrees_give_is_printed_as_the_nearest() -> None:
    """Writing a book whose angle was computed would never end or fail."""
    odd = 0.1
    while any(
        math.radians(near) == odd
        for near in (
            math.degrees(odd),
            math.nextafter(math.degrees(odd), 0),
            math.nextafter(math.degrees(odd), math.inf),
        )
    ):
        odd = math.nextafter(odd, 1)
    assert math.radians(float(print_degrees(odd))) == pytest.approx(odd, rel=1e-14)

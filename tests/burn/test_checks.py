from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.support.flames import table_lamp

from wickwright.burn.checks import LIMITS, BurnError, air_at, checked
from wickwright.burn.parts import leaves, with_leaf


@pytest.mark.parametrize(
    ("elevation", "said"),
    [(-431.0, "-431"), (6001.0, "6001")],
)
def test_an_elevation_where_no_one_lives_is_refused(elevation: float, said: str) -> None:
    """A typing error would give a flame on the bottom of the sea."""
    with pytest.raises(BurnError) as error:
        air_at(elevation)
    assert str(error.value) == (
        f"an elevation of {said} m is outside -430 m (the lowest shore) to 6000 m (the highest "
        "dwellings): check the figure and its unit"
    )


@pytest.mark.parametrize(
    ("name", "value", "said"),
    [
        (
            "chimney.height",
            0.0,
            "the height of the chimney (chimney.height) is 0 mm; it may be 20 mm to 3000 mm",
        ),
        (
            "chimney.body_bore",
            -0.04,
            (
                "the bore of the chimney's body (chimney.body_bore) is -40 mm; it may be 5 mm to "
                "300 mm"
            ),
        ),
        (
            "passages.area",
            0.0,
            "the area of the air passages (passages.area) is 0 mm2; it may be 1 mm2 to 10000 mm2",
        ),
        (
            "air.temperature",
            20.0,
            "the temperature of the room (air.temperature) is 20 K; it may be 243.15 K to 333.15 K",
        ),
        (
            "air.humidity",
            50.0,
            "the relative humidity (air.humidity) is 5000 %; it may be 0 % to 100 %",
        ),
        (
            "air.oxygen",
            float("nan"),
            "the oxygen of the dry air (air.oxygen) is nan %; it may be 12 % to 20.96 %",
        ),
    ],
)
def test_a_number_that_cannot_be_is_named_with_its_range(
    name: str, value: float, said: str
) -> None:
    """A wrong figure would give a wrong flame, or an error nobody understands."""
    with pytest.raises(BurnError) as error:
        checked(with_leaf(table_lamp(), name, value))
    assert str(error.value) == f"{said}: check the figures and their units"


def test_all_wrong_numbers_are_named_at_once_and_in_arrays_too() -> None:
    """Whoever mends the figures would have to try again after each."""
    lamps = with_leaf(table_lamp(), "chimney.wall", np.array([0.002, 0.5]))
    lamps = replace(lamps, fuel=-1.0)
    with pytest.raises(BurnError) as error:
        checked(lamps)
    assert str(error.value) == (
        "the thickness of the glass (chimney.wall) is 500 mm; it may be 0.3 mm to 10 mm; the fuel "
        "the wick is set to (fuel) is -3.6e+06 g/h; it may be 0.36 g/h to 1080 g/h: check the "
        "figures and their units"
    )


def test_a_chimney_that_is_all_foot_is_refused() -> None:
    """A foot longer than its chimney would give a body of negative length."""
    with pytest.raises(BurnError) as error:
        checked(with_leaf(table_lamp(), "chimney.foot_length", 0.29))
    assert str(error.value) == (
        "the foot of the chimney (chimney.foot_length) takes 98 % of its height; at most 90 % "
        "leaves a body to draw with: check the figures and their units"
    )


def test_every_number_of_a_lamp_has_a_limit() -> None:
    """A new number could be given any value unseen."""
    assert {name for name, _ in leaves(table_lamp())} == {*LIMITS, "fuel"}
    assert checked(table_lamp()) == table_lamp()

"""The library's front door: names and figures are looked at before anything is searched."""

from __future__ import annotations

import math

import pytest
from tests.support.demo import demo

from wickwright.answers import Routes, UnknownNameError, which_parts


def test_one_name_is_a_list_of_one() -> None:
    """If this fails, a part number is taken apart letter by letter."""
    answer = which_parts(demo(), "WH-302", "renew-chimney", lost="chimney", elevation=1700)
    assert isinstance(answer, Routes)
    assert [part.id for part in answer.routes[0].buy] == ["GA-2450", "CH-3371"]


@pytest.mark.parametrize("elevation", [math.nan, -1e9, 9000.0])
def test_an_elevation_nobody_lives_at_is_refused(elevation: float) -> None:
    """If this fails, a web shop gets a safe-looking answer for a place that cannot be."""
    with pytest.raises(ValueError, match="is outside -430 m") as caught:
        which_parts(demo(), "WH-302", "renew-chimney", elevation=elevation)
    assert str(caught.value) == (
        f"an elevation of {elevation} m is outside -430 m (the lowest shore) to 6000 m (the "
        "highest dwellings): give metres as a number"
    )


def test_counts_and_budgets_make_sense() -> None:
    """If this fails, no lamps at all are treated, or money is paid out."""
    with pytest.raises(ValueError, match="a count of 0 lamps is less than one"):
        which_parts(demo(), "WH-302", "renew-chimney", count=0)
    with pytest.raises(ValueError, match="a budget of -5 is below zero"):
        which_parts(demo(), "WH-302", "renew-chimney", budget=-5)


def test_an_unknown_lamp_is_answered_with_what_was_meant() -> None:
    """If this fails, a slip in a model number ends without help."""
    with pytest.raises(UnknownNameError, match="did you mean 'WH-302'"):
        which_parts(demo(), "WH-3O2", "renew-chimney")

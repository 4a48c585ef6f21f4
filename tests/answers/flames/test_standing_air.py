"""From where a lamp stands to the air of its flame."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickwright.answers.flames.standing_air import RoomAir, standing_air, standing_place
from wickwright.burn.checks import air_at
from wickwright.fit.place import Place
from wickwright.terms.units import ELEVATION_RANGE


def test_a_place_nobody_names_is_the_shore() -> None:
    """If this failed, a caller who names no place would be told of thin air."""
    assert standing_place() == Place(0.0)
    assert standing_air(Place()) == air_at(0.0)


@given(st.floats(*ELEVATION_RANGE))
def test_an_elevation_and_its_standard_pressure_are_one_place(elevation: float) -> None:
    """If this failed, a barometer and a map would name different chimneys for one house."""
    named = standing_place(elevation)
    read = standing_place(pressure=named.pressure)
    assert read.pressure == named.pressure
    assert read.elevation == pytest.approx(elevation, abs=1e-6)
    assert standing_air(read) == standing_air(named)


def test_a_barometer_is_believed_before_the_map() -> None:
    """If this failed, a reading taken beside the lamp would be thrown away."""
    place = standing_place(1700.0, 80_000.0)
    assert (place.elevation, place.pressure) == (1700.0, 80_000.0)
    assert place.ratio == 80_000.0 / 101_325.0


def test_the_room_reaches_the_flame() -> None:
    """If this failed, a cold or stuffy room would burn like any other."""
    room = RoomAir(temperature=283.15, humidity=0.8, oxygen=0.19, carbon_dioxide=0.01)
    air = standing_air(Place(0.0), room)
    assert (air.temperature, air.humidity) == (283.15, 0.8)
    assert (air.oxygen, air.carbon_dioxide) == (0.19, 0.01)


@pytest.mark.parametrize("elevation", [math.nan, -431.0, 6001.0])
def test_a_place_nobody_lives_at_is_refused(elevation: float) -> None:
    """If this failed, a slip of the pen would be answered as if someone lived there."""
    with pytest.raises(ValueError, match="outside") as caught:
        standing_place(elevation)
    assert str(caught.value) == (
        f"an elevation of {elevation} m is outside -430 m (the lowest shore) to 6000 m (the "
        "highest dwellings): give metres as a number"
    )


@pytest.mark.parametrize(("pressure", "said"), [(1013.0, "1013"), (111e3, "111000")])
def test_a_pressure_in_the_wrong_unit_is_refused(pressure: float, said: str) -> None:
    """If this failed, hectopascals taken for pascals would put out every flame."""
    with pytest.raises(ValueError, match="outside") as caught:
        standing_place(pressure=pressure)
    assert str(caught.value) == (
        f"an air pressure of {said} Pa is outside 44218 Pa (a storm over the highest "
        "dwellings) to 110000 Pa (the lowest shore in fine weather): give pascals as a barometer "
        "shows them where the lamp stands, not reduced to sea level"
    )

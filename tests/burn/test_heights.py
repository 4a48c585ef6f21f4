from __future__ import annotations

import numpy as np
import pytest
from tests.support.flames import put_together, table_lamp

from wickwright.burn.checks import BurnError, air_at
from wickwright.burn.flames import solve
from wickwright.burn.heights import at_elevations, of_heights, restoring, taller
from wickwright.burn.lamp import burning_lamp
from wickwright.physics.air import pressure_at, temperature_at
from wickwright.terms.finding import Kind

LAMP = burning_lamp(put_together("DU-401"), air_at(0.0))


def test_a_heated_room_keeps_its_temperature_and_a_standard_one_does_not() -> None:
    """The two rooms would be mistaken for each other."""
    places = np.array([0.0, 1500.0])
    heated = at_elevations(table_lamp(), places)
    standard = at_elevations(table_lamp(), places, "standard")
    assert heated.air.temperature == 293.15
    assert standard.air.temperature == pytest.approx(temperature_at(places))
    assert heated.air.pressure == pytest.approx(pressure_at(places))


@pytest.mark.parametrize(
    ("places", "room", "said"),
    [
        (
            [0.0, 7000.0],
            "heated",
            (
                "an elevation of 7000 m is outside -430 m (the lowest shore) to 6000 m (the "
                "highest dwellings): check the figure and its unit"
            ),
        ),
        ([0.0], "warm", "'warm' is not a kind of room: give 'heated' or 'standard'"),
    ],
)
def test_a_place_or_room_that_cannot_be_is_refused(
    places: list[float], room: str, said: str
) -> None:
    """A chart would run into the sky, or in a room of no known warmth."""
    with pytest.raises(BurnError) as error:
        at_elevations(table_lamp(), np.array(places), room)
    assert str(error.value) == said


def test_along_heights_the_flame_is_that_of_each_height() -> None:
    """The chart of light against height would be of other chimneys."""
    found = of_heights(LAMP, np.array([0.25, 0.296]))
    assert np.asarray(found.light)[1] == pytest.approx(float(solve(LAMP.lamps).light), rel=1e-6)


def test_where_the_taller_chimney_gives_the_air_back_its_flow_is_the_same() -> None:
    """The elevation told would not be the one asked for."""
    found = restoring(LAMP, 0.371)
    here = burning_lamp(put_together("DU-401", chimney="CH-3371"), air_at(found.elevation.value))
    assert float(solve(here.lamps).air_flow) == pytest.approx(
        float(solve(LAMP.lamps).air_flow), rel=1e-3
    )
    assert found.elevation.kind is Kind.ELEVATION
    assert found.elevation.drivers


def test_the_room_is_said_in_words() -> None:
    """An adviser could not tell which room the elevation is for, nor why the rule differs."""
    heated, standard = (restoring(LAMP, 0.371, room) for room in ("heated", "standard"))
    rest = (
        "The top of a taller chimney is its coolest part and adds less draft than its length, "
        "which brings the answer down. The rule of thumb is one round figure for all lamps and "
        "rooms, and an owner is told it when the loss of light is plain to see, not when it begins."
    )
    assert heated.why == (
        "A heated room keeps its warmth, so that its air thins with the pressure alone. " + rest
    )
    assert standard.why == (
        "A room as cool as the standard atmosphere outside has denser air than a heated one, so "
        "that the shorter chimney draws well to a greater height. " + rest
    )


def test_a_chimney_that_is_not_taller_gives_nothing_back() -> None:
    """A short chimney would be recommended for the mountains."""
    with pytest.raises(BurnError) as error:
        restoring(LAMP, 0.248)
    assert str(error.value) == (
        "a chimney of 248 mm is not taller than the lamp's own of 296 mm, so it gives nothing "
        "back: name a taller one"
    )


def test_the_gain_is_that_of_two_flames() -> None:
    """The gain would not be the second flame over the first."""
    gain = taller(LAMP, 0.371)
    low, high = solve(LAMP.lamps), of_heights(LAMP, np.array([0.371]))
    assert gain.light.value == pytest.approx(
        float(np.asarray(high.light)[0]) / float(low.light) - 1.0, rel=1e-4
    )
    assert gain.fuel.spread > 0.0

from __future__ import annotations

from functools import lru_cache

import pytest
from tests.support.flames import put_together

from wickwright.burn.checks import air_at
from wickwright.burn.glass_stress import (
    FINGERS,
    GlassMargins,
    Seat,
    glass_margins,
    ring_stress,
    seat_of,
    seat_warmth,
)
from wickwright.burn.predicting import Prediction, predict
from wickwright.physics.glass import BOROSILICATE


@lru_cache(maxsize=4)
def _burnt(lamp: str) -> Prediction:
    return predict(put_together(lamp), air_at(0.0))


def _margins(lamp: str, material: str = "") -> GlassMargins:
    return glass_margins(_burnt(lamp), seat_of(put_together(lamp)), material)


def test_a_quarter_turn_seat_is_harder_on_its_glass_than_a_plain_one() -> None:
    """The desk could not say why one seat breaks more glass, and would not offer the other."""
    turned, plain = _margins("SA-207").of("seat"), _margins("DU-401").of("seat")
    assert turned.tension > 20.0 * plain.tension
    assert turned.margin < 2.0 < plain.margin


def test_what_was_assumed_of_the_seat_is_said() -> None:
    """A computed fear would be passed off as a measurement."""
    assert _margins("SA-207").of("seat").assumed == (
        "lean, crust or a turn takes up 50 % of the room that the seat gains hot, and 4 lugs that "
        "do not give press it back as the metal cools"
    )
    assert _margins("DU-401").of("seat").assumed == (
        "6 spring fingers of 4 N/mm take up what the foot grows"
    )


def test_soda_glass_is_nearer_to_breaking_in_every_heat() -> None:
    """The lower grade would seem fit for a mantle flame."""
    for case in ("lighting", "service", "draught", "splash"):
        rated, soda = _margins("DU-401").of(case), _margins("DU-401", "soda-glass").of(case)
        assert soda.tension > 2.5 * rated.tension
    assert _margins("DU-401", "soda-glass").of("lighting").margin < 1.5
    assert _margins("DU-401").of("lighting").margin > 3.0


def test_a_splash_is_more_than_either_glass_stands() -> None:
    """An owner would be told that heat-rated glass may be wetted."""
    assert _margins("DU-401").of("splash").margin < 1.0


def test_the_seat_is_cooler_than_the_glass_round_the_flame() -> None:
    """The joint would be judged hot at temperatures it never has."""
    gallery, foot = seat_warmth(_burnt("DU-401"))
    assert 293.15 < gallery < foot < float(_burnt("DU-401").flames.glass_foot)


def test_a_seat_is_read_from_the_two_ports() -> None:
    """The seat would be judged by the wrong sizes."""
    turned, plain = seat_of(put_together("SA-207")), seat_of(put_together("DU-401"))
    assert turned is not None
    assert (turned.joint, turned.lugs) == ("quarter-turn", 4)
    assert turned.gap == pytest.approx(0.2e-3)
    assert plain is not None
    assert (plain.joint, plain.lugs) == ("plain-foot", FINGERS)
    assert plain.gap == pytest.approx(0.8e-3)


@pytest.mark.parametrize("glass", ["", "CH-3301"])
def test_without_a_chimney_or_its_size_there_is_no_seat(glass: str) -> None:
    """A foot nobody measured would be given a stress."""
    assert seat_of(put_together("DU-401", chimney=glass)) is None


def test_without_a_seat_the_rest_is_still_told() -> None:
    """Nothing at all would be said about a chimney whose foot is not known."""
    found = glass_margins(_burnt("DU-401"))
    assert [one.case for one in found.cases] == ["lighting", "service", "draught", "splash"]
    with pytest.raises(KeyError):
        found.of("seat")


def test_a_thicker_wall_bends_harder_under_the_same_push() -> None:
    """Stiffer glass would seem safer in a rigid seat: tension goes with its thickness."""
    thin, thick = (ring_stress(64e9, wall, 0.03, 3, 20e-6) for wall in (1.5e-3, 3e-3))
    assert thick == pytest.approx(2.0 * thin)


def test_a_foot_that_outgrows_its_cold_room_is_gripped() -> None:
    """A tight seat under fast-growing glass would pass."""
    tight = Seat("quarter-turn", 0.06, 0.0, 3, 0.0)
    found = glass_margins(_burnt("DU-401"), tight, "soda-glass").of("seat")
    grown = 0.06 * 9.0e-6 * (seat_warmth(_burnt("DU-401"))[1] - 293.15)
    wanted = ring_stress(72e9, 0.002, 0.029, 3, 0.5 * grown)
    assert found.tension == pytest.approx(wanted, rel=1e-9)


def test_glass_of_no_known_kind_is_taken_for_heat_rated() -> None:
    """A part of blank material would crash the check of its glass."""
    assert glass_margins(_burnt("DU-401"), None, "amber").allowed == BOROSILICATE.warmest

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from pathlib import Path

import pytest
from tests.support.flames import demo_book, put_together

import wickwright.data.demo.take_readings as demo
from wickwright.burn.calibrating import Calibration, calibrate, calibrated
from wickwright.burn.checks import BurnError, air_at
from wickwright.burn.flames import solve
from wickwright.burn.lamp import burning_lamp
from wickwright.burn.readings import Reading, read_readings
from wickwright.catalogue.faults import RawTable
from wickwright.store.csv_tables import read_csv

FILE = Path(demo.__file__).parent / "bench_readings.csv"
HEIGHTS = (
    "it cannot be told apart from the loss of the burner's air passages: readings with a chimney "
    "of another height would"
)
WICK = (
    "no reading shows the wick giving out: a reading with a chimney so tall that the wick gives "
    "out before the air would"
)


@lru_cache(maxsize=1)
def _readings() -> tuple[Reading, ...]:
    raw = read_csv(FILE)
    assert isinstance(raw, RawTable)
    found = read_readings(raw, demo_book())
    return tuple(one for one in found if isinstance(one, Reading))


@lru_cache(maxsize=1)
def _all() -> Calibration:
    return calibrate(_readings())


def test_the_burner_is_found_again_from_noisy_readings() -> None:
    """Calibration would give a burner other figures than those on its bench.

    The readings were made from the truth with noise: each interval of 95 % holds it.
    """
    assert [one.name for one in _all().fitted] == list(demo.TRUTH)
    assert _all().held == ()
    for one in _all().fitted:
        assert one.low < demo.TRUTH[one.name] < one.high
        assert one.low < one.value < one.high
        assert one.high / one.low < 2.0


def test_the_scatter_is_that_of_the_noise() -> None:
    """Bad readings would pass for good ones."""
    assert 0.4 < _all().scatter < 1.2
    twisted = [
        replace(one, light=(one.light or 0.0) * (1.6 if one.row % 2 else 0.6))
        for one in _readings()
    ]
    assert calibrate(twisted).scatter > 3.0


def test_every_figure_read_has_its_residual() -> None:
    """A reading far off could not be found in the table."""
    assert len(_all().residuals) == 16 + 24 + 24
    fuel = [one for one in _all().residuals if one.what == "fuel"]
    assert all(one.computed == pytest.approx(one.measured, rel=0.05) for one in fuel)
    assert {one.row for one in _all().residuals} == set(range(2, 26))


def test_one_height_of_chimney_does_not_tell_the_two_resistances_apart() -> None:
    """A figure would be printed that the readings say nothing about."""
    some = [one for one in _readings() if one.lamp.chimney.id == "CH-3296" and one.fullest]
    found = calibrate(some)
    assert [one.name for one in found.fitted] == ["passages.loss", "mantle.exchange"]
    assert [(one.name, one.why) for one in found.held] == [
        ("passages.laminar", HEIGHTS),
        ("wick.limit", WICK),
    ]
    assert found.held[0].value == 190e6


def test_without_light_the_mantle_is_left_alone() -> None:
    """A mantle would be calibrated by fuel alone."""
    found = calibrate([replace(one, light=None, glass=None) for one in _readings()])
    held = {one.name: one.why for one in found.held}
    assert held == {
        "mantle.exchange": (
            "no reading depends on it: readings of the light at several settings of the wick would"
        )
    }


def test_readings_of_set_wicks_alone_say_nothing_of_the_wick() -> None:
    """The wick's limit would be taken from flames that never reached it."""
    found = calibrate([one for one in _readings() if not one.fullest])
    assert "wick.limit" in {one.name for one in found.held}
    assert all(one.what != "fuel" for one in found.residuals)


def test_two_burners_or_none_are_refused() -> None:
    """Figures of two burners would be mixed."""
    other = burning_lamp(put_together("SO-501"), air_at(0.0))
    with pytest.raises(BurnError) as error:
        calibrate([_readings()[0], replace(_readings()[1], lamp=other)])
    assert str(error.value) == (
        "the readings are of 2 burners (BU-3200, BU-5100), and each has figures of its own: fit "
        "the readings of one burner at a time"
    )
    with pytest.raises(BurnError) as none:
        calibrate([])
    assert str(none.value) == (
        "there are no readings to fit: burn the lamp on the bench and write them down"
    )


def test_a_calibrated_lamp_burns_as_it_was_read() -> None:
    """The figures found would not be used."""
    first = _readings()[0]
    lamp = calibrated(first.lamp, _all())
    assert float(solve(lamp.lamps).fuel) == pytest.approx(first.fuel, rel=0.03)
    by_name = {one.name: one for one in lamp.inputs}
    assert by_name["passages.loss"].source == "bench"
    assert by_name["passages.area"].spread == 0.0
    with pytest.raises(BurnError) as error:
        calibrated(burning_lamp(put_together("SO-501"), air_at(0.0)), _all())
    assert str(error.value) == (
        "the readings are of the burner BU-3200, the lamp has BU-5100: fit readings of its own "
        "burner"
    )


def test_the_demo_readings_are_those_their_script_makes() -> None:
    """The file would no longer be what the script beside it says."""
    lines = FILE.read_text(encoding="utf-8").splitlines()
    assert [",".join(row.values()) for row in demo.rows()] == lines[1:]

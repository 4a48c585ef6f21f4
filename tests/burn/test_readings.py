from __future__ import annotations

import pytest
from tests.support.flames import GRAM_AN_HOUR, demo_book
from tests.support.tables import said

from wickwright.burn.readings import READINGS, Reading, read_readings
from wickwright.catalogue.faults import Fault, RawTable
from wickwright.physics.air import pressure_at

HEADER = tuple(column.name for column in READINGS.columns)
SOUND = {
    "lamp": "DU-401",
    "place": "120 m",
    "room": "21 C",
    "fuel": "64.2 g",
    "time": "1 h",
    "illuminance": "30 lx",
    "distance": "1.2 m",
    "glass": "410 C",
}


def _table(*rows: dict[str, str]) -> RawTable:
    cells = (tuple(row.get(name, "") for name in HEADER) for row in rows)
    return RawTable("bench_readings", HEADER, tuple(enumerate(cells, start=2)))


def _read(**cells: str) -> Reading:
    found = read_readings(_table({**SOUND, **cells}), demo_book())
    assert isinstance(found[0], Reading), found
    return found[0]


def _faults(*rows: dict[str, str]) -> list[str]:
    found = read_readings(_table(*rows), demo_book())
    assert all(isinstance(one, Fault) for one in found)
    return said([one for one in found if isinstance(one, Fault)])


def test_a_row_is_read_in_si_units() -> None:
    """Bench figures would be fitted in the wrong unit."""
    found = _read()
    assert found.row == 2
    assert found.fullest
    assert found.fuel == pytest.approx(64.2 * GRAM_AN_HOUR)
    assert found.light == pytest.approx(10.0 * 30.0 * 1.44)
    assert found.glass == pytest.approx(683.15)
    assert found.lamp.lamps.air.pressure == pytest.approx(pressure_at(120.0))
    assert found.lamp.chimney.id == "CH-3296"


def test_other_units_mean_the_same() -> None:
    """Feet would be taken for metres, millilitres for grams."""
    found = _read(place="3000 ft", room="70 F", fuel="80 ml", time="60 min", chimney="CH-3371")
    assert found.lamp.lamps.air.pressure == pytest.approx(pressure_at(914.4))
    assert found.lamp.lamps.air.temperature == pytest.approx(294.261, abs=1e-3)
    assert found.fuel == pytest.approx(80.0 * 0.807 * GRAM_AN_HOUR)
    assert found.lamp.chimney.id == "CH-3371"
    assert _read(place="985 hPa").lamp.lamps.air.pressure == pytest.approx(98500.0)


def test_what_was_not_measured_may_be_blank() -> None:
    """A bench without a light meter could not be read."""
    found = _read(illuminance="", distance="", glass="", setting="set")
    assert (found.light, found.glass, found.fullest) == (None, None, False)


@pytest.mark.parametrize(
    ("cells", "fault"),
    [
        (
            {"place": "9000 m"},
            (
                "place: '9000 m' cannot be: the place may be -430 m (the lowest shore) to 6000 m "
                "(the highest dwellings), or 450 to 1100 hPa; check the figure and its unit "
                "against the bench sheet"
            ),
        ),
        (
            {"room": "21"},
            "room: '21' is not a figure with a unit of C, F; write it such as 21 C or 70 F",
        ),
        (
            {"room": "210 C"},
            (
                "room: '210 C' cannot be: the room may be -10 C to 50 C; check the figure and its "
                "unit against the bench sheet"
            ),
        ),
        (
            {"fuel": "642 g"},
            (
                "fuel: 642 g in 1 h is 642 g/h; a wick burns 5 to 300 g/h; check fuel and time "
                "against the bench sheet"
            ),
        ),
        (
            {"illuminance": "3000 lx"},
            (
                "illuminance: 3000 lx at 1.2 m is a lamp of 4.32e+04 lm; a lamp with a wick gives "
                "1 to 5000 lm; check light level and distance against the bench sheet"
            ),
        ),
        (
            {"distance": ""},
            "distance: there is an illuminance without a distance; fill in both, or neither",
        ),
        (
            {"glass": "4 C"},
            (
                "glass: '4 C' cannot be: the glass may be 40 C to 800 C; check the figure and its "
                "unit against the bench sheet"
            ),
        ),
        (
            {"lamp": "DU-410"},
            (
                "lamp: there is no lamp 'DU-410'; did you mean 'DU-409'? write a model number of "
                "the table lamps"
            ),
        ),
        (
            {"lamp": "BX-701"},
            (
                "lamp: the lamp 'BX-701' has no chimney, and nothing burns without one; write the "
                "model number of a lamp with a flame"
            ),
        ),
        (
            {"chimney": "MA-3300"},
            (
                "chimney: 'MA-3300' is a mantle and no chimney; write the number of the chimney "
                "that was on the lamp"
            ),
        ),
        (
            {"setting": "half"},
            "setting: 'half' is not a setting; write fullest or set, or leave it blank",
        ),
        (
            {"time": ""},
            "time: the cell is blank; fill it in: how long it burned, such as 60 min or 1 h",
        ),
    ],
)
def test_a_figure_that_cannot_be_is_told(cells: dict[str, str], fault: str) -> None:
    """A slip of the pen would bend a burner's figures."""
    assert _faults({**SOUND, **cells}) == [f"bench_readings 2 {fault}"]


def test_every_fault_of_a_table_is_told_at_once_by_row_and_column() -> None:
    """Whoever mends the table would have to read it again after each fault."""
    assert _faults({**SOUND, "time": "", "room": "hot"}, {**SOUND, "glass": "hot"}) == [
        (
            "bench_readings 2 room: 'hot' is not a figure with a unit of C, F; write it such as "
            "21 C or 70 F"
        ),
        (
            "bench_readings 2 time: the cell is blank; fill it in: how long it burned, such as "
            "60 min or 1 h"
        ),
        "bench_readings 3 glass: 'hot' is not a figure with a unit of C, F; write it such as 410 C",
    ]


def test_a_header_that_is_wrong_or_a_table_without_rows_is_told() -> None:
    """An empty or foreign table would be fitted."""
    book = demo_book()
    missing = read_readings(RawTable("bench_readings", HEADER[1:], ()), book)
    assert said([one for one in missing if isinstance(one, Fault)]) == [
        "bench_readings 1 lamp: the column 'lamp' is missing; add it: model number of the lamp"
    ]
    empty = read_readings(RawTable("bench_readings", HEADER, ()), book)
    assert said([one for one in empty if isinstance(one, Fault)]) == [
        (
            "bench_readings 0 : there is no reading in the table; add one row for one burning of "
            "one lamp on the bench"
        )
    ]

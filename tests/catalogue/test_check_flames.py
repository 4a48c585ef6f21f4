from __future__ import annotations

import pytest
from tests.support.tables import draft, faults_in, said, tables_of

from wickwright.catalogue.compare import CellChange, Change, Did, compare_books
from wickwright.catalogue.reading import read_book
from wickwright.catalogue.records import Book
from wickwright.catalogue.writing import book_tables

SOUND = {
    "part": "U1",
    "property": "wick_limit",
    "value": "82 g/h",
    "spread": "5 %",
    "source": "drawing",
    "note": "raised until it smoked",
}
SHARES = "write the key of a row of the table sources, add the row, or write assumption"


def _faults(**cells: str) -> list[str]:
    """Return what is wrong with one row of flames in the sound book."""
    spoilt = draft()
    spoilt["parts"][5]["height"] = "80 mm"
    spoilt["flames"] = [{**SOUND, **cells}]
    return faults_in(tables_of(spoilt))


def _book(*rows: dict[str, str]) -> Book:
    sound = draft()
    sound["flames"] = list(rows)
    read = read_book(tables_of(sound))
    assert isinstance(read, Book), said(read)
    return read


@pytest.mark.parametrize(
    ("cells", "fault"),
    [
        (
            {"value": "82"},
            "flames 2 value: '82' has no unit; write it in g/h",
        ),
        (
            {"value": "82 mm"},
            "flames 2 value: '82 mm' has no unit that wick_limit is measured in; write it in g/h",
        ),
        (
            {"value": "much"},
            (
                "flames 2 value: 'much' is not a number with its unit; "
                "write a number above zero and its unit: g/h"
            ),
        ),
        (
            {"value": "0 g/h"},
            "flames 2 value: '0 g/h' cannot be: most fuel its wick gives; write 0.36 to 1080 g/h",
        ),
        (
            {"spread": "5 mm"},
            "flames 2 spread: '5 mm' has no unit of this property; write it in g/h or %",
        ),
        (
            {"spread": "120 %"},
            (
                "flames 2 spread: '120 %' is more than the value itself, 'wick_limit'; "
                "write one standard uncertainty"
            ),
        ),
        (
            {"property": "wick_limits"},
            (
                "flames 2 property: 'wick_limits' is not one of the measures; "
                "did you mean 'wick_limit'? choose from: passage_area, passage_loss, "
                "passage_laminar, inner_share, wick_limit, fuel_mark, wick_width, least_air, "
                "efficacy, radiant_share, mantle_area, visible, infrared, exchange, foot_bore, "
                "foot_length, body_bore, wall"
            ),
        ),
        (
            {"part": "C1"},
            (
                "flames 2 property: a chimney has no wick_limit; take the row out, or name the "
                "part: only a burner has one"
            ),
        ),
        (
            {"part": "C9"},
            (
                "flames 2 part: there is no part 'C9'; write the key of a row "
                "of the table parts, or add the row"
            ),
        ),
        (
            {"source": "drawings"},
            f"flames 2 source: there is no source 'drawings'; did you mean 'drawing'? {SHARES}",
        ),
        (
            {"part": "C1", "property": "foot_length", "value": "90 mm"},
            (
                "flames 2 value: '90 mm' leaves nothing of a chimney 80 mm high; "
                "write the length of the wide part alone"
            ),
        ),
    ],
)
def test_what_cannot_be_about_a_flame_is_told(cells: dict[str, str], fault: str) -> None:
    """A flame would be computed from a figure that cannot be."""
    assert _faults(**cells) == [fault]


def test_every_fault_of_the_table_is_told_at_once() -> None:
    """Whoever mends the table would have to read it again after each fault."""
    spoilt = draft()
    spoilt["flames"] = [
        {**SOUND, "value": "82"},
        {**SOUND, "property": "wall", "value": "2 mm"},
        {**SOUND, "property": "least_air", "value": "1.3", "spread": "2", "source": "none"},
        SOUND,
    ]
    assert faults_in(tables_of(spoilt)) == [
        "flames 2 value: '82' has no unit; write it in g/h",
        (
            "flames 3 property: a burner has no wall; take the row out, or name the part: only a "
            "chimney has one"
        ),
        (
            "flames 4 spread: '2' is more than the value itself, 'least_air'; "
            "write one standard uncertainty"
        ),
        f"flames 4 source: there is no source 'none'; {SHARES}",
        (
            "flames 5 property: part 'U1', property 'wick_limit' is already on row 2; "
            "keep one of the rows 2 and 5, or give one of them another property"
        ),
    ]


def test_a_measure_is_read_in_si_units_with_its_uncertainty() -> None:
    """Grams an hour would be taken for kilograms a second."""
    measure = _book(SOUND).parts["U1"].flame["wick_limit"]
    assert (measure.value, measure.spread) == pytest.approx((82e-3 / 3600, 4.1e-3 / 3600))
    assert (measure.source, measure.note) == ("drawing", "raised until it smoked")
    assert measure.printed == ("82 g/h", "5 %")


def test_of_a_share_the_spread_is_in_hundredths_of_the_whole() -> None:
    """'42 % give or take 6 %' would be read as 42 plus or minus 2.5."""
    share = {**SOUND, "property": "inner_share", "value": "42 %", "spread": "6 %"}
    measure = _book(share).parts["U1"].flame["inner_share"]
    assert (measure.value, measure.spread) == pytest.approx((0.42, 0.06))


def test_measures_are_written_as_they_were_printed_and_compared() -> None:
    """A new edition would lose a unit, or change a measure unseen."""
    old = _book(SOUND)
    assert read_book(book_tables(old)) == old
    new = _book({**SOUND, "value": "84 g/h"})
    cells = (CellChange("value", "82 g/h", "84 g/h"),)
    changed = Change("flames", ("U1", "wick_limit"), Did.CHANGED, cells)
    assert compare_books(old, new) == (changed,)

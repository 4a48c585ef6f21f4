from __future__ import annotations

import pytest
from tests.support.tables import draft, faults_after, faults_in, faults_with, tables_of

from wickwright.catalogue.reading import read_book
from wickwright.catalogue.records import Book


@pytest.mark.parametrize(
    ("cells", "fault"),
    [
        (
            {"right": "101"},
            "looks 2 right: '101' is too much of a hundred; write a number above 50 to 100",
        ),
        (
            {"right": "50"},
            "looks 2 right: '50' is too little of a hundred; write a number above 50 to 100",
        ),
        (
            {"unsure": "100"},
            "looks 2 unsure: '100' is too much of a hundred; write 0 to a number below 100",
        ),
        (
            {"error": "2 mm"},
            (
                "looks 2 error: a look of the way look has no error; "
                "clear the cell, or write measure as the way"
            ),
        ),
        (
            {"way": "ask"},
            ("looks 2 way: 'ask' is not one of the look_ways; choose from: look, feel, measure"),
        ),
    ],
)
def test_what_cannot_be_about_a_look_is_told(cells: dict[str, str], fault: str) -> None:
    """Callers would be trusted more than they can be, or never."""
    assert faults_with("looks", 0, **cells) == [fault]


def test_a_look_that_no_part_is_marked_with_is_told() -> None:
    """A caller would be sent to look for something that tells no lamp from another."""
    cells = {"look": "cap", "kind": "font", "question": "Q", "way": "look", "minutes": "1"}
    assert faults_after("looks", **cells) == [
        (
            "looks 4 look: no part has a mark for the look 'cap'; "
            "mark the parts it tells apart, or take the row out"
        )
    ]


def test_looks_without_any_mark_are_not_filled_in_yet() -> None:
    """Whoever begins the tables would get a fault for each row of the first one."""
    begun = draft()
    begun["marks"] = []
    assert isinstance(read_book(tables_of(begun)), Book)


@pytest.mark.parametrize(
    ("at", "cells", "fault"),
    [
        (
            0,
            {"part": "B1"},
            (
                "marks 2 look: the look 'knob' is at a burner, and 'B1' is a base; "
                "take the row out, or name a burner"
            ),
        ),
        (
            0,
            {"confused_with": "cutt"},
            (
                "marks 2 confused_with: no part shows 'cutt' by the look 'knob'; "
                "did you mean 'cut'? write a value that another part shows"
            ),
        ),
        (
            0,
            {"confused_with": "milled"},
            (
                "marks 2 confused_with: 'milled' is the value itself; "
                "name another value, or clear the cell"
            ),
        ),
        (
            0,
            {"confused_with": ""},
            (
                "marks 2 confused_with: callers take it often for something else, and nobody says "
                "for what; name the other value, or clear both cells"
            ),
        ),
        (
            0,
            {"confused": "oft"},
            (
                "marks 2 confused: 'oft' is not one of the often; did you mean 'often'? "
                "choose from: often, sometimes, seldom"
            ),
        ),
        (
            2,
            {"value": "broad"},
            (
                "marks 4 value: 'broad' is not a dimension; write a number and a unit (mm, cm, m, "
                "in, ft), such as '66.7 mm', '2 5/8 in', '66.7 +0.1/-0.2 mm' or '65.5..67.5 mm'"
            ),
        ),
        (
            2,
            {"confused_with": "150 mm"},
            (
                "marks 4 confused_with: a length is not confused with one value; "
                "clear the cell; the look's error says how far callers are off"
            ),
        ),
        (
            2,
            {"look": "brim"},
            (
                "marks 4 look: there is no look 'brim'; did you mean 'rim'? "
                "write the key of a row of the table looks, or add the row"
            ),
        ),
    ],
)
def test_what_cannot_be_about_a_mark_is_told(at: int, cells: dict[str, str], fault: str) -> None:
    """A lamp would be told by something its part does not show."""
    found = faults_with("marks", at, **cells)
    assert fault in found
    assert [one for one in found if one.startswith("marks")] == [fault]


@pytest.mark.parametrize(
    ("cells", "fault"),
    [
        (
            {"share": "100"},
            "swaps 2 share: '100' is too much of a hundred; write 0 to a number below 100",
        ),
        (
            {"source": "drawings"},
            (
                "swaps 2 source: there is no source 'drawings'; did you mean 'drawing'? write the "
                "key of a row of the table sources, add the row, or write assumption"
            ),
        ),
        (
            {"kind": "burners"},
            (
                "swaps 2 kind: 'burners' is not one of the kinds; did you mean 'burner'? choose "
                "from: base, font, reducer, burner, wick, spreader, gallery, mantle, chimney, "
                "holder, shade, bell, bulb, tool"
            ),
        ),
    ],
)
def test_what_cannot_be_about_a_swap_is_told(cells: dict[str, str], fault: str) -> None:
    """Every lamp would be taken for one with another's burner."""
    assert faults_with("swaps", 0, **cells) == [fault]


def test_a_row_that_stands_twice_is_told() -> None:
    """One part would show two things by one look."""
    spoilt = draft()
    spoilt["marks"].append({"part": "U1", "look": "knob", "value": "cut"})
    spoilt["swaps"].append({"kind": "burner", "share": "2", "source": "assumption"})
    assert faults_in(tables_of(spoilt)) == [
        (
            "marks 5 look: part 'U1', look 'knob' is already on row 2; "
            "keep one of the rows 2 and 5, or give one of them another look"
        ),
        (
            "swaps 3 kind: kind 'burner' is already on row 2; "
            "keep one of the rows 2 and 3, or give one of them another kind"
        ),
    ]

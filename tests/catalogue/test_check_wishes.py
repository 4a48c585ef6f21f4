from __future__ import annotations

import pytest
from tests.support.tables import draft, faults_after, faults_in, faults_with, sound_book, tables_of

from wickwright.catalogue.reading import read_book
from wickwright.catalogue.records import Book

_ASK = {"wish": "w", "title": "A wish", "says": "as asked"}


@pytest.mark.parametrize(
    ("cells", "fault"),
    [
        ({"ask": "renew"}, "wishes 4 kind: the ask 'renew' needs a kind; fill in: kind"),
        (
            {"ask": "absent", "kind": "shade", "value": "any"},
            "wishes 4 value: the ask 'absent' has no value; clear the cell; it uses: kind",
        ),
        (
            {"ask": "only", "field": "material", "value": "glass"},
            "wishes 4 test: the ask 'only' needs a test; fill in: field, test, value",
        ),
        (
            {"ask": "only", "field": "material", "test": "at least", "value": "3"},
            (
                "wishes 4 test: material cannot be at least something; "
                "write is or in, or test one of: from, to, height, heat_rating, light"
            ),
        ),
        (
            {"ask": "never", "field": "height", "test": "is", "value": "3 mm"},
            (
                "wishes 4 test: height is measured and is never exactly a value; "
                "write at least or at most"
            ),
        ),
        (
            {"ask": "only", "field": "from", "test": "at least", "value": "@form"},
            (
                "wishes 4 value: '@form' is not a year between 1700 and 2199; write four digits, "
                "such as 1928; leave it blank if not known; or the lamp's own: @from, @to"
            ),
        ),
        (
            {"ask": "only", "field": "joint", "test": "is", "value": "@joint"},
            (
                "wishes 4 kind: the value '@joint' needs a kind; "
                "write the kind of part whose joint is meant"
            ),
        ),
        (
            {"ask": "only", "field": "height", "test": "at most", "value": "35"},
            (
                "wishes 4 value: '35' is not a dimension; write a number and a unit (mm, cm, m, "
                "in, ft), such as '66.7 mm', '2 5/8 in', '66.7 +0.1/-0.2 mm' or '65.5..67.5 mm'"
            ),
        ),
        (
            {"ask": "only", "field": "status", "test": "in", "value": "made, gone"},
            (
                "wishes 4 value: 'gone' is not one of the statuses; "
                "choose from: made, while stocks last, no longer made"
            ),
        ),
        (
            {"ask": "never", "field": "part", "test": "is", "value": "C2"},
            "wishes 4 value: there is no part 'C2'; write the key of a row of the table parts",
        ),
        (
            {"ask": "brighter", "kind": "wick"},
            "wishes 4 kind: the ask 'brighter' has no kind; clear the cell; it uses: value",
        ),
        (
            {"ask": "brighter", "value": "-5"},
            (
                "wishes 4 value: '-5' is not a number of light points; "
                "write digits, such as 10 for about 10 % more light"
            ),
        ),
        (
            {"ask": "service", "value": "gas"},
            "wishes 4 value: 'gas' is not one of the services; choose from: oil, electric",
        ),
        (
            {"ask": "renw", "kind": "wick"},
            (
                "wishes 4 ask: 'renw' is not one of the asks; did you mean 'renew'? choose from: "
                "renew, present, absent, only, never, brighter, service"
            ),
        ),
    ],
)
def test_an_ask_that_nothing_could_answer_is_told(cells: dict[str, str], fault: str) -> None:
    """A caller's wish would be met by anything, or by nothing, for a slip in the book."""
    assert faults_after("wishes", **_ASK, **cells) == [fault]


@pytest.mark.parametrize(
    "cells",
    [
        {"ask": "brighter"},
        {"ask": "service", "value": "electric"},
        {"ask": "only", "field": "status", "test": "in", "value": "made, while stocks last"},
        {"ask": "only", "field": "from", "test": "at most", "value": "@to"},
        {"ask": "only", "kind": "chimney", "field": "joint", "test": "is", "value": "@joint"},
        {"ask": "never", "field": "part", "test": "in", "value": "C1,W1"},
        {"ask": "only", "field": "light", "test": "at least", "value": "-5"},
        {"ask": "only", "field": "heat_rating", "test": "at least", "value": "900"},
    ],
)
def test_every_kind_of_ask_can_be_written(cells: dict[str, str]) -> None:
    """A sound ask would be refused."""
    wider = draft()
    wider["wishes"].append({**_ASK, **cells})
    read = read_book(tables_of(wider))
    assert isinstance(read, Book)
    assert read.wishes["w"].asks[0].value == cells.get("value", "")


def test_a_wish_has_one_title_on_its_first_row() -> None:
    """Two titles of one wish would leave open which is read out."""
    assert faults_with("wishes", 0, title="") == [
        "wishes 2 title: the first row of the wish 'tall' has no title; write the wish in words"
    ]
    assert faults_with("wishes", 1, title="Another") == [
        (
            "wishes 3 title: the wish 'tall' already has another title; "
            "leave the title blank on all rows but the first"
        )
    ]


def test_the_rows_of_a_wish_stand_together() -> None:
    """A wish torn apart is one that was named twice by mistake."""
    spoilt = draft()
    spoilt["wishes"].insert(1, {**_ASK, "ask": "brighter"})
    assert faults_in(tables_of(spoilt)) == [
        (
            "wishes 4 wish: the rows of the wish 'tall' do not stand together; "
            "move this row up to the others, or give it another name"
        )
    ]


def test_the_title_may_be_repeated() -> None:
    """A title copied down the rows by a spreadsheet would be called a second title."""
    wider = draft()
    wider["wishes"][1]["title"] = wider["wishes"][0]["title"]
    assert read_book(tables_of(wider)) == sound_book()

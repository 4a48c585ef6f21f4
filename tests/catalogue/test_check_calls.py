from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.support.tables import draft, faults_after, faults_in, faults_with, tables_of

from wickwright.catalogue.cells import CellError
from wickwright.catalogue.reading import read_book
from wickwright.catalogue.records import Book
from wickwright.catalogue.shares import parse_strength

STRENGTHS = "write strong, medium, weak, or a number above 0 and not above 100"
SOURCES = "write a key of the bibliography (docs/sources.bib) or of the table sources, or practice"


@pytest.mark.parametrize(
    ("table", "cells", "fault"),
    [
        (
            "signs",
            {"anyway": "100"},
            "signs 2 anyway: '100' is too much of a hundred; write 0 to a number below 100",
        ),
        (
            "signs",
            {"yes_right": "920"},
            "signs 2 yes_right: '920' is too much of a hundred; write 0 to 100",
        ),
        (
            "signs",
            {"yes_right": "30", "no_right": "60"},
            (
                "signs 2 yes_right: of a hundred lamps 30 with the sign and 40 without it get a "
                "yes; word the question so that its answer tells more, and correct the two numbers"
            ),
        ),
        (
            "signs",
            {"danger": "wet-font", "state": "lit"},
            (
                "signs 2 state: a sign of the danger 'wet-font' is looked for on a burning lamp; "
                "ask for what was seen, and write any or cold"
            ),
        ),
        (
            "signs",
            {"danger": "wet"},
            (
                "signs 2 danger: 'wet' is not one of the dangers; choose from: wet-font, "
                "cracked-font, no-answer, outside-glass, wrong-fuel, unwell, closed-room, shock"
            ),
        ),
        (
            "signs",
            {"source": "practise"},
            (f"signs 2 source: there is no source 'practise'; did you mean 'practice'? {SOURCES}"),
        ),
        (
            "complaints",
            {"sign": "dimm"},
            (
                "complaints 2 sign: there is no sign 'dimm'; did you mean 'dim'? "
                "write the key of a row of the table signs, or add the row"
            ),
        ),
        (
            "causes",
            {"weight": "0"},
            "causes 2 weight: '0' is too little of a hundred; write a number above 0 to 100",
        ),
        (
            "causes",
            {"computed": "thin-hair"},
            (
                "causes 2 computed: 'thin-hair' is not one of the computations; did you mean "
                "'thin-air'? choose from: thin-air, wrong-chimney, wrong-mantle, wrong-wick, "
                "wrong-gallery, hard-seat, low-fuel, tight-room"
            ),
        ),
        (
            "causes",
            {"source": "seen"},
            f"causes 2 source: there is no source 'seen'; {SOURCES}",
        ),
        (
            "shows",
            {"strength": "strnog"},
            f"shows 2 strength: 'strnog' is no strength; did you mean 'strong'? {STRENGTHS}",
        ),
        ("shows", {"strength": "101"}, f"shows 2 strength: '101' is above 100; {STRENGTHS}"),
        (
            "shows",
            {"strength": "0"},
            f"shows 2 strength: '0' is no strength at all; take the row out, or {STRENGTHS}",
        ),
        ("shows", {"strength": "0,5"}, f"shows 2 strength: '0,5' is no strength; {STRENGTHS}"),
        (
            "shows",
            {"sign": "wett"},
            (
                "shows 2 sign: there is no sign 'wett'; did you mean 'wet'? "
                "write the key of a row of the table signs, or add the row"
            ),
        ),
        (
            "remedies",
            {"wish": "tale"},
            (
                "remedies 2 wish: there is no wish 'tale'; did you mean 'tall'? "
                "write the name of a wish, or add the wish"
            ),
        ),
        (
            "remedies",
            {"state": "hot"},
            "remedies 2 state: 'hot' is not one of the states; choose from: any, cold, lit",
        ),
        (
            "cures",
            {"sure": "120"},
            "cures 2 sure: '120' is too much of a hundred; write a number above 0 to 100",
        ),
    ],
)
def test_what_cannot_be_about_a_call_is_told(table: str, cells: dict[str, str], fault: str) -> None:
    """A cause would be judged by a number or a sign that cannot be."""
    found = faults_with(table, 0, **cells)
    assert [one for one in found if one.startswith(f"{table} ")] == [fault]


SIGN = {"question": "Q", "says": "s", "way": "ask", "minutes": "1", "state": "any"}
WHY = {"why": "w", "source": "practice"}


def test_a_sign_that_nothing_shows_by_is_told() -> None:
    """Callers would be asked for something that points to no cause."""
    assert faults_after("signs", sign="hum", **SIGN, **WHY) == [
        (
            "signs 4 sign: no cause shows by the sign 'hum', and it means no danger; "
            "say in the table shows which cause does, or take the row out"
        )
    ]


def test_a_sign_of_danger_needs_no_cause() -> None:
    """A question that guards the caller would have to be left out."""
    sound = draft()
    sound["signs"].append({"sign": "ill", **SIGN, **WHY, "danger": "unwell"})
    assert isinstance(read_book(tables_of(sound)), Book)


def test_a_complaint_that_nothing_explains_is_told() -> None:
    """A call would begin with a complaint for which the book knows no cause."""
    spoilt = draft()
    spoilt["signs"].append({"sign": "ill", **SIGN, **WHY, "danger": "unwell"})
    spoilt["complaints"].append({"complaint": "ill", "says": "I feel ill", "sign": "ill"})
    assert faults_in(tables_of(spoilt)) == [
        (
            "complaints 3 sign: no cause shows by the sign 'ill': nothing explains the complaint; "
            "say in the table shows which cause does, or name another sign"
        )
    ]


def test_a_word_that_means_two_complaints_is_told() -> None:
    """What a caller said would lead to whichever complaint stands first."""
    cells = {"complaint": "wet", "says": "it is wet", "sign": "wet", "words": "leaks; Dark "}
    assert faults_after("complaints", **cells) == [
        (
            "complaints 3 words: 'Dark' already means the complaint 'dim' on row 2; "
            "keep it where more callers mean it"
        )
    ]


def test_a_cause_that_nothing_shows_or_cures_is_told() -> None:
    """A cause would never be found, or be found and left standing."""
    found = faults_after("causes", cause="moth", says="moths", weight="1", **WHY)
    assert found == [
        (
            "causes 3 cause: no remedy cures the cause 'moth'; "
            "say in the table cures which remedy does, the bench if need be"
        ),
        (
            "causes 3 cause: nothing shows the cause 'moth'; "
            "say in the table shows by which sign it is known"
        ),
    ]


def test_a_remedy_that_cures_nothing_is_told() -> None:
    """A caller would never be told of it."""
    cells = {"remedy": "shake", "says": "shake it", "minutes": "1", "state": "cold"}
    assert faults_after("remedies", **cells, source="practice") == [
        (
            "remedies 3 remedy: the remedy 'shake' cures nothing; "
            "say in the table cures which cause it does, or take the row out"
        )
    ]


def _weighing(weight: str, times: int) -> list[str]:
    """Return the faults of a book with this many causes of one weight."""
    book = draft()
    causes = [f"c{n}" for n in range(times)]
    book["causes"] = [{"cause": c, "says": "s", "weight": weight, **WHY} for c in causes]
    both = {"strength": "weak", "source": "practice"}
    signs = ("dim", "wet")
    book["shows"] = [{"cause": c, "sign": s, **both} for c in causes for s in signs]
    book["cures"] = [{"remedy": "clean", "cause": cause} for cause in causes]
    read = read_book(tables_of(book))
    return [] if isinstance(read, Book) else faults_in(tables_of(book))


def test_weights_written_as_shares_are_told() -> None:
    """Nearly every lamp complained of would be thought to have nothing wrong with it."""
    assert _weighing("0.12", 11) == [
        (
            "causes 0 weight: together the causes weigh 1.32 of a hundred lamps complained of; "
            "write weights of a hundred, 12 for 12 %; together 20 to 300"
        )
    ]


def test_weights_that_give_every_lamp_many_faults_are_told() -> None:
    """Every lamp would be thought to have four things wrong with it."""
    assert _weighing("40", 10) == [
        (
            "causes 0 weight: together the causes weigh 400 of a hundred lamps complained of; "
            "write weights of a hundred, 12 for 12 %; together 20 to 300"
        )
    ]


@pytest.mark.parametrize(("weight", "times"), [("0.12", 10), ("30", 10), ("2", 11)])
def test_few_causes_may_weigh_little(weight: str, times: int) -> None:
    """Whoever begins the table with its rarest causes would be stopped."""
    assert _weighing(weight, times) == []


def test_tables_nobody_has_filled_in_yet_are_not_missed() -> None:
    """Whoever begins with the causes would get a fault for each of them."""
    begun = draft()
    begun["shows"], begun["cures"] = [], []
    assert isinstance(read_book(tables_of(begun)), Book)


def test_every_fault_of_a_call_is_told_at_once() -> None:
    """The tables would be mended one fault at a time."""
    spoilt = draft()
    spoilt["signs"][1]["unsure"] = "120"
    spoilt["causes"][0]["weight"] = "101"
    spoilt["shows"].append({**spoilt["shows"][0], "strength": "much"})
    spoilt["remedies"][0]["wish"] = "w"
    assert faults_in(tables_of(spoilt)) == [
        "signs 3 unsure: '120' is too much of a hundred; write 0 to a number below 100",
        "causes 2 weight: '101' is too much of a hundred; write a number above 0 to 100",
        (
            "shows 4 sign: cause 'crust', sign 'dim' is already on row 2; "
            "keep one of the rows 2 and 4, or give one of them another sign"
        ),
        f"shows 4 strength: 'much' is no strength; {STRENGTHS}",
        ("remedies 2 wish: there is no wish 'w'; write the name of a wish, or add the wish"),
    ]


@pytest.mark.parametrize(
    ("text", "share"), [("strong", 0.85), ("medium", 0.5), ("weak", 0.2), ("100", 1.0)]
)
def test_words_of_strength_are_shares(text: str, share: float) -> None:
    """The experts' words would mean something else than what they were told."""
    assert parse_strength(text) == share


@given(text=st.text(max_size=6) | st.integers(-5, 200).map(str))
def test_a_strength_is_a_share_or_an_error(text: str) -> None:
    """A cell could pass the check and then stop the book from being read, or be no share."""
    try:
        share = parse_strength(text)
    except CellError:
        return
    assert 0.0 < share <= 1.0

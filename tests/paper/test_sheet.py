"""Sheets as PDF: what is handed in is what stands on them, whatever it is."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.support.reading_pdf import is_tagged, pages_of, spoken_for_drawings, words_of

from wickwright.paper.records import Item, Said, SheetPage
from wickwright.paper.sheet import SheetError, sheet_pdf

PAGE = SheetPage(
    sender="A works",
    heading="A lamp (L-1)",
    about="A new glass, at sea level",
    references=(Item("call", "17"), Item("fit book", "0123456789ab")),
    warnings=(Said("DANGER", "It tips.", grave=True), Said("Mind", "It is hot.")),
    fit=(Item("CH-1", "Tall glass", "2 x"),),
    aside=(Item("GA-9", "Old ring"),),
    before=("Let it cool.",),
    steps=("Lift it.", "Set it."),
    after=("Light it low.",),
    cautions=("Never gasoline.",),
    assumed=("It is whole.",),
    figures=(Item("light", "300 lm", "at least 200 lm"),),
    drawing_says="The lamp in section.",
    drawing_key="Yellow: new.",
)
DRAWING = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="100" height="300" viewBox="0 0 100 300">'
    '<rect x="10" y="10" width="60" height="280" fill="#f4c430"/></svg>'
)


def test_all_that_is_handed_in_stands_on_the_sheet() -> None:
    """If this failed, a caution or a part number would be lost between desk and letter box."""
    words = words_of(sheet_pdf(PAGE, DRAWING))
    for said in (
        "A works: fit sheet",
        "call 17",
        "fit book 0123456789ab",
        "A lamp (L-1)",
        "A new glass, at sea level",
        "DANGER: It tips.",
        "Mind: It is hot.",
        "CH-1 Tall glass (2 x)",
        "GA-9 Old ring",
        "Let it cool.",
        "1 Lift it. 2 Set it.",
        "Light it low.",
        "Never gasoline.",
        "It is whole.",
        "light 300 lm (at least 200 lm)",
        "Yellow: new.",
        "page 1 of 1",
    ):
        assert said in words


def test_a_sheet_can_be_heard() -> None:
    """If this failed, a caller who does not see would be sent a blank."""
    pdf = sheet_pdf(PAGE, DRAWING)
    assert is_tagged(pdf)
    assert spoken_for_drawings(pdf) == ["The lamp in section."]


def test_the_same_sheet_is_the_same_file() -> None:
    """If this failed, nobody could tell whether a sheet was changed after it was sent."""
    first = sheet_pdf(PAGE, DRAWING)
    assert first == sheet_pdf(PAGE, DRAWING)
    assert first != sheet_pdf(replace(PAGE, about="Another glass"), DRAWING)


HOSTILE = '#import "x": * $x^2$ <b>bold</b> *b* _u_ `c` \\ // /* @a "q" \'s\' [x] {y} = H'


def test_no_text_is_markup() -> None:
    """If this failed, a part's name could run a program in the typesetter."""
    page = replace(
        PAGE,
        heading=HOSTILE,
        fit=(Item(HOSTILE, HOSTILE, HOSTILE),),
        steps=(HOSTILE,),
        warnings=(Said(HOSTILE, HOSTILE),),
    )
    assert words_of(sheet_pdf(page)).count(HOSTILE) >= 5


@settings(max_examples=30, deadline=None)
@given(st.text(max_size=60))
def test_any_text_can_be_set(text: str) -> None:
    """If this failed, one letter in a caller's name would leave the parcel without its sheet."""
    page = replace(PAGE, heading=f"Lamp {text}", steps=(text, "Set it."), fit=(Item(text, text),))
    assert pages_of(sheet_pdf(page, DRAWING)) == 1


def test_letters_the_type_has_not_got_are_question_marks() -> None:
    """If this failed, a name in another script would leave blanks that nobody notices."""
    words = words_of(sheet_pdf(replace(PAGE, heading="Café Жар 灯 \x07")))
    assert "Café Жар ? ?" in words


def test_what_is_long_goes_on_over_the_page() -> None:
    """If this failed, the last steps of a long sheet would run off the paper."""
    name = "A lamp part with a name that goes on for longer than anyone would call it out loud"
    page = replace(
        PAGE,
        fit=tuple(Item(f"XX-{at:04d}", name) for at in range(12)),
        steps=tuple(f"{name}, step {at}." for at in range(40)),
        assumed=("W" * 300,),
    )
    pdf = sheet_pdf(page, DRAWING)
    assert pages_of(pdf) > 1
    words = words_of(pdf)
    assert all(f"XX-{at:04d}" in words for at in range(12))
    assert all(f"step {at}." in words for at in range(40))


def test_a_sheet_may_be_nearly_blank() -> None:
    """If this failed, a lamp of which no figure is known would have no sheet."""
    none: tuple[Item, ...] = ()
    page = replace(PAGE, warnings=(), fit=none, aside=none, before=(), steps=(), figures=none)
    words = words_of(sheet_pdf(page))
    assert "Step by step" not in words
    assert "Never gasoline." in words


def test_a_drawing_that_is_none_is_refused() -> None:
    """If this failed, a broken drawing would be told in the typesetter's own words alone."""
    with pytest.raises(SheetError, match=r"Is the drawing an SVG picture\?$"):
        sheet_pdf(PAGE, "no picture")

"""A sheet in a narrow or enlarged window, and on paper: what matters comes first, and is there."""

from __future__ import annotations

from typing import TYPE_CHECKING
from unicodedata import normalize

import pytest
from playwright.sync_api import expect
from pypdf import PdfReader
from tests.browser.hands import Hands

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Page
    from tests.browser.watching import Watched


def _top(page: Page, shown: str) -> float:
    box = page.locator(shown).first.bounding_box()
    assert box is not None, shown
    return box["y"]


@pytest.mark.parametrize("width", [1280, 640, 320])
def test_a_danger_and_the_question_come_before_the_fields(watched: Watched, width: int) -> None:
    """If this failed, an adviser with large letters would not see that the call must stop."""
    hands, page = Hands(watched.page), watched.page
    page.set_viewport_size({"width": width, "height": 800})
    hands.begin("It is not bright any more")
    hands.choose("Something is wrong: it is not bright")
    hands.press("1")
    hands.answer("n")
    expect(page.locator(".alarm")).to_have_count(1)
    assert 0 <= _top(page, ".alarm h2") < 400
    assert _top(page, ".alarm") <= _top(page, "#ask")
    assert _top(page, "#ask") < _top(page, ".said") or width == 1280
    order = page.evaluate(
        """() => [...document.querySelectorAll(".alarm, #ask, #said")].map(
             one => one.id || one.className)"""
    )
    assert order == ["alarm", "ask", "said"], "a screen reader reads in another order"
    page.reload()
    page.evaluate("scrollTo(0, 0)")
    assert _top(page, ".alarm h2") < 800


def _printed(page: Page, place: Path) -> str:
    page.pdf(path=place)
    text = "\n".join(one.extract_text() for one in PdfReader(place).pages)
    return " ".join(normalize("NFKC", text).split())


def test_a_printed_sheet_says_who_what_where_and_every_answer(
    watched: Watched, tmp_path: Path
) -> None:
    """If this failed, a sheet taken to the bench on paper would not say what the caller said."""
    hands = Hands(watched.page)
    hands.begin("It is not bright any more", "Anna Berg")
    hands.choose("Something is wrong: it is not bright")
    hands.answer("n")
    hands.write("1900 m")
    hands.answer("Enter")
    hands.press("l")
    hands.write("WH-302")
    hands.press("Enter")
    expect(watched.page.locator("#ask-head")).to_be_focused()
    for _ in range(2):
        hands.choose("no")
    expect(watched.page.locator(".printed").first).to_be_hidden()
    text = _printed(watched.page, tmp_path / "sheet.pdf")
    revision = watched.page.locator(".printed dd", has_text="revision").text_content() or ""
    for said in (
        "Anna Berg",
        "It is not bright any more",
        "Wrong it is not bright",
        "1900 m (1,900 m)",
        "Lamp Tirrick shelf lamp (WH-302)",
        revision.split(" (", maxsplit=1)[0],
        "Dangers asked about: none of 7",
        "Does it smell while it burns, after the first few minutes? no",
        "Is there soot inside the glass, or on what is above the lamp? no",
    ):
        assert said in text, text
    for folded in ("Take back", "More of it", "What goes out", "1 before"):
        assert folded not in text, text


def test_what_goes_out_is_printed_with_the_letter_as_it_stands_in_the_field(
    watched: Watched, tmp_path: Path
) -> None:
    """If this failed, what lies in the parcel would not be what was written."""
    hands = Hands(watched.page)
    number = hands.begin("I broke my glass", "Anna Berg")
    hands.answer("1")
    hands.write("40 m")
    hands.answer("Enter")
    hands.press("l")
    hands.write("WH-302")
    hands.press("Enter")
    expect(watched.page.locator(".way.chosen")).to_have_count(1)
    hands.press("o")
    hands.arrive(f"What goes out of call {number}")
    hands.tab_to("To the caller, in plain words")
    hands.press("Control+Home")
    hands.write("By post and by mail. ")
    text = _printed(watched.page, tmp_path / "out.pdf")
    assert "By post and by mail. Dear Anna Berg," in text
    assert "CH-3296" in text.split("The letter")[1]
    for button in ("Keep this letter", "The letter is sent", "Back to the sheet"):
        assert button not in text

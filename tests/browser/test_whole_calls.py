"""Whole calls, from the first word to what goes in the post, with the keyboard alone."""

from __future__ import annotations

import re
import time
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect
from pypdf import PdfReader
from tests.browser.hands import Hands
from tests.browser.watching import watched_page

from wickwright.answers.sheet.call_record import CallState, Closing
from wickwright.cause.closed import Confirmed
from wickwright.desk.call_trail import OUTCOMES

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser, Locator, Route
    from tests.support.open_desks import OpenDesk

_PART = re.compile(r"\b[A-Z]{2}-\d{4}\b")
_MOST = 9
_VERSION = "#said input[name=version]"


@pytest.fixture
def hands(chromium: Browser, each_desk: OpenDesk) -> Iterator[Hands]:
    """Give an adviser at the first page; SQLite first, then PostgreSQL."""
    with watched_page(chromium, each_desk.url) as watched:
        yield Hands(watched.page)


def parts_of(shown: Locator) -> list[str]:
    """Return the numbers of the parts that links or headings in there name, in order."""
    return [*dict.fromkeys(one for text in shown.all_inner_texts() for one in _PART.findall(text))]


def chosen(hands: Hands) -> list[str]:
    """Return the parts of the way that is chosen."""
    return parts_of(hands.page.locator(".way.chosen .buys dt .part"))


def say_no_until_told_what_to_do(hands: Hands) -> int:
    """Answer signs with no; return how many there were."""
    for asked in range(_MOST):
        if hands.question.startswith("To do"):
            return asked
        hands.choose("no")
    raise AssertionError(hands.question)


def test_a_broken_glass_whose_lamp_and_place_nobody_has_told(hands: Hands) -> None:
    """If this failed, the commonest call of all could not be taken with a keyboard."""
    hands.begin("I broke my glass", "Anna Berg")
    hands.choose("A new one for the chimney")
    assert (hands.question, hands.focused()) == ("Where does the lamp stand?", "Height or town")
    hands.write("40 m")
    hands.answer("Enter")
    asked = 0
    while hands.choices.count():
        hands.answer("1")
        asked += 1
        assert asked <= _MOST, hands.question
    expect(hands.page.locator("#live")).to_contain_text("What to send is settled")
    sent = chosen(hands)
    assert sent
    hands.press("o")
    hands.arrive("What goes out")
    assert parts_of(hands.page.locator("tbody th")) == sent
    with hands.page.expect_download() as loaded:
        hands.press("p")
    text = "\n".join(page.extract_text() for page in PdfReader(loaded.value.path()).pages)
    assert set(sent) <= set(_PART.findall(text)), text


def test_a_dim_lamp_up_a_mountain_to_its_end(hands: Hands, each_desk: OpenDesk) -> None:
    """If this failed, a complaint could not be taken from its dangers to how it was cured."""
    number = hands.begin("It is not bright any more since we moved up", "Tobias Arkwright")
    hands.choose("Something is wrong: it is not bright")
    assert hands.question == "First, before anything else. Is any of these so?"
    hands.answer("n")
    hands.write("1900 m")
    hands.answer("Enter")
    hands.field("Lamp$", "WH-302")
    hands.press("Enter")
    expect(hands.page.locator("#ask-head")).to_be_focused()
    assert say_no_until_told_what_to_do(hands) > 0
    assert chosen(hands) == ["GA-2450", "CH-3371"]
    hands.choose("it burns well")
    assert hands.question == "It burns well"
    hands.press("c")
    hands.arrive(f"Trail of call {number}")
    expect(hands.page.get_by_label("It burns well")).to_be_checked()
    expect(hands.page.get_by_label("the air is too thin here for this glass")).to_be_checked()
    hands.tab_to("How it is known")
    hands.write("told")
    hands.tab_to("Note$")
    hands.write("read at full flame after a quarter of an hour")
    hands.press("Control+Enter")
    expect(hands.page.get_by_role("status")).to_have_text("The call is closed.")
    kept = each_desk.state.store.calls.call(number)
    assert kept is not None
    assert kept.state is CallState.CLOSED
    assert kept.closing == Closing(
        outcome="it burns well",
        causes=("thin-air",),
        confirmed=Confirmed.TELEPHONE,
        note="read at full flame after a quarter of an hour",
    )


def test_a_shade_for_a_shelf_lamp_that_cannot_be_glass(hands: Hands) -> None:
    """If this failed, an adviser could not get from an impossible wish to what can be sent."""
    hands.begin("I would like a glass shade for my shelf lamp", "Ines Duarte")
    hands.choose("A glass shade")
    hands.write("0 m")
    hands.answer("Enter")
    hands.field("Lamp$", "WH-302")
    live = hands.page.locator("#live")
    expect(live).to_contain_text("It cannot be done. This cannot all be had:")
    assert hands.page.locator(".parcel > ul").first.locator("li").count() > 0
    hands.press("Escape")
    hands.choose("without 'the shade is of glass'")
    first = chosen(hands)
    assert first
    hands.press("Escape")
    hands.answer("2")
    second = chosen(hands)
    assert second
    assert second != first
    hands.press("o")
    hands.arrive("What goes out")
    assert parts_of(hands.page.locator("tbody th")) == second
    letter = hands.page.get_by_label("To the caller, in plain words").input_value()
    assert set(second) <= set(_PART.findall(letter)), letter


def test_a_step_is_taken_back_with_one_key(hands: Hands) -> None:
    """If this failed, a slip of the finger would have to be hunted for with Tab."""
    hands.begin("I broke my glass")
    asked = hands.question
    hands.answer("1")
    assert hands.question != asked
    hands.press("Escape")
    hands.answer("b")
    assert hands.question == asked


def test_a_danger_stops_the_call_until_it_is_cleared(hands: Hands) -> None:
    """If this failed, parts would be offered for a lamp that is hurting somebody."""
    hands.begin("It is not bright any more")
    hands.choose("Something is wrong: it is not bright")
    hands.press("1")
    hands.answer("n")
    expect(hands.page.locator(".alarm h2").first).to_contain_text("STOP:")
    assert hands.page.locator(".way").count() == 0
    cleared = hands.question
    assert hands.choices.all_inner_texts() == ["1 yes", "2 not yet"]
    hands.press("2")
    expect(hands.page.locator("#kept")).to_have_text("Kept.")
    expect(hands.page.locator(".alarm h2").first).to_contain_text("STOP:")
    assert hands.question == cleared
    hands.choose("yes")
    expect(hands.page.locator(".alarm")).to_have_count(0)


def _slowly(route: Route) -> None:
    time.sleep(0.4)
    route.continue_()


def test_a_key_pressed_while_an_answer_is_worked_out_goes_to_the_next_question(
    hands: Hands,
) -> None:
    """If this failed, a quick adviser would answer twice the question that goes away."""
    hands.begin("I broke my glass")
    second = hands.choices.nth(1).get_attribute("value")
    hands.page.route("**/say", _slowly)
    hands.press("1", "2")
    expect(hands.page.locator("#wish")).to_have_value("wish:renew-chimney")
    expect(hands.page.locator("#ask-place")).to_have_value("2")
    assert hands.question == "Where does the lamp stand?"
    chosen_now = {hands.page.locator(f"#{one}").input_value() for one in ("wish", "complaint")}
    assert second not in chosen_now


def test_keys_act_from_within_a_field_without_stealing_what_is_typed(hands: Hands) -> None:
    """If this failed, an adviser in the field for the place could go nowhere without a mouse."""
    hands.begin("I broke my glass")
    hands.answer("1")
    assert hands.focused() == "Height or town"
    line = hands.page.locator("#ask .key-line")
    expect(line).to_contain_text("From within the field: Alt b, Alt w, Alt l, Alt d.")
    expect(line).to_contain_text("Or Esc, then the letter.")
    hands.write("blow")
    expect(hands.page.locator("#ask-place")).to_have_value("blow")
    hands.press("Alt+w")
    expect(hands.page.locator("#ask details")).to_have_attribute("open", "")
    expect(hands.page.locator("#ask-place")).to_have_value("blow")
    hands.press("Alt+l")
    expect(hands.page.locator("#lamp")).to_be_focused()
    before = hands.version
    hands.write("WH-302")
    expect(hands.page.locator(_VERSION)).not_to_have_value(before)
    expect(hands.page.locator("#ask-place")).to_have_value("blow")
    asked = hands.question
    hands.answer("Alt+b")
    hands.answer("Alt+b")
    assert hands.question != asked
    hands.answer("1")
    hands.answer("Alt+d")
    assert hands.question != "Where does the lamp stand?"


def test_keys_act_with_alt_where_single_keys_are_off(hands: Hands) -> None:
    """If this failed, somebody whose screen reader takes single keys would have none at all."""
    hands.begin("I broke my glass")
    hands.page.evaluate("localStorage.setItem('wickwright.single-keys-off', '1')")
    asked = hands.question
    hands.press("1")
    hands.page.wait_for_timeout(300)
    assert hands.question == asked
    hands.answer("Alt+1")
    assert hands.question == "Where does the lamp stand?"


@pytest.mark.parametrize("size", [(1280, 800), (768, 1024), (320, 700)], ids=str)
def test_what_was_answered_is_in_sight_with_the_question(
    hands: Hands, size: tuple[int, int]
) -> None:
    """If this failed, an adviser would have to scroll away from the question to see the answers."""
    width, height = size
    hands.page.set_viewport_size({"width": width, "height": height})
    hands.begin("It is not bright any more")
    hands.choose("Something is wrong: it is not bright")
    hands.answer("n")
    hands.write("1900 m")
    hands.answer("Enter")
    hands.press("l")
    hands.write("WH-302")
    hands.press("Enter")
    expect(hands.page.locator("#ask-head")).to_be_focused()
    hands.choose("no")
    hands.choose("no")
    for shown in ("#told", "#ask .told li:last-child >> nth=-1", "#ask-head"):
        box = hands.page.locator(shown).first.bounding_box()
        assert box is not None, shown
        assert box["y"] >= 0, (shown, box)
        assert box["y"] + box["height"] <= height, (shown, box)
    expect(hands.page.locator("#ask .told strong")).to_have_text(["none of 7", "no", "no"])


def test_a_way_is_chosen_with_two_keys_while_a_question_stands(hands: Hands) -> None:
    """If this failed, an adviser at the keyboard would press Tab forty times for another way."""
    hands.begin("It is not bright any more")
    hands.choose("Something is wrong: it is not bright")
    hands.answer("n")
    hands.write("1900 m")
    hands.answer("Enter")
    hands.press("l")
    hands.write("WH-302")
    hands.press("Enter")
    expect(hands.page.locator("#ask-head")).to_be_focused()
    assert say_no_until_told_what_to_do(hands) > 0
    asked, first = hands.question, chosen(hands)
    button = hands.page.locator(".way:not(.chosen) button").first
    assert button.inner_text() == "v 2 Choose way 2"
    hands.press("v")
    expect(button).to_have_class("next-key")
    hands.answer("2")
    assert chosen(hands) != first
    assert hands.question == asked
    hands.press("v", "Escape")
    hands.choose("it burns well")
    assert hands.question == "It burns well"


def test_a_call_is_closed_with_four_keys(hands: Hands, each_desk: OpenDesk) -> None:
    """If this failed, closing would be hunted for with Tab, and left undone."""
    number = hands.begin("I broke my glass")
    hands.press("c")
    hands.arrive(f"Trail of call {number}")
    hands.press("7")
    expect(hands.page.locator("input[name=outcome]").nth(6)).to_be_checked()
    hands.press("Control+Enter")
    expect(hands.page.get_by_role("status")).to_have_text("The call is closed.")
    kept = each_desk.state.store.calls.call(number)
    assert kept is not None
    assert kept.closing is not None
    assert kept.closing.outcome == [*OUTCOMES][6]


def test_what_went_out_is_kept_with_two_keys(hands: Hands, each_desk: OpenDesk) -> None:
    """If this failed, sixteen stops of the Tab key would stand between an order and its record."""
    number = hands.begin("I broke my glass")
    hands.answer("1")
    hands.write("40 m")
    hands.answer("Enter")
    hands.press("l")
    hands.write("WH-302")
    hands.press("Enter")
    expect(hands.page.locator(".way.chosen")).to_have_count(1)
    hands.press("o")
    hands.arrive("What goes out")
    hands.press("l")
    expect(hands.page.get_by_label("To the caller, in plain words")).to_be_focused()
    hands.press("Escape", "g", "o")
    expect(hands.page.get_by_role("status").first).to_have_text("It is kept as it went out.")
    assert [one.what for one in each_desk.state.store.calls.given(number)] == ["order"]

"""A page that is left or loaded again while something is on its way loses nothing."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect
from tests.browser.slow_desk import saved_at_once, slow_hands

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser
    from tests.browser.hands import Hands
    from tests.support.open_desks import OpenDesk

    from wickwright.answers.sheet.call_record import Said


@pytest.fixture
def slow(chromium: Browser, desk: OpenDesk, monkeypatch: pytest.MonkeyPatch) -> Iterator[Hands]:
    """Give an adviser at a desk whose every step takes long to be kept."""
    with slow_hands(chromium, desk, monkeypatch) as hands:
        yield hands


def _kept(desk: OpenDesk, number: int) -> Said:
    call = desk.state.store.calls.call(number)
    assert call is not None
    return call.said


def _note_goes_on(slow: Hands, desk: OpenDesk, number: int, text: str) -> None:
    """See a note that was typed before, type on, and see all of it kept."""
    note = slow.page.get_by_label("For the next adviser")
    expect(note).to_have_value(text)
    expect(slow.page.locator("#live")).not_to_have_attribute("aria-busy", "true")
    before = slow.version
    slow.tab_to("For the next adviser")
    slow.press("Control+End")
    slow.write(", at five")
    expect(slow.page.locator("#said input[name=version]")).not_to_have_value(before)
    expect(slow.page.locator("#kept")).to_have_text("Kept.")
    expect(slow.page.locator("#conflict")).to_have_count(0)
    expect(note).to_have_value(f"{text}, at five")
    assert _kept(desk, number).note == f"{text}, at five"


def test_a_note_typed_just_before_the_page_is_loaded_again_is_kept(
    slow: Hands, desk: OpenDesk
) -> None:
    """If this failed, an adviser would be told that another desk was quicker, and it was theirs."""
    number = slow.begin("I broke my glass")
    slow.tab_to("For the next adviser")
    slow.write("she calls back")
    slow.page.reload()
    _note_goes_on(slow, desk, number, "she calls back")


def test_a_note_that_is_being_kept_while_more_is_typed_is_kept_whole(
    slow: Hands, desk: OpenDesk
) -> None:
    """If this failed, what is typed while the desk works would be lost with the page."""
    number = slow.begin("I broke my glass")
    slow.tab_to("For the next adviser")
    slow.write("she calls")
    expect(slow.page.locator("#kept")).to_have_text("Keeping …")
    slow.write(" back")
    slow.page.reload()
    _note_goes_on(slow, desk, number, "she calls back")


def test_an_answer_on_its_way_while_the_page_is_loaded_again_is_no_other_desk(
    slow: Hands, desk: OpenDesk
) -> None:
    """If this failed, the next answer would be refused as if somebody else had been here."""
    number = slow.begin("I broke my glass")
    slow.press("1")
    slow.page.reload()
    expect(slow.page.locator("#ask-head")).to_have_text("Where does the lamp stand?")
    slow.press("1")
    slow.write("40 m")
    slow.press("Enter")
    expect(slow.page.locator(".ask-look")).to_be_visible()
    expect(slow.page.locator("#conflict")).to_have_count(0)
    assert _kept(desk, number).place == "40 m"


def test_a_note_of_another_desk_is_not_typed_over_by_a_page_that_was_left(
    slow: Hands, desk: OpenDesk
) -> None:
    """If this failed, a page that is loaded again would wipe out what another desk wrote."""
    number = slow.begin("I broke my glass")
    call = desk.state.store.calls.call(number)
    assert call is not None
    slow.tab_to("For the next adviser")
    slow.write("she calls back")
    saved_at_once(desk, call, replace(call.said, note="he has the lamp with him"), "Ravi")
    slow.page.reload()
    expect(slow.page.locator("#kept")).to_contain_text("Not kept when the page was left: she calls")
    note = slow.page.get_by_label("For the next adviser")
    expect(note).to_have_value("he has the lamp with him")

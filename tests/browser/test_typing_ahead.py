"""Keys typed faster than the desk works: none is lost, none lands where it was not meant."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect
from tests.browser.slow_desk import slow_hands

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


def _settled(hands: Hands) -> None:
    expect(hands.page.locator("#live")).not_to_have_attribute("aria-busy", "true")


def _kept(desk: OpenDesk, number: int) -> Said:
    call = desk.state.store.calls.call(number)
    assert call is not None
    return call.said


@pytest.mark.parametrize("pause", [0, 30], ids=lambda pause: f"{pause} ms a key")
@pytest.mark.parametrize("height", ["40 m", "1900 m"])
def test_a_height_typed_ahead_is_kept_as_it_was_typed(
    slow: Hands, desk: OpenDesk, height: str, pause: int
) -> None:
    """If this failed, a quick adviser's caller up a mountain would get the glass for the sea."""
    number = slow.begin("I broke my glass")
    keyboard = slow.page.keyboard
    keyboard.type("1", delay=pause)
    keyboard.type(height, delay=pause)
    keyboard.press("Enter")
    keyboard.type("1", delay=pause)
    expect(slow.page.locator("#told")).to_be_visible()
    _settled(slow)
    said = _kept(desk, number)
    assert (said.wish, said.place) == ("renew-chimney", height)
    assert said.elevation == float(height.split(maxsplit=1)[0])
    assert [isinstance(one, dict) and "look" in one for one in said.heard] == [True]
    expect(slow.page.locator("#kept")).to_have_text("Kept.")
    expect(slow.page.locator("#place")).to_have_value(height)


def test_what_is_held_is_seen_and_can_be_mended(slow: Hands, desk: OpenDesk) -> None:
    """If this failed, a slip in what is typed ahead would be kept, or the keys seem to be dead."""
    number = slow.begin("I broke my glass")
    slow.press("1", "4", "1", "Backspace", "0", " ", "m")
    expect(slow.page.locator("#ahead")).to_contain_text("Then: 41 Backspace 0 m")
    expect(slow.page.locator("#ask-place")).to_have_value("40 m")
    expect(slow.page.locator("#ask-place")).to_be_focused()
    expect(slow.page.locator("#ahead")).to_be_empty()
    assert _kept(desk, number).place == ""


def test_keys_that_leave_a_field_and_go_to_another_are_played_too(
    slow: Hands, desk: OpenDesk
) -> None:
    """If this failed, only the plainest of calls could be typed without waiting."""
    number = slow.begin("I would like a glass shade")
    slow.press("1")
    slow.write("6200 ft")
    slow.press("Enter", "l")
    slow.write("WH-302")
    slow.press("Enter", "2")
    expect(slow.page.locator("#ask-head")).to_have_text("Nothing more has to be asked")
    said = _kept(desk, number)
    assert (said.place, said.lamp) == ("6200 ft", "WH-302")
    assert len(said.given_up) == 1


def test_what_was_typed_for_another_question_is_told_and_not_played(
    slow: Hands, desk: OpenDesk
) -> None:
    """If this failed, an answer would go to a question that the adviser did not expect."""
    number = slow.begin("I broke my glass")
    slow.press("1")
    slow.write("4o m")
    slow.press("Enter", "1")
    line = slow.page.locator("#kept")
    expect(line).to_contain_text("Typed ahead and not used: 1")
    expect(slow.page.locator("#ask-place")).to_have_value("")
    assert _kept(desk, number).heard == ()


def test_what_was_typed_past_a_danger_is_not_played(slow: Hands) -> None:
    """If this failed, a STOP would be answered away before anybody has read it."""
    slow.begin("It is not bright any more")
    slow.press("1")
    expect(slow.page.locator(".ask-dangers")).to_be_visible()
    slow.press("1", "n", "1")
    expect(slow.page.locator(".alarm h2").first).to_contain_text("STOP:")
    expect(slow.page.locator("#kept")).to_have_text("Kept. Typed ahead and not used: 1")
    expect(slow.page.locator(".alarm h2").first).to_be_visible()

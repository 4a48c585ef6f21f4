"""What is typed is kept: through a browser that closes, and past another desk that is quicker."""

from __future__ import annotations

from typing import TYPE_CHECKING

from playwright.sync_api import expect
from tests.browser.hands import Hands
from tests.browser.watching import watched_page

if TYPE_CHECKING:
    from playwright.sync_api import Browser
    from tests.browser.watching import Watched
    from tests.support.open_desks import OpenDesk


def found(watched: Watched, asked: str) -> Hands:
    """Look something up with the key for it."""
    hands = Hands(watched.page)
    expect(watched.page.get_by_label("What does the caller say?")).to_be_focused()
    hands.press("Escape", "/")
    expect(watched.page.get_by_label("Find a call, part or lamp")).to_be_focused()
    hands.press("Control+a")
    hands.write(asked)
    hands.press("Enter")
    return hands


def test_a_call_is_found_again_after_the_browser_was_closed(
    chromium: Browser, each_desk: OpenDesk
) -> None:
    """If this failed, a browser that crashes would take the call with it."""
    with watched_page(chromium, each_desk.url) as watched:
        hands = Hands(watched.page)
        number = hands.begin("The glass of my shelf lamp is broken", "Odalys Fenwick")
        hands.choose("A new one for the chimney")
        hands.write("40 m")
        hands.answer("Enter")
        hands.field("Lamp$", "WH-302")
        hands.field("Not its own", "GA-2450")
        hands.tab_to("For the next adviser")
        hands.write("she calls back at five")
        watched.page.close()
    with watched_page(chromium, each_desk.url) as watched:
        found(watched, str(number)).arrive(f"Call {number}")
        expect(watched.page.get_by_label("Lamp", exact=True)).to_have_value("WH-302")
        note = watched.page.get_by_label("For the next adviser")
        expect(note).to_have_value("she calls back at five")
        for asked in ("odalys fenwick", "GA-2450", "shelf lamp is broken", "WH-302"):
            watched.page.goto("/")
            found(watched, asked).arrive(asked)
            rows = watched.page.locator("main tbody tr th.number")
            assert str(number) in rows.all_inner_texts(), asked


def test_the_second_of_two_desks_is_told_and_keeps_what_was_typed(
    chromium: Browser, each_desk: OpenDesk
) -> None:
    """If this failed, one adviser would wipe out what another has just written."""
    with (
        watched_page(chromium, each_desk.url) as one,
        watched_page(chromium, each_desk.url) as other,
    ):
        number = Hands(one.page).begin("I broke my glass", "Anna Berg")
        other.page.goto(f"/calls/{number}")
        Hands(one.page).field("For the next adviser", "she calls back at five")
        late = Hands(other.page)
        late.tab_to("For the next adviser")
        late.write("he has the lamp with him")
        alert = other.page.get_by_role("alert")
        expect(alert).to_contain_text("Another desk was quicker")
        expect(alert).to_contain_text("he has the lamp with him")
        note = other.page.get_by_label("For the next adviser")
        expect(note).to_have_value("he has the lamp with him")
        kept = each_desk.state.store.calls.call(number)
        assert kept is not None
        assert kept.said.note == "she calls back at five"
        late.tab_to("Load the sheet as it stands now")
        late.press("Enter")
        expect(note).to_have_value("she calls back at five")


def test_a_broken_glass_without_a_line_of_script(chromium: Browser, each_desk: OpenDesk) -> None:
    """If this failed, the desk would be of no use where scripts are switched off."""
    with watched_page(chromium, each_desk.url, java_script_enabled=False) as watched:
        hands = Hands(watched.page)
        hands.write("I broke my glass")
        hands.tab_to("Begin the call")
        hands.press("Enter")
        hands.arrive("Call")
        hands.tab_to("1 A new one for the chimney")
        hands.answer("Enter")
        hands.tab_to("Height or town")
        hands.write("40 m")
        hands.answer("Enter")
        while hands.choices.count():
            hands.tab_to("1 ")
            hands.answer("Enter")
        expect(watched.page.locator("#live")).to_contain_text("What to send is settled")
        hands.tab_to("Take the last step back|b Take the last step back")
        hands.answer("Enter")
        assert hands.choices.count() > 0
        hands.tab_to("1 ")
        hands.answer("Enter")
        hands.tab_to("o What goes out", back=True)
        hands.press("Enter")
        hands.arrive("What goes out")
        assert watched.page.locator("tbody th").count() > 0

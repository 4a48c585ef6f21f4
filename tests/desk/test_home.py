"""Where a call begins."""

import re

import pytest
from tests.support.desks import new_desk

from wickwright.answers.sheet.call_record import Caller, Said
from wickwright.answers.sheet.desk_store import Person, Role


def test_a_call_begins_with_the_caller_s_words() -> None:
    """If this failed, an adviser would have nowhere to write down what is said."""
    browser = new_desk(single="Mari").browser()
    begun = browser.post("/calls", {"words": "I broke my glass", "caller": "Anna Berg"})
    assert (begun.status_code, begun.headers["location"]) == (303, "/calls/1")
    page = browser.get("/").text
    assert "I broke my glass" in page
    assert "Anna Berg" in page


def test_markup_in_a_caller_s_words_is_shown_as_text() -> None:
    """If this failed, a caller's words could act in an adviser's browser."""
    browser = new_desk(single="Mari").browser()
    browser.post("/calls", {"words": "<script>alert(1)</script>", "caller": "<b>A</b>"})
    page = browser.get("/").text
    assert "<script>alert" not in page
    assert "&lt;script&gt;alert(1)&lt;/script&gt;" in page
    assert "&lt;b&gt;A&lt;/b&gt;" in page


def test_many_open_calls_come_in_pages_and_none_is_left_out() -> None:
    """If this failed, a busy week would make the first page too heavy, or hide a call."""
    desk = new_desk(single="Mari")
    browser, store, clock = desk.browser(), desk.state.store, desk.state.clock
    here, there = Person("Mari", Role.LEAD, "front", ""), Person("Tomas", Role.ADVISER, "back", "")
    for number in range(130):
        who = there if number % 2 else here
        store.calls.begin(Said(words="x" * 9000), Caller(), who, "r", clock())
    first = browser.get("/").text
    assert _calls_in(first) == list(range(1, 101))
    assert "30 more open calls" in first
    assert len(first.encode()) < 150_000
    page = browser.get("/calls").text
    assert _calls_in(page) == list(range(1, 101))
    assert "1 to 100 of 130" in page
    assert "The hundred before" not in page
    (later,) = re.findall(r'href="(/calls[?]after=[0-9]+)" rel="next"', page)
    page = browser.get(later).text
    assert _calls_in(page) == list(range(101, 131))
    assert "The next hundred" not in page
    assert "/calls?after=0" in page


@pytest.mark.parametrize("after", ["", "-1", "x", "9" * 40])
def test_a_page_of_calls_that_is_nowhere_is_not_an_error(after: str) -> None:
    """If this failed, an address typed wrongly would end in a page of faults."""
    assert new_desk(single="Mari").browser().get(f"/calls?after={after}").status_code == 200


def _calls_in(page: str) -> list[int]:
    """Return the calls a page links to, in order of their numbers."""
    return sorted({int(one) for one in re.findall(r'href="/calls/([0-9]+)"', page)})


def test_nobody_sees_a_call_before_logging_in() -> None:
    """If this failed, callers' names would be open to anyone on the wire."""
    desk = new_desk()
    asked = desk.browser().get("/")
    assert (asked.status_code, asked.headers["location"]) == (303, "/login")
    assert desk.logged_in("Tomas").get("/").status_code == 200


def test_a_form_without_the_key_or_from_elsewhere_changes_nothing() -> None:
    """If this failed, a page elsewhere could begin calls in an adviser's name."""
    desk = new_desk()
    browser = desk.logged_in("Tomas")
    assert browser.post("/calls", {"words": "x"}, key=False).status_code == 403
    assert browser.post("/calls", {"words": "x"}, origin="http://elsewhere.test").status_code == 403
    assert browser.post("/calls", {"words": "x"}, origin=None).status_code == 403
    assert desk.state.store.calls.open_calls() == ()
    assert [line.what for line in desk.state.store.ledger.newest(3)] == [
        "a form from a foreign origin",
        "a form from a foreign origin",
        "a form without the session's key",
    ]

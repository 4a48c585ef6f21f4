"""Where a call begins."""

from tests.support.desks import new_desk


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

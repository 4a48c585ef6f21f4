"""What goes out of a call."""

from __future__ import annotations

import html
import io
import re
from typing import TYPE_CHECKING

from pypdf import PdfReader
from tests.desk.test_sheet_page import begun, step, version

if TYPE_CHECKING:
    from tests.support.desks import Browser


def settled() -> Browser:
    browser = begun()
    step(browser, choose="wish:renew-chimney", lamp="WH-302", lost="chimney", place="1700 m")
    return browser


def test_order_letter_and_fit_sheet_speak_of_the_same_parts() -> None:
    """If this failed, the parcel would hold other parts than the letter promises."""
    browser = settled()
    page = browser.get("/calls/1/out").text
    order = browser.get("/calls/1/order.json").json()
    sheet = PdfReader(io.BytesIO(browser.get("/calls/1/fit-sheet.pdf").content))
    printed = "".join(leaf.extract_text() for leaf in sheet.pages)
    parts = [line["part"] for line in order["lines"]]
    assert parts == ["GA-2450", "CH-3371"]
    assert order["total"] == "70.00"
    for part in parts:
        assert part in page
        assert part in printed
        assert part in browser.get("/calls/1/order.csv").text
    assert "call 1" in printed
    (revision,) = re.findall(
        r"/book/lamps/WH-302\?revision=([0-9a-f]+)", browser.get("/calls/1").text
    )[:1]
    assert f"fit book {revision}" in " ".join(printed.split())


def test_a_route_that_was_chosen_is_what_goes_out() -> None:
    """If this failed, the caller would get the cheapest way in place of the one agreed."""
    browser = settled()
    page = browser.get("/calls/1").text
    routes = re.findall(r'name="route" value="([^"]+)"', page)
    step(browser, route=routes[-1])
    lines = browser.get("/calls/1/order.json").json()["lines"]
    assert [line["part"] for line in lines] == routes[-1].split()


def test_what_is_done_without_is_said_in_letter_and_fit_sheet() -> None:
    """If this failed, a caller who agreed to parchment would get a letter about glass."""
    browser = begun()
    step(browser, choose="wish:add-glass-shade", lamp="WH-302", place="1700 m")
    assert "It cannot all be had." in browser.get("/calls/1").text
    step(browser, without="ask:shade:1")
    page = html.unescape(browser.get("/calls/1").text)
    assert "A glass shade, without 'the shade is of glass'" in page
    assert "Done without:" in page
    out = html.unescape(browser.get("/calls/1/out").text)
    assert "you do without this: the shade is of glass." in out
    assert "want: the lamp carries a shade." in out
    printed = "".join(
        leaf.extract_text()
        for leaf in PdfReader(io.BytesIO(browser.get("/calls/1/fit-sheet.pdf").content)).pages
    )
    assert "Done without, as agreed: the shade is of glass." in " ".join(printed.split())


def test_an_edited_letter_is_kept_and_can_be_written_afresh() -> None:
    """If this failed, an adviser's own words would be lost, or stay for ever."""
    browser = settled()
    sent = {
        "reply": "Dear Anna, it is in the post.",
        "version": version(browser.get("/calls/1").text),
    }
    assert browser.post("/calls/1/letter", sent).status_code == 303
    assert "Dear Anna, it is in the post." in browser.get("/calls/1/out").text
    now = version(browser.get("/calls/1").text)
    browser.post("/calls/1/letter", {"afresh": "yes", "version": now})
    page = browser.get("/calls/1/out").text
    assert "Dear Anna, it is in the post." not in page
    assert "We send" in page


def test_what_went_out_is_shown_as_it_was_though_the_sheet_has_changed() -> None:
    """If this failed, nobody could say later what a caller was really told."""
    browser = settled()
    browser.post("/calls/1/given", {"what": "order"})
    step(browser, choose="wish:renew-wick")
    kept = browser.get("/calls/1/given/1").text
    assert "CH-3371" in kept
    assert "WI-2100" not in kept
    assert "WI-2100" in browser.get("/calls/1/order.csv").text


def test_nothing_goes_out_before_it_is_settled() -> None:
    """If this failed, an empty order or a sheet without parts could be posted."""
    browser = begun()
    assert "It is not settled yet what is sent." in browser.get("/calls/1/out").text
    assert browser.get("/calls/1/order.csv").status_code == 404
    assert browser.get("/calls/1/fit-sheet.pdf").status_code == 404


def test_what_is_only_likely_is_not_to_be_packed() -> None:
    """If this failed, a parcel for the likeliest lamp would go to somebody who has another."""
    browser = begun()
    step(browser, choose="wish:renew-chimney")
    step(browser, place="40 m")
    step(browser, look="burner-knob", value="large, four holes")
    page = browser.get("/calls/1/out").text
    assert "It is not settled which lamp it is: all this is for the " in page
    assert "Do not pack it, and send no letter yet" in page
    assert "Do not pack it" not in settled().get("/calls/1/out").text

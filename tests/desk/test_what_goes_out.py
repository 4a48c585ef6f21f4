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
    assert "you would like a shade." in out
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


def unsettled() -> Browser:
    """Return a call in which another lamp would take something else."""
    browser = begun()
    step(browser, choose="wish:renew-chimney")
    step(browser, place="40 m")
    step(browser, look="burner-knob", value="large, four holes")
    return browser


def posted(browser: Browser, path: str, **fields: str) -> int:
    """Send a form of the page of what goes out."""
    fields["version"] = version(browser.get("/calls/1").text)
    return browser.post(f"/calls/1/{path}", fields).status_code


def fit_sheet_of(browser: Browser) -> str:
    """Return the words of the fit sheet."""
    sheet = PdfReader(io.BytesIO(browser.get("/calls/1/fit-sheet.pdf").content))
    return " ".join("".join(leaf.extract_text() for leaf in sheet.pages).split())


def letter_of(browser: Browser) -> str:
    """Return the letter that goes out."""
    page = html.unescape(browser.get("/calls/1/out").text)
    found = re.search(r"<textarea[^>]*>(.*?)</textarea>", page, re.DOTALL)
    return " ".join(found[1].split()) if found else ""


def test_what_is_only_likely_is_withheld() -> None:
    """If this failed, a parcel for the likeliest lamp would go to somebody who has another."""
    browser = unsettled()
    page = browser.get("/calls/1/out").text
    assert "It is not settled which lamp it is: all this is for the " in page
    assert "Order, letter and fit sheet are withheld." in page
    assert "<textarea" not in page
    for path in ("order.csv", "order.json", "fit-sheet.pdf"):
        assert browser.get(f"/calls/1/{path}").status_code == 404
    for what in ("order", "reply", "fit sheet"):
        assert browser.post("/calls/1/given", {"what": what}).status_code == 409
    assert "withheld" not in settled().get("/calls/1/out").text


def test_an_overruled_doubt_is_printed_with_its_reason() -> None:
    """If this failed, nobody could tell later why an unsettled parcel was sent."""
    browser, reason = unsettled(), "she has the receipt before her"
    assert posted(browser, "overrule", reason="  ") == 400
    assert posted(browser, "overrule", reason=reason) == 303
    says = f"we send this all the same, because: {reason}."
    assert says in letter_of(browser)
    assert says in fit_sheet_of(browser)
    assert reason in browser.get("/calls/1/trail").text
    assert browser.post("/calls/1/given", {"what": "order"}).status_code == 303
    assert posted(browser, "overrule", back="yes") == 303
    assert browser.post("/calls/1/given", {"what": "order"}).status_code == 409


def test_a_doubt_that_was_overruled_for_one_lamp_stands_for_another() -> None:
    """If this failed, a reason given for one parcel would let any other out."""
    browser = unsettled()
    posted(browser, "overrule", reason="she has the receipt before her")
    assert browser.get("/calls/1/order.csv").status_code == 200
    step(browser, place="1900 m")
    assert browser.get("/calls/1/order.csv").status_code == 404


def test_a_model_that_is_not_settled_is_not_named_as_the_callers() -> None:
    """If this failed, a caller would read of a lamp that is hers with a chance of one in five."""
    browser = unsettled()
    step(browser, look="gallery-seat", value="dropped in and turned under 3 lugs")
    letter, printed = letter_of(browser), fit_sheet_of(browser)
    assert "you have one of these lamps at 40 m: Stoura table lamp (TY-101), " in letter
    assert "; all of them take this" in letter
    warning = "If yours is none of these: do not fit it, call us."
    assert warning in letter
    assert warning in printed
    assert "For one of 10 lamps" in printed
    assert "page 1 of 1" in printed
    assert "It is one of these lamps: what was seen does not tell which." in printed
    assert "about 380 lm; it may be half or double of that" in printed, "alike on all of them"
    assert "tips at" not in printed, "it differs from lamp to lamp"
    assert "FO-1110" not in printed, "a part that only one of the lamps has"
    assert "Screw the burner BU-2110" in printed


def test_a_height_nobody_gave_does_not_go_out_as_fact() -> None:
    """If this failed, a caller up a mountain would be sent a short glass without a word."""
    browser = begun()
    step(browser, choose="wish:renew-chimney", lamp="WH-302", lost="chimney", place="don't know")
    sheet = browser.get("/calls/1").text
    assert "if it stands at sea level" in sheet
    assert ">chosen<" not in sheet
    says = (
        "We took sea level, because you did not say how high you live. Above 300 m do not fit "
        "this glass: call us."
    )
    assert says in letter_of(browser)
    printed = fit_sheet_of(browser)
    assert says in printed
    assert "The lamp stands at sea level: its height was not said." in printed
    step(browser, place="Xyzburg")
    assert "because we do not know how high 'Xyzburg' lies. Above 300 m" in letter_of(browser)
    step(browser, place="40 m")
    assert "We took sea level" not in letter_of(browser) + fit_sheet_of(browser)
    assert ">chosen<" in browser.get("/calls/1").text


def test_an_edited_letter_does_not_outlive_its_answer() -> None:
    """If this failed, a letter about one lamp would go out with the parts of another."""
    browser = settled()
    assert posted(browser, "letter", reply="Dear Anna, it is in the post.") == 303
    assert "STOP" not in browser.get("/calls/1/out").text
    step(browser, lamp="DU-401")
    page = html.unescape(browser.get("/calls/1/out").text)
    assert "STOP: this letter is about another answer" in page
    assert "Dear Anna, it is in the post." in page
    assert "Dunlin table lamp (DU-401)" in page
    assert browser.post("/calls/1/given", {"what": "reply"}).status_code == 409
    assert posted(browser, "letter", reply="Dear Anna, it is another lamp.") == 303
    assert browser.post("/calls/1/given", {"what": "reply"}).status_code == 303


def test_who_is_in_danger_has_a_letter() -> None:
    """If this failed, a caller told STOP for a leak would have nothing in writing."""
    browser = begun()
    step(browser, choose="complaint:leaks", lamp="WH-302", place="40 m")
    there = ["wet-font", "cracked-font"]
    step(browser, asked=there, danger=there)
    letter = letter_of(browser)
    assert "Empty it outdoors into a fuel can. It must not be lit again." in letter
    assert "This is how to pack it:" in letter

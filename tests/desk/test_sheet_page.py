"""The call sheet as a page."""

from __future__ import annotations

import re

from tests.support.demo import demo
from tests.support.desks import Browser, new_desk

from wickwright.cause.dangers import GUARDS


def begun(words: str = "I broke my glass") -> Browser:
    browser = new_desk(single="Mari").browser()
    browser.post("/calls", {"words": words, "caller": "Anna Berg"})
    return browser


def version(page: str) -> str:
    found = re.search(r'name="version" value="(\d+)"', page)
    assert found
    return found.group(1)


def step(browser: Browser, **fields: str | list[str]) -> str:
    sent = {**fields, "version": version(browser.get("/calls/1").text)}
    answer = browser.post("/calls/1/say", sent)
    assert answer.status_code in {200, 303}, answer.text
    return browser.get("/calls/1").text


def test_what_was_said_is_offered_and_never_taken_silently() -> None:
    """If this failed, the program would decide what a caller means."""
    page = begun().get("/calls/1").text
    assert "Is this what is meant?" in page
    assert 'value="wish:renew-chimney"' in page
    assert "nothing chosen" in page


def test_a_call_without_a_line_of_script_comes_to_its_parcel() -> None:
    """If this failed, the desk would be of no use where scripts are switched off."""
    browser = begun()
    step(browser, choose="wish:renew-chimney")
    step(browser, place="1700 m")
    page = step(browser, lamp="WH-302", lost="chimney")
    assert "SKD 70.00" in page
    assert "CH-3371" in page
    assert "Clear 1-K kerosene only" in page
    assert page.count("<svg") == 1


def test_every_answer_that_can_be_drawn_stands_beside_its_picture() -> None:
    """If this failed, a caller would have nothing to hold the lamp against."""
    browser = begun()
    step(browser, choose="wish:renew-chimney")
    page = step(browser, place="1700 m")
    assert "What is the knob like?" in page
    pictured = re.findall(r'<span class="picture"><svg .*?</svg>\n?</span><button [^>]*>', page)
    titles = [re.search(r"<title>(.*?)</title>", one) for one in pictured]
    values = [re.search(r' value="(.*?)"', one) for one in pictured]
    assert [it and it[1] for it in titles] == [it and it[1] for it in values]
    assert len(pictured) == 10


def test_a_shock_is_met_with_what_is_never_done_under_current() -> None:
    """If this failed, a page about a live lamp would warn of blowing down a chimney."""
    browser = begun("no light at all")
    step(browser, choose="complaint:no-current", lamp="BX-704", place="0 m")
    page = step(browser, asked=["shock", "wet-font"], danger=["shock"])
    assert "Never water on anything under current." in page
    assert "Do not blow down the chimney" not in page


def test_a_step_taken_back_is_gone_from_the_sheet() -> None:
    """If this failed, a slip of the tongue would stay in the call."""
    browser = begun()
    step(browser, choose="wish:renew-chimney")
    answer = browser.post("/calls/1/back", {"version": version(browser.get("/calls/1").text)})
    assert answer.status_code == 303
    assert "Is this what is meant?" in browser.get("/calls/1").text


def test_an_answer_is_changed_by_asking_its_question_again() -> None:
    """If this failed, a caller's change of mind would cost taking back all that came after."""
    browser = begun("I broke my glass")
    step(browser, choose="wish:renew-chimney")
    step(browser, place="0 m")
    step(browser, look="burner-knob", value="large, four holes")
    page = browser.get("/calls/1").text
    assert 'href="/calls/1?change=heard:0#ask"' in page
    assert '<h2 id="ask-head" tabindex="-1">What is the knob like?</h2>' not in page
    asked = browser.get("/calls/1?change=heard:0").text
    assert '<h2 id="ask-head" tabindex="-1">What is the knob like?</h2>' in asked
    page = step(browser, look="burner-knob", value="small, thin edge")
    assert "What is the knob like? <strong>small, thin edge</strong>" in page
    assert "<strong>large, four holes</strong>" not in page


def test_what_is_to_be_changed_and_is_not_there_is_passed_over() -> None:
    """If this failed, an old link would break the sheet."""
    browser = begun()
    for row in ("heard:0", "events:9", "x", "heard:²", "heard:99999999999999999999"):
        assert browser.get(f"/calls/1?change={row}").status_code == 200


def test_every_answer_has_a_key_of_its_own() -> None:
    """If this failed, the tenth answer would need a mouse, or one key would do two things."""
    browser = begun()
    step(browser, choose="wish:renew-chimney")
    page = step(browser, place="0 m")
    keys = re.findall(r'data-key="(.)"', page)
    assert len(re.findall(r'<button name="value" [^>]*data-key=', page)) == 12
    assert len(set(keys)) == len(keys)


def test_where_nothing_is_asked_a_number_chooses_a_way() -> None:
    """If this failed, a dearer way could be chosen with a mouse only."""
    browser = begun("a parchment shade")
    step(browser, choose="wish:add-parchment-shade")
    step(browser, place="0 m")
    page = step(browser, lamp="WH-302")
    assert 'data-key="v2 2"><kbd>2</kbd> Choose way 2</button>' in page
    assert '<a href="/calls/1/out"><kbd>o</kbd> What goes out</a>' in page


def test_the_second_of_two_desks_is_told_and_overwrites_nothing() -> None:
    """If this failed, one adviser would wipe out what another has just written."""
    browser = begun()
    old = version(browser.get("/calls/1").text)
    step(browser, note="she calls back at five")
    late = browser.post("/calls/1/say", {"note": "he has the lamp with him", "version": old})
    assert late.status_code == 409
    assert "Another desk was quicker" in late.text
    assert "he has the lamp with him" in late.text, "what was typed is lost"
    assert "she calls back at five" in browser.get("/calls/1").text


def test_markup_and_sql_in_every_field_are_shown_as_text() -> None:
    """If this failed, a caller's words could act in an adviser's browser or in the store."""
    browser = begun()
    nasty = "<img src=x onerror=alert(1)>'; DROP TABLE calls; --"
    for field in ("words", "note", "place"):
        step(browser, **{field: nasty})
    page = browser.get("/calls/1").text
    assert "<img src=x" not in page
    assert "&lt;img src=x onerror=alert(1)&gt;&#39;; DROP TABLE calls; --" in page


def test_only_the_part_that_changes_is_sent_to_a_live_page() -> None:
    """If this failed, every keystroke would load the whole page anew."""
    browser = begun()
    sent = {"words": "I broke my glass again", "version": version(browser.get("/calls/1").text)}
    sent["form_key"] = browser.form_key()
    headers = {"origin": "http://127.0.0.1:8737", "x-live": "1"}
    answer = browser.client.post("/calls/1/say", data=sent, headers=headers)
    assert answer.status_code == 200
    assert "<html" not in answer.text
    assert 'id="ask"' in answer.text
    assert answer.headers["x-version"] == version(browser.get("/calls/1").text)


def test_a_call_that_is_not_there_is_said_so() -> None:
    """If this failed, a misread number would look like a mistake of the program."""
    page = begun().get("/calls/77")
    assert page.status_code == 404
    assert "There is no call 77" in page.text


def test_a_place_nobody_knows_is_asked_again_and_kept() -> None:
    """If this failed, a misheard town would leave the lamp at no height, without a word."""
    browser = begun()
    step(browser, choose="wish:renew-chimney")
    page = step(browser, place="Nowhere at all")
    assert "&#39;Nowhere at all&#39; is no height and no town that is known" in page
    assert "Where does the lamp stand?" in page
    assert 'value="Nowhere at all"' in page


def test_words_that_mean_nothing_are_said_not_to_be_understood() -> None:
    """If this failed, the adviser would be offered a wish nobody spoke of, or be left alone."""
    page = begun("xyzzy plugh").get("/calls/1").text
    assert "Is this what is meant?" not in page
    assert (
        "This was not understood: the fit book knows none of these words. Ask the caller to say it "
        "otherwise, or choose from all there is:"
    ) in page
    book = demo().book
    every = [*(f"wish:{key}" for key in book.wishes),
             *(f"complaint:{key}" for key in book.calls.complaints)]  # fmt: skip
    assert re.findall(r'<button name="choose" value="([^"]+)"', page) == every


def test_a_way_is_not_the_chosen_one_while_the_lamp_is_open() -> None:
    """If this failed, a parcel for a lamp that is only likely would look settled."""
    browser = begun()
    step(browser, choose="wish:renew-chimney")
    step(browser, place="40 m")
    page = step(browser, look="burner-knob", value="large, four holes")
    assert "Not settled" in page
    assert '<span class="tag">if it is this lamp</span>' in page
    assert ">chosen</span>" not in page
    page = step(browser, lamp="WH-302")
    assert '<span class="tag lit">chosen</span>' in page
    assert "if it is this lamp" not in page


def test_what_was_answered_stands_with_the_question() -> None:
    """If this failed, an adviser would scroll past the drawing to see what the caller said."""
    browser = begun()
    step(browser, choose="wish:renew-chimney")
    step(browser, place="40 m")
    page = step(browser, look="burner-knob", value="large, four holes")
    ask = page.split('<section id="ask"')[1].split("</section>")[0]
    assert "Answered so far" in ask
    assert "What is the knob like? <strong>large, four holes</strong>" in ask
    assert page.count("Answered so far") == 1


def test_what_is_done_carries_the_parts_of_the_way_that_was_chosen() -> None:
    """If this failed, a sheet would take the cheapest way for the one that was sent."""
    browser = begun("It is not bright")
    step(browser, choose="complaint:dim")
    step(browser, asked=list(GUARDS))
    step(browser, place="1900 m", lamp="WH-302")
    page = browser.get("/calls/1").text
    for _ in range(9):
        sign = re.search(r'name="sign" value="([^"]+)"', page)
        if sign is None:
            break
        page = step(browser, sign=sign[1], said="no")
    assert '<input type="hidden" name="put_on" value="GA-2450 CH-3371">' in page
    page = step(browser, route="BU-3210 CH-3371")
    assert '<input type="hidden" name="put_on" value="BU-3210 CH-3371">' in page


def test_a_call_is_found_by_the_parts_it_sends() -> None:
    """If this failed, a part that runs short would not lead to the calls it was promised in."""
    browser = begun()
    step(browser, choose="wish:renew-chimney", lamp="WH-302", place="1700 m")
    assert 'href="/calls/1"' in browser.get("/find?q=CH-3371").text
    assert 'href="/calls/1"' in browser.get("/book/parts/GA-2450").text
    step(browser, place="40 m")
    assert 'href="/calls/1"' not in browser.get("/book/parts/CH-3371").text


def test_a_number_without_a_unit_is_asked_about() -> None:
    """If this failed, feet would be taken for metres without a word."""
    browser = begun()
    step(browser, choose="wish:renew-chimney", lamp="WH-302", place="5200")
    page = browser.get("/calls/1").text
    assert "Metres or feet?" in page
    assert 'name="place" value="5200 ft"' in page


def test_a_danger_keeps_its_number_whatever_else_is_asked() -> None:
    """If this failed, a number pressed for a cracked font would be taken for wrong fuel."""
    browser = begun("my head hurts and it leaks")
    page = browser.get("/calls/1").text
    first = dict(re.findall(r'value="([\w-]+)" data-key="(\d)"', page))
    assert [first[key] for key in ("unwell", "wet-font", "cracked-font")] == ["1", "4", "5"]
    assert "The words speak of it" in page
    step(browser, asked=list(first))
    again = step(browser, words="my head hurts and it leaks. there is a crack in the tank")
    assert re.findall(r'value="([\w-]+)" data-key="(\d)"', again) == [("cracked-font", "5")]


def test_what_was_also_said_becomes_a_call_of_its_own_by_one_key() -> None:
    """If this failed, the second of two wants would be lost with the first."""
    browser = begun("a new wick and the mantle broke")
    step(browser, choose="wish:renew-wick", lamp="WH-302")
    page = step(browser, place="40 m")
    assert "Also said, not dealt with" in page
    sent = {"key": "renew-mantle", "version": version(page)}
    assert browser.post("/calls/1/also", sent).headers["location"] == "/calls/2"
    other = browser.get("/calls/2").text
    assert "Tirrick shelf lamp (WH-302)" in other
    assert "Anna Berg" in other
    assert "Also said, not dealt with" not in browser.get("/calls/1").text
    assert browser.post("/calls/1/also", sent).status_code == 409


def test_a_way_out_says_why_it_buys_what_nobody_asked_for() -> None:
    """If this failed, giving the shade up would still sell a gallery and a glass without a word."""
    browser = begun("I would like a glass shade")
    step(browser, choose="wish:add-glass-shade", lamp="WH-302")
    page = step(browser, place="1890 m")
    assert (
        "As it is: Chimney, quarter-turn 2, standard (CH-2296) is 295.3 mm tall; at 1,890 m Hollin "
        "burner, fine (BU-2200) needs at least 331.9 mm. So any way puts this right too."
    ) in page

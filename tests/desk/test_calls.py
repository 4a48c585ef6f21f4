"""A call as a whole: its trail, handed over, closed, opened again, erased, photographed, found."""

import re
from dataclasses import replace
from urllib.parse import urlencode

import pytest
from tests.support.desks import Browser, Desk, new_desk

from wickwright.answers.plain.answers import Plain
from wickwright.answers.sheet.call_record import Said
from wickwright.cause.dangers import GUARDS
from wickwright.desk.call_photos import media_of

JPEG = b"\xff\xd8\xff\xe0" + bytes(60)
PNG = b"\x89PNG\r\n\x1a\n" + bytes(60)
WEBP = b"RIFF" + bytes(4) + b"WEBP" + bytes(60)
HOSTILE = "<script>alert(1)</script>'\"; DROP TABLE calls; --"


def _with_call(words: str = "It is not bright", **said: str) -> tuple[Desk, Browser]:
    desk = new_desk()
    adviser = desk.logged_in("Tomas")
    adviser.post("/calls", {"words": words, "caller": "Anna Berg", **said})
    return desk, adviser


def test_a_call_handed_over_lies_on_the_other_desk_with_its_note() -> None:
    """If this failed, a call would be lost between two desks."""
    desk, adviser = _with_call()
    sent = {"version": "1", "other_desk": "workshop", "note": "look at the gallery"}
    answer = adviser.post("/calls/1/hand-over", sent)
    assert answer.headers["location"] == "/calls/1/trail?done=handed-over"
    call = desk.state.store.calls.call(1)
    assert call is not None
    assert call.desk == "workshop"
    page = adviser.get("/calls/1/trail?done=handed-over").text
    assert "The call lies on the other desk now." in page
    assert "look at the gallery" in page
    assert "Open at other desks" in adviser.get("/").text


def test_the_note_of_a_hand_over_stands_on_the_sheet_of_the_next_adviser() -> None:
    """If this failed, the next desk would begin without having read what it was told."""
    desk, adviser = _with_call()
    adviser.post("/calls/1/say", {"version": "1", "note": "she calls at five"})
    sent = {"version": "2", "other_desk": "workshop", "note": "look at the gallery"}
    adviser.post("/calls/1/hand-over", sent)
    call = desk.state.store.calls.call(1)
    assert call is not None
    assert (call.desk, call.said.note) == ("workshop", "she calls at five\nlook at the gallery")
    back = {"version": str(call.version), "other_desk": "front", "note": "look at the gallery"}
    adviser.post("/calls/1/hand-over", back)
    again = desk.state.store.calls.call(1)
    assert again is not None
    assert again.said.note == call.said.note


def test_the_trail_says_of_a_list_what_came_and_what_went() -> None:
    """If this failed, a trail would repeat every answer at each step and nobody would read it."""
    desk, adviser = _with_call("I broke my glass")
    adviser.post("/calls/1/say", {"version": "1", "choose": "wish:renew-chimney", "place": "40 m"})
    looks = desk.state.books.in_force().book.calls.looks
    asked = []
    for version in ("2", "3"):
        page = adviser.get("/calls/1").text
        asked.append(page.split('name="look" value="')[1].split('"')[0])
        sent = {"version": version, "look": asked[-1], "value": "don't know"}
        adviser.post("/calls/1/say", sent)
    adviser.post("/calls/1/say", {"version": "4", "drop": "heard:0"})
    steps = adviser.get("/calls/1/trail").text.split('<ol class="trail">')[1].split("</ol>")[0]
    changes = [" ".join(one.split()) for one in re.findall(r"seen of the lamp: (.*)</li>", steps)]
    first, second = (f"{looks[key].question} don&#39;t know" for key in asked)
    assert changes == [first, second, f"<del>{first}</del> taken back"]


@pytest.mark.parametrize("asked", ["1", "call 1", "Find call 1", "Call no. 1", "#1", " call  1 "])
def test_a_call_is_found_by_its_number_however_it_is_said(asked: str) -> None:
    """If this failed, an adviser who is told 'it is call 3' would find nothing."""
    _, adviser = _with_call()
    answer = adviser.get(f"/find?{urlencode({'q': asked})}")
    assert answer.headers.get("location") == "/calls/1"


def test_words_with_a_number_in_them_are_no_number_of_a_call() -> None:
    """If this failed, a search for a part or a year would open a call that has nothing to do."""
    _, adviser = _with_call()
    for asked in ("calls 1", "1 wick", "recall 1"):
        answer = adviser.get(f"/find?{urlencode({'q': asked})}")
        assert answer.status_code == 200, asked


def test_two_who_hand_over_one_call_do_not_overwrite_each_other() -> None:
    """If this failed, the second would undo the first without being told."""
    desk, adviser = _with_call()
    adviser.post("/calls/1/hand-over", {"version": "1", "other_desk": "workshop"})
    answer = desk.logged_in("Ingrid").post(
        "/calls/1/hand-over", {"version": "1", "other_desk": "counter"}
    )
    assert answer.status_code == 409
    assert "Tomas changed call 1 meanwhile" in answer.text
    call = desk.state.store.calls.call(1)
    assert call is not None
    assert call.desk == "workshop"


def _complaint(desk: Desk, complaint: str, lamp: str) -> None:
    calls = desk.state.store.calls
    call = calls.call(1)
    assert call is not None
    said = replace(call.said, complaint=complaint, lamp=lamp)
    calls.save(1, call.version, said, "Tomas", desk.clock())


def test_a_call_is_closed_with_its_causes_and_how_they_are_known() -> None:
    """If this failed, closed calls would teach nothing."""
    desk, adviser = _with_call()
    _complaint(desk, "dim", "DU-401")
    page = adviser.get("/calls/1/trail").text
    causes = re.findall(r'name="cause" value="([^"]+)"', page)
    assert len(causes) > 3
    sent: dict[str, str | list[str]] = {
        "version": "2",
        "outcome": "it burns well",
        "cause": [causes[0], "not in the book"],
        "confirmed": "telephone",
        "note": "new wick",
    }
    assert adviser.post("/calls/1/close", sent).status_code == 303
    call = desk.state.store.calls.call(1)
    assert call is not None
    assert call.closing is not None
    assert call.closing.causes == (causes[0],)
    assert call.closing.confirmed == "telephone"
    page = adviser.get("/calls/1/trail").text
    assert "told on the telephone" in page
    assert "Open it again" in page
    assert desk.state.store.calls.open_calls() == ()


def _preset(page: str, name: str) -> list[str]:
    return re.findall(rf'name="{name}" value="([^"]+)"[^>]* checked', page)


def _high(desk: Desk, *events: dict[str, Plain]) -> None:
    call = desk.state.store.calls.call(1)
    assert call is not None
    none: list[dict[str, Plain]] = [{"danger": one, "said": "no"} for one in GUARDS]
    said = replace(
        call.said,
        complaint="dim",
        place="1900 m",
        elevation=1900.0,
        lamp="WH-302",
        events=(*none, *events),
    )
    desk.state.store.calls.save(1, call.version, said, "Tomas", desk.clock())


def test_the_likeliest_cause_stands_first_and_is_chosen_beforehand() -> None:
    """If this failed, an adviser would pass two dozen boxes in no visible order."""
    desk, adviser = _with_call()
    _high(desk)
    page = adviser.get("/calls/1/trail").text
    folded = page.split("more, less likely</summary>")
    assert re.findall(r'name="cause" value="([^"]+)"', folded[0])[0] == "thin-air"
    assert folded[0].count('name="cause"') == 5
    assert folded[1].count('name="cause"') > 10
    assert _preset(page, "cause") == ["thin-air"]
    assert _preset(page, "outcome") == []
    assert '<option value="not confirmed" selected>' in page


def test_what_cured_the_lamp_is_chosen_beforehand() -> None:
    """If this failed, a call that ended well would be closed with another cause by haste."""
    desk, adviser = _with_call()
    cures = desk.state.books.in_force().book.calls.cures
    remedy = next(one.remedy for one in cures if one.cause == "wick-crusted")
    _high(desk, {"remedy": remedy, "outcome": "it burns well"})
    page = adviser.get("/calls/1/trail").text
    assert _preset(page, "outcome") == ["it burns well"]
    (cause,) = _preset(page, "cause")
    assert cause in {one.cause for one in cures if one.remedy == remedy}


def test_no_cause_is_chosen_beforehand_where_none_is_likely() -> None:
    """If this failed, haste would teach the fit book a cause that nobody has seen."""
    desk, adviser = _with_call()
    _complaint(desk, "dim", "DU-401")
    page = adviser.get("/calls/1/trail").text
    assert _preset(page, "cause") == []
    assert _preset(page, "outcome") == []


def test_a_call_whose_order_went_out_is_closed_as_sent() -> None:
    """If this failed, an adviser would have to say twice what the desk has kept."""
    desk, adviser = _with_call("I broke my glass")
    fields = {"choose": "wish:renew-chimney", "place": "40 m", "lamp": "WH-302"}
    adviser.post("/calls/1/say", {"version": "1", **fields})
    adviser.post("/calls/1/given", {"what": "order"})
    assert _preset(adviser.get("/calls/1/trail").text, "outcome") == ["sent"]
    assert desk.state.store.calls.given(1)


def test_the_causes_offered_are_those_of_this_lamp() -> None:
    """If this failed, an adviser would look for a wick in an electric lamp."""
    desk, adviser = _with_call("it flickers")
    _complaint(desk, "bulb-flickers", "BX-701")
    page = adviser.get("/calls/1/trail").text
    book = desk.state.books.in_force().book
    offered = re.findall(r'name="cause" value="([^"]+)"', page)
    assert offered
    kinds = {book.parts[one].kind for one in book.lamps["BX-701"].as_sold}
    assert all({*book.calls.causes[one].needs} <= kinds for one in offered)


def test_a_call_is_not_closed_without_an_outcome() -> None:
    """If this failed, a call could vanish from the list and nobody knew how it ended."""
    desk, adviser = _with_call()
    for outcome in ("", "it exploded"):
        answer = adviser.post("/calls/1/close", {"version": "1", "outcome": outcome})
        assert answer.status_code == 400
        assert "How did it end?" in answer.text
    assert len(desk.state.store.calls.open_calls()) == 1


def test_a_closed_call_is_opened_again() -> None:
    """If this failed, a lamp that came back would need a new call without its trail."""
    desk, adviser = _with_call()
    adviser.post("/calls/1/close", {"version": "1", "outcome": "sent"})
    assert adviser.post("/calls/1/reopen", {"version": "2"}).status_code == 303
    assert len(desk.state.store.calls.open_calls()) == 1
    assert "The order is sent" not in adviser.get("/").text


def test_a_caller_is_erased_by_a_lead_who_is_sure() -> None:
    """If this failed, a name would stay that its owner wants gone."""
    desk, adviser = _with_call("my broken heirloom")
    adviser.post("/calls/1/photos", files={"photo": ("me.jpg", JPEG, "image/jpeg")})
    lead = desk.logged_in("Ingrid")
    assert "Anna Berg" in lead.get("/calls/1/erase").text
    assert lead.post("/calls/1/erase", {}).status_code == 400
    assert "Anna Berg" in lead.get("/calls/1/trail").text
    assert lead.post("/calls/1/erase", {"sure": "yes"}).status_code == 303
    for path in ("/", "/calls", "/calls/1", "/calls/1/trail", "/find?q=anna", "/ledger"):
        page = lead.get(path).text
        assert "Anna Berg" not in page
        assert "heirloom" not in page
    assert lead.get("/calls/1/photos/1").status_code == 404


# -- photographs ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("body", "media"), [(JPEG, "image/jpeg"), (PNG, "image/png"), (WEBP, "image/webp")]
)
def test_a_photograph_comes_back_as_what_its_bytes_are(body: bytes, media: str) -> None:
    """If this failed, a browser could be made to run what was sent as a picture."""
    _, adviser = _with_call()
    files = {"photo": ("<b>x</b>.html", body, "text/html")}
    assert adviser.post("/calls/1/photos", {"says": HOSTILE}, files=files).status_code == 303
    back = adviser.get("/calls/1/photos/1")
    assert back.content == body
    assert back.headers["content-type"] == media
    assert back.headers["x-content-type-options"] == "nosniff"
    assert re.fullmatch(
        r'inline; filename="call-1-photo-1\.(jpg|png|webp)"', back.headers["content-disposition"]
    )
    page = adviser.get("/calls/1/trail").text
    assert "<script>alert" not in page
    assert "html" not in page.split("Photographs")[1].split("<figcaption>")[0].split("src=")[1]


@pytest.mark.parametrize("body", [b"", b"<html>", b"GIF89a" + bytes(60), b"RIFF" + bytes(60)])
def test_what_is_no_photograph_is_refused(body: bytes) -> None:
    """If this failed, any file could be kept with a call and served again."""
    desk, adviser = _with_call()
    answer = adviser.post("/calls/1/photos", files={"photo": ("x.jpg", body, "image/jpeg")})
    assert answer.status_code == 400
    assert "Not a photograph" in answer.text
    assert media_of(body) == ""
    assert desk.state.store.calls.photos(1) == ()


# -- found again ---------------------------------------------------------------------------------


def test_a_call_is_found_by_number_name_and_words() -> None:
    """If this failed, a caller who rings again would have to tell it all again."""
    _, adviser = _with_call("the mantle goes black")
    assert adviser.get("/find?q=1").headers["location"] == "/calls/1"
    for asked in ("anna", "BERG", "mantle goes"):
        assert "Anna Berg" in adviser.get(f"/find?q={asked}").text
    assert "No call has that number" in adviser.get("/find?q=zeppelin").text


def test_lamps_and_parts_are_found_beside_calls() -> None:
    """If this failed, one box would not be enough to look anything up."""
    _, adviser = _with_call()
    assert "/book/parts/CH-3371" in adviser.get("/find?q=ch-3371").text
    assert "/book/lamps/WH-302" in adviser.get("/find?q=tirrick shelf").text


def test_an_inspector_finds_parts_and_no_caller() -> None:
    """If this failed, callers' names would be shown to people who take no calls."""
    desk, _ = _with_call("the glass broke")
    page = desk.logged_in("Odile").get("/find?q=anna").text
    assert "Anna Berg" not in page
    said = Said(words="the glass broke", lamp="DU-401", route=("CH-3371",))
    desk.state.store.calls.save(1, 1, said, "Tomas", desk.clock())
    assert "In open calls" in desk.logged_in("Tomas").get("/book/parts/CH-3371").text
    assert "Anna Berg" not in desk.logged_in("Odile").get("/book/parts/CH-3371").text


def test_markup_and_sql_in_every_field_is_shown_as_text() -> None:
    """If this failed, a caller's words could act in a browser or on the store."""
    desk = new_desk()
    adviser = desk.logged_in("Tomas")
    adviser.post("/calls", {"words": HOSTILE, "caller": HOSTILE})
    adviser.post(
        "/calls/1/hand-over", {"version": "1", "other_desk": HOSTILE[:40], "note": HOSTILE}
    )
    adviser.post("/calls/1/close", {"version": "2", "outcome": "sent", "note": HOSTILE})
    lead = desk.logged_in("Ingrid")
    lead.post("/people", {"name": HOSTILE[:50], "role": "adviser", "desk": HOSTILE[:50]})
    paths = ["/", "/calls", "/calls/1", "/calls/1/trail", "/calls/1/erase", "/people", "/ledger"]
    paths += [f"/{where}?q={HOSTILE}" for where in ("find", "book")]
    paths += [f"/book/parts/{HOSTILE}", f"/?done={HOSTILE}", f"/login?next={HOSTILE}"]
    for path in paths:
        assert "<script>alert" not in lead.get(path).text, path
    page = lead.get("/calls/1/trail").text
    assert "&lt;script&gt;alert(1)&lt;/script&gt;&#39;&#34;; DROP TABLE calls; --" in page
    assert len(desk.state.store.calls.find("alert")) == 1


def test_a_field_of_one_line_stays_one_line() -> None:
    """If this failed, a pasted break would forge a second line of a letter, a list or a ledger."""
    desk = new_desk()
    adviser = desk.logged_in("Tomas")
    adviser.post("/calls", {"words": "one\ntwo", "caller": "Anna\r\nBerg\x1b[2J"})
    sent = {"version": "1", "caller": "Anna\tB.\x85Berg", "contact": "0555\u20280117",
            "address": "Quay 1\nHarbour"}  # fmt: skip
    adviser.post("/calls/1/caller", sent)
    adviser.post("/calls/1/say", {"version": "2", "place": "Leadville\r\n", "lamp": "WH-302\n"})
    adviser.post("/calls/1/hand-over", {"version": "3", "other_desk": "work\nshop \x00 "})
    kept = desk.state.store.calls.call(1)
    assert kept is not None
    assert (kept.caller.name, kept.caller.contact) == ("Anna B. Berg", "0555 0117")
    assert kept.caller.address == "Quay 1\nHarbour"
    assert (kept.said.words, kept.said.lamp) == ("one\ntwo", "WH-302")
    assert kept.said.place == "Leadville"
    assert kept.desk == "work shop"


def test_a_desk_whose_name_is_nothing_but_breaks_is_no_desk() -> None:
    """If this failed, a call would be handed over to nowhere."""
    desk, adviser = _with_call()
    answer = adviser.post("/calls/1/hand-over", {"version": "1", "other_desk": "\n\x07\t"})
    assert answer.status_code == 400
    assert "To which desk?" in answer.text
    kept = desk.state.store.calls.call(1)
    assert kept is not None
    assert kept.desk == "front"

"""Calls a program hands to the desk: begun once, changed only as they stand."""

from __future__ import annotations

import json
from threading import Event, Thread
from typing import TYPE_CHECKING

from tests.support.desks import new_desk
from tests.support.programs import problem, program

from wickwright.answers.sheet.call_record import Closing

if TYPE_CHECKING:
    from datetime import datetime

    import pytest

    from wickwright.answers.sheet.call_record import Call, Caller, Said
    from wickwright.answers.sheet.desk_store import Calls, Person

SENT = {
    "words": "I broke the glass of my lamp",
    "lamp": "wh-302",
    "place": "1700 m",
    "caller": {"name": "Anna Berg", "contact": "0555 0117"},
}
KEY = {"Idempotency-Key": '"8e03978e"'}


def test_a_call_is_handed_over_and_lies_on_the_desk() -> None:
    """If this failed, a shop's question would be lost on its way to an adviser."""
    asking = program("Tomas")
    made = asking.post("/calls", SENT, KEY)
    assert made.status_code == 201
    assert (made.headers["location"], made.headers["etag"]) == ("/api/v1/calls/1", '"call-1-1"')
    assert made.json() == {
        "call": 1,
        "version": 1,
        "state": "open",
        "desk": "front",
        "revision": asking.desk.state.books.in_force().revision.id,
        "opened": "2031-03-04T09:30:00.000000Z",
        "changed": "2031-03-04T09:30:00.000000Z",
    }
    assert asking.get("/calls/1").json() == {
        **made.json(),
        "words": "I broke the glass of my lamp",
        "lamp": "WH-302",
        "wish": None,
        "complaint": None,
        "place": "1700 m",
        "elevation_m": 1700.0,
        "have": [],
        "lost": [],
        "caller": {"name": "Anna Berg", "contact": "0555 0117", "address": ""},
        "outcome": None,
    }
    assert "Anna Berg" in asking.desk.logged_in("Ingrid").get("/").text


def test_the_same_key_begins_no_second_call() -> None:
    """If this failed, a shop that heard no answer and asked again would have two calls."""
    asking = program("Tomas")
    first, again = asking.post("/calls", SENT, KEY), asking.post("/calls", SENT, KEY)
    bare = asking.post("/calls", SENT, {"Idempotency-Key": "8e03978e"})
    for one in (again, bare):
        assert (one.status_code, one.content) == (201, first.content)
        assert one.headers["etag"] == first.headers["etag"]
        assert one.headers["location"] == first.headers["location"]
    assert len(asking.desk.state.store.calls.open_calls()) == 1


def test_a_key_is_of_one_body_and_of_one_name() -> None:
    """If this failed, one question would be answered with another's number."""
    asking = program("Tomas")
    asking.post("/calls", SENT, KEY)
    assert problem(asking.post("/calls", {**SENT, "words": "another"}, KEY)) == {
        "type": "urn:wickwright:key-reused",
        "title": "This key came with another body before",
        "status": 422,
        "detail": "This key came with another body before: take a new key for a new question.",
        "instance": "/api/v1/calls",
        "errors": [],
    }
    other = program("Ingrid", asking.desk).post("/calls", {**SENT, "words": "another"}, KEY)
    assert other.json()["call"] == 2


def test_a_write_without_a_key_is_refused_with_all_else_that_is_wrong() -> None:
    """If this failed, a retried write could be done twice."""
    asked = problem(program("Tomas").post("/calls", {"lamp": 1}))
    assert (asked["type"], asked["status"]) == ("urn:wickwright:no-key", 400)
    assert [one["pointer"] or one["parameter"] for one in asked["errors"]] == [
        "Idempotency-Key",
        "#/words",
        "#/lamp",
    ]


class _SlowCalls:
    """Calls of a store, of which the first begun takes until it is let go."""

    def __init__(self, calls: Calls) -> None:
        self._calls = calls
        self.begun, self.go = Event(), Event()

    def begin(self, said: Said, caller: Caller, who: Person, revision: str, at: datetime) -> Call:
        self.begun.set()
        assert self.go.wait(10)
        return self._calls.begin(said, caller, who, revision, at)

    def __getattr__(self, name: str) -> object:
        return getattr(self._calls, name)


def test_a_second_write_under_a_key_waits_for_the_first(monkeypatch: pytest.MonkeyPatch) -> None:
    """If this failed, two sends at the same moment would begin two calls."""
    desk = new_desk()
    calls = _SlowCalls(desk.state.store.calls)
    asking = program("Tomas", desk)
    monkeypatch.setattr(desk.state.store, "calls", calls)
    found: list[int] = []
    first = Thread(target=lambda: found.append(asking.post("/calls", SENT, KEY).status_code))
    first.start()
    assert calls.begun.wait(10)
    meanwhile = asking.post("/calls", SENT, KEY)
    calls.go.set()
    first.join()
    assert problem(meanwhile)["type"] == "urn:wickwright:key-running"
    assert meanwhile.headers["retry-after"] == "1"
    assert found == [201]
    assert asking.post("/calls", SENT, KEY).json()["call"] == 1
    assert len(desk.state.store.calls.open_calls()) == 1


def test_nothing_of_a_caller_is_kept_with_the_key() -> None:
    """If this failed, a caller's name would outlive its erasure by a week."""
    asking = program("Tomas")
    asking.post("/calls", SENT, KEY)
    kept = asking.desk.state.store.replies.kept("Tomas\n8e03978e")
    assert kept is not None
    assert "Anna" not in kept.body.decode() + kept.key + kept.print


# -- changes -------------------------------------------------------------------------------------


def test_a_change_needs_the_state_it_is_meant_for() -> None:
    """If this failed, a shop would write over what an adviser has just typed."""
    asking = program("Tomas")
    asking.post("/calls", SENT, KEY)
    bare = problem(asking.ask("PATCH", "/calls/1", {"lamp": "DU-401"}))
    assert (bare["type"], bare["status"]) == ("urn:wickwright:no-if-match", 428)
    first = asking.ask("PATCH", "/calls/1", {"lamp": "DU-401"}, {"If-Match": '"call-1-1"'})
    assert (first.status_code, first.headers["etag"]) == (200, '"call-1-2"')
    assert (first.json()["lamp"], first.json()["words"]) == ("DU-401", SENT["words"])
    stale = asking.ask("PATCH", "/calls/1", {"lamp": "WH-301"}, {"If-Match": '"call-1-1"'})
    assert stale.headers["etag"] == '"call-1-2"'
    assert problem(stale) == {
        "type": "urn:wickwright:stale",
        "title": "The call has been changed meanwhile",
        "status": 412,
        "detail": 'The call has been changed meanwhile: it is at "call-1-2". GET it, put your '
        "change to what stands there, and send that.",
        "instance": "/api/v1/calls/1",
        "errors": [],
    }
    assert asking.get("/calls/1").json()["lamp"] == "DU-401"


def test_a_change_that_stands_there_already_is_no_conflict() -> None:
    """If this failed, a shop that heard no answer would take its own change for another's."""
    asking = program("Tomas")
    asking.post("/calls", SENT, KEY)
    for _ in range(2):
        same = asking.ask("PATCH", "/calls/1", {"lamp": "DU-401"}, {"If-Match": '"call-1-1"'})
        assert (same.status_code, same.headers["etag"]) == (200, '"call-1-2"')


def test_a_stale_change_of_the_caller_changes_nothing() -> None:
    """If this failed, a caller's address could be taken back to an older one."""
    asking = program("Tomas")
    asking.post("/calls", SENT, KEY)
    asking.ask("PATCH", "/calls/1", {"caller": {"contact": "1"}}, {"If-Match": '"call-1-1"'})
    body = {"lamp": "WH-302", "caller": {"contact": "2"}}
    stale = asking.ask("PATCH", "/calls/1", body, {"If-Match": 'W/"x", "call-1-1"'})
    assert stale.status_code == 412
    now = asking.get("/calls/1").json()
    assert now["caller"] == {"name": "Anna Berg", "contact": "1", "address": ""}


def test_what_is_left_out_of_a_change_stays_and_null_takes_away() -> None:
    """If this failed, a change of the lamp would lose the caller's words."""
    asking = program("Tomas")
    asking.post("/calls", {**SENT, "wish": "renew-chimney", "lost": ["chimney"]}, KEY)
    body: dict[str, object] = {"lamp": None, "lost": [], "place": "50 m"}
    now = asking.ask("PATCH", "/calls/1", body, {"If-Match": "*"}).json()
    assert (now["lamp"], now["lost"], now["elevation_m"]) == (None, [], 50.0)
    assert (now["wish"], now["words"]) == ("renew-chimney", SENT["words"])


def test_an_unchanged_call_is_not_sent_again() -> None:
    """If this failed, a shop that waits for an answer would fetch the whole call each time."""
    asking = program("Tomas")
    asking.post("/calls", SENT, KEY)
    assert asking.get("/calls/1", {"If-None-Match": '"call-1-1"'}).status_code == 304
    assert asking.get("/calls/1").headers["cache-control"] == "no-store"


def test_a_closed_call_is_changed_no_more() -> None:
    """If this failed, a shop would write into a call that nobody looks at any more."""
    asking = program("Tomas")
    asking.post("/calls", SENT, KEY)
    store, now = asking.desk.state.store, asking.desk.clock.now
    store.calls.close(1, 1, Closing("sent"), "Ingrid", now)
    refused = asking.ask("PATCH", "/calls/1", {"lamp": "DU-401"}, {"If-Match": "*"})
    assert problem(refused)["type"] == "urn:wickwright:closed"
    assert asking.get("/calls/1").json()["outcome"] == "sent"


def test_unknown_names_begin_no_call() -> None:
    """If this failed, a call would lie on the desk under a lamp that does not exist."""
    asking = program("Tomas")
    body = {**SENT, "lamp": "WH-3O2", "have": ["X"], "place": "Xyzzyx"}
    asked = problem(asking.post("/calls", body, KEY))
    assert [one["pointer"] for one in asked["errors"]] == ["#/lamp", "#/have/0", "#/place"]
    assert asking.desk.state.store.calls.open_calls() == ()
    assert asking.post("/calls", SENT, KEY).status_code == 201


def test_hostile_words_are_refused_or_kept_as_they_are() -> None:
    """If this failed, a caller's words could break the store or a page."""
    asking = program("Tomas")
    nul = asking.client.post(
        "/api/v1/calls",
        content=json.dumps({"words": "a\0b"}).encode(),
        headers={**KEY, "content-type": "application/json"},
    )
    assert nul.status_code == 422
    words = "'; DROP TABLE calls; -- <script>alert(1)</script> \u202e\U0001f525"
    asking.post("/calls", {"words": words}, KEY)
    assert asking.get("/calls/1").json()["words"] == words


def test_fields_of_one_line_stay_one_line() -> None:
    """If this failed, a shop could send a name that forges lines of a letter."""
    asking = program("Tomas")
    caller = {"name": "Anna\r\nBerg", "contact": "0555\t0117\u001b", "address": "Quay 1\nHarbour"}
    asking.post("/calls", {**SENT, "place": "1700 m\n", "caller": caller}, KEY)
    found = asking.get("/calls/1").json()
    assert found["caller"] == {
        "name": "Anna Berg",
        "contact": "0555 0117",
        "address": "Quay 1\nHarbour",
    }
    assert found["place"] == "1700 m"
    tag = {"If-Match": "*"}
    changed = asking.ask("PATCH", "/calls/1", {"caller": {"name": "A.\u2028Berg"}}, tag)
    assert changed.json()["caller"]["name"] == "A. Berg"

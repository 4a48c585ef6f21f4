"""Who may ask the interface, and what a cookie alone may not do."""

from __future__ import annotations

import re
from dataclasses import replace
from hashlib import sha256

import pytest
from tests.support.desks import ORIGIN, new_desk
from tests.support.programs import Program, problem, program

CALL = {"words": "a question"}
KEY = {"Idempotency-Key": "k"}


def test_without_a_token_only_a_desk_of_one_answers() -> None:
    """If this failed, anyone on the network could read the book and the stock."""
    asked = Program(new_desk()).get("/book")
    assert asked.headers["www-authenticate"] == 'Bearer realm="wickwright"'
    assert problem(asked) == {
        "type": "urn:wickwright:nobody",
        "title": "Nobody is known by this request",
        "status": 401,
        "detail": "Send a token, which a lead gives out: 'Authorization: Bearer ...'.",
        "instance": "/api/v1/book",
        "errors": [],
    }
    assert program().get("/book").status_code == 200
    assert program("Ravi").get("/book").status_code == 200


@pytest.mark.parametrize("method", ["GET", "POST"])
def test_a_token_of_nobody_is_refused_and_noted(method: str) -> None:
    """If this failed, guessing tokens would leave no trace."""
    desk = new_desk()
    path, body = {"GET": ("/book", None), "POST": ("/baskets", {"lines": [{"part": "x"}]})}[method]
    asked = Program(desk, "guessed").ask(method, path, body)
    assert asked.status_code == 401
    assert asked.headers["www-authenticate"] == ('Bearer realm="wickwright", error="invalid_token"')
    assert desk.state.store.ledger.newest()[0].what == "a token that is of nobody"


def test_a_token_is_kept_as_its_hash_only() -> None:
    """If this failed, who reads the store could ask in anybody's name."""
    asking = program("Tomas")
    people = asking.desk.state.store.people
    assert people.session(asking.token) is None
    assert asking.token not in repr(vars(people))


def test_a_token_ends_when_unused_when_old_and_when_its_owner_leaves() -> None:
    """If this failed, a token in a forgotten shop would open the desk for ever."""
    asking = program("Tomas")
    asking.desk.clock.on(days=29)
    assert asking.get("/book").status_code == 200
    asking.desk.clock.on(days=29)
    assert asking.get("/book").status_code == 200
    asking.desk.clock.on(days=31)
    assert asking.get("/book").status_code == 401
    old = program("Tomas")
    for _ in range(13):
        assert old.get("/book").status_code == 200
        old.desk.clock.on(days=29)
    assert old.get("/book").status_code == 401
    left = program("Tomas")
    people, now = left.desk.state.store.people, left.desk.clock.now
    person = people.person("Tomas")
    assert person is not None
    people.put(replace(person, active=False), "Ingrid", now)
    assert left.get("/book").status_code == 401


def test_a_token_opens_no_page_and_a_cookie_is_no_token() -> None:
    """If this failed, a leaked token could be used as a log-in, with a form key that is known."""
    asking = program("Tomas")
    browser = asking.desk.browser()
    browser.client.cookies.set("wickwright", asking.token)
    assert browser.get("/").status_code == 303
    assert asking.get("/book").status_code == 200
    adviser = asking.desk.logged_in("Tomas")
    cookie = adviser.client.cookies["wickwright"]
    assert Program(asking.desk, cookie).get("/book").status_code == 401


def test_a_cookie_reads_but_changes_nothing_without_the_page_s_key() -> None:
    """If this failed, a page elsewhere could hand in calls in an adviser's name."""
    desk = new_desk()
    browser = desk.logged_in("Tomas")
    client, key = browser.client, browser.form_key()
    assert client.get("/api/v1/book").status_code == 200
    for headers in (
        {},
        {"Origin": ORIGIN},
        {"X-Form-Key": key},
        {"Origin": "http://elsewhere.test", "X-Form-Key": key},
        {"Origin": ORIGIN, "X-Form-Key": "guessed"},
    ):
        refused = client.post("/api/v1/calls", json=CALL, headers={**KEY, **headers})
        assert problem(refused)["type"] == "urn:wickwright:not-yours"
    ours = client.post(
        "/api/v1/calls", json=CALL, headers={**KEY, "Origin": ORIGIN, "X-Form-Key": key}
    )
    assert ours.status_code == 201
    assert len(desk.state.store.calls.open_calls()) == 1


def test_at_a_desk_of_one_a_page_elsewhere_is_refused() -> None:
    """If this failed, any page open at the same machine could hand in calls."""
    asking = program()
    elsewhere = asking.post("/calls", CALL, {**KEY, "Origin": "http://elsewhere.test"})
    assert problem(elsewhere)["type"] == "urn:wickwright:not-yours"
    assert asking.post("/calls", CALL, KEY).status_code == 201


def test_a_token_sees_only_what_was_begun_under_its_name() -> None:
    """If this failed, one shop could read another's callers."""
    own = program("Tomas")
    own.post("/calls", CALL, KEY)
    other = program("Ingrid", own.desk)
    for asked in (
        other.get("/calls/1"),
        other.ask("PATCH", "/calls/1", {"lamp": "WH-302"}, {"If-Match": "*"}),
        other.get("/calls/2"),
    ):
        assert problem(asked)["detail"] == (
            "There is no such call, or it was not handed in under this name."
        )
    assert own.desk.logged_in("Ingrid").get("/api/v1/calls/1").status_code == 200


def test_other_roles_see_no_call() -> None:
    """If this failed, callers' addresses would be open to people who have no need of them."""
    own = program("Tomas")
    own.post("/calls", CALL, KEY)
    for name in ("Odile", "Ravi"):
        for asked in (
            program(name, own.desk).get("/calls/1"),
            program(name, own.desk).post("/calls", CALL, {"Idempotency-Key": "other"}),
            own.desk.logged_in(name).get("/api/v1/calls/1"),
        ):
            assert problem(asked)["type"] == "urn:wickwright:not-yours"


def test_a_lead_gives_out_a_token_once_and_it_works() -> None:
    """If this failed, no program could ever ask, or nobody would know who let it."""
    desk = new_desk()
    page = desk.logged_in("Ingrid").post("/people/token", {"name": "tomas"})
    found = re.search(r"<p><code>([^<]+)</code></p>", page.text)
    assert found, page.text
    asking = Program(desk, found[1])
    assert asking.post("/calls", CALL, KEY).json()["desk"] == "front"
    assert desk.state.store.calls.trail(1)[0].who == "Tomas"
    line = desk.state.store.ledger.newest(1)[0]
    assert (line.who, line.what, line.where) == (
        "Ingrid",
        "a token for programs was given out",
        f"Tomas, token {sha256(found[1].encode()).hexdigest()[:8]}",
    )


def listed(page: str) -> dict[str, str]:
    """Return the tokens on the page of people: each row by what is sent to end it."""
    rows = re.findall(r"<tr><th scope=.row.><code>.*?</tr>", page)
    return {re.findall(r'name="key" value="([^"]+)"', row)[0]: row for row in rows}


def test_a_lead_ends_one_token_and_the_other_goes_on() -> None:
    """If this failed, a token that leaked could be ended only by shutting its owner out."""
    desk = new_desk()
    leaked, kept = program("Tomas", desk=desk), program("Tomas", desk=desk)
    lead = desk.logged_in("Ingrid")
    key = sha256(leaked.token.encode()).hexdigest()
    assert key in listed(lead.get("/people").text)
    answer = lead.post("/people/token/end", {"name": "Tomas", "key": key})
    assert (answer.status_code, answer.headers["location"]) == (303, "/people?done=token")
    assert problem(leaked.get("/book")) == {
        "type": "urn:wickwright:nobody",
        "title": "Nobody is known by this request",
        "status": 401,
        "detail": "The token is of nobody, or it has ended: have a lead give out a new one.",
        "instance": "/api/v1/book",
        "errors": [],
    }
    assert kept.get("/book").status_code == 200
    assert desk.logged_in("Tomas").get("/").status_code == 200
    assert [*listed(lead.get("/people").text)] == [sha256(kept.token.encode()).hexdigest()]
    line = next(one for one in desk.state.store.ledger.newest() if "ended" in one.what)
    assert (line.who, line.what) == ("Ingrid", "a token for programs was ended")
    assert line.where == f"Tomas, token {key[:8]}"


def test_tokens_are_listed_with_when_they_were_last_used() -> None:
    """If this failed, nobody could tell a token in use from a forgotten one."""
    desk = new_desk()
    asking = program("Tomas", desk=desk)
    lead = desk.logged_in("Ingrid")
    (row,) = listed(lead.get("/people").text).values()
    assert "<td>not used yet</td>" in row
    assert asking.token not in row
    desk.clock.on(hours=5)
    assert asking.get("/book").status_code == 200
    lead = desk.logged_in("Ingrid")
    (row,) = listed(lead.get("/people").text).values()
    assert "2031-03-04 14:30 UTC</time> (just now)" in row
    desk.clock.on(days=31)
    assert listed(desk.logged_in("Ingrid").get("/people").text) == {}


@pytest.mark.parametrize("whose", ["Ravi", "Tomas"])
def test_what_is_no_token_of_that_person_is_not_ended(whose: str) -> None:
    """If this failed, a slip of the mouse would end another's token, or somebody's log-in."""
    desk = new_desk()
    asking = program("Tomas", desk=desk)
    lead, adviser = desk.logged_in("Ingrid"), desk.logged_in("Tomas")
    cookie = sha256(adviser.client.cookies["wickwright"].encode()).hexdigest()
    key = {"Ravi": sha256(asking.token.encode()).hexdigest(), "Tomas": cookie}[whose]
    answer = lead.post("/people/token/end", {"name": whose, "key": key})
    assert answer.status_code == 400
    assert "There is no such token." in answer.text
    assert asking.get("/book").status_code == 200
    assert adviser.get("/").status_code == 200


def test_no_token_is_given_out_in_the_name_of_one_who_is_shut_out() -> None:
    """If this failed, somebody who left could still be asked for by a program."""
    desk = new_desk()
    people = desk.state.store.people
    person = people.person("Tomas")
    assert person is not None
    people.put(replace(person, active=False), "Ingrid", desk.clock.now)
    assert desk.logged_in("Ingrid").post("/people/token", {"name": "Tomas"}).status_code == 400

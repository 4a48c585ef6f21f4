"""What stands before every page: names, sizes, headers, and refusals in plain words."""

from collections.abc import Iterator

import pytest
from fastapi import FastAPI
from starlette.testclient import TestClient
from tests.support.desks import HOST, ORIGIN, new_desk

from wickwright.desk.app import desk_app


def test_a_name_that_is_not_the_desk_s_is_refused_and_noted() -> None:
    """If this failed, a page elsewhere could reach the desk under a name of its own."""
    desk = new_desk(single="Mari")
    answer = desk.browser().get("/", host="evil.test:8737")
    assert answer.status_code == 421
    assert answer.text == (
        "This desk does not answer to that name. Open it by the address it printed when it was "
        "started, or start it with --name and the name you use.\n"
    )
    assert desk.state.store.ledger.newest(1)[0].what == "a name this desk does not answer to"


def test_every_answer_carries_the_headers_that_shut_other_pages_out() -> None:
    """If this failed, a browser would let foreign pages frame, sniff or feed the desk."""
    browser = new_desk().logged_in("Tomas")
    for path in ("/", "/nowhere", "/static/desk.css", "/calls/1/trail"):
        headers = browser.get(path).headers
        assert headers["content-security-policy"] == (
            "default-src 'self'; object-src 'none'; base-uri 'none'; frame-ancestors 'none'; "
            "form-action 'self'"
        )
        assert headers["x-content-type-options"] == "nosniff"
        assert headers["referrer-policy"] == "same-origin"
        assert headers["cross-origin-opener-policy"] == "same-origin"
        assert "strict-transport-security" not in headers


def test_a_page_is_kept_by_no_browser_and_a_file_by_its_version() -> None:
    """If this failed, a caller's name would lie in a browser's cache, or old scripts would run."""
    browser = new_desk().logged_in("Tomas")
    assert browser.get("/").headers["cache-control"] == "no-store"
    assert browser.get("/static/keys.js").headers["cache-control"] == "no-cache"
    kept = browser.get("/static/keys.js?v=1").headers["cache-control"]
    assert kept == "max-age=31536000, immutable"


def test_a_form_too_large_is_refused_unread() -> None:
    """If this failed, anybody could fill the desk's memory."""
    desk = new_desk()
    browser = desk.logged_in("Tomas")
    answer = browser.post("/calls", {"words": "x" * 300_000})
    assert answer.status_code == 413
    assert "That is too large" in answer.text
    assert desk.state.store.calls.open_calls() == ()
    assert desk.state.store.ledger.newest(1)[0].what == "a body too large"


def test_twenty_megabytes_are_refused_where_eight_are_the_most() -> None:
    """If this failed, an upload could be as large as the machine."""
    desk = new_desk()
    browser = desk.logged_in("Tomas")
    browser.post("/calls", {"words": "x"})
    photo = ("p.jpg", b"\xff\xd8\xff" + bytes(20_000_000), "image/jpeg")
    assert browser.post("/calls/1/photos", files={"photo": photo}).status_code == 413
    assert desk.state.store.calls.photos(1) == ()


def test_a_body_of_untold_length_stops_where_it_grows_too_large() -> None:
    """If this failed, leaving out the length would get around the limit."""
    desk = new_desk()
    browser = desk.logged_in("Tomas")
    sent = 0

    def pieces() -> Iterator[bytes]:
        nonlocal sent
        for _ in range(100):
            sent += 100_000
            yield b"words=" + b"x" * 100_000

    answer = browser.client.post(
        "/calls",
        content=pieces(),
        headers={"origin": ORIGIN, "content-type": "application/x-www-form-urlencoded"},
    )
    assert answer.status_code == 413


def _with_a_fault() -> FastAPI:
    app = desk_app(new_desk(single="Mari").state)

    @app.get("/fails")
    def fails() -> None:
        msg = "a secret of the inside"
        raise RuntimeError(msg)

    return app


def test_a_mistake_of_ours_shows_nothing_of_the_inside() -> None:
    """If this failed, an error page would tell a stranger how the program is built."""
    app = _with_a_fault()
    client = TestClient(app, base_url=ORIGIN)
    answer = client.get("/fails")
    assert answer.status_code == 500
    assert "A mistake of ours" in answer.text
    assert "secret" not in answer.text
    assert "Traceback" not in answer.text
    assert answer.headers["x-content-type-options"] == "nosniff"


@pytest.mark.parametrize(
    ("method", "path", "status", "says"),
    [
        ("GET", "/nowhere", 404, "There is no such page"),
        ("GET", "/calls/77/trail", 404, "There is no call 77"),
        ("GET", "/calls/abc/trail", 404, "There is no such page"),
        ("GET", "/calls/99999999999999999999/trail", 404, "There is no call"),
        ("GET", "/book/parts/CH-9999", 404, "There is no part CH-9999 in this fit book"),
        ("GET", "/book?revision=x", 404, "There is no such revision"),
        ("GET", "/book/lamps/BX-701/charts/height.svg", 404, "There is no such chart"),
        ("PUT", "/calls", 405, "Not this way"),
    ],
)
def test_an_error_is_a_page_that_says_what_to_do(
    method: str, path: str, status: int, says: str
) -> None:
    """If this failed, an adviser with a caller on the line would meet a bare error."""
    browser = new_desk().logged_in("Tomas")
    answer = browser.client.request(method, path, headers={"host": HOST, "origin": ORIGIN})
    assert answer.status_code == status
    assert f"<h1>{says}" in answer.text
    assert 'href="/"' in answer.text


def test_a_machine_meets_a_problem_in_place_of_a_page() -> None:
    """If this failed, a web shop would have to read HTML to learn what is wrong."""
    answer = new_desk(single="Mari").browser().get("/api/v1/nowhere")
    assert answer.status_code == 404
    assert answer.headers["content-type"] == "application/problem+json"

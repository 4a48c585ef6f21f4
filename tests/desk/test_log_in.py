"""Who is let in, for how long, and who has to wait."""

import subprocess
import sys
from dataclasses import replace
from http.cookies import SimpleCookie

import pytest
from tests.support.desks import ORIGIN, PASSWORD, Browser, Desk, new_desk

from wickwright.desk.log_in import MOST_BY_ADDRESS, MOST_BY_NAME, WINDOW
from wickwright.desk.passwords import Passwords, once, what_is_wrong
from wickwright.desk.people_here import session_key


def _try(browser: Browser, name: str, password: str) -> int:
    sent = {"name": name, "password": password}
    return browser.post("/login", sent, key=False).status_code


def test_a_wrong_password_and_an_unknown_name_are_told_alike() -> None:
    """If this failed, a stranger could learn who works here."""
    browser = new_desk().browser()
    pages = [
        browser.post("/login", {"name": name, "password": "no"}, key=False)
        for name in ("Tomas", "Nobody")
    ]
    assert [page.status_code for page in pages] == [403, 403]
    assert pages[0].text.replace("Tomas", "") == pages[1].text.replace("Nobody", "")
    assert "Name and password do not belong together." in pages[0].text


def test_the_cookie_is_out_of_reach_of_scripts_and_other_sites() -> None:
    """If this failed, a script or another site could use somebody's session."""
    desk = new_desk()
    answer = desk.browser().post("/login", {"name": "tomas", "password": PASSWORD}, key=False)
    cookie = SimpleCookie(answer.headers["set-cookie"])["wickwright"]
    assert cookie["httponly"]
    assert cookie["samesite"] == "lax"
    assert cookie["path"] == "/"
    assert cookie["domain"] == ""
    assert desk.state.store.people.session(cookie.value) is None
    kept = desk.state.store.people.session(session_key(cookie.value))
    assert kept is not None
    assert kept.person == "Tomas"


def test_over_https_the_cookie_is_bound_to_this_very_host() -> None:
    """If this failed, a neighbour under the same domain could plant a session."""
    desk = new_desk()
    settings = replace(desk.state.settings, tls=True)
    safe = Desk(replace(desk.state, settings=settings), desk.clock).browser()
    safe.client.base_url = ORIGIN.replace("http:", "https:")
    sent = {"name": "Tomas", "password": PASSWORD}
    assert safe.post("/login", sent, key=False).status_code == 403
    answer = safe.post("/login", sent, key=False, origin=ORIGIN.replace("http:", "https:"))
    assert answer.headers["set-cookie"].startswith("__Host-wickwright=")
    assert answer.headers["set-cookie"].endswith("HttpOnly; Path=/; SameSite=lax; Secure")
    assert answer.headers["strict-transport-security"] == "max-age=31536000"
    dropped = desk.browser().client.get("/", headers={"cookie": "__Host-wickwright=x"})
    assert "set-cookie" not in dropped.headers


def test_each_log_in_has_a_token_of_its_own_and_ends_the_one_before() -> None:
    """If this failed, a token planted beforehand would let a stranger in."""
    browser = new_desk().logged_in("Tomas")
    first = browser.client.cookies["wickwright"]
    assert _try(browser, "Tomas", PASSWORD) == 303
    assert browser.client.cookies["wickwright"] != first
    browser.client.cookies.clear()
    browser.client.cookies["wickwright"] = first
    assert browser.get("/").headers["location"] == "/login"


def test_logging_out_ends_the_session_in_the_store() -> None:
    """If this failed, a cookie copied before would still let somebody in."""
    browser = new_desk().logged_in("Tomas")
    token = browser.client.cookies["wickwright"]
    assert browser.post("/logout").headers["location"] == "/login?done=logged-out"
    browser.client.cookies["wickwright"] = token
    assert browser.get("/").status_code == 303


def test_a_tampered_cookie_lets_nobody_in_is_dropped_and_noted() -> None:
    """If this failed, somebody could guess at sessions unseen."""
    desk = new_desk()
    browser = desk.logged_in("Tomas")
    token = browser.client.cookies["wickwright"]
    browser.client.cookies.clear()
    answer = browser.get("/calls/1/trail", cookie=f"wickwright={token}x")
    assert answer.headers["location"] == "/login?next=%2Fcalls%2F1%2Ftrail"
    assert 'wickwright=""' in answer.headers["set-cookie"]
    assert desk.state.store.ledger.newest(1)[0].what == "a cookie that is of no session"


@pytest.mark.parametrize(("hours", "uses"), [(4.1, 1), (1.0, 15)])
def test_a_session_ends_when_it_is_not_used_and_after_a_day_s_work(hours: float, uses: int) -> None:
    """If this failed, a desk left open overnight would be anybody's."""
    desk = new_desk()
    browser = desk.logged_in("Tomas")
    seen = []
    for _ in range(uses):
        desk.clock.on(hours=hours)
        seen.append(browser.get("/keys").status_code)
    assert seen[-1] == 303
    assert seen[:-1] == [200] * (uses - 1)


def test_after_a_few_failures_even_the_right_password_has_to_wait() -> None:
    """If this failed, passwords could be tried without end."""
    desk = new_desk()
    browser = desk.browser()
    for _ in range(MOST_BY_NAME):
        assert _try(browser, "Tomas", "no") == 403
    assert _try(browser, "TOMAS", PASSWORD) == 429
    assert desk.state.store.ledger.newest(1)[0].what == "too many log-ins that failed"
    assert _try(browser, "Ingrid", PASSWORD) == 303
    desk.clock.on(seconds=WINDOW.total_seconds() + 1)
    assert _try(browser, "Tomas", PASSWORD) == 303


def test_one_address_cannot_try_many_names() -> None:
    """If this failed, one guess at each of a thousand names would go unnoticed."""
    browser = new_desk().browser()
    for at in range(MOST_BY_ADDRESS):
        assert _try(browser, f"name {at}", "no") == 403
    assert _try(browser, "Ingrid", PASSWORD) == 429


@pytest.mark.parametrize(
    ("wanted", "goes"),
    [
        ("/calls/3", "/calls/3"),
        ("https://evil.test/", "/"),
        ("//evil.test/", "/"),
        ("/.//evil.test/", "/"),
        ("/\\evil.test", "/"),
        ("javascript:alert(1)", "/"),
        ("", "/"),
    ],
)
def test_after_logging_in_one_stays_at_the_desk(wanted: str, goes: str) -> None:
    """If this failed, a link could log somebody in and send them to a stranger's page."""
    sent = {"name": "Tomas", "password": PASSWORD, "next": wanted}
    answer = new_desk().browser().post("/login", sent, key=False)
    assert answer.headers["location"] == goes


def test_a_foreign_page_cannot_log_somebody_in() -> None:
    """If this failed, a victim could be made to work under an attacker's name."""
    sent = {"name": "Tomas", "password": PASSWORD}
    browser = new_desk().browser()
    assert browser.post("/login", sent, key=False, origin="null").status_code == 403
    assert browser.post("/login", sent, key=False, origin=ORIGIN).status_code == 303


# -- passwords -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("password", "says"),
    [
        ("seven77", "The password has 7 letters: it needs at least 8, better 15."),
        (
            "Password123",
            "The password is easy to guess: take some words that do not go together.",
        ),
        (
            "abababababab",
            "The password is easy to guess: take some words that do not go together.",
        ),
        (
            "Qwertzuiop!",
            "The password is easy to guess: take some words that do not go together.",
        ),
        (
            "dragonfly1984",
            "The password is easy to guess: take some words that do not go together.",
        ),
        (
            "Wickwright1",
            "The password is easy to guess: take some words that do not go together.",
        ),
        (
            "my name is tomas",
            "The password holds your name: take one that nobody can guess from it.",
        ),
        ("x" * 100 + "yz" * 60, "The password has 220 letters: the most is 200."),
        ("heron under the eaves", ""),
        ("heron under the eaves " * 9, ""),
        ("Ünder 7 Ädern", ""),
    ],
)
def test_a_password_that_is_guessed_first_is_refused(password: str, says: str) -> None:
    """If this failed, the desk could be opened with the first password anybody tries."""
    assert what_is_wrong(password, "Tomas") == says


def test_the_lists_of_passwords_are_loaded_where_one_is_chosen_alone() -> None:
    """If this failed, a desk would start a tenth of a second later for nothing."""
    code = (
        "import sys\nimport wickwright.desk.app\nbefore = 'zxcvbn' in sys.modules\n"
        "from wickwright.desk.passwords import what_is_wrong\nwhat_is_wrong('heron eaves', '')\n"
        "print(before, 'zxcvbn' in sys.modules)"
    )
    found = subprocess.run(  # noqa: S603 - our own program
        [sys.executable, "-c", code], capture_output=True, text=True, check=True
    )
    assert found.stdout.split() == ["False", "True"]


def test_what_is_kept_of_a_password_is_argon2id_at_the_price_advised() -> None:
    """If this failed, a stolen store would give its passwords away for little.

    OWASP Password Storage Cheat Sheet: Argon2id with 19 MiB, 2 iterations, 1 lane (from memory,
    page not seen).
    """
    kept = Passwords().hashed("heron under the eaves")
    assert kept.startswith("$argon2id$v=19$m=19456,t=2,p=1$")
    assert not once(kept)


def test_a_secret_lets_in_once_and_only_to_choose_a_password() -> None:
    """If this failed, a secret read out on the telephone would stay a password."""
    desk = new_desk()
    lead = desk.logged_in("Ingrid")
    page = lead.post("/people", {"name": "Wren", "role": "adviser", "desk": "back"})
    secret = page.text.split('<code class="secret">')[1].split("</code>")[0]
    wren = desk.browser()
    assert _try(wren, "Wren", secret) == 303
    assert wren.get("/").headers["location"] == "/account"
    assert wren.get("/book").headers["location"] == "/account"
    key = wren.form_key("/account")
    new = "heron under the eaves"
    sent = {"old": secret, "new": new, "again": new, "form_key": key}
    assert wren.post("/account", sent, key=False).headers["location"] == "/?done=password"
    assert wren.get("/").status_code == 200
    assert _try(desk.browser(), "Wren", secret) == 403
    assert _try(desk.browser(), "Wren", new) == 303


@pytest.mark.parametrize(
    ("old", "new", "again", "says"),
    [
        ("no", "heron eaves", "heron eaves", "The present password is another."),
        (PASSWORD, "heron eaves", "heron heaves", "The new password was typed in two ways."),
        (PASSWORD, PASSWORD, PASSWORD, "The new password is the old one. Take another."),
        (PASSWORD, "short", "short", "The password has 5 letters"),
    ],
)
def test_a_password_is_changed_only_with_the_present_one(
    old: str, new: str, again: str, says: str
) -> None:
    """If this failed, an unwatched screen would be enough to take somebody's account."""
    desk = new_desk()
    browser = desk.logged_in("Tomas")
    answer = browser.post("/account", {"old": old, "new": new, "again": again})
    assert answer.status_code == 400
    assert says in answer.text
    assert _try(desk.browser(), "Tomas", PASSWORD) == 303

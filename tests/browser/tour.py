"""A lead at a desk who shows each of its pages in each of its states."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from io import BytesIO
from typing import TYPE_CHECKING
from zipfile import ZipFile

from tests.support.desks import PASSWORD, demo_tables

from wickwright.answers.sheet.call_record import Caller, Closing, Said
from wickwright.answers.sheet.desk_store import Person, Role
from wickwright.desk.api_access import new_token

if TYPE_CHECKING:
    from collections.abc import Callable

    from playwright.sync_api import Page
    from tests.support.open_desks import OpenDesk

__all__ = ["LEAD", "STATES", "State", "Tour", "log_in"]

LEAD = "Ingrid"
_WHO = Person(LEAD, Role.LEAD, "front", "")
_ANNA = Caller("Anna Berg", "+1 555 0101", "7 Harbour Row")
_MOST = 16


def log_in(page: Page, name: str = LEAD) -> None:
    """Log somebody in."""
    page.goto("/login")
    page.get_by_label("Name").fill(name)
    page.get_by_label("Password").fill(PASSWORD)
    page.keyboard.press("Enter")
    page.wait_for_url(lambda url: "/login" not in url)


@dataclass(frozen=True)
class Tour:
    """A page and the desk it shows.

    Attributes
    ----------
    desk : OpenDesk
        The desk.
    page : Page
        The page.
    """

    desk: OpenDesk
    page: Page

    def go(self, path: str) -> None:
        """Open a page."""
        self.page.goto(path)

    def begin(self, said: Said | None = None, revision: str = "") -> int:
        """Begin a call."""
        state = self.desk.state
        under = revision or state.books.in_force().revision.id
        call = state.store.calls.begin(said or Said(), _ANNA, _WHO, under, state.clock())
        return call.number

    def sheet(self, said: Said | None = None, **steps: str) -> int:
        """Open the sheet of a new call, and take steps on it."""
        number = self.begin(said)
        if steps:
            self.say(number, **steps)
        self.go(f"/calls/{number}")
        return number

    def say(self, number: int, **fields: str | list[str]) -> None:
        """Send a step of a call as its form does."""
        call = self.desk.state.store.calls.call(number)
        assert call is not None
        self.post(f"/calls/{number}/say", version=str(call.version), **fields)

    def post(self, path: str, **fields: str | list[str]) -> None:
        """Send a form, and stay where we are."""
        self.page.evaluate(
            """async ([path, fields]) => {
              const key = document.querySelector("meta[name=form-key]").content;
              const body = new URLSearchParams([...fields, ["form_key", key]]);
              const answer = await fetch(path, {method: "POST", body});
              if (!answer.ok) throw new Error(`${answer.status}: ${await answer.text()}`);
            }""",
            [path, [(name, one) for name, texts in fields.items() for one in _many(texts)]],
        )

    def asked_for(self, words: str) -> None:
        """Answer with what is not known until a question of these words stands there."""
        for _ in range(_MOST):
            if re.search(words, self.page.locator("#ask-head").inner_text()):
                return
            version = self.page.locator("#said input[name=version]")
            before = version.input_value()
            self.page.keyboard.press("d")
            self.page.wait_for_function(
                "before => document.querySelector('#said input[name=version]').value !== before",
                arg=before,
            )
        raise AssertionError(self.page.locator("#ask-head").inner_text())


def _many(texts: str | list[str]) -> list[str]:
    return texts if isinstance(texts, list) else [texts]


# -- states of the call sheet --------------------------------------------------------------------

_DIM = Said(words="It is not bright any more", complaint="dim")
_HIGH = replace(_DIM, place="1900 m", elevation=1900.0, lamp="WH-302")
_GLASS = Said(words="I broke my glass", wish="renew-chimney")
_LOW = replace(_GLASS, place="40 m", elevation=40.0)
_SHADE = Said(words="A shade", place="0 m", elevation=0.0, lamp="WH-302")


def _no_danger(tour: Tour) -> None:
    tour.page.keyboard.press("n")
    tour.page.wait_for_selector(".ask:not(.ask-dangers)")


def _alarm(tour: Tour) -> None:
    tour.sheet(_DIM)
    tour.page.keyboard.press("1")
    tour.page.keyboard.press("n")
    tour.page.wait_for_selector(".alarm")


def _sign(tour: Tour) -> None:
    tour.sheet(_HIGH)
    _no_danger(tour)
    tour.page.wait_for_selector(".ask-sign")


def _act(tour: Tour) -> None:
    _sign(tour)
    for _ in range(_MOST):
        if tour.page.locator(".ask-act").count():
            return
        title = tour.page.locator("#ask-head").inner_text()
        tour.page.keyboard.press("2")
        tour.page.wait_for_function(
            "title => document.querySelector('#ask-head').innerText !== title", arg=title
        )
    raise AssertionError(tour.page.locator("#ask").inner_text())


def _it_burns_well(tour: Tour) -> None:
    _act(tour)
    tour.page.keyboard.press("1")
    tour.page.wait_for_selector("#ask-head:text('It burns well')")


def _measured(tour: Tour) -> None:
    tour.sheet(replace(_LOW, wish="add-shade"))
    for _ in range(_MOST):
        if tour.page.locator("#length").count():
            return
        title = tour.page.locator("#ask-head").inner_text()
        tour.page.keyboard.press("d")
        tour.page.wait_for_function(
            "title => document.querySelector('#ask-head').innerText !== title", arg=title
        )
    raise AssertionError(tour.page.locator("#ask").inner_text())


def _faults(tour: Tour) -> None:
    tour.sheet(_GLASS)
    tour.page.get_by_label("Lamp", exact=True).fill("WX-1")
    tour.page.wait_for_selector("#faults")


def _conflict(tour: Tour) -> None:
    number = tour.sheet(_GLASS)
    tour.say(number, note="she calls back at five")
    tour.page.get_by_label("For the next adviser").fill("he has the lamp with him")
    tour.page.wait_for_selector("#conflict")


def _closed(tour: Tour) -> int:
    number = tour.begin(_HIGH)
    state = tour.desk.state
    closing = Closing("it burns well", ("thin-air",), "telephone", "read at full flame")
    state.store.calls.close(number, 1, closing, LEAD, state.clock())
    return number


def _newer_book(tour: Tour) -> None:
    tour.go(f"/calls/{tour.begin(replace(_LOW, lamp='WH-302'), _older_book(tour))}")


# -- states of other pages -----------------------------------------------------------------------


def _trail(tour: Tour) -> None:
    number = tour.sheet(_HIGH)
    tour.say(number, note="she calls back at five")
    state = tour.desk.state
    state.store.calls.hand_over(number, 2, "bench", "please look at it", LEAD, state.clock())
    tour.go(f"/calls/{number}/trail")


def _photographed(tour: Tour) -> None:
    number = tour.begin(_LOW)
    tour.go(f"/calls/{number}/trail")
    photo = tour.page.screenshot(clip={"x": 0, "y": 0, "width": 320, "height": 200})
    tour.page.get_by_label("Photograph").set_input_files(
        {"name": "foot.png", "mimeType": "image/png", "buffer": photo}
    )
    tour.page.get_by_label("What it shows").fill("the foot of the glass")
    tour.page.get_by_role("button", name="Attach").click()
    tour.page.wait_for_url("**?done=attached")


def _older_book(tour: Tour) -> str:
    """Load a book in which a few rows are not as in the one in force."""
    state = tour.desk.state
    older = [
        replace(one, rows=one.rows[:-2]) if one.name == "includes" else one for one in demo_tables()
    ]
    return state.store.books.add(older, "an older book", LEAD, state.clock()).id


def _not_loaded(tour: Tour) -> None:
    body = BytesIO()
    with ZipFile(body, "w") as packed:
        packed.writestr("lamps.csv", "lamp,name,colour\nWH-302,,red\n")
    tour.go("/book/revisions")
    tour.page.get_by_label("Fit book").set_input_files(
        {"name": "spring.zip", "mimeType": "application/zip", "buffer": body.getvalue()}
    )
    tour.page.get_by_role("button", name="Load it").click()
    tour.page.wait_for_selector("h1:text('Not loaded')")


def _learning(tour: Tour) -> None:
    _closed(tour)
    tour.go("/learning")


def _secret(tour: Tour) -> None:
    tour.go("/people")
    tour.page.locator("summary", has_text="Change Ravi").click()
    tour.page.get_by_role("button", name="Let Ravi in anew").click()
    tour.page.wait_for_selector(".secret")


def _with_a_token(tour: Tour) -> None:
    person = tour.desk.state.store.people.person("Ravi")
    assert person is not None
    new_token(tour.desk.state, person, LEAD)
    tour.go("/people")


def _token(tour: Tour) -> None:
    tour.go("/people")
    tour.page.locator("summary", has_text="Change Ravi").click()
    tour.page.get_by_role("button", name="Give out a token in the name of Ravi").click()
    tour.page.wait_for_selector("main code")


def _out(tour: Tour) -> int:
    number = tour.begin(replace(_LOW, lamp="WH-302"))
    tour.go(f"/calls/{number}/out")
    return number


def _given(tour: Tour) -> None:
    number = _out(tour)
    tour.post(f"/calls/{number}/given", what="reply")
    tour.go(f"/calls/{number}/given/1")


def _logged_out(tour: Tour, path: str) -> None:
    tour.page.context.clear_cookies()
    tour.go(path)


def _wrong_password(tour: Tour) -> None:
    _logged_out(tour, "/login")
    tour.page.get_by_label("Name").fill("Nobody")
    tour.page.get_by_label("Password").fill("not the password")
    tour.page.keyboard.press("Enter")
    tour.page.wait_for_selector("text=do not belong together")


def _another_role(tour: Tour) -> None:
    _logged_out(tour, "/login")
    log_in(tour.page, "Odile")
    tour.go("/calls")


@dataclass(frozen=True)
class State:
    """A page in a state.

    Attributes
    ----------
    name : str
        Of its picture, too.
    route : str
        The page.
    show : callable
        Brings a tour there.
    """

    name: str
    route: str
    show: Callable[[Tour], object]


_SHEET = "/calls/{number}"


def _at(path: str) -> Callable[[Tour], object]:
    return lambda tour: tour.go(path)


STATES = (
    State("first-page", "/", _at("/")),
    State("done", "/", _at("/?done=closed")),
    State("all-open-calls", "/calls", _at("/calls")),
    State("found", "/find", _at("/find?q=shade")),
    State("nothing-found", "/find", _at("/find?q=zeppelin")),
    State("sheet-blank", _SHEET, lambda tour: tour.sheet()),
    State("sheet-wanted", _SHEET, lambda tour: tour.sheet(Said(words="I broke my glass"))),
    State("sheet-no-offer", _SHEET, lambda tour: tour.sheet(Said(words="zeppelin"))),
    State("sheet-place", _SHEET, lambda tour: tour.sheet(_GLASS)),
    State("sheet-town", _SHEET, lambda tour: tour.sheet(_GLASS, place="La Paz")),
    State("sheet-look", _SHEET, lambda tour: tour.sheet(_LOW)),
    State("sheet-measured-look", _SHEET, _measured),
    State("sheet-dangers", _SHEET, lambda tour: tour.sheet(_DIM)),
    State("sheet-alarm", _SHEET, _alarm),
    State("sheet-sign", _SHEET, _sign),
    State("sheet-act", _SHEET, _act),
    State("sheet-burns-well", _SHEET, _it_burns_well),
    State("sheet-ways", _SHEET, lambda tour: tour.sheet(replace(_LOW, lamp="WH-302"))),
    State("sheet-shade-ways", _SHEET, lambda tour: tour.sheet(replace(_SHADE, wish="add-shade"))),
    State(
        "sheet-impossible", _SHEET, lambda tour: tour.sheet(replace(_SHADE, wish="add-glass-shade"))
    ),
    State("sheet-faults", _SHEET, _faults),
    State("sheet-conflict", _SHEET, _conflict),
    State("sheet-closed", _SHEET, lambda tour: tour.go(f"/calls/{_closed(tour)}")),
    State("sheet-newer-book", _SHEET, _newer_book),
    State("trail", "/calls/{number}/trail", _trail),
    State(
        "trail-closed",
        "/calls/{number}/trail",
        lambda tour: tour.go(f"/calls/{_closed(tour)}/trail"),
    ),
    State("trail-photographed", "/calls/{number}/trail", _photographed),
    State(
        "erase", "/calls/{number}/erase", lambda tour: tour.go(f"/calls/{tour.begin(_LOW)}/erase")
    ),
    State("out", "/calls/{number}/out", _out),
    State("out-nothing", "/calls/{number}/out", lambda tour: tour.go(f"/calls/{tour.begin()}/out")),
    State("given", "/calls/{number}/given/{given}", _given),
    State("book", "/book", _at("/book")),
    State("book-found", "/book", _at("/book?q=chimney")),
    State("book-nothing", "/book", _at("/book?q=zeppelin")),
    State("part", "/book/parts/{part}", _at("/book/parts/CH-3371")),
    State("part-replaced", "/book/parts/{part}", _at("/book/parts/BU-1100")),
    State("lamp", "/book/lamps/{lamp}", _at("/book/lamps/WH-302")),
    State(
        "part-of-another-revision",
        "/book/parts/{part}",
        lambda tour: tour.go(f"/book/parts/CH-3371?revision={_older_book(tour)}"),
    ),
    State("revisions", "/book/revisions", _at("/book/revisions")),
    State(
        "revision",
        "/book/revisions/{revision}",
        lambda tour: tour.go(f"/book/revisions/{_older_book(tour)}"),
    ),
    State("revision-not-loaded", "/book/revisions", _not_loaded),
    State("people", "/people", _at("/people")),
    State("people-with-a-token", "/people", _with_a_token),
    State("token", "", _token),
    State("people-secret", "", _secret),
    State("learning", "/learning", _learning),
    State("ledger", "/ledger", _at("/ledger")),
    State("account", "/account", _at("/account")),
    State("interface-for-programs", "/api", _at("/api")),
    State("keys", "/keys", _at("/keys")),
    State("log-in", "/login", lambda tour: _logged_out(tour, "/login")),
    State("log-in-wrong", "/login", _wrong_password),
    State("logged-out", "/login", lambda tour: _logged_out(tour, "/login?done=logged-out")),
    State("no-such-page", "", _at("/nowhere")),
    State("no-such-call", _SHEET, _at("/calls/4711")),
    State("another-role", "/calls", _another_role),
)
"""Every page, in every state."""

"""Logging in and out. Failures are counted by name and by address; after a few one has to wait."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import timedelta
from http import HTTPStatus
from typing import Final

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from wickwright.answers.sheet.desk_store import Session
from wickwright.desk.frame import render
from wickwright.desk.people_here import Here, Sent, session_key
from wickwright.desk.refusals import RefusedError, cookie_name
from wickwright.desk.state import DeskState, state_of

__all__ = [
    "MOST_BY_ADDRESS",
    "MOST_BY_NAME",
    "WINDOW",
    "LoginPage",
    "router",
    "start_session",
    "too_often",
]

router = APIRouter()
_PATH: Final = re.compile(r"/(?:[\w-][\w.-]*/)*(?:[\w-][\w.-]*)?", re.ASCII)

WINDOW: Final = timedelta(minutes=15)
"""For how long a failed log-in counts."""
MOST_BY_NAME: Final = 5
"""Failures under one name in that time before it has to wait [-]."""
MOST_BY_ADDRESS: Final = 30
"""Failures from one address in that time before it has to wait [-]; a shop has one address."""


@dataclass(frozen=True, slots=True)
class LoginPage:
    """The page to log in on.

    Attributes
    ----------
    name : str
        As it was typed.
    next : str
        Where to go afterwards.
    wrong : str
        What went wrong; blank at first.
    """

    name: str
    next: str
    wrong: str


@router.get("/login")
def log_in_page(request: Request) -> Response:
    """Show the page to log in on."""
    if state_of(request).settings.single:
        return RedirectResponse("/", HTTPStatus.SEE_OTHER)
    return render(request, "login.html", LoginPage("", _inside(request.query_params), ""))


def _inside(query: Mapping[str, str]) -> str:
    """Return where to go afterwards: never to another host."""
    where = query.get("next", "")
    return where if _PATH.fullmatch(where) else "/"


@router.post("/login")
def log_in(request: Request, sent: Sent) -> Response:
    """Log somebody in, under a new token."""
    state, name, now = state_of(request), sent.line("name")[:100], state_of(request).clock()
    address = f"address {request.client.host if request.client else ''}"
    too_often(state, name, address)
    person = state.store.people.person(name) if name else None
    right = state.passwords.right(person.password if person else "", sent.raw("password"))
    if not right or person is None or not person.active:
        state.store.people.failed(name, now)
        state.store.people.failed(address, now)
        state.store.ledger.note("nobody", "a log-in that failed", address, now)
        wrong = "Name and password do not belong together. Nothing says which of them is wrong."
        page = LoginPage(name, _inside({"next": sent.text("next")}), wrong)
        return render(request, "login.html", page, HTTPStatus.FORBIDDEN)
    answer = RedirectResponse(_inside({"next": sent.text("next")}), HTTPStatus.SEE_OTHER)
    old = request.cookies.get(cookie_name(request), "")
    if old:
        state.store.people.log_out(session_key(old))
    start_session(request, answer, person.name)
    return answer


def too_often(state: DeskState, name: str, address: str = "") -> None:
    """Let nobody try passwords without end.

    Parameters
    ----------
    state : DeskState
        What the pages stand on.
    name, address : str
        Under which name, and from where; blank where that does not count.

    Raises
    ------
    RefusedError
        When too many log-ins failed of late.
    """
    since, failures = state.clock() - WINDOW, state.store.people.failures
    many = failures(name, since) >= MOST_BY_NAME
    if not many and not (address and failures(address, since) >= MOST_BY_ADDRESS):
        return
    minutes = int(WINDOW.total_seconds() // 60)
    raise RefusedError(
        429,
        "Too many tries",
        f"Within {minutes} minutes a password was wrong {MOST_BY_NAME} times under this name, or "
        f"{MOST_BY_ADDRESS} times from this address.",
        f"Wait {minutes} minutes. Other people's sessions are not touched by this.",
        "too many log-ins that failed",
    )


def start_session(request: Request, answer: Response, name: str) -> None:
    """Begin a session under a new token, and hand its cookie out.

    Parameters
    ----------
    request : Request
        What was asked.
    answer : Response
        What carries the cookie.
    name : str
        Of the person.
    """
    state = state_of(request)
    token, now = state.token(), state.clock()
    state.store.people.log_in(Session(session_key(token), name, now, now, state.token()))
    answer.set_cookie(
        cookie_name(request), token, path="/", httponly=True, samesite="lax",
        secure=state.settings.tls,
    )  # fmt: skip


@router.post("/logout")
def log_out(request: Request, visitor: Here) -> Response:
    """End the session, here and in the store."""
    if visitor.session:
        state_of(request).store.people.log_out(visitor.session)
    answer = RedirectResponse("/login?done=logged-out", HTTPStatus.SEE_OTHER)
    answer.delete_cookie(cookie_name(request), path="/", secure=state_of(request).settings.tls)
    return answer

"""Who asks the interface: a program by its token, or a page of the desk by its session."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from hmac import compare_digest
from typing import Annotated, Final, Literal

from fastapi import Depends
from starlette.requests import Request

from wickwright.answers.sheet.desk_store import Person, Session
from wickwright.desk.api_problems import ProblemError, Refusal
from wickwright.desk.people_here import FORM_KEY_HEADER, OF_PROGRAM, here, own_origin, session_key
from wickwright.desk.refusals import LogInError
from wickwright.desk.state import DeskState, state_of

__all__ = [
    "PRINT",
    "TOKEN_LASTS",
    "TOKEN_UNUSED",
    "Asker",
    "Asking",
    "asking",
    "end_token",
    "new_token",
    "token_print",
    "tokens_of",
]

TOKEN_LASTS: Final = timedelta(days=366)
"""After this long a token ends in any case."""
TOKEN_UNUSED: Final = timedelta(days=30)
"""After this long unused a token ends, as its record is cleared away then."""

_SAFE: Final = frozenset({"GET", "HEAD"})
PRINT: Final = 8
"""Signs of a token's hash by which people tell it from others [-]."""
_NOTED_EVERY: Final = timedelta(minutes=1)
_BEARER: Final = "bearer"
_CHALLENGE: Final[Mapping[str, str]] = {"WWW-Authenticate": 'Bearer realm="wickwright"'}


@dataclass(frozen=True, slots=True)
class Asker:
    """Who asks.

    Attributes
    ----------
    person : Person
        Under whose name.
    by : {'token', 'page', 'single'}
        How that is known: by a bearer token, by the session of a browser, or because this desk is
        used by one person at this machine.
    """

    person: Person
    by: Literal["token", "page", "single"]


def new_token(state: DeskState, person: Person, who: str) -> str:
    """Give out a token under which a program asks in a person's name.

    Parameters
    ----------
    state : DeskState
        Of the desk; it keeps the token's SHA-256 only.
    person : Person
        Somebody who is active.
    who : str
        Who gives it out.

    Returns
    -------
    str
        The token: it cannot be shown again.
    """
    token, now = state.token(), state.clock()
    session = Session(session_key(token), person.name, now, now, OF_PROGRAM)
    state.store.people.log_in(session)
    where = f"{person.name}, token {token_print(session)}"
    state.store.ledger.note(who, "a token for programs was given out", where, now)
    return token


def token_print(session: Session) -> str:
    """Return by what a token is told from others, on pages and in the ledger."""
    return session.key[:PRINT]


def tokens_of(state: DeskState) -> tuple[Session, ...]:
    """Return every token that programs can still ask by, the newest first.

    Parameters
    ----------
    state : DeskState
        Of the desk.

    Returns
    -------
    tuple of Session
        Nothing of the tokens themselves is kept, so nothing of them stands there.
    """
    found = state.store.people.sessions_with(OF_PROGRAM)
    return tuple(one for one in found if _lives(one, state.clock()))


def end_token(state: DeskState, person: Person, key: str, who: str) -> bool:
    """End one token of a person.

    Parameters
    ----------
    state : DeskState
        Of the desk.
    person : Person
        In whose name programs ask by it.
    key : str
        Which, as :attr:`wickwright.answers.sheet.desk_store.Session.key` names it.
    who : str
        Who ends it.

    Returns
    -------
    bool
        False where there is no such token, or it has ended already.
    """
    found = next((one for one in tokens_of(state) if one.key == key), None)
    if found is None or found.person != person.name:
        return False
    where = f"{person.name}, token {token_print(found)}"
    with state.store.together():
        state.store.people.log_out(found.key)
        state.store.ledger.note(who, "a token for programs was ended", where, state.clock())
    return True


def _lives(session: Session, now: datetime) -> bool:
    return now - session.seen <= TOKEN_UNUSED and now - session.began <= TOKEN_LASTS


def asking(request: Request) -> Asker:
    """Return who asks.

    Parameters
    ----------
    request : Request
        What was asked.

    Returns
    -------
    Asker
        Whose token or session it carries.

    Raises
    ------
    ProblemError
        When nobody is known by it, or a page's change lacks its origin or key.
    """
    scheme, _, token = request.headers.get("authorization", "").partition(" ")
    if scheme.lower() == _BEARER:
        return Asker(_of_token(request, token.strip()), "token")
    try:
        visitor = here(request)
    except LogInError as error:
        says = "Send a token, which a lead gives out: 'Authorization: Bearer ...'."
        raise ProblemError(Refusal.NOBODY, says, headers=_CHALLENGE) from error
    single = state_of(request).settings.single
    if request.method not in _SAFE and not (single and "origin" not in request.headers):
        _only_our_pages(request, visitor.form_key)
    return Asker(visitor.person, "single" if single else "page")


def _of_token(request: Request, token: str) -> Person:
    state = state_of(request)
    people, now = state.store.people, state.clock()
    session = people.session(session_key(token)) if token.isascii() else None
    person = people.person(session.person) if session else None
    if (
        session is None
        or session.form_key != OF_PROGRAM
        or person is None
        or not person.active
        or not _lives(session, now)
    ):
        _note(request, "a token that is of nobody")
        invalid = {"WWW-Authenticate": f'{_CHALLENGE["WWW-Authenticate"]}, error="invalid_token"'}
        says = "The token is of nobody, or it has ended: have a lead give out a new one."
        raise ProblemError(Refusal.NOBODY, says, headers=invalid)
    if now - session.seen > _NOTED_EVERY:
        people.seen(session.key, now)
    return person


def _only_our_pages(request: Request, form_key: str) -> None:
    """Let a cookie change nothing unless a page of ours sent it on."""
    key = request.headers.get(FORM_KEY_HEADER, "")
    ours = request.headers.get("origin", "") == own_origin(request)
    if not ours or not compare_digest(key.encode(), form_key.encode()):
        _note(request, "a request by cookie without origin or key")
        says = (
            "A browser's session alone sends nothing here: a page of this desk adds its key, and "
            "a program sends a token instead of a cookie."
        )
        raise ProblemError(Refusal.NOT_YOURS, says)


def _note(request: Request, what: str) -> None:
    state = state_of(request)
    who = f"nobody, from {request.client.host}" if request.client else "nobody"
    state.store.ledger.note(who, what, request.url.path[:200], state.clock())


Asking = Annotated[Asker, Depends(asking)]
"""Somebody who may ask, by token, session, or at a desk of one."""

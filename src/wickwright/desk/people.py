"""Who may log in: added, given another role or desk, let in anew, shut out. A lead does it."""

from dataclasses import dataclass, replace
from datetime import datetime
from http import HTTPStatus
from typing import Final, NoReturn

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from wickwright.answers.sheet.desk_store import Person, Role, Session
from wickwright.desk.api_access import (
    PRINT,
    TOKEN_LASTS,
    TOKEN_UNUSED,
    end_token,
    new_token,
    token_print,
    tokens_of,
)
from wickwright.desk.frame import render
from wickwright.desk.passwords import once
from wickwright.desk.people_here import Lead, Sent, SentForm, session_key
from wickwright.desk.refusals import RefusedError
from wickwright.desk.state import DeskState, state_of
from wickwright.desk.times import Moment, moment

__all__ = ["PeoplePage", "SecretPage", "TokenPage", "router"]

router = APIRouter()
_LONGEST: Final = 60
_SECRET: Final = 20


@dataclass(frozen=True, slots=True)
class TokenRow:
    """A token that was given out.

    Attributes
    ----------
    key : str
        By which it is ended.
    print : str
        By which people tell it from others.
    given, used : Moment
        When it was given out, and when it was last used.
    unused : bool
        Whether no program has asked by it yet.
    """

    key: str
    print: str
    given: Moment
    used: Moment
    unused: bool


@dataclass(frozen=True, slots=True)
class PersonRow:
    """Somebody in the list.

    Attributes
    ----------
    name, role, desk : str
        As of :class:`wickwright.answers.sheet.desk_store.Person`.
    state : str
        Whether they may log in.
    active : bool
        The same.
    tokens : tuple of TokenRow
        By which programs ask in this name, the newest first.
    """

    name: str
    role: str
    desk: str
    state: str
    active: bool
    tokens: tuple[TokenRow, ...]


@dataclass(frozen=True, slots=True)
class PeoplePage:
    """Everybody.

    Attributes
    ----------
    rows : tuple of PersonRow
        By name.
    roles : tuple of str
        That can be given.
    single : bool
        Whether nobody has to log in at present.
    """

    rows: tuple[PersonRow, ...]
    roles: tuple[str, ...]
    single: bool


@dataclass(frozen=True, slots=True)
class SecretPage:
    """A secret, shown once.

    Attributes
    ----------
    name : str
        Whom it lets in.
    secret : str
        Only its hash is kept.
    """

    name: str
    secret: str


@router.get("/people")
def people(request: Request, visitor: Lead) -> Response:
    """Show everybody."""
    del visitor
    state = state_of(request)
    tokens = tokens_of(state)
    rows = tuple(_row(state, one, tokens) for one in state.store.people.people())
    page = PeoplePage(rows, tuple(map(str, Role)), bool(state.settings.single))
    return render(request, "people.html", page)


def _row(state: DeskState, person: Person, tokens: tuple[Session, ...]) -> PersonRow:
    waiting = "has a secret, and has still to choose a password" if once(person.password) else ""
    may = waiting or "may log in" if person.active else "may no longer log in"
    own = tuple(_token_row(one, state.clock()) for one in tokens if one.person == person.name)
    return PersonRow(person.name, str(person.role), person.desk, may, person.active, own)


def _token_row(session: Session, now: datetime) -> TokenRow:
    return TokenRow(
        session.key,
        token_print(session),
        moment(session.began, now),
        moment(session.seen, now),
        session.seen == session.began,
    )


@router.post("/people")
def add(request: Request, visitor: Lead, sent: Sent) -> Response:
    """Add somebody; show the secret that lets them in once."""
    state, name = state_of(request), sent.line("name")
    if not name or len(name) > _LONGEST or not name.isprintable():
        _refuse(f"A name has 1 to {_LONGEST} letters.", "Write the name they go by.")
    if state.store.people.person(name) is not None:
        _refuse(f"There is a {name} already.", "Add a surname, or let them in anew.")
    person = Person(name, _role(sent), _desk(sent), "")
    _a_lead_is_left(state, person)
    return _let_in(request, visitor.person.name, person)


@router.post("/people/change")
def change(request: Request, visitor: Lead, sent: Sent) -> Response:
    """Give somebody another role or desk, or shut them out."""
    state, person = state_of(request), _named(request, sent)
    changed = replace(
        person, role=_role(sent), desk=_desk(sent), active=sent.text("active") == "yes"
    )
    _a_lead_is_left(state, changed)
    state.store.people.put(changed, visitor.person.name, state.clock())
    return RedirectResponse("/people?done=person", HTTPStatus.SEE_OTHER)


@router.post("/people/let-in")
def let_in(request: Request, visitor: Lead, sent: Sent) -> Response:
    """Let somebody in anew, by a secret that is shown once; their password is void."""
    return _let_in(request, visitor.person.name, replace(_named(request, sent), active=True))


@dataclass(frozen=True, slots=True)
class TokenPage:
    """A token for programs, shown once.

    Attributes
    ----------
    name : str
        In whose name a program asks by it.
    token : str
        The token; its SHA-256 alone is kept.
    print : str
        By which it is told from others in the list.
    unused, lasts : int
        After how many days it ends when it is not used, and in any case [d].
    """

    name: str
    token: str
    print: str
    unused: int
    lasts: int


@router.post("/people/token")
def give_token(request: Request, visitor: Lead, sent: Sent) -> Response:
    """Give out a token under which a program asks in somebody's name."""
    person = _named(request, sent)
    if not person.active:
        _refuse(f"{person.name} is shut out.", "Let them log in first.")
    token = new_token(state_of(request), person, visitor.person.name)
    printed = session_key(token)[:PRINT]
    page = TokenPage(person.name, token, printed, TOKEN_UNUSED.days, TOKEN_LASTS.days)
    return render(request, "token.html", page)


@router.post("/people/token/end")
def end(request: Request, visitor: Lead, sent: Sent) -> Response:
    """End one token; whatever asks by it is answered no more."""
    person = _named(request, sent)
    if not end_token(state_of(request), person, sent.text("key"), visitor.person.name):
        _refuse("There is no such token.", "It has ended already: reload the page of people.")
    return RedirectResponse("/people?done=token", HTTPStatus.SEE_OTHER)


def _let_in(request: Request, who: str, person: Person) -> Response:
    state = state_of(request)
    secret = state.token()[:_SECRET]
    kept = replace(person, password=state.passwords.for_once(secret))
    state.store.people.put(kept, who, state.clock())
    return render(request, "secret.html", SecretPage(person.name, secret))


def _named(request: Request, sent: SentForm) -> Person:
    person = state_of(request).store.people.person(sent.line("name"))
    if person is None:
        _refuse("Nobody has that name.", "Reload the page of people.")
    return person


def _role(sent: SentForm) -> Role:
    role = sent.text("role")
    if role not in {*map(str, Role)}:
        _refuse("No role was chosen.", "Choose one of the four.")
    return Role(role)


def _desk(sent: SentForm) -> str:
    desk = sent.line("desk")
    if not desk or len(desk) > _LONGEST:
        _refuse(f"A desk has a name of 1 to {_LONGEST} letters.", "Say where they sit.")
    return desk


def _a_lead_is_left(state: DeskState, changed: Person) -> None:
    others = (one for one in state.store.people.people() if one.name != changed.name)
    if not any(one.active and one.role is Role.LEAD for one in (*others, changed)):
        _refuse("Nobody would be there who looks after people.", "Make somebody a lead first.")


def _refuse(why: str, cure: str) -> NoReturn:
    raise RefusedError(400, "Nothing was changed", why, cure)

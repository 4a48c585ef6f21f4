"""Who may do what: sessions, roles, and the key every form carries."""

from collections.abc import AsyncIterator, Mapping
from dataclasses import dataclass
from datetime import timedelta
from hashlib import sha256
from hmac import compare_digest
from typing import Annotated, Final
from urllib.parse import urlencode

from fastapi import Depends
from starlette.datastructures import UploadFile
from starlette.requests import Request

from wickwright.answers.sheet.desk_store import Person, Role, Session
from wickwright.answers.sheet.one_line import one_line
from wickwright.desk.frame import Visitor, visitor_of
from wickwright.desk.passwords import once
from wickwright.desk.refusals import LogInError, RefusedError, cookie_name
from wickwright.desk.state import DeskState, state_of

__all__ = [
    "FORM_KEY",
    "FORM_KEY_HEADER",
    "OF_PROGRAM",
    "Adviser",
    "Here",
    "Lead",
    "Sent",
    "SentForm",
    "adviser_only",
    "guard",
    "here",
    "lead_only",
    "own_origin",
    "session_key",
]

FORM_KEY: Final = "form_key"
FORM_KEY_HEADER: Final = "X-Form-Key"
OF_PROGRAM: Final = "of a program"
"""In place of a form key: the session is of a program, which sends its token and no cookie."""
_SAFE: Final = frozenset({"GET", "HEAD", "OPTIONS"})
_BEFORE_PASSWORD: Final = frozenset({"/account", "/logout"})
_ACCOUNT: Final = "/account"
_DIGITS: Final = 15
_NOTED_EVERY: Final = timedelta(minutes=1)


def session_key(token: str) -> str:
    """Return what is kept of a cookie's token."""
    return sha256(token.encode()).hexdigest()


# -- who is here ---------------------------------------------------------------------------------


def here(request: Request) -> Visitor:
    """Return who is here.

    Parameters
    ----------
    request : Request
        What was asked.

    Returns
    -------
    Visitor
        Who; their session is noted as used.

    Raises
    ------
    LogInError
        When nobody is logged in, or a password has to be chosen first.
    """
    if known := visitor_of(request):
        return known
    state = state_of(request)
    if state.settings.single:
        visitor = Visitor(_single(state), state.form_key)
    else:
        visitor = _logged_in(request, state)
    request.state.visitor = visitor
    return visitor


def _single(state: DeskState) -> Person:
    return Person(state.settings.single, Role.LEAD, state.settings.desk, "")


def _logged_in(request: Request, state: DeskState) -> Visitor:
    token = request.cookies.get(cookie_name(request), "")
    session = state.store.people.session(session_key(token)) if token else None
    if session is not None and session.form_key == OF_PROGRAM:
        session = None
    person = state.store.people.person(session.person) if session else None
    if session is None or person is None or not person.active or _over(session, state):
        if session is not None:
            state.store.people.log_out(session.key)
        raise LogInError(_log_in_page(request), forget=bool(token) and session is None)
    if once(person.password) and request.url.path not in _BEFORE_PASSWORD:
        raise LogInError(_ACCOUNT)
    now = state.clock()
    if now - session.seen > _NOTED_EVERY:
        state.store.people.seen(session.key, now)
    return Visitor(person, session.form_key, session.key)


def _over(session: Session, state: DeskState) -> bool:
    now, limits = state.clock(), state.settings
    return now - session.seen > limits.idle or now - session.began > limits.lasts


def _log_in_page(request: Request) -> str:
    if request.method not in _SAFE or request.url.path == "/":
        return "/login"
    return f"/login?{urlencode({'next': request.url.path})}"


Here = Annotated[Visitor, Depends(here)]
"""Somebody who is logged in, whatever their role."""


def adviser_only(visitor: Here) -> Visitor:
    """Return who is here if they may take calls.

    Raises
    ------
    RefusedError
        When they may not.
    """
    if not visitor.takes_calls:
        raise _not_yours(visitor, "Calls hold names and addresses: advisers and leads see them.")
    return visitor


def lead_only(visitor: Here) -> Visitor:
    """Return who is here if they are a lead.

    Raises
    ------
    RefusedError
        When they are not.
    """
    if not visitor.leads:
        raise _not_yours(visitor, "Only a lead does this.")
    return visitor


def _not_yours(visitor: Visitor, why: str) -> RefusedError:
    says = f"You are here as {visitor.person.role}. {why}"
    return RefusedError(
        403, "This is not yours to do", says, "Ask a lead, or log in under another name.",
        f"a page of another role, by {visitor.person.role}",
    )  # fmt: skip


Adviser = Annotated[Visitor, Depends(adviser_only)]
"""Somebody who may take calls."""
Lead = Annotated[Visitor, Depends(lead_only)]
"""A lead."""


# -- what was sent -------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class SentForm:
    """What a form sent.

    Attributes
    ----------
    fields : mapping of str to tuple of str
        Texts by field, lines ending as everywhere.
    files : mapping of str to UploadFile
        Files by field.
    """

    fields: Mapping[str, tuple[str, ...]]
    files: Mapping[str, UploadFile]

    def text(self, name: str) -> str:
        """Return a field without blanks around it; blank where it was not sent."""
        return self.raw(name).strip()

    def line(self, name: str) -> str:
        """Return a field of one line: breaks and control characters are blanks."""
        return one_line(self.raw(name))

    def raw(self, name: str) -> str:
        """Return a field as it was typed; blank where it was not sent."""
        return self.fields.get(name, ("",))[0]

    def texts(self, name: str) -> tuple[str, ...]:
        """Return a field that can be sent more than once."""
        return tuple(text.strip() for text in self.fields.get(name, ()))

    def whole(self, name: str) -> int:
        """Return a whole number; -1 where none was sent."""
        text = self.text(name)
        return int(text) if text.isascii() and text.isdigit() and len(text) <= _DIGITS else -1


async def _read(request: Request) -> AsyncIterator[SentForm]:
    kind = request.headers.get("content-type", "").partition(";")[0].strip().lower()
    if kind not in {"application/x-www-form-urlencoded", "multipart/form-data"}:
        yield SentForm({}, {})
        return
    form = await request.form(max_files=4, max_fields=200, max_part_size=300_000)
    fields: dict[str, tuple[str, ...]] = {}
    files: dict[str, UploadFile] = {}
    for name, value in form.multi_items():
        if isinstance(value, str):
            plain = value.replace("\r\n", "\n").replace("\0", "")
            fields[name] = (*fields.get(name, ()), plain)
        else:
            files[name] = value
    try:
        yield SentForm(fields, files)
    finally:
        await form.close()


Sent = Annotated[SentForm, Depends(_read)]
"""What a form sent."""


def own_origin(request: Request) -> str:
    """Return the origin of the desk as this browser calls it."""
    scheme = "https" if state_of(request).settings.tls else "http"
    return f"{scheme}://{request.headers.get('host', '')}"


def guard(request: Request, sent: Sent) -> None:
    """Let nothing be changed from a page that is not ours, or without the key of the session.

    Raises
    ------
    RefusedError
        When the origin or the key is missing or another's.
    LogInError
        When nobody is logged in.
    """
    if request.method in _SAFE:
        return
    if request.headers.get("origin", "") != own_origin(request):
        raise RefusedError(
            403, "Sent from somewhere else",
            "This did not come from a page of this desk, so nothing was changed.",
            "Open the page here and do it from there.", "a form from a foreign origin",
        )  # fmt: skip
    if request.url.path == "/login":
        return
    visitor = here(request)
    key = request.headers.get(FORM_KEY_HEADER, "") or sent.text(FORM_KEY)
    if not key or not compare_digest(key.encode(), visitor.form_key.encode()):
        raise RefusedError(
            403, "The page is out of date",
            "It was opened before you logged in, or before the desk was started anew; nothing "
            "was changed.",
            "Reload the page, and send it once more.", "a form without the session's key",
        )  # fmt: skip

"""The first page: where a call begins, and the open calls."""

from dataclasses import dataclass
from http import HTTPStatus
from typing import Final

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from wickwright.answers.said.numbers_said import numbers_in
from wickwright.answers.sheet.call_record import Caller, Said
from wickwright.desk.call_lists import CallRow, call_rows
from wickwright.desk.frame import render
from wickwright.desk.people_here import Adviser, Here, Sent
from wickwright.desk.state import state_of

__all__ = ["HomePage", "router"]

router = APIRouter()
_MOST: Final = 50
"""Open calls in one list [-]."""


@dataclass(frozen=True, slots=True)
class HomePage:
    """The first page.

    Attributes
    ----------
    own, others : tuple of CallRow
        The oldest open calls of this desk, and of the others.
    more : int
        Open calls that are not shown [-].
    """

    own: tuple[CallRow, ...]
    others: tuple[CallRow, ...]
    more: int


@router.get("/")
def home(request: Request, visitor: Here) -> Response:
    """Show where a call begins; who takes no calls is shown the fit book."""
    if not visitor.takes_calls:
        return RedirectResponse("/book", HTTPStatus.SEE_OTHER)
    state, desk = state_of(request), visitor.person.desk
    calls, now = state.store.calls, state.clock()
    own, others = calls.open_calls(desk, most=_MOST), calls.open_calls(but=desk, most=_MOST)
    page = HomePage(
        own=call_rows(own, now),
        others=call_rows(others, now),
        more=sum(calls.open_desks().values()) - len(own) - len(others),
    )
    return render(request, "home.html", page)


@router.post("/calls")
def begin(request: Request, visitor: Adviser, sent: Sent) -> Response:
    """Begin a call."""
    state = state_of(request)
    words = sent.text("words")
    lamps = numbers_in(words, state.books.in_force().book.lamps)
    said = Said(words=words, lamp=lamps[0] if len(lamps) == 1 else "")
    caller = Caller(name=sent.line("caller"))
    revision = state.books.in_force().revision.id
    call = state.store.calls.begin(said, caller, visitor.person, revision, state.clock())
    return RedirectResponse(f"/calls/{call.number}", HTTPStatus.SEE_OTHER)

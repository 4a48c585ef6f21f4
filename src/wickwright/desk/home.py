"""The first page: where a call begins, and the open calls."""

from dataclasses import dataclass
from http import HTTPStatus

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from wickwright.answers.call_record import Caller, Said
from wickwright.desk.call_lists import CallRow, call_rows
from wickwright.desk.frame import render
from wickwright.desk.people_here import Adviser, Here, Sent
from wickwright.desk.state import state_of

__all__ = ["HomePage", "router"]

router = APIRouter()


@dataclass(frozen=True, slots=True)
class HomePage:
    """The first page.

    Attributes
    ----------
    own, others : tuple of CallRow
        Open calls of this desk, and of the others.
    """

    own: tuple[CallRow, ...]
    others: tuple[CallRow, ...]


@router.get("/")
def home(request: Request, visitor: Here) -> Response:
    """Show where a call begins; who takes no calls is shown the fit book."""
    if not visitor.takes_calls:
        return RedirectResponse("/book", HTTPStatus.SEE_OTHER)
    state = state_of(request)
    rows = call_rows(state.store.calls.open_calls(), state.clock())
    desk = visitor.person.desk
    page = HomePage(
        own=tuple(row for row in rows if row.desk == desk),
        others=tuple(row for row in rows if row.desk != desk),
    )
    return render(request, "home.html", page)


@router.post("/calls")
def begin(request: Request, visitor: Adviser, sent: Sent) -> Response:
    """Begin a call."""
    state = state_of(request)
    said = Said(words=sent.text("words"))
    caller = Caller(name=sent.line("caller"))
    revision = state.books.in_force().revision.id
    call = state.store.calls.begin(said, caller, visitor.person, revision, state.clock())
    return RedirectResponse(f"/calls/{call.number}", HTTPStatus.SEE_OTHER)

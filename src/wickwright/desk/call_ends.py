"""A call handed over, closed, opened again; its caller erased."""

from dataclasses import dataclass
from http import HTTPStatus

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from wickwright.answers.sheet.call_record import Closing
from wickwright.cause.closed import Confirmed
from wickwright.desk.call_closing import causes_ranked
from wickwright.desk.call_here import call_here, written
from wickwright.desk.call_trail import OUTCOMES
from wickwright.desk.frame import render
from wickwright.desk.in_vain import noted
from wickwright.desk.people_here import Adviser, Lead, Sent
from wickwright.desk.refusals import RefusedError
from wickwright.desk.state import state_of

__all__ = ["ErasePage", "router"]

router = APIRouter()
_LONGEST_DESK = 60


def _back(number: int, done: str) -> Response:
    return RedirectResponse(f"/calls/{number}/trail?done={done}", HTTPStatus.SEE_OTHER)


@router.post("/calls/{number}/hand-over")
def hand_over(request: Request, visitor: Adviser, number: int, sent: Sent) -> Response:
    """Lay a call on another desk."""
    state, call = state_of(request), call_here(request, number)
    desk = sent.line("desk") or sent.line("other_desk")
    if not desk or desk == call.desk or len(desk) > _LONGEST_DESK:
        raise RefusedError(
            400,
            "To which desk?",
            "No other desk was named, so the call lies where it was.",
            f"Go back and choose a desk, or write its name, in at most {_LONGEST_DESK} letters.",
        )
    who, note, now = visitor.person.name, sent.text("note"), state.clock()
    version = sent.whole("version")
    there = written(number, state.store.calls.hand_over(number, version, desk, note, who, now))
    said = noted(there.said, note)
    if said != there.said:
        state.store.calls.save(number, there.version, said, who, now)
    return _back(number, "handed-over")


@router.post("/calls/{number}/close")
def close(request: Request, visitor: Adviser, number: int, sent: Sent) -> Response:
    """Close a call, with how it ended and what was wrong."""
    state, call = state_of(request), call_here(request, number)
    opened = state.books.of(call.revision)
    known = causes_ranked(opened.book, call.said, None) if opened else ()
    closing = Closing(
        outcome=sent.text("outcome"),
        causes=tuple(one.key for one in known if one.key in sent.texts("cause")),
        confirmed=sent.text("confirmed") or str(Confirmed.NOT),
        note=sent.text("note"),
    )
    if closing.outcome not in OUTCOMES or closing.confirmed not in {*map(str, Confirmed)}:
        raise RefusedError(
            400,
            "How did it end?",
            "No outcome was chosen, so the call is still open.",
            "Go back and choose how it ended.",
        )
    who, now = visitor.person.name, state.clock()
    written(number, state.store.calls.close(number, sent.whole("version"), closing, who, now))
    return _back(number, "closed")


@router.post("/calls/{number}/reopen")
def reopen(request: Request, visitor: Adviser, number: int, sent: Sent) -> Response:
    """Open a closed call again."""
    state, who = state_of(request), visitor.person.name
    done = state.store.calls.reopen(number, sent.whole("version"), who, state.clock())
    written(number, done)
    return _back(number, "reopened")


@dataclass(frozen=True, slots=True)
class ErasePage:
    """What is lost when a caller is erased.

    Attributes
    ----------
    number : int
        Of the call.
    caller : str
        Who.
    photos : int
        Photographs that go [-].
    """

    number: int
    caller: str
    photos: int


@router.get("/calls/{number}/erase")
def erase_page(request: Request, visitor: Lead, number: int) -> Response:
    """Show what is lost when a caller is erased."""
    del visitor
    call = call_here(request, number)
    photos = len(state_of(request).store.calls.photos(number))
    return render(request, "erase.html", ErasePage(number, call.caller.name or "no name", photos))


@router.post("/calls/{number}/erase")
def erase(request: Request, visitor: Lead, number: int, sent: Sent) -> Response:
    """Erase who called."""
    if sent.text("sure") != "yes":
        raise RefusedError(
            400,
            "Not erased",
            "The box that says you are sure was not ticked.",
            "Go back, read what is lost, and tick it.",
        )
    state = state_of(request)
    written(number, state.store.calls.erase(number, visitor.person.name, state.clock()))
    return _back(number, "erased")

"""What was also said in a call: a call of its own for it, with the same caller, lamp and place."""

from dataclasses import replace
from http import HTTPStatus

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from wickwright.answers.sheet.also_said import also_said, said_next
from wickwright.answers.sheet.call_record import CallState
from wickwright.desk.call_here import call_here, written
from wickwright.desk.people_here import Adviser, Sent
from wickwright.desk.refusals import RefusedError
from wickwright.desk.sheet_page import memory_of
from wickwright.desk.state import state_of

__all__ = ["router"]

router = APIRouter()


@router.post("/calls/{number}/also")
def begin_next(request: Request, visitor: Adviser, number: int, sent: Sent) -> Response:
    """Begin a call for something that was also said, and note it in the first."""
    state, call = state_of(request), call_here(request, number)
    fit_book = memory_of(state, call).compiled.book
    found = also_said(fit_book, call.said)
    wanted = [one for one in found if one.wanted.key == sent.text("key")]
    if not wanted or call.state is CallState.CLOSED:
        raise RefusedError(
            409,
            "It is dealt with",
            "This no longer stands open in the call; no other call was begun.",
            "Load the sheet again.",
        )
    calls, who, now = state.store.calls, visitor.person, state.clock()
    with state.store.together():
        said = said_next(fit_book, call.said, wanted[0], number)
        begun = calls.begin(said, call.caller, who, call.revision, now)
        line = f"'{wanted[0].clause}': call {begun.number}."
        note = "\n".join(filter(None, (call.said.note, line)))
        noted = replace(call.said, note=note)
        written(number, calls.save(number, call.version, noted, who.name, now))
    return RedirectResponse(f"/calls/{begun.number}", HTTPStatus.SEE_OTHER)

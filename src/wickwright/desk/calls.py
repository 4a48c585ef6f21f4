"""All open calls, and calls, parts and lamps found by what somebody remembers."""

import re
from dataclasses import dataclass
from http import HTTPStatus

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from wickwright.desk.book_rows import BookRow, book_rows
from wickwright.desk.call_lists import CallRow, call_rows
from wickwright.desk.frame import render
from wickwright.desk.people_here import Adviser, Here
from wickwright.desk.state import state_of

__all__ = ["CallsPage", "FindPage", "router"]

router = APIRouter()
_MOST = 50
_PAGE = 100
_NUMBER = re.compile(
    r"(?:find\s+)?(?:call\b\s*)?(?:number\s+|no\.?\s*|#\s*)?([0-9]{1,9})", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class CallsPage:
    """All open calls, the oldest first, a hundred at a time.

    Attributes
    ----------
    rows : tuple of CallRow
        Those of this page.
    first, count : int
        Which of all open calls the first row is, and how many there are [-].
    before, after : str
        Where the hundred before and the hundred after are shown; blank where there are none.
    """

    rows: tuple[CallRow, ...]
    first: int
    count: int
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class FindPage:
    """What was found.

    Attributes
    ----------
    asked : str
        What was typed.
    calls : tuple of CallRow
        Calls, the newest first; none for somebody who takes no calls.
    takes_calls : bool
        Whether calls were looked through.
    book : tuple of BookRow
        Lamps and parts.
    """

    asked: str
    calls: tuple[CallRow, ...]
    takes_calls: bool
    book: tuple[BookRow, ...]


@router.get("/calls")
def all_calls(request: Request, visitor: Adviser, after: str = "") -> Response:
    """Show open calls, a hundred at a time."""
    del visitor
    state, skip = state_of(request), int(after[:9]) if after.isdecimal() else 0
    calls = state.store.calls
    rows = call_rows(calls.open_calls(skip=skip, most=_PAGE), state.clock())
    count = sum(calls.open_desks().values())
    page = CallsPage(
        rows=rows,
        first=skip + 1,
        count=count,
        before=f"/calls?after={max(0, skip - _PAGE)}" if skip else "",
        after=f"/calls?after={skip + _PAGE}" if skip + _PAGE < count else "",
    )
    return render(request, "calls.html", page)


@router.get("/find")
def find(request: Request, visitor: Here, q: str = "") -> Response:
    """Find calls by number, caller, words, lamp or part; lamps and parts by number or words."""
    state, asked = state_of(request), q.strip()[:200]
    number = _NUMBER.fullmatch(asked)
    if visitor.takes_calls and number and state.store.calls.call(int(number[1])):
        return RedirectResponse(f"/calls/{int(number[1])}", HTTPStatus.SEE_OTHER)
    lines = state.store.calls.find(asked, _MOST) if asked and visitor.takes_calls else ()
    opened = state.books.in_force()
    found = opened.index.find(asked, _MOST) if asked else ()
    page = FindPage(
        asked=asked,
        calls=call_rows(lines, state.clock()),
        takes_calls=visitor.takes_calls,
        book=book_rows(found, opened.units(state.settings.units)),
    )
    return render(request, "find.html", page)

"""What was refused or done that a lead may have to look into."""

from dataclasses import dataclass
from typing import Final

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import Response

from wickwright.desk.frame import render
from wickwright.desk.people_here import Lead
from wickwright.desk.state import state_of
from wickwright.desk.times import Moment, moment

__all__ = ["LedgerPage", "router"]

router = APIRouter()
_MOST: Final = 200


@dataclass(frozen=True, slots=True)
class LedgerRow:
    """A line of the ledger."""

    at: Moment
    who: str
    what: str
    where: str


@dataclass(frozen=True, slots=True)
class LedgerPage:
    """The ledger, the newest first.

    Attributes
    ----------
    rows : tuple of LedgerRow
        Lines.
    most : int
        Shown at most [-].
    """

    rows: tuple[LedgerRow, ...]
    most: int


@router.get("/ledger")
def ledger(request: Request, visitor: Lead) -> Response:
    """Show the ledger."""
    del visitor
    state = state_of(request)
    now = state.clock()
    lines = state.store.ledger.newest(_MOST)
    rows = tuple(LedgerRow(moment(one.at, now), one.who, one.what, one.where) for one in lines)
    return render(request, "ledger.html", LedgerPage(rows, _MOST))

"""The desk as one application: its routers, its errors, and what stands before them."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Final

from fastapi import Depends, FastAPI
from starlette.middleware import Middleware
from starlette.staticfiles import StaticFiles

from wickwright import __version__
from wickwright.desk import (
    account,
    also_said,
    api_page,
    book,
    call_ends,
    call_photos,
    call_trail,
    calls,
    home,
    keys,
    learning,
    ledger,
    log_in,
    people,
    revisions,
    sheet_page,
    what_goes_out,
)
from wickwright.desk.api_mount import add_interface
from wickwright.desk.people_here import guard
from wickwright.desk.refusals import answer_errors, failed
from wickwright.desk.shield import Shield

if TYPE_CHECKING:
    from wickwright.desk.state import DeskState

__all__ = ["PAGES", "desk_app"]

PAGES: Final = tuple(
    one.router
    for one in (
        home,
        calls,
        sheet_page,
        also_said,
        what_goes_out,
        call_trail,
        call_ends,
        call_photos,
        revisions,
        book,
        people,
        account,
        ledger,
        api_page,
        keys,
        learning,
        log_in,
    )
)
"""Routers of pages: every change through them needs the key of the session."""

_STATIC: Final = Path(__file__).parent / "static"


def desk_app(state: DeskState) -> FastAPI:
    """Put the desk together.

    Parameters
    ----------
    state : DeskState
        What its pages stand on.

    Returns
    -------
    FastAPI
        The application.
    """
    app = FastAPI(
        title="Wickwright",
        version=__version__,
        docs_url=None,
        redoc_url=None,
        openapi_url=None,
        middleware=[Middleware(Shield, state=state, failed=failed)],
    )
    app.state.desk = state
    for router in PAGES:
        app.include_router(router, include_in_schema=False, dependencies=[Depends(guard)])
    add_interface(app)
    app.mount("/static", StaticFiles(directory=_STATIC), name="static")
    answer_errors(app)
    return app

"""The interface for machines under ``/api/v1``: an application of its own inside the desk."""

from functools import cache
from typing import TYPE_CHECKING, Any, Final

from fastapi import FastAPI
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.responses import Response

from wickwright.desk import api_answers, api_book, api_calls, api_faults
from wickwright.desk.api_document import document, methods_of
from wickwright.desk.api_here import answer
from wickwright.desk.api_keys import Running
from wickwright.desk.api_manners import Manners
from wickwright.desk.api_problems import ProblemError
from wickwright.desk.open_books import NoBookError
from wickwright.desk.refusals import RefusedError

if TYPE_CHECKING:
    from wickwright.desk.state import DeskState

__all__ = ["described", "interface"]

ROUTERS: Final = (api_book.router, api_answers.router, api_calls.router)


def interface(state: "DeskState") -> FastAPI:
    """Put the interface together.

    Parameters
    ----------
    state : DeskState
        What it stands on.

    Returns
    -------
    FastAPI
        To be mounted at :data:`wickwright.desk.api_mount.API_PATH`.
    """
    app = FastAPI(
        openapi_url=None,
        docs_url=None,
        redoc_url=None,
        redirect_slashes=False,
        middleware=[Middleware(Manners, methods=lambda: methods_of(described()))],
    )
    app.state.desk = state
    app.state.running = Running()
    for router in ROUTERS:
        app.include_router(router)
    app.add_api_route("/openapi.json", _document, include_in_schema=False)
    _answer_errors(app)
    return app


@cache
def described() -> dict[str, Any]:
    """Return the OpenAPI document of the interface; it is made once."""
    bare = FastAPI()
    for router in ROUTERS:
        bare.include_router(router)
    return document(bare)


def _document() -> Response:
    """Return the OpenAPI document."""
    return answer(described(), headers={"Cache-Control": "no-cache"})


def _answer_errors(app: FastAPI) -> None:
    app.add_exception_handler(ProblemError, api_faults.stated)
    app.add_exception_handler(RequestValidationError, api_faults.not_valid)
    app.add_exception_handler(HTTPException, api_faults.of_status)
    app.add_exception_handler(RefusedError, api_faults.refused)
    app.add_exception_handler(NoBookError, api_faults.no_book)
    app.add_exception_handler(Exception, api_faults.failed)

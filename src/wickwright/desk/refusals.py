"""What the desk refuses, said in plain words and noted; an error page is a page like any other."""

import logging
from dataclasses import dataclass, replace
from http import HTTPStatus
from typing import Final

from fastapi import FastAPI
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from wickwright.desk.api_problems import ProblemError, Refusal, problem_answer
from wickwright.desk.frame import render, visitor_of
from wickwright.desk.open_books import NoBookError
from wickwright.desk.state import state_of

__all__ = [
    "COOKIE",
    "LogInError",
    "RefusedError",
    "RefusedPage",
    "answer_errors",
    "cookie_name",
    "failed",
    "refusal_answer",
]

_log = logging.getLogger(__name__)
COOKIE = "wickwright"


@dataclass(frozen=True, slots=True)
class RefusedPage:
    """A page that says no.

    Attributes
    ----------
    status : int
        Of HTTP.
    heading : str
        What happened, in a few words.
    why : str
        Why that is likely.
    cure : str
        What mends it.
    """

    status: int
    heading: str
    why: str
    cure: str


class RefusedError(Exception):
    """The desk does not do this.

    Parameters
    ----------
    status : int
        Of HTTP.
    heading, why, cure : str
        As of :class:`RefusedPage`.
    noted : str
        What stands in the ledger; blank where nothing has to.
    """

    def __init__(self, status: int, heading: str, why: str, cure: str, noted: str = "") -> None:
        super().__init__(heading)
        self.page = RefusedPage(status, heading, why, cure)
        self.noted = noted


class LogInError(Exception):
    """Somebody has to log in, or to choose a password, before this page.

    Parameters
    ----------
    where : str
        The page to go to.
    forget : bool
        Whether the browser shall drop its cookie.
    """

    def __init__(self, where: str, *, forget: bool = False) -> None:
        super().__init__(where)
        self.where = where
        self.forget = forget


_PAGES: Final = {
    400: (
        "This could not be read",
        "A form or an address came in broken.",
        "Go back, reload the page and send it once more.",
    ),
    403: ("This is not yours to do", "Your role does not include it.", "Ask a lead to do it."),
    404: (
        "There is no such page",
        "The address is misspelt, or what it named is gone.",
        "Look it up: by the number of a call, a part or a lamp.",
    ),
    405: (
        "Not this way",
        "The page is there, but it does not take this kind of request.",
        "Open it from the link or the form that leads to it.",
    ),
    413: (
        "That is too large",
        "More was sent than this page takes, so nothing was kept.",
        "Send a photograph or a fit book under 8 MB, or a shorter text.",
    ),
}
_OURS: Final = RefusedPage(
    500,
    "A mistake of ours",
    "The program failed at this; nothing was changed half-way.",
    "Try once more. If it fails again, tell whoever runs the desk the time and the address; its "
    "log holds the rest.",
)


def refusal_answer(request: Request, page: RefusedPage) -> Response:
    """Answer with a refusal, as a page or, to a machine, as a problem.

    Parameters
    ----------
    request : Request
        What was asked.
    page : RefusedPage
        What is said.

    Returns
    -------
    Response
        HTML, or a problem detail after RFC 9457 under ``/api/``.
    """
    if request.url.path.startswith("/api/"):
        says = f"{page.heading}: {page.why} {page.cure}"
        kind = next((one for one in Refusal if one.status == page.status), Refusal.NOT_USABLE)
        return problem_answer(request, ProblemError(kind, says, status=page.status))
    return render(request, "refused.html", page, page.status)


def answer_errors(app: FastAPI) -> None:
    """Let an application answer its errors in the desk's own words.

    Parameters
    ----------
    app : FastAPI
        The desk.
    """
    app.add_exception_handler(RefusedError, _refused)
    app.add_exception_handler(LogInError, _log_in)
    app.add_exception_handler(HTTPException, _of_status)
    app.add_exception_handler(RequestValidationError, _not_valid)
    app.add_exception_handler(NoBookError, _no_book)


def _note(request: Request, what: str) -> None:
    state, visitor = state_of(request), visitor_of(request)
    who = visitor.person.name if visitor else _address(request)
    state.store.ledger.note(who, what, request.url.path[:200], state.clock())


def _address(request: Request) -> str:
    return f"nobody, from {request.client.host}" if request.client else "nobody"


def _refused(request: Request, error: Exception) -> Response:
    if not isinstance(error, RefusedError):  # pragma: no cover - as registered
        raise error
    if error.noted:
        _note(request, error.noted)
    return refusal_answer(request, error.page)


def _log_in(request: Request, error: Exception) -> Response:
    if not isinstance(error, LogInError):  # pragma: no cover - as registered
        raise error
    answer = RedirectResponse(error.where, HTTPStatus.SEE_OTHER)
    if error.forget:
        _note(request, "a cookie that is of no session")
        tls = state_of(request).settings.tls
        answer.delete_cookie(cookie_name(request), path="/", secure=tls, httponly=True)
    return answer


def cookie_name(request: Request) -> str:
    """Return the name of the cookie: bound to this very host where there is TLS."""
    return f"__Host-{COOKIE}" if state_of(request).settings.tls else COOKIE


def _of_status(request: Request, error: Exception) -> Response:
    if not isinstance(error, HTTPException):  # pragma: no cover - as registered
        raise error
    if error.status_code == HTTPStatus.REQUEST_ENTITY_TOO_LARGE:
        _note(request, "a body too large")
    answer = refusal_answer(request, _page(error.status_code))
    for name, value in (error.headers or {}).items():
        answer.headers[name] = value
    return answer


def _page(status: int) -> RefusedPage:
    if status in _PAGES:
        return RefusedPage(status, *_PAGES[status])
    return replace(RefusedPage(status, *_PAGES[400]), heading=HTTPStatus(status).phrase)


def _not_valid(request: Request, error: Exception) -> Response:
    """An address that names nothing: a word where a number stands."""
    del error
    return refusal_answer(request, _page(404))


def _no_book(request: Request, error: Exception) -> Response:
    cure = "A lead loads a fit book under 'Fit book, revisions' and puts it in force."
    return refusal_answer(request, RefusedPage(503, "No fit book to answer from", str(error), cure))


def failed(request: Request, error: Exception) -> Response:
    """Answer for a mistake of ours: the log holds what it was, the page does not."""
    _log.error("failed at %s %s", request.method, request.url.path, exc_info=error)
    return refusal_answer(request, _OURS)

"""Errors of the interface turned into problems: every fault at once, in words that mend it."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from http import HTTPStatus
from typing import Any, Final

from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from wickwright.catalogue.spelling import meant
from wickwright.desk.api_bodies import NAMES
from wickwright.desk.api_problems import ProblemError, Refusal, Wrong, problem_answer
from wickwright.desk.frame import visitor_of
from wickwright.desk.refusals import RefusedError
from wickwright.desk.shield import LARGEST_FORM
from wickwright.desk.state import state_of

__all__ = ["failed", "no_book", "not_valid", "of_status", "refused", "stated"]

IDEMPOTENCY_KEY: Final = "Idempotency-Key"
IF_MATCH: Final = "If-Match"

_WHERE: Final = ("body", "query", "path", "header")
_OF_HEADER: Final = {IDEMPOTENCY_KEY.lower(): Refusal.NO_KEY, IF_MATCH.lower(): Refusal.NO_IF_MATCH}
_OF_STATUS: Final = {
    400: (
        Refusal.NOT_READABLE,
        (
            "The body is no JSON text, or one nested too deeply or with a number too long: send "
            "one JSON object in UTF-8."
        ),
    ),
    404: (
        Refusal.NOT_FOUND,
        "The address names nothing: /api/v1/openapi.json lists every resource.",
    ),
    405: (Refusal.WRONG_METHOD, "The resource does not take this method."),
    413: (
        Refusal.TOO_LARGE,
        f"Send {LARGEST_FORM // 1000} kB at most; split a longer list.",
    ),
}


def stated(request: Request, error: Exception) -> Response:
    """Answer with a problem as it was raised."""
    if not isinstance(error, ProblemError):  # pragma: no cover - as registered
        raise error
    return problem_answer(request, error)


def of_status(request: Request, error: Exception) -> Response:
    """Answer with what the framework refuses by a status only."""
    if not isinstance(error, HTTPException):  # pragma: no cover - as registered
        raise error
    kind, says = _OF_STATUS.get(
        error.status_code, (Refusal.NOT_USABLE, HTTPStatus(error.status_code).phrase)
    )
    if error.status_code == HTTPStatus.REQUEST_ENTITY_TOO_LARGE:
        _note(request, "a body too large")
    problem = ProblemError(kind, says, status=error.status_code, headers=error.headers)
    return problem_answer(request, problem)


def refused(request: Request, error: Exception) -> Response:
    """Answer with what a page would be refused."""
    if not isinstance(error, RefusedError):  # pragma: no cover - as registered
        raise error
    page = error.page
    return problem_answer(request, ProblemError(Refusal.NOT_YOURS, f"{page.why} {page.cure}"))


def no_book(request: Request, error: Exception) -> Response:
    """Say that there is no fit book."""
    says = f"{error}: a lead loads a fit book and puts it in force."
    return problem_answer(
        request, ProblemError(Refusal.NO_BOOK, says, headers={"Retry-After": "600"})
    )


def failed(request: Request, error: Exception) -> Response:
    """Own up to a mistake; the server's log holds the rest."""
    del error
    says = "The program failed at this; nothing was changed half-way. Tell whoever runs the desk."
    return problem_answer(request, ProblemError(Refusal.OUR_MISTAKE, says))


def _note(request: Request, what: str) -> None:
    state, visitor = state_of(request), visitor_of(request)
    address = request.client.host if request.client else ""
    who = visitor.person.name if visitor else f"nobody, from {address}"
    state.store.ledger.note(who, what, request.url.path[:200], state.clock())


# -- what does not have the shape it should ------------------------------------------------------


def not_valid(request: Request, error: Exception) -> Response:
    """Answer with every fault of a request at once."""
    if not isinstance(error, RequestValidationError):  # pragma: no cover - as registered
        raise error
    found = error.errors()
    if any(one["type"] == "json_invalid" for one in found):
        reason = str(found[0]["ctx"]["error"])
        says = f"The body is no JSON text: {reason}, at sign {found[0]['loc'][1]}."
        return problem_answer(request, ProblemError(Refusal.NOT_READABLE, says))
    wrong = _one_each(_wrong(one, error.body) for one in found)
    kind = next((kind for one in wrong if (kind := _kind(one))), Refusal.NOT_USABLE)
    return problem_answer(request, ProblemError(kind, _summed(wrong), wrong))


def _one_each(found: Iterable[Wrong]) -> tuple[Wrong, ...]:
    """Tell once of each place: what may be of several kinds is wrong by each of them."""
    by_place: dict[tuple[str, tuple[str | int, ...]], Wrong] = {}
    for one in found:
        place = one.where, one.at
        before = by_place.get(place)
        more = one.says.partition(": ")[2]
        says = f"{before.says}, or {more}" if before and before.says != one.says else one.says
        by_place[place] = Wrong(one.where, one.at, says)
    return tuple(by_place.values())


def _kind(wrong: Wrong) -> Refusal | None:
    """Return the kind of a fault in a header that decides the status."""
    return _OF_HEADER.get(str(wrong.at[0]).lower()) if wrong.where == "header" else None


def _summed(wrong: Sequence[Wrong]) -> str:
    first = wrong[0].says
    return first if len(wrong) == 1 else f"{len(wrong)} things are wrong; the first: {first}"


def _wrong(error: Mapping[str, Any], body: object) -> Wrong:
    where, *at = error["loc"]
    if where not in _WHERE:  # pragma: no cover - the framework names these four
        return Wrong("body", (), str(error["msg"]))
    if where != "body":
        return Wrong(where, tuple(at), f"{at[0]}: {_says(error)}")
    path = _inside(at, body, missing=error["type"] == "missing")
    name = ".".join(str(one) for one in path) or "the body"
    says = _unknown(str(at[-1]), NAMES) if error["type"] == "extra_forbidden" else _says(error)
    return Wrong("body", path, f"{name}: {says}")


def _inside(at: Sequence[str | int], body: object, *, missing: bool) -> tuple[str | int, ...]:
    """Return the part of a way that lies in the body; behind it stand names of kinds."""
    here: object = body
    for many, key in enumerate(at):
        if not _holds(here, key):
            return tuple(at[: many + missing])
        here = here[key]  # type: ignore[index]  # it holds the key
    return tuple(at)


def _holds(here: object, key: str | int) -> bool:
    if isinstance(here, dict):
        return key in here
    return isinstance(here, list) and isinstance(key, int) and key < len(here)


def _says(error: Mapping[str, Any]) -> str:
    told, context = str(error["msg"]), error.get("ctx", {})
    match error["type"]:
        case "missing":
            return "is missing, and has to be there"
        case "string_pattern_mismatch":
            return f"is not of the form {context['pattern']}"
        case "string_too_short":
            least = context["min_length"]
            return f"has to be a text of at least {least} sign{'' if least == 1 else 's'}"
        case "string_too_long":
            return f"has to be a text of at most {context['max_length']} signs"
        case "model_attributes_type" | "model_type" | "dict_type":
            return "has to be a JSON object"
    return told.replace("Input should be", "has to be").replace("Input should", "has to")


def _unknown(name: str, known: Collection[str]) -> str:
    return f"is not known here: {meant(name, known)}/api/v1/openapi.json names what is"

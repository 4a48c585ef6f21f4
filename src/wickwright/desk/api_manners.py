"""What stands before every resource of the interface: methods, kinds of body, and HEAD."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final, TypeAlias

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import compile_path

from wickwright.catalogue.spelling import meant, quoted
from wickwright.desk.api_problems import ProblemError, Refusal, Wrong, problem_answer

if TYPE_CHECKING:
    import re
    from collections.abc import Callable, Mapping

    from starlette.types import ASGIApp, Message, Receive, Scope, Send

__all__ = ["Manners"]

Taken: TypeAlias = "Mapping[str, tuple[str, ...]]"
"""Methods a resource takes, each with the names its query takes."""

_JSON: Final = "application/json"
_PATCH: Final = "application/merge-patch+json"
_KINDS: Final = {"POST": (_JSON,), "PATCH": (_PATCH, _JSON)}


class Manners:
    """Wraps the interface: says which methods a resource takes, and answers HEAD and OPTIONS.

    Parameters
    ----------
    app : ASGIApp
        The interface.
    methods : callable
        Gives the methods of each path, its parameters in braces, each with the names its query
        takes; called once.
    """

    def __init__(self, app: ASGIApp, methods: Callable[[], Mapping[str, Taken]]) -> None:
        self.app = app
        self._methods = methods
        self._known: tuple[tuple[re.Pattern[str], Taken], ...] = ()

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer a request."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        request = Request(scope)
        taken = self._taken(request)
        answer = _refused(request, taken) if taken else None
        if answer is not None:
            await answer(scope, receive, send)
        elif taken and request.method == "HEAD":
            await self.app({**scope, "method": "GET"}, receive, _without_body(send))
        else:
            await self.app(scope, receive, send)

    def _taken(self, request: Request) -> Taken:
        """Return the methods of the resource; none where there is no such resource."""
        if not self._known:
            paths = self._methods().items()
            self._known = tuple((compile_path(path)[0], taken) for path, taken in paths)
        path = request.scope["path"].removeprefix(request.scope.get("root_path", ""))
        return next((taken for known, taken in self._known if known.match(path)), {})


def _refused(request: Request, taken: Taken) -> Response | None:
    """Answer OPTIONS, and what the resource does not take; None where it goes on."""
    allowed = {
        "Allow": ", ".join(sorted({*taken, "OPTIONS", *(["HEAD"] if "GET" in taken else [])}))
    }
    if request.method == "OPTIONS":
        return Response(status_code=204, headers=allowed)
    if request.method not in allowed["Allow"].split(", "):
        says = f"{request.method[:20]} is not done here; {allowed['Allow']} are."
        return problem_answer(request, ProblemError(Refusal.WRONG_METHOD, says, headers=allowed))
    kinds = _KINDS.get(request.method, ())
    media = request.headers.get("content-type", "").partition(";")[0].strip().lower()
    if kinds and media not in kinds:
        says = f"Send {' or '.join(kinds)}, and name it in the header Content-Type."
        accepts = {f"Accept-{request.method.title()}": ", ".join(kinds)}
        return problem_answer(request, ProblemError(Refusal.WRONG_MEDIA, says, headers=accepts))
    return _strange_query(
        request, taken.get("GET" if request.method == "HEAD" else request.method, ())
    )


def _strange_query(request: Request, names: tuple[str, ...]) -> Response | None:
    """Refuse what stands in a query and is not known: a misspelt revision would be passed over."""
    strange = [name for name in dict.fromkeys(request.query_params) if name not in names]
    if not strange:
        return None
    takes = f"it takes {', '.join(names)}" if names else "it takes none"
    wrong = [
        Wrong("query", (name,), f"{quoted(name)} is not known here: {meant(name, names)}{takes}")
        for name in strange
    ]
    return problem_answer(request, ProblemError(Refusal.NOT_USABLE, wrong[0].says, wrong))


def _without_body(send: Send) -> Send:
    async def sender(message: Message) -> None:
        if message["type"] == "http.response.body":
            message = {**message, "body": b""}
        await send(message)

    return sender

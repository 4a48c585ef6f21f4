"""What stands before every page: the names the desk answers to, sizes, and security headers."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import MutableHeaders
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response

if TYPE_CHECKING:
    from collections.abc import Callable

    from starlette.types import ASGIApp, Message, Receive, Scope, Send

    from wickwright.desk.state import DeskState

__all__ = ["LARGEST_FORM", "LARGEST_UPLOAD", "Shield", "largest"]

LARGEST_FORM: Final = 256_000
"""Bytes of a form or of a request by a machine [-]."""
LARGEST_UPLOAD: Final = 8_000_000
"""Bytes of a photograph or a fit book [-]."""
_UPLOADS: Final = re.compile(r"/calls/\d+/photos|/book/revisions")

_HEADERS: Final = {
    "Content-Security-Policy": (
        "default-src 'self'; object-src 'none'; base-uri 'none'; frame-ancestors 'none'; "
        "form-action 'self'"
    ),
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), microphone=(), geolocation=()",
}
_STRICT_TRANSPORT: Final = "max-age=31536000"
_TOO_LARGE = 413
_MISDIRECTED = 421


def largest(path: str) -> int:
    """Return how many bytes may be sent to a path [-]."""
    return LARGEST_UPLOAD if _UPLOADS.fullmatch(path) else LARGEST_FORM


class Shield:
    """Wraps the desk: refuses foreign names and large bodies, adds headers.

    Parameters
    ----------
    app : ASGIApp
        The desk.
    state : DeskState
        What it stands on.
    failed : callable
        Answers for a mistake of ours, so that the answer carries the headers too.
    """

    def __init__(
        self, app: ASGIApp, state: DeskState, failed: Callable[[Request, Exception], Response]
    ) -> None:
        self.app = app
        self._failed = failed
        self._state = state
        self._hosts = frozenset(host.lower() for host in state.settings.hosts)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer a request."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        request = Request(scope)
        sender = _Sender(send, _kept(request), tls=self._state.settings.tls)
        if request.headers.get("host", "").lower() not in self._hosts:
            await self._note(request)
            await _NOT_HERE(scope, receive, sender)
            return
        try:
            await self.app(scope, _limited(receive, request), sender)
        except Exception as error:
            answer = self._failed(request, error)
            if sender.started:
                raise
            await answer(scope, receive, sender)

    async def _note(self, request: Request) -> None:
        who = f"nobody, from {request.client.host}" if request.client else "nobody"
        at = self._state.clock()
        note = self._state.store.ledger.note
        await run_in_threadpool(note, who, "a name this desk does not answer to", "", at)


_NOT_HERE: Final = PlainTextResponse(
    "This desk does not answer to that name. Open it by the address it printed when it was "
    "started, or start it with --name and the name you use.\n",
    _MISDIRECTED,
)


def _limited(receive: Receive, request: Request) -> Receive:
    """Return a body that stops with a refusal once it is too large."""
    most, told = largest(request.url.path), request.headers.get("content-length", "0")
    too_large = not told.isdigit() or int(told) > most
    read = 0

    async def limited() -> Message:
        nonlocal read
        if too_large:
            raise HTTPException(_TOO_LARGE)
        message = await receive()
        read += len(message.get("body", b""))
        if read > most:
            raise HTTPException(_TOO_LARGE)
        return message

    return limited


def _kept(request: Request) -> str:
    """Return how long a browser keeps an answer: a page never, a file by its version."""
    if not request.url.path.startswith("/static/"):
        return "no-store"
    return "max-age=31536000, immutable" if request.query_params.get("v") else "no-cache"


class _Sender:
    """Sends an answer with the headers every answer has."""

    def __init__(self, send: Send, kept: str, *, tls: bool) -> None:
        self._send = send
        self._headers = {**_HEADERS, "Cache-Control": kept}
        if tls:
            self._headers["Strict-Transport-Security"] = _STRICT_TRANSPORT
        self.started = False

    async def __call__(self, message: Message) -> None:
        """Send a piece of an answer."""
        if message["type"] == "http.response.start":
            self.started = True
            headers = MutableHeaders(scope=message)
            for name, value in self._headers.items():
                headers.setdefault(name, value)
        await self._send(message)

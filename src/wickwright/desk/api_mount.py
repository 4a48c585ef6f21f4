"""Where the interface for machines hangs in the desk; it is loaded when the first machine asks.

Its models take as long to load as all pages together, and the first page of the morning is an
adviser's.
"""

from __future__ import annotations

from threading import Lock
from typing import TYPE_CHECKING

from starlette.concurrency import run_in_threadpool

if TYPE_CHECKING:
    from fastapi import FastAPI
    from starlette.types import ASGIApp, Receive, Scope, Send

    from wickwright.desk.state import DeskState

__all__ = ["API_PATH", "LaterInterface", "add_interface"]

API_PATH = "/api/v1"


class LaterInterface:
    """The interface, put together at the first request.

    Parameters
    ----------
    state : DeskState
        What it stands on.
    """

    def __init__(self, state: DeskState) -> None:
        self._state = state
        self._made: ASGIApp | None = None
        self._lock = Lock()

    def ready(self) -> ASGIApp:
        """Return the interface; one thread puts it together."""
        with self._lock:
            if self._made is None:
                from wickwright.desk.api import interface  # noqa: PLC0415 - as the module says

                self._made = interface(self._state)
            return self._made

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer a request."""
        made = await run_in_threadpool(self.ready) if self._made is None else self._made
        await made(scope, receive, send)


def add_interface(app: FastAPI) -> None:
    """Put the interface under its path.

    Parameters
    ----------
    app : FastAPI
        The desk, with its state.
    """
    app.mount(API_PATH, LaterInterface(app.state.desk))

"""The real desk on a real socket: its own store, its own server, the demo book and its calls."""

from __future__ import annotations

import secrets
import socket
import time
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import cache
from threading import Thread
from typing import TYPE_CHECKING

import uvicorn
from tests.support.command import DEMO
from tests.support.demo import demo
from tests.support.desks import PASSWORD, PEOPLE, demo_tables, passwords

from wickwright.answers.sheet.desk_store import Person, Role
from wickwright.catalogue.faults import Fault
from wickwright.desk.app import desk_app
from wickwright.desk.filling import begin_book, begin_calls
from wickwright.desk.open_books import OpenBooks
from wickwright.desk.state import DeskSettings, DeskState
from wickwright.fit.compiled import compile_book
from wickwright.store.opening import open_store
from wickwright.store.places import read_towns
from wickwright.store.uploads import read_upload

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from fastapi import FastAPI

    from wickwright.answers.places.town_table import TownTable
    from wickwright.answers.sheet.desk_store import Store
    from wickwright.catalogue.records import Book
    from wickwright.fit.compiled import Compiled

__all__ = ["ADVISER", "OpenDesk", "open_desk"]

ADVISER = "Mari"
"""Who sits at a desk without log-in."""
_PATIENCE = 20.0


@cache
def _towns() -> TownTable:
    found = read_towns(DEMO.parent / "places")
    assert not isinstance(found, tuple | Fault), found
    return found


def _compiled(book: Book) -> Compiled:
    return demo() if book == demo().book else compile_book(book)


@dataclass(frozen=True)
class OpenDesk:
    """A desk that can be visited.

    Attributes
    ----------
    url : str
        Its address, without a slash at the end.
    state : DeskState
        What its pages stand on.
    app : FastAPI
        The application.
    """

    url: str
    state: DeskState
    app: FastAPI


@contextmanager
def open_desk(place: str | Path, *, people: bool = False) -> Iterator[OpenDesk]:
    """Give a desk that is open.

    Parameters
    ----------
    place : str or Path
        Of its store, which has nothing in it.
    people : bool
        Whether one has to log in; one of each role may then.
    """
    store = open_store(str(place))
    try:
        with socket.create_server(("127.0.0.1", 0)) as listener:
            name = f"127.0.0.1:{listener.getsockname()[1]}"
            state = _state(store, name, people=people)
            _fill(state, people=people)
            app = desk_app(state)
            with _served(app, listener):
                yield OpenDesk(f"http://{name}", state, app)
    finally:
        store.close()


def _state(store: Store, name: str, *, people: bool) -> DeskState:
    return DeskState(
        store=store,
        books=OpenBooks(store.books, _compiled),
        clock=lambda: datetime.now(UTC),
        token=lambda: secrets.token_urlsafe(32),
        passwords=passwords(),
        read_upload=read_upload,
        towns=_towns,
        settings=DeskSettings(hosts=(name,), single="" if people else ADVISER),
        form_key=secrets.token_urlsafe(32),
    )


def _fill(state: DeskState, *, people: bool) -> None:
    now, store = state.clock(), state.store
    revision = begin_book(store, demo_tables(), "the demo book", now)
    lines = (DEMO / "calls.jsonl").read_text(encoding="utf-8").splitlines()
    begin_calls(store, lines, Person(ADVISER, Role.ADVISER, "front", ""), revision.id, now)
    for name, role in PEOPLE.items() if people else ():
        store.people.put(Person(name, role, "front", passwords().hashed(PASSWORD)), ADVISER, now)


@contextmanager
def _served(app: FastAPI, listener: socket.socket) -> Iterator[None]:
    config = uvicorn.Config(app, log_level="warning", access_log=False, server_header=False)
    server = uvicorn.Server(config)
    thread = Thread(target=server.run, kwargs={"sockets": [listener]}, daemon=True)
    thread.start()
    try:
        until = time.monotonic() + _PATIENCE
        while not server.started:
            assert thread.is_alive(), "the server ended while it started"
            assert time.monotonic() < until, "the server did not start"
            time.sleep(0.01)
        yield
    finally:
        server.should_exit = True
        thread.join(_PATIENCE)

"""The desk started: its store filled, its address printed, its server run until it is stopped."""

from __future__ import annotations

import secrets
import signal
import socket
import sys
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from functools import cache
from threading import Timer
from typing import TYPE_CHECKING, Final

import uvicorn

from wickwright.answers.sheet.desk_store import Person, Role
from wickwright.desk.app import desk_app
from wickwright.desk.filling import begin_book, begin_calls, let_in
from wickwright.desk.open_books import NoBookError, OpenBooks
from wickwright.desk.passwords import Passwords
from wickwright.desk.running import CannotRunError, is_loopback, settings_for
from wickwright.desk.state import DeskState

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from wickwright.answers.places.town_table import TownTable
    from wickwright.answers.sheet.desk_store import Store
    from wickwright.catalogue.faults import Fault, RawTable
    from wickwright.catalogue.records import Book
    from wickwright.desk.running import Running
    from wickwright.fit.compiled import Compiled

__all__ = ["Supplies", "serve"]

_BYTES: Final = 32
_TURN: Final = 0.0005
"""How long one desk's answer is worked at before another desk has its turn [s]; at the usual 5 ms a
keystroke waits many turns for the routes of somebody else's lamp."""
_SOON: Final = 0.5
"""After the first page, before the first call [s]."""


@dataclass(frozen=True, slots=True)
class Supplies:
    """What the desk is given to start with.

    Attributes
    ----------
    store : Store
        Open; it is closed when the desk stops.
    first_book : callable
        Tables and name of the book a new store begins with, without faults.
    demo_calls : callable
        Calls of the demo book, a line of JSON each; none for another book.
    compile_book : callable
        Makes a book ready.
    read_upload : callable
        As of :class:`wickwright.desk.state.DeskState`.
    towns : callable
        As there, read anew each time.
    say : callable
        Prints a line.
    open_browser : callable or None
        Shows an address in a browser; None leaves it.
    """

    store: Store
    first_book: Callable[[], tuple[Sequence[RawTable], str]]
    demo_calls: Callable[[], Iterable[str]]
    compile_book: Callable[[Book], Compiled]
    read_upload: Callable[[str, bytes], tuple[RawTable, ...] | tuple[Fault, ...]]
    towns: Callable[[], TownTable | None]
    say: Callable[[str], None]
    open_browser: Callable[[str], object] | None = None


def serve(running: Running, supplies: Supplies) -> None:
    """Run the desk until it is stopped.

    Parameters
    ----------
    running : Running
        How.
    supplies : Supplies
        What it starts with.

    Raises
    ------
    CannotRunError
        When it cannot be run so.
    """
    store = supplies.store
    try:
        settings_for(running, people=bool(store.people.people()))
        with _listening(running) as listener:
            bound = replace(running, port=listener.getsockname()[1])
            state = _state(bound, supplies)
            _fill(state, supplies)
            _tell(bound, state, supplies)
            _run(bound, state, listener)
    finally:
        store.close()
    supplies.say("The desk is closed; every call is kept.")


def _listening(running: Running) -> socket.socket:
    family = socket.AF_INET6 if ":" in running.host else socket.AF_INET
    try:
        return socket.create_server((running.host, running.port), family=family)
    except OSError as error:
        msg = (
            f"the desk cannot listen at {running.host}, port {running.port}: "
            f"{error.strerror or error}; is it running already? Or take another with --port"
        )
        raise CannotRunError(msg) from error


def _state(running: Running, supplies: Supplies) -> DeskState:
    store = supplies.store
    return DeskState(
        store=store,
        books=OpenBooks(store.books, supplies.compile_book),
        clock=lambda: datetime.now(UTC),
        token=_token,
        passwords=Passwords(),
        read_upload=supplies.read_upload,
        towns=cache(supplies.towns),
        settings=settings_for(running, people=bool(store.people.people())),
        form_key=_token(),
    )


def _token() -> str:
    return secrets.token_urlsafe(_BYTES)


def _fill(state: DeskState, supplies: Supplies) -> None:
    """Give a new store its book and calls."""
    store, now = state.store, state.clock()
    if store.books.in_force() is not None:
        return
    tables, name = supplies.first_book()
    revision = begin_book(store, tables, name, now)
    who = Person(state.settings.single or "demo", Role.ADVISER, state.settings.desk, "")
    count = begin_calls(store, supplies.demo_calls(), who, revision.id, now)
    told = f", with {count} calls to try" if count else ""
    supplies.say(f"A new store: {name} is in force{told}.")


def _tell(running: Running, state: DeskState, supplies: Supplies) -> None:
    address = _address(running)
    if running.first_lead:
        secret = let_in(
            state.store,
            state.passwords,
            state.token,
            running.first_lead,
            running.desk,
            state.clock(),
        )
        supplies.say(f"{running.first_lead} logs in once with: {secret}")
        supplies.say("Then a password has to be chosen. This is not shown again.")
    if not is_loopback(running.host) and not state.settings.tls:
        supplies.say("WARNING: plain HTTP; passwords and callers' names can be read on the way.")
    who = f"for {state.settings.single}, without log-in" if state.settings.single else "log in"
    supplies.say(f"The desk is open at {address} ({who}). Ctrl-C closes it.")
    if supplies.open_browser:
        supplies.open_browser(address)


def _address(running: Running) -> str:
    scheme, usual = ("https", 443) if running.certificate else ("http", 80)
    names = (*running.names, running.host)
    name = f"[{names[0]}]" if ":" in names[0] else names[0]
    return f"{scheme}://{name}{'' if running.port == usual else f':{running.port}'}/"


def _run(running: Running, state: DeskState, listener: socket.socket) -> None:
    config = uvicorn.Config(
        desk_app(state),
        log_level="warning",
        access_log=False,
        server_header=False,
        proxy_headers=False,
        ssl_certfile=running.certificate,
        ssl_keyfile=running.key,
        timeout_graceful_shutdown=5,
    )
    sys.setswitchinterval(_TURN)
    ends, ready = signal.signal(signal.SIGTERM, _end), Timer(_SOON, _make_ready, (state.books,))
    ready.start()
    try:
        uvicorn.Server(config).run(sockets=[listener])
    except (KeyboardInterrupt, _EndedError):
        pass
    finally:
        ready.cancel()
        ready.join()
        signal.signal(signal.SIGTERM, ends)


def _make_ready(books: OpenBooks) -> None:
    """Make the book ready before the first call needs it; a page says it where there is none."""
    with suppress(NoBookError):
        _ = books.in_force().asking


class _EndedError(Exception):
    """The system asked the desk to end."""


def _end(number: int, frame: object) -> None:
    del number, frame
    raise _EndedError

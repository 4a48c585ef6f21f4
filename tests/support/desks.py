"""A desk made of the demo book and a store of its own, and browsers that visit it."""

from __future__ import annotations

import atexit
import re
import shutil
import tempfile
import weakref
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from functools import cache
from itertools import count
from pathlib import Path
from typing import TYPE_CHECKING

from argon2 import PasswordHasher
from argon2.profiles import CHEAPEST
from starlette.testclient import TestClient
from tests.support.command import DEMO_BOOK
from tests.support.demo import demo

from wickwright.answers.sheet.desk_store import Person, Role
from wickwright.desk.app import desk_app
from wickwright.desk.open_books import OpenBooks
from wickwright.desk.passwords import Passwords
from wickwright.desk.state import DeskSettings, DeskState
from wickwright.fit.compiled import compile_book
from wickwright.store.opening import open_store
from wickwright.store.places import read_towns
from wickwright.store.tables import are_faults, read_tables
from wickwright.store.uploads import read_upload

if TYPE_CHECKING:
    from collections.abc import Mapping

    from httpx2 import Response

    from wickwright.answers.places.town_table import TownTable
    from wickwright.answers.sheet.desk_store import Store
    from wickwright.catalogue.faults import RawTable
    from wickwright.catalogue.records import Book
    from wickwright.fit.compiled import Compiled

__all__ = ["HOST", "ORIGIN", "PEOPLE", "Browser", "Clock", "Desk", "new_desk"]

TOWNS = DEMO_BOOK.parent.parent / "places"
HOST = "127.0.0.1:8737"
ORIGIN = f"http://{HOST}"
PASSWORD = "copper kettle on the sill"  # noqa: S105 - of people who do not exist
PEOPLE = {
    "Ingrid": Role.LEAD,
    "Tomas": Role.ADVISER,
    "Odile": Role.INSPECTOR,
    "Ravi": Role.PLANNER,
}


class Clock:
    """A clock that is set by hand."""

    def __init__(self) -> None:
        self.now = datetime(2031, 3, 4, 9, 30, tzinfo=UTC)

    def __call__(self) -> datetime:
        """Return the time."""
        return self.now

    def on(self, **by: float) -> None:
        """Let time pass."""
        self.now += timedelta(**by)


@cache
def passwords() -> Passwords:
    return Passwords(PasswordHasher.from_parameters(CHEAPEST))


@cache
def demo_tables() -> tuple[RawTable, ...]:
    tables = read_tables(DEMO_BOOK)
    assert not are_faults(tables)
    return tables


def _compiled(book: Book) -> Compiled:
    return demo() if book == demo().book else compile_book(book)


@cache
def _towns() -> TownTable:
    read = read_towns(TOWNS)
    assert not isinstance(read, tuple)
    return read


@dataclass(frozen=True)
class Desk:
    """A desk to visit.

    Attributes
    ----------
    state : DeskState
        What its pages stand on.
    clock : Clock
        Its clock.
    """

    state: DeskState
    clock: Clock

    def browser(self) -> Browser:
        """Open a browser nobody has logged in with."""
        return Browser(self)

    def logged_in(self, name: str) -> Browser:
        """Open a browser with somebody logged in."""
        browser = self.browser()
        answer = browser.post("/login", {"name": name, "password": PASSWORD}, key=False)
        assert answer.status_code == 303, answer.text
        return browser


class Browser:
    """Asks for pages, follows no redirect, sends forms with what a browser sends."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.client = TestClient(desk_app(desk.state), base_url=ORIGIN, follow_redirects=False)

    def get(self, path: str, **headers: str) -> Response:
        """Open a page."""
        return self.client.get(path, headers=headers)

    def form_key(self, path: str = "/keys") -> str:
        """Return the key of the forms."""
        found = re.search(r'name="form-key" content="([^"]+)"', self.get(path).text)
        assert found
        return found.group(1)

    def post(
        self,
        path: str,
        fields: Mapping[str, str | list[str]] | None = None,
        *,
        key: bool = True,
        files: dict[str, tuple[str, bytes, str]] | None = None,
        origin: str | None = ORIGIN,
    ) -> Response:
        """Send a form."""
        sent = {**(fields or {})}
        if key:
            sent["form_key"] = self.form_key()
        headers = {"origin": origin} if origin is not None else {}
        return self.client.post(path, data=sent, files=files, headers=headers)


@cache
def _beginning() -> Path:
    """Return a store with the demo book in force and one person of each role."""
    folder = Path(tempfile.mkdtemp())
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    store, now = open_store(folder / "desk.sqlite"), Clock().now
    revision = store.books.add(demo_tables(), "demo", "Ingrid", now)
    store.books.put_in_force(revision.id, "Ingrid", "first book", now)
    for name, role in PEOPLE.items():
        store.people.put(Person(name, role, "front", passwords().hashed(PASSWORD)), "Ingrid", now)
    store.close()
    return folder / "desk.sqlite"


def _end(store: Store, folder: Path) -> None:
    store.close()
    shutil.rmtree(folder, ignore_errors=True)


def new_desk(*, single: str = "") -> Desk:
    """Return a desk with the demo book in force and one person of each role.

    Parameters
    ----------
    single : str
        Name of the one who works there without logging in.
    """
    folder = Path(tempfile.mkdtemp())
    shutil.copy(_beginning(), folder / "desk.sqlite")
    store, clock, tokens = open_store(folder / "desk.sqlite"), Clock(), count(1)
    state = DeskState(
        store=store,
        books=OpenBooks(store.books, _compiled),
        clock=clock,
        token=lambda: f"a secret that nobody guesses {next(tokens)}",
        passwords=passwords(),
        read_upload=read_upload,
        towns=_towns,
        settings=DeskSettings(hosts=(HOST,), single=single),
        form_key="the key of single",
    )
    desk = Desk(state, clock)
    weakref.finalize(desk, _end, store, folder)
    return desk

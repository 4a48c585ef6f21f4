"""The desk's store opened, on SQLite or PostgreSQL, by one setting."""

from __future__ import annotations

import os
import sqlite3
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Final

import sqlalchemy as sa

from wickwright.store.desk_books import KeptBooks
from wickwright.store.desk_calls import KeptCalls
from wickwright.store.desk_ledger import KeptLedger
from wickwright.store.desk_people import KeptPeople
from wickwright.store.desk_replies import KeptReplies
from wickwright.store.engines import open_postgresql, open_sqlite
from wickwright.store.errors import StoreError
from wickwright.store.migrating import bring_up_to_date, refuse_unknown

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickwright.store.engines import Engines

__all__ = ["KeptStore", "StoreError", "open_store"]

_SQLITE: Final = b"SQLite format 3\0"
_SERVERS: Final = ("postgresql://", "postgres://")


class KeptStore:
    """Calls, fit books, people, ledger and answers to keyed writes, in one database.

    Parameters
    ----------
    engines : Engines
        Where transactions come from.
    says : str
        What to call it, without a password.

    Attributes
    ----------
    engines, says
        The same.
    calls, books, people, ledger, replies
        As of :class:`wickwright.answers.sheet.desk_store.Store`.
    """

    def __init__(self, engines: Engines, says: str) -> None:
        self.engines = engines
        self.says = says
        self.calls = KeptCalls(engines)
        self.books = KeptBooks(engines)
        self.people = KeptPeople(engines)
        self.ledger = KeptLedger(engines)
        self.replies = KeptReplies(engines)

    @contextmanager
    def together(self) -> Iterator[None]:
        """Have all writes of this thread done whole or not at all."""
        with self.engines.writing():
            yield

    def close(self) -> None:
        """Let go of files and connections."""
        self.engines.close()


def open_store(place: str | Path, *, as_it_is: bool = False) -> KeptStore:
    """Open a store; begin it where there is none, bring its tables up to date.

    Parameters
    ----------
    place : str or Path
        A file for SQLite, or ``postgresql://user@host/database``.
    as_it_is : bool
        True refuses a store that is not there or not up to date, and changes nothing.

    Returns
    -------
    KeptStore
        Open until it is closed.

    Raises
    ------
    StoreError
        When it cannot be opened, is of a newer program or holds something else.
    """
    says = _without_password(str(place))
    try:
        engines = _engines(place, as_it_is=as_it_is)
        try:
            (refuse_unknown if as_it_is else bring_up_to_date)(engines, says)
        except BaseException:
            engines.close()
            raise
    except (sa.exc.SQLAlchemyError, sqlite3.Error, OSError) as error:
        raise StoreError(_refusal(says, error)) from error
    return KeptStore(engines, says)


def _engines(place: str | Path, *, as_it_is: bool) -> Engines:
    if isinstance(place, str) and place.startswith(_SERVERS):
        return open_postgresql(place.replace("postgres://", "postgresql://", 1))
    path = Path(place).expanduser().absolute()
    if not as_it_is:
        path.parent.mkdir(parents=True, exist_ok=True)
    elif not path.exists():
        msg = f"there is no store '{path}': name the one that 'wickwright desk' was started with"
        raise StoreError(msg)
    _begin_file(path)
    return open_sqlite(path)


def _begin_file(path: Path) -> None:
    """Make a file that only its owner reads; refuse one that is something else."""
    descriptor = os.open(path, os.O_RDWR | os.O_CREAT, 0o600)
    with os.fdopen(descriptor, "rb") as file:
        begins = file.read(len(_SQLITE))
    if begins not in (b"", _SQLITE):
        msg = f"'{path}' is no store but some other file: name another one with --store"
        raise StoreError(msg)


def _without_password(place: str) -> str:
    if not place.startswith(_SERVERS):
        return f"'{place}'"
    try:
        return f"'{sa.make_url(place).render_as_string(hide_password=True)}'"
    except (sa.exc.ArgumentError, ValueError) as error:
        msg = "the address of the store cannot be read: write postgresql://user@host/database"
        raise StoreError(msg) from error


def _refusal(says: str, error: Exception) -> str:
    cause = getattr(error, "orig", None) or error
    why = str(cause).strip().splitlines()[0] if str(cause).strip() else type(cause).__name__
    if "malformed" in why:
        return (
            f"the store {says} is damaged ({why}): restore the last backup into a new store, and "
            "keep this file for whoever looks into it"
        )
    return (
        f"the store {says} cannot be opened: {why}; name a file in a folder you may write to, or "
        "a database of a PostgreSQL server that is running, with --store or WICKWRIGHT_STORE"
    )

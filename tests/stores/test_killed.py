"""Writers killed in the middle of their work: what was acknowledged is there, and nothing by half.

A killed process shows what a commit leaves to memory of the program and of the server. It cannot
show what a disk loses with its power; for that SQLite waits for the disk at every commit.
"""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import time
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
import sqlalchemy as sa
from tests.stores.filled import AT
from tests.stores.postgres import running_cluster

import wickwright
from wickwright.store.opening import open_store

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tests.stores.postgres import Cluster

    from wickwright.store.opening import KeptStore

ROUNDS, WRITES = 10, 100

WRITER = """
import os, sys
from datetime import UTC, datetime
from wickwright.answers.sheet.call_record import Caller, Said
from wickwright.answers.sheet.desk_store import Person, Role
from wickwright.store.opening import open_store

at, ann = datetime(2026, 3, 5, tzinfo=UTC), Person("Ann", Role.ADVISER, "front", "")

def write(place, which):
    store = open_store(place)
    os.write(1, f"begun {os.getpid()}\\n".encode())
    for number in range(1000):
        words = f"{which}/{number}"
        with store.together():
            call = store.calls.begin(Said(words=words, have=("CH-1",)), Caller(), ann, "b", at)
            store.calls.save(call.number, 1, Said(words=words), "Ann", at)
            store.calls.give(call.number, "order", {"words": words}, "Ann", at)
            store.ledger.note("Ann", "wrote", words, at)
        os.write(1, f"{words}\\n".encode())

for line in sys.stdin:
    child = os.fork()
    if not child:
        try:
            write(*line.split())
        finally:
            os._exit(1)
    os.waitpid(child, 0)
    os.write(1, b"dead\\n")
"""
"""Starts a writer for each line it reads: its libraries are loaded only once."""

Writer = subprocess.Popen[str]


@pytest.fixture(scope="module")
def writer() -> Iterator[Writer]:
    """Give the process that starts writers."""
    sources = str(Path(wickwright.__file__).parent.parent)
    with subprocess.Popen(  # noqa: S603 - our own program
        [sys.executable, "-c", WRITER],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
        env={**os.environ, "PYTHONPATH": sources},
    ) as process:
        yield process
        assert process.stdin is not None
        process.stdin.close()


def said_until_dead(writer: Writer) -> list[str]:
    """Return what a writer still said before it died."""
    assert writer.stdout is not None
    found = []
    while (line := writer.stdout.readline().strip()) != "dead":
        assert line
        found.append(line)
    return found


def begun(writer: Writer, place: str, which: int) -> int:
    """Start a writer; return its process."""
    assert writer.stdin is not None
    assert writer.stdout is not None
    writer.stdin.write(f"{place} {which}\n")
    writer.stdin.flush()
    word, process = writer.stdout.readline().split()
    assert word == "begun"
    return int(process)


def acknowledged(writer: Writer, place: str, which: int, many: int) -> list[str]:
    """Let a writer acknowledge some writes, kill it, and return all it acknowledged."""
    process = begun(writer, place, which)
    assert writer.stdout is not None
    found = [writer.stdout.readline().strip() for _ in range(many)]
    os.kill(process, signal.SIGKILL)
    return found + said_until_dead(writer)


def whole_calls(store: KeptStore) -> list[str]:
    """Return the words of every call, and see that none is there by half."""
    found = []
    for line in store.calls.find("", 100_000):
        assert [step.did for step in store.calls.trail(line.number)] == ["begun", "said", "given"]
        assert [one.answer for one in store.calls.given(line.number)] == [{"words": line.words}]
        found.append(line.words)
    assert sorted(found) == sorted(line.where for line in store.ledger.newest(100_000))
    assert store.calls.with_part("CH-1") == ()
    return found


def test_a_killed_desk_has_kept_all_it_acknowledged(place: str, writer: Writer) -> None:
    """If this fails, an adviser sees 'saved' and the call is gone after a crash."""
    open_store(place).close()
    draws, told, kept = random.Random(5), list[str](), set[str]()
    for which in range(ROUNDS):
        told += acknowledged(writer, place, which, draws.randint(1, WRITES - 1))
        with closing(open_store(place)) as store:
            kept = {line.words for line in store.calls.find("", 100_000)}
            assert set(told) <= kept
            assert len(kept) - len(told) <= which + 1
            if store.engines.dialect == "sqlite":
                with store.engines.reading() as connection:
                    check = sa.text("PRAGMA integrity_check")
                    assert list(connection.scalars(check)) == ["ok"]
    assert len(told) >= ROUNDS
    with closing(open_store(place)) as store:
        assert kept == set(whole_calls(store))


def test_a_killed_server_has_kept_all_it_acknowledged(writer: Writer) -> None:
    """If this fails, a crash of PostgreSQL's machine takes calls that were told to be kept."""
    with running_cluster("fsync=on", "synchronous_commit=on") as server:
        place = server.emptied()
        with closing(open_store(place)) as desk:
            desk.ledger.note("Ann", "wrote", "before", AT)
            begun(writer, place, 0)
            assert writer.stdout is not None
            told = [writer.stdout.readline().strip() for _ in range(WRITES // 2)]
            kill_server(server)
            told += said_until_dead(writer)
            server.start()
            kept = {line.where for line in desk.ledger.newest(100_000)}
            assert {*told, "before"} <= kept
            assert {line.words for line in desk.calls.find("", 100_000)} == kept - {"before"}


def kill_server(server: Cluster) -> None:
    """Kill every process of a server at once."""
    first = server.process
    children = [
        int(folder.name)
        for folder in Path("/proc").iterdir()
        if folder.name.isdecimal() and _parent(folder) == first
    ]
    for process in (first, *children):
        os.kill(process, signal.SIGKILL)
    while any(_runs(process) for process in (first, *children)):
        time.sleep(0.01)
    # Nobody may have buried the process yet, and the next server would take it for a running one.
    (server.data / "postmaster.pid").unlink()
    (server.folder / ".s.PGSQL.5432.lock").unlink()


def _parent(folder: Path) -> int:
    try:
        return int((folder / "stat").read_text().rpartition(")")[2].split()[1])
    except OSError:
        return 0


def _runs(process: int) -> bool:
    """Say whether a process still runs; one that only waits to be buried does not."""
    try:
        return Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()[0] != "Z"
    except OSError:
        return False

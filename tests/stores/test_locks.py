"""The lock that writers of one SQLite file queue at, whichever program they are in."""

from __future__ import annotations

import subprocess
import sys
import threading
from pathlib import Path

import pytest
from tests.stores.filled import AT

import wickwright
from wickwright.store import file_locks
from wickwright.store.file_locks import FileLock, StoreBusyError
from wickwright.store.opening import open_store

HOLDER = """
import sys
from wickwright.store.file_locks import FileLock
from pathlib import Path
with FileLock(Path(sys.argv[1]))():
    print("held", flush=True)
    sys.stdin.read()
"""


def held_elsewhere(path: Path) -> subprocess.Popen[str]:
    """Return a program of its own that holds the lock until its input ends."""
    program = subprocess.Popen(  # noqa: S603 - our own program
        [sys.executable, "-c", HOLDER, str(path)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        env={"PYTHONPATH": str(Path(wickwright.__file__).parent.parent)},
    )
    assert program.stdout is not None
    assert program.stdout.readline() == "held\n"
    return program


def test_a_writer_waits_for_a_writer_of_another_program(tmp_path: Path) -> None:
    """If this fails, a restore and a desk write to one file at once."""
    store = open_store(tmp_path / "desk.sqlite")
    with held_elsewhere(tmp_path / "desk.sqlite-lock") as other:
        writer = threading.Thread(target=store.ledger.note, args=("Ann", "waited", "", AT))
        writer.start()
        writer.join(0.3)
        assert writer.is_alive()
        assert store.ledger.newest() == ()
        other.communicate("")
        writer.join(30)
    assert [line.what for line in store.ledger.newest()] == ["waited"]
    store.close()


def test_a_lock_goes_with_a_program_that_is_killed(tmp_path: Path) -> None:
    """If this fails, a desk that was killed locks the store until somebody removes a file."""
    store = open_store(tmp_path / "desk.sqlite")
    with held_elsewhere(tmp_path / "desk.sqlite-lock") as other:
        other.kill()
        other.wait()
        store.ledger.note("Ann", "went on", "", AT)
    store.close()


def test_whoever_waits_too_long_is_told_what_for(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """If this fails, a desk behind a stopped program stands still without a word."""
    monkeypatch.setattr(file_locks, "_PATIENCE", 0.05)
    with held_elsewhere(tmp_path / "desk.sqlite-lock") as other:
        with pytest.raises(StoreBusyError) as refused, FileLock(tmp_path / "desk.sqlite-lock")():
            pass
        other.communicate("")
    assert str(refused.value) == (
        "another program has been writing to 'desk.sqlite' for 0 seconds: let its backup or "
        "restore end, or stop it"
    )
    with FileLock(tmp_path / "desk.sqlite-lock")():
        pass

from __future__ import annotations

import os
from pathlib import Path

import pytest

from wickwright.store.whole_files import write_files, write_folder

_FULL = "no space left"


def _fail_at(monkeypatch: pytest.MonkeyPatch, what: str, time: int) -> None:
    """Make a step of writing fail the given time it is taken."""
    owner = os if what == "fsync" else Path
    step = getattr(owner, what)
    times = iter(range(1, 100))

    def failing(*args: object) -> object:
        if next(times) == time:
            raise OSError(_FULL)
        return step(*args)

    monkeypatch.setattr(owner, what, failing)


def _seen(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir()}


@pytest.mark.parametrize("time", [1, 2])
def test_a_write_that_fails_leaves_every_old_file_whole(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, time: int
) -> None:
    """A full disk would leave half a book, or half of each of two editions."""
    old = {"a.csv": b"old a", "b.csv": b"old b"}
    write_folder(tmp_path, old)
    _fail_at(monkeypatch, "fsync", time)
    with pytest.raises(OSError, match=_FULL):
        write_folder(tmp_path, {"a.csv": b"new a", "b.csv": b"new b"})
    assert _seen(tmp_path) == old


def test_a_replacement_that_fails_leaves_each_file_whole(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A file in use by another program would end up cut in two, or with leavings beside it."""
    write_folder(tmp_path, {"a.csv": b"old a", "b.csv": b"old b"})
    _fail_at(monkeypatch, "replace", 2)
    with pytest.raises(OSError, match=_FULL):
        write_folder(tmp_path, {"a.csv": b"new a", "b.csv": b"new b"})
    assert _seen(tmp_path) == {"a.csv": b"new a", "b.csv": b"old b"}


def test_a_new_folder_appears_whole_or_not_at_all(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Half a new book would stand where a whole one is expected."""
    _fail_at(monkeypatch, "fsync", 2)
    with pytest.raises(OSError, match=_FULL):
        write_folder(tmp_path / "book", {"a.csv": b"a", "b.csv": b"b"})
    assert _seen(tmp_path) == {}
    write_folder(tmp_path / "book", {"a.csv": b"a", "b.csv": b"b"})
    assert _seen(tmp_path / "book") == {"a.csv": b"a", "b.csv": b"b"}


def test_a_link_is_followed_and_permissions_are_kept(tmp_path: Path) -> None:
    """A book shared by a link would be cut off from those who share it."""
    real, link = tmp_path / "real.xlsx", tmp_path / "link.xlsx"
    real.write_bytes(b"old")
    real.chmod(0o640)
    link.symlink_to(real)
    write_files({link: b"new"})
    assert link.is_symlink()
    assert real.read_bytes() == b"new"
    assert real.stat().st_mode & 0o777 == 0o640

"""``wickwright backup`` and ``restore``, from the words typed to the file and back."""

from __future__ import annotations

import hashlib
import json
from contextlib import closing
from typing import TYPE_CHECKING

import pytest
from tests.stores.filled import fill
from tests.support.command import said

from wickwright.store.opening import open_store
from wickwright.store.where import store_place

if TYPE_CHECKING:
    from pathlib import Path


@pytest.fixture
def filled(tmp_path: Path) -> Path:
    """Give a store where the program keeps it by itself."""
    place = tmp_path / "wickwright" / "desk.sqlite"
    with closing(open_store(place)) as store:
        fill(store)
    return place


def test_a_store_goes_into_a_file_and_comes_back(tmp_path: Path, filled: Path) -> None:
    """If this fails, a desk that lost its disk stays lost."""
    file, other = tmp_path / "b", tmp_path / "other.sqlite"
    made = said("backup", str(file), columns=120, XDG_DATA_HOME=str(tmp_path))
    assert (made.code, made.err) == (0, "")
    whole = " ".join(made.out.split())
    assert whole.startswith(f"The store '{filled}' as of 20")
    assert f" is in '{file}': table rows SHA-256 begins with calls 3 " in whole
    lines = made.out.splitlines()
    assert lines[-2] == "30 rows in all. SHA-256 of the file:"
    assert lines[-1] == f"  {hashlib.sha256(file.read_bytes()).hexdigest()}"
    back = said("restore", str(file), columns=120, WICKWRIGHT_STORE=str(other))
    assert (back.code, back.err) == (0, "")
    again = " ".join(back.out.split())
    assert again.startswith(f"The store '{other}' holds what '{file}' holds, made 20")
    assert again[again.index("table rows") :] == whole[whole.index("table rows") :]
    with closing(open_store(other)) as store:
        assert len(store.calls.find("")) == 3


def test_machines_are_told_the_whole_checksums(tmp_path: Path, filled: Path) -> None:
    """If this fails, a script cannot see whether last night's backup is whole."""
    made = said("backup", str(tmp_path / "b"), "--store", str(filled), "--json")
    plain = json.loads(made.out)
    assert list(plain) == ["store", "made", "tables", "rows", "file_sha256", "erased_again"]
    assert sum(one["rows"] for one in plain["tables"]) == plain["rows"] == 30
    assert {len(one["sha256"]) for one in plain["tables"]} == {64}
    with closing(open_store(filled)) as store:
        store.calls.erase(2, "Lea", store.calls.trail(1)[0].at)
    back = said("restore", str(tmp_path / "b"), "--store", str(filled), "--replace", "--json")
    assert json.loads(back.out) == {**plain, "erased_again": [2]}


def test_whoever_was_erased_again_is_named(tmp_path: Path, filled: Path) -> None:
    """If this fails, a lead wonders why a restored call has no caller."""
    said("backup", str(tmp_path / "b"), "--store", str(filled))
    with closing(open_store(filled)) as store:
        store.calls.erase(2, "Lea", store.calls.trail(1)[0].at)
    back = said("restore", str(tmp_path / "b"), "--store", str(filled), "--replace")
    assert back.out.splitlines()[-1] == (
        "Erased again, for their callers had asked for it since: call 2."
    )


def test_what_cannot_be_done_is_told_with_what_mends_it(tmp_path: Path, filled: Path) -> None:
    """If this fails, a lead at an empty desk reads a traceback."""
    file = tmp_path / "b"
    missing = said("backup", str(file), "--store", str(tmp_path / "no.sqlite"))
    assert (missing.code, missing.out) == (2, "")
    assert missing.err == (
        f"Error: there is no store '{tmp_path / 'no.sqlite'}': name the one that "
        "'wickwright desk' was started with\n"
    )
    none = said("restore", str(file), "--store", str(tmp_path / "no.sqlite"))
    assert (none.code, none.err) == (
        2,
        f"Error: there is no file '{file}': name a backup that 'wickwright backup' wrote\n",
    )
    assert not (tmp_path / "no.sqlite").exists()
    said("backup", str(file), "--store", str(filled))
    full = said("restore", str(file), "--store", str(filled))
    assert full.code == 2
    assert full.err.endswith("or give --replace to have the backup in its place\n")
    plain = said("restore", str(file), "--store", str(filled), "--json")
    assert json.loads(plain.err)["type"] == "not-usable"


@pytest.mark.parametrize(
    ("environment", "place"),
    [
        ({"XDG_DATA_HOME": "/d", "HOME": "/h"}, "/d/wickwright/desk.sqlite"),
        ({"LOCALAPPDATA": "/l", "HOME": "/h"}, "/l/wickwright/desk.sqlite"),
        ({"HOME": "/h"}, "/h/.local/share/wickwright/desk.sqlite"),
        ({}, "desk.sqlite"),
    ],
)
def test_the_store_is_where_data_are_kept(environment: dict[str, str], place: str) -> None:
    """If this fails, the desk and its backup look in different places."""
    assert store_place("", environment) == place
    assert store_place("here.sqlite", environment) == "here.sqlite"

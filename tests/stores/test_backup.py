"""A store backed up and restored, whatever holds it, and what is refused."""

from __future__ import annotations

import json
import threading
import zipfile
from typing import TYPE_CHECKING

import pytest
from tests.stores.filled import ANN, AT, LATER, fill

from wickwright.answers.sheet.call_record import Caller, Said
from wickwright.store.backup import back_up, restore
from wickwright.store.backup_file import BackupError
from wickwright.store.opening import StoreError, open_store
from wickwright.store.schema import TABLES
from wickwright.store.table_lines import BACKED_UP

if TYPE_CHECKING:
    from pathlib import Path

    from wickwright.store.opening import KeptStore


def everything(store: KeptStore) -> object:
    """Return all that a store holds, through its own doors."""
    numbers = [line.number for line in store.calls.find("", 10_000)]
    return (
        [store.calls.call(number) for number in numbers],
        [store.calls.trail(number) for number in numbers],
        [store.calls.given(number) for number in numbers],
        [
            store.calls.photo(number, photo.number)
            for number in numbers
            for photo in store.calls.photos(number)
        ],
        store.calls.with_part("CH-1"),
        store.books.revisions(),
        store.books.in_force(),
        [store.books.tables(one.id) for one in store.books.revisions()],
        store.people.people(),
        store.ledger.newest(),
        store.replies.kept("key"),
    )


@pytest.fixture
def backup(tmp_path: Path) -> Path:
    """Give the backup of a filled store."""
    path = tmp_path / "desk.backup"
    with_three = open_store(tmp_path / "filled.sqlite")
    fill(with_three)
    back_up(with_three, path, LATER)
    with_three.close()
    return path


def test_a_backup_moves_to_any_database_and_back(
    store: KeptStore, tmp_path: Path, backup: Path
) -> None:
    """If this fails, a desk cannot grow from SQLite to PostgreSQL, or loses calls on the way."""
    found = restore(store, backup, LATER)
    assert {one.name for one in found.tables} == {table.name for table in BACKED_UP}
    assert all(one.rows for one in found.tables)
    with_three = open_store(tmp_path / "filled.sqlite")
    assert everything(store) == everything(with_three)
    with_three.close()
    again = back_up(store, tmp_path / "again.backup", LATER)
    assert again.tables == found.tables
    assert (again.rows, again.made) == (found.rows, found.made)
    assert store.people.session("k" * 64) is None


def test_counting_goes_on_behind_what_was_restored(store: KeptStore, backup: Path) -> None:
    """If this fails, the next call gets a number that was told to another caller."""
    restore(store, backup, LATER)
    assert store.calls.begin(Said(), Caller(), ANN, "book", AT).number == 4
    for _ in range(3):
        store.calls.begin(Said(), Caller(), ANN, "book", AT)
    restore(store, backup, LATER, replace=True)
    assert store.calls.begin(Said(), Caller(), ANN, "book", AT).number == 8
    store.ledger.note("Ann", "newest", "", AT)
    assert store.ledger.newest(1)[0].what == "newest"


def test_a_store_with_something_in_it_is_left_alone(store: KeptStore, backup: Path) -> None:
    """If this fails, one mistyped word puts an old state in the place of today's calls."""
    store.ledger.note("Ann", "kept", "", AT)
    with pytest.raises(BackupError) as refused:
        restore(store, backup, LATER)
    assert str(refused.value) == (
        f"there is something in the store {store.says} already (rows: ledger 1), and nothing was "
        "restored: name a new store, or give --replace to have the backup in its place"
    )
    assert [line.what for line in store.ledger.newest()] == ["kept"]
    restore(store, backup, LATER, replace=True)
    assert "kept" not in [line.what for line in store.ledger.newest()]
    assert len(store.calls.find("")) == 3


def test_whoever_was_erased_stays_erased(store: KeptStore, tmp_path: Path) -> None:
    """If this fails, an old backup brings back a caller who asked to be forgotten."""
    path = tmp_path / "desk.backup"
    fill(store)
    back_up(store, path, AT)
    store.calls.erase(2, "Lea", LATER)
    found = restore(store, path, LATER, replace=True)
    assert found.erased_again == (2,)
    names = {line.number: line.caller for line in store.calls.find("")}
    assert names == {1: "Ida 0", 2: "", 3: "Ida 2"}
    assert store.calls.photos(2) == ()
    assert restore(store, path, LATER, replace=True).erased_again == (2,)


def test_a_backup_is_of_one_moment_though_desks_go_on_writing(
    store: KeptStore, tmp_path: Path, new_place: str
) -> None:
    """If this fails, a backup made in the morning holds half of a call."""
    stop = threading.Event()

    def write() -> None:
        while not stop.is_set():
            call = store.calls.begin(Said(words="dim"), Caller(), ANN, "book", AT)
            with store.together():
                store.calls.give(call.number, "order", {}, "Ann", AT)
                store.ledger.note("Ann", "given", str(call.number), AT)

    writer = threading.Thread(target=write)
    writer.start()
    try:
        found = [back_up(store, tmp_path / f"{at}.backup", AT) for at in range(3)]
    finally:
        stop.set()
        writer.join()
    assert found[0].rows < found[-1].rows
    copy = open_store(new_place)
    restore(copy, tmp_path / "2.backup", AT)
    given = {str(one.number) for one in copy.calls.find("", 10_000) if copy.calls.given(one.number)}
    assert given == {line.where for line in copy.ledger.newest(10_000)}
    copy.close()


def test_a_restore_beside_open_desks_is_seen_by_them(
    place: str, store: KeptStore, backup: Path
) -> None:
    """If this fails, a desk that was open during a restore goes on with what is no longer there."""
    desk = open_store(place)
    desk.calls.begin(Said(words="old"), Caller(), ANN, "book", AT)
    assert [line.words for line in desk.calls.find("")] == ["old"]
    restore(store, backup, LATER, replace=True)
    assert {line.words for line in desk.calls.find("")} == {"smells"}
    assert desk.calls.begin(Said(), Caller(), ANN, "book", AT).number == 4
    assert len(store.calls.find("")) == 4
    desk.close()


# -- what is refused -----------------------------------------------------------------------------


def members(path: Path) -> dict[str, bytes]:
    """Return the files of a backup."""
    with zipfile.ZipFile(path) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def written(path: Path, files: dict[str, bytes]) -> Path:
    """Write a backup of these files."""
    with zipfile.ZipFile(path, "w") as archive:
        for name, data in files.items():
            archive.writestr(name, data)
    return path


def refusal(store: KeptStore, path: Path) -> str:
    """Return why a backup is refused; see that the store is left as it was."""
    before = everything(store)
    with pytest.raises(BackupError) as refused:
        restore(store, path, LATER, replace=True)
    assert everything(store) == before
    return str(refused.value)


def test_all_that_is_wrong_with_a_backup_is_told_at_once(store: KeptStore, backup: Path) -> None:
    """If this fails, a changed backup takes the place of what is there."""
    fill(store, 1)
    files = members(backup)
    files["calls.jsonl"] = files["calls.jsonl"].replace(b"Ida 1", b"Eve 1")
    files["ledger.jsonl"] += b'{"line": 9}\n'
    files["people.jsonl"] = b""
    del files["photos.jsonl"]
    assert refusal(store, written(backup, files)) == (
        f"the backup '{backup}' is not as it was written, and nothing was restored:\n"
        "  calls: its checksum is not that of what was written\n"
        "  photos: its rows are missing\n"
        "  people: 0 rows, but 1 were written\n"
        "  ledger: line 2 is no row of this table\n"
        "  ledger: 2 rows, but 1 were written\n"
        "take another copy of it, or an older backup"
    )


def test_a_backup_without_its_list_is_refused(store: KeptStore, backup: Path) -> None:
    """If this fails, a backup is restored that cannot prove itself."""
    files = members(backup)
    del files["backup.json"]
    assert refusal(store, written(backup, files)) == (
        f"the backup '{backup}' is not as it was written, and nothing was restored:\n"
        "  its list backup.json is missing or broken\n"
        "take another copy of it, or an older backup"
    )


def test_a_list_that_was_changed_too_does_not_pass_what_no_table_holds(
    store: KeptStore, backup: Path
) -> None:
    """If this fails, rows that point nowhere get in because their checksum was mended."""
    import hashlib  # noqa: PLC0415 - only here

    files = members(backup)
    files["calls.jsonl"] = b""
    plain = json.loads(files["backup.json"])
    plain["tables"] = [
        [name, 0, hashlib.sha256(b"").hexdigest()] if name == "calls" else [name, rows, sha]
        for name, rows, sha in plain["tables"]
    ]
    files["backup.json"] = json.dumps(plain).encode()
    says = refusal(store, written(backup, files))
    begins = f"the store {store.says} did not take the backup, and was left as it was: "
    assert says.startswith(begins)
    assert "foreign key" in says.lower()


def test_a_backup_of_another_program_is_refused(store: KeptStore, backup: Path) -> None:
    """If this fails, rows of tables that this program does not know are written somewhere."""
    files = members(backup)
    plain = json.loads(files["backup.json"])
    files["backup.json"] = json.dumps({**plain, "schema": "9999"}).encode()
    assert refusal(store, written(backup, files)) == (
        f"the backup '{backup}' is a 'wickwright backup 1' with tables at '9999', this program "
        "reads a 'wickwright backup 1' with tables at '0001': restore it with the wickwright that "
        "wrote it"
    )


def test_a_backup_cut_anywhere_is_refused(tmp_path: Path, backup: Path) -> None:
    """If this fails, a copy that broke off half way empties a store."""
    whole = backup.read_bytes()
    store = open_store(tmp_path / "other.sqlite")
    fill(store, 1)
    for size in (0, 1, 100, len(whole) // 3, len(whole) // 2, len(whole) - 30, len(whole) - 1):
        torn = tmp_path / "torn.backup"
        torn.write_bytes(whole[:size])
        assert refusal(store, torn).startswith(f"'{torn}' is no backup, or was cut short (")
    store.close()


def test_a_backup_with_any_byte_changed_is_refused_or_the_same(
    tmp_path: Path, backup: Path
) -> None:
    """If this fails, one bad sector of a disk changes a call unseen."""
    whole = backup.read_bytes()
    store = open_store(tmp_path / "other.sqlite")
    restore(store, backup, AT)
    before = everything(store)
    bad = tmp_path / "bad.backup"
    refused = 0
    for at in range(0, len(whole), max(1, len(whole) // 60)):
        bad.write_bytes(whole[:at] + bytes([whole[at] ^ 0x55]) + whole[at + 1 :])
        try:
            restore(store, bad, AT, replace=True)
        except BackupError:
            refused += 1
        assert everything(store) == before
    assert refused > 30
    store.close()


def test_only_a_backup_is_written_over(tmp_path: Path, backup: Path) -> None:
    """If this fails, 'wickwright backup desk.sqlite' destroys the store itself."""
    place = tmp_path / "filled.sqlite"
    store = open_store(place)
    before = everything(store)
    with pytest.raises(BackupError) as refused:
        back_up(store, place, AT)
    assert str(refused.value) == (f"'{place}' is there already and is no backup: name another file")
    assert everything(store) == before
    store.ledger.note("Ann", "more", "", AT)
    assert back_up(store, backup, AT).rows == sum(
        len(data.splitlines()) for name, data in members(backup).items() if "jsonl" in name
    )
    assert backup.stat().st_mode & 0o777 == 0o600
    assert [one.name for one in tmp_path.iterdir() if one.name.endswith(".part")] == []
    store.close()


def test_a_damaged_store_is_not_backed_up(tmp_path: Path, backup: Path) -> None:
    """If this fails, a good backup is replaced by one of a broken file."""
    place = tmp_path / "filled.sqlite"
    good = backup.read_bytes()
    data = bytearray(place.read_bytes())
    last = len(data) - 4096
    data[last : last + 64] = b"\xff" * 64
    place.write_bytes(data)
    store = open_store(place)
    with pytest.raises(BackupError, match=r"^the store is damaged, and was not backed up;"):
        back_up(store, backup, AT)
    assert backup.read_bytes() == good
    store.close()
    place.write_bytes(data[:4096] + b"\xff" * (len(data) - 4096))
    with pytest.raises(StoreError) as refused:
        open_store(place)
    assert str(refused.value) == (
        f"the store '{place}' is damaged (database disk image is malformed): restore the last "
        "backup into a new store, and keep this file for whoever looks into it"
    )


def test_every_table_is_backed_up_or_left_out_for_a_reason() -> None:
    """If this fails, a table that was added is not in any backup."""
    left = {table.name for table in TABLES.sorted_tables} - {table.name for table in BACKED_UP}
    assert left == {"sessions", "failed_log_ins"}

"""A store backed up and restored while desks are open.

A backup reads one state of the store and holds nobody up. A restore is one transaction: readers
see all of the old or all of the new, writers wait, and whatever goes wrong leaves the old.
"""

from __future__ import annotations

from itertools import islice
from typing import TYPE_CHECKING

import sqlalchemy as sa

from wickwright.answers.sheet.backup_record import Inventory
from wickwright.store.backup_file import (
    BackupError,
    file_digest,
    is_backup,
    read_backup,
    write_backup,
)
from wickwright.store.column_types import moment_text
from wickwright.store.schema import TABLES, calls, trail
from wickwright.store.table_lines import BACKED_UP, write_table

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import datetime
    from pathlib import Path

    from wickwright.answers.sheet.backup_record import TableSum
    from wickwright.store.backup_file import BackupFile
    from wickwright.store.opening import KeptStore

__all__ = ["BackupError", "back_up", "restore"]

_AT_A_TIME = 200


def back_up(store: KeptStore, path: Path, at: datetime) -> Inventory:
    """Write all of a store into one file.

    Parameters
    ----------
    store : KeptStore
        Open; others may be writing to it.
    path : Path
        The file; only an older backup is replaced.
    at : datetime
        Now, in UTC.

    Returns
    -------
    Inventory
        What is in it.

    Raises
    ------
    BackupError
        When it cannot be written, or the store is damaged.
    """
    if path.exists() and not is_backup(path):
        msg = f"'{path}' is there already and is no backup: name another file"
        raise BackupError(msg)
    made = moment_text(at)
    try:
        with store.engines.reading() as connection:
            _refuse_damaged(connection)
            tables = write_backup(connection, path, made)
    except OSError as error:
        msg = f"the backup '{path}' cannot be written: {error.strerror or error}"
        raise BackupError(msg) from error
    return Inventory(store.says, made, tables, file_digest(path))


def _refuse_damaged(connection: sa.Connection) -> None:
    if connection.dialect.name != "sqlite":
        return
    try:
        found = [str(row[0]) for row in connection.exec_driver_sql("PRAGMA integrity_check(5)")]
    except sa.exc.DBAPIError as error:
        found = [str(error.orig)]
    if found != ["ok"]:
        lines = "\n  ".join(found)
        msg = f"the store is damaged, and was not backed up; restore the last backup:\n  {lines}"
        raise BackupError(msg)


def restore(store: KeptStore, path: Path, at: datetime, *, replace: bool = False) -> Inventory:
    """Put a backup into a store.

    Parameters
    ----------
    store : KeptStore
        Open; others may have it open, too.
    path : Path
        The backup.
    at : datetime
        Now, in UTC.
    replace : bool
        True puts it in the place of what is there.

    Returns
    -------
    Inventory
        Counts and checksums, worked out anew from the store after it was written.

    Raises
    ------
    BackupError
        When the backup is not whole or there is something in the store; nothing is changed.
    """
    backup = read_backup(path)
    try:
        with store.engines.alone() as connection:
            erased = _erased(connection)
            _empty(connection, store.says, replace=replace)
            tables = _put_in(connection, backup)
            again = _erase_again(store, erased, at)
            store.engines.wipe_after()
    except sa.exc.DBAPIError as error:
        msg = (
            f"the store {store.says} did not take the backup, and was left as it was: {error.orig}"
        )
        raise BackupError(msg) from error
    return Inventory(store.says, backup.made, tables, backup.file_sha256, again)


def _put_in(connection: sa.Connection, backup: BackupFile) -> tuple[TableSum, ...]:
    """Write all tables and prove what was written by reading it back."""
    for table in BACKED_UP:
        _fill(connection, table, backup.rows(table))
    tables = tuple(write_table(connection, table, len) for table in BACKED_UP)
    _prove(backup, tables)
    return tables


def _empty(connection: sa.Connection, says: str, *, replace: bool) -> None:
    held = {
        table.name: many
        for table in BACKED_UP
        if (many := connection.scalar(sa.select(sa.func.count()).select_from(table)))
    }
    if held and not replace:
        rows = ", ".join(f"{name} {many}" for name, many in held.items())
        msg = (
            f"there is something in the store {says} already (rows: {rows}), and nothing was "
            "restored: name a new store, or give --replace to have the backup in its place"
        )
        raise BackupError(msg)
    for table in reversed(TABLES.sorted_tables):
        connection.execute(sa.delete(table))


def _fill(connection: sa.Connection, table: sa.Table, rows: Iterator[dict[str, object]]) -> None:
    while some := list(islice(rows, _AT_A_TIME)):
        connection.execute(sa.insert(table), some)
    if connection.dialect.name == "postgresql":
        _count_on(connection, table)


def _count_on(connection: sa.Connection, table: sa.Table) -> None:
    """Let PostgreSQL count on behind every number that was ever given; SQLite does by itself."""
    counted = table.autoincrement_column
    if counted is None:
        return
    sequence = sa.func.pg_get_serial_sequence(table.name, counted.name)
    last = sa.select(sa.func.coalesce(sa.func.max(counted), 0) + 1).scalar_subquery()
    following = sa.func.greatest(last, sa.func.nextval(sequence))
    connection.execute(sa.select(sa.func.setval(sequence, following, sa.false())))


def _prove(backup: BackupFile, found: tuple[TableSum, ...]) -> None:
    wrong = [
        f"{one.name}: {one.rows} rows where {wanted.rows} were backed up, or not the same ones"
        for one, wanted in zip(found, backup.tables, strict=True)
        if one != wanted
    ]
    if wrong:
        lines = "\n  ".join(wrong)
        msg = f"the store does not hold what the backup holds, and was left as it was:\n  {lines}"
        raise BackupError(msg)


# -- callers who asked to be erased --------------------------------------------------------------


def _erased(connection: sa.Connection) -> frozenset[tuple[int, datetime]]:
    """Return the calls whose callers were erased, each by its number and when it began."""
    wanted = sa.select(calls.c.number, calls.c.opened).where(
        calls.c.number.in_(sa.select(trail.c.call).where(trail.c.did == "erased"))
    )
    return frozenset((row[0], row[1]) for row in connection.execute(wanted))


def _erase_again(
    store: KeptStore, erased: frozenset[tuple[int, datetime]], at: datetime
) -> tuple[int, ...]:
    """Erase whoever was erased since the backup was made."""
    with store.engines.writing() as connection:
        back = sa.select(calls.c.number, calls.c.opened)
        there = {(row[0], row[1]) for row in connection.execute(back)}
        again = sorted(number for number, _ in (erased & there) - _erased(connection))
    for number in again:
        store.calls.erase(number, "restore", at)
    return tuple(again)

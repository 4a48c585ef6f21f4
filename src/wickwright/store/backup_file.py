"""A backup as one file: a ZIP of a list of tables and a file of lines for each.

The list says of each table how many rows it has and their checksum, so that a file that was torn,
cut short or changed is known before anything is done with it.
"""

from __future__ import annotations

import hashlib
import json
import os
import zipfile
import zlib
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickwright.answers.sheet.backup_record import TableSum
from wickwright.store.errors import StoreError
from wickwright.store.schema import HISTORY
from wickwright.store.table_lines import BACKED_UP, row_of, write_table

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    import sqlalchemy as sa

__all__ = ["BackupError", "BackupFile", "read_backup", "write_backup"]

_LIST: Final = "backup.json"
_FORMAT: Final = "wickwright backup 1"
_BROKEN: Final = (zipfile.BadZipFile, zlib.error, EOFError, OSError, NotImplementedError)


class BackupError(StoreError):
    """A backup cannot be made or used; a line for each fault."""


@dataclass(frozen=True, slots=True)
class BackupFile:
    """A backup that proved whole."""

    path: Path
    made: str
    tables: tuple[TableSum, ...]
    file_sha256: str

    def rows(self, table: sa.Table) -> Iterator[dict[str, object]]:
        """Yield the rows of a table."""
        with zipfile.ZipFile(self.path) as archive, archive.open(_member(table.name)) as lines:
            for line in lines:
                yield row_of(table, line)


def _member(table: str) -> str:
    return f"{table}.jsonl"


# -- writing -------------------------------------------------------------------------------------


def write_backup(connection: sa.Connection, path: Path, made: str) -> tuple[TableSum, ...]:
    """Write every table; the file takes its name when all of it is on the disk.

    Parameters
    ----------
    connection : sqlalchemy.Connection
        Of one state of the store.
    path : Path
        The file; a backup that is there is replaced.
    made : str
        When, in UTC.

    Returns
    -------
    tuple of TableSum
        What is in it.
    """
    with _whole(path) as part, zipfile.ZipFile(part, "w", zipfile.ZIP_DEFLATED) as archive:
        tables = tuple(_write_member(archive, connection, table) for table in BACKED_UP)
        plain = {
            "format": _FORMAT,
            "schema": HISTORY[-1],
            "made": made,
            "tables": [[one.name, one.rows, one.sha256] for one in tables],
        }
        archive.writestr(_LIST, json.dumps(plain, indent=1))
    return tables


def _write_member(archive: zipfile.ZipFile, connection: sa.Connection, table: sa.Table) -> TableSum:
    with archive.open(_member(table.name), "w", force_zip64=True) as file:
        return write_table(connection, table, file.write)


@contextmanager
def _whole(path: Path) -> Iterator[Path]:
    """Give a file beside another that takes its place when all went well."""
    part = path.with_name(f".{path.name}.{os.getpid()}.part")
    part.unlink(missing_ok=True)
    os.close(os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600))
    try:
        yield part
        _to_disk(part)
        part.replace(path)
        with suppress(OSError):  # not every system opens folders
            _to_disk(path.parent)
    finally:
        part.unlink(missing_ok=True)


def _to_disk(path: Path) -> None:
    descriptor = os.open(path, os.O_RDONLY if path.is_dir() else os.O_RDWR)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)


def is_backup(path: Path) -> bool:
    """Say whether a file is a backup, whole or not so whole."""
    try:
        with zipfile.ZipFile(path) as archive:
            return _LIST in archive.namelist()
    except _BROKEN:
        return False


# -- reading -------------------------------------------------------------------------------------


def read_backup(path: Path) -> BackupFile:
    """Read a backup through, and prove each of its tables.

    Parameters
    ----------
    path : Path
        The file.

    Returns
    -------
    BackupFile
        Without a fault.

    Raises
    ------
    BackupError
        With everything that is wrong with it.
    """
    try:
        with zipfile.ZipFile(path) as archive:
            made, tables = _read_list(archive, path)
            faults = [says for table in BACKED_UP for says in _faults(archive, table, tables)]
    except FileNotFoundError as error:
        msg = f"there is no file '{path}': name a backup that 'wickwright backup' wrote"
        raise BackupError(msg) from error
    except _BROKEN as error:
        msg = (
            f"'{path}' is no backup, or was cut short ({error}): take another copy of it, or an "
            "older backup"
        )
        raise BackupError(msg) from error
    if faults:
        raise BackupError(_refusal(path, faults))
    in_order = tuple(tables[table.name] for table in BACKED_UP)
    return BackupFile(path, made, in_order, file_digest(path))


def file_digest(path: Path) -> str:
    """Return the SHA-256 of a file in hexadecimal."""
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def _refusal(path: Path, faults: list[str]) -> str:
    lines = "\n  ".join(faults)
    return (
        f"the backup '{path}' is not as it was written, and nothing was restored:\n  {lines}\n"
        "take another copy of it, or an older backup"
    )


def _read_list(archive: zipfile.ZipFile, path: Path) -> tuple[str, dict[str, TableSum]]:
    try:
        plain = json.loads(archive.read(_LIST))
        written = (str(plain["format"]), str(plain["schema"]))
        made = str(plain["made"])
        tables = {name: TableSum(name, rows, sha) for name, rows, sha in plain["tables"]}
    except (KeyError, TypeError, ValueError, RecursionError) as error:
        raise BackupError(_refusal(path, [f"its list {_LIST} is missing or broken"])) from error
    if written != (_FORMAT, HISTORY[-1]):
        msg = (
            f"the backup '{path}' is a '{written[0]}' with tables at '{written[1]}', this program "
            f"reads a '{_FORMAT}' with tables at '{HISTORY[-1]}': restore it with the wickwright "
            "that wrote it"
        )
        raise BackupError(msg)
    return made, tables


def _faults(
    archive: zipfile.ZipFile, table: sa.Table, tables: dict[str, TableSum]
) -> Iterator[str]:
    """Yield what is wrong with one table."""
    wanted = tables.get(table.name)
    if wanted is None:
        yield f"{table.name}: it is not in the list"
        return
    try:
        with archive.open(_member(table.name)) as lines:
            found, broken = _count(table, lines)
    except KeyError:
        yield f"{table.name}: its rows are missing"
        return
    except _BROKEN as error:
        yield f"{table.name}: its rows cannot be read ({error})"
        return
    if broken:
        yield f"{table.name}: line {broken} is no row of this table"
    if found.rows != wanted.rows:
        yield f"{table.name}: {found.rows} rows, but {wanted.rows} were written"
    elif found.sha256 != wanted.sha256:
        yield f"{table.name}: its checksum is not that of what was written"


def _count(table: sa.Table, lines: Iterator[bytes]) -> tuple[TableSum, int]:
    """Count lines; return also the first that is no row, or 0."""
    digest, rows, broken = hashlib.sha256(), 0, 0
    for rows, line in enumerate(lines, 1):
        digest.update(line)
        if not broken and not _is_row(table, line):
            broken = rows
    return TableSum(table.name, rows, digest.hexdigest()), broken


def _is_row(table: sa.Table, line: bytes) -> bool:
    try:
        row_of(table, line)
    except (ValueError, TypeError, RecursionError):
        return False
    return True

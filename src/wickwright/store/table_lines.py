"""The rows of a table as lines of JSON, the same from every database, and back."""

from __future__ import annotations

import base64
import hashlib
import json
from typing import TYPE_CHECKING, Final

import sqlalchemy as sa

from wickwright.answers.sheet.backup_record import TableSum
from wickwright.store.column_types import Moment, moment_text, read_moment
from wickwright.store.schema import TABLES, failed_log_ins, sessions

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

__all__ = ["BACKED_UP", "row_of", "table_lines", "write_table"]

_LEFT_OUT: Final = (sessions, failed_log_ins)
"""A session that was ended must not come back to life; everybody logs in again."""

BACKED_UP: Final = tuple(
    table for table in TABLES.tables.values() if all(table is not one for one in _LEFT_OUT)
)
"""In an order in which rows never point to what is not there yet."""

_AT_A_TIME = 200


def write_table(
    connection: sa.Connection, table: sa.Table, write: Callable[[bytes], object]
) -> TableSum:
    """Write every row of a table.

    Parameters
    ----------
    connection : sqlalchemy.Connection
        Of one state of the store.
    table : sqlalchemy.Table
        Which table.
    write : callable
        Takes one line at a time.

    Returns
    -------
    TableSum
        Count and checksum of what was written.
    """
    digest, rows = hashlib.sha256(), 0
    for line in table_lines(connection, table):
        write(line)
        digest.update(line)
        rows += 1
    return TableSum(table.name, rows, digest.hexdigest())


def table_lines(connection: sa.Connection, table: sa.Table) -> Iterator[bytes]:
    """Yield every row of a table as a line, in the order of its key."""
    wanted = sa.select(table).order_by(*table.primary_key.columns)
    found = connection.execute(wanted.execution_options(yield_per=_AT_A_TIME))
    for row in found.mappings():
        plain = {column.name: _plain(column, row[column]) for column in table.columns}
        yield json.dumps(plain, ensure_ascii=False, separators=(",", ":")).encode() + b"\n"


def _plain(column: sa.Column[object], value: object) -> object:
    if value is None:
        return None
    if isinstance(column.type, Moment):
        return moment_text(value)  # type: ignore[arg-type]
    if isinstance(column.type, sa.LargeBinary):
        return base64.b64encode(value).decode()  # type: ignore[arg-type]
    return value


def row_of(table: sa.Table, line: bytes) -> dict[str, object]:
    """Return the row of a line.

    Parameters
    ----------
    table : sqlalchemy.Table
        Which table.
    line : bytes
        As :func:`table_lines` yields it.

    Returns
    -------
    dict
        Values by column.

    Raises
    ------
    ValueError
        When it is no row of this table.
    """
    plain = json.loads(line)
    names = [column.name for column in table.columns]
    if not isinstance(plain, dict) or list(plain) != names:
        msg = f"not a row with the columns {', '.join(names)}"
        raise ValueError(msg)
    return {column.name: _value(column, plain[column.name]) for column in table.columns}


def _value(column: sa.Column[object], plain: object) -> object:
    if plain is None:
        return None
    if isinstance(column.type, Moment):
        return read_moment(str(plain))
    if isinstance(column.type, sa.LargeBinary):
        return base64.b64decode(str(plain), validate=True)
    return plain

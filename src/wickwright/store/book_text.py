"""Tables of a fit book as bytes, and the name that follows from them."""

from __future__ import annotations

import hashlib
import json
import zlib
from typing import TYPE_CHECKING

from wickwright.catalogue.faults import Fault, RawTable

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["pack_tables", "revision_id", "unpack_tables"]

_ID = 16


def revision_id(tables: Sequence[RawTable]) -> str:
    """Return the name of a revision.

    Parameters
    ----------
    tables : sequence of RawTable
        In any order.

    Returns
    -------
    str
        First 16 hexadecimal digits of the SHA-256 of all cells with their rows.
    """
    in_order = sorted(tables, key=lambda table: table.name)
    return hashlib.sha256(_text(in_order)).hexdigest()[:_ID]


def pack_tables(tables: Sequence[RawTable]) -> bytes:
    """Return tables as compressed JSON."""
    return zlib.compress(_text(tables))


def unpack_tables(packed: bytes) -> tuple[RawTable, ...]:
    """Return tables as they were before :func:`pack_tables`."""
    return tuple(
        RawTable(
            name,
            tuple(header),
            tuple((row, tuple(cells)) for row, cells in rows),
            tuple(Fault(*fault) for fault in unread),
        )
        for name, header, rows, unread in json.loads(zlib.decompress(packed))
    )


def _text(tables: Sequence[RawTable]) -> bytes:
    plain = [
        [table.name, table.header, table.rows, [_fault(one) for one in table.unread]]
        for table in tables
    ]
    return json.dumps(plain, separators=(",", ":")).encode()


def _fault(fault: Fault) -> list[object]:
    return [fault.table, fault.row, fault.column, fault.what, fault.cure, fault.doubt]

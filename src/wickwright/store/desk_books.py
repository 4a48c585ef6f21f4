"""Revisions of the fit book, each kept whole."""

from __future__ import annotations

from typing import TYPE_CHECKING

import sqlalchemy as sa

from wickwright.answers.sheet.desk_store import Revision, Unknown
from wickwright.store.book_text import pack_tables, revision_id, unpack_tables
from wickwright.store.column_types import keepable
from wickwright.store.engines import insert_once
from wickwright.store.schema import in_force, revisions

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import datetime

    from wickwright.catalogue.faults import RawTable
    from wickwright.store.engines import Engines

__all__ = ["KeptBooks"]

_LAST = (
    sa.select(in_force.c.revision, sa.func.max(in_force.c.step).label("step"))
    .group_by(in_force.c.revision)
    .subquery()
)
_ALL = sa.select(
    revisions.c.id,
    revisions.c.loaded,
    revisions.c.who,
    revisions.c.name,
    in_force.c.step,
    in_force.c.since,
    in_force.c.signed,
    in_force.c.reason,
).select_from(
    revisions.outerjoin(_LAST, _LAST.c.revision == revisions.c.id).outerjoin(
        in_force, in_force.c.step == _LAST.c.step
    )
)


class KeptBooks:
    """Revisions of the fit book.

    Parameters
    ----------
    engines : Engines
        Where transactions come from.
    """

    def __init__(self, engines: Engines) -> None:
        self._engines = engines

    def add(self, tables: Sequence[RawTable], name: str, who: str, at: datetime) -> Revision:
        """Keep a book; the same tables again give the same revision."""
        found = revision_id(tables)
        values = {
            "id": found,
            "loaded": at,
            "who": who,
            "name": name,
            "tables": pack_tables(tables),
        }
        with self._engines.writing() as connection:
            insert_once(connection, revisions, values)
            return _revision(connection, found)

    def put_in_force(
        self, revision: str, who: str, reason: str, at: datetime
    ) -> Revision | Unknown:
        """Let a revision hold from now on."""
        with self._engines.writing() as connection:
            known = sa.select(revisions.c.id).where(revisions.c.id == keepable(revision))
            if connection.scalar(known) is None:
                return Unknown(f"revision {revision}")
            values = {"revision": revision, "since": at, "signed": who, "reason": reason}
            connection.execute(sa.insert(in_force).values(values))
            return _revision(connection, revision)

    def in_force(self) -> Revision | None:
        """Return the revision that holds."""
        holds = _ALL.where(in_force.c.step.is_not(None)).order_by(in_force.c.step.desc())
        with self._engines.reading() as connection:
            row = connection.execute(holds.limit(1)).mappings().first()
        return None if row is None else _of(row)

    def revisions(self) -> tuple[Revision, ...]:
        """Return all, newest first."""
        with self._engines.reading() as connection:
            rows = connection.execute(_ALL.order_by(revisions.c.place.desc())).mappings()
            return tuple(_of(row) for row in rows)

    def tables(self, revision: str) -> tuple[RawTable, ...] | None:
        """Return the tables of a revision as they were loaded."""
        wanted = sa.select(revisions.c.tables).where(revisions.c.id == keepable(revision))
        with self._engines.reading() as connection:
            packed = connection.scalar(wanted)
        return None if packed is None else unpack_tables(bytes(packed))


def _revision(connection: sa.Connection, revision: str) -> Revision:
    return _of(connection.execute(_ALL.where(revisions.c.id == revision)).mappings().one())


def _of(row: sa.RowMapping) -> Revision:
    return Revision(
        row["id"],
        row["loaded"],
        row["who"],
        row["name"],
        row["since"],
        row["signed"] or "",
        row["reason"] or "",
    )

"""Who may log in, who is, and who tried."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING, Final

import sqlalchemy as sa

from wickwright.answers.sheet.desk_store import Person, Role, Session
from wickwright.store.column_types import keepable
from wickwright.store.engines import insert_once
from wickwright.store.folding import folded
from wickwright.store.schema import failed_log_ins, fingerprint, ledger, people, sessions

if TYPE_CHECKING:
    from datetime import datetime

    from wickwright.store.engines import Engines

__all__ = ["KeptPeople"]

_FORGOTTEN: Final = timedelta(days=30)
"""After so long a session nobody used and a log-in that failed are cleared away."""


class KeptPeople:
    """Who may log in, and who is.

    Parameters
    ----------
    engines : Engines
        Where transactions come from.
    """

    def __init__(self, engines: Engines) -> None:
        self._engines = engines

    def people(self) -> tuple[Person, ...]:
        """Return everybody, by name."""
        with self._engines.reading() as connection:
            found = [_person(row) for row in connection.execute(sa.select(people)).mappings()]
        return tuple(sorted(found, key=lambda one: (folded(one.name), one.name)))

    def person(self, name: str) -> Person | None:
        """Return somebody by name, capitals disregarded."""
        with self._engines.reading() as connection:
            return _read(connection, fingerprint(name))

    def put(self, person: Person, who: str, at: datetime) -> Person:
        """Add or change somebody.

        Sessions end when somebody is no longer active or has a new password or role.
        """
        key = fingerprint(person.name)
        kept = Person(
            keepable(person.name),
            person.role,
            keepable(person.desk),
            keepable(person.password),
            person.active,
        )
        with self._engines.writing() as connection:
            before = _read(connection, key)
            _put(connection, key, kept)
            if before is not None and _ends_sessions(before, kept):
                connection.execute(sa.delete(sessions).where(sessions.c.person_key == key))
            did = "person added" if before is None else "person changed"
            line = {"at": at, "who": who, "what": did, "where": kept.name}
            connection.execute(sa.insert(ledger).values(line))
        return kept

    # -- sessions --------------------------------------------------------------------------------

    def log_in(self, session: Session) -> None:
        """Keep a session; clear away those that nobody used for a month."""
        values = {
            "key": session.key,
            "person": session.person,
            "person_key": fingerprint(session.person),
            "began": session.began,
            "seen": session.seen,
            "form_key": session.form_key,
        }
        old = sessions.c.seen < session.began - _FORGOTTEN
        with self._engines.writing() as connection:
            connection.execute(sa.delete(sessions).where(old | (sessions.c.key == session.key)))
            connection.execute(sa.insert(sessions).values(values))

    def session(self, key: str) -> Session | None:
        """Return a session by the hash of its token."""
        wanted = sa.select(sessions).where(sessions.c.key == keepable(key))
        with self._engines.reading() as connection:
            row = connection.execute(wanted).mappings().first()
        return None if row is None else _session(row)

    def sessions_with(self, form_key: str) -> tuple[Session, ...]:
        """Return the sessions that carry a form key, the newest first."""
        wanted = (
            sa.select(sessions)
            .where(sessions.c.form_key == keepable(form_key))
            .order_by(sessions.c.began.desc(), sessions.c.key)
        )
        with self._engines.reading() as connection:
            return tuple(map(_session, connection.execute(wanted).mappings()))

    def seen(self, key: str, at: datetime) -> None:
        """Note that a session was used."""
        with self._engines.writing() as connection:
            used = sa.update(sessions).where(sessions.c.key == keepable(key))
            connection.execute(used.values(seen=at))

    def log_out(self, key: str) -> None:
        """End a session."""
        with self._engines.writing() as connection:
            connection.execute(sa.delete(sessions).where(sessions.c.key == keepable(key)))

    # -- log-ins that failed ---------------------------------------------------------------------

    def failed(self, name: str, at: datetime) -> None:
        """Note a log-in that failed; clear away those of more than a month ago."""
        with self._engines.writing() as connection:
            old = failed_log_ins.c.at < at - _FORGOTTEN
            connection.execute(sa.delete(failed_log_ins).where(old))
            new = sa.insert(failed_log_ins).values(key=fingerprint(name), at=at)
            connection.execute(new)

    def failures(self, name: str, since: datetime) -> int:
        """Count log-ins that failed since a time."""
        wanted = (
            sa.select(sa.func.count())
            .select_from(failed_log_ins)
            .where(failed_log_ins.c.key == fingerprint(name), failed_log_ins.c.at >= since)
        )
        with self._engines.reading() as connection:
            return connection.execute(wanted).scalar_one()


def _read(connection: sa.Connection, key: str) -> Person | None:
    row = connection.execute(sa.select(people).where(people.c.key == key)).mappings().first()
    return None if row is None else _person(row)


def _session(row: sa.RowMapping) -> Session:
    return Session(row["key"], row["person"], row["began"], row["seen"], row["form_key"])


def _person(row: sa.RowMapping) -> Person:
    return Person(row["name"], Role(row["role"]), row["desk"], row["password"], row["active"])


def _put(connection: sa.Connection, key: str, person: Person) -> None:
    values = {
        "name": person.name,
        "role": str(person.role),
        "desk": person.desk,
        "password": person.password,
        "active": person.active,
    }
    insert_once(connection, people, {"key": key, **values})
    connection.execute(sa.update(people).where(people.c.key == key).values(values))


def _ends_sessions(before: Person, after: Person) -> bool:
    return not after.active or after.password != before.password or after.role is not before.role

"""The tables of the desk's store, the same on SQLite and PostgreSQL.

Times are text in UTC, plain data is JSON text. Nothing that somebody types is in an index, for
PostgreSQL takes no long text there: names and part numbers are looked up by their
:func:`fingerprint`.
"""

from __future__ import annotations

import hashlib
import unicodedata
from typing import Final

import sqlalchemy as sa

from wickwright.store.column_types import Moment, PlainData, Words, keepable

__all__ = [
    "HISTORY",
    "TABLES",
    "call_parts",
    "calls",
    "failed_log_ins",
    "fingerprint",
    "given",
    "in_force",
    "ledger",
    "people",
    "photos",
    "replies",
    "revisions",
    "sessions",
    "trail",
]

HISTORY: Final = ("0001",)
"""Every state the tables were ever in, oldest first; the last is what this module says."""

TABLES: Final = sa.MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
        "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
        "pk": "pk_%(table_name)s",
    }
)


def fingerprint(text: str) -> str:
    """Return what a name is looked up by: the same whatever its capitals.

    Parameters
    ----------
    text : str
        A name or number.

    Returns
    -------
    str
        64 hexadecimal digits.
    """
    alike = unicodedata.normalize("NFKC", keepable(text).casefold()).strip()
    return hashlib.sha256(alike.encode()).hexdigest()


def _key(name: str, *, primary: bool = False) -> sa.Column[str]:
    return sa.Column(name, sa.String(64), primary_key=primary, nullable=False)


def _counted(name: str) -> sa.Column[int]:
    return sa.Column(name, sa.Integer, primary_key=True, autoincrement=True)


def _of_call() -> sa.Column[int]:
    return sa.Column("call", sa.Integer, sa.ForeignKey("calls.number"), nullable=False, index=True)


def _words(name: str) -> sa.Column[str]:
    return sa.Column(name, Words, nullable=False)


def _moment(name: str) -> sa.Column[object]:
    return sa.Column(name, Moment, nullable=False)


def _whole(name: str) -> sa.Column[int]:
    return sa.Column(name, sa.Integer, nullable=False)


calls = sa.Table(
    "calls",
    TABLES,
    _counted("number"),
    _whole("version"),
    sa.Column("state", sa.String(10), nullable=False, index=True),
    _words("desk"),
    _words("adviser"),
    _moment("opened"),
    _moment("changed"),
    _words("revision"),
    _words("name"),
    _words("contact"),
    _words("address"),
    sa.Column("said", PlainData, nullable=False),
    sa.Column("closing", PlainData),
    _words("search"),
    sqlite_autoincrement=True,
)
"""Calls as they stand; ``search`` is everything a call is found by, folded."""

call_parts = sa.Table(
    "call_parts",
    TABLES,
    sa.Column("call", sa.Integer, sa.ForeignKey("calls.number"), primary_key=True),
    sa.Column("part", sa.String(64), primary_key=True, index=True),
)
"""Which parts stand on the sheet of a call, by their fingerprint."""

trail = sa.Table(
    "trail",
    TABLES,
    _counted("step"),
    _of_call(),
    _whole("version"),
    _moment("at"),
    _words("who"),
    _words("did"),
    sa.Column("before", PlainData, nullable=False),
    sa.Column("after", PlainData, nullable=False),
    _words("note"),
    sa.Column("standing", sa.Boolean, nullable=False),
    sqlite_autoincrement=True,
)
"""Every step; ``standing`` is true while what was said in it can be taken back."""

photos = sa.Table(
    "photos",
    TABLES,
    _counted("number"),
    _of_call(),
    _moment("at"),
    _words("who"),
    _words("media"),
    _words("says"),
    sa.Column("body", sa.LargeBinary, nullable=False),
    sqlite_autoincrement=True,
)

given = sa.Table(
    "given",
    TABLES,
    _counted("number"),
    _of_call(),
    _whole("version"),
    _moment("at"),
    _words("who"),
    _words("what"),
    _words("revision"),
    sa.Column("answer", PlainData, nullable=False),
    sqlite_autoincrement=True,
)

revisions = sa.Table(
    "revisions",
    TABLES,
    _counted("place"),
    sa.Column("id", sa.String(16), nullable=False, unique=True),
    _moment("loaded"),
    _words("who"),
    _words("name"),
    sa.Column("tables", sa.LargeBinary, nullable=False),
    sqlite_autoincrement=True,
)
"""Fit books, each whole and compressed."""

in_force = sa.Table(
    "in_force",
    TABLES,
    _counted("step"),
    sa.Column("revision", sa.String(16), sa.ForeignKey("revisions.id"), nullable=False, index=True),
    _moment("since"),
    _words("signed"),
    _words("reason"),
    sqlite_autoincrement=True,
)
"""Which revision was put in force when; the last row holds."""

people = sa.Table(
    "people",
    TABLES,
    _key("key", primary=True),
    _words("name"),
    sa.Column("role", sa.String(20), nullable=False),
    _words("desk"),
    _words("password"),
    sa.Column("active", sa.Boolean, nullable=False),
)

sessions = sa.Table(
    "sessions",
    TABLES,
    sa.Column("key", sa.String(64), primary_key=True),
    _words("person"),
    sa.Column("person_key", sa.String(64), nullable=False, index=True),
    _moment("began"),
    _moment("seen"),
    _words("form_key"),
)
"""Nobody's token stands here, only its hash."""

failed_log_ins = sa.Table(
    "failed_log_ins",
    TABLES,
    _counted("step"),
    sa.Column("key", sa.String(64), nullable=False, index=True),
    _moment("at"),
    sqlite_autoincrement=True,
)
"""By the fingerprint of what was typed as a name: it may have been a password."""

ledger = sa.Table(
    "ledger",
    TABLES,
    _counted("line"),
    _moment("at"),
    _words("who"),
    _words("what"),
    _words("where"),
    sqlite_autoincrement=True,
)

replies = sa.Table(
    "replies",
    TABLES,
    sa.Column("fingerprint", sa.String(64), primary_key=True),
    _words("key"),
    _words("print"),
    _whole("status"),
    sa.Column("body", sa.LargeBinary, nullable=False),
    _moment("at"),
)

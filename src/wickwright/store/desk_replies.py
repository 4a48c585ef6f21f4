"""Answers to writes that carry a key."""

from __future__ import annotations

import hashlib
from datetime import timedelta
from typing import TYPE_CHECKING, Final

import sqlalchemy as sa

from wickwright.answers.sheet.desk_store import KeptReply
from wickwright.store.column_types import keepable
from wickwright.store.engines import insert_once
from wickwright.store.schema import replies

if TYPE_CHECKING:
    from datetime import datetime

    from wickwright.store.engines import Engines

__all__ = ["KeptReplies"]

_FORGOTTEN: Final = timedelta(days=7)


class KeptReplies:
    """Answers, so that a repeated write changes nothing; each for a week.

    Parameters
    ----------
    engines : Engines
        Where transactions come from.
    """

    def __init__(self, engines: Engines) -> None:
        self._engines = engines

    def kept(self, key: str) -> KeptReply | None:
        """Return what was answered before."""
        with self._engines.reading() as connection:
            return _read(connection, _fingerprint(key))

    def keep(self, reply: KeptReply, at: datetime) -> KeptReply:
        """Keep an answer; return the one kept first where there is one."""
        fingerprint = _fingerprint(reply.key)
        values = {
            "fingerprint": fingerprint,
            "key": reply.key,
            "print": reply.print,
            "status": reply.status,
            "body": reply.body,
            "at": at,
        }
        with self._engines.writing() as connection:
            connection.execute(sa.delete(replies).where(replies.c.at < at - _FORGOTTEN))
            insert_once(connection, replies, values)
            return _read(connection, fingerprint) or reply


def _fingerprint(key: str) -> str:
    """Return what a key is looked up by; of keys every sign counts."""
    return hashlib.sha256(keepable(key).encode()).hexdigest()


def _read(connection: sa.Connection, fingerprint: str) -> KeptReply | None:
    wanted = sa.select(replies).where(replies.c.fingerprint == fingerprint)
    row = connection.execute(wanted).mappings().first()
    if row is None:
        return None
    return KeptReply(row["key"], row["print"], row["status"], bytes(row["body"]))

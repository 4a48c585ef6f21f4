"""What was refused or done that somebody may have to look into."""

from __future__ import annotations

from typing import TYPE_CHECKING

import sqlalchemy as sa

from wickwright.answers.sheet.desk_store import Noted
from wickwright.store.schema import ledger

if TYPE_CHECKING:
    from datetime import datetime

    from wickwright.store.engines import Engines

__all__ = ["KeptLedger"]


class KeptLedger:
    """Lines that are added and never changed.

    Parameters
    ----------
    engines : Engines
        Where transactions come from.
    """

    def __init__(self, engines: Engines) -> None:
        self._engines = engines

    def note(self, who: str, what: str, where: str, at: datetime) -> None:
        """Write a line."""
        line = {"at": at, "who": who, "what": what, "where": where}
        with self._engines.writing() as connection:
            connection.execute(sa.insert(ledger).values(line))

    def newest(self, most: int = 200) -> tuple[Noted, ...]:
        """Return lines, newest first."""
        wanted = sa.select(ledger).order_by(ledger.c.line.desc()).limit(max(0, most))
        with self._engines.reading() as connection:
            rows = connection.execute(wanted).mappings()
            return tuple(Noted(row["at"], row["who"], row["what"], row["where"]) for row in rows)

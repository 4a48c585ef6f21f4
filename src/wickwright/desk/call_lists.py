"""Calls in lists, as pages show them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickwright.desk.times import moment

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import datetime

    from wickwright.answers.sheet.call_record import CallLine
    from wickwright.desk.times import Moment

__all__ = ["CallRow", "call_rows"]

_LONGEST: Final = 90


@dataclass(frozen=True, slots=True)
class CallRow:
    """A call in a list.

    Attributes
    ----------
    number : int
        Of the call.
    state, desk, adviser, caller, lamp : str
        As of :class:`wickwright.answers.sheet.call_record.CallLine`.
    words : str
        What was said, cut where it is long.
    opened : Moment
        When it began.
    """

    number: int
    state: str
    desk: str
    adviser: str
    caller: str
    lamp: str
    words: str
    opened: Moment


def call_rows(lines: Sequence[CallLine], now: datetime) -> tuple[CallRow, ...]:
    """Make calls ready for a list.

    Parameters
    ----------
    lines : sequence of CallLine
        From the store.
    now : datetime
        In UTC.

    Returns
    -------
    tuple of CallRow
        In the same order.
    """
    return tuple(
        CallRow(
            number=line.number,
            state=str(line.state),
            desk=line.desk,
            adviser=line.adviser,
            caller=line.caller or "no name",
            lamp=line.lamp,
            words=_cut(line.words),
            opened=moment(line.opened, now),
        )
        for line in lines
    )


def _cut(words: str) -> str:
    flat = " ".join(words.split())
    return flat if len(flat) <= _LONGEST else f"{flat[:_LONGEST].rstrip()}…"

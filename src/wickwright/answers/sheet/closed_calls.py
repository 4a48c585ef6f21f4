"""Closed calls as cases to learn from: what was asked, done and found; nothing of the caller."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from wickwright.answers.sheet.call_sheet import sheet_of
from wickwright.cause.case import Outcome, Spoken
from wickwright.cause.closed import ClosedCase, Confirmed

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wickwright.answers.sheet.call_record import Call
    from wickwright.answers.sheet.memory import Memory

__all__ = ["closed_cases"]

_OUTCOMES: Final = {one.value: one for one in Outcome}
_CONFIRMED: Final = {one.value: one for one in Confirmed}


def closed_cases(memory: Memory, calls: Iterable[Call]) -> tuple[ClosedCase, ...]:
    """Return what closed calls have to teach.

    Parameters
    ----------
    memory : Memory
        The fit book that is to learn, and what was worked out from it.
    calls : iterable of Call
        Closed calls of any revision.

    Returns
    -------
    tuple of ClosedCase
        Those about something wrong with a lamp and under causes that this book knows, in order.
        No name, address or word of a caller is in them.
    """
    found = (_case(memory, call) for call in calls)
    return tuple(one for one in found if one is not None)


def _case(memory: Memory, call: Call) -> ClosedCase | None:
    closing = call.closing
    worked = sheet_of(memory, call.said)
    known = memory.compiled.book.calls.causes
    if closing is None or worked.case is None or any(one not in known for one in closing.causes):
        return None
    confirmed = _CONFIRMED.get(closing.confirmed, Confirmed.NOT)
    if not closing.causes:
        confirmed = Confirmed.NOT
    outcome = _OUTCOMES.get(closing.outcome, Outcome.STILL)
    case = worked.case.case
    case = replace(case, events=tuple(e for e in case.events if not isinstance(e, Spoken)))
    return ClosedCase(case, outcome, closing.causes, confirmed, call.changed.date())

"""Dangers on a sheet as the page tells them: which, what to do now, what never to do."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.catalogue.call_records import DANGERS

if TYPE_CHECKING:
    from wickwright.answers.sheet.call_sheet import Sheet

__all__ = ["Alarm", "alarms"]


@dataclass(frozen=True, slots=True)
class Alarm:
    """A danger that is there, and what the caller is told at once.

    Attributes
    ----------
    says : str
        Which.
    tells : tuple of str
        In order.
    never : tuple of str
        What must not be done.
    """

    says: str
    tells: tuple[str, ...]
    never: tuple[str, ...]


def alarms(sheet: Sheet) -> tuple[Alarm, ...]:
    """Return every danger that is there or was said beyond doubt, the gravest first."""
    shut = sheet.gate.stops if sheet.gate else ()
    return tuple(Alarm(DANGERS[guard.danger], guard.tells, guard.never) for guard in shut)

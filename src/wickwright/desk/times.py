"""Times as a page says them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from datetime import datetime

__all__ = ["Moment", "moment"]

_MINUTE: Final = 60
_HOUR: Final = 60 * _MINUTE
_DAY: Final = 24 * _HOUR


@dataclass(frozen=True, slots=True)
class Moment:
    """A time in a page.

    Attributes
    ----------
    machine : str
        After RFC 3339.
    says : str
        To the minute, in UTC.
    age : str
        How long ago, such as ``3 h``.
    """

    machine: str
    says: str
    age: str


def moment(at: datetime, now: datetime) -> Moment:
    """Say when something was.

    Parameters
    ----------
    at, now : datetime
        In UTC.

    Returns
    -------
    Moment
        For a page.
    """
    return Moment(f"{at:%Y-%m-%dT%H:%M:%SZ}", f"{at:%Y-%m-%d %H:%M} UTC", _age(at, now))


def _age(at: datetime, now: datetime) -> str:
    seconds = int((now - at).total_seconds())
    if seconds < _MINUTE:
        return "just now"
    if seconds < _HOUR:
        return f"{seconds // _MINUTE} min"
    if seconds < 2 * _DAY:
        return f"{seconds // _HOUR} h"
    return f"{seconds // _DAY} days"

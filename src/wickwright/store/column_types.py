"""Columns that hold the same on every database: text, moments, plain data.

PostgreSQL takes no NUL in a text and no database takes half of a surrogate pair. Nobody means to
type either, so both are kept as U+FFFD, on every database alike, wherever they come from.
"""

from __future__ import annotations

import json
from datetime import UTC, datetime
from typing import TYPE_CHECKING, cast

import sqlalchemy as sa
from sqlalchemy.types import TypeDecorator

if TYPE_CHECKING:
    from sqlalchemy.engine import Dialect

    from wickwright.answers.plain.answers import Plain

__all__ = [
    "Moment",
    "PlainData",
    "Words",
    "keepable",
    "keepable_plain",
    "moment_text",
    "read_moment",
]

_STAND_IN = "\N{REPLACEMENT CHARACTER}"
_SURROGATES = dict.fromkeys((0, *range(0xD800, 0xE000)), _STAND_IN)


def keepable(text: str) -> str:
    """Return a text as a store keeps it.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    str
        The same, with U+FFFD for each NUL and each lone surrogate.
    """
    if text.isascii():
        return text.replace("\0", _STAND_IN)
    return text.translate(_SURROGATES)


def keepable_plain(plain: Plain) -> Plain:
    """Return plain data as a store keeps it, each text in it by :func:`keepable`."""
    if isinstance(plain, str):
        return keepable(plain)
    if isinstance(plain, list):
        return [keepable_plain(one) for one in plain]
    if isinstance(plain, dict):
        return {keepable(name): keepable_plain(one) for name, one in plain.items()}
    return plain


def moment_text(moment: datetime) -> str:
    """Write a moment so that texts sort as moments do.

    Parameters
    ----------
    moment : datetime
        With its zone.

    Returns
    -------
    str
        In UTC, to the microsecond, always of the same length.

    Raises
    ------
    ValueError
        When it has no zone.
    """
    if moment.tzinfo is None:
        msg = f"the time {moment.isoformat()} has no zone: hand the store times in UTC"
        raise ValueError(msg)
    return moment.astimezone(UTC).isoformat(timespec="microseconds")


def read_moment(text: str) -> datetime:
    """Read a moment as :func:`moment_text` writes it."""
    return datetime.fromisoformat(text)


class Words(TypeDecorator[str]):
    """Text of any length, as :func:`keepable` leaves it."""

    impl = sa.Text
    cache_ok = True

    def process_bind_param(self, value: str | None, dialect: Dialect) -> str | None:  # noqa: ARG002
        """Write a text."""
        return None if value is None else keepable(value)


class Moment(TypeDecorator[datetime]):
    """A moment, kept as text in UTC, for SQLite would drop its zone."""

    impl = sa.Text
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> str | None:  # noqa: ARG002
        """Write a moment."""
        return None if value is None else moment_text(value)

    def process_result_value(self, value: str | None, dialect: Dialect) -> datetime | None:  # noqa: ARG002
        """Read a moment."""
        return None if value is None else read_moment(value)


class PlainData(TypeDecorator["Plain"]):
    """What JSON can hold, kept as its text, so that it comes back in the order it was given."""

    impl = sa.Text
    cache_ok = True

    def process_bind_param(self, value: Plain, dialect: Dialect) -> str | None:  # noqa: ARG002
        """Write plain data."""
        if value is None:
            return None
        return json.dumps(keepable_plain(value), ensure_ascii=False, separators=(",", ":"))

    def process_result_value(self, value: str | None, dialect: Dialect) -> Plain:  # noqa: ARG002
        """Read plain data."""
        return None if value is None else cast("Plain", json.loads(value))

"""What a spreadsheet or a Parquet file keeps as a number, a date or a truth, as text."""

from __future__ import annotations

import datetime as dt
from decimal import Decimal

__all__ = ["Value", "cell_text", "is_moment"]

Value = str | bool | int | float | Decimal | dt.datetime | dt.date | dt.time | dt.timedelta | None
"""What a cell may hold."""

_DIGITS = 15  # a spreadsheet keeps and shows no more; 0.1 + 0.2 is 0.3 in it


def cell_text(value: Value) -> str:
    """Return the text of a cell.

    Parameters
    ----------
    value : str, bool, int, float, Decimal, date, time or None
        What the file keeps.

    Returns
    -------
    str
        Numbers without an exponent and without ``.0``, truths as ``TRUE`` and ``FALSE``,
        dates and times as in ISO 8601, None as a blank.
    """
    if value is None or isinstance(value, str):
        return value or ""
    if isinstance(value, bool):
        return str(value).upper()
    if isinstance(value, float | Decimal):
        return _number_text(value)
    if isinstance(value, dt.datetime):
        whole_day = value.time() == dt.time()
        return value.date().isoformat() if whole_day else value.isoformat(sep=" ")
    return value.isoformat() if isinstance(value, dt.date | dt.time) else str(value)


def _number_text(value: float | Decimal) -> str:
    exact = value if isinstance(value, Decimal) else Decimal(f"{value:.{_DIGITS}g}")
    if not exact.is_finite():
        return str(value)
    if exact == 0:
        return "0"
    digits = f"{exact:f}"
    plain = isinstance(value, float) and "." in digits
    return digits.rstrip("0").rstrip(".") if plain else digits


def is_moment(value: Value) -> bool:
    """Tell whether a cell holds a date or a time.

    Parameters
    ----------
    value : str, bool, int, float, Decimal, date, time or None
        What the file keeps.

    Returns
    -------
    bool
        True for dates, times and spans of time.
    """
    return isinstance(value, dt.date | dt.time | dt.timedelta)

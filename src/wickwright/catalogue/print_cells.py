"""Values back into the text of a cell, so that reading gives the same value."""

from __future__ import annotations

import math
from decimal import Decimal

__all__ = [
    "print_degrees",
    "print_length",
    "print_money",
    "print_number",
    "print_whole",
]

_HUNDRED = 100


def print_number(value: float | None, places: int = 0) -> str:
    """Print a number without an exponent.

    Parameters
    ----------
    value : float or None
        The number; None is a blank cell.
    places : int
        How many places the decimal point moves to the right: 3 prints kilograms as grams.

    Returns
    -------
    str
        The shortest digits that read back as ``value``.
    """
    if value is None:
        return ""
    digits = f"{Decimal(repr(value)).scaleb(places):f}"
    return digits.rstrip("0").rstrip(".") if "." in digits else digits


def print_length(metres: float | None) -> str:
    """Print a length in millimetres.

    Parameters
    ----------
    metres : float or None
        The length [m]; None is a blank cell.

    Returns
    -------
    str
        Such as ``'310 mm'``.
    """
    return "" if metres is None else f"{print_number(metres, 3)} mm"


def print_degrees(radians: float) -> str:
    """Print an angle in degrees.

    Parameters
    ----------
    radians : float
        The angle [rad].

    Returns
    -------
    str
        The shortest digits that read back as ``radians``; where none do, which is only so
        for angles that were never read from degrees, the nearest.
    """
    degrees = math.degrees(radians)
    near = (degrees, math.nextafter(degrees, 0), math.nextafter(degrees, math.inf))
    tries = [float(f"{degrees:.{digits}g}") for digits in range(1, 17)]
    for attempt in (*tries, *near):
        if math.radians(attempt) == radians:
            return print_number(attempt)
    return print_number(degrees)


def print_whole(value: int | None) -> str:
    """Print a whole number.

    Parameters
    ----------
    value : int or None
        The number; None is a blank cell.

    Returns
    -------
    str
        Its digits.
    """
    return "" if value is None else str(value)


def print_money(hundredths: int | None) -> str:
    """Print an amount of money.

    Parameters
    ----------
    hundredths : int or None
        The amount in the smallest coin, not negative; None is a blank cell.

    Returns
    -------
    str
        Such as ``'12.50'``.
    """
    if hundredths is None:
        return ""
    whole, rest = divmod(hundredths, _HUNDRED)
    return f"{whole}.{rest:02d}"

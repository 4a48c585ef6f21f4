"""Quantities as people type them, such as 843hPa, 40m3 or 2ft, into SI units."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickwright.terms.units import UnitsError

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["TYPED", "Typed", "parse_typed"]

_NUMBER = re.compile(r"\s*(?P<number>[+-]?[\d.,]*\d[\d.,]*)\s*(?P<unit>[^\d\s.,].*?)?\s*")
_PLAIN = re.compile(r"[+-]?(?:\d+|\d{1,3}(?:,\d{3})+|(?=\.))(?:\.\d*)?")
"""A number with a point before its fraction, its thousands apart or not."""
_FOOT, _INCH = 0.3048, 0.0254
_INCH_OF_MERCURY, _MILLIMETRE_OF_MERCURY = 3386.389, 133.322
_HOUR = 3600.0


@dataclass(frozen=True, slots=True)
class Typed:
    """A quantity that can be typed.

    Attributes
    ----------
    says : str
        What it is, in words, with its article.
    units : mapping of str to float
        SI units in each unit it may be typed in; that of a blank where none is needed.
    low, high : float
        The least and the greatest that is taken [SI unit].
    limits : str
        The same in words, and where they come from.
    example : str
        How it is written.
    """

    says: str
    units: Mapping[str, float]
    low: float
    high: float
    limits: str
    example: str


TYPED: Final[dict[str, Typed]] = {
    "pressure": Typed(
        "an air pressure",
        {
            "hPa": 100.0,
            "mbar": 100.0,
            "kPa": 1000.0,
            "Pa": 1.0,
            "inHg": _INCH_OF_MERCURY,
            "mmHg": _MILLIMETRE_OF_MERCURY,
        },
        45_000.0,
        110_000.0,
        "450 hPa (a storm over the highest dwellings) to 1100 hPa (the lowest shore in fine "
        "weather), as a barometer shows it there and not reduced to sea level",
        "843hPa or 24.9inHg",
    ),
    "volume": Typed(
        "a volume of a room",
        {"m3": 1.0, "m³": 1.0, "ft3": _FOOT**3, "ft³": _FOOT**3},
        0.5,
        100_000.0,
        "0.5 m3 (a cupboard) to 100000 m3 (a hangar): length by width by height",
        "40m3 or 1400ft3",
    ),
    "distance": Typed(
        "a distance",
        {
            "m": 1.0,
            "cm": 0.01,
            "mm": 0.001,
            "ft": _FOOT,
            "feet": _FOOT,
            "in": _INCH,
            '"': _INCH,
            "'": _FOOT,
        },
        0.001,
        50.0,
        "1 mm to 50 m (the plume laws end there)",
        "0.6m, 60cm or 24in",
    ),
    "time": Typed(
        "a time",
        {"": _HOUR, "h": _HOUR, "hours": _HOUR, "min": 60.0},
        60.0,
        30 * 86400.0,
        "1 min to 720 h (a month)",
        "4, 4h or 90min",
    ),
    "air change": Typed(
        "a rate of air changes",
        {"": 1.0 / _HOUR, "/h": 1.0 / _HOUR},
        0.0,
        100.0 / _HOUR,
        "0 (sealed) to 100 an hour; a closed room in a house has 0.2 to 1, with a window open "
        "2 to 10",
        "0.5",
    ),
}
"""Every quantity that a command takes, by name."""


def parse_typed(text: str, quantity: str) -> float:
    """Read a quantity as people type it.

    Parameters
    ----------
    text : str
        Such as ``'843 hPa'``.
    quantity : str
        One of :data:`TYPED`.

    Returns
    -------
    float
        In SI units.

    Raises
    ------
    UnitsError
        When it is no number, its unit is missing or unknown, or it is out of range.
    """
    of = TYPED[quantity]
    match = _NUMBER.fullmatch(text)
    unit = (match["unit"] or "") if match else ""
    if match is None or unit not in of.units:
        units = ", ".join(unit for unit in of.units if unit)
        bare = " or no unit" if "" in of.units else ""
        msg = (
            f"'{text}' is not {of.says}: write a number with one of {units}{bare}, "
            f"such as {of.example}"
        )
        raise UnitsError(msg)
    if not _PLAIN.fullmatch(match["number"]):
        msg = (
            f"'{text}' can be read in more than one way: write a point before a fraction, such as "
            f"{of.example}"
        )
        raise UnitsError(msg)
    value = float(match["number"].replace(",", "")) * of.units[unit]
    slack = 1e-9 * abs(of.high)
    if not of.low - slack <= value <= of.high + slack:
        msg = (
            f"{text} is out of range for {of.says}: allowed is {of.limits}; "
            "check the figure and its unit"
        )
        raise UnitsError(msg)
    return value

"""A dimension as the maker wrote it: kept as printed, converted once.

``'2 5/8 in'``, ``'66.7 mm'``, ``'66.7 +0.1/-0.2 mm'``, ``'66.7 ± 0.2 mm'`` and
``'65.5..67.5 mm'`` all become a :class:`Dimension` in metres.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

__all__ = ["LENGTH_UNITS", "Dimension", "DimensionError", "parse_dimension", "unstated_tolerance"]

LENGTH_UNITS: dict[str, Fraction] = {
    "mm": Fraction(1, 1000),
    "cm": Fraction(1, 100),
    "m": Fraction(1),
    "in": Fraction(254, 10000),
    '"': Fraction(254, 10000),
    "ft": Fraction(3048, 10000),
}
"""Metres in one unit of length; exact by definition (the inch is 25.4 mm)."""

_GENERAL_TOLERANCE = (
    (0.003, 0.0001),
    (0.006, 0.0001),
    (0.030, 0.0002),
    (0.120, 0.0003),
    (0.400, 0.0005),
    (1.000, 0.0008),
)
"""Upper size [m] and tolerance [m]: ISO 2768-1 class m, from memory, not seen."""

_NUMBER = r"(?:\d+\s+\d+/\d+|\d+/\d+|\d*\.\d+|\d+)"
_UNIT = r"(?P<unit>mm|cm|m|in|ft|\")"
_DASH = chr(0x2013)  # an en dash, as spreadsheets make of two hyphens
_RANGE = re.compile(rf"^(?P<low>{_NUMBER})\s*(?:\.\.|{_DASH}|to)\s*(?P<high>{_NUMBER})\s*{_UNIT}$")
_BOTH = re.compile(rf"^(?P<at>{_NUMBER})\s*(?:±|\+/-|\+-)\s*(?P<tol>{_NUMBER})\s*{_UNIT}$")
_SIDES = re.compile(
    rf"^(?P<at>{_NUMBER})\s*\+\s*(?P<plus>{_NUMBER})\s*/?\s*-\s*(?P<minus>{_NUMBER})\s*{_UNIT}$"
)
_PLAIN = re.compile(rf"^(?P<at>{_NUMBER})\s*{_UNIT}$")
_COMMA = re.compile(r"\d,\d")


class DimensionError(ValueError):
    """A text that is not a dimension; ``cure`` says what would be one."""

    def __init__(self, what: str, cure: str) -> None:
        super().__init__(f"{what}: {cure}")
        self.what = what
        self.cure = cure


@dataclass(frozen=True, slots=True)
class Dimension:
    """A length with its tolerance.

    Attributes
    ----------
    nominal : float
        The size named [m].
    low, high : float
        The least and the greatest size allowed [m].
    text : str
        As the maker printed it.
    stated : bool
        False where the maker printed no tolerance and the general one was assumed.
    """

    nominal: float
    low: float
    high: float
    text: str
    stated: bool = True

    @property
    def middle(self) -> float:
        """The middle of the tolerance zone [m]."""
        return (self.low + self.high) / 2

    @property
    def half(self) -> float:
        """Half the width of the tolerance zone [m]."""
        return (self.high - self.low) / 2


def unstated_tolerance(size: float) -> float:
    """Return the tolerance assumed where none is printed.

    Parameters
    ----------
    size : float
        Nominal size [m].

    Returns
    -------
    float
        Half-width of the tolerance zone [m].

    Notes
    -----
    The medium class of the general tolerances of ISO 2768-1 (source key ``iso2768``,
    from memory, not seen); never more than half the size.
    """
    for upper, tolerance in _GENERAL_TOLERANCE:
        if size <= upper:
            return min(tolerance, size / 2)
    return 0.0012


def _number(text: str) -> Fraction:
    return sum((Fraction(word) for word in text.split()), Fraction(0))


def _whole(match: re.Match[str], text: str) -> Dimension:
    try:
        return _span(match, text)
    except ZeroDivisionError:
        what = f"'{text}' divides by zero"
        raise DimensionError(what, "write the fraction again") from None


def _span(match: re.Match[str], text: str) -> Dimension:
    """Turn any of the four written forms into a zone."""
    unit = LENGTH_UNITS[match["unit"]]
    got = {k: _number(v) * unit for k, v in match.groupdict().items() if k != "unit"}
    if "low" in got:
        low, high = got["low"], got["high"]
        return Dimension(float((low + high) / 2), float(low), float(high), text)
    at = got["at"]
    if "tol" in got:
        return Dimension(float(at), float(at - got["tol"]), float(at + got["tol"]), text)
    if "plus" in got:
        return Dimension(float(at), float(at - got["minus"]), float(at + got["plus"]), text)
    tolerance = unstated_tolerance(float(at))
    return Dimension(float(at), float(at) - tolerance, float(at) + tolerance, text, stated=False)


@lru_cache(maxsize=65536)
def parse_dimension(text: str) -> Dimension:
    """Read a dimension as a maker prints it.

    Parameters
    ----------
    text : str
        For example ``'2 5/8 in'``, ``'66.7 +0.1/-0.2 mm'`` or ``'65.5..67.5 mm'``.

    Returns
    -------
    Dimension
        In metres, with ``text`` kept.

    Raises
    ------
    DimensionError
        When the text is no dimension, is upside down or not above zero.

    Examples
    --------
    >>> round(parse_dimension("2 5/8 in").nominal * 1000, 4)
    66.675
    """
    asked = text.strip()
    if _COMMA.search(asked):
        what = f"'{text}' is written with a decimal comma"
        raise DimensionError(what, f"write a decimal point: '{asked.replace(',', '.')}'")
    for form in (_RANGE, _BOTH, _SIDES, _PLAIN):
        if match := form.match(asked):
            return _checked(_whole(match, asked))
    what = f"'{text}' is not a dimension"
    raise DimensionError(
        what,
        "write a number and a unit (mm, cm, m, in, ft), such as '66.7 mm', '2 5/8 in', "
        "'66.7 +0.1/-0.2 mm' or '65.5..67.5 mm'",
    )


def _checked(size: Dimension) -> Dimension:
    if size.low > size.high:
        what = f"'{size.text}' runs downwards"
        raise DimensionError(what, "write the smaller size first")
    if size.low <= 0:
        what = f"'{size.text}' reaches zero or less"
        raise DimensionError(what, "a size and its tolerance stay above zero")
    return size

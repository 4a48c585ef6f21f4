"""What one cell of a fit book says: text into value, and why it cannot be."""

from __future__ import annotations

import re
from datetime import date
from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING

from wickwright.catalogue.spelling import meant, quoted
from wickwright.terms.dimension import (
    LENGTH_UNITS,
    Dimension,
    DimensionError,
    parse_dimension,
)

if TYPE_CHECKING:
    from collections.abc import Callable

__all__ = [
    "YEARS",
    "CellError",
    "parse_count",
    "parse_day",
    "parse_key",
    "parse_length",
    "parse_level",
    "parse_money",
    "parse_number",
    "parse_pitch",
    "parse_signed",
    "parse_tokens",
    "parse_year",
    "word_of",
    "words_of",
]

YEARS = (1700, 2199)
"""First and last year a book may name."""

_WHOLE = re.compile(r"[0-9]{1,12}")
_SIGNED = re.compile(r"[+-]?[0-9]{1,12}")
_NUMBER = re.compile(r"[0-9]{1,12}(?:\.[0-9]{1,12})?|\.[0-9]{1,12}")
_MONEY = re.compile(r"[0-9]{1,12}(?:\.[0-9]{1,2})?|\.[0-9]{1,2}")
_FINE_MONEY = re.compile(r"[0-9]*\.[0-9]{3,}")
_NEGATIVE = re.compile(r"[-\u2013\u2212]\s*[0-9.][0-9.,]*")
_THOUSANDS = re.compile(r"[1-9][0-9]{0,2}(?:,[0-9]{3})+(?:\.[0-9]+)?")
_COMMA = re.compile(r"[0-9]+,[0-9]+")
_MINUS = "\u2212"
_SPACE = re.compile(r"\s")
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")

_MIXED = r"(?P<at>[0-9]+\s+[0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]*\.[0-9]+|[0-9]+)"
_PLAIN_LENGTH = re.compile(rf"{_MIXED}\s*(?P<unit>mm|cm|m|in|ft|\")")
_THREADS = re.compile(rf"{_MIXED}\s*tpi", re.IGNORECASE)
_INCH = LENGTH_UNITS["in"]
_LONGEST_DIMENSION = 60

_A_LEVEL = "write a number and a unit (mm, cm, m, in, ft), such as '31 mm', '0 mm' or '-12 mm'"
_A_PITCH = "write the threads per inch or the millimetres a turn, such as '14 tpi' or '1.814 mm'"


class CellError(ValueError):
    """A cell that does not hold what its column wants.

    Parameters
    ----------
    text : str
        The cell.
    complaint : str
        What is wrong with it, to be said after the text.
    cure : str
        What mends it.
    """

    def __init__(self, text: str, complaint: str, cure: str) -> None:
        self.what = f"{quoted(text)} {complaint}"
        self.cure = cure
        super().__init__(f"{self.what}: {cure}")


def _odd_number(text: str, what: str, cure: str) -> CellError:
    """Say why a number is none, in the commonest cases."""
    if _THOUSANDS.fullmatch(text):
        return CellError(text, "has a comma in it", _without_comma(text))
    if _COMMA.fullmatch(text):
        pointed = text.replace(",", ".")
        return CellError(text, "is written with a decimal comma", f"write {pointed}")
    if _NEGATIVE.fullmatch(text):
        return CellError(text, "is negative", "write 0 or more; leave it blank if not known")
    return CellError(text, f"is not {what}", cure)


def _without_comma(text: str) -> str:
    plain = f"write {text.replace(',', '')}"
    if text.count(",") > 1 or "." in text:
        return f"{plain}, without commas"
    return f"{plain}, or {text.replace(',', '.')} if the comma is a decimal one"


def parse_year(text: str) -> int:
    """Read a year.

    Parameters
    ----------
    text : str
        Four digits.

    Returns
    -------
    int
        The year.

    Raises
    ------
    CellError
        When it is no year between :data:`YEARS`.
    """
    first, last = YEARS
    if _WHOLE.fullmatch(text) and first <= int(text) <= last:
        return int(text)
    raise CellError(
        text,
        f"is not a year between {first} and {last}",
        "write four digits, such as 1928; leave it blank if not known",
    )


def parse_day(text: str) -> date:
    """Read a day.

    Parameters
    ----------
    text : str
        Year, month and day, such as ``2026-07-01``.

    Returns
    -------
    date
        The day.

    Raises
    ------
    CellError
        When it is written otherwise, or there is no such day.
    """
    try:
        if _DAY.fullmatch(text):
            return date.fromisoformat(text)
    except ValueError:
        what = "is a day no calendar has"
    else:
        what = "is not a day"
    raise CellError(text, what, "write year, month and day, such as 2026-07-01")


def parse_count(text: str) -> int:
    """Read a whole number, not negative.

    Parameters
    ----------
    text : str
        Digits.

    Returns
    -------
    int
        The number.

    Raises
    ------
    CellError
        When it is anything else.
    """
    if _WHOLE.fullmatch(text):
        return int(text)
    raise _odd_number(text, "a whole number", "write digits alone, such as 12")


def parse_signed(text: str) -> int:
    """Read a whole number with or without a sign.

    Parameters
    ----------
    text : str
        Digits, a sign before them if need be.

    Returns
    -------
    int
        The number.

    Raises
    ------
    CellError
        When it is anything else.
    """
    if _SIGNED.fullmatch(text):
        return int(text)
    raise CellError(text, "is not a whole number", "write digits, such as 12 or -5")


def parse_number(text: str) -> Decimal:
    """Read a plain number, not negative.

    Parameters
    ----------
    text : str
        Digits with or without a decimal point, without a unit.

    Returns
    -------
    Decimal
        The number, exact.

    Raises
    ------
    CellError
        When it is anything else; a decimal comma is told apart.
    """
    if _NUMBER.fullmatch(text):
        return Decimal(text)
    cure = "write digits alone, such as 450 or 12.5; the unit stands in the column's note"
    raise _odd_number(text, "a plain number", cure)


def parse_money(text: str) -> int:
    """Read an amount of money.

    Parameters
    ----------
    text : str
        Such as ``'12.50'``.

    Returns
    -------
    int
        The amount in hundredths, the book's smallest coin.

    Raises
    ------
    CellError
        When it is negative, finer than the smallest coin or no amount.
    """
    if _MONEY.fullmatch(text):
        return int(Decimal(text).scaleb(2))
    if _FINE_MONEY.fullmatch(text):
        raise CellError(text, "is finer than the smallest coin", "write two decimals")
    cure = "write digits alone, such as 12.50; the currency stands in the table about"
    raise _odd_number(text, "an amount", cure)


def parse_length(text: str) -> Dimension:
    """Read a dimension, whatever is in the cell.

    Parameters
    ----------
    text : str
        See :func:`wickwright.terms.dimension.parse_dimension`.

    Returns
    -------
    Dimension
        In metres, with the text kept.

    Raises
    ------
    CellError, DimensionError
        When the text is no dimension.
    """
    if len(text) > _LONGEST_DIMENSION:
        raise CellError(
            text,
            "is too long for a dimension",
            "write the dimension alone; remarks go in the note",
        )
    return parse_dimension(text)


def _mixed(text: str) -> Fraction:
    """Return ``'2 5/8'`` as a fraction."""
    try:
        return sum((Fraction(word) for word in text.split()), Fraction(0))
    except ZeroDivisionError:
        raise CellError(text, "divides by zero", "write the fraction again") from None


def _metres(number: str, unit: str) -> float:
    if unit == "mm" and "/" not in number:
        return float(Decimal(number).scaleb(-3))  # the common case, and ten times quicker
    return float(_mixed(number) * LENGTH_UNITS[unit])


def parse_level(text: str) -> float:
    """Read a height, which may be zero or below.

    Parameters
    ----------
    text : str
        Such as ``'31 mm'``, ``'0 mm'`` or ``'-12 mm'``.

    Returns
    -------
    float
        Height [m].

    Raises
    ------
    CellError, DimensionError
        When the text is no height.
    """
    sign = -1.0 if text.startswith(("-", _MINUS)) else 1.0
    rest = text[1:].lstrip() if text.startswith(("-", _MINUS, "+")) else text
    if len(rest) <= _LONGEST_DIMENSION and (plain := _PLAIN_LENGTH.fullmatch(rest)):
        return sign * _metres(plain["at"], plain["unit"]) + 0.0
    try:
        return sign * parse_length(rest).nominal
    except DimensionError as error:
        if "decimal comma" in error.what:
            raise
        raise CellError(text, "is not a height", _A_LEVEL) from None


def parse_pitch(text: str) -> Dimension:
    """Read the pitch of a thread.

    Parameters
    ----------
    text : str
        ``'14 tpi'`` (threads per inch) or ``'1.814 mm'``.

    Returns
    -------
    Dimension
        Advance in one turn [m]; a pitch without a stated tolerance is exact, since the
        general tolerances are for lengths.

    Raises
    ------
    CellError, DimensionError
        When the text is no pitch.
    """
    threads = _THREADS.fullmatch(text) if len(text) <= _LONGEST_DIMENSION else None
    if threads:
        count = _mixed(threads["at"])
        if count == 0:
            raise CellError(text, "is not a pitch", _A_PITCH)
        pitch = float(_INCH / count)
        return Dimension(pitch, pitch, pitch, text)
    try:
        size = parse_length(text)
    except DimensionError as error:
        if "decimal comma" in error.what:
            raise
        raise CellError(text, "is not a pitch", _A_PITCH) from None
    if size.stated:
        return size
    return Dimension(size.nominal, size.nominal, size.nominal, text)


def parse_key(text: str) -> str:
    """Check a key: one word, so that others can name it in a list.

    Parameters
    ----------
    text : str
        A number or short name.

    Returns
    -------
    str
        The same.

    Raises
    ------
    CellError
        When it has blanks or commas in it or begins like a note.
    """
    if text.startswith("#"):
        raise CellError(
            text,
            "begins with '#', which marks a note",
            "take the '#' away, or put a blank behind it to make the row a note",
        )
    if _SPACE.search(text):
        joined = "-".join(text.split())
        raise CellError(text, "has a blank in it", f"write one word: {quoted(joined)}")
    if "," in text or ";" in text:
        raise CellError(text, "has a comma in it", "write it without commas")
    return text


def parse_tokens(text: str) -> tuple[str, ...]:
    """Read keys parted by blanks.

    Parameters
    ----------
    text : str
        Such as ``'1101 1102'``.

    Returns
    -------
    tuple of str
        The keys.

    Raises
    ------
    CellError
        When they are parted by commas, or one stands twice.
    """
    tokens = tuple(text.split())
    if "," in text or ";" in text:
        apart = " ".join(text.replace(",", " ").replace(";", " ").split())
        raise CellError(text, "has commas between its words", f"put blanks there: {apart}")
    if len(set(tokens)) < len(tokens):
        twice = next(token for n, token in enumerate(tokens) if token in tokens[:n])
        raise CellError(twice, "stands twice in the cell", "write it once")
    return tokens


def word_of(name: str, among: tuple[str, ...]) -> Callable[[str], str]:
    """Return a reader of one word of a closed list.

    Parameters
    ----------
    name : str
        Name of the list.
    among : tuple of str
        Its words.

    Returns
    -------
    callable
        Text to word; raises :class:`CellError`.
    """
    words = frozenset(among)

    def parse(text: str) -> str:
        if text in words:
            return text
        raise CellError(
            text,
            f"is not one of the {name}",
            f"{meant(text, among)}choose from: {', '.join(among)}",
        )

    return parse


def words_of(name: str, among: tuple[str, ...]) -> Callable[[str], tuple[str, ...]]:
    """Return a reader of some words of a closed list, parted by blanks.

    Parameters
    ----------
    name : str
        Name of the list.
    among : tuple of str
        Its words.

    Returns
    -------
    callable
        Text to words; raises :class:`CellError`.
    """
    word = word_of(name, among)

    def parse(text: str) -> tuple[str, ...]:
        return tuple(word(token) for token in parse_tokens(text))

    return parse

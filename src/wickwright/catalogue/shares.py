"""Numbers of a hundred: strengths of a cause, and cells that cannot be above a hundred."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from wickwright.catalogue.call_records import STRENGTHS
from wickwright.catalogue.cells import CellError, parse_number
from wickwright.catalogue.spelling import meant

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.catalogue.sheets import Sheet

__all__ = ["check_shares", "parse_strength"]

_HUNDRED = Decimal(100)
_WORDS = ", ".join(STRENGTHS)
_WRITE = f"write {_WORDS}, or a number above 0 and not above 100"


def parse_strength(text: str) -> float:
    """Read how strongly a cause shows itself.

    Parameters
    ----------
    text : str
        ``'strong'``, ``'medium'``, ``'weak'``, or a number of a hundred such as ``'35'``.

    Returns
    -------
    float
        Share of lamps with the cause alone that show the sign [-].

    Raises
    ------
    CellError
        When it is neither a strength nor a number above 0 and not above 100.
    """
    if text in STRENGTHS:
        return STRENGTHS[text]
    try:
        number = parse_number(text)
    except CellError as error:
        cure = f"{meant(text, STRENGTHS)}{_WRITE}"
        raise CellError(text, "is no strength", cure) from error
    if number > _HUNDRED:
        raise CellError(text, "is above 100", _WRITE)
    if not number:
        raise CellError(text, "is no strength at all", f"take the row out, or {_WRITE}")
    return float(number.scaleb(-2))


def check_shares(
    sheet: Sheet, columns: Sequence[str], *, above: Decimal | None = None, below: bool = False
) -> None:
    """Note the numbers of a hundred that cannot be.

    Parameters
    ----------
    sheet : Sheet
        The table; faults are added to it.
    columns : sequence of str
        Its columns that hold numbers of a hundred.
    above : Decimal or None
        What they must be above; None where 0 is allowed too.
    below : bool
        Whether 100 itself is too much.
    """
    for name in columns:
        for at, number in enumerate(sheet.numbers[name]):
            if number is None:
                continue
            high = number >= _HUNDRED if below else number > _HUNDRED
            low = above is not None and number <= above
            if high or low:
                sheet.fault(at, name, _out(sheet.texts[name][at], high=high), _range(above, below))


def _out(text: str, *, high: bool) -> str:
    return f"'{text}' is {'too much' if high else 'too little'} of a hundred"


def _range(above: Decimal | None, below: bool) -> str:  # noqa: FBT001 - two ends of one range
    low = "0" if above is None else f"a number above {above}"
    high = "a number below 100" if below else "100"
    return f"write {low} to {high}"

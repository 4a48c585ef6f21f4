"""What is drawn of a part to answer one question about it."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final, NamedTuple

if TYPE_CHECKING:
    from wickwright.charts.compared import Touch

__all__ = ["View", "count_in"]

_NUMBERS: Final = ("one", "two", "three", "four", "five", "six", "seven", "eight")


class View(NamedTuple):
    """Strokes of one part.

    Attributes
    ----------
    front : tuple of Touch
        From the front, from the axis and the part's foot [m].
    plan : tuple of Touch
        Along the axis [m].
    seen : str
        Where from, in words.
    note : str
        What is not of the fit book in it.
    """

    front: tuple[Touch, ...] = ()
    plan: tuple[Touch, ...] = ()
    seen: str = "Seen from the front."
    note: str = ""


def count_in(words: str) -> int | None:
    """Return the first number in a text, in figures or as a word up to eight; None for none."""
    for word in re.findall(r"[a-z]+|\d+", words.lower()):
        if word.isdecimal():
            return int(word)
        if word in _NUMBERS:
            return _NUMBERS.index(word) + 1
    return None

"""Texts of one line: names of callers, desks and advisers, places, what a photograph shows."""

from __future__ import annotations

import unicodedata
from typing import Final

__all__ = ["one_line"]

_BREAKS: Final = frozenset({"Cc", "Zl", "Zp"})
"""Control characters, and what ends a line or a paragraph."""
_TURNS: Final = frozenset("\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
"""Signs that turn the direction of what stands after them, and so can make a name look another."""


def one_line(text: str) -> str:
    """Return a text as one line.

    Parameters
    ----------
    text : str
        As it was typed or sent.

    Returns
    -------
    str
        Breaks of a line, control characters and signs that turn the direction of writing are
        blanks; several blanks are one, and none stands at an end.
    """
    return " ".join("".join(" " if _is_odd(sign) else sign for sign in text).split())


def _is_odd(sign: str) -> bool:
    return unicodedata.category(sign) in _BREAKS or sign in _TURNS

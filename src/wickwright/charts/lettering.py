"""How wide words are, before any font is at hand."""

from __future__ import annotations

import re
from typing import Final

__all__ = ["BOLDER", "FONTS", "balanced", "width_of", "wrapped"]

FONTS: Final = "Source Sans Pro, DejaVu Sans, sans-serif"
"""Fonts asked for, the first that is there. Room is kept for the widest of them."""
BOLDER: Final = 1.10
"""How much wider bold letters are [-]."""

_BY_WIDTH: Final = {
    28: "'ijl",
    30: "IJ",
    32: " ,.·‘’",  # noqa: RUF001 - letters are meant
    34: "/:;\\|",
    36: "-f",
    40: "()[]t!²³₀₁₂₃₄r",
    48: '"*_`°–',  # noqa: RUF001 - letters are meant
    52: "sz“”?",
    56: "cLFk",
    60: "vxyPTYaoδe",
    63: "ESbdghnpquσ$0123456789{}µ√",  # noqa: RUF001 - letters are meant
    68: "KAVBRXZ",
    73: "CUHN",
    79: "DG&OQ",
    84: "w#+<=>^~±×÷−≤≥≈→",  # noqa: RUF001 - letters are meant
    100: "M%m½¼¾W@—…",
}
_WIDTH: Final = {letter: part / 100 for part, letters in _BY_WIDTH.items() for letter in letters}
"""Advance widths of DejaVu Sans 2.37 over its size, rounded up to a class; the other fonts
asked for are narrower."""
_OTHER: Final = 0.7
_HOLDS: Final = re.compile(
    r"(?<=\d) (?=(?:mm|cm|m|in|ft|h|min|W|lm|ppm|%|°C|°F|g/h|m³|ft³)(?![A-Za-z]))"
)
"""A number and its unit stay on one line."""


def width_of(words: str, size: float, *, bold: bool = False) -> float:
    """Return how wide a text may come out.

    Parameters
    ----------
    words : str
        The text, on one line.
    size : float
        Size of the letters [px].
    bold : bool
        Whether they are bold.

    Returns
    -------
    float
        Width in the widest font asked for [px].
    """
    narrow = sum(_WIDTH.get(letter, _OTHER) for letter in words) * size
    return narrow * BOLDER if bold else narrow


def wrapped(words: str, size: float, room: float, *, bold: bool = False) -> tuple[str, ...]:
    """Break a text into lines.

    Parameters
    ----------
    words : str
        The text.
    size : float
        Size of the letters [px].
    room : float
        Widest line allowed; a single word may be wider [px].
    bold : bool
        Whether the letters are bold.

    Returns
    -------
    tuple of str
        The lines; none for no words.
    """
    lines: list[str] = []
    for word in filter(None, _HOLDS.sub("\N{NO-BREAK SPACE}", words).split(" ")):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width_of(longer, size, bold=bold) <= room:
            lines[-1] = longer
        else:
            lines.append(word)
    return tuple(lines)


def balanced(words: str, size: float, room: float, *, bold: bool = False) -> tuple[str, ...]:
    """Break a text into as few lines as it takes, and those about equally long.

    Parameters
    ----------
    words : str
        The text.
    size : float
        Size of the letters [px].
    room : float
        Widest line allowed; a single word may be wider [px].
    bold : bool
        Whether the letters are bold.

    Returns
    -------
    tuple of str
        The lines; none for no words.
    """
    lines = wrapped(words, size, room, bold=bold)
    narrower = lines
    while len(lines) > 1 and len(narrower) == len(lines) and room > size:
        lines, room = narrower, room * 0.96
        narrower = wrapped(words, size, room, bold=bold)
    return lines

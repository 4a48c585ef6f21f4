"""How large a made-up book is: how many parts of each kind, and how many sizes they come in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["SCALES", "Scale"]


@dataclass(frozen=True, slots=True)
class Scale:
    """The size of a book.

    Attributes
    ----------
    name : str
        ``S``, ``M`` or ``L``.
    lamps : int
        Lamps ever sold.
    parts : mapping of str to int
        Parts by kind.
    families : mapping of str to int
        Different sizes of each joint.
    drawings : int
        Revisions of each size: the same joint drawn again, a little different.
    """

    name: str
    lamps: int
    parts: Mapping[str, int]
    families: Mapping[str, int]
    drawings: int


_PARTS = {
    "base": 20,
    "font": 24,
    "reducer": 4,
    "burner": 18,
    "wick": 10,
    "spreader": 8,
    "gallery": 14,
    "mantle": 10,
    "chimney": 24,
    "holder": 16,
    "shade": 36,
    "bell": 4,
    "bulb": 6,
    "tool": 6,
}
"""Parts of the smallest book, 200 in all."""

_FAMILIES = {
    "foot": (3, 6, 10),
    "hook": (1, 2, 3),
    "collar": (3, 7, 11),
    "wick": (3, 8, 12),
    "tube": (3, 7, 11),
    "basket": (2, 9, 18),
    "mantle": (2, 4, 6),
    "fingers": (2, 4, 6),
    "turn": (1, 2, 3),
    "rim": (2, 4, 6),
    "ring": (2, 4, 6),
    "arms": (1, 2, 3),
    "cap": (2, 3, 4),
}


def _scale(name: str, at: int, lamps: int, times: int, drawings: int) -> Scale:
    parts = {kind: count * times for kind, count in _PARTS.items()}
    families = {joint: counts[at] for joint, counts in _FAMILIES.items()}
    return Scale(name, lamps, parts, families, drawings)


SCALES: dict[str, Scale] = {
    "S": _scale("S", 0, 30, 1, 2),
    "M": _scale("M", 1, 300, 10, 4),
    "L": _scale("L", 2, 2000, 50, 6),
}
"""30 lamps and 200 parts, 300 and 2,000, 2,000 and 10,000."""

"""Leverage as straight lines in the height above the pivot, and the lowest of them.

Something of mass ``m`` and moment ``q`` about its foot has the leverage ``q + m t`` when its
foot is ``t`` above the pivot (source key ``statics``). Of several things that could stand in
a place only those matter that are lowest at some height: the lower envelope. It is kept as a
list, heaviest first, which is the order from low places to high ones.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

__all__ = ["Line", "lowest", "summed"]

Line = tuple[int, int]
"""Mass and moment."""


def lowest(lines: Iterable[Line]) -> list[Line]:
    """Keep the lines that are lowest at some height.

    Parameters
    ----------
    lines : iterable of (int, int)
        Mass and moment.

    Returns
    -------
    list of (int, int)
        Heaviest first.
    """
    kept: list[Line] = []
    for line in sorted(lines, reverse=True):
        if kept and kept[-1][0] == line[0]:
            kept.pop()
        while len(kept) > 1 and _hidden(kept[-2], kept[-1], line):
            kept.pop()
        kept.append(line)
    return kept


def _hidden(one: Line, middle: Line, other: Line) -> bool:
    """Tell whether the middle of three lines, heaviest first, is nowhere the lowest."""
    (m1, q1), (m2, q2), (m3, q3) = one, middle, other
    return (q3 - q1) * (m1 - m2) <= (q2 - q1) * (m1 - m3)


def summed(one: Sequence[Line], other: Sequence[Line], rise: int) -> list[Line]:
    """Return the envelope of one thing with another a rise above it.

    Parameters
    ----------
    one, other : sequence of (int, int)
        Envelopes, heaviest first.
    rise : int
        Height of the other's foot above the one's.

    Returns
    -------
    list of (int, int)
        Of all sums of a line of each, those that are lowest at some height.
    """
    at = to = 0
    (m, q), (n, r) = one[0], other[0]
    found = [(m + n, q + r + n * rise)]
    while at + 1 < len(one) or to + 1 < len(other):
        if _changes_first(one, at, other, to, rise):
            at += 1
            m, q = one[at]
        else:
            to += 1
            n, r = other[to]
        found.append((m + n, q + r + n * rise))
    return found


def _changes_first(one: Sequence[Line], at: int, other: Sequence[Line], to: int, rise: int) -> bool:
    """Tell whether the next line of the one takes over at no greater height."""
    if to + 1 == len(other):
        return True
    if at + 1 == len(one):
        return False
    (m1, q1), (m2, q2) = one[at], one[at + 1]
    (n1, r1), (n2, r2) = other[to], other[to + 1]
    lighter, higher = n1 - n2, r2 - r1 - (n1 - n2) * rise
    return (q2 - q1) * lighter <= higher * (m1 - m2)

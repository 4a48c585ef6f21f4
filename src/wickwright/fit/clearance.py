"""The room left between a hole and what stands in it, and stacks of several dimensions."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wickwright.terms.dimension import Dimension

__all__ = ["Clearance", "Gap", "clearance", "stack"]


class Gap(NamedTuple):
    """A clearance interval [m]; negative is interference.

    A tuple, because three are made for each of the hundred thousand pairs of a large book, and
    a frozen dataclass takes three times as long.
    """

    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Clearance:
    """What tolerances leave of a size.

    Attributes
    ----------
    worst : Gap
        From the least to the greatest any allowed pair can show [m].
    likely : Gap
        The statistical interval: the middles, plus and minus the root sum of squares of the
        half tolerances [m].
    """

    worst: Gap
    likely: Gap


def clearance(hole: Dimension, shaft: Dimension) -> Clearance:
    """Return the clearance of a hole and a shaft.

    Parameters
    ----------
    hole, shaft : Dimension
        Inner and outer size with their tolerances [m].

    Returns
    -------
    Clearance
        Worst case ``hole.low - shaft.high .. hole.high - shaft.low`` and likely
        ``(hole.middle - shaft.middle) -+ sqrt(hole.half**2 + shaft.half**2)`` [m].

    Notes
    -----
    Root sum of squares as in the survey of tolerance stacks (source key ``scholz1995``). It
    takes sizes as centred in their zones and independent.
    """
    low = hole.low - shaft.high
    high = hole.high - shaft.low
    middle = (low + high) / 2
    one = hole.high - hole.low
    other = shaft.high - shaft.low
    half = sqrt(one * one + other * other) / 2
    return Clearance(Gap(low, high), Gap(middle - half, middle + half))


def stack(links: Iterable[tuple[int, Dimension]]) -> Clearance:
    """Add up dimensions that stand one behind the other.

    Parameters
    ----------
    links : iterable of (int, Dimension)
        Direction, +1 or -1, and size [m] of each link of the chain.

    Returns
    -------
    Clearance
        Worst case (the tolerances add) and likely (root sum of squares) of the sum [m].

    Raises
    ------
    ValueError
        When a direction is neither +1 nor -1.

    Notes
    -----
    Source key ``scholz1995``. An empty chain is 0.
    """
    middle = spread = squares = 0.0
    for direction, size in links:
        if direction not in {1, -1}:
            msg = f"a link points {direction}: write +1 (adds) or -1 (takes away)"
            raise ValueError(msg)
        middle += direction * size.middle
        spread += size.half
        squares += size.half**2
    likely = sqrt(squares)
    return Clearance(Gap(middle - spread, middle + spread), Gap(middle - likely, middle + likely))

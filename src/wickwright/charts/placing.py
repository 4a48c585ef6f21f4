"""Words on a chart, put where they cover the least."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from wickwright.charts.lettering import width_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.charts.svg import Point

__all__ = ["Box", "Spot", "best", "box_of", "dense", "spread"]


class Box(NamedTuple):
    """A rectangle on the paper [px]."""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Box) -> bool:
        """Tell whether two rectangles overlap."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )

    def holds(self, point: Point) -> bool:
        """Tell whether a point lies inside."""
        return self.left < point[0] < self.right and self.top < point[1] < self.bottom


class Spot(NamedTuple):
    """Where words could stand: base line and anchor [px]."""

    x: float
    y: float
    anchor: str


def box_of(spot: Spot, said: str, size: float, *, bold: bool = False) -> Box:
    """Return the rectangle that words take at a spot, with a little air around."""
    wide = width_of(said, size, bold=bold)
    left = spot.x - {"start": 0.0, "middle": wide / 2, "end": wide}[spot.anchor]
    return Box(left - 3.0, spot.y - 0.85 * size - 2.0, left + wide + 3.0, spot.y + 0.3 * size + 2.0)


def dense(points: Sequence[Point], apart: float = 5.0) -> list[Point]:
    """Return points along a line that are no further apart than a few pixels.

    Parameters
    ----------
    points : sequence of (float, float)
        Corners of the line; pieces to a point that is no number are left out [px].
    apart : float
        Greatest distance [px].

    Returns
    -------
    list of (float, float)
        Corners and points between [px].
    """
    found: list[Point] = []
    for (x0, y0), (x1, y1) in pairwise(points):
        far = math.hypot(x1 - x0, y1 - y0)
        if not math.isfinite(far):
            continue
        count = max(1, math.ceil(far / apart))
        found += [
            (x0 + (x1 - x0) * part / count, y0 + (y1 - y0) * part / count)
            for part in range(count + 1)
        ]
    return found


def best(
    spots: Sequence[Spot],
    said: str,
    size: float,
    *,
    inside: Box,
    taken: Sequence[Box],
    lines: Sequence[Point],
    bold: bool = False,
) -> Spot:
    """Choose the spot at which words cover the least.

    Parameters
    ----------
    spots : sequence of Spot
        Where they could stand, the dearest first.
    said : str
        The words.
    size : float
        Size of the letters [px].
    inside : Box
        What they should stay within [px].
    taken : sequence of Box
        Words that already stand [px].
    lines : sequence of (float, float)
        Points of the lines [px].
    bold : bool
        Whether the letters are bold.

    Returns
    -------
    Spot
        The first of those that cover the least.
    """

    def covered(spot: Spot) -> float:
        box = box_of(spot, said, size, bold=bold)
        words = sum(box.meets(other) for other in taken)
        beyond = max(0.0, inside.left - box.left, box.right - inside.right)
        beyond += max(0.0, inside.top - box.top, box.bottom - inside.bottom)
        return 1000.0 * words + 100.0 * beyond + sum(box.holds(point) for point in lines)

    return min(spots, key=covered)


def spread(wanted: Sequence[float], tall: Sequence[float], low: float, high: float) -> list[float]:
    """Move names apart so that none covers another.

    Parameters
    ----------
    wanted : sequence of float
        Where the middle of each name would best be [px].
    tall : sequence of float
        Height of each [px].
    low, high : float
        Ends of the column they stand in [px].

    Returns
    -------
    list of float
        Where their middles stand, in the order given [px].
    """
    order = sorted(range(len(wanted)), key=lambda place: (wanted[place], place))
    middles = [0.0] * len(wanted)
    free = low
    for place in order:
        middles[place] = max(wanted[place], free + tall[place] / 2)
        free = middles[place] + tall[place] / 2
    free = high
    for place in reversed(order):
        middles[place] = min(middles[place], free - tall[place] / 2)
        free = middles[place] - tall[place] / 2
    return middles

"""What a filling must still beat, so that nothing is worked out that cannot matter."""

from __future__ import annotations

from typing import NamedTuple

from wickwright.fit.search.labels import nondominated
from wickwright.fit.search.query import PACKING

__all__ = ["Cap", "joined"]

_MOST_OFFSETS = 12
"""Labels kept of a bound; many more would cost more than they spare."""


def joined(one: tuple[int, ...], other: tuple[int, ...]) -> tuple[int, ...]:
    """Return bounds on the sum of two things from bounds on each.

    Parameters
    ----------
    one, other : tuple of int
        Labels; each thing is nowhere below all of its own.

    Returns
    -------
    tuple of int
        Few labels; many are replaced by their least in every cost.
    """
    if len(other) == 1:
        return tuple(a + other[0] for a in one) if other[0] else one
    found = nondominated([a + b for a in one for b in other], PACKING.guards)
    if len(found) <= _MOST_OFFSETS:
        return tuple(found)
    columns = zip(*map(PACKING.unpack, found), strict=True)
    return (PACKING.pack([min(column) for column in columns]),)


class Cap(NamedTuple):
    """What a filling must beat to be of use: none of the rivals, with some offset added.

    Attributes
    ----------
    offsets : tuple of int
        What the rest costs at least, as labels of which one applies.
    rivals : tuple of int
        Labels already found for the whole.
    """

    offsets: tuple[int, ...]
    rivals: tuple[int, ...]

    def with_more(self, labels: tuple[int, ...]) -> Cap:
        """Return the cap on the rest, where one of these labels is added."""
        return Cap(joined(self.offsets, labels), self.rivals)

"""Places that are alike for every chimney of a book.

An elevation changes one thing only: how tall a chimney each burner needs. Between two heights
that some chimney has, nothing changes; so a file of a million orders from a thousand places
knows a few dozen sorts of place.
"""

from __future__ import annotations

from bisect import bisect_left
from typing import TYPE_CHECKING

from wickwright.fit.compiled import LENGTH_UNIT

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wickwright.catalogue.records import Part
    from wickwright.fit.place import Place

__all__ = ["Drafts"]


class Drafts:
    """Sorts places by the chimneys that draw there.

    Parameters
    ----------
    parts : iterable of Part
        Of the book.
    """

    def __init__(self, parts: Iterable[Part]) -> None:
        kept = tuple(parts)
        chimneys = [part.height for part in kept if part.kind == "chimney"]
        self._heights = sorted({round(high / LENGTH_UNIT) for high in chimneys if high})
        self._leasts = sorted({part.least_chimney for part in kept if part.least_chimney})

    def sort_of(self, place: Place) -> tuple[int, ...]:
        """Return what tells a place from others.

        Parameters
        ----------
        place : Place
            Where a lamp stands.

        Returns
        -------
        tuple of int
            Equal for places where the same chimneys draw on the same burners, as route search
            and audit count: in tenths of a millimetre and whole pascals.
        """
        up, down = place.scale
        needed = (-(-round(least / LENGTH_UNIT) * up // down) for least in self._leasts)
        return tuple(bisect_left(self._heights, least) for least in needed)

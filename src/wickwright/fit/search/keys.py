"""What a class's front depends on, as one small number, so that queries can share it.

A front below a socket depends on the wish only as far as the wish speaks of kinds that can
stand there. Two queries that differ elsewhere get the same number and share the front.
"""

from __future__ import annotations

from bisect import bisect_left
from typing import TYPE_CHECKING

from wickwright.fit.search.packs import PLENTY

if TYPE_CHECKING:
    from collections.abc import Hashable

    from wickwright.fit.search.brightness import Brightness
    from wickwright.fit.search.memory import Memory
    from wickwright.fit.search.query import Query

__all__ = ["Keys"]


class Keys:
    """Numbers for the sockets of one query.

    Parameters
    ----------
    memory : Memory
        The compiled tree; it hands out the numbers.
    query : Query
        What is asked.
    brightness : Brightness
        What must be earned where.
    """

    def __init__(self, memory: Memory, query: Query, brightness: Brightness) -> None:
        self.need = brightness.need
        self.memory, self.query, self.tree = memory, query, memory.tree
        self.loose = sum(1 << atom for atom in query.loose)
        self.stern = self._sterner()
        self._all = (query.aims, query.admits, query.dry)
        self._known: dict[int, int] = {}
        self._by_reach: dict[tuple[int, int, int, int], int] = {}

    def of(self, socket: int) -> int:
        """Return the number of a socket under this query."""
        found = self._known.get(socket)
        if found is None:
            tree = self.tree
            reach = tree.reach[socket]
            loose = self.loose & tree.atoms_reach[socket]
            parts = (reach, loose, reach & tree.demanding, self.need(socket))
            found = self._by_reach.get(parts)
            if found is None:
                found = self._by_reach[parts] = self.memory.number(self._content(*parts))
            self._known[socket] = found
        return found

    def _content(self, reach: int, loose: int, demanding: int, need: int) -> Hashable:
        masks = self.query.masks
        ids = tuple(masks[kind] for kind in range(reach.bit_length()) if reach >> kind & 1)
        stern = self.stern if demanding else ()
        return self._all, reach & self.query.required, reach, loose, ids, stern, need

    def _sterner(self) -> tuple[tuple[int, ...], ...]:
        """The demands of candidates under this query, each rounded to what is given."""
        return tuple(
            tuple(self.rounded(entry, value) for value in values)
            for entry, values in enumerate(self.memory.demanded)
        )

    def rounded(self, entry: int, value: int) -> int:
        """Scale a demand and round it up to the next amount that something gives."""
        if entry < len(self.query.scales):
            up, down = self.query.scales[entry]
            value = -(-(value * up) // down)
        if value <= 0:
            return 0
        ends = self.memory.ends[entry]
        at = bisect_left(ends, value)
        return ends[at] if at < len(ends) else PLENTY

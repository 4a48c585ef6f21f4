"""What a choice must cost at least, cost by cost, before anything is worked out below it.

Below a bought candidate each socket is filled either by something in hand, and then only
what stands on that must be paid for, or by something bought, and then at least the cheapest
member of the class is paid. The least of the two, cost by cost, is a bound.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.fit.search.query import PACKING

if TYPE_CHECKING:
    from wickwright.fit.search.finder import Finder
    from wickwright.fit.search.memory import FrontKey, Kits, Low

__all__ = ["Bounds"]

_FREE: Low = (0, 0, 0, 0)


class Bounds:
    """Bounds for one query.

    Parameters
    ----------
    finder : Finder
        The query being answered.
    """

    def __init__(self, finder: Finder) -> None:
        self.finder = finder
        self.known: dict[FrontKey, Low] = {}

    def hung(self, number: int, context: int, kits: Kits) -> int:
        """Return the least label of all that must hang on a candidate.

        Parameters
        ----------
        number : int
            The candidate.
        context : int
            Context of what stands on it.
        kits : Kits
            Things at hand below it.

        Returns
        -------
        int
            Packed; no filling of its sockets is anywhere below it.
        """
        if self.finder.bonus_kinds:
            return 0
        return PACKING.pack((*self._hung(number, context, kits), 0))

    def _hung(self, number: int, context: int, kits: Kits) -> Low:
        total = _FREE
        for socket in self.finder.tree.candidates[number].sockets:
            total = _sum(total, self.low(socket, context, kits))
        return total

    def low(self, socket: int, context: int, kits: Kits) -> Low:
        """Return the least of each cost in a class."""
        finder = self.finder
        if not finder.tree.sockets[socket].required:
            return _FREE
        kits = finder.touching(socket, kits) if kits else kits
        context = finder.memory.local(socket, context) if context else 0
        key = (socket, context, kits, finder.keys.of(socket))
        store = self.known if kits else finder.memory.lows
        found = store.get(key)
        if found is None:
            found = self._with_kits(socket, context, kits) if kits else self._plain(key)
            store[key] = found
        return found

    def _plain(self, key: FrontKey) -> Low:
        """Least costs over a whole front; of an empty one, more than anything costs."""
        socket, context, kits, _ = key
        front = self.finder.front(socket, context, kits)
        costs = [PACKING.unpack(label) for rows in front.values() for label, _ in rows]
        if not costs:
            return _NEVER
        price, bought, dying, bonus = (min(column) for column in [*zip(*costs, strict=True)][:4])
        return price, bought, dying, bonus

    def _with_kits(self, socket: int, context: int, kits: Kits) -> Low:
        finder = self.finder
        members = finder.tree.members(socket, finder.leniency(socket))
        least = self._cheapest(socket)
        for number, _ in kits:
            if number in members and finder.query.usable[number] and finder.bears(number, context):
                it = finder.tree.candidates[number]
                dying = it.dying if finder.counts_dying else 0
                below = finder.below(number, context)
                least = _least(least, _sum((0, 0, dying, 0), self._hung(number, below, kits)))
        return least

    def _cheapest(self, socket: int) -> Low:
        finder = self.finder
        key = (socket, finder.keys.of(socket))
        found = finder.memory.cheapest.get(key)
        if found is None:
            members = finder.tree.members(socket, finder.leniency(socket))
            found = _NEVER
            for number in members:
                if finder.query.buyable[number]:
                    price, bought, dying, bonus, _ = PACKING.unpack(finder.bought[number])
                    found = _least(found, (price, bought, dying, bonus))
            finder.memory.cheapest[key] = found
        return found


_NEVER: Low = (1 << 28, 1 << 5, 1 << 5, 0)
"""More than any filling costs, and small enough that a few of them still fit a label."""


def _sum(one: Low, other: Low) -> Low:
    total = (one[0] + other[0], one[1] + other[1], one[2] + other[2], one[3] + other[3])
    return total if total[1] < _NEVER[1] else _NEVER


def _least(one: Low, other: Low) -> Low:
    return (
        min(one[0], other[0]),
        min(one[1], other[1]),
        min(one[2], other[2]),
        min(one[3], other[3]),
    )

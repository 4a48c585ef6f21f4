"""What a choice must cost at least, before anything is worked out below it.

Below a bought candidate each socket is filled either by something in hand, and then only
what stands on that must be paid for, or by something bought, and then at least one of the
cheapest members of the class is paid. That gives a few labels for each socket and a few for
all of them together; whatever really hangs there is nowhere below all of them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.fit.search.labels import nondominated
from wickwright.fit.search.query import PACKING, Aim

if TYPE_CHECKING:
    from wickwright.fit.search.finder import Finder
    from wickwright.fit.search.memory import Entry, Kits, LowKey

__all__ = ["Bounds"]

GUARDS = PACKING.guards
_BONUS = PACKING.shifts[Aim.SHORTFALL]

Labels = tuple[int, ...]
"""Packed costs of which none is nowhere worse than another."""

_FREE: Labels = (0,)


class Bounds:
    """Bounds for one query.

    Parameters
    ----------
    finder : Finder
        The query being answered.
    """

    def __init__(self, finder: Finder) -> None:
        self.finder = finder
        self.known: dict[LowKey, Labels] = {}
        self.extras: dict[tuple[int, Kits, int], int] = {}

    def hung(self, number: int, context: int, kits: Kits, end: int) -> Labels:
        """Return bounds on all that must hang on a candidate.

        Parameters
        ----------
        number : int
            The candidate.
        context : int
            Context of what stands on it.
        kits : Kits
            Things at hand below it.
        end : int
            Wanted kinds that end up on or below the candidate, as bits.

        Returns
        -------
        tuple of int
            Every filling of its sockets that holds these kinds is nowhere better than one of
            these labels. Empty when there is no such filling.
        """
        finder = self.finder
        it = finder.tree.candidates[number]
        labels = self._hung(number, context, kits, end & ~(1 << it.kind))
        if not finder.bonus_kinds:
            return labels
        best = sum(finder.memory.best_bonus[socket] for socket in it.sockets) << _BONUS
        return tuple(label - best for label in labels)

    def _hung(self, number: int, context: int, kits: Kits, end: int) -> Labels:
        """Join the sockets; a kind that only one of them can hold must be in that one."""
        reach = self.finder.tree.reach
        sockets = self.finder.tree.candidates[number].sockets
        once = twice = 0
        for socket in sockets:
            twice |= once & reach[socket]
            once |= reach[socket]
        if end & ~once:
            return ()
        total = _FREE
        for socket in sockets:
            more = self.low(socket, context, kits, end & reach[socket] & ~twice)
            if more is not _FREE:
                total = _joined(total, more)
        return total

    def low(self, socket: int, context: int, kits: Kits, needed: int) -> Labels:
        """Return bounds on a class that must hold the needed kinds."""
        finder = self.finder
        if not needed and not finder.tree.sockets[socket].required:
            return _FREE
        socket = finder.alike(socket)
        kits = finder.touching(socket, kits) if kits else kits
        context = finder.memory.local(socket, context) if context else 0
        if not kits:
            return self._plain(finder.entry(socket, context, kits), needed)
        key = (socket, context, kits, finder.keys.of(socket), needed)
        found = self.known.get(key)
        if found is None:
            found = self.known[key] = self._with_kits(key)
        return found

    def _plain(self, entry: Entry, needed: int) -> Labels:
        """The whole front where nothing is in hand, bonus left out."""
        found = entry.lows.get(needed)
        if found is None:
            labels = [
                label
                for mask, rows in entry.front.items()
                if mask & needed == needed
                for label, _ in rows
            ]
            if self.finder.bonus_kinds:
                labels = [_without_bonus(label) for label in labels]
            found = entry.lows[needed] = tuple(nondominated(labels, GUARDS))
        return found

    def _with_kits(self, key: LowKey) -> Labels:
        socket, context, kits, _, needed = key
        finder = self.finder
        members = finder.tree.members(socket, finder.leniency(socket))
        extra = self._to_be_bought(socket, kits, needed)
        labels = [label + extra for label in self._cheapest(socket)]
        for number, _ in kits:
            if number in members and finder.query.usable[number] and finder.bears(number, context):
                it = finder.tree.candidates[number]
                own = it.dying << PACKING.shifts[Aim.DYING] if finder.counts_dying else 0
                below = finder.below(number, context)
                hung = self._hung(number, below, kits, needed & ~(1 << it.kind))
                labels.extend(own + label for label in hung)
        return tuple(nondominated(labels, GUARDS))

    def surcharge(self, socket: int, kits: Kits, end: int) -> int:
        """Return what hangs at least on every bought member of a class.

        Parameters
        ----------
        socket : int
            The class.
        kits : Kits
            Things at hand.
        end : int
            Wanted kinds that end up in the class, as bits.

        Returns
        -------
        int
            A label to be added to the member's own price.
        """
        key = (socket, kits, end)
        found = self.extras.get(key)
        if found is None:
            found = self._to_be_bought(socket, kits, end)
            if self.finder.bonus_kinds:
                found -= self.finder.memory.best_bonus[socket] << _BONUS
            self.extras[key] = found
        return found

    def _to_be_bought(self, socket: int, kits: Kits, needed: int) -> int:
        """What must be bought below any bought member, by kind, since it is not in hand."""
        finder = self.finder
        tree = finder.tree
        at_hand = 0
        for number, _ in kits:
            at_hand |= 1 << tree.candidates[number].kind
        bound, own, brought = tree.bound[socket]
        kinds = (bound | needed & ~own) & ~at_hand & ~brought
        total = 0
        while kinds:
            lowest = kinds & -kinds
            total += self._kind(lowest.bit_length() - 1)
            kinds ^= lowest
        return total

    def _kind(self, kind: int) -> int:
        """The least of each cost over all of a kind on sale."""
        finder = self.finder
        key = (-1 - kind, finder.memory.number((finder.query.masks[kind], finder.query.aims)))
        found = finder.memory.cheapest.get(key)
        if found is None:
            price = min(
                (
                    PACKING.unpack(finder.bought[n])[Aim.PRICE]
                    for n, it in enumerate(finder.tree.candidates)
                    if it.kind == kind and finder.query.buyable[n]
                ),
                default=0,
            )
            counts = int(Aim.BOUGHT in finder.query.aims)
            found = (PACKING.pack((price, counts, 0, 0, 0)),)
            finder.memory.cheapest[key] = found
        return found[0]

    def _cheapest(self, socket: int) -> Labels:
        """The unbeaten members on sale by themselves, whatever hangs on them."""
        finder = self.finder
        key = (socket, finder.keys.of(socket))
        found = finder.memory.cheapest.get(key)
        if found is None:
            members = finder.tree.members(socket, finder.leniency(socket))
            labels = {finder.bought[n] for n in members if finder.query.buyable[n]}
            if finder.bonus_kinds:
                labels = {_without_bonus(label) for label in labels}
            found = finder.memory.cheapest[key] = tuple(nondominated(labels, GUARDS))
        return found


def _without_bonus(label: int) -> int:
    return label - (PACKING.unpack(label)[Aim.SHORTFALL] << _BONUS)


def _joined(one: Labels, other: Labels) -> Labels:
    if not one or not other:
        return ()
    if len(one) == 1:
        return other if not one[0] else tuple(one[0] + label for label in other)
    if len(other) == 1:
        return tuple(label + other[0] for label in one)
    return tuple(nondominated([a + b for a in one for b in other], GUARDS))

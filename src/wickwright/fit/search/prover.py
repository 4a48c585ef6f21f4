"""Which kinds can stand where, whatever they cost and whether or not the whole stands.

Sets of candidates are integers with one byte a candidate, so that 'who fits here, bears the
demands and can be had' is one operation for a whole class.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.fit.search.finder import Finder
from wickwright.fit.search.packs import ABOVE, DEMAND_BITS

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.fit.search.effort import Effort
    from wickwright.fit.search.memory import Memory
    from wickwright.fit.search.query import Query
    from wickwright.fit.search.tree import Admits, Group

__all__ = ["Masks", "Prover"]

Masks = frozenset[int]
"""The sets of tracked kinds that can stand somewhere, as bits."""

_EMPTY: Masks = frozenset({0})


class Prover(Finder):
    """A finder that only asks whether."""

    def __init__(self, memory: Memory, query: Query, effort: Effort | None = None) -> None:
        super().__init__(memory, query, effort)
        self.lanes = memory.lanes
        usable = int.from_bytes(query.usable, "little")
        self.shop = int.from_bytes(query.buyable, "little")
        self.hand = sum(1 << 8 * number for number in set(query.owned)) & usable
        self.usable = usable
        self.hand_number = memory.number(("in hand", self.hand))
        self.to_hold = query.required & ~memory.tree.climbing
        self.below_known: dict[tuple[tuple[int, ...], int, int], Masks] = {}
        self.likes: dict[int, tuple[int, ...]] = {}

    def there_is(self, kind: int) -> bool:
        """Tell whether something of a kind can be had, if it is wanted."""
        if not kind & self.query.required:
            return True
        able = self.lanes.kinds(kind) & self.usable
        return bool(able & (self.hand | self.shop | self.lanes.included))

    def can(self, socket: int, context: int, extra: int) -> Masks:
        """Return the sets of tracked kinds that can stand in a class."""
        socket = self.alike(socket)
        context = self.memory.local(socket, context) if context else 0
        key = (socket, context, extra, self.keys.of(socket), self.hand_number)
        found = self.memory.masks.get(key)
        if found is None:
            found = self.memory.masks[key] = self._can(socket, context, extra)
        return found

    def _can(self, socket: int, context: int, extra: int) -> Masks:
        masks: set[int] = set()
        required = self.tree.sockets[socket].required
        if self.worth_filling(socket):
            ends = self.ends(socket)
            telling = self.query.required | self.tree.outside[socket]
            plain = not self.tree.reach[socket] & self.twice & telling & ~self.query.required
            for group, had, sold in self.there(socket, context, extra):
                self.spend()
                found = self.standing(group, had, sold, context, extra)
                masks.update(mask & telling for mask in found)
                if plain and masks.issuperset(ends):
                    break
        if not required:
            masks = {mask for mask in masks if mask & self.query.required} | {0}
        return frozenset(masks)

    def there(self, socket: int, context: int, extra: int) -> list[tuple[Group, int, int]]:
        """Return the groups of which something is in hand or for sale, and which."""
        leniency = self.leniency(socket)
        here = self.lanes.members(socket, leniency) & self._bearing(context)
        had, sold = here & (self.hand | extra), here & self.shop
        if not had and not sold:
            return []
        groups = self._useful(socket, leniency)
        if len(groups) == 1 and len(self.tree.grouped(socket, leniency)) == 1:
            return [(groups[0], had, sold)]
        found: list[tuple[Group, int, int]] = []
        for group in groups:
            lane = self.lanes.group(socket, leniency, group)
            if lane & had or lane & sold:
                found.append((group, lane & had, lane & sold))
        return found

    def _useful(self, socket: int, leniency: Admits) -> Sequence[Group]:
        """Return the groups that can hold all wanted kinds that can stand nowhere else."""
        groups = self.tree.grouped(socket, leniency)
        needed = self.to_hold & self.tree.reach[socket] & ~self.tree.outside[socket]
        if not needed:
            return groups
        holds = self.lanes.holds
        return [group for group in groups if not needed & ~holds[group.shape]]

    def _bearing(self, context: int) -> int:
        bearing = self.lanes.bearing(self.query.admits, context & DEMAND_BITS, self.gives)
        return bearing & ~self.lanes.kinds(context >> ABOVE) if context >> ABOVE else bearing

    def standing(self, group: Group, had: int, sold: int, context: int, extra: int) -> Masks:
        """Return the sets of tracked kinds with a member of a group, in hand or bought."""
        number = group.members[0]
        bit = (1 << self.tree.candidates[number].kind) & self.tracked
        masks: Masks = frozenset()
        brings = self.brought(number)
        if had or (sold and not brings):
            masks = self._hung_masks(number, context, extra)
        if sold and brings:
            masks |= self._hung_masks(number, context, extra | brings)
        return frozenset(mask | bit for mask in masks if not mask & bit) if bit else masks

    def brought(self, number: int) -> int:
        """Return the candidates that come with one, as a set."""
        brings = self.tree.candidates[number].brings
        return sum(1 << 8 * one for one in set(brings)) & self.usable if brings else 0

    def _hung_masks(self, number: int, context: int, extra: int) -> Masks:
        sockets = self.tree.candidates[number].sockets
        if not sockets:
            return _EMPTY
        below = self.below(number, context)
        key = (self._like(number), below, extra)
        found = self.below_known.get(key)
        if found is None:
            found = self.below_known[key] = self._joined(key)
        return found

    def _like(self, number: int) -> tuple[int, ...]:
        """Return the classes that speak for the sockets of a candidate."""
        shape = self.tree.shapes[number]
        found = self.likes.get(shape)
        if found is None:
            sockets = self.tree.candidates[number].sockets
            found = self.likes[shape] = tuple(self.alike(socket) for socket in sockets)
        return found

    def _joined(self, key: tuple[tuple[int, ...], int, int]) -> Masks:
        sockets, below, extra = key
        masks: Masks = _EMPTY
        for socket in sockets:
            more = self.can(socket, below, extra)
            masks = frozenset(a | b for a in masks for b in more if not a & b)
            if not masks:
                break
        return masks

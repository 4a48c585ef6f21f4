"""Sets of candidates as integers, one byte a candidate."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from wickwright.fit.search.packs import DEMANDS

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from wickwright.fit.search.tree import Admits, Group, Tree

__all__ = ["Lanes"]


class Lanes:
    """The sets a tree is asked about again and again.

    Parameters
    ----------
    tree : Tree
        The compiled tree.
    """

    def __init__(self, tree: Tree) -> None:
        self.tree = tree
        self._members: dict[tuple[int, Admits], int] = {}
        self._groups: dict[tuple[int, Admits, int], int] = {}
        self._bearing: dict[tuple[Admits, int], int] = {}
        self._kinds: dict[int, int] = {}

    def of(self, numbers: Iterable[int]) -> int:
        """Return the set of the given candidates."""
        flags = bytearray(len(self.tree.candidates))
        for number in numbers:
            flags[number] = 1
        return int.from_bytes(flags, "little")

    def flags(self, lane: int) -> bytes:
        """Return one byte for each candidate: 1 for those of the set."""
        return lane.to_bytes(len(self.tree.candidates), "little")

    def members(self, socket: int, admits: Admits) -> int:
        """Return the candidates of a class."""
        key = (socket, admits)
        found = self._members.get(key)
        if found is None:
            found = self._members[key] = self.of(self.tree.members(socket, admits))
        return found

    def group(self, socket: int, admits: Admits, group: Group) -> int:
        """Return the candidates of one group of a class."""
        key = (socket, admits, group.shape)
        found = self._groups.get(key)
        if found is None:
            found = self._groups[key] = self.of(group.members)
        return found

    def bearing(self, admits: Admits, demands: int, gives: Sequence[int]) -> int:
        """Return the candidates that give what is demanded."""
        key = (admits, demands)
        found = self._bearing.get(key)
        if found is None:
            guards = DEMANDS.guards
            found = self._bearing[key] = int.from_bytes(
                bytes((given + guards - demands) & guards == guards for given in gives), "little"
            )
        return found

    def kinds(self, bits: int) -> int:
        """Return the candidates of the given kinds."""
        found = self._kinds.get(bits)
        if found is None:
            found = self._kinds[bits] = self.of(
                at for at, it in enumerate(self.tree.candidates) if bits >> it.kind & 1
            )
        return found

    @cached_property
    def included(self) -> int:
        """Candidates that come with some other."""
        return self.of(one for it in self.tree.candidates for one in it.brings)

    @cached_property
    def bright(self) -> int:
        """Candidates with a bonus."""
        return self.of(at for at, it in enumerate(self.tree.candidates) if it.bonus > 0)

    @cached_property
    def holds(self) -> dict[int, int]:
        """Kinds that can stand where a candidate stands, its own included, by its shape."""
        found: dict[int, int] = {}
        for number, shape in enumerate(self.tree.shapes):
            if shape not in found:
                it = self.tree.candidates[number]
                bits = 1 << it.kind
                for socket in it.sockets:
                    bits |= self.tree.reach[socket]
                found[shape] = bits
        return found

    @cached_property
    def loaded_kinds(self) -> int:
        """Kinds of which some candidate has a varying load, as bits."""
        bits = 0
        for it in self.tree.candidates:
            if it.loads:
                bits |= 1 << it.kind
        return bits

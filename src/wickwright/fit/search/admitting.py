"""Which candidates a class lets in under one leniency, and what of a hand can stand below."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.fit.search.tree import Admits

if TYPE_CHECKING:
    from wickwright.fit.search.memory import Memory

__all__ = ["Admitting"]


class Admitting:
    """A tree under one leniency.

    Parameters
    ----------
    memory : Memory
        The compiled tree and what is remembered of it.
    admits : Admits
        Which candidates a socket lets in.
    loose : frozenset of int
        Atoms of sockets where misfits are allowed.
    """

    def __init__(self, memory: Memory, admits: Admits, loose: frozenset[int]) -> None:
        self.memory, self.tree = memory, memory.tree
        self.admits, self.loose = admits, loose
        self.loosened = sum(1 << atom for atom in loose)
        self._carries: dict[int, bool] = {}
        self._touching: dict[tuple[int, frozenset[int]], frozenset[int]] = {}

    def leniency(self, socket: int) -> Admits:
        """Return which candidates a class lets in."""
        return Admits.LOOSE if self.tree.sockets[socket].atom in self.loose else self.admits

    def members(self, socket: int) -> frozenset[int]:
        """Return the candidates of a class."""
        return self.tree.members(socket, self.leniency(socket))

    def carries(self, socket: int) -> bool:
        """Tell whether some candidate of a class carries others."""
        found = self._carries.get(socket)
        if found is None:
            candidates = self.tree.candidates
            found = any(candidates[number].sockets for number in self.members(socket))
            self._carries[socket] = found
        return found

    def alike(self, socket: int) -> int:
        """Return the class that speaks for a class."""
        return self.memory.alike(socket, self.leniency(socket))

    def touching(self, socket: int, numbers: frozenset[int]) -> frozenset[int]:
        """Return the candidates that can stand in or below a class."""
        if not numbers:
            return numbers
        key = (socket, numbers)
        found = self._touching.get(key)
        if found is None:
            found = self._touching[key] = frozenset(
                number for number in numbers if self.touches(socket, number)
            )
        return found

    def touches(self, socket: int, number: int) -> bool:
        """Tell whether a candidate can stand in or below a class."""
        tree = self.tree
        if self.loosened & tree.atoms_reach[socket]:
            return bool(tree.reach[socket] >> tree.candidates[number].kind & 1)
        return socket in tree.users.get(number, ())

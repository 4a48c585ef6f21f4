"""Whether some complete tree stands, by the least leverage possible.

Below any socket the least leverage is the lowest of a few straight lines in the height of the
socket, and the lines of a class are worked out once whatever the height.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.fit.search.balance import share
from wickwright.fit.search.effort import ROW
from wickwright.fit.search.lines import Line, lowest, summed

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.fit.search.prover import Prover
    from wickwright.fit.search.tree import Candidate, Group

__all__ = ["Least"]

Lines = dict[int, list[Line]]
"""The lowest lines, by the tracked kinds placed."""


class Least:
    """Weighs every tree.

    Parameters
    ----------
    prover : Prover
        Knows what can stand where.
    """

    def __init__(self, prover: Prover) -> None:
        self.prover = prover

    def balances(self, context: int) -> bool:
        """Tell whether some complete tree that meets demands on the whole stands."""
        required = self.prover.query.required
        for group, had, sold in self.prover.there(self.prover.query.root, context, 0):
            for number in group.members:
                lane = 1 << 8 * number
                if not lane & (had | sold):
                    continue
                pivot = self.prover.query.pivots.get(number)
                if pivot is None:
                    masks = self.prover.standing(group, lane & had, lane & sold, context, 0)
                    if any(mask & required == required for mask in masks):
                        return True
                    continue
                least = self._least_of(number, lane & had, lane & sold, context, 0, -pivot)
                if any(m & required == required and t <= 0 for m, t in least.items()):
                    return True
        return False

    def _least(self, socket: int, context: int, extra: int, arm: int) -> dict[int, int]:
        """Return the least leverage of what can stand in a class, by tracked kinds."""
        if (
            self.prover.query.dry
            or not self.prover.tree.reach[socket] & self.prover.lanes.loaded_kinds
        ):
            lines = self._lines(socket, context, extra)
            return {mask: min(q + m * arm for m, q in some) for mask, some in lines.items()}
        least: dict[int, int] = {}
        if self.prover.worth_filling(socket):
            for group, had, sold in self.prover.there(socket, context, extra):
                for number in group.members:
                    lane = 1 << 8 * number
                    if lane & (had | sold):
                        self.prover.spend()
                        one = self._least_of(number, lane & had, lane & sold, context, extra, arm)
                        _lower(least, one)
        return self._with_empty(socket, least, 0)

    def _least_of(
        self, number: int, had: int, sold: int, context: int, extra: int, arm: int
    ) -> dict[int, int]:
        it = self.prover.tree.candidates[number]
        own = share(it, arm, dry=self.prover.query.dry)
        bit = (1 << it.kind) & self.prover.tracked
        brought = self.prover.brought(number) if sold else 0
        extras = {extra | brought} if not had else {extra, extra | brought}
        least: dict[int, int] = {}
        for more in extras:
            _lower(least, self._least_below(number, context, more, arm))
        return {mask | bit: t + own for mask, t in least.items() if not mask & bit}

    def _least_below(self, number: int, context: int, extra: int, arm: int) -> dict[int, int]:
        it = self.prover.tree.candidates[number]
        total = {0: 0}
        below = self.prover.below(number, context)
        for socket, rise in zip(it.sockets, it.rises, strict=True):
            more = self._least(socket, below, extra, arm + rise)
            joint: dict[int, int] = {}
            for mask, t in total.items():
                _lower(joint, {mask | m: t + u for m, u in more.items() if not mask & m})
            total = joint
        return total

    def _with_empty(self, socket: int, rows: dict[int, int], empty: int) -> dict[int, int]:
        if self.prover.tree.sockets[socket].required:
            return rows
        kept = {mask: t for mask, t in rows.items() if mask & self.prover.query.required}
        return {**kept, 0: min(empty, kept.get(0, empty))}

    def _lines(self, socket: int, context: int, extra: int) -> Lines:
        socket = self.prover.alike(socket)
        context = self.prover.memory.local(socket, context) if context else 0
        key = (socket, context, extra, self.prover.keys.of(socket), self.prover.hand_number)
        found = self.prover.memory.lines.get(key)
        if found is None:
            found = self.prover.memory.lines[key] = self._worked_lines(socket, context, extra)
        return found

    def _worked_lines(self, socket: int, context: int, extra: int) -> Lines:
        rows: Lines = {}
        if self.prover.worth_filling(socket):
            for group, had, sold in self.prover.there(socket, context, extra):
                self.prover.spend()
                self._group_lines(group, had, sold, context, extra, rows)
        if not self.prover.tree.sockets[socket].required:
            rows = {mask: some for mask, some in rows.items() if mask & self.prover.query.required}
            rows[0] = [(0, 0)]
        return {mask: lowest(some) for mask, some in rows.items()}

    def _group_lines(
        self, group: Group, had: int, sold: int, context: int, extra: int, rows: Lines
    ) -> None:
        """Add the lines of all members there; what can hang on them is the same for all."""
        brought = extra | self.prover.brought(group.members[0])
        lanes = {extra: had, brought: sold} if brought != extra else {extra: had | sold}
        for more, lane in lanes.items():
            if lane:
                flags = lane.to_bytes(len(self.prover.tree.candidates), "little")
                members = [number for number in group.members if flags[number]]
                self._member_lines(members, context, more, rows)

    def _member_lines(self, members: Sequence[int], context: int, extra: int, rows: Lines) -> None:
        candidates = self.prover.tree.candidates
        it = candidates[members[0]]
        bit = (1 << it.kind) & self.prover.tracked
        if not it.sockets:
            own = [(it.mass, it.mass * it.centre) for it in (candidates[n] for n in members)]
            rows.setdefault(bit, []).extend(own)
            return
        below = self.prover.below(members[0], context)
        hung = [self._lines(socket, below, extra) for socket in it.sockets]
        if not all(hung):
            return
        many = sum(len(some) for above in hung for some in above.values())
        self.prover.spend(ROW * len(members) * (many + 1))
        for number in members:
            for mask, lines in _joined_lines(candidates[number], hung).items():
                if not mask & bit:
                    rows.setdefault(mask | bit, []).extend(lines)


def _joined_lines(it: Candidate, hung: Sequence[Lines]) -> Lines:
    """Return the lines of a candidate with something on each of its sockets."""
    total: Lines = {0: [(it.mass, it.mass * it.centre)]}
    for above, rise in zip(hung, it.rises, strict=True):
        joint: Lines = {}
        for mask, lines in total.items():
            for other, more in above.items():
                if not mask & other:
                    both = summed(lines, more, rise)
                    known = joint.get(mask | other)
                    joint[mask | other] = lowest([*known, *both]) if known else both
        total = joint
    return total


def _lower(into: dict[int, int], more: dict[int, int]) -> None:
    for mask, value in more.items():
        held = into.get(mask)
        if held is None or value < held:
            into[mask] = value

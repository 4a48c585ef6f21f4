"""Whether a tree can be filled at all, whatever it costs.

Sets of candidates are integers with one byte a candidate, so that 'who fits here, bears the
demands and can be had' is one operation for a whole class. Balance is settled by the least
leverage possible: below any socket it is the lowest of a few straight lines in the height of
the socket, and the lines of a class are worked out once whatever the height.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from wickwright.fit.search.balance import share
from wickwright.fit.search.effort import ROW, Effort, Exhausted
from wickwright.fit.search.finder import Finder
from wickwright.fit.search.lines import Line, lowest, summed
from wickwright.fit.search.packs import ABOVE, DEMAND_BITS
from wickwright.fit.search.query import GaveUp
from wickwright.fit.search.solve import solve

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.fit.search.memory import Memory
    from wickwright.fit.search.query import Query
    from wickwright.fit.search.tree import Admits, Candidate, Group

__all__ = ["possible"]

Masks = frozenset[int]
"""The sets of tracked kinds that can stand somewhere, as bits."""

Lines = dict[int, list[Line]]
"""The lowest lines, by the tracked kinds placed."""

_EMPTY: Masks = frozenset({0})


def possible(memory: Memory, query: Query, effort: Effort | None = None) -> bool | GaveUp:
    """Tell whether there is any way at all.

    Parameters
    ----------
    memory : Memory
        The compiled tree and what is remembered of it.
    query : Query
        What is asked; its aims do not matter.
    effort : Effort, optional
        What may be spent; else as much as the query says.

    Returns
    -------
    bool or GaveUp
        True exactly when :func:`~wickwright.fit.search.solve.solve` finds a way; that it gave
        up is neither.
    """
    effort = effort or Effort(query.effort)
    if not query.most:
        return _proved(memory, query, effort)
    if _proved(memory, replace(query, most={}, aims=(), pivots={}), effort) is False:
        return False
    outcome = solve(memory, query, effort)
    return outcome if isinstance(outcome, GaveUp) else bool(outcome.ways)


def _proved(memory: Memory, query: Query, effort: Effort) -> bool | GaveUp:
    """Tell whether there is any way, limits on costs left out."""
    prover = _Prover(memory, query, effort)
    try:
        return any(prover.opens(context) for context in prover.openings())
    except Exhausted:
        return GaveUp(effort.spent)


class _Prover(Finder):
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

    def opens(self, context: int) -> bool:
        """Tell whether there is a way that meets one set of demands on the whole."""
        required = self.query.required
        if not all(self._there_is(1 << kind) for kind in range(required.bit_length())):
            return False
        if not any(mask & required == required for mask in self.can(self.query.root, context, 0)):
            return False
        return not self.query.pivots or self.balances(context)

    def _there_is(self, kind: int) -> bool:
        """Tell whether something of a kind can be had, if it is wanted."""
        if not kind & self.query.required:
            return True
        able = self.lanes.kinds(kind) & self.usable
        return bool(able & (self.hand | self.shop | self.lanes.included))

    # -- can it be filled ------------------------------------------------------------

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
            for group, had, sold in self._there(socket, context, extra):
                self.spend()
                found = self._standing(group, had, sold, context, extra)
                masks.update(mask & telling for mask in found)
                if plain and masks.issuperset(ends):
                    break
        if not required:
            masks = {mask for mask in masks if mask & self.query.required} | {0}
        return frozenset(masks)

    def _there(self, socket: int, context: int, extra: int) -> list[tuple[Group, int, int]]:
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

    def _standing(self, group: Group, had: int, sold: int, context: int, extra: int) -> Masks:
        number = group.members[0]
        bit = (1 << self.tree.candidates[number].kind) & self.tracked
        masks: Masks = frozenset()
        brings = self._brought(number)
        if had or (sold and not brings):
            masks = self._hung_masks(number, context, extra)
        if sold and brings:
            masks |= self._hung_masks(number, context, extra | brings)
        return frozenset(mask | bit for mask in masks if not mask & bit) if bit else masks

    def _brought(self, number: int) -> int:
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

    # -- can it stand -----------------------------------------------------------------

    def balances(self, context: int) -> bool:
        """Tell whether some complete tree stands."""
        required = self.query.required
        for group, had, sold in self._there(self.query.root, context, 0):
            for number in group.members:
                lane = 1 << 8 * number
                if not lane & (had | sold):
                    continue
                pivot = self.query.pivots.get(number)
                if pivot is None:
                    masks = self._standing(group, lane & had, lane & sold, context, 0)
                    if any(mask & required == required for mask in masks):
                        return True
                    continue
                least = self._least_of(number, lane & had, lane & sold, context, 0, -pivot)
                if any(m & required == required and t <= 0 for m, t in least.items()):
                    return True
        return False

    def _least(self, socket: int, context: int, extra: int, arm: int) -> dict[int, int]:
        """Return the least leverage of what can stand in a class, by tracked kinds."""
        if self.query.dry or not self.tree.reach[socket] & self.lanes.loaded_kinds:
            lines = self._lines(socket, context, extra)
            return {mask: min(q + m * arm for m, q in some) for mask, some in lines.items()}
        least: dict[int, int] = {}
        if self.worth_filling(socket):
            for group, had, sold in self._there(socket, context, extra):
                for number in group.members:
                    lane = 1 << 8 * number
                    if lane & (had | sold):
                        self.spend()
                        one = self._least_of(number, lane & had, lane & sold, context, extra, arm)
                        _lower(least, one)
        return self._with_empty(socket, least, 0)

    def _least_of(
        self, number: int, had: int, sold: int, context: int, extra: int, arm: int
    ) -> dict[int, int]:
        it = self.tree.candidates[number]
        own = share(it, arm, dry=self.query.dry)
        bit = (1 << it.kind) & self.tracked
        brought = self._brought(number) if sold else 0
        extras = {extra | brought} if not had else {extra, extra | brought}
        least: dict[int, int] = {}
        for more in extras:
            _lower(least, self._least_below(number, context, more, arm))
        return {mask | bit: t + own for mask, t in least.items() if not mask & bit}

    def _least_below(self, number: int, context: int, extra: int, arm: int) -> dict[int, int]:
        it = self.tree.candidates[number]
        total = {0: 0}
        below = self.below(number, context)
        for socket, rise in zip(it.sockets, it.rises, strict=True):
            more = self._least(socket, below, extra, arm + rise)
            joint: dict[int, int] = {}
            for mask, t in total.items():
                _lower(joint, {mask | m: t + u for m, u in more.items() if not mask & m})
            total = joint
        return total

    def _with_empty(self, socket: int, rows: dict[int, int], empty: int) -> dict[int, int]:
        if self.tree.sockets[socket].required:
            return rows
        kept = {mask: t for mask, t in rows.items() if mask & self.query.required}
        return {**kept, 0: min(empty, kept.get(0, empty))}

    def _lines(self, socket: int, context: int, extra: int) -> Lines:
        socket = self.alike(socket)
        context = self.memory.local(socket, context) if context else 0
        key = (socket, context, extra, self.keys.of(socket), self.hand_number)
        found = self.memory.lines.get(key)
        if found is None:
            found = self.memory.lines[key] = self._worked_lines(socket, context, extra)
        return found

    def _worked_lines(self, socket: int, context: int, extra: int) -> Lines:
        rows: Lines = {}
        if self.worth_filling(socket):
            for group, had, sold in self._there(socket, context, extra):
                self.spend()
                self._group_lines(group, had, sold, context, extra, rows)
        if not self.tree.sockets[socket].required:
            rows = {mask: some for mask, some in rows.items() if mask & self.query.required}
            rows[0] = [(0, 0)]
        return {mask: lowest(some) for mask, some in rows.items()}

    def _group_lines(
        self, group: Group, had: int, sold: int, context: int, extra: int, rows: Lines
    ) -> None:
        """Add the lines of all members there; what can hang on them is the same for all."""
        brought = extra | self._brought(group.members[0])
        lanes = {extra: had, brought: sold} if brought != extra else {extra: had | sold}
        for more, lane in lanes.items():
            if lane:
                flags = lane.to_bytes(len(self.tree.candidates), "little")
                members = [number for number in group.members if flags[number]]
                self._member_lines(members, context, more, rows)

    def _member_lines(self, members: Sequence[int], context: int, extra: int, rows: Lines) -> None:
        candidates = self.tree.candidates
        it = candidates[members[0]]
        bit = (1 << it.kind) & self.tracked
        if not it.sockets:
            own = [(it.mass, it.mass * it.centre) for it in (candidates[n] for n in members)]
            rows.setdefault(bit, []).extend(own)
            return
        below = self.below(members[0], context)
        hung = [self._lines(socket, below, extra) for socket in it.sockets]
        if not all(hung):
            return
        many = sum(len(some) for above in hung for some in above.values())
        self.spend(ROW * len(members) * (many + 1))
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

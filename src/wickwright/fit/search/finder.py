"""All unbeaten ways to fill a tree: fronts of labels, worked out from the leaves up.

What hangs in a socket class depends only on the class, on the demands from above and on the
things in hand that can stand there. So a front is worked out once per class; where nothing
in hand can stand, it is kept between queries. A query then only revisits the classes its own
things touch.

The balance of the whole tree is left out here. If every unbeaten way found so balances,
nothing more is needed, because leaving out a limit cannot hide a better way. Otherwise
:mod:`wickwright.fit.search.standing` searches with the leverage as one more cost.
"""

from __future__ import annotations

from bisect import bisect_left
from typing import TYPE_CHECKING

from wickwright.fit.search.labels import unbeaten
from wickwright.fit.search.packs import DEMANDS, PLENTY, four
from wickwright.fit.search.query import PACKING, Aim, How
from wickwright.fit.search.tree import Admits

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.fit.search.memory import Kits, Memory
    from wickwright.fit.search.query import Query
    from wickwright.fit.search.tree import Front, Group, Node, Row

__all__ = ["Exhausted", "Finder", "Joint", "crossed"]

GUARDS = PACKING.guards
ABOVE = 128
_DEMAND_BITS = (1 << ABOVE) - 1
_DEMAND_GUARDS = DEMANDS.guards
_INCLUDED = int(How.INCLUDED)
_NOTHING: Kits = frozenset()

Joint = tuple[int, "tuple[Node | None, ...]"]
"""A label and the fillings of several sockets."""


class Exhausted(Exception):  # noqa: N818 - a signal between two modules, not an error
    """The effort allowed is spent."""


class Finder:
    """One query being answered on one tree.

    Parameters
    ----------
    memory : Memory
        The compiled tree and what is remembered of it.
    query : Query
        What is asked.
    """

    def __init__(self, memory: Memory, query: Query) -> None:
        self.memory, self.tree, self.query = memory, memory.tree, query
        self.tracked = query.required | self.tree.doubled
        self.bonus_kinds = memory.bonus_kinds() if Aim.SHORTFALL in query.aims else 0
        self.wanted = query.required | self.bonus_kinds
        self.bought = memory.labels(query.aims, How.BOUGHT)
        self.free = memory.labels(query.aims, How.KEPT)
        self.gives = memory.gives(query.admits)
        self.own: dict[tuple[int, int, Kits], Front] = {}
        self.looked = 0
        self.any_way = not query.aims
        frame = (query.masks, query.required, query.scales, query.aims, query.admits, query.loose)
        self.kept = memory.fronts_of(frame)

    def openings(self) -> list[int]:
        """Return the contexts the root may be placed in."""
        return [DEMANDS.pack(four(opening, 0)) for opening in self.query.openings]

    # -- demands --------------------------------------------------------------------

    def bears(self, number: int, context: int) -> bool:
        """Tell whether a candidate bears the demands of a context and may stand in it."""
        if context >> ABOVE & 1 << self.tree.candidates[number].kind:
            return False
        short = self.gives[number] + _DEMAND_GUARDS - (context & _DEMAND_BITS)
        return short & _DEMAND_GUARDS == _DEMAND_GUARDS

    def below(self, number: int, context: int) -> int:
        """Return the context of what stands on a candidate."""
        it = self.tree.candidates[number]
        above = context >> ABOVE | (1 << it.kind & self.tree.climbing)
        demands = context & _DEMAND_BITS
        if it.demands:
            demands = self._stricter(demands, it.demands)
        return demands | above << ABOVE

    def _stricter(self, demands: int, own: Sequence[int]) -> int:
        """Join demands, each rounded up to the next amount that something gives."""
        scales = self.query.scales or ((1, 1),) * len(own)
        wanted = [
            self._rounded(entry, -(-(value * up) // down))
            for entry, (value, (up, down)) in enumerate(zip(own, scales, strict=True))
        ]
        pairs = zip(DEMANDS.unpack(demands), four(wanted, 0), strict=True)
        return DEMANDS.pack([max(pair) for pair in pairs])

    def _rounded(self, entry: int, value: int) -> int:
        if value <= 0:
            return 0
        ends = self.memory.ends()[entry]
        at = bisect_left(ends, value)
        return ends[at] if at < len(ends) else PLENTY

    # -- fronts ---------------------------------------------------------------------

    def front(self, socket: int, context: int, kits: Kits) -> Front:
        """Return the unbeaten labels of all that can stand in a class.

        Parameters
        ----------
        socket : int
            Socket class.
        context : int
            Demands from above, packed.
        kits : Kits
            Things at hand for nothing.

        Returns
        -------
        Front
            By the tracked kinds placed; empty when nothing can stand there.
        """
        kits = self.touching(socket, kits)
        key = (socket, context, kits)
        shared = all(how == _INCLUDED for _, how in kits)
        store = self.kept if shared else self.own
        found = store.get(key)
        if found is None:
            found = store[key] = self._worked_out(socket, context, kits)
        return found

    def touching(self, socket: int, kits: Kits) -> Kits:
        """Return the things at hand that can stand in or below a class."""
        if not kits:
            return kits
        if self.query.loose:
            reach, candidates = self.tree.reach[socket], self.tree.candidates
            return frozenset(k for k in kits if reach >> candidates[k[0]].kind & 1)
        users = self.tree.users
        return frozenset(k for k in kits if socket in users.get(k[0], ()))

    def leniency(self, socket: int) -> Admits:
        """Return which candidates a class lets in under this query."""
        if self.tree.sockets[socket].atom in self.query.loose:
            return Admits.LOOSE
        return self.query.admits

    def worth_filling(self, socket: int) -> bool:
        """Tell whether a class must or may usefully be filled."""
        return self.tree.sockets[socket].required or bool(self.tree.reach[socket] & self.wanted)

    def _worked_out(self, socket: int, context: int, kits: Kits) -> Front:
        rows: dict[int, list[Row]] = {}
        if self.worth_filling(socket):
            leniency = self.leniency(socket)
            if kits:
                self._place_kits(socket, leniency, context, kits, rows)
                if not (self.any_way and self._settled(socket, rows)):
                    plain = self.front(socket, context, _NOTHING)
                    for mask, front in plain.items():
                        rows.setdefault(mask, []).extend(front)
            for group in self.tree.grouped(socket, leniency):
                if self.any_way and self._settled(socket, rows):
                    break
                if not kits or self._touched(group, kits):
                    self._buy(group, context, kits, rows)
        return self._closed(socket, rows)

    def _settled(self, socket: int, rows: dict[int, list[Row]]) -> bool:
        """Tell whether any way will do and one with all that can be wanted is there."""
        reach = self.tree.reach[socket]
        return not reach & self.tree.doubled and reach & self.query.required in rows

    def _touched(self, group: Group, kits: Kits) -> bool:
        sockets = self.tree.candidates[group.members[0]].sockets
        return any(self.touching(socket, kits) for socket in sockets)

    def _closed(self, socket: int, rows: dict[int, list[Row]]) -> Front:
        """Prune, and allow the empty socket where it may stay empty."""
        if not self.tree.sockets[socket].required:
            if not self.bonus_kinds:
                wanted = self.query.required
                rows = {mask: some for mask, some in rows.items() if mask & wanted}
            rows.setdefault(0, []).append((0, None))
        return {mask: unbeaten(some, GUARDS) for mask, some in rows.items()}

    def _place_kits(
        self, socket: int, leniency: Admits, context: int, kits: Kits, rows: dict[int, list[Row]]
    ) -> None:
        members = self.tree.members(socket, leniency)
        for number, how in kits:
            if number in members and self.query.usable[number] and self.bears(number, context):
                base = [(self.free[number], number)]
                self._place(base, how, context, kits - {(number, how)}, rows)

    def _buy(self, group: Group, context: int, kits: Kits, rows: dict[int, list[Row]]) -> None:
        bases = self._bases(group, context)
        if bases:
            kits = self.with_included(bases[0][1], kits)
            self._place(bases, int(How.BOUGHT), context, kits, rows)

    def with_included(self, number: int, kits: Kits) -> Kits:
        """Return the things at hand below a bought candidate."""
        brings = self.tree.candidates[number].brings
        return kits.union((one, _INCLUDED) for one in brings) if brings else kits

    def _bases(self, group: Group, context: int) -> list[tuple[int, int]]:
        """Return the unbeaten members of a group on their own cost."""
        bases: list[tuple[int, int]] = []
        buyable, bought = self.query.buyable, self.bought
        self.looked += len(group.members)
        for number in group.members:
            if buyable[number] and self.bears(number, context):
                reach = bought[number] + GUARDS
                for other in bases:
                    if (reach - other[0]) & GUARDS == GUARDS:
                        break
                else:
                    bases.append((bought[number], number))
                    if self.any_way:
                        break
        return bases

    def _place(
        self,
        bases: Sequence[tuple[int, int]],
        how: int,
        context: int,
        kits: Kits,
        rows: dict[int, list[Row]],
    ) -> None:
        """Put candidates of one shape with everything that can hang below them."""
        shape = bases[0][1]
        bit = (1 << self.tree.candidates[shape].kind) & self.tracked
        for mask, hung in self.hung(shape, context, kits).items():
            if not mask & bit:
                into = rows.setdefault(mask | bit, [])
                for base, number in bases:
                    into.extend((base + label, (number, how, nodes)) for label, nodes in hung)

    def hung(self, shape: int, context: int, kits: Kits) -> dict[int, list[Joint]]:
        """Return the unbeaten fillings of all sockets of a candidate together."""
        joint: dict[int, list[Joint]] = {0: [(0, ())]}
        sockets = self.tree.candidates[shape].sockets
        if sockets:
            below = self.below(shape, context)
            for socket in sockets:
                joint = crossed(joint, self.front(socket, below, kits))
                if not joint:
                    break
        return joint


def crossed(joint: dict[int, list[Joint]], front: Front) -> dict[int, list[Joint]]:
    """Join every filling so far with every filling of one more socket.

    Parameters
    ----------
    joint : dict
        Fillings of the sockets before, by tracked kinds.
    front : Front
        Fillings of the next socket.

    Returns
    -------
    dict
        Unbeaten joint fillings that hold no kind twice.
    """
    out: dict[int, list[Joint]] = {}
    single = len(joint) == 1 and len(front) == 1
    for mask, rows in joint.items():
        for other, more in front.items():
            if not mask & other:
                joined = [(a + b, (*nodes, node)) for a, nodes in rows for b, node in more]
                if single and (len(rows) == 1 or len(more) == 1):
                    return {mask | other: joined}
                out.setdefault(mask | other, []).extend(joined)
    return {mask: unbeaten(rows, GUARDS) for mask, rows in out.items() if rows}

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

from typing import TYPE_CHECKING, NamedTuple

from wickwright.fit.search.bounds import Bounds
from wickwright.fit.search.keys import Keys
from wickwright.fit.search.labels import unbeaten
from wickwright.fit.search.memory import Entry
from wickwright.fit.search.packs import ABOVE, DEMAND_BITS, DEMAND_ENTRIES, DEMANDS, PLENTY, four
from wickwright.fit.search.query import PACKING, Aim, How
from wickwright.fit.search.tree import Admits

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.fit.search.memory import FrontKey, Kits, Memory
    from wickwright.fit.search.query import Query
    from wickwright.fit.search.tree import Front, Group, Node, Row

__all__ = ["Exhausted", "Finder", "Joint", "crossed"]

GUARDS = PACKING.guards
_DEMAND_GUARDS = DEMANDS.guards
_INCLUDED = int(How.INCLUDED)
_ALL_BORNE = DEMANDS.pack([PLENTY] * DEMAND_ENTRIES)
NOTHING: Kits = frozenset()

Joint = tuple[int, "tuple[Node | None, ...]"]
"""A label and the fillings of several sockets."""


class Exhausted(Exception):  # noqa: N818 - a signal between two modules, not an error
    """The effort allowed is spent."""


class _Offer(NamedTuple):
    """A group for sale: its least bound, order, unbeaten members, and bounds by end."""

    least: int
    order: int
    bases: list[tuple[int, int]]
    kits: Kits
    lows: tuple[tuple[int, ...], ...]


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
        memory.tidy()
        self.memory, self.tree, self.query = memory, memory.tree, query
        self.bonus_kinds = memory.bonus_kinds if Aim.SHORTFALL in query.aims else 0
        self.wanted = query.required | self.bonus_kinds
        self.twice = self._twice()
        self.tracked = query.required | self.twice
        self.bought = memory.labels(query.aims, How.BOUGHT)
        self.free = memory.labels(query.aims, How.KEPT)
        self.priced = memory.priced(query.aims)
        self.gives = memory.gives(query.admits)
        self.keys = Keys(memory, query)
        self.own: dict[FrontKey, list[Entry]] = {}
        self.touched: dict[tuple[int, Kits], Kits] = {}
        self.contexts: dict[tuple[int, int], int] = {}
        self.counts_dying = Aim.DYING in query.aims
        self.bounds = Bounds(self)
        self.looked = 0
        self.any_way = not query.aims

    def _twice(self) -> int:
        """Kinds that must be watched lest two of them be placed in different branches.

        A kind that only carries others is placed only below something wanted, so two of it
        would carry two different wanted kinds.
        """
        bits = 0
        for kind, below in self.tree.beneath.items():
            if (below & self.wanted).bit_count() > 1:
                bits |= 1 << kind
        return self.tree.doubled & (bits | self.wanted | self.tree.forced)

    def openings(self) -> list[int]:
        """Return the contexts the root may be placed in."""
        return [DEMANDS.pack(four(opening, 0)) for opening in self.query.openings]

    def spend(self) -> None:
        """Count one placing; raise Exhausted when there were more than the effort allows."""
        self.looked += 1
        if self.looked > self.query.effort:
            raise Exhausted

    # -- demands --------------------------------------------------------------------

    def bears(self, number: int, context: int) -> bool:
        """Tell whether a candidate bears the demands of a context and may stand in it."""
        if context >> ABOVE and context >> ABOVE & 1 << self.tree.candidates[number].kind:
            return False
        short = self.gives[number] + _DEMAND_GUARDS - (context & DEMAND_BITS)
        return short & _DEMAND_GUARDS == _DEMAND_GUARDS

    def below(self, number: int, context: int) -> int:
        """Return the context of what stands on a candidate."""
        shape = self.tree.shapes[number]
        found = self.contexts.get((shape, context))
        if found is None:
            found = self.contexts[shape, context] = self._below(number, context)
        return found

    def _below(self, number: int, context: int) -> int:
        it = self.tree.candidates[number]
        above = context >> ABOVE | (1 << it.kind & self.tree.climbing)
        demands = context & DEMAND_BITS
        if it.demands:
            wanted = [self.keys.rounded(entry, value) for entry, value in enumerate(it.demands)]
            pairs = zip(DEMANDS.unpack(demands), four(wanted, 0), strict=True)
            demands = DEMANDS.pack([max(pair) for pair in pairs])
        return demands | above << ABOVE

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
        socket = self.alike(socket)
        if kits:
            kits = self.touching(socket, kits)
        return self.entry(socket, context, kits).front

    def entry(self, socket: int, context: int, kits: Kits) -> Entry:
        """Return the front of a class that speaks for its like, with how far it holds.

        Stricter demands only take ways away. So a front found under milder demands holds as
        long as all that was placed in it bears the stricter ones.
        """
        if context:
            context = self.memory.local(socket, context)
        demands = context & DEMAND_BITS
        key = (socket, context >> ABOVE, kits, self.keys.of(socket))
        store = self.own if kits and _any_kept(kits) else self.memory.fronts
        entries = store.get(key)
        if entries is None:
            entries = store[key] = []
        for entry in entries:
            if (demands + _DEMAND_GUARDS - entry.demands) & _DEMAND_GUARDS == _DEMAND_GUARDS and (
                entry.bears + _DEMAND_GUARDS - demands
            ) & _DEMAND_GUARDS == _DEMAND_GUARDS:
                return entry
        front = self._worked_out(socket, context, kits)
        entry = Entry(demands, self._borne(front), front, {})
        entries.append(entry)
        return entry

    def _borne(self, front: Front) -> int:
        """Return the strictest demands that everything placed in a front bears."""
        nodes = [node for rows in front.values() for _, node in rows if node is not None]
        given: set[int] = set()
        while nodes:
            number, _, below = nodes.pop()
            given.add(self.gives[number])
            nodes.extend(node for node in below if node is not None)
        columns = zip(*(DEMANDS.unpack(one) for one in given), strict=True)
        return DEMANDS.pack([min(column) for column in columns]) if given else _ALL_BORNE

    def alike(self, socket: int) -> int:
        """Return the class that speaks for a class under this query."""
        return self.memory.alike(socket, self.leniency(socket))

    def touching(self, socket: int, kits: Kits) -> Kits:
        """Return the things at hand that can stand in or below a class."""
        key = (socket, kits)
        found = self.touched.get(key)
        if found is None:
            found = self.touched[key] = self._touching(socket, kits)
        return found

    def _touching(self, socket: int, kits: Kits) -> Kits:
        if self.keys.loose & self.tree.atoms_reach[socket]:
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
                if not (self.any_way and self._settled(socket, rows, self.ends(socket))):
                    plain = self.front(socket, context, NOTHING)
                    for mask, front in plain.items():
                        rows.setdefault(mask, []).extend(front)
            self._shop(socket, self._groups(socket, leniency, kits), context, kits, rows)
        return self._closed(socket, rows)

    def _shop(
        self,
        socket: int,
        groups: Sequence[Group],
        context: int,
        kits: Kits,
        rows: dict[int, list[Row]],
    ) -> None:
        """Buy from the groups, the most promising first, while something unbeaten can come."""
        ends = self.ends(socket)
        if self.any_way and self._settled(socket, rows, ends):
            return
        for offer in self._offers(socket, groups, context, kits, rows):
            self.spend()
            bases = self._promising(socket, offer, rows, ends) if rows else offer.bases
            if bases:
                hung = self.hung(bases[0][1], context, offer.kits)
                self._place(bases, int(How.BOUGHT), hung, rows)
                if self.any_way and self._settled(socket, rows, ends):
                    return

    def _offers(
        self,
        socket: int,
        groups: Sequence[Group],
        context: int,
        kits: Kits,
        rows: dict[int, list[Row]],
    ) -> list[_Offer]:
        """Return what is for sale with bounds on what hangs on it, least bound first."""
        ends = self.ends(socket)
        rivals = self._class_rivals(socket, rows, ends)
        offers: list[_Offer] = []
        for group in groups:
            if rivals and self._too_dear(socket, group.members[0], kits, ends, rivals):
                break
            bases = self._bases(group, context)
            if bases:
                shape = bases[0][1]
                below, at_hand = self.below(shape, context), self.with_included(shape, kits)
                lows = tuple(self.bounds.hung(shape, below, at_hand, end) for end in ends)
                if any(lows):
                    least = min(low for some in lows for low in some)
                    offers.append(_Offer(bases[0][0] + least, len(offers), bases, at_hand, lows))
        offers.sort()
        return offers

    def _class_rivals(
        self, socket: int, rows: dict[int, list[Row]], ends: tuple[int, ...]
    ) -> list[list[Row]]:
        """Return the rivals of every member of a class by end; nothing where an end has none."""
        must, own, _ = self.tree.bound[socket]
        if own & (own - 1) == 0:
            must |= own
        rivals = [self._rivals(socket, rows, end, must) for end in ends]
        return rivals if all(rivals) else []

    def _too_dear(
        self,
        socket: int,
        number: int,
        kits: Kits,
        ends: tuple[int, ...],
        rivals: list[list[Row]],
    ) -> bool:
        """Tell whether all at this price or above is beaten, whatever hangs on it."""
        return all(
            _beaten(self.priced[number] + self.bounds.surcharge(socket, kits, end), some)
            for end, some in zip(ends, rivals, strict=True)
        )

    def _groups(self, socket: int, leniency: Admits, kits: Kits) -> Sequence[Group]:
        """Return the groups of a class, or those on which something in hand can stand."""
        groups = self.tree.grouped(socket, leniency)
        if not kits:
            return groups
        if self.keys.loose & self.tree.atoms_reach[socket]:
            return [group for group in groups if self._reached(group, kits)]
        reached: set[int] = set()
        for number, _ in kits:
            reached |= self.memory.reached(socket, leniency, number)
        return [groups[at] for at in sorted(reached)]

    def ends(self, socket: int) -> tuple[int, ...]:
        """Return the sets of wanted kinds a class may end up with that matter to the rest.

        Kinds wanted of it that stand nowhere else are best all there. Of wanted kinds that
        could also stand elsewhere, each mixture matters by itself.
        """
        wanted = self.tree.reach[socket] & self.query.required
        twice = self.twice & self.tree.outside[socket]
        return tuple(wanted & ~twice | some for some in _subsets(wanted & twice))

    def _rivals(self, socket: int, rows: dict[int, list[Row]], end: int, must: int) -> list[Row]:
        """Return the rows that serve as well as any with this end and at least these kinds."""
        required = self.query.required
        excess = self.twice & self.tree.outside[socket] & ~required & ~must
        return [
            row
            for mask, some in rows.items()
            if mask & required == end and not mask & excess
            for row in some
        ]

    def _settled(self, socket: int, rows: dict[int, list[Row]], ends: tuple[int, ...]) -> bool:
        return all(self._rivals(socket, rows, end, 0) for end in ends)

    def _reached(self, group: Group, kits: Kits) -> bool:
        for socket in self.tree.candidates[group.members[0]].sockets:
            if self.touching(socket, kits):
                return True
        return False

    def _closed(self, socket: int, rows: dict[int, list[Row]]) -> Front:
        """Prune, and allow the empty socket where it may stay empty."""
        if not self.tree.sockets[socket].required:
            if not self.bonus_kinds:
                wanted = self.query.required
                rows = {mask: some for mask, some in rows.items() if mask & wanted}
            rows.setdefault(0, []).append((0, None))
        telling = self.query.required | self.tree.outside[socket]
        merged: dict[int, list[Row]] = {}
        for mask, some in rows.items():
            merged.setdefault(mask & telling, []).extend(some)
        return {mask: unbeaten(some, GUARDS) for mask, some in merged.items()}

    def _place_kits(
        self, socket: int, leniency: Admits, context: int, kits: Kits, rows: dict[int, list[Row]]
    ) -> None:
        members = self.tree.members(socket, leniency)
        for number, how in kits:
            if number in members and self.query.usable[number] and self.bears(number, context):
                self.spend()
                base = [(self.free[number], number)]
                self._place(base, how, self.hung(number, context, kits), rows)

    def _promising(
        self, socket: int, offer: _Offer, rows: dict[int, list[Row]], ends: tuple[int, ...]
    ) -> list[tuple[int, int]]:
        """Keep the bases that could still end in something unbeaten, by their bounds."""
        must = self.tree.must[offer.bases[0][1]]
        tests = [
            (lows, self._rivals(socket, rows, end, must))
            for end, lows in zip(ends, offer.lows, strict=True)
        ]
        return [
            base
            for base in offer.bases
            if any(not _beaten(base[0] + low, rivals) for lows, rivals in tests for low in lows)
        ]

    def with_included(self, number: int, kits: Kits) -> Kits:
        """Return the things at hand below a bought candidate."""
        brings = self.tree.candidates[number].brings
        return kits.union((one, _INCLUDED) for one in brings) if brings else kits

    def _bases(self, group: Group, context: int) -> list[tuple[int, int]]:
        """Return the unbeaten members of a group on their own cost."""
        bases: list[tuple[int, int]] = []
        buyable, bought = self.query.buyable, self.bought
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
        hung: dict[int, list[Joint]],
        rows: dict[int, list[Row]],
    ) -> None:
        """Put candidates of one shape with everything that can hang below them."""
        bit = (1 << self.tree.candidates[bases[0][1]].kind) & self.tracked
        for mask, joints in hung.items():
            if not mask & bit:
                into = rows.setdefault(mask | bit, [])
                for base, number in bases:
                    into.extend((base + label, (number, how, nodes)) for label, nodes in joints)

    def hung(self, shape: int, context: int, kits: Kits) -> dict[int, list[Joint]]:
        """Return the unbeaten fillings of all sockets of a candidate together."""
        sockets = self.tree.candidates[shape].sockets
        if not sockets:
            return _BARE
        joint = _BARE
        below = self.below(shape, context)
        for socket in sockets:
            joint = crossed(joint, self.front(socket, below, kits))
            if not joint:
                break
        return joint


def _subsets(bits: int) -> list[int]:
    found = [0]
    while bits:
        lowest = bits & -bits
        found += [one | lowest for one in found]
        bits ^= lowest
    return found


_BARE: dict[int, list[Joint]] = {0: [(0, ())]}


def _any_kept(kits: Kits) -> bool:
    return any(how != _INCLUDED for _, how in kits)


def _beaten(label: int, rows: Sequence[Row]) -> bool:
    reach = label + GUARDS
    for other, _ in rows:  # noqa: SIM110 - any() takes three times as long here
        if (reach - other) & GUARDS == GUARDS:
            return True
    return False


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
                if single:
                    plain = len(rows) == 1 or len(more) == 1
                    return {mask | other: joined if plain else unbeaten(joined, GUARDS)}
                out.setdefault(mask | other, []).extend(joined)
    return {mask: unbeaten(rows, GUARDS) for mask, rows in out.items() if rows}

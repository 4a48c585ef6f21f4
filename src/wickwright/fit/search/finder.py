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

from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

from wickwright.fit.search.brightness import Brightness, bar, reaches
from wickwright.fit.search.caps import Cap
from wickwright.fit.search.effort import ROW, Effort
from wickwright.fit.search.fillings import BARE, EMPTY, crossed
from wickwright.fit.search.floors import Floors
from wickwright.fit.search.keys import Keys
from wickwright.fit.search.labels import nondominated, unbeaten
from wickwright.fit.search.memory import Entry
from wickwright.fit.search.packs import ABOVE, DEMAND_BITS, DEMAND_ENTRIES, DEMANDS, PLENTY, four
from wickwright.fit.search.query import PACKING, Aim, How

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from wickwright.fit.search.brightness import Best
    from wickwright.fit.search.fillings import Joint
    from wickwright.fit.search.memory import Kits, Memory
    from wickwright.fit.search.query import Query
    from wickwright.fit.search.tree import Admits, Front, Row

__all__ = ["Finder"]

GUARDS = PACKING.guards
_DEMAND_GUARDS = DEMANDS.guards
_INCLUDED = int(How.INCLUDED)
_ALL_BORNE = DEMANDS.pack([PLENTY] * DEMAND_ENTRIES)
NOTHING: Kits = frozenset()
_BONUS = PACKING.shifts[Aim.SHORTFALL]


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
    effort : Effort, optional
        What may be spent; else as much as the query says.
    """

    def __init__(self, memory: Memory, query: Query, effort: Effort | None = None) -> None:
        memory.tidy()
        self.effort = effort or Effort(query.effort)
        self.spend = self.effort.spend
        self.memory, self.tree, self.query = memory, memory.tree, query
        self.admitting = memory.admitting(query.admits, query.loose)
        self.bonus_kinds = memory.bonus_kinds if Aim.SHORTFALL in query.aims else 0
        self.wanted = query.required | self.bonus_kinds
        self.twice = self._twice()
        self.tracked = query.required | self.twice
        self.bought = memory.labels(query.aims, How.BOUGHT)
        self.free = memory.labels(query.aims, How.KEPT)
        self.gives = memory.gives(query.admits)
        self.brightness = Brightness(memory, query)
        self.keys = Keys(memory, query, self.brightness)
        self.bars: dict[int, int] = {}
        self.own = memory.own
        self.touched: dict[tuple[int, Kits], Kits] = {}
        self.contexts: dict[tuple[int, int], int] = {}
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

    @cached_property
    def floors(self) -> Floors:
        """Bounds on everything, worked out where they are first asked for."""
        return Floors(self)

    @cached_property
    def best(self) -> Best:
        """The most bonus of everything, where one counts."""
        return self.memory.best(self.admitting, self.query.usable)

    def bright(self, socket: int, rows: list[Row]) -> list[Row]:
        """Leave out the rows of a class that earn too little to be of use."""
        need = self.brightness.need(socket)
        if not need or not rows:
            return rows
        against = self.bars.setdefault(need, bar(need))
        return [row for row in rows if reaches(row[0], against)]

    def may_shine(self, socket: int, number: int) -> bool:
        """Tell whether a candidate of a class can earn enough with all that can hang on it."""
        need = self.brightness.need(socket)
        return not need or int(self.best.candidates[number]) >= need

    def openings(self) -> list[int]:
        """Return the contexts the root may be placed in."""
        return [DEMANDS.pack(four(opening, 0)) for opening in self.query.openings]

    def in_hand(self) -> Kits:
        """Return what is in hand."""
        return frozenset((number, int(How.KEPT)) for number in self.query.owned)

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

    def front(self, socket: int, context: int, kits: Kits, cap: Cap | None = None) -> Front:
        """Return the unbeaten labels of all that can stand in a class.

        Parameters
        ----------
        socket : int
            Socket class.
        context : int
            Demands from above, packed.
        kits : Kits
            Things at hand for nothing.
        cap : Cap, optional
            What need not be found.

        Returns
        -------
        Front
            By the tracked kinds placed; empty when nothing can stand there.
        """
        socket = self.alike(socket)
        if kits:
            kits = self.touching(socket, kits)
        return self.entry(socket, context, kits, cap)

    def entry(self, socket: int, context: int, kits: Kits, cap: Cap | None) -> Front:
        """Return the front of a class that speaks for its like.

        Stricter demands only take ways away. So a front found under milder demands holds as
        long as all that was placed in it bears the stricter ones.
        """
        if context:
            context = self.memory.local(socket, context)
        demands = context & DEMAND_BITS
        key = (socket, context >> ABOVE, kits, self.keys.of(socket))
        own = bool(kits) and _any_kept(kits)
        store = self.own if own else self.memory.fronts
        entries = store.get(key)
        if entries is None:
            entries = store[key] = []
        for entry in entries:
            if (demands + _DEMAND_GUARDS - entry.demands) & _DEMAND_GUARDS == _DEMAND_GUARDS and (
                entry.bears + _DEMAND_GUARDS - demands
            ) & _DEMAND_GUARDS == _DEMAND_GUARDS:
                return entry.front
        if cap and own and self.admitting.carries(socket):
            return self._worked_out(socket, context, kits, cap)
        front = self._worked_out(socket, context, kits, None)
        entries.append(Entry(demands, self._borne(front), front))
        return front

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
        return self.admitting.alike(socket)

    def touching(self, socket: int, kits: Kits) -> Kits:
        """Return the things at hand that can stand in or below a class."""
        key = (socket, kits)
        found = self.touched.get(key)
        if found is None:
            touches = self.admitting.touches
            found = self.touched[key] = frozenset(k for k in kits if touches(socket, k[0]))
        return found

    def leniency(self, socket: int) -> Admits:
        """Return which candidates a class lets in under this query."""
        return self.admitting.leniency(socket)

    def worth_filling(self, socket: int) -> bool:
        """Tell whether a class must or may usefully be filled."""
        return self.tree.sockets[socket].required or bool(self.tree.reach[socket] & self.wanted)

    def _worked_out(self, socket: int, context: int, kits: Kits, cap: Cap | None) -> Front:
        rows: dict[int, list[Row]] = {}
        if self.worth_filling(socket):
            if kits:
                self._place_kits(socket, context, kits, cap, rows)
            if self.admitting.carries(socket):
                self._shop(socket, context, kits, cap, rows)
            elif kits:
                for mask, more in self.front(socket, context, NOTHING).items():
                    rows[mask] = [*rows.get(mask, ()), *more]
            else:
                self._shop_leaves(socket, context, rows)
        return self._closed(socket, rows)

    def _shop(
        self, socket: int, context: int, kits: Kits, cap: Cap | None, rows: dict[int, list[Row]]
    ) -> None:
        """Buy the most promising first, while something unbeaten can come."""
        ends = self.ends(socket)
        if self.any_way and self._settled(socket, rows, ends):
            return
        for offer in self._offers(socket, context, kits, cap, rows):
            self.spend()
            bases = self._promising(socket, offer, rows, ends) if rows else offer.bases
            if bases:
                inner = self._inner(socket, cap, rows, ends, tuple(base for base, _ in bases))
                hung = self.hung(bases[0][1], context, offer.kits, inner)
                self._place(bases, int(How.BOUGHT), hung, rows)
                if self.any_way and self._settled(socket, rows, ends):
                    return

    def _shop_leaves(self, socket: int, context: int, rows: dict[int, list[Row]]) -> None:
        """Buy from a class of which nothing carries anything."""
        buyable, candidates = self.query.buyable, self.tree.candidates
        by_kind: dict[int, list[int]] = {}
        for number in self.admitting.members(socket):
            if buyable[number] and self.bears(number, context):
                by_kind.setdefault(candidates[number].kind, []).append(number)
        for numbers in by_kind.values():
            numbers.sort(key=self.memory.rank.__getitem__)
            self._place(self._bases(numbers), int(How.BOUGHT), BARE, rows)

    def _inner(
        self,
        socket: int,
        cap: Cap | None,
        rows: dict[int, list[Row]],
        ends: tuple[int, ...],
        bases: tuple[int, ...],
    ) -> Cap | None:
        """Return what all that hangs on some bases must beat."""
        if cap:
            return cap.with_more(bases)
        if len(ends) > 1 or not rows:
            return None
        found = [label for label, _ in self._rivals(socket, rows, ends[0], 0)]
        self.spend(len(found) ** 2 // 2)
        rivals = tuple(nondominated(found, GUARDS))
        return Cap(bases, rivals) if rivals else None

    def _offers(
        self, socket: int, context: int, kits: Kits, cap: Cap | None, rows: dict[int, list[Row]]
    ) -> list[_Offer]:
        """Return what is for sale with bounds on what hangs on it, least bound first."""
        ends = self.ends(socket)
        sweeps = [self.floors.sweep_for(socket, end) for end in ends]
        must, own, _ = self.tree.bound[socket]
        if own & (own - 1) == 0:
            must |= own
        tests = [
            (which, self._rivals(socket, rows, end, must))
            for which, end in zip(sweeps, ends, strict=True)
        ]
        sold = self.floors.offers(socket, kits, tests, cap)
        groups: dict[int, list[int]] = {}
        for number in sorted(sold, key=self.memory.rank.__getitem__):
            if self.bears(number, context) and self.may_shine(socket, number):
                groups.setdefault(self.tree.shapes[number], []).append(number)
        offers: list[_Offer] = []
        for numbers in groups.values():
            bases = self._bases(numbers)
            number = bases[0][1]
            lows = tuple(self._lows(sold[number], number, which) for which in sweeps)
            if any(lows):
                least = min(low for some in lows for low in some)
                at_hand = self.with_included(number, kits)
                offers.append(_Offer(bases[0][0] + least, len(offers), bases, at_hand, lows))
        offers.sort()
        return offers

    def _lows(self, row: int, number: int, which: int) -> tuple[int, ...]:
        """Return bounds on all that must hang on a candidate, light set off."""
        labels = self.floors.hung(row, which)
        if not self.bonus_kinds:
            return labels
        best = int(self.best.candidates[number]) - self.tree.candidates[number].bonus
        return tuple(label - (best << _BONUS) for label in labels)

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
        bright = {mask: self.bright(socket, some) for mask, some in merged.items()}
        return {mask: unbeaten(some, GUARDS, self.spend) for mask, some in bright.items() if some}

    def _place_kits(
        self, socket: int, context: int, kits: Kits, cap: Cap | None, rows: dict[int, list[Row]]
    ) -> None:
        members = self.admitting.members(socket)
        for number, how in kits:
            if (
                number in members
                and self.query.usable[number]
                and self.bears(number, context)
                and self.may_shine(socket, number)
            ):
                self.spend()
                base = self.free[number]
                inner = cap.with_more((base,)) if cap else None
                self._place([(base, number)], how, self.hung(number, context, kits, inner), rows)

    def _promising(
        self, socket: int, offer: _Offer, rows: dict[int, list[Row]], ends: tuple[int, ...]
    ) -> list[tuple[int, int]]:
        """Keep the bases that could still end in something unbeaten, by their bounds."""
        must = self.tree.must[offer.bases[0][1]]
        tests = [
            (lows, self._rivals(socket, rows, end, must))
            for end, lows in zip(ends, offer.lows, strict=True)
        ]
        self.spend(len(offer.bases) * sum(len(lows) * len(some) for lows, some in tests))
        return [
            base
            for base in offer.bases
            if any(not _beaten(base[0] + low, rivals) for lows, rivals in tests for low in lows)
        ]

    def with_included(self, number: int, kits: Kits) -> Kits:
        """Return the things at hand below a bought candidate."""
        brings = self.tree.candidates[number].brings
        return kits.union((one, _INCLUDED) for one in brings) if brings else kits

    def _bases(self, numbers: Sequence[int]) -> list[tuple[int, int]]:
        """Return the candidates unbeaten on their own cost; just one when any will do."""
        labels = [(self.bought[number], number) for number in numbers]
        rows = unbeaten(labels, GUARDS, self.spend)
        return rows[:1] if self.any_way else rows

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
                into = rows.get(mask | bit, [])
                for base, number in bases:
                    self.spend(ROW * (len(into) + len(joints)))
                    fresh = [(base + label, (number, how, nodes)) for label, nodes in joints]
                    into = unbeaten([*into, *fresh], GUARDS, self.spend)
                rows[mask | bit] = into

    def hung(
        self, shape: int, context: int, kits: Kits, cap: Cap | None = None
    ) -> dict[int, list[Joint]]:
        """Return the unbeaten fillings of all sockets of a candidate together."""
        sockets = self.tree.candidates[shape].sockets
        if not sockets:
            return BARE
        below = self.below(shape, context)
        if cap:
            fronts = self._capped(sockets, below, kits, cap)
        else:
            fronts = (self.front(socket, below, kits) for socket in sockets)
        joint = BARE
        for front in fronts:
            joint = crossed(joint, front, self.effort)
            if not joint:
                break
        return joint

    def _capped(
        self, sockets: Sequence[int], context: int, kits: Kits, cap: Cap
    ) -> Iterable[Front]:
        """Return the fronts of sockets, those last of which only a part may be needed."""
        fronts: dict[int, Front] = {}
        lows = [self._floor(socket, kits) for socket in sockets]
        for carrying in (False, True):
            for at, socket in enumerate(sockets):
                if self.admitting.carries(socket) is carrying and self.worth_filling(socket):
                    inner = self._others(at, lows, cap) if carrying else None
                    if inner and not inner.offsets:
                        return ({},)
                    fronts[at] = front = self.front(socket, context, kits, inner)
                    if not front:
                        return ({},)
                    lows[at] = _labels_of(front)
        return (fronts.get(at, EMPTY) for at in range(len(sockets)))

    def _others(self, at: int, lows: Sequence[tuple[int, ...]], cap: Cap) -> Cap:
        for other, labels in enumerate(lows):
            if other != at:
                cap = cap.with_more(labels)
        return cap

    def _floor(self, socket: int, kits: Kits) -> tuple[int, ...]:
        labels = self.floors.low(self.alike(socket), kits)
        if not self.bonus_kinds:
            return labels
        best = self.best.classes[socket] << _BONUS
        return tuple(label - best for label in labels)


def _subsets(bits: int) -> list[int]:
    found = [0]
    while bits:
        lowest = bits & -bits
        found += [one | lowest for one in found]
        bits ^= lowest
    return found


def _labels_of(front: Front) -> tuple[int, ...]:
    if len(front) == 1:
        return tuple(label for rows in front.values() for label, _ in rows)
    return tuple(nondominated([label for rows in front.values() for label, _ in rows], GUARDS))


def _any_kept(kits: Kits) -> bool:
    return any(how != _INCLUDED for _, how in kits)


def _beaten(label: int, rows: Sequence[Row]) -> bool:
    reach = label + GUARDS
    for other, _ in rows:  # noqa: SIM110 - any() takes three times as long here
        if (reach - other) & GUARDS == GUARDS:
            return True
    return False

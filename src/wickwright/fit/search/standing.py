"""The search with the balance of the whole tree as one more cost.

Only needed where a way found without it would fall over. Leverage below what could ever
matter is raised to a floor and leverage above what could ever be made good is dropped, so
few distinct values remain. The fronts found without balance bound what a choice can give,
and a choice whose bounds are already beaten is passed over.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from wickwright.fit.search.balance import share
from wickwright.fit.search.caps import Cap
from wickwright.fit.search.effort import ROW
from wickwright.fit.search.fillings import Joint, crossed
from wickwright.fit.search.finder import GUARDS, NOTHING, Finder
from wickwright.fit.search.labels import nondominated, unbeaten
from wickwright.fit.search.leaning import Leaning
from wickwright.fit.search.query import How

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickwright.fit.search.effort import Effort
    from wickwright.fit.search.memory import Extent, Kits, Memory
    from wickwright.fit.search.query import Query
    from wickwright.fit.search.tree import Front, Row

__all__ = ["StandingFinder"]

_WIDE = 1 << 44
_BOUGHT = int(How.BOUGHT)
_LEVERAGE = (1 << 48) - 1

Choice = tuple[int, int, int, "Kits"]
"""Base label, candidate, how it came, and what is at hand below it."""


class _Standing(NamedTuple):
    """A choice with its least bound, its bounds by kinds, and its least leverage."""

    least: int
    order: int
    choice: Choice
    lows: dict[int, list[int]]
    leverage: int


class StandingFinder(Finder):
    """A finder whose labels carry leverage about a pivot."""

    def __init__(self, memory: Memory, query: Query, effort: Effort | None = None) -> None:
        super().__init__(memory, query, effort)
        self.leaves: dict[tuple[int, int, Kits, int], Front] = {}
        self.sold: dict[tuple[int, int], list[tuple[int, int, int]]] = {}
        self.leaning = Leaning(self.floors)
        self.stood: dict[tuple[int, int, Kits, int, int, int], Front] = {}

    def standing(
        self,
        socket: int,
        context: int,
        kits: Kits,
        arm: int,
        floor: int,
        cap: int,
        limit: Cap | None = None,
    ) -> Front:
        """Return the unbeaten labels, leverage included, of all that can stand in a class.

        Parameters
        ----------
        socket, context, kits
            As for :meth:`Finder.front`.
        arm : int
            Height of the socket above the pivot.
        floor, cap : int
            Leverage that is as good as any less, and the most that is of use.
        limit : Cap, optional
            What need not be found, by its costs.

        Returns
        -------
        Front
            By the tracked kinds placed.
        """
        socket = self.alike(socket)
        kits = self.touching(socket, kits)
        context = self.memory.local(socket, context) if context else 0
        key = (socket, context, kits, arm, floor, cap)
        found = self.stood.get(key)
        if found is None:
            if limit and self.admitting.carries(socket):
                return self._stand(socket, context, kits, arm, floor, cap, limit)
            found = self.stood[key] = self._stand(socket, context, kits, arm, floor, cap, None)
        return found

    def _stand(
        self,
        socket: int,
        context: int,
        kits: Kits,
        arm: int,
        floor: int,
        cap: int,
        limit: Cap | None,
    ) -> Front:
        telling = self.query.required | self.tree.outside[socket]
        if not self.admitting.carries(socket):
            rows = self._leaves_within(socket, context, kits, arm, floor, cap)
            return (
                rows
                if self.tree.sockets[socket].required
                else self._with_empty(socket, rows, floor, cap)
            )
        rows = {}
        for offer in self._standing_offers(socket, context, kits, arm, cap, limit):
            self.spend()
            if self._promises(offer, rows, max(floor, offer.leverage), telling):
                inner = self._limited(socket, offer.choice[0], floor, rows, limit)
                self.stand_one(offer.choice, context, arm, floor, cap, rows, telling, inner)
        if not self.tree.sockets[socket].required:
            rows = self._with_empty(socket, rows, floor, cap)
        bright = {mask: self.bright(socket, some) for mask, some in rows.items()}
        return {mask: some for mask, some in bright.items() if some}

    def _leaves_within(
        self, socket: int, context: int, kits: Kits, arm: int, floor: int, cap: int
    ) -> Front:
        """Return what carries nothing and can stand in a class, within floor and cap."""
        if not self.worth_filling(socket):
            return {}
        key = (socket, context, kits, arm)
        known = self.leaves.get(key)
        if known is None:
            known = self.leaves[key] = self._leaves(socket, context, kits, arm)
        rows: Front = {}
        for mask, some in known.items():
            self.spend(ROW * len(some))
            fit = [(_clamped(label, 0, floor), node) for label, node in some]
            fit = [row for row in fit if leverage(row[0]) <= cap]
            if fit:
                rows[mask] = fit if len(fit) == 1 else unbeaten(fit, GUARDS, self.spend)
        return rows

    def _leaves(self, socket: int, context: int, kits: Kits, arm: int) -> Front:
        telling = self.query.required | self.tree.outside[socket]
        rows: Front = {}
        for base, number, how in (*self._kept(socket, context, kits), *self._sold(socket, context)):
            it = self.tree.candidates[number]
            kinds = (1 << it.kind) & self.tracked & telling
            label = base + share(it, arm, dry=self.query.dry)
            rows.setdefault(kinds, []).append((label, (number, how, ())))
        return {mask: unbeaten(some, GUARDS, self.spend) for mask, some in rows.items()}

    def _kept(self, socket: int, context: int, kits: Kits) -> Iterator[tuple[int, int, int]]:
        members = self.admitting.members(socket)
        for number, how in sorted(kits):
            if (
                number in members
                and self.query.usable[number]
                and self.bears(number, context)
                and self.may_shine(socket, number)
            ):
                yield self.free[number], number, how

    def _sold(self, socket: int, context: int) -> list[tuple[int, int, int]]:
        """Return what is sold and carries nothing, but what another beats at every height."""
        found = self.sold.get((socket, context))
        if found is None:
            low, high = self.leaning.arms(self.floors.place(socket, NOTHING))
            numbers = [
                number
                for number in self.admitting.members(socket)
                if self.query.buyable[number]
                and self.bears(number, context)
                and self.may_shine(socket, number)
            ]
            numbers.sort(key=self.memory.rank.__getitem__)
            found = [(self.bought[n], n, _BOUGHT) for n in self._unbeaten_ends(numbers, low, high)]
            self.sold[socket, context] = found
        return found

    def _unbeaten_ends(self, numbers: list[int], low: int, high: int) -> list[int]:
        """Keep what is not beaten by one of its kind at the lowest and the highest arm."""
        kept: list[int] = []
        costs: list[tuple[int, int, int]] = []
        for number in sorted(numbers, key=self.bought.__getitem__):
            it = self.tree.candidates[number]
            ends = [share(it, arm, dry=self.query.dry) for arm in (low, high)]
            mine = (it.kind, self.bought[number] + ends[0], self.bought[number] + ends[1])
            if it.loads or not any(_no_worse(other, mine) for other in costs):
                kept.append(number)
            if not it.loads:
                costs.append(mine)
        return kept

    def _limited(
        self, socket: int, base: int, floor: int, rows: Front, limit: Cap | None
    ) -> Cap | None:
        """Return the limit on all that hangs on a choice.

        A way found here whose leverage is as good as any serves as well as all that cost more.
        """
        if limit:
            return limit.with_more((base,))
        ends = self.ends(socket)
        if len(ends) > 1:
            return None
        found = [label for label, _ in self._rivals(socket, rows, ends[0], 0)]
        steady = [label - floor for label in found if leverage(label) == floor]
        self.spend(len(found) + len(steady) ** 2 // 2)
        return Cap((base,), tuple(nondominated(steady, GUARDS))) if steady else None

    def _standing_offers(
        self, socket: int, context: int, kits: Kits, arm: int, cap: int, limit: Cap | None
    ) -> list[_Standing]:
        """Return the choices that might stand, least bound first."""
        offers: list[_Standing] = []
        if not self.worth_filling(socket):
            return offers
        for choice in self.choices(socket, context, kits, limit):
            least = self._least(choice[1], arm, choice[3])
            if least <= cap:
                hung = self.hung(choice[1], context, choice[3])
                lows = {mask: [label for label, _ in some] for mask, some in hung.items()}
                if lows:
                    cheapest = min(some[0] for some in lows.values())
                    offers.append(_Standing(choice[0] + cheapest, len(offers), choice, lows, least))
        offers.sort()
        return offers

    def _with_empty(self, socket: int, rows: Front, floor: int, cap: int) -> Front:
        if not self.bonus_kinds:
            rows = {mask: some for mask, some in rows.items() if mask & self.query.required}
        if cap >= 0 and not self.brightness.need(socket):
            rows[0] = unbeaten([*rows.get(0, ()), (max(0, floor), None)], GUARDS, self.spend)
        return rows

    def place_unlimited(self, choice: Choice, context: int, rows: Front) -> None:
        """Place one choice whose balance has no limit, such as one that hangs."""
        base, number, how, kits = choice
        self._place([(base, number)], how, self.hung(number, context, kits), rows)

    def choices(
        self, socket: int, context: int, kits: Kits, limit: Cap | None = None
    ) -> list[Choice]:
        """Return what may be placed here, things in hand first, then the cheapest."""
        choices: list[Choice] = [
            (base, number, how, kits) for base, number, how in self._kept(socket, context, kits)
        ]
        tests: list[tuple[int, tuple[Row, ...]]] = [
            (self.floors.sweep_for(socket, end), ()) for end in self.ends(socket)
        ]
        sold = self.floors.offers(self.alike(socket), kits, tests, limit)
        bought = [
            (self.bought[number], number, _BOUGHT, self.with_included(number, kits))
            for number in sorted(sold, key=self.memory.rank.__getitem__)
            if self.bears(number, context) and self.may_shine(socket, number)
        ]
        bought.sort(key=lambda choice: choice[0])
        return choices + bought

    def _least(self, number: int, arm: int, kits: Kits) -> int:
        """Return the least leverage of a candidate with whatever hangs on it."""
        it = self.tree.candidates[number]
        least = share(it, arm, dry=self.query.dry)
        for socket, rise in zip(it.sockets, it.rises, strict=True):
            least += self.swing(socket, arm + rise, kits)[0]
        return least

    def _promises(self, offer: _Standing, rows: Front, floor: int, telling: int) -> bool:
        """Tell whether a choice could still give something unbeaten, by its bounds."""
        base, number, _, _ = offer.choice
        bit = (1 << self.tree.candidates[number].kind) & self.tracked
        for mask, lows in offer.lows.items():
            if mask & bit:
                continue
            best = rows.get((mask | bit) & telling, ())
            self.spend(len(lows) * len(best))
            if not best or any(not _beaten(base + low + floor, best) for low in lows):
                return True
        return False

    def stand_one(
        self,
        choice: Choice,
        context: int,
        arm: int,
        floor: int,
        cap: int,
        rows: Front,
        telling: int = -1,
        limit: Cap | None = None,
    ) -> None:
        """Place one choice with all that can hang below it, and merge the outcome."""
        base, number, how, kits = choice
        it = self.tree.candidates[number]
        own = share(it, arm, dry=self.query.dry)
        bit = (1 << it.kind) & self.tracked
        joint = self._hung_standing(number, context, kits, arm, floor - own, cap - own, limit)
        for mask, hung in joint.items():
            if mask & bit:
                continue
            self.spend(ROW * len(hung))
            fresh: list[Row] = [
                (_clamped(base + label, own, floor), (number, how, nodes))
                for label, nodes in hung
                if own + leverage(label) <= cap
            ]
            if fresh:
                kinds = (mask | bit) & telling
                rows[kinds] = unbeaten([*rows.get(kinds, ()), *fresh], GUARDS, self.spend)

    def _hung_standing(
        self,
        number: int,
        context: int,
        kits: Kits,
        arm: int,
        floor: int,
        cap: int,
        limit: Cap | None,
    ) -> dict[int, list[Joint]]:
        it = self.tree.candidates[number]
        joint: dict[int, list[Joint]] = {0: [(0, ())]}
        if not it.sockets:
            return joint
        below = self.below(number, context)
        bounds = [
            self.swing(socket, arm + rise, kits)
            for socket, rise in zip(it.sockets, it.rises, strict=True)
        ]
        least, most = sum(low for low, _ in bounds), sum(high for _, high in bounds)
        if least > cap:
            return {}
        lows = [self._floor(socket, kits) for socket in it.sockets] if limit else []
        if not all(lows):
            return {}
        for at, (socket, rise) in enumerate(zip(it.sockets, it.rises, strict=True)):
            low, high = bounds[at]
            enough = min(floor - (most - high), high)  # raised so, the sum stays within floor
            inner = self._others(at, lows, limit) if limit else None
            front = self.standing(
                socket, below, kits, arm + rise, enough, cap - (least - low), inner
            )
            joint = crossed(joint, front, self.effort)
            if not joint:
                break
        return joint

    # -- how far leverage can range --------------------------------------------------

    def swing(self, socket: int, arm: int, kits: Kits) -> tuple[int, int]:
        """Return the least and the most leverage of anything standing in a class."""
        if not self.worth_filling(socket):
            return 0, 0
        light, heavy, low, high = self._extent(socket)
        ends = (light * arm, heavy * arm)
        least, most = low + min(ends), high + max(ends)
        if not self.tree.sockets[socket].required:
            least, most = min(0, least), max(0, most)
        place = self.floors.place(self.alike(socket), self.touching(socket, kits))
        lowest = self.leaning.lowest(place, arm)
        return (_WIDE, _WIDE) if lowest > most else (max(least, math.floor(lowest)), most)

    def _extent(self, socket: int) -> Extent:
        """Least and most mass, least and most moment about the socket, of its trees."""
        extents, key = self.memory.extents, (socket, self.keys.of(socket))
        found = extents.get(key)
        if found is None:
            extents[key] = (0, 1 << 24, -_WIDE, _WIDE)  # while it is being worked out
            found = extents[key] = self._measured(socket)
        return found

    def _measured(self, socket: int) -> tuple[int, int, int, int]:
        extents = [
            self._extent_of(number) for number in self.tree.members(socket, self.leniency(socket))
        ]
        if not extents:
            return 0, 0, 0, 0
        light, heavy, low, high = zip(*extents, strict=True)
        return min(light), max(heavy), min(low), max(high)

    def _extent_of(self, number: int) -> Extent:
        it = self.tree.candidates[number]
        light = heavy = it.mass
        low = high = it.mass * it.centre
        if it.loads and not self.query.dry:
            heavy += max(load.mass for load in it.loads)
            low += min(load.mass * load.centre for load in it.loads)
            high += max(load.mass * load.centre for load in it.loads)
        for socket, rise in zip(it.sockets, it.rises, strict=True):
            if not self.worth_filling(socket):
                continue
            a, b, c, d = self._extent(socket)
            if not self.tree.sockets[socket].required:
                a, c, d = 0, min(0, c), max(0, d)
            light, heavy = light + a, heavy + b
            low, high = low + c + min(a * rise, b * rise), high + d + max(a * rise, b * rise)
        return light, heavy, low, high


def _no_worse(one: tuple[int, int, int], other: tuple[int, int, int]) -> bool:
    """Tell whether something of the same kind is nowhere worse at either end."""
    if one[0] != other[0]:
        return False
    first, last = other[1] + GUARDS - one[1], other[2] + GUARDS - one[2]
    return first & last & GUARDS == GUARDS


def leverage(label: int) -> int:
    """Return the leverage field of a label."""
    field = label & (_LEVERAGE << 1 | 1)
    return field - (1 << 49) if field >> 48 else field


def _clamped(label: int, own: int, floor: int) -> int:
    hung = leverage(label)
    return label - hung + max(hung + own, floor)


def _beaten(label: int, rows: Sequence[Row]) -> bool:
    reach = label + GUARDS
    return any((reach - other) & GUARDS == GUARDS for other, _ in rows)

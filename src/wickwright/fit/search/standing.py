"""The search with the balance of the whole tree as one more cost.

Only needed where a way found without it would fall over. Leverage below what could ever
matter is raised to a floor and leverage above what could ever be made good is dropped, so
few distinct values remain. The fronts found without balance bound what a choice can give,
and a choice whose bounds are already beaten is passed over.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wickwright.fit.search.balance import share
from wickwright.fit.search.fillings import Joint, crossed
from wickwright.fit.search.finder import GUARDS, Finder
from wickwright.fit.search.labels import unbeaten
from wickwright.fit.search.query import How

if TYPE_CHECKING:
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

    def __init__(self, memory: Memory, query: Query, looked: int = 0) -> None:
        super().__init__(memory, query)
        self.looked = looked
        self.stood: dict[tuple[int, int, Kits, int, int, int], Front] = {}

    def standing(
        self, socket: int, context: int, kits: Kits, arm: int, floor: int, cap: int
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
            found = self.stood[key] = self._stand(socket, context, kits, arm, floor, cap)
        return found

    def _stand(
        self, socket: int, context: int, kits: Kits, arm: int, floor: int, cap: int
    ) -> Front:
        rows: Front = {}
        telling = self.query.required | self.tree.outside[socket]
        for offer in self._standing_offers(socket, context, kits, arm, cap):
            self.spend()
            if self._promises(offer, rows, max(floor, offer.leverage), telling):
                self.stand_one(offer.choice, context, arm, floor, cap, rows, telling)
        if not self.tree.sockets[socket].required:
            rows = self._with_empty(rows, floor, cap)
        return rows

    def _standing_offers(
        self, socket: int, context: int, kits: Kits, arm: int, cap: int
    ) -> list[_Standing]:
        """Return the choices that might stand, least bound first."""
        offers: list[_Standing] = []
        if not self.worth_filling(socket):
            return offers
        for choice in self.choices(socket, context, kits):
            least = self._least(choice[1], arm)
            if least <= cap:
                hung = self.hung(choice[1], context, choice[3])
                lows = {mask: [label for label, _ in some] for mask, some in hung.items()}
                if lows:
                    cheapest = min(some[0] for some in lows.values())
                    offers.append(_Standing(choice[0] + cheapest, len(offers), choice, lows, least))
        offers.sort()
        return offers

    def _with_empty(self, rows: Front, floor: int, cap: int) -> Front:
        if not self.bonus_kinds:
            rows = {mask: some for mask, some in rows.items() if mask & self.query.required}
        if cap >= 0:
            rows[0] = unbeaten([*rows.get(0, ()), (max(0, floor), None)], GUARDS)
        return rows

    def place_unlimited(self, choice: Choice, context: int, rows: Front) -> None:
        """Place one choice whose balance has no limit, such as one that hangs."""
        base, number, how, kits = choice
        self._place([(base, number)], how, self.hung(number, context, kits), rows)

    def choices(self, socket: int, context: int, kits: Kits) -> list[Choice]:
        """Return what may be placed here, things in hand first, then the cheapest."""
        leniency = self.leniency(socket)
        members = self.tree.members(socket, leniency)
        choices: list[Choice] = [
            (self.free[number], number, how, kits)
            for number, how in sorted(kits)
            if number in members and self.query.usable[number] and self.bears(number, context)
        ]
        bought = [
            (self.bought[number], number, _BOUGHT, self.with_included(number, kits))
            for group in self.tree.grouped(socket, leniency)
            for number in group.members
            if self.query.buyable[number] and self.bears(number, context)
        ]
        bought.sort(key=lambda choice: choice[0])
        return choices + bought

    def _least(self, number: int, arm: int) -> int:
        """Return the least leverage of a candidate with whatever hangs on it."""
        it = self.tree.candidates[number]
        least = share(it, arm, dry=self.query.dry)
        for socket, rise in zip(it.sockets, it.rises, strict=True):
            least += self.swing(socket, arm + rise)[0]
        return least

    def _promises(self, offer: _Standing, rows: Front, floor: int, telling: int) -> bool:
        """Tell whether a choice could still give something unbeaten, by its bounds."""
        base, number, _, _ = offer.choice
        bit = (1 << self.tree.candidates[number].kind) & self.tracked
        for mask, lows in offer.lows.items():
            if mask & bit:
                continue
            best = rows.get((mask | bit) & telling)
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
    ) -> None:
        """Place one choice with all that can hang below it, and merge the outcome."""
        base, number, how, kits = choice
        it = self.tree.candidates[number]
        own = share(it, arm, dry=self.query.dry)
        bit = (1 << it.kind) & self.tracked
        joint = self._hung_standing(number, context, kits, arm, floor - own, cap - own)
        for mask, hung in joint.items():
            if mask & bit:
                continue
            fresh: list[Row] = [
                (_clamped(base + label, own, floor), (number, how, nodes))
                for label, nodes in hung
                if own + leverage(label) <= cap
            ]
            if fresh:
                kinds = (mask | bit) & telling
                rows[kinds] = unbeaten([*rows.get(kinds, ()), *fresh], GUARDS)

    def _hung_standing(
        self, number: int, context: int, kits: Kits, arm: int, floor: int, cap: int
    ) -> dict[int, list[Joint]]:
        it = self.tree.candidates[number]
        joint: dict[int, list[Joint]] = {0: [(0, ())]}
        if not it.sockets:
            return joint
        below = self.below(number, context)
        bounds = [
            self.swing(socket, arm + rise)
            for socket, rise in zip(it.sockets, it.rises, strict=True)
        ]
        least, most = sum(low for low, _ in bounds), sum(high for _, high in bounds)
        if least > cap:
            return {}
        for socket, rise, (low, high) in zip(it.sockets, it.rises, bounds, strict=True):
            enough = min(floor - (most - high), high)  # raised so, the sum stays within floor
            front = self.standing(socket, below, kits, arm + rise, enough, cap - (least - low))
            joint = crossed(joint, front)
            if not joint:
                break
        return joint

    # -- how far leverage can range --------------------------------------------------

    def swing(self, socket: int, arm: int) -> tuple[int, int]:
        """Return the least and the most leverage of anything standing in a class."""
        if not self.worth_filling(socket):
            return 0, 0
        light, heavy, low, high = self._extent(socket)
        ends = (light * arm, heavy * arm)
        least, most = low + min(ends), high + max(ends)
        if not self.tree.sockets[socket].required:
            return min(0, least), max(0, most)
        return least, most

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


def leverage(label: int) -> int:
    """Return the leverage field of a label."""
    field = label & (_LEVERAGE << 1 | 1)
    return field - (1 << 49) if field >> 48 else field


def _clamped(label: int, own: int, floor: int) -> int:
    hung = leverage(label)
    return label - hung + max(hung + own, floor)


def _beaten(label: int, rows: list[Row]) -> bool:
    reach = label + GUARDS
    return any((reach - other) & GUARDS == GUARDS for other, _ in rows)

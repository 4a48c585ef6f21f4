"""One query as plain data for any solver: pieces, who may stand where, and the limits.

Every solver is given the same problem. It holds only what could be part of an answer: what
can be reached from the body of the lamp, is allowed by the wish, and whose own required
places can be filled. In the reduced form, of pieces that stand and carry alike only those
are kept that no other beats on price, part on its way out, light, ratings, and leverage at
the lowest and at the highest place anything can stand.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from benchmarks.routes.fitting import Case

from wickwright.fit.search.query import Aim

if TYPE_CHECKING:
    from collections.abc import Mapping

    from benchmarks.routes.fitting import Fitting, Slot

    from wickwright.fit.search.query import Query

__all__ = ["PER_BOUGHT", "PER_DYING", "Piece", "Place", "Problem", "front_of", "problem_of"]

PER_BOUGHT = 300
"""What one more part to be bought weighs, in the smallest coin."""

PER_DYING = 500
"""What one more part on its way out weighs, in the smallest coin."""

_PLENTY = (1 << 30,) * 4


@dataclass(frozen=True, slots=True)
class Place:
    """A place on a piece: who may stand there."""

    fits: frozenset[int]
    required: bool
    rise: int


@dataclass(frozen=True, slots=True)
class Piece:
    """A part as a solver sees it; everything in whole numbers.

    Attributes
    ----------
    number : int
        Candidate number in the book.
    kind : int
        At most one of a kind.
    price : int or None
        None when it cannot be bought.
    owned : bool
        In hand.
    dying, light : int
        1 when on its way out; light points.
    places : tuple of Place
        What it carries.
    demands, gives : tuple of int
        Heat and chimney height asked for, already for the place; what it stands. A bell hangs
        beside the burner, but no lamp has two burners, so its heat is asked for alike.
    brings : tuple of int
        Pieces that come with it.
    mass, centre : int
        Of itself.
    loads : tuple of (int, int)
        Masses and heights of which the worst counts.
    pivot : int or None
        For a base that can tip.
    """

    number: int
    kind: int
    price: int | None
    owned: bool
    dying: int
    light: int
    places: tuple[Place, ...]
    demands: tuple[int, ...]
    gives: tuple[int, ...]
    brings: tuple[int, ...]
    mass: int
    centre: int
    loads: tuple[tuple[int, int], ...]
    pivot: int | None


@dataclass(frozen=True, slots=True)
class Problem:
    """A query for a solver.

    Attributes
    ----------
    pieces : mapping of int to Piece
        By candidate number.
    roots : frozenset of int
        Of which one is the root.
    required : frozenset of int
        Kinds that must be there.
    light : int or None
        Least light points, where asked for.
    by_class : bool
        Whether what stands alike is tied to what carries alike by one literal for each class,
        as our own search has it, or each part to each part, as one would write it at first.
    """

    pieces: Mapping[int, Piece]
    roots: frozenset[int]
    required: frozenset[int]
    light: int | None
    by_class: bool = False


def problem_of(book: Fitting, query: Query, *, reduced: bool) -> Problem:
    """Turn a query into a problem for any solver.

    Parameters
    ----------
    book : Fitting
        The book, part by part.
    query : Query
        A plain query: every joint, heat, draft and balance insisted on.
    reduced : bool
        Whether pieces that another beats in every respect are left out.

    Returns
    -------
    Problem
        Small, and the same for every solver.
    """
    builder = _Builder(book, query)
    keep = builder.reachable()
    if reduced:
        keep = builder.fillable(builder.unbeaten(keep))
    pieces = {number: builder.piece(number, keep) for number in sorted(keep)}
    shortfall = query.most.get(Aim.SHORTFALL)
    return Problem(
        pieces=pieces,
        roots=book.bases & keep,
        required=builder.required,
        light=None if shortfall is None else -shortfall,
    )


class _Builder:
    def __init__(self, book: Fitting, query: Query) -> None:
        self.book, self.query, self.parts = book, query, book.parts
        case = Case(book, query)
        self.asked, self.required, self.lit = case.asked, case.required, case.lit
        self.wanted = case.required | case.lit
        self.owned = {number for number in query.owned if query.usable[number]}
        self.to_be_had = {
            number
            for number in range(len(self.parts))
            if query.buyable[number] or number in self.owned
        }
        for number in list(self.to_be_had):
            brought = self.parts[number].brings if query.buyable[number] else ()
            self.to_be_had.update(one for one in brought if query.usable[one])
        self._fits: dict[tuple[int, bool], frozenset[int]] = {}
        self._left: dict[tuple[int, bool], frozenset[int]] = {}

    def fits(self, slot: Slot) -> frozenset[int]:
        """Who may stand in a place; nobody where filling it serves nothing."""
        key = (id(slot.fits), slot.required)
        found = self._fits.get(key)
        if found is None:
            serves = slot.required or slot.reach & self.wanted
            found = slot.fits & self.to_be_had if serves else frozenset()
            self._fits[key] = found
        return found

    def reachable(self) -> set[int]:
        """What hangs together with the root and can itself be completed."""
        found = set(self.book.bases & self.to_be_had)
        todo = list(found)
        while todo:
            for slot in self.book.slots[todo.pop()]:
                fresh = self.fits(slot) - found
                found |= fresh
                todo.extend(fresh)
        return self.fillable(self._bearing(found))

    def _bearing(self, found: set[int]) -> set[int]:
        """Leave out what not even the mildest burner would spare."""
        asked = [self.asked(number) for number in found if self.parts[number].demands]
        if not asked:
            return found
        mildest = tuple(min(entry) for entry in zip(*asked, strict=True))
        return {
            number
            for number in found
            if all(have >= want for have, want in zip(self.gives(number), mildest, strict=True))
        }

    def fillable(self, keep: set[int]) -> set[int]:
        """Leave out, again and again, what has a required place that nothing can fill."""
        kept = set(keep)
        while True:
            gone = {number for number in kept if not self._completed(number, kept)}
            if not gone:
                return kept
            kept -= gone

    def _completed(self, number: int, kept: set[int]) -> bool:
        return all(
            not slot.required or not self.fits(slot).isdisjoint(kept)
            for slot in self.book.slots[number]
        )

    # -- reduction ---------------------------------------------------------------------

    def unbeaten(self, keep: set[int]) -> set[int]:
        """Of bought pieces that stand and carry alike keep those no other beats."""
        stands: dict[int, list[tuple[int, bool]]] = defaultdict(list)
        for number in keep:
            for slot in self.book.slots[number]:
                self.fits(slot)
        for at, fits in self._fits.items():
            for number in fits & keep:
                stands[number].append(at)
        alike: dict[tuple[object, ...], list[int]] = defaultdict(list)
        brought = {one for at in keep for one in self.parts[at].brings}
        kept = keep & (self.owned | brought)
        for number in keep - kept:
            it = self.parts[number]
            slots = tuple((id(slot.fits), slot.required) for slot in self.book.slots[number])
            key = (it.kind, tuple(stands[number]), slots, it.rises, it.demands, it.brings)
            alike[key].append(number)
        for numbers in alike.values():
            kept.update(front_of({number: self._costs(number) for number in numbers}))
        return kept

    def _costs(self, number: int) -> tuple[int, ...]:
        it = self.parts[number]
        low, high = self._heights
        light = it.bonus if self.lit else 0
        balance: tuple[int, ...] = ()
        if self.query.pivots:
            loads = [(load.mass, load.centre) for load in it.loads] or [(0, 0)]
            balance = tuple(
                it.mass * (arm + it.centre) + mass * (arm + centre)
                for arm in (low, high)
                for mass, centre in loads
            )
        return (it.price, it.dying, -light, *balance, *(-given for given in self.gives(number)))

    @cached_property
    def _heights(self) -> tuple[int, int]:
        """The lowest and the highest place above its pivot that anything can stand."""
        pivots = self.query.pivots.values()
        tallest = 4 * max((max(it.rises, default=0) for it in self.parts), default=0)
        return -max(pivots, default=0), tallest

    # -- pieces ------------------------------------------------------------------------

    def gives(self, number: int) -> tuple[int, ...]:
        """What a piece stands; what is not known counts for nothing unless all is let in."""
        unknown = 0
        own = self.parts[number].gives
        heat, height, _, beside = (unknown if given < 0 else given for given in own or _PLENTY)
        return min(heat, beside), height

    def _left_in(self, slot: Slot, keep: set[int]) -> frozenset[int]:
        key = (id(slot.fits), slot.required)
        found = self._left.get(key)
        if found is None:
            found = self._left[key] = self.fits(slot) & keep
        return found

    def piece(self, number: int, keep: set[int]) -> Piece:
        """Make a piece of a part."""
        it, query = self.parts[number], self.query
        brings = it.brings if query.buyable[number] else ()
        loads = () if query.dry else tuple((load.mass, load.centre) for load in it.loads)
        return Piece(
            number=number,
            kind=it.kind,
            price=it.price if query.buyable[number] else None,
            owned=number in self.owned,
            dying=it.dying,
            light=it.bonus,
            places=tuple(
                Place(self._left_in(slot, keep), slot.required, slot.rise)
                for slot in self.book.slots[number]
            ),
            demands=self.asked(number) if it.demands else (),
            gives=self.gives(number),
            brings=tuple(one for one in brings if one in keep),
            mass=it.mass,
            centre=it.centre,
            loads=loads,
            pivot=query.pivots.get(number),
        )


def front_of(costs: Mapping[int, tuple[int, ...]]) -> list[int]:
    """Return the numbers whose costs no other's beat; the first of equals.

    Parameters
    ----------
    costs : mapping of int to tuple of int
        All to be made small.

    Returns
    -------
    list of int
        The cheapest first.
    """
    kept: list[int] = []
    for number in sorted(costs, key=lambda at: (costs[at], at)):
        mine = costs[number]
        if not any(all(a <= b for a, b in zip(costs[other], mine, strict=True)) for other in kept):
            kept.append(number)
    return kept

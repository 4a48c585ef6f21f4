"""A problem as clauses, at-most-ones and weights: what every solver is told, each in its way.

Literals are whole numbers, negative when denied. Joints are written part by part, or with one
literal for each class of parts that stand or carry alike, as the problem says.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from itertools import combinations, pairwise
from typing import TYPE_CHECKING

from benchmarks.routes.problem import PER_BOUGHT, PER_DYING

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Sequence

    from benchmarks.routes.problem import Piece, Problem

__all__ = ["Clauses", "clauses_of"]

_Class = tuple[int, frozenset[int]]
"""The kind that carries, and who fits there."""


@dataclass
class Clauses:
    """Clauses over numbered literals.

    Attributes
    ----------
    count : int
        Literals in use.
    clauses : list of list of int
        Of each at least one holds.
    at_most_one : list of list of int
        Of each at most one holds.
    costs : list of (int, int)
        Literal and what it costs when it holds.
    lights : list of (int, int)
        Literal and light points, by piece.
    present, bought : dict of int to int
        Literal of each piece.
    stands : dict of (int, int) to int
        Literal of a piece standing on a kind.
    """

    count: int = 0
    clauses: list[list[int]] = field(default_factory=list)
    at_most_one: list[list[int]] = field(default_factory=list)
    costs: list[tuple[int, int]] = field(default_factory=list)
    lights: list[tuple[int, int]] = field(default_factory=list)
    present: dict[int, int] = field(default_factory=dict)
    bought: dict[int, int] = field(default_factory=dict)
    stands: dict[tuple[int, int], int] = field(default_factory=dict)

    def new(self) -> int:
        """Return a fresh literal."""
        self.count += 1
        return self.count

    def any_of(self, literals: Iterable[int]) -> None:
        """Ask that one of the literals holds."""
        self.clauses.append(list(literals))

    def one_at_most(self, literals: Sequence[int]) -> None:
        """Ask that not two of the literals hold."""
        if len(literals) > 1:
            self.at_most_one.append(list(literals))


def clauses_of(problem: Problem) -> Clauses:
    """Write a problem as clauses, without its balance and its light.

    Parameters
    ----------
    problem : Problem
        The problem.

    Returns
    -------
    Clauses
        Complete but for balance, which is a sum of products, and light, which is a sum.
    """
    writer = _Writer(problem)
    writer.pieces()
    writer.kinds()
    writer.standing()
    writer.filling()
    writer.demands()
    writer.buying()
    return writer.out


class _Writer:
    def __init__(self, problem: Problem) -> None:
        self.problem, self.pieces_of = problem, problem.pieces
        self.out = Clauses()
        self.carriers: defaultdict[_Class, list[int]] = defaultdict(list)
        self.must: defaultdict[_Class, list[int]] = defaultdict(list)
        for number, piece in self.pieces_of.items():
            for place in piece.places:
                if place.fits or place.required:
                    self.carriers[piece.kind, place.fits].append(number)
                if place.required:
                    self.must[piece.kind, place.fits].append(number)
        self.classes: defaultdict[tuple[int, int], list[_Class]] = defaultdict(list)
        for at in self.carriers:
            for number in at[1]:
                self.classes[number, at[0]].append(at)
        self._filled: dict[_Class, int] = {}

    def pieces(self) -> None:
        """One literal for each piece, and one for each kind it may stand on if several."""
        out = self.out
        for number in self.pieces_of:
            out.present[number] = out.new()
        below: defaultdict[int, list[int]] = defaultdict(list)
        for number, kind in self.classes:
            below[number].append(kind)
        nowhere = self.pieces_of.keys() - below.keys() - self.problem.roots
        out.clauses += [[-out.present[number]] for number in nowhere]
        for number, kinds in below.items():
            here = out.present[number]
            if len(kinds) == 1:
                out.stands[number, kinds[0]] = here
                continue
            literals = [out.new() for _ in kinds]
            out.stands.update(((number, k), it) for k, it in zip(kinds, literals, strict=True))
            out.any_of([-here, *literals])
            out.one_at_most(literals)
            out.clauses += [[-it, here] for it in literals]

    def kinds(self) -> None:
        """At most one of a kind, one root, and every kind that must be there."""
        out = self.out
        by_kind: defaultdict[int, list[int]] = defaultdict(list)
        for number, piece in self.pieces_of.items():
            by_kind[piece.kind].append(out.present[number])
        for literals in by_kind.values():
            out.one_at_most(literals)
        for kind in self.problem.required:
            out.any_of(by_kind[kind])
        out.any_of(out.present[number] for number in self.problem.roots)

    def standing(self) -> None:
        """Whatever stands, stands on something it fits."""
        out = self.out
        alike: defaultdict[tuple[_Class, ...], list[int]] = defaultdict(list)
        for (number, kind), classes in self.classes.items():
            alike[tuple(classes)].append(out.stands[number, kind])
        for of_all, literals in alike.items():
            parents = {out.present[p] for at in of_all for p in self.carriers[at]}
            if len(literals) == 1 or len(parents) == 1 or not self.problem.by_class:
                out.clauses += [[-it, *parents] for it in literals]
            else:
                carried = out.new()
                out.any_of([-carried, *parents])
                out.clauses += [[-it, carried] for it in literals]

    def filled(self, at: _Class) -> int:
        """Return a literal that holds only when one of a class stands on its kind."""
        found = self._filled.get(at)
        if found is None:
            found = self._filled[at] = self.out.new()
            kind, fits = at
            self.out.any_of([-found, *(self.out.stands[one, kind] for one in fits)])
        return found

    def filling(self) -> None:
        """Required places are filled, others only for what is asked; one piece to a place."""
        out = self.out
        for at, parents in self.must.items():
            kind, fits = at
            fillers = [self.filled(at)] if self.problem.by_class else []
            fillers = fillers or [out.stands[one, kind] for one in fits]
            out.clauses += [[-out.present[parent], *fillers] for parent in parents]
        if self.problem.light is None:
            for (number, kind), classes in self.classes.items():
                if all(at not in self.must for at in classes):
                    self._useful(number, out.stands[number, kind])
        for kind, fits in self.carriers:
            kinds = {self.pieces_of[number].kind for number in fits}
            for one, other in combinations(sorted(kinds), 2):
                self._apart(kind, fits, one, other)

    def _useful(self, number: int, stands: int) -> None:
        piece = self.pieces_of[number]
        if piece.kind not in self.problem.required:
            places = [place for place in piece.places if place.fits]
            self.out.any_of([-stands, *(self.filled((piece.kind, p.fits)) for p in places)])

    def _apart(self, kind: int, fits: Collection[int], one: int, other: int) -> None:
        """Keep pieces of two kinds from standing in the same place."""
        out, which = self.out, self.out.new()
        for number in fits:
            if self.pieces_of[number].kind in (one, other):
                sign = 1 if self.pieces_of[number].kind == one else -1
                out.any_of([-out.stands[number, kind], sign * which])

    def demands(self) -> None:
        """Nothing stands over a burner that asks more than it gives."""
        for entry in range(2):
            asking = {
                number: piece.demands[entry]
                for number, piece in self.pieces_of.items()
                if len(piece.demands) > entry and piece.demands[entry] > 0
            }
            levels = sorted(set(asking.values()))
            if levels:
                self._levels(entry, asking, levels)

    def _levels(self, entry: int, asking: dict[int, int], levels: list[int]) -> None:
        out = self.out
        asked = [out.new() for _ in levels]
        for lower, upper in pairwise(asked):
            out.any_of([-upper, lower])
        at_level = dict(zip(levels, asked, strict=True))
        out.clauses += [[-out.present[n], at_level[asks]] for n, asks in asking.items()]
        for number, piece in self.pieces_of.items():
            if len(piece.gives) > entry:
                beyond = next((level for level in levels if level > piece.gives[entry]), None)
                if beyond is not None:
                    out.any_of([-out.present[number], -at_level[beyond]])

    def buying(self) -> None:
        """What is not in hand is bought, or comes with something bought."""
        out = self.out
        bringers: defaultdict[int, list[int]] = defaultdict(list)
        for number, piece in self.pieces_of.items():
            if piece.price is not None and (not piece.owned or piece.brings):
                out.bought[number] = out.new()
                out.any_of([-out.bought[number], out.present[number]])
                out.costs.append((out.bought[number], piece.price + PER_BOUGHT))
            for one in piece.brings:
                bringers[one].append(number)
        for number, piece in self.pieces_of.items():
            self._had(number, piece, bringers[number])

    def _had(self, number: int, piece: Piece, bringers: list[int]) -> None:
        out, here = self.out, self.out.present[number]
        if not piece.owned:
            ways = [number, *bringers]
            out.any_of([-here, *(out.bought[way] for way in ways if way in out.bought)])
        if piece.dying:
            out.costs.append((here, PER_DYING))
        if piece.light and self.problem.light is not None:
            out.lights.append((here, piece.light))

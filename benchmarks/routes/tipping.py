"""Balance for solvers that cannot multiply: weigh an answer, and forbid all that tip like it."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from benchmarks.routes.clauses import Clauses
    from benchmarks.routes.problem import Piece, Problem

__all__ = ["Scales", "Seat"]


@dataclass(frozen=True, slots=True)
class Seat:
    """A piece in its place.

    Attributes
    ----------
    piece : Piece
        What stands.
    on : int or None
        The kind it stands on.
    arm : int
        Height of its foot above the pivot.
    """

    piece: Piece
    on: int | None
    arm: int


@dataclass
class Scales:
    """Weighs the answers of a solver.

    Attributes
    ----------
    problem : Problem
        The problem.
    clauses : Clauses
        Its literals.
    """

    problem: Problem
    clauses: Clauses
    _least: dict[tuple[frozenset[int], int, bool], int] = field(default_factory=dict)

    def nogoods(self, true: set[int]) -> list[list[int]]:
        """Return clauses that forbid an answer which tips and others that tip for its reason.

        Parameters
        ----------
        true : set of int
            Literals that hold.

        Returns
        -------
        list of list of int
            Empty when the answer stands.
        """
        seats = self._seats(true)
        if not seats or sum(weight(seat.piece, seat.arm) for seat in seats) <= 0:
            return []
        core = self._core(seats)
        last = max(core[1:], key=lambda seat: weight(seat.piece, seat.arm), default=core[0])
        rest = [-self._literal(seat) for seat in core if seat is not last]
        return [[*rest, -literal] for literal in self._as_bad(last, core)]

    def _seats(self, true: set[int]) -> list[Seat]:
        """Where everything stands; nothing when it cannot tip."""
        out = self.clauses
        here = {n: p for n, p in self.problem.pieces.items() if out.present[n] in true}
        root = next(here[n] for n in self.problem.roots if n in here)
        if root.pivot is None:
            return []
        seats = [Seat(root, None, -root.pivot)]
        for seat in seats:
            for place in seat.piece.places:
                for number in place.fits & here.keys():
                    if out.stands[number, seat.piece.kind] in true:
                        seats.append(Seat(here[number], seat.piece.kind, seat.arm + place.rise))
        return seats

    def _literal(self, seat: Seat) -> int:
        if seat.on is None:
            return self.clauses.present[seat.piece.number]
        return self.clauses.stands[seat.piece.number, seat.on]

    def _core(self, seats: list[Seat]) -> list[Seat]:
        """Leave out pieces without which it would tip all the same."""
        core = list(seats)
        leaves = [s for s in seats[1:] if not any(place.fits for place in s.piece.places)]
        for leaf in sorted(leaves, key=lambda seat: abs(weight(seat.piece, seat.arm))):
            fewer = [seat for seat in core if seat is not leaf]
            if self._at_least(fewer) > 0:
                core = fewer
        return core

    def _at_least(self, core: list[Seat]) -> int:
        """The least leverage of any answer that holds these pieces."""
        kinds = {(seat.on, seat.piece.kind) for seat in core}
        total = 0
        for seat in core:
            total += weight(seat.piece, seat.arm)
            for place in seat.piece.places:
                taken = {self.problem.pieces[n].kind for n in place.fits}
                if not any((seat.piece.kind, kind) in kinds for kind in taken):
                    total += self._least_in(place.fits, place.required, seat.arm + place.rise)
        return total

    def _least_in(self, fits: frozenset[int], required: bool, arm: int) -> int:  # noqa: FBT001
        key = (fits, arm, required)
        found = self._least.get(key)
        if found is None:
            options = [self._least_of(self.problem.pieces[number], arm) for number in fits]
            found = self._least[key] = min(options if required else [0, *options], default=0)
        return found

    def _least_of(self, piece: Piece, arm: int) -> int:
        return weight(piece, arm) + sum(
            self._least_in(place.fits, place.required, arm + place.rise) for place in piece.places
        )

    def _as_bad(self, last: Seat, core: list[Seat]) -> list[int]:
        """Literals of all that could stand where the last piece stands and tip it too."""
        others = [seat for seat in core if seat is not last]
        if last.on is None or any(place.fits for place in last.piece.places):
            return [self._literal(last)]
        spare = self._at_least([*others, last]) - weight(last.piece, last.arm)
        fits = next(
            place.fits
            for seat in others
            if seat.piece.kind == last.on
            for place in seat.piece.places
            if last.piece.number in place.fits
        )
        pieces = (self.problem.pieces[number] for number in fits)
        return [
            self.clauses.stands[piece.number, last.on]
            for piece in pieces
            if piece.kind == last.piece.kind and spare + weight(piece, last.arm) > 0
        ]


def weight(piece: Piece, arm: int) -> int:
    """Return what a piece adds to the leverage, its worst load included."""
    own = piece.mass * (arm + piece.centre)
    return own + max((mass * (arm + centre) for mass, centre in piece.loads), default=0)

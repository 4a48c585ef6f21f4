"""The problem put to OR-tools CP-SAT, with balance as cuts or as products."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from benchmarks.routes.clauses import clauses_of
from benchmarks.routes.peer import Best
from benchmarks.routes.tipping import Scales

if TYPE_CHECKING:
    from benchmarks.routes.clauses import Clauses
    from benchmarks.routes.problem import Problem
    from ortools.sat.python import cp_model

__all__ = ["cpsat_cuts", "cpsat_products"]

_FAR = 1 << 17
"""No foot stands higher, and no pivot [0.1 mm]."""


def cpsat_cuts(problem: Problem) -> Best:
    """Solve with balance as cuts: solve, weigh, forbid what tips, solve again."""
    return _solved(problem, products=False)


def cpsat_products(problem: Problem) -> Best:
    """Solve with balance written out: mass times height for every kind."""
    return _solved(problem, products=True)


def _solved(problem: Problem, *, products: bool) -> Best:
    from ortools.sat.python import cp_model  # noqa: PLC0415 - only where it is asked

    out = clauses_of(problem)
    if [] in out.clauses:
        return Best(None, 0)
    model, literals = _model(problem, out)
    if products:
        _Products(problem, out, model, literals).write()
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    scales = Scales(problem, out)
    for rounds in range(1, 100_000):
        status = solver.solve(model)
        if status == cp_model.INFEASIBLE:
            return Best(None, rounds)
        true = {at for at in range(1, out.count + 1) if solver.value(literals[at])}
        nogoods = [] if products else scales.nogoods(true)
        if not nogoods:
            return Best(round(solver.objective_value), rounds)
        for clause in nogoods:
            model.add_bool_or([_signed(literals, it) for it in clause])
    msg = "more cuts than any problem of this size needs"
    raise RuntimeError(msg)


def _signed(literals: list[cp_model.IntVar], literal: int) -> cp_model.LiteralT:
    return literals[literal] if literal > 0 else ~literals[-literal]


def _model(problem: Problem, out: Clauses) -> tuple[cp_model.CpModel, list[cp_model.IntVar]]:
    from ortools.sat.python import cp_model  # noqa: PLC0415 - only where it is asked

    model = cp_model.CpModel()
    literals = [model.new_bool_var("") for _ in range(out.count + 1)]
    for clause in out.clauses:
        model.add_bool_or([_signed(literals, it) for it in clause])
    for group in out.at_most_one:
        model.add_at_most_one([literals[it] for it in group])
    if problem.light is not None:
        model.add(_sum(literals, out.lights) >= problem.light)
    model.minimize(_sum(literals, out.costs))
    return model, literals


def _sum(literals: list[cp_model.IntVar], terms: list[tuple[int, int]]) -> cp_model.LinearExprT:
    from ortools.sat.python import cp_model  # noqa: PLC0415 - only where it is asked

    return cp_model.LinearExpr.weighted_sum(
        [literals[it] for it, _ in terms], [factor for _, factor in terms]
    )


class _Products:
    """Writes the balance: every kind has a height, a mass and a moment."""

    def __init__(
        self,
        problem: Problem,
        out: Clauses,
        model: cp_model.CpModel,
        literals: list[cp_model.IntVar],
    ) -> None:
        self.problem, self.out, self.model, self.literals = problem, out, model, literals
        self.by_kind: defaultdict[int, list[int]] = defaultdict(list)
        for number, piece in problem.pieces.items():
            self.by_kind[piece.kind].append(number)

    def write(self) -> None:
        """Add arms, products and the limit."""
        pieces = self.problem.pieces
        if not any(pieces[number].pivot for number in self.problem.roots):
            return
        arms = self._arms()
        loads = max((len(piece.loads) for piece in pieces.values()), default=0)
        for load in range(max(1, loads)):
            total = sum(self._leverage(kind, arm, load) for kind, arm in arms.items())
            limited = self.model.add(total <= 0)
            fixed = [n for n in self.problem.roots if pieces[n].pivot is None]
            limited.only_enforce_if([~self.literals[self.out.present[n]] for n in fixed])

    def _arms(self) -> dict[int, cp_model.IntVar]:
        """Height of each kind's foot above the pivot; that of the root is minus the pivot."""
        pieces, model = self.problem.pieces, self.model
        arms = {kind: model.new_int_var(-_FAR, _FAR, "") for kind in self.by_kind}
        for number in self.problem.roots:
            literal = self.literals[self.out.present[number]]
            below = -(pieces[number].pivot or 0)
            model.add(arms[pieces[number].kind] == below).only_enforce_if(literal)
        for (number, kind), literal_at in self.out.stands.items():
            rise = self._rise(kind, pieces[number].kind)
            up = arms[pieces[number].kind] == arms[kind] + rise
            model.add(up).only_enforce_if(self.literals[literal_at])
        return arms

    def _rise(self, below: int, kind: int) -> cp_model.LinearExprT:
        """How high a kind stands on another, whichever piece of that it is."""
        pieces = self.problem.pieces
        terms = [
            (self.out.present[number], place.rise)
            for number in self.by_kind[below]
            for place in pieces[number].places
            if any(pieces[one].kind == kind for one in place.fits)
        ]
        return _sum(self.literals, terms)

    def _leverage(self, kind: int, arm: cp_model.IntVar, load: int) -> cp_model.LinearExprT:
        pieces, model = self.problem.pieces, self.model
        masses: list[tuple[int, int]] = []
        moments: list[tuple[int, int]] = []
        for number in self.by_kind[kind]:
            piece = pieces[number]
            more = piece.loads[load] if piece.loads else (0, 0)
            literal = self.out.present[number]
            masses.append((literal, piece.mass + more[0]))
            moments.append((literal, piece.mass * piece.centre + more[0] * more[1]))
        most = max(mass for _, mass in masses)
        mass = model.new_int_var(0, most, "")
        model.add(mass == _sum(self.literals, masses))
        product = model.new_int_var(-most * _FAR, most * _FAR, "")
        model.add_multiplication_equality(product, [mass, arm])
        return product + _sum(self.literals, moments)

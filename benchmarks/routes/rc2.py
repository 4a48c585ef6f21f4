"""The problem put to RC2, a core-guided MaxSAT solver, with balance as cuts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmarks.routes.clauses import clauses_of
from benchmarks.routes.peer import Best
from benchmarks.routes.tipping import Scales

if TYPE_CHECKING:
    from benchmarks.routes.clauses import Clauses
    from benchmarks.routes.problem import Problem
    from pysat.formula import WCNF

__all__ = ["rc2"]


def rc2(problem: Problem) -> Best:
    """Solve with balance as cuts: solve, weigh, forbid what tips, solve again.

    The solver starts afresh after each cut, because it hardens what the cheapest answer so
    far rules out, and a cut may make that answer impossible.
    """
    from pysat.examples.rc2 import RC2Stratified  # noqa: PLC0415 - only where it is asked

    out = clauses_of(problem)
    if [] in out.clauses:
        return Best(None, 0)
    if problem.light is not None:
        _light(problem, out, problem.light)
    formula = _formula(out)
    scales = Scales(problem, out)
    for rounds in range(1, 100_000):
        with RC2Stratified(formula, solver="g4", adapt=True) as solver:
            model = solver.compute()
            cost: int = solver.cost
        if model is None:
            return Best(None, rounds)
        nogoods = scales.nogoods({literal for literal in model if literal > 0})
        if not nogoods:
            return Best(cost, rounds)
        formula.extend(nogoods)
    msg = "more cuts than any problem of this size needs"
    raise RuntimeError(msg)


def _formula(out: Clauses) -> WCNF:
    from pysat.card import CardEnc, EncType  # noqa: PLC0415 - only where it is asked
    from pysat.formula import WCNF  # noqa: PLC0415 - only where it is asked

    formula = WCNF()
    hard = list(out.clauses)
    for group in out.at_most_one:
        kind = EncType.pairwise if len(group) < 6 else EncType.ladder
        coded = CardEnc.atmost(group, bound=1, top_id=out.count, encoding=kind)
        out.count = max(out.count, coded.nv)
        hard += coded.clauses
    always = out.new()  # at least one soft clause, or nothing is solved at all
    costs = [*out.costs, (-always, 1)]
    formula.hard, formula.nv = hard, out.count
    formula.soft = [[-literal] for literal, _ in costs]
    formula.wght = [weight for _, weight in costs]
    formula.topw = sum(formula.wght) + 1
    return formula


def _light(problem: Problem, out: Clauses, least: int) -> None:
    """Ask for light points as clauses: kind by kind, how much is given so far."""
    lights = dict(out.lights)
    kinds = sorted({problem.pieces[n].kind for n, it in out.present.items() if it in lights})
    so_far: dict[int, int] = {0: 0}
    for kind in kinds:
        of_kind = [n for n in out.present if problem.pieces[n].kind == kind]
        so_far = _one_kind_more(problem, out, of_kind, so_far)
    for total, literal in so_far.items():
        if total < least:
            out.any_of([-literal] if literal else [])


def _one_kind_more(
    problem: Problem, out: Clauses, of_kind: list[int], so_far: dict[int, int]
) -> dict[int, int]:
    """Literals that hold when exactly a sum is given; literal 0 always holds."""
    by_light: dict[int, list[int]] = {}
    for number in of_kind:
        by_light.setdefault(problem.pieces[number].light, []).append(out.present[number])
    none = out.new()
    out.any_of([none, *(out.present[number] for number in of_kind)])
    gives = [(0, none)]
    for light, literals in by_light.items():
        given = out.new()
        out.clauses += [[-it, given] for it in literals]
        gives.append((light, given))
    after: dict[int, int] = {}
    for total, before in so_far.items():
        for light, given in gives:
            literal = after.get(total + light) or out.new()
            after[total + light] = literal
            out.any_of([-given, literal] if before == 0 else [-before, -given, literal])
    return after

"""The problem put to clingo, an answer set solver, with balance as cuts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmarks.routes.clauses import clauses_of
from benchmarks.routes.peer import Best
from benchmarks.routes.tipping import Scales

if TYPE_CHECKING:
    import clingo
    from benchmarks.routes.clauses import Clauses
    from benchmarks.routes.problem import Problem

__all__ = ["asp_cores", "asp_descent"]


def asp_cores(problem: Problem) -> Best:
    """Solve upwards from cores."""
    return _solved(problem, "--opt-strategy=usc")


def asp_descent(problem: Problem) -> Best:
    """Solve downwards from answers."""
    return _solved(problem, "--opt-strategy=bb,dec", "--opt-heuristic=sign,model")


def _solved(problem: Problem, *options: str) -> Best:
    """Solve, weigh, forbid what tips, solve on."""
    import clingo  # noqa: PLC0415 - only where it is asked

    out = clauses_of(problem)
    if [] in out.clauses:
        return Best(None, 0)
    control = clingo.Control([*options, "--warn=none"])
    _write(problem, out, control)
    scales = Scales(problem, out)
    for rounds in range(1, 100_000):
        cost, true = _best(control, out.count)
        if cost is None:
            return Best(None, rounds)
        nogoods = scales.nogoods(true)
        if not nogoods:
            return Best(cost, rounds)
        with control.backend() as backend:
            for clause in nogoods:
                backend.add_rule([], [-it for it in clause])
    msg = "more cuts than any problem of this size needs"
    raise RuntimeError(msg)


def _write(problem: Problem, out: Clauses, control: clingo.Control) -> None:
    """Free literals and integrity constraints; at most one of a group by a bound on its count."""
    with control.backend() as backend:
        atoms = [backend.add_atom() for _ in range(out.count)]
        assert atoms == list(range(1, out.count + 1)), "literals are numbered as atoms"
        backend.add_rule(atoms, choice=True)
        for clause in out.clauses:
            backend.add_rule([], [-it for it in clause])
        for group in out.at_most_one:
            backend.add_weight_rule([], 2, [(it, 1) for it in group])
        if problem.light is not None:
            _light(out, backend, problem.light)
        backend.add_minimize(0, out.costs)


def _light(out: Clauses, backend: clingo.Backend, least: int) -> None:
    """Forbid less than the light asked for; a negative weight counts when its literal fails."""
    bound = least - sum(light for _, light in out.lights if light < 0)
    body = [(it, light) if light > 0 else (-it, -light) for it, light in out.lights]
    enough = backend.add_atom()
    backend.add_weight_rule([enough], bound, body)
    backend.add_rule([], [-enough])


def _best(control: clingo.Control, count: int) -> tuple[int | None, set[int]]:
    cost: int | None = None
    true: set[int] = set()
    with control.solve(yield_=True) as handle:
        for model in handle:
            cost = model.cost[0] if model.cost else 0
            true = {at for at in range(1, count + 1) if model.is_true(at)}
    return cost, true

"""A judge for books of any size: the whole front by clingo, one unbeaten way after another.

The cheapest way by a weighted sum is unbeaten. Everything it beats or equals is forbidden and
the next one is sought, until there is none. Balance enters as cuts.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmarks.routes.clauses import clauses_of
from benchmarks.routes.tipping import Scales

if TYPE_CHECKING:
    from collections.abc import Iterable

    import clingo
    from benchmarks.routes.clauses import Clauses
    from benchmarks.routes.fitting import Costs
    from benchmarks.routes.problem import Problem

__all__ = ["front_by_clingo"]

Terms = list[tuple[int, int]]
"""Literals and what each adds."""


def front_by_clingo(problem: Problem) -> set[Costs]:
    """Return the costs of all unbeaten ways.

    Parameters
    ----------
    problem : Problem
        With every candidate, not reduced.

    Returns
    -------
    set of tuple of int
        Price, bought, dying and minus the light.
    """
    out = clauses_of(problem)
    if [] in out.clauses:
        return set()
    return _Front(problem, out).found()


class _Front:
    def __init__(self, problem: Problem, out: Clauses) -> None:
        import clingo  # noqa: PLC0415 - only where it is asked

        self.problem, self.out = problem, out
        self.scales = Scales(problem, out)
        options = ("--opt-strategy=bb,dec", "--opt-heuristic=sign,model", "--warn=none")
        self.control = clingo.Control(list(options))
        self.aims = self._aims()
        self._write()

    def _aims(self) -> list[Terms]:
        """Price, bought, dying and, where light is asked for, light with its sign turned."""
        pieces, out = self.problem.pieces, self.out
        bought = out.bought.items()
        aims: list[Terms] = [
            [(literal, pieces[number].price or 0) for number, literal in bought],
            [(literal, 1) for _, literal in bought],
            [(literal, 1) for number, literal in out.present.items() if pieces[number].dying],
        ]
        if self.problem.light is not None:
            aims.append([(literal, -light) for literal, light in out.lights])
        return aims

    def _write(self) -> None:
        out = self.out
        with self.control.backend() as backend:
            atoms = [backend.add_atom() for _ in range(out.count)]
            assert atoms == list(range(1, out.count + 1)), "literals are numbered as atoms"
            backend.add_rule(atoms, choice=True)
            for clause in out.clauses:
                backend.add_rule([], [-it for it in clause])
            for group in out.at_most_one:
                backend.add_weight_rule([], 2, [(it, 1) for it in group])
            if self.problem.light is not None:
                enough = self._at_most(backend, self.aims[3], -self.problem.light)
                backend.add_rule([], [-enough])
            backend.add_minimize(0, [term for aim in self.aims for term in aim])

    def _at_most(self, backend: clingo.Backend, terms: Terms, most: int) -> int:
        """Return an atom that holds when a sum is at most so much."""
        too_much = backend.add_atom()
        lowest = sum(weight for _, weight in terms if weight < 0)
        body = [(it, w) if w > 0 else (-it, -w) for it, w in terms if w]
        backend.add_weight_rule([too_much], max(0, most + 1 - lowest), body)
        return -too_much

    def found(self) -> set[Costs]:
        """Collect unbeaten ways until none is left."""
        front: set[Costs] = set()
        while (true := self._next()) is not None:
            costs = [sum(weight for it, weight in aim if it in true) for aim in self.aims]
            with self.control.backend() as backend:
                better = [
                    self._at_most(backend, aim, cost - 1)
                    for aim, cost in zip(self.aims, costs, strict=True)
                ]
                backend.add_rule([], [-it for it in better])
            costs += [0] * (4 - len(costs))
            front.add((costs[0], costs[1], costs[2], costs[3]))
        return front

    def _next(self) -> set[int] | None:
        """Return the best way left that stands."""
        while True:
            true = self._best()
            nogoods = self.scales.nogoods(true) if true else []
            if not nogoods:
                return true
            self._forbid(nogoods)

    def _best(self) -> set[int] | None:
        true: set[int] | None = None
        with self.control.solve(yield_=True) as handle:
            for model in handle:
                true = {at for at in range(1, self.out.count + 1) if model.is_true(at)}
        return true

    def _forbid(self, nogoods: Iterable[list[int]]) -> None:
        with self.control.backend() as backend:
            for clause in nogoods:
                backend.add_rule([], [-it for it in clause])

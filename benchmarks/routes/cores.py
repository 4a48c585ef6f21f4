"""Why there is no way, by OR-tools CP-SAT: a core of assumptions, shrunk one by one."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from benchmarks.routes.tipping import Scales

from wickwright.fit.request import Claim

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable

    from benchmarks.routes.insisting import Insistence
    from ortools.sat.python import cp_model

__all__ = ["CoreTask", "Cores", "core_of"]

_TIP = Claim("tip")


@dataclass(frozen=True, slots=True)
class CoreTask:
    """A request without a way, and a conflict to be checked.

    Attributes
    ----------
    insistence : Insistence
        The request.
    conflict : tuple of Claim
        Found by our own search.
    """

    insistence: Insistence
    conflict: tuple[Claim, ...]


@dataclass(frozen=True, slots=True)
class Cores:
    """What the solver found.

    Attributes
    ----------
    core, minimal : tuple of Claim
        As the solver gives it, and shrunk so that no member can be spared.
    first, all : float
        Time to the core and to the minimal one, model included [s].
    conflict_holds : bool
        Whether the conflict handed in is one, and none of its members can be spared.
    """

    core: tuple[Claim, ...]
    minimal: tuple[Claim, ...]
    first: float
    all: float
    conflict_holds: bool


def core_of(task: CoreTask) -> Cores:
    """Find a minimal core, and check the conflict handed in by the same solver.

    Parameters
    ----------
    task : CoreTask
        The request.

    Returns
    -------
    Cores
        With times; checking the conflict is not timed.
    """
    from time import perf_counter  # noqa: PLC0415

    start = perf_counter()
    solver = _Assuming(task.insistence)
    core = solver.core(task.insistence.claims)
    first = perf_counter() - start
    if core is None:
        return Cores((), (), first, first, conflict_holds=False)
    minimal = _shrunk(solver, core)
    spent = perf_counter() - start
    holds = solver.core(task.conflict) is not None and all(
        solver.core([one for one in task.conflict if one != spared]) is None
        for spared in task.conflict
    )
    return Cores(core, minimal, first, spent, conflict_holds=holds)


def _shrunk(solver: _Assuming, core: tuple[Claim, ...]) -> tuple[Claim, ...]:
    needed: list[Claim] = []
    rest = list(core)
    while rest:
        spared = rest.pop()
        smaller = solver.core([*needed, *rest])
        if smaller is None:
            needed.append(spared)
        else:
            rest = [one for one in rest if one in smaller]
    return tuple(needed)


class _Assuming:
    """The model, asked under one set of assumptions after another."""

    def __init__(self, given: Insistence) -> None:
        from ortools.sat.python import cp_model  # noqa: PLC0415

        self.given = given
        self.model = cp_model.CpModel()
        self.literals = [self.model.new_bool_var("") for _ in range(given.out.count + 1)]
        for clause in given.out.clauses:
            self._add(clause)
        for group in given.out.at_most_one:
            self.model.add_at_most_one([self.literals[it] for it in group])
        if given.light:
            claim, least = given.light
            lights = sum(light * self.literals[it] for it, light in given.out.lights)
            self.model.add(lights >= least).only_enforce_if(self.literals[claim])
        self.scales = {dry: self._scales(dry=dry) for dry in set(given.dry)}

    def _scales(self, *, dry: bool) -> Scales:
        problem = self.given.problem
        if dry:
            pieces = {n: replace(it, loads=()) for n, it in problem.pieces.items()}
            problem = replace(problem, pieces=pieces)
        return Scales(problem, self.given.out)

    def _add(self, clause: Iterable[int]) -> None:
        signed: list[cp_model.LiteralT] = [
            self.literals[it] if it > 0 else ~self.literals[-it] for it in clause
        ]
        self.model.add_bool_or(signed)

    def core(self, claims: Collection[Claim]) -> tuple[Claim, ...] | None:
        """Return claims of these that cannot all hold; None when all can."""
        from ortools.sat.python import cp_model  # noqa: PLC0415

        by_index = {self.literals[self.given.claims[c]].index: c for c in claims}
        self.model.clear_assumptions()
        self.model.add_assumptions([self.literals[self.given.claims[c]] for c in claims])
        while True:
            solver = cp_model.CpSolver()
            solver.parameters.num_workers = 1
            status = solver.solve(self.model)
            if status == cp_model.INFEASIBLE:
                found = solver.sufficient_assumptions_for_infeasibility()
                return tuple(by_index[at] for at in found if at in by_index)
            nogoods = self._tipping(solver, claims) if _TIP in claims else []
            if not nogoods:
                return None
            for clause in nogoods:
                self._add(clause)

    def _tipping(self, solver: cp_model.CpSolver, claims: Collection[Claim]) -> list[list[int]]:
        given = self.given
        true = {at for at in range(1, given.out.count + 1) if solver.value(self.literals[at])}
        dry, state = given.dry[0], []
        if given.service and given.dry[0] is not given.dry[1]:
            held = given.service in {given.claims[c] for c in claims}
            dry, state = given.dry[held], [-given.service if held else given.service]
        tip = given.claims[_TIP]
        return [[-tip, *state, *clause] for clause in self.scales[dry].nogoods(true)]

"""Why there is no way: our conflict against a core of CP-SAT shrunk to a minimal one."""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import count
from statistics import median
from time import perf_counter
from typing import TYPE_CHECKING

from benchmarks.routes.arena import say
from benchmarks.routes.cores import CoreTask, core_of
from benchmarks.routes.insisting import insistence_of
from benchmarks.routes.referee import Referee

from wickwright.fit.oracle import Oracle

if TYPE_CHECKING:
    from benchmarks.routes.arena import Arena, Asked
    from benchmarks.routes.cores import Cores

    from wickwright.fit.request import Claim

__all__ = ["Explained", "explained"]


@dataclass
class Explained:
    """How explanations compare.

    Attributes
    ----------
    ours, core, minimal : list of float
        Our time, theirs to a core, and theirs to a minimal core [s].
    minimal_ours : int
        Conflicts of ours of which no member could be spared, by our own search.
    confirmed : int
        The same by the solver.
    refuted : list of str
        Conflicts the solver did not confirm.
    times_up : int
        Calls the solver did not finish.
    """

    ours: list[float] = field(default_factory=list)
    core: list[float] = field(default_factory=list)
    minimal: list[float] = field(default_factory=list)
    minimal_ours: int = 0
    confirmed: int = 0
    refuted: list[str] = field(default_factory=list)
    times_up: int = 0

    @property
    def ratio(self) -> float:
        """How many times slower the solver is, by the medians."""
        return median(self.minimal) / median(self.ours)


def explained(arena: Arena, wanted: int, limit: float) -> Explained:
    """Compare on calls that have no way.

    Parameters
    ----------
    arena : Arena
        The book.
    wanted : int
        How many such calls.
    limit : float
        Time the solver has for one [s].

    Returns
    -------
    Explained
        Times and agreements.
    """
    result = Explained()
    referee = Referee(core_of, limit)
    for tried in count():
        if len(result.ours) >= wanted:
            break
        for asked in arena.calls(1, seed=1000 + tried):
            if arena.ours(asked).costs == set() and not Oracle(arena.compiled, asked.now)(
                asked.claims
            ):
                say(f"{arena.size}: no way {len(result.ours) + 1} of {wanted}")
                _explain(arena, asked, referee, result)
    referee.stop()
    return result


def _explain(
    arena: Arena, asked: Asked, referee: Referee[CoreTask, Cores], result: Explained
) -> None:
    start = perf_counter()
    holds = Oracle(arena.compiled, asked.now)
    found: tuple[Claim, ...] = holds.reason(asked.claims)
    result.ours.append(perf_counter() - start)
    fresh = Oracle(arena.compiled, asked.now)
    result.minimal_ours += not fresh(found) and all(
        fresh([one for one in found if one != spared]) for spared in found
    )
    given = insistence_of(arena.compiled, arena.lenient, asked.now, asked.claims)
    timed = referee.ask(CoreTask(given, found))
    theirs = timed.outcome
    result.core.append(theirs.first if theirs else timed.seconds)
    result.minimal.append(theirs.all if theirs else timed.seconds)
    if theirs is None:
        result.times_up += 1
    elif theirs.conflict_holds:
        result.confirmed += 1
    else:
        result.refuted.append(f"{asked.request}: {found}")
        say(f"DISAGREEMENT: {result.refuted[-1]}")

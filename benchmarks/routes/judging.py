"""Independent judges of the whole set of unbeaten ways."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from benchmarks.routes.arena import say
from benchmarks.routes.brute import try_everything
from benchmarks.routes.fitting import Case
from benchmarks.routes.fronts import front_by_clingo
from benchmarks.routes.problem import problem_of
from benchmarks.routes.referee import Referee
from benchmarks.routes.treedp import tree_dp

if TYPE_CHECKING:
    from benchmarks.routes.arena import Arena, Asked
    from benchmarks.routes.fitting import Costs

__all__ = ["JUDGES", "Verdict", "judged"]


def _brute(case: Case) -> set[Costs]:
    return try_everything(case).costs


def _clingo(case: Case) -> set[Costs]:
    return front_by_clingo(problem_of(case.book, case.query, reduced=False))


JUDGES = {"brute force": _brute, "tree DP": tree_dp, "clingo, one by one": _clingo}


@dataclass
class Verdict:
    """How often a judge found the same set as our search.

    Attributes
    ----------
    same, odd, times_up, gave_up : int
        Equal sets, how many of these about a lamp not as it was sold, calls the judge did not
        finish, and calls our search gave up on.
    differ : list of str
        What differed.
    """

    same: int = 0
    odd: int = 0
    times_up: int = 0
    gave_up: int = 0
    differ: list[str] = field(default_factory=list)


def judged(arena: Arena, judge: str, count: int, limit: float) -> Verdict:
    """Compare our search with a judge on calls of their own.

    Parameters
    ----------
    arena : Arena
        The book.
    judge : str
        One of :data:`JUDGES`.
    count : int
        Calls.
    limit : float
        Time the judge has for one [s].

    Returns
    -------
    Verdict
        Who agreed.
    """
    verdict = Verdict()
    referee = Referee(JUDGES[judge], limit)
    for at, asked in enumerate(arena.calls(count, seed=1 + list(JUDGES).index(judge))):
        say(f"{arena.size}: {judge} {at + 1} of {count}, {len(verdict.differ)} differ")
        ours = arena.ours(asked)
        if ours.costs is None:
            verdict.gave_up += 1
            continue
        theirs = referee.ask(Case(arena.fitting, asked.query)).outcome
        _compare(verdict, asked, ours.costs, theirs)
    referee.stop()
    return verdict


def _compare(verdict: Verdict, asked: Asked, ours: set[Costs], theirs: set[Costs] | None) -> None:
    if theirs is None:
        verdict.times_up += 1
    elif theirs == ours:
        verdict.same += 1
        request = asked.request
        verdict.odd += bool(request.have or request.lost or request.bare)
    else:
        text = f"{asked.request}: ours alone {ours - theirs}, the judge's alone {theirs - ours}"
        say(f"DISAGREEMENT: {text}")
        verdict.differ.append(text)

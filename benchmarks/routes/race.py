"""Our search and its peers on the same calls, one after the other on each."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from statistics import median, quantiles
from typing import TYPE_CHECKING

from benchmarks.routes.arena import say
from benchmarks.routes.asp import asp_cores, asp_descent
from benchmarks.routes.cpsat import cpsat_cuts, cpsat_products
from benchmarks.routes.problem import problem_of
from benchmarks.routes.rc2 import rc2
from benchmarks.routes.referee import Referee

if TYPE_CHECKING:
    from collections.abc import Callable

    from benchmarks.routes.arena import Arena, Asked
    from benchmarks.routes.peer import Best
    from benchmarks.routes.problem import Problem

__all__ = ["FORMS", "PEERS", "Race", "Runner", "run_race"]

PEERS: dict[str, Callable[[Problem], Best]] = {
    "RC2": rc2,
    "clingo, cores": asp_cores,
    "clingo, descent": asp_descent,
    "CP-SAT, cuts": cpsat_cuts,
    "CP-SAT, products": cpsat_products,
}

FORMS = {
    "reduced": (True, False),
    "reduced, by class": (True, True),
    "all parts": (False, False),
}
"""Whether candidates are reduced, and whether joints are written by class."""


@dataclass
class Runner:
    """How one peer did with one form of the problem.

    Attributes
    ----------
    seconds : list of float
        Of each call; the limit where time was up.
    times_up, agreed, differed : int
        Calls that took too long, and answers equal to ours and not.
    """

    seconds: list[float] = field(default_factory=list)
    times_up: int = 0
    agreed: int = 0
    differed: int = 0


@dataclass
class Race:
    """Outcome for one size.

    Attributes
    ----------
    cold : list of float
        Our time for the first call to a freshly compiled book [s].
    stream : list of float
        Our time for each call, peers in between.
    warm : list of float
        Our time for the same calls once more, nothing in between.
    ways : list of int
        How many unbeaten ways each call has.
    gave_up : int
        Calls on which our search gave up.
    runners : dict
        By peer and form.
    candidates : tuple of float
        Mean candidates, all and reduced.
    earlier : int
        Other calls answered by ours before.
    """

    cold: list[float] = field(default_factory=list)
    stream: list[float] = field(default_factory=list)
    warm: list[float] = field(default_factory=list)
    ways: list[int] = field(default_factory=list)
    gave_up: int = 0
    runners: dict[tuple[str, str], Runner] = field(default_factory=dict)
    candidates: tuple[float, float] = (0.0, 0.0)
    earlier: int = 0

    def ratio(self, peer: str, form: str) -> float:
        """Return how many times slower a peer is, by the medians in the stream."""
        return median(self.runners[peer, form].seconds) / median(self.stream)

    def warm_ratio(self, peer: str, form: str) -> float:
        """Return the same against our times once more."""
        return median(self.runners[peer, form].seconds) / median(self.warm)

    def slowest(self) -> float:
        """Return our 99th percentile in the stream [s]."""
        return quantiles(self.stream, n=100, method="inclusive")[98]


def run_race(arena: Arena, count: int, limit: float, *, earlier: int, slow: int) -> Race:
    """Run all on the same calls.

    Parameters
    ----------
    arena : Arena
        The book.
    count : int
        Calls.
    limit : float
        Time each peer has for a call [s].
    earlier : int
        Other calls answered by ours before.
    slow : int
        Calls also given to the slow forms and peers: products, and all parts.

    Returns
    -------
    Race
        Times and agreements.
    """
    race = Race(earlier=earlier)
    calls = list(arena.calls(count))
    referees = {name: Referee(peer, limit) for name, peer in PEERS.items()}
    for name, referee in referees.items():
        referee.warm(problem_of(arena.fitting, calls[0].query, reduced=True))
        for form in FORMS:
            race.runners[name, form] = Runner()
    _cold(arena, race, calls[:5])
    for asked in arena.calls(earlier, seed=500):
        arena.ours(asked)
    sizes: list[tuple[int, int]] = []
    for at, asked in enumerate(calls):
        say(f"{arena.size}: call {at + 1} of {count}, {asked.request.wish.id}")
        sizes.append(_call(arena, race, asked, referees, slow=at < slow))
    for referee in referees.values():
        referee.stop()
    race.warm = [arena.ours(asked).seconds for asked in calls]
    every, kept = (sum(column) / len(sizes) for column in zip(*sizes, strict=True))
    race.candidates = (every, kept)
    return race


def _cold(arena: Arena, race: Race, calls: list[Asked]) -> None:
    for asked in calls:
        arena.forget()
        race.cold.append(arena.ours(asked).seconds)
    arena.forget()


def _call(
    arena: Arena,
    race: Race,
    asked: Asked,
    referees: dict[str, Referee[Problem, Best]],
    *,
    slow: bool,
) -> tuple[int, int]:
    """Put one call to everybody, to us first."""
    ours = arena.ours(asked)
    race.stream.append(ours.seconds)
    race.gave_up += ours.costs is None
    race.ways.append(len(ours.costs or ()))
    problems = {
        reduced: problem_of(arena.fitting, asked.query, reduced=reduced)
        for reduced in (False, True)
    }
    for form, (reduced, by_class) in FORMS.items():
        problem = replace(problems[reduced], by_class=by_class)
        for name, referee in referees.items():
            if slow or (reduced and name != "CP-SAT, products"):
                _put(
                    race.runners[name, form],
                    referee,
                    problem,
                    ours.best,
                    known=ours.costs is not None,
                )
    return len(problems[False].pieces), len(problems[True].pieces)


def _put(
    runner: Runner,
    referee: Referee[Problem, Best],
    problem: Problem,
    best: int | None,
    *,
    known: bool,
) -> None:
    timed = referee.ask(problem)
    runner.seconds.append(timed.seconds)
    if timed.outcome is None:
        runner.times_up += 1
    elif known:
        agreed = timed.outcome.cost == best
        runner.agreed += agreed
        runner.differed += not agreed
        if not agreed:
            say(f"DISAGREEMENT: {timed.outcome} against {best}")

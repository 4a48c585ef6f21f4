"""The route search against general solvers and independent judges, as ratios in one run.

Usage: ``python -m benchmarks.routes [--sizes SML] [--quick] [--only STEP ...]``; prints tables in Markdown.
"""

from __future__ import annotations

import argparse
from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchmarks.routes.arena import Arena
from benchmarks.routes.compiling import compile_times
from benchmarks.routes.explaining import explained
from benchmarks.routes.judging import judged
from benchmarks.routes.race import run_race
from benchmarks.routes.structure import structure_of
from benchmarks.routes.tables import (
    compile_table,
    explain_table,
    heading,
    judge_table,
    race_table,
    structure_table,
)

if TYPE_CHECKING:
    from collections.abc import Callable


@dataclass(frozen=True, slots=True)
class Plan:
    """How much of everything is done at one size; times in s.

    Attributes
    ----------
    earlier : int
        Other calls answered by ours before those of the race.
    race, slow : int
        Calls of the race, and how many of them also go to the slow forms and peers.
    judges : tuple of (str, int, float)
        Judge of the whole set, calls put to it, time it has for one.
    reasons : int
        Calls without a way to be explained.
    limit : float
        Time a peer has for one call.
    """

    earlier: int
    race: int
    slow: int
    judges: tuple[tuple[str, int, float], ...]
    reasons: int
    limit: float


FULL = {
    "S": Plan(
        200,
        100,
        20,
        (("brute force", 150, 10.0), ("tree DP", 300, 30.0), ("clingo, one by one", 100, 20.0)),
        40,
        20.0,
    ),
    "M": Plan(200, 60, 6, (("tree DP", 100, 60.0),), 20, 20.0),
    "L": Plan(40, 12, 1, (("tree DP", 12, 120.0),), 6, 30.0),
}
QUICK = {
    "S": Plan(20, 20, 5, (("brute force", 5, 2.0), ("tree DP", 20, 5.0)), 3, 2.0),
    "M": Plan(5, 6, 0, (("tree DP", 3, 5.0),), 1, 2.0),
}


def main() -> None:
    """Run the benchmark and print its tables."""
    options = _options()
    plans = QUICK if options.quick else FULL
    print(heading(options.seed), flush=True)
    for size in options.sizes:
        if size in plans:
            arena = Arena(size, options.seed)
            print(structure_table(size, structure_of(arena)), flush=True)
            for step in options.only:
                print(STEPS[step](arena, plans[size]), flush=True)


def _race(arena: Arena, plan: Plan) -> str:
    race = run_race(arena, plan.race, plan.limit, earlier=plan.earlier, slow=plan.slow)
    return race_table(race)


def _judges(arena: Arena, plan: Plan) -> str:
    return judge_table(
        {judge: judged(arena, judge, count, limit) for judge, count, limit in plan.judges}
    )


def _reasons(arena: Arena, plan: Plan) -> str:
    return explain_table(explained(arena, plan.reasons, plan.limit))


def _compile(arena: Arena, _: Plan) -> str:
    return compile_table(compile_times(arena))


STEPS: dict[str, Callable[[Arena, Plan], str]] = {
    "race": _race,
    "judges": _judges,
    "reasons": _reasons,
    "compile": _compile,
}


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--quick", action="store_true", help="a minute instead of an hour")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--sizes", default="SML", help="which sizes, such as SM")
    parser.add_argument("--only", nargs="+", choices=STEPS, default=[*STEPS])
    return parser.parse_args()


if __name__ == "__main__":
    main()

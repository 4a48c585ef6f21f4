"""The route search beside general solvers, as ratios in one run.

Ours returns every unbeaten way; each solver returns one optimum of a weighted sum, on the same
candidates reduced as our search reduces them. Each solver runs in a process of its own that has
loaded it beforehand, within a time limit, and only its own solving is timed.

Our time is that of building and answering the query. It is taken twice: at the first meeting
with each query, by a search that has met only other queries before, and when the same queries
come again, as they do at a desk.

Usage: python benchmarks/route_search.py [S|M|L ...] [--queries N] [--limit SECONDS]
"""

from __future__ import annotations

import argparse
import itertools
import statistics
import sys
import time
from pathlib import Path
from typing import TYPE_CHECKING

ROOT = Path(__file__).resolve().parent.parent
sys.path[:0] = [str(ROOT), str(ROOT / "src")]

from benchmarks.routes.asp import asp_cores  # noqa: E402 - needs the path above
from benchmarks.routes.book import made_up_book  # noqa: E402
from benchmarks.routes.calls import Calls  # noqa: E402
from benchmarks.routes.cpsat import cpsat_cuts  # noqa: E402
from benchmarks.routes.fitting import fitting_of  # noqa: E402
from benchmarks.routes.problem import PER_BOUGHT, PER_DYING, problem_of  # noqa: E402
from benchmarks.routes.rc2 import rc2  # noqa: E402
from benchmarks.routes.referee import Referee  # noqa: E402
from benchmarks.routes.scale import SCALES  # noqa: E402

from wickwright.fit.compiled import compile_book  # noqa: E402
from wickwright.fit.request import claims_of, query_of, situation  # noqa: E402
from wickwright.fit.search.query import Found  # noqa: E402
from wickwright.fit.search.solve import solve  # noqa: E402

if TYPE_CHECKING:
    from benchmarks.routes.peer import Best
    from benchmarks.routes.problem import Problem

    from wickwright.fit.compiled import Compiled
    from wickwright.fit.request import Request

PEERS = {"CP-SAT": cpsat_cuts, "RC2": rc2, "clingo": asp_cores}
EARLIER = 200
"""Other queries answered before the measured ones."""


def answer(compiled: Compiled, request: Request) -> tuple[float, int | None]:
    """Return our time [s] and the best weighted sum among our ways."""
    now = situation(compiled, request)
    claims = claims_of(compiled, now)
    start = time.perf_counter()
    outcome = solve(compiled.memory, query_of(compiled, now, claims))
    taken = time.perf_counter() - start
    sums = (
        [
            way.costs[0] + PER_BOUGHT * way.costs[1] + PER_DYING * way.costs[2]
            for way in outcome.ways
        ]
        if isinstance(outcome, Found)
        else []
    )
    return taken, min(sums, default=None)


def problems(compiled: Compiled, requests: list[Request]) -> list[Problem]:
    """Put the queries as problems for any solver."""
    built = []
    fitting = fitting_of(compiled)
    for request in requests:
        now = situation(compiled, request)
        query = query_of(compiled, now, claims_of(compiled, now))
        built.append(problem_of(fitting, query, reduced=True))
    return built


def run(size: str, count: int, limit: float) -> None:
    """Measure one size of book and print its table."""
    book = made_up_book(SCALES[size], seed=1)
    start = time.perf_counter()
    compiled = compile_book(book)
    built = time.perf_counter() - start
    start = time.perf_counter()
    compile_book(book, before=compiled)
    again = time.perf_counter() - start
    calls = list(itertools.islice(iter(Calls(book, seed=11)), count + EARLIER))
    for request in calls[count:]:
        answer(compiled, request)
    first = [answer(compiled, request) for request in calls[:count]]
    repeat = [answer(compiled, request)[0] for request in calls[:count]]
    ours = statistics.median(taken for taken, _ in first)
    warm = statistics.median(repeat)
    print(f"\n{size}: {len(book.lamps)} lamps, {len(book.parts)} parts, {count} queries")
    print(f"compiled in {built:.2f} s, once more with the verdicts kept in {again:.2f} s")
    print(f"ours, every unbeaten way: first {ours * 1e3:.1f} ms, again {warm * 1e3:.1f} ms (p50)")
    for name, solver in PEERS.items():
        peer(name, Referee(solver, limit), problems(compiled, calls[:count]), first, warm)


def peer(
    name: str,
    referee: Referee[Problem, Best],
    tasks: list[Problem],
    first: list[tuple[float, int | None]],
    warm: float,
) -> None:
    """Measure one solver on the same queries and print its line."""
    referee.warm(tasks[0])
    times, late, unlike = [], 0, 0
    for number, (task, (_, cost)) in enumerate(zip(tasks, first, strict=True)):
        if sys.stderr.isatty():
            print(f"\r{name} {number + 1}/{len(tasks)}", end="", file=sys.stderr)
        timed = referee.ask(task)
        times.append(timed.seconds)
        late += timed.outcome is None
        unlike += timed.outcome is not None and timed.outcome.cost != cost
    referee.stop()
    middle = statistics.median(times)
    ours = statistics.median(taken for taken, _ in first)
    print(
        f"  {name:7} {middle * 1e3:8.1f} ms p50: x{middle / ours:.1f} of ours first, "
        f"x{middle / warm:.1f} of ours again; {late} timed out, {unlike} unlike ours"
    )


def main() -> None:
    """Read the command line and run."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else None)
    parser.add_argument("sizes", nargs="*", default=["S", "M"], choices=[*SCALES, []])
    parser.add_argument("--queries", type=int, default=40)
    parser.add_argument("--limit", type=float, default=20.0)
    options = parser.parse_args()
    for size in options.sizes:
        run(size, options.queries, options.limit)


if __name__ == "__main__":
    main()

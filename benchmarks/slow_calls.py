"""Which calls of the demo book take longest: every lamp, every wish, at some elevations.

Usage: OPENBLAS_NUM_THREADS=1 python benchmarks/slow_calls.py [--at 0 1700] [--worst 20]

Each call is what the desk asks on a keystroke: all routes, or the reason why there is none. Times
are of the processor, so that others on the machine count little; one book stays compiled for
all calls, as at the desk.
"""

from __future__ import annotations

import argparse
import time
from typing import TYPE_CHECKING, NamedTuple

from tests.support.demo import demo

from wickwright.answers.which_parts import which_parts

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickwright.fit.routes import Answer

MARKS = (50, 90, 99, 99.9, 100)


class Timed(NamedTuple):
    """One call: seconds of processor, and what was asked and answered."""

    seconds: float
    elevation: float
    lamp: str
    wish: str
    answer: str


def _timed(elevations: Sequence[float], lamps: Sequence[str]) -> Iterator[Timed]:
    book = demo().book
    for elevation in elevations:
        for lamp in lamps or book.lamps:
            for wish in book.wishes:
                began = time.process_time()
                answer = which_parts(demo(), lamp, wish, elevation=elevation)
                spent = time.process_time() - began
                yield Timed(spent, elevation, lamp, wish, _named(answer))


def _named(answer: Answer) -> str:
    stopped = "" if getattr(answer, "complete", True) else ", stopped early"
    return type(answer).__name__ + stopped


def main() -> None:
    """Time every call and print the slowest."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--at", type=float, nargs="+", default=[0.0, 1700.0])
    parser.add_argument("--lamps", nargs="*", default=[])
    parser.add_argument("--worst", type=int, default=20)
    asked = parser.parse_args()
    calls = sorted(_timed(asked.at, asked.lamps), reverse=True)
    ascending = [one.seconds for one in reversed(calls)]
    for mark in MARKS:
        at = min(len(ascending) - 1, int(len(ascending) * mark / 100))
        print(f"p{mark:<5g} {ascending[at]:8.3f} s")
    print(f"{len(calls)} calls, {sum(ascending):.1f} s in all")
    for one in calls[: asked.worst]:
        print(f"{one.seconds:8.3f} s  {one.lamp} {one.wish} at {one.elevation:g} m: {one.answer}")


if __name__ == "__main__":
    main()

"""The outcome in words and tables, without anything that belongs to one machine."""

from __future__ import annotations

from importlib.metadata import version
from statistics import mean, median
from typing import TYPE_CHECKING

from benchmarks.routes.race import FORMS, PEERS

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchmarks.routes.compiling import CompileTimes
    from benchmarks.routes.explaining import Explained
    from benchmarks.routes.judging import Verdict
    from benchmarks.routes.race import Race
    from benchmarks.routes.structure import Structure

__all__ = [
    "compile_table",
    "explain_table",
    "heading",
    "judge_table",
    "race_table",
    "structure_table",
]

_LIBRARIES = ("ortools", "python-sat", "clingo", "numpy")


def heading(seed: int) -> str:
    """Return what was measured and how."""
    versions = ", ".join(f"{name} {version(name)}" for name in _LIBRARIES)
    return f"""# The route search against general solvers

Made by `python -m benchmarks.routes` with seed {seed}; {versions}.
The books are made up. Times of ours run from the claims of a call to all unbeaten ways
(`query_of` and `solve`), in one process. A peer returns one way only, the
least of price + 300 a part bought + 500 a part on its way out; its time runs from the
problem as plain data to the answer, writing the clauses included and choosing the
candidates not. Each call is put to ours first, then to each peer in a process of its own.
Ratios are of medians over the same calls in the same run.

*Reduced*: only candidates that no other beats where both stand and carry alike.
*By class*: joints written once for all parts that stand or carry alike, as our own search
has it. *All parts*: every part that can be reached from the body and is allowed.
"""


def _ms(seconds: float) -> str:
    return f"{seconds * 1000:.3g}"


def structure_table(size: str, structure: Structure) -> str:
    """Return what the book of one size is like."""
    galleries, chimneys, shades = structure.choices
    return f"""## {size}: {structure.lamps:,} lamps, {structure.parts:,} parts

{structure.classes} socket classes; a burner takes {galleries:.0f} galleries, a gallery \
{chimneys:.0f} chimneys, a holder {shades:.0f} shades on average; \
{structure.assemblies:,} complete lamps merely fit.
"""


def race_table(race: Race) -> str:
    """Return the table of one size."""
    every, kept = race.candidates
    lines = [
        (
            f"{len(race.stream)} calls, {mean(race.ways):.1f} unbeaten ways on average, "
            f"{max(race.ways)} at most; gave up or ran past its time {race.gave_up} times. "
            f"Candidates a call: {every:.0f}, reduced {kept:.0f}."
        ),
        "",
        (
            f"Ours, after {race.earlier} other calls: p50 {_ms(median(race.stream))} ms, "
            f"p99 {_ms(race.slowest())} ms, mean {_ms(mean(race.stream))} ms. "
            f"The same calls once more without peers: p50 "
            f"{_ms(median(race.warm))} ms. First call to a freshly compiled book: "
            f"{_ms(median(race.cold))} ms (median of {len(race.cold)})."
        ),
        "",
        "| peer | form | calls | p50 ms | ratio | ratio to once more | time up | agree | differ |",
        "|---|---|---|---|---|---|---|---|---|",
        *_runners(race),
        "",
    ]
    return "\n".join(lines)


def _runners(race: Race) -> Iterator[str]:
    for form in FORMS:
        for name in PEERS:
            runner = race.runners[name, form]
            if runner.seconds:
                yield (
                    f"| {name} | {form} | {len(runner.seconds)} | {_ms(median(runner.seconds))} "
                    f"| {race.ratio(name, form):.1f} | {race.warm_ratio(name, form):.1f} "
                    f"| {runner.times_up} | {runner.agreed} | {runner.differed} |"
                )


def judge_table(verdicts: dict[str, Verdict]) -> str:
    """Return how often the judges of the whole set agreed."""
    lines = [
        "The whole set of unbeaten ways against independent judges:",
        "",
        "| judge | equal sets | of these odd lamps | differ | judge's time up | gave up |",
        "|---|---|---|---|---|---|",
    ]
    lines += [
        f"| {judge} | {it.same} | {it.odd} | {len(it.differ)} | {it.times_up} | {it.gave_up} |"
        for judge, it in verdicts.items()
    ]
    return "\n".join([*lines, ""])


def explain_table(it: Explained) -> str:
    """Return how explanations compare."""
    return f"""Why there is no way, against CP-SAT's sufficient assumptions, shrunk one by one:

| calls | ours p50 ms | core p50 ms | minimal p50 ms | ratio | ours minimal | confirmed | refuted \
| time up |
|---|---|---|---|---|---|---|---|---|
| {len(it.ours)} | {_ms(median(it.ours))} | {_ms(median(it.core))} | {_ms(median(it.minimal))} \
| {it.ratio:.1f} | {it.minimal_ours} | {it.confirmed} | {len(it.refuted)} | {it.times_up} |
"""


def compile_table(it: CompileTimes) -> str:
    """Return how long compiling takes."""
    return (
        f"Compiled from nothing in {it.whole:.2f} s, once more after one price has changed in "
        f"{it.price:.2f} s, after one size in {it.size:.2f} s.\n"
    )

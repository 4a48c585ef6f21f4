"""How long the next step takes to find: every question, every act and the hand-over weighed.

Usage: OPENBLAS_NUM_THREADS=1 python benchmarks/step.py [--cases 20] [--asked 5]

Forty causes, up to three at once (10,701 sets), sixty questions, thirty-four acts of which some
share causes. Each case is asked the cheapest question several times over; after each, every next
step is weighed anew, once as it is the rule and once as for a short call, where an act may be
done before a question. A sample is weighed again on all the sets, and once with belief updates only
(each answer's posterior of every cause), the least that any engine has to do.
"""

from __future__ import annotations

import argparse
import time
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from wickwright.chance.acts import Acts, Repair, acts
from wickwright.chance.beliefs import Beliefs
from wickwright.chance.evidence import Said, answers_given
from wickwright.chance.fault_sets import fault_sets
from wickwright.chance.next_question import Question, Questions, stack
from wickwright.chance.noisy_or import NoisyOr, quiet, set_weights, sign_given
from wickwright.chance.repair import MOST_SETS, Steps, steps

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from wickwright.chance.arrays import Floats

CAUSES, SIGNS, ACTS, HAND_OVER, TARGET = 40, 60, 34, 90.0, 0.020
STRENGTHS = (0.85, 0.5, 0.2)


@dataclass(frozen=True)
class Desk:
    """Everything that is made once."""

    repair: Repair
    acts: Acts
    questions: Questions
    signs: Floats


def _links(rng: np.random.Generator) -> Floats:
    links = np.zeros((SIGNS, CAUSES))
    for sign in range(SIGNS):
        many = 13 if sign < 6 else int(rng.integers(2, 5))
        links[sign, rng.choice(CAUSES, many, replace=False)] = rng.choice(STRENGTHS, many)
    return links


def desk(seed: int) -> Desk:
    """Return a random net with its questions and acts."""
    rng = np.random.default_rng(seed)
    links = _links(rng)
    net = NoisyOr(0.3 * rng.dirichlet(np.ones(CAUSES)), links, rng.uniform(0.005, 0.03, SIGNS))
    sets = fault_sets(CAUSES, 3)
    signs = sign_given(net, sets)
    said = Said(0.92, 0.94, 0.08)
    questions = stack(
        [Question(answers_given(said, sign), float(rng.uniform(0.3, 6.0))) for sign in signs]
    )
    cures = 0.97 * np.eye(CAUSES)[:ACTS]
    for act in np.flatnonzero(rng.random(ACTS) < 0.3):
        cures[act, rng.integers(CAUSES)] = 0.97
    able = acts(rng.uniform(8.0, 25.0, ACTS), cures)
    complaint = np.clip(links[0] + rng.choice([0.0, 0.4], CAUSES), 0.0, 0.98)
    heard = Beliefs(set_weights(net.prior, sets)).given(1.0 - 0.99 * quiet(complaint, sets))
    return Desk(Repair.begun(heard, sets, complaint, 0.01, able), able, questions, signs)


def _timed(work: Callable[[], Steps]) -> tuple[float, float, Steps]:
    wall, busy = time.perf_counter(), time.process_time()
    found = work()
    return time.perf_counter() - wall, time.process_time() - busy, found


def posteriors_only(repair: Repair, questions: Questions) -> Floats:
    """Return the chance of each cause after each answer: the least any engine has to do."""
    joint = questions.rows @ (repair.held * repair.beliefs.weights[:, None])
    found: Floats = joint / (questions.rows @ repair.beliefs.weights)[:, None]
    return found


def main(arguments: Sequence[str] | None = None) -> None:
    """Print the time of a step, its ratios, and how far the sample is from all the sets."""
    parser = argparse.ArgumentParser(description="Weigh every next step.")
    parser.add_argument("--cases", type=int, default=20)
    parser.add_argument("--asked", type=int, default=5, help="questions asked a case")
    parser.add_argument("--seed", type=int, default=1)
    chosen = parser.parse_args(arguments)
    start = time.perf_counter()
    made = desk(chosen.seed)
    print(f"{len(made.repair.sets)} sets, tables made in {time.perf_counter() - start:.2f} s")
    rng = np.random.default_rng(chosen.seed + 1)
    rule: list[tuple[float, float]] = []
    walls, busies, ratios, bare, off, left = [], [], [], [], [0.0], [0.0]
    for case in range(chosen.cases):
        repair, open_ = made.repair, list(range(SIGNS))
        truth = rng.choice(len(repair.sets), p=repair.beliefs.weights)
        for turn in range(chosen.asked):
            wall, busy, found = _timed(
                lambda: steps(repair, made.acts, made.questions, HAND_OVER, among=open_)  # noqa: B023
            )
            again, busy_again, _ = _timed(
                lambda: steps(
                    repair,  # noqa: B023
                    made.acts,
                    made.questions,
                    HAND_OVER,
                    among=open_,  # noqa: B023
                    defer=False,
                )
            )
            rule.append((again, busy_again))
            walls.append(wall)
            busies.append(busy)
            left.append(found.left_out)
            if case % 5 == 0 and turn in {0, 3}:
                again, _, full = _timed(
                    lambda: steps(
                        repair,  # noqa: B023
                        made.acts,
                        made.questions,
                        HAND_OVER,
                        among=open_,  # noqa: B023
                        most=None,
                    )
                )
                ratios.append(again / wall)
                begun = time.perf_counter()
                posteriors_only(repair, made.questions)
                bare.append((time.perf_counter() - begun) / wall)
                near = np.isfinite(full.ask)
                off.append(float(np.abs(full.ask[near] - found.ask[near]).max()))
                off.append(float(np.abs(full.act - found.act).max()))
            place = int(np.argmin(found.ask))
            open_.remove(place)
            seen = rng.random() < made.signs[place, truth]
            repair = repair.given(made.questions.rows[made.questions.starts[place] + (not seen)])
    for name, times in (
        ("a step, wall", [wall for wall, _ in rule]),
        ("a step, processor", [busy for _, busy in rule]),
        ("a step of a short call, wall", walls),
        ("a step of a short call, processor", busies),
    ):
        mean, most = 1e3 * np.mean(times), 1e3 * np.quantile(times, 0.95)
        print(f"{name} time: mean {mean:.1f} ms, p95 {most:.1f} ms")
    print(f"{len(walls)} steps on {MOST_SETS} sets; weight left out at most {max(left):.1%}")
    print(f"weighed on all the sets: {np.median(ratios):.1f} times as long")
    print(f"posterior of every cause after every answer only: {np.median(bare):.2f} of a step")
    print(f"greatest difference of a value from all the sets: {max(off):.2f} of about 50 to 90 min")
    late = max(float(np.quantile(times, 0.95)) for times in (walls, [wall for wall, _ in rule]))
    print(f"target {1e3 * TARGET:.0f} ms at p95: {'met' if late <= TARGET else 'NOT MET'}")


if __name__ == "__main__":
    main()

"""Which look comes first, chosen in two ways, beside finding the model first.

Run as ``python -m benchmarks.calls.choosing [--callers N] [--seed N] [--every N]``. The same callers
with every wish (or every so many) are asked by looks that *tell* most by the minute and by looks
that *spare* most asking by the minute, as the program does: for the answer at once, and for the
model and then on until the answer is as sure. What every lamp takes is worked out beforehand, so
that only the choice differs. Errors are taken caller by caller: one caller's wishes go together.
"""

from __future__ import annotations

import argparse
import time
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import cache
from itertools import repeat
from typing import TYPE_CHECKING

import numpy as np
from benchmarks.calls.callers import Slips, callers
from benchmarks.calls.recognising import MOST, _lost
from tests.support.demo import demo

from wickwright.answers.which_lamp import asking_of, which_lamp
from wickwright.recognise.asking import recognised

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from benchmarks.calls.callers import Caller

    from wickwright.chance.arrays import Floats, Ints
    from wickwright.recognise.asking import Asking, Heard, NextLook

    Choice = Callable[[Asking, Sequence[NextLook]], str]

__all__ = ["main"]


def spares(_: Asking, looks: Sequence[NextLook]) -> str:
    """Return the look that the program takes."""
    return looks[0].look


def tells(asking: Asking, looks: Sequence[NextLook]) -> str:
    """Return the look that tells most by the minute, the saying left out."""
    told = {look.look: look.tells for look in looks}
    open_ = [sight.look for sight in asking.sights if sight.look.id in told]
    return max(open_, key=lambda look: round(told[look.id] / max(look.minutes, 1e-3), 12)).id


CHOICES: dict[str, Choice] = {"tells": tells, "spares": spares}


@dataclass(frozen=True, slots=True)
class Asked:
    """How one call went: what was heard, how long the looks took [min], the likeliest class."""

    heard: tuple[Heard, ...]
    minutes: float
    found: int


def asked(
    asking: Asking, caller: Caller, classes: Ints, choose: Choice, before: Sequence[Heard] = ()
) -> Asked:
    """Ask until the program stops, or too often."""
    heard, minutes = list(before), 0.0
    while True:
        found = recognised(asking, heard, lambda _: classes)
        if found.beliefs is None:
            return Asked(tuple(heard), minutes, -1)
        if found.stop is not None or len(heard) >= len(before) + MOST:
            return Asked(tuple(heard), minutes, found.classes[0][0])
        look = choose(asking, found.looks)
        minutes += asking.sight(look).look.minutes
        heard.append(caller.says[look])


@cache
def _people(many: int, seed: int) -> tuple[Asking, list[Caller], dict[str, list[Asked]]]:
    """Draw the callers, and ask each for the model by each choice; once a process."""
    asking = asking_of(demo())
    people = callers(asking, many, seed, Slips())
    lamps = asking.guesses.lamps
    models = {
        name: [asked(asking, one, lamps, choose) for one in people]
        for name, choose in CHOICES.items()
    }
    return asking, people, models


def _parcels(asking: Asking, wish: str) -> Ints:
    """Return what is sent for each guess, as a class."""
    call = which_lamp(demo(), asking, wish, lost=_lost(wish))
    numbers: dict[tuple[str, ...], int] = {}
    sent = [numbers.setdefault(call.parcel(g), len(numbers)) for g in asking.guesses.all]
    return np.array(sent, dtype=np.intp)


def _one_wish(wish: str, many: int, seed: int) -> tuple[str, Floats, float]:
    """Return questions, minutes and rightness (choices, ways, callers, 3), and the time [s]."""
    start = time.process_time()
    asking, people, models = _people(many, seed)
    classes = _parcels(asking, wish)
    rows = np.zeros((len(CHOICES), 2, many, 3))
    for at, (name, choose) in enumerate(CHOICES.items()):
        for place, (one, model) in enumerate(zip(people, models[name], strict=True)):
            first = asked(asking, one, classes, choose)
            more = asked(asking, one, classes, choose, model.heard)
            minutes = (first.minutes, model.minutes + more.minutes)
            for way, told in enumerate((first, more)):
                right = told.found == classes[one.guess]
                rows[at, way, place] = len(told.heard), minutes[way], right
    return wish, rows, time.process_time() - start


def _ratio(ours: Floats, theirs: Floats) -> str:
    """Return the ratio of two means over the same callers, with its standard error."""
    ratio = ours.mean() / theirs.mean()
    error = (ours - ratio * theirs).std() / theirs.mean() / len(ours) ** 0.5
    return f"{ratio:.3f} ±{error:.3f}"


def _mean(values: Floats) -> str:
    return f"{values.mean():7.3f} ±{values.std() / len(values) ** 0.5:.3f}"


def _print(rows: Floats) -> None:
    """Print the means over wishes (choices, ways, callers, 3)."""
    names = tuple(CHOICES)
    for at, name in enumerate(names):
        for way, what in enumerate(("answer first", "model first, then the answer")):
            print(f"{name:<8}{what:<30}", *(_mean(rows[at, way, :, n]) for n in range(3)))
    for ours, theirs in (("tells", "tells"), ("spares", "spares"), ("spares", "tells")):
        one, other = rows[names.index(ours), 0], rows[names.index(theirs), 1]
        print(f"answer first by what {ours}, beside model first by what {theirs}:", end=" ")
        print(f"questions {_ratio(one[:, 0], other[:, 0])},", end=" ")
        print(f"minutes {_ratio(one[:, 1], other[:, 1])}, right {_mean(one[:, 2] - other[:, 2])}")
    change = rows[names.index("spares"), 0] - rows[names.index("tells"), 0]
    print("answer first, spares less tells:", *(_mean(change[:, n]) for n in range(3)))


def main() -> None:
    """Print the table."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--callers", type=int, default=80)
    options.add_argument("--seed", type=int, default=7)
    options.add_argument("--every", type=int, default=1, help="take every so many wishes")
    options.add_argument("--processes", type=int, default=2)
    given = options.parse_args()
    wishes = tuple(demo().book.wishes)[:: given.every]
    found, spent = [], 0.0
    with ProcessPoolExecutor(given.processes) as pool:
        told = pool.map(_one_wish, wishes, repeat(given.callers), repeat(given.seed))
        for wish, rows, seconds in told:
            found.append(rows)
            spent += seconds
            by_choice = rows[:, :, :, 0].mean(axis=2)
            print(f"{wish:<22}", *(f"{q:6.2f}" for q in by_choice.ravel()), flush=True)
    print(
        f"{len(found)} wishes, {given.callers} callers, seed {given.seed}, processor {spent:.0f} s"
    )
    _print(np.mean(found, axis=0))


if __name__ == "__main__":
    main()

"""How many questions it takes to know the lamp, and how many to know what to send.

Run as ``python -m benchmarks.calls.recognising [--callers N] [--seed N]``. Every policy meets the
same callers, drawn from the demo book's own tables; the answers of a caller are drawn once.
"""

from __future__ import annotations

import argparse
import time
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from benchmarks.calls.callers import Slips, callers
from tests.support.demo import demo

from wickwright.answers.which_lamp import WhichLamp, asking_of, which_lamp

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from benchmarks.calls.callers import Caller

__all__ = ["main"]

MOST = 25
WISHES: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("renew-chimney", ("chimney",)),
    ("renew-mantle", ("mantle",)),
    ("renew-wick", ("wick",)),
    ("renew-burner", ("burner",)),
)
"""What callers mostly want, and what of it is broken."""


@dataclass(frozen=True, slots=True)
class Told:
    """How one call went."""

    questions: int
    minutes: float
    right: bool
    seconds: float


def _asked(
    call: WhichLamp, caller: Caller, choose: Callable[[WhichLamp], str | None]
) -> tuple[WhichLamp, Told]:
    """Ask until the policy stops, or too often."""
    minutes, slowest, asked = 0.0, 0.0, 0
    while asked < MOST:
        start = time.perf_counter()
        look = choose(call)
        slowest = max(slowest, time.perf_counter() - start)
        if look is None:
            break
        minutes += call.asking.sight(look).look.minutes
        asked += 1
        call = call.told(caller.says[look])
    return call, Told(asked, minutes, _right(call, caller), slowest)


def _ask(call: WhichLamp, caller: Caller, choose: Callable[[WhichLamp], str | None]) -> Told:
    return _asked(call, caller, choose)[1]


def _right(call: WhichLamp, caller: Caller) -> bool:
    found = call.recognition
    if found.beliefs is None:
        return False
    if not call.wish:
        return (
            call.asking.guesses.all[int(np.argmax(_lamp_weights(call)))].lamp == caller.truth.lamp
        )
    best = found.classes[0][0]
    members = np.where(call.classes == best, found.beliefs.weights, 0.0)
    told = call.asking.guesses.all[int(np.argmax(members))]
    return call.parcel(told) == call.parcel(caller.truth)


def _lamp_weights(call: WhichLamp) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    beliefs = call.recognition.beliefs
    assert beliefs is not None
    shares = beliefs.share(call.asking.guesses.lamps)
    return shares[call.asking.guesses.lamps]


def _adaptive(call: WhichLamp) -> str | None:
    looks = call.recognition.looks
    return looks[0].look if looks else None


def _by_gain(call: WhichLamp) -> str | None:
    looks = call.recognition.looks
    return max(looks, key=lambda look: look.tells).look if looks else None


def _fixed(order: Sequence[str]) -> Callable[[WhichLamp], str | None]:
    def choose(call: WhichLamp) -> str | None:
        if call.recognition.stop is not None:
            return None
        asked = {getattr(one, "look", "") for one in call.heard}
        return next((look for look in order if look not in asked), None)

    return choose


def _row(name: str, told: Sequence[Told]) -> str:
    many = len(told)
    right = np.array([one.right for one in told])
    asked = np.array([one.questions for one in told])
    minutes = np.array([one.minutes for one in told])
    slow = np.array([one.seconds for one in told])
    error = float(np.sqrt(right.mean() * (1 - right.mean()) / many))
    return (
        f"{name:<44} {right.mean():6.3f} ±{error:.3f} {asked.mean():6.2f} "
        f"±{asked.std() / many**0.5:.2f} {minutes.mean():6.2f} {np.percentile(slow, 95) * 1e3:8.1f}"
    )


def main() -> None:
    """Print the table."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--callers", type=int, default=300)
    options.add_argument("--seed", type=int, default=7)
    given = options.parse_args()
    compiled = demo()
    asking = asking_of(compiled)
    slips = Slips()
    print(f"{len(asking.guesses.all)} guesses, {len(asking.sights)} looks, seed {given.seed}")
    print(f"{'':<44} {'right':>13} {'questions':>13} {'min':>5} {'p95 ms':>9}")
    bare = which_lamp(compiled, asking)
    order = [look.look for look in bare.recognition.looks]
    ways = (
        ("by the minute", _adaptive),
        ("by gain alone", _by_gain),
        ("fixed order", _fixed(order)),
    )
    for what, only in (("as sold or changed", None), ("burner not its own", "burner")):
        people = callers(asking, given.callers, given.seed, slips, only)
        for name, choose in ways:
            print(_row(f"model, {what}, {name}", [_ask(bare, one, choose) for one in people]))
    for wish, lost in WISHES:
        people = callers(asking, given.callers, given.seed, slips)
        call = which_lamp(compiled, asking, wish, lost=lost)
        print(_row(f"answer, {wish}", [_ask(call, one, _adaptive) for one in people]))
        print(_row(f"model first, {wish}", [_first(bare, call, one) for one in people]))


def _first(bare: WhichLamp, call: WhichLamp, caller: Caller) -> Told:
    """Ask for the model, then send what that model takes."""
    at, told = _asked(bare, caller, _adaptive)
    beliefs = at.recognition.beliefs
    assert beliefs is not None
    guess = call.asking.guesses.all[int(np.argmax(beliefs.weights))]
    right = call.parcel(guess) == call.parcel(caller.truth)
    return Told(told.questions, told.minutes, right, told.seconds)


if __name__ == "__main__":
    main()

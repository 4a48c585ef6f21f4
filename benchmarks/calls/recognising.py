"""How many questions it takes to know the lamp, and how many to know what to send.

Run as ``python -m benchmarks.calls.recognising [--callers N] [--seed N]``. Every policy meets the
same callers, drawn from the demo book's own tables; the answers of a caller are drawn once.

What to send is asked for in four ways: for the *answer* at once; for the *model*, and what the
likeliest lamp takes is sent; for the model first and *then the answer*, until that is as sure as
the first way has it; for the model and *every part* on the lamp. Bits are the entropy of what has
to be found before anything is heard: where a parcel has more than half the bits of the model, no
way of asking can be counted on to find it in half the questions.
"""

from __future__ import annotations

import argparse
import time
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
from benchmarks.calls.callers import Slips, callers
from tests.support.demo import demo

from wickwright.answers.which_lamp import WhichLamp, asking_of, which_lamp
from wickwright.recognise.asking import recognised

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from benchmarks.calls.callers import Caller

    from wickwright.recognise.asking import Heard

__all__ = ["main"]

MOST = 25
LESS = 0.02
"""Share of rightness that counts as the same [-]."""


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
    options.add_argument("--a-wish", type=int, default=40, help="callers with each wish")
    options.add_argument("--only", nargs="*", default=(), help="wishes; all if left out")
    options.add_argument("--seed", type=int, default=7)
    given = options.parse_args()
    compiled = demo()
    asking = asking_of(compiled)
    slips = Slips()
    print(f"{len(asking.guesses.all)} guesses, {len(asking.sights)} looks, seed {given.seed}")
    print(f"{'':<44} {'right':>13} {'questions':>13} {'min':>5} {'p95 ms':>9}")
    bare = which_lamp(compiled, asking)
    print(f"the model: {_bits(bare):.1f} bits")
    if given.callers:
        _print_models(bare, given.callers, given.seed)
    people = callers(asking, given.a_wish, given.seed + 1, slips)
    print(_summary(_all_wishes(bare, people, given.only or tuple(compiled.book.wishes))))


def _print_models(bare: WhichLamp, many: int, seed: int) -> None:
    """Print how many questions it takes to know the model."""
    order = [look.look for look in bare.recognition.looks]
    ways = (
        ("by the minute", _adaptive),
        ("by gain alone", _by_gain),
        ("fixed order", _fixed(order)),
    )
    for what, only in (("as sold or changed", None), ("burner not its own", "burner")):
        people = callers(bare.asking, many, seed, Slips(), only)
        for name, choose in ways:
            print(_row(f"model, {what}, {name}", [_ask(bare, one, choose) for one in people]))


@dataclass(frozen=True, slots=True)
class _Wish:
    """What one wish came to on the same callers."""

    answer: list[Told]
    model: list[Told]
    then: list[Told]
    whole: list[Told]
    bits: float


def _lost(wish: str) -> tuple[str, ...]:
    """Return what is broken on the lamps of those who want a thing renewed."""
    kind = wish.removeprefix("renew-")
    return () if kind in {wish, "cleaner"} else (kind,)


def _whole(bare: WhichLamp, caller: Caller) -> tuple[int, int, float]:
    """Ask until the model and the parts on it are known: the guess, questions and minutes."""
    heard: list[Heard] = []
    minutes, each = 0.0, np.arange(len(bare.asking.guesses.all), dtype=np.intp)
    while True:
        found = recognised(bare.asking, heard, lambda _: each)
        if found.beliefs is None:
            return -1, len(heard), minutes
        if found.stop is not None or len(heard) >= MOST:
            return int(np.argmax(found.beliefs.weights)), len(heard), minutes
        look = found.looks[0].look
        minutes += bare.asking.sight(look).look.minutes
        heard.append(caller.says[look])


def _all_wishes(
    bare: WhichLamp, people: Sequence[Caller], wishes: Sequence[str]
) -> dict[str, _Wish]:
    """Ask for the answer, for the model, and for the whole lamp, wish by wish."""
    models = [_asked(bare, one, _adaptive) for one in people]
    wholes = [_whole(bare, one) for one in people]
    found = {}
    for wish in wishes:
        call = which_lamp(bare.compiled, bare.asking, wish, lost=_lost(wish))
        if {call.parcel(one.truth)[0] for one in people} == {"no route"}:
            continue
        first = [_sent(call, *told, one) for told, one in zip(models, people, strict=True)]
        whole = [
            Told(asked, minutes, guess >= 0 and _same(call, guess, one), 0.0)
            for (guess, asked, minutes), one in zip(wholes, people, strict=True)
        ]
        answer = [_ask(call, one, _adaptive) for one in people]
        then = [_go_on(call, *told, one) for told, one in zip(models, people, strict=True)]
        found[wish] = _Wish(answer, first, then, whole, _bits(call))
        print(_row(f"{wish}, {found[wish].bits:.1f} bits, answer first", answer))
        print(_row(f"{wish}, model first", first))
        print(_row(f"{wish}, model first, then the answer", then))
        print(_row(f"{wish}, model and its parts first", whole), flush=True)
    return found


def _same(call: WhichLamp, guess: int, caller: Caller) -> bool:
    return call.parcel(call.asking.guesses.all[guess]) == call.parcel(caller.truth)


def _sent(call: WhichLamp, at: WhichLamp, told: Told, caller: Caller) -> Told:
    """Send what the likeliest guess takes, after the model was asked for."""
    beliefs = at.recognition.beliefs
    right = beliefs is not None and _same(call, int(np.argmax(beliefs.weights)), caller)
    return Told(told.questions, told.minutes, right, told.seconds)


def _go_on(call: WhichLamp, at: WhichLamp, told: Told, caller: Caller) -> Told:
    """Go on from the model until what to send is sure."""
    more = _ask(replace(call, heard=at.heard), caller, _adaptive)
    return Told(told.questions + more.questions, told.minutes + more.minutes, more.right, 0.0)


def _bits(call: WhichLamp) -> float:
    """Return the entropy of what has to be found, before anything was heard [bit]."""
    shares = np.array([share for _, share in call.recognition.classes])
    return float(-(shares * np.log2(shares)).sum())


def _summary(found: Mapping[str, _Wish]) -> str:
    """Return the three ways over all wishes, and how often half the questions are enough."""
    rows = [
        _row(name, [told for wish in found.values() for told in getattr(wish, way)])
        for name, way in (
            (f"all {len(found)} wishes, answer first", "answer"),
            ("all wishes, model first", "model"),
            ("all wishes, model first, then the answer", "then"),
            ("all wishes, model and its parts first", "whole"),
        )
    ]
    for name, way in (
        ("model", "model"),
        ("model, then the answer,", "then"),
        ("model and parts", "whole"),
    ):
        half = [
            _mean(wish.answer, "questions") <= 0.5 * _mean(getattr(wish, way), "questions")
            for wish in found.values()
        ]
        as_right = [
            _mean(wish.answer, "right") >= _mean(getattr(wish, way), "right") - LESS
            for wish in found.values()
        ]
        rows.append(
            f"beside {name} first: at most half the questions for {sum(half)}, as right for "
            f"{sum(as_right)} of {len(found)} wishes"
        )
    return "\n".join(rows)


def _mean(told: Sequence[Told], what: str) -> float:
    return float(np.mean([getattr(one, what) for one in told]))


if __name__ == "__main__":
    main()

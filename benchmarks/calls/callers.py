"""Callers who have a lamp in front of them and answer what they are asked, not always rightly."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from wickwright.recognise.asking import Heard, Measured, Saw, Unsure
from wickwright.recognise.looks import ABSENT

if TYPE_CHECKING:
    from wickwright.recognise.asking import Asking
    from wickwright.recognise.guesses import Guess
    from wickwright.recognise.looks import Sight

__all__ = ["Caller", "Slips", "callers"]


@dataclass(frozen=True, slots=True)
class Slips:
    """How callers really answer: shares that are wrong, and that do not know [-]."""

    wrong: float = 0.05
    unsure: float = 0.08
    eye: float = 0.02


@dataclass(frozen=True, slots=True)
class Caller:
    """A caller: what is on the lamp, kind by kind, and what would be said of each look."""

    guess: int
    truth: Guess
    says: dict[str, Heard]


def _says(sight: Sight, part: int, slips: Slips, rng: np.random.Generator) -> Heard:
    """Answer one look at one part; the answer is drawn once, for a caller errs the same again."""
    look = sight.look.id
    if rng.random() < slips.unsure:
        return Unsure(look)
    wrong = bool(rng.random() < slips.wrong)
    return (_measures if sight.is_measured else _sees)(sight, part, slips, rng, wrong=wrong)


def _measures(
    sight: Sight, part: int, slips: Slips, rng: np.random.Generator, *, wrong: bool
) -> Heard:
    length, known = sight.lengths[part], sight.lengths[np.isfinite(sight.lengths)]
    if not np.isfinite(length):
        return Unsure(sight.look.id)
    if wrong:
        return Measured(sight.look.id, float(rng.choice(known)))
    error = float(np.hypot(sight.look.error, slips.eye * length))
    return Measured(sight.look.id, float(max(length + error * rng.standard_normal(), 1e-3)))


def _sees(
    sight: Sight, part: int, _slips: Slips, rng: np.random.Generator, *, wrong: bool
) -> Heard:
    chances = sight.rows[part, :-1]
    truth = int(np.argmax(chances))
    others = [a for place, a in enumerate(sight.answers) if place != truth and a != ABSENT]
    if np.sum(chances > 0.9 * chances[truth]) > 1:  # nothing is known of this part
        return Unsure(sight.look.id)
    return Saw(sight.look.id, str(rng.choice(others)) if wrong and others else sight.answers[truth])


def callers(
    asking: Asking, many: int, seed: int, slips: Slips, only: str | None = None
) -> list[Caller]:
    """Draw callers from the tables.

    Parameters
    ----------
    asking : Asking
        What can be asked.
    many : int
        How many.
    seed : int
        Fixes them.
    slips : Slips
        How they answer.
    only : str, optional
        The kind that is changed on their lamps: such as ``burner``; blank for none; any if left
        out.
    """
    rng = np.random.default_rng(seed)
    found = asking.guesses
    weights = found.weights.copy()
    if only is not None:
        weights *= [guess.kind == only for guess in found.all]
    weights /= weights.sum()
    drawn = rng.choice(len(weights), size=many, p=weights)
    return [_caller(asking, int(place), slips, rng) for place in drawn]


def _caller(asking: Asking, place: int, slips: Slips, rng: np.random.Generator) -> Caller:
    on = {
        kind: int(rng.choice(len(it.parts), p=it.share[place]))
        for kind, it in asking.guesses.on.items()
    }
    says = {s.look.id: _says(s, on[s.look.kind], slips, rng) for s in asking.sights}
    return Caller(place, asking.guesses.all[place], says)

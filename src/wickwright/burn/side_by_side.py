"""Several lamps side by side: all in one array call, and what each has over another.

Two lamps in one room share most of what is not known of them: the room, the model, and every
guess that was made for both. A comparison counts such a number once, so that the gain of one
lamp over another is known far better than the light of either.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import TYPE_CHECKING

import numpy as np

from wickwright.burn.error_bars import Driver, combined, moved
from wickwright.burn.flames import Flames, solve
from wickwright.burn.lamp import ASSUMPTION, set_to
from wickwright.burn.parts import leaves, with_leaf
from wickwright.burn.predicting import HEADLINES, headlines, setting_input, with_profile
from wickwright.terms.finding import Kind

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from wickwright.burn.error_bars import Estimate, Moves
    from wickwright.burn.lamp import BurningLamp, Input
    from wickwright.burn.parts import Lamps
    from wickwright.burn.predicting import Prediction

    Floats = NDArray[np.float64]

__all__ = ["Burnt", "gain", "side_by_side", "solve_each"]


@dataclass(frozen=True, slots=True)
class Burnt:
    """A lamp as it burns, with all that its figures lean on.

    Attributes
    ----------
    prediction : Prediction
        How it burns.
    moves : Moves
        Its numbers, moved.
    answers : dict of str to array
        Headlines along the axis of ``moves`` [SI unit of each].
    """

    prediction: Prediction
    moves: Moves
    answers: dict[str, Floats]


def side_by_side(cases: Sequence[tuple[BurningLamp, str | float]]) -> tuple[Burnt, ...]:
    """Return how lamps burn, solved together.

    Parameters
    ----------
    cases : sequence of (BurningLamp, str or float)
        Each lamp with the setting of its wick.

    Returns
    -------
    tuple of Burnt
        In the same order; each prediction as :func:`wickwright.burn.predicting.predict_lamp`
        gives it.

    Raises
    ------
    BurnError
        When a setting is none.
    """
    set_up = [_set_up(lamp, setting) for lamp, setting in cases]
    solved = solve_each([moves.lamps for moves in set_up], [moves.size for moves in set_up])
    return tuple(
        _burnt(lamp, setting, moves, flames)
        for (lamp, setting), moves, flames in zip(cases, set_up, solved, strict=True)
    )


def _set_up(lamp: BurningLamp, setting: str | float) -> Moves:
    fuel = set_to(lamp, setting)
    inputs = (*lamp.inputs, *setting_input(lamp, setting, fuel))
    return moved(replace(lamp.lamps, fuel=fuel), inputs)


def _burnt(lamp: BurningLamp, setting: str | float, moves: Moves, flames: Flames) -> Burnt:
    answers = headlines(flames, moves.lamps, lamp.volume)
    estimates = {name: moves.estimate(answers[name], kind) for name, kind in HEADLINES.items()}
    here = Flames(**{one.name: float(getattr(flames, one.name)[0]) for one in fields(Flames)})
    lamps = replace(lamp.lamps, fuel=set_to(lamp, setting))
    return Burnt(with_profile(lamp, setting, estimates, lamps, here), moves, answers)


def solve_each(lamps: Sequence[Lamps], sizes: Sequence[int]) -> list[Flames]:
    """Return the flames of several records of lamps, solved in one call.

    Parameters
    ----------
    lamps : sequence of Lamps
        Each one state, or states along one axis.
    sizes : sequence of int
        States of each.

    Returns
    -------
    list of Flames
        Arrays of these sizes.
    """
    if not lamps:
        return []
    parts = [dict(leaves(one)) for one in lamps]
    whole = lamps[0]
    for name in parts[0]:
        pieces = [
            np.broadcast_to(np.asarray(part[name], dtype=np.float64), (size,))
            for part, size in zip(parts, sizes, strict=True)
        ]
        whole = with_leaf(whole, name, np.concatenate(pieces))
    flames = solve(whole)
    ends = np.cumsum(sizes)
    return [_cut(flames, int(end) - size, int(end)) for end, size in zip(ends, sizes, strict=True)]


def _cut(flames: Flames, start: int, end: int) -> Flames:
    cut = {one.name: np.asarray(getattr(flames, one.name))[start:end] for one in fields(Flames)}
    return Flames(**cut)


def gain(before: Burnt, after: Burnt, name: str) -> Estimate:
    """Return what a lamp has over another.

    Parameters
    ----------
    before, after : Burnt
        Two lamps of one room.
    name : str
        Of :data:`wickwright.burn.predicting.HEADLINES`.

    Returns
    -------
    Estimate
        Ratio less 1 [-]: 0.1 is 10 % more. A number that both lean on, or that was guessed for
        both, errs alike in both.
    """
    was, will = before.answers[name], after.answers[name]
    ratio = float(will[0]) / float(was[0])
    shares: dict[str, Driver] = {}
    for burnt, values, sign in ((before, was, -1.0), (after, will, 1.0)):
        changes = burnt.moves.changes(values)
        for one, change in zip(burnt.moves.inputs, changes.tolist(), strict=True):
            key = _key(one)
            share = sign * ratio * change / float(values[0])
            so_far = shares[key].change if key in shares else 0.0
            shares[key] = Driver(one.name, one.says, so_far + share, one.source)
    return combined(ratio - 1.0, Kind.RATIO, list(shares.values()))


def _key(one: Input) -> str:
    """Tell which numbers are one and the same unknown: guesses of a name are."""
    return one.name if one.source == ASSUMPTION else f"{one.name} {one.part}"

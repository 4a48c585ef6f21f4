"""Uncertainty of an answer from the uncertainty of what it was computed from.

Every number is moved up and down by one standard uncertainty, all of it in one call, and the
halves of the differences are added as squares: the numbers are taken to err independently.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from wickwright.burn.checks import LIMITS
from wickwright.burn.parts import with_leaf

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from numpy.typing import NDArray

    from wickwright.burn.lamp import Input
    from wickwright.burn.parts import Lamps
    from wickwright.terms.finding import Kind

    Floats = NDArray[np.float64]

__all__ = ["DRIVERS", "Driver", "Estimate", "estimates", "values_and_spreads"]

DRIVERS: Final = 3
"""How many of the numbers that matter most are named."""


@dataclass(frozen=True, slots=True)
class Driver:
    """One number an answer leans on.

    Attributes
    ----------
    name, says : str
        Which, and in words.
    change : float
        What one standard uncertainty of it does to the answer [SI unit of the answer].
    source : str
        Where the number comes from.
    """

    name: str
    says: str
    change: float
    source: str


@dataclass(frozen=True, slots=True)
class Estimate:
    """An answer with its error bar.

    Attributes
    ----------
    value : float
        The answer [SI unit of its kind].
    spread : float
        One standard uncertainty [SI unit of its kind].
    kind : Kind
        What is measured.
    drivers : tuple of Driver
        The numbers that matter most, greatest first.
    """

    value: float
    spread: float
    kind: Kind
    drivers: tuple[Driver, ...] = ()


def _moves(one: Input) -> tuple[float, float]:
    """Return how far a number can be moved down and up within its limits, at most its spread."""
    limit = LIMITS.get(one.name)
    if limit is None:
        return min(one.spread, 0.5 * one.value), one.spread
    room_below, room_above = one.value - limit.low, limit.high - one.value
    return max(0.0, min(one.spread, room_below)), max(0.0, min(one.spread, room_above))


def _moved(lamps: Lamps, inputs: Sequence[Input]) -> tuple[Lamps, list[float]]:
    """Return lamps along one axis: as they are, then each number down and up."""
    size = 2 * len(inputs) + 1
    widths = []
    for number, one in enumerate(inputs):
        down, up = _moves(one)
        values = np.full(size, one.value)
        values[2 * number + 1] -= down
        values[2 * number + 2] += up
        lamps = with_leaf(lamps, one.name, values)
        widths.append(down + up)
    return lamps, widths


def estimates(
    lamps: Lamps,
    inputs: Sequence[Input],
    answers: Callable[[Lamps], Mapping[str, Floats]],
    kinds: Mapping[str, Kind],
) -> dict[str, Estimate]:
    """Return answers with their error bars.

    Parameters
    ----------
    lamps : Lamps
        One state.
    inputs : sequence of Input
        Its numbers with their spreads; those without one are left alone.
    answers : callable
        Lamps along one axis to arrays of answers along the same axis.
    kinds : mapping of str to Kind
        The answers wanted, by name.

    Returns
    -------
    dict of str to Estimate
        By name of the answer.
    """
    loose = [one for one in inputs if one.spread > 0.0]
    moved, widths = _moved(lamps, loose)
    found = answers(moved)
    return {name: _estimate(found[name], loose, widths, kind) for name, kind in kinds.items()}


def _estimate(
    values: Floats, inputs: Sequence[Input], widths: Sequence[float], kind: Kind
) -> Estimate:
    drivers = []
    for number, (one, width) in enumerate(zip(inputs, widths, strict=True)):
        down, up = float(values[2 * number + 1]), float(values[2 * number + 2])
        change = (up - down) / width * one.spread if width else 0.0
        drivers.append(Driver(one.name, one.says, change, one.source))
    drivers.sort(key=lambda driver: -abs(driver.change))
    spread = math.sqrt(math.fsum(driver.change**2 for driver in drivers))
    leading = tuple(driver for driver in drivers[:DRIVERS] if driver.change)
    return Estimate(float(values[0]), spread, kind, leading)


def values_and_spreads(
    lamps: Lamps,
    inputs: Sequence[Input],
    answers: Callable[[Lamps], Mapping[str, Floats]],
) -> dict[str, tuple[Floats, Floats]]:
    """Return answers along axes of their own, each with its standard uncertainty.

    Parameters
    ----------
    lamps : Lamps
        One state.
    inputs : sequence of Input
        Its numbers with their spreads; those without one are left alone.
    answers : callable
        Lamps along one axis to arrays of answers whose first axis is the same; others follow.

    Returns
    -------
    dict of str to (array, array)
        By name of the answer: values and standard uncertainties along the other axes.
    """
    loose = [one for one in inputs if one.spread > 0.0]
    moved, widths = _moved(lamps, loose)
    scale = np.array([one.spread / w if w else 0.0 for one, w in zip(loose, widths, strict=True)])
    found = {}
    for name, values in answers(moved).items():
        changes = np.tensordot(scale**2, (values[2::2] - values[1::2]) ** 2, axes=1)
        found[name] = (values[0], np.sqrt(changes))
    return found

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

__all__ = [
    "DRIVERS",
    "Driver",
    "Estimate",
    "Moves",
    "combined",
    "estimates",
    "moved",
    "values_and_spreads",
]

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


@dataclass(frozen=True, slots=True)
class Moves:
    """Lamps along one axis: as they are, then each uncertain number down and up.

    Attributes
    ----------
    lamps : Lamps
        Along one axis of ``size``.
    inputs : tuple of Input
        The numbers moved.
    widths : tuple of float
        From down to up, of each [SI unit of the number].
    """

    lamps: Lamps
    inputs: tuple[Input, ...]
    widths: tuple[float, ...]

    @property
    def size(self) -> int:
        """States along the axis."""
        return 2 * len(self.inputs) + 1

    def changes(self, values: Floats) -> Floats:
        """Return what one standard uncertainty of each number does to an answer.

        Parameters
        ----------
        values : array
            The answer along the axis.

        Returns
        -------
        array
            By number [unit of the answer].
        """
        pairs = zip(self.inputs, self.widths, strict=True)
        scale = np.array([one.spread / width if width else 0.0 for one, width in pairs])
        return np.asarray((values[2::2] - values[1::2]) * scale)

    def estimate(self, values: Floats, kind: Kind) -> Estimate:
        """Return an answer with its error bar.

        Parameters
        ----------
        values : array
            The answer along the axis.
        kind : Kind
            What is measured.

        Returns
        -------
        Estimate
            With the numbers that matter most.
        """
        changes = self.changes(values)
        leading = np.argsort(-np.abs(changes), kind="stable")[:DRIVERS]
        spread = math.sqrt(math.fsum((changes * changes).tolist()))
        named = ((self.inputs[at], float(changes[at])) for at in leading)
        drivers = tuple(Driver(one.name, one.says, by, one.source) for one, by in named if by)
        return Estimate(float(values[0]), spread, kind, drivers)


def combined(value: float, kind: Kind, drivers: Sequence[Driver]) -> Estimate:
    """Return an answer whose changes are added as squares.

    Parameters
    ----------
    value : float
        The answer [SI unit of its kind].
    kind : Kind
        What is measured.
    drivers : sequence of Driver
        Every number it leans on, taken to err independently.

    Returns
    -------
    Estimate
        With the numbers that matter most, greatest first.
    """
    ordered = sorted(drivers, key=lambda driver: -abs(driver.change))
    spread = math.sqrt(math.fsum(driver.change**2 for driver in ordered))
    return Estimate(
        value, spread, kind, tuple(driver for driver in ordered[:DRIVERS] if driver.change)
    )


def moved(lamps: Lamps, inputs: Sequence[Input]) -> Moves:
    """Move every uncertain number of a lamp down and up.

    Parameters
    ----------
    lamps : Lamps
        One state.
    inputs : sequence of Input
        Its numbers with their spreads; those without one are left alone.

    Returns
    -------
    Moves
        Every number moved by one standard uncertainty, as far as its limits allow.
    """
    loose = tuple(one for one in inputs if one.spread > 0.0)
    size = 2 * len(loose) + 1
    widths = []
    for number, one in enumerate(loose):
        down, up = _moves(one)
        values = np.full(size, one.value)
        values[2 * number + 1] -= down
        values[2 * number + 2] += up
        lamps = with_leaf(lamps, one.name, values)
        widths.append(down + up)
    return Moves(lamps, loose, tuple(widths))


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
    moves = moved(lamps, inputs)
    found = answers(moves.lamps)
    return {name: moves.estimate(found[name], kind) for name, kind in kinds.items()}


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
    moves = moved(lamps, inputs)
    pairs = zip(moves.inputs, moves.widths, strict=True)
    scale = np.array([one.spread / width if width else 0.0 for one, width in pairs])
    found = {}
    for name, values in answers(moves.lamps).items():
        changes = np.tensordot(scale**2, (values[2::2] - values[1::2]) ** 2, axes=1)
        found[name] = (values[0], np.sqrt(changes))
    return found

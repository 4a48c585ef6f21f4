"""Tables with even steps, read without a search: five times as quick as a general one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, cast

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]
    Whole = NDArray[np.intp]
    Pair = tuple[Floats, Floats]

__all__ = ["Steps", "refined", "steps_of"]


@dataclass(frozen=True, slots=True)
class Steps:
    """Rows of values at even steps of one argument.

    Attributes
    ----------
    low, scale, top : float
        First argument, steps for each unit of it, and the greatest step with a next one.
    rows, rough : tuple of pairs of array
        Values, and the difference to the next; in double and in single precision.
    """

    low: float
    scale: float
    top: float
    rows: tuple[Pair, ...]
    rough: tuple[Pair, ...]

    def place(self, at: Floats) -> tuple[Whole, Floats]:
        """Return the step an argument lies in and how far along; the ends hold beyond them."""
        far = np.minimum(np.maximum((at - self.low) * self.scale, 0.0), self.top)
        whole = np.floor(far)
        return whole.astype(np.intp), far - whole

    def row(self, number: int, place: tuple[Whole, Floats]) -> Floats:
        """Return one row at a place found before."""
        step, along = place
        values, rises = (self.rows if along.dtype == np.float64 else self.rough)[number]
        return np.asarray(values[step] + along * rises[step])

    def at(self, at: Floats) -> Floats:
        """Return the first row at an argument."""
        return self.row(0, self.place(at))


def steps_of(low: float, high: float, *rows: Floats) -> Steps:
    """Lay rows out at even steps.

    Parameters
    ----------
    low, high : float
        First and last argument [unit of the argument].
    *rows : array
        Values, all of one length.

    Returns
    -------
    Steps
        The table.
    """
    count = len(rows[0]) - 1
    pairs = tuple((np.append(row, row[-1]), np.append(np.diff(row), [0.0, 0.0])) for row in rows)
    rough = tuple((a.astype(np.float32), b.astype(np.float32)) for a, b in pairs)
    return Steps(low, count / (high - low), float(count), pairs, cast("tuple[Pair, ...]", rough))


def refined(at: Floats, values: Floats, fine: Floats) -> Floats:
    """Interpolate by cubics with the slopes of central differences.

    Parameters
    ----------
    at : array, shape (n,)
        Arguments at even steps [any].
    values : array, shape (n,)
        Values there [any].
    fine : array
        Arguments to interpolate at [any].

    Returns
    -------
    array
        Values there [any].
    """
    slopes = np.gradient(values, at, edge_order=2)
    step = at[1] - at[0]
    place = np.minimum(((fine - at[0]) / step).astype(int), len(at) - 2)
    x = (fine - at[place]) / step
    left = (1 + 2 * x) * (1 - x) ** 2 * values[place] + x * (1 - x) ** 2 * step * slopes[place]
    right = x * x * (3 - 2 * x) * values[place + 1]
    return np.asarray(left + right + x * x * (x - 1) * step * slopes[place + 1])

"""The arrays this floor takes: their names, their checks, and how a fault in one is said."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeAlias

import numpy as np
from numpy.typing import NDArray

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import ArrayLike

__all__ = [
    "NO_CHANCE",
    "Bools",
    "ChanceError",
    "Floats",
    "Ints",
    "chance_faults",
    "cost_faults",
    "fixed",
    "refuse",
    "shape_faults",
]

Floats: TypeAlias = NDArray[np.float64]
Bools: TypeAlias = NDArray[np.bool_]
Ints: TypeAlias = NDArray[np.intp]


NO_CHANCE = "a chance lies between 0 and 1. Was it a percentage, or a blank?"
"""How a number that is no chance is refused."""


class ChanceError(ValueError):
    """Arrays nothing can be inferred from; the message says what, why and what mends it."""


def fixed(values: ArrayLike) -> Floats:
    """Return a copy nobody can write to.

    Parameters
    ----------
    values : array
        Numbers [any unit].

    Returns
    -------
    array
        The same in double precision, C-contiguous, read-only.
    """
    copy = np.array(values, dtype=np.float64, order="C")
    copy.setflags(write=False)
    return copy


def shape_faults(name: str, values: Floats, shape: Sequence[int | None]) -> list[str]:
    """Return what is wrong with the shape of an array.

    Parameters
    ----------
    name : str
        What the array is called.
    values : array
        The array [any unit].
    shape : sequence of int or None
        Lengths wanted [-]; None takes any.

    Returns
    -------
    list of str
        At most one sentence.
    """
    fits = values.ndim == len(shape) and all(
        want is None or want == got for want, got in zip(shape, values.shape, strict=True)
    )
    if fits:
        return []
    wanted = " x ".join("any" if want is None else str(want) for want in shape)
    got = " x ".join(str(length) for length in values.shape) or "a single number"
    return [f"{name} is {got}; it has to be {wanted}, in the order of the other tables."]


def chance_faults(name: str, values: Floats) -> list[str]:
    """Return what is wrong with an array of chances.

    Parameters
    ----------
    name : str
        What the array is called.
    values : array
        Chances [-].

    Returns
    -------
    list of str
        At most one sentence, naming the first value that is no chance.
    """
    wrong = np.argwhere(~((values >= 0.0) & (values <= 1.0)))
    if not wrong.size:
        return []
    place = tuple(int(i) for i in wrong[0])
    return [f"{name}{list(place)} is {values[place]:g}; {NO_CHANCE}"]


def cost_faults(name: str, values: Floats) -> list[str]:
    """Return what is wrong with an array of costs.

    Parameters
    ----------
    name : str
        What the array is called.
    values : array
        Costs, all in one unit [min].

    Returns
    -------
    list of str
        At most one sentence, naming the first value that is no cost.
    """
    wrong = np.argwhere(~((values >= 0.0) & (values < np.inf)))
    if not wrong.size:
        return []
    place = tuple(int(i) for i in wrong[0])
    return [f"{name}{list(place)} is {values[place]:g}; a cost is a finite number of at least 0."]


def refuse(faults: Sequence[str]) -> None:
    """Raise every fault at once.

    Parameters
    ----------
    faults : sequence of str
        Whole sentences.

    Raises
    ------
    ChanceError
        If there is any.
    """
    if faults:
        raise ChanceError("\n".join(faults))

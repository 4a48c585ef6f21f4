"""What every formula of this floor shares: the numbers it takes, the range it holds in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeVar, overload

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

__all__ = ["Real", "Validity", "in_kind", "outside", "power"]

Real = TypeVar("Real", float, "NDArray[np.float64]", "float | NDArray[np.float64]")
"""A float or an array of floats; a function answers in the kind it was given.

Floats beside arrays broadcast. The type checker wants one kind in a call: wrap the floats
in ``numpy.asarray``.
"""


@dataclass(frozen=True, slots=True)
class Validity:
    """The range in which a formula holds.

    Attributes
    ----------
    formula : str
        Name of the function.
    argument : str
        What is bounded: an argument of the function or a number formed from them.
    unit : str
        Unit of the bounds, such as ``'K'``; ``'-'`` for none.
    low, high : float
        The bounds, in that unit.
    source : str
        Key of the bibliography for the range.
    """

    formula: str
    argument: str
    unit: str
    low: float
    high: float
    source: str


def outside(validity: Validity, value: float) -> bool:
    """Tell whether a value lies outside a formula's range.

    Parameters
    ----------
    validity : Validity
        The range.
    value : float
        The value [unit of the range].

    Returns
    -------
    bool
        True outside, and for NaN; False on the bounds and between them.
    """
    return not validity.low <= value <= validity.high


def power(base: Real, exponent: float) -> Real:
    """Raise to a power, float or array alike.

    Parameters
    ----------
    base : float or array
        Above zero [-].
    exponent : float
        Any number [-].

    Returns
    -------
    float or array
        The power, of the same kind as ``base`` [-].
    """
    raised: Real = base**exponent
    return raised


@overload
def in_kind(values: Floats, like: float) -> float: ...
@overload
def in_kind(values: Floats, like: Floats) -> Floats: ...
@overload
def in_kind(values: Floats, like: float | Floats) -> float | Floats: ...
def in_kind(values: Floats, like: float | Floats) -> float | Floats:  # noqa: ARG001 - a type only
    """Turn an array without axes into a float and leave any other alone.

    Parameters
    ----------
    values : array
        The numbers [-].
    like : float or array
        Names the kind for the type checker: what the caller was given [-].

    Returns
    -------
    float or array
        A float for floats, an array for arrays [-].
    """
    return values if values.shape else float(values)

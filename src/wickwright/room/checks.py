"""Misuse of this package: a number that no room or lamp can have."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterable

__all__ = ["Bound", "RoomError", "demand"]


class RoomError(ValueError):
    """A number that cannot be; the message names it, what is allowed, and the cure.

    Every fault of a record is told at once, in ``faults``.
    """

    def __init__(self, faults: Iterable[str]) -> None:
        self.faults = tuple(faults)
        super().__init__(" ".join(self.faults))


class Bound(NamedTuple):
    """What a number may be.

    Attributes
    ----------
    name : str
        What the number is, in words.
    value : float
        The number [unit].
    low, high : float
        The least and the greatest allowed [unit].
    unit : str
        Unit the numbers are in; blank for none.
    cure : str
        What to do about a wrong one, as a sentence without its stop.
    """

    name: str
    value: float
    low: float
    high: float
    unit: str
    cure: str

    @property
    def holds(self) -> bool:
        """Whether the number is allowed; NaN is not."""
        return self.low <= self.value <= self.high

    @property
    def fault(self) -> str:
        """What is wrong, in a sentence or two."""
        unit = f" {self.unit}" if self.unit else ""
        top = "no upper end" if math.isinf(self.high) else f"{self.high:g}{unit}"
        allowed = f"allowed is {self.low:g}{unit} to {top}"
        return f"The {self.name} is {self.value:g}{unit}; {allowed}. {self.cure}."


def demand(*bounds: Bound) -> None:
    """Refuse numbers out of bounds, all at once.

    Parameters
    ----------
    *bounds : Bound
        What is asked of each number.

    Raises
    ------
    RoomError
        When any is out of bounds.
    """
    faults = [bound.fault for bound in bounds if not bound.holds]
    if faults:
        raise RoomError(faults)

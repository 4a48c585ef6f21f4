"""What a solver answers."""

from __future__ import annotations

from typing import NamedTuple

__all__ = ["Best"]


class Best(NamedTuple):
    """The best answer of a solver.

    Attributes
    ----------
    cost : int or None
        Price, plus the weight of parts bought and of parts on their way out; None when there
        is no answer.
    rounds : int
        How often it was solved, each time with more cuts.
    """

    cost: int | None
    rounds: int

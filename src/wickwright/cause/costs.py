"""What steps cost, in minutes of the caller's time; everything a maker may set."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Costs", "Offer"]


@dataclass(frozen=True, slots=True)
class Costs:
    """Costs of a repair over the telephone (source key ``assumption``; a maker sets its own).

    Attributes
    ----------
    hand_over : float
        A repair at the bench, with posting and waiting [min]: the desk's main dial. The minutes
        of a book's own remedy ``bench`` stand in its place.
    cooling : float
        Letting the lamp cool and lighting it again to look, paid once for things done to a cold
        lamp together [min].
    lighting : float
        Lighting it, or looking at it lit after an act that does not cool it [min].
    coins_a_minute : float
        Money that weighs as much as one minute [smallest coin/min].
    unpriced : float
        What a part weighs whose price is not in the book [min].
    most_faults : int
        Causes that may hold at once [-].
    near : float
        Steps no further apart are as good as equal: while no cause is probably behind the
        complaint a question then comes first, though not in a short call [min].
    short_call : bool
        Whether an act comes before a question that can as well be asked after it: fewer
        questions, more acts, and causes that are less sure before the first.
    """

    hand_over: float = 180.0
    cooling: float = 12.0
    lighting: float = 6.0
    coins_a_minute: float = 100.0
    unpriced: float = 30.0
    most_faults: int = 3
    near: float = 0.3
    short_call: bool = False


@dataclass(frozen=True, slots=True)
class Offer:
    """What the parts of a remedy cost, or that there are none to be had.

    Attributes
    ----------
    price : int or None
        Price of its route [smallest coin]; None where it is not known.
    to_be_had : bool
        False where no route leads to it, so that it can only be done at the bench.
    """

    price: int | None
    to_be_had: bool = True

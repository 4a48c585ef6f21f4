"""Posteriors of any number of independent causes by inclusion and exclusion over the signs seen.

Heckerman 1989, ``heckerman1989``: exact in fractions; in floats the alternating sum loses digits
with every sign that is seen. A second engine, as judge of the first.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations
from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["posteriors"]

Number = TypeVar("Number", float, Fraction)


def _term(
    prior: Sequence[Number],
    links: Sequence[Sequence[Number]],
    leak: Sequence[Number],
    quiet: Sequence[int],
    sure: int,
) -> Number:
    """Return P(all these signs are quiet), with one cause sure to hold; none for -1."""
    total = prior[0] * 0 + 1
    for sign in quiet:
        total *= 1 - leak[sign]
    for cause, chance in enumerate(prior):
        silent = chance * 0 + 1
        for sign in quiet:
            silent *= 1 - links[sign][cause]
        total *= chance * silent if cause == sure else 1 - chance + chance * silent
    return total


def _weight(
    prior: Sequence[Number],
    links: Sequence[Sequence[Number]],
    leak: Sequence[Number],
    signs: tuple[Sequence[int], Sequence[int]],
    sure: int,
) -> Number:
    """Return P(the signs seen and not seen), with one cause sure to hold."""
    seen: Sequence[int] = signs[0]
    absent: Sequence[int] = signs[1]
    total = prior[0] * 0
    for size in range(len(seen) + 1):
        for chosen in combinations(seen, size):
            term = _term(prior, links, leak, list(absent) + list(chosen), sure)
            total = total - term if size % 2 else total + term
    return total


def posteriors(
    prior: Sequence[Number],
    links: Sequence[Sequence[Number]],
    leak: Sequence[Number],
    seen: Sequence[int],
    absent: Sequence[int],
) -> tuple[Number, list[Number]]:
    """Return P(signs) and P(cause | signs)."""
    whole = _weight(prior, links, leak, (seen, absent), -1)
    return whole, [
        _weight(prior, links, leak, (seen, absent), cause) / whole for cause in range(len(prior))
    ]

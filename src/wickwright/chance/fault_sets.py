"""The hypotheses of a diagnosis: every set of causes up to a size."""

from __future__ import annotations

from itertools import combinations
from math import comb

import numpy as np

from wickwright.chance.arrays import Bools, refuse

__all__ = ["MOST_ROWS", "fault_sets"]

MOST_ROWS = 2_000_000
"""Sets beyond which a table would not fit a desk's computer [-]."""


def fault_sets(causes: int, most: int = 3) -> Bools:
    """Return every set of at most so many causes.

    Parameters
    ----------
    causes : int
        How many causes there are [-].
    most : int
        How many may hold at once [-].

    Returns
    -------
    array
        Sets by causes [-]: the empty set first, then by size, then in the order of the causes.

    Raises
    ------
    ChanceError
        If a number is below zero, or there would be more than :data:`MOST_ROWS` sets.

    Notes
    -----
    Sets beyond ``most`` are taken to be impossible. How much that errs is for the caller to know:
    with about 0.3 causes a case and up to six signs seen, ``most`` of 3 moves no posterior by
    more than 0.02 or so, ``most`` of 1 moves them by up to 0.4.
    """
    faults = [
        f"{name} is {value}; it has to be at least 0."
        for name, value in (("causes", causes), ("most", most))
        if value < 0
    ]
    refuse(faults)
    sizes = range(min(causes, most) + 1)
    rows = sum(comb(causes, size) for size in sizes)
    if rows > MOST_ROWS:
        asked = f"{causes} causes, up to {most} at once, make {rows:,} sets"
        refuse([f"{asked}; at most {MOST_ROWS:,} fit. Allow fewer at once."])
    sets = np.zeros((rows, causes), dtype=np.bool_)
    row = 0
    for size in sizes:
        many = comb(causes, size)
        held = np.array(list(combinations(range(causes), size)), dtype=np.intp).reshape(many, size)
        sets[np.arange(row, row + many)[:, None], held] = True
        row += many
    sets.setflags(write=False)
    return sets

"""Rows of costs in numpy: adding every one to every other, and keeping the unbeaten."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeAlias

import numpy as np
from numpy.typing import NDArray

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["COSTS", "WIDTH", "Rows", "crossed", "one_row", "pareto"]

Rows: TypeAlias = NDArray[np.int64]
"""One row a filling: six costs (price, bought, dying, minus light, leverage, heat of the
burner), then mass and moment of the parts and of up to three loads, which are not costs."""

COSTS = 6
WIDTH = 14


def one_row(*costs: int) -> Rows:
    """Return a single row."""
    return np.array([costs], dtype=np.int64)


def crossed(one: Rows, other: Rows) -> Rows:
    """Return every row of one plus every row of the other."""
    return (one[:, None, :] + other[None, :, :]).reshape(-1, one.shape[1])


def pareto(parts: Sequence[Rows]) -> Rows:
    """Return the rows that no other beats in the costs, one of each, the lightest."""
    rows = parts[0] if len(parts) == 1 else np.concatenate(parts)
    if len(rows) < 2:
        return rows
    columns = rows[:, COSTS::-1].T  # numpy sorts by the last key first
    rows = rows[np.lexsort(columns)]
    kept: list[Rows] = []
    while len(rows):
        first = rows[0]
        kept.append(first)
        rows = rows[~(rows[:, :COSTS] >= first[:COSTS]).all(axis=1)]
    return np.array(kept, dtype=np.int64).reshape(-1, parts[0].shape[1])

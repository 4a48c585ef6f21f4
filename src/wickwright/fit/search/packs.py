"""How demands share an integer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.fit.search.labels import Packing

if TYPE_CHECKING:
    from collections.abc import Iterable

__all__ = ["DEMANDS", "PLENTY", "four"]

PLENTY = (1 << 30) - 1
"""More than anything demands."""

DEMANDS = Packing.of((30, 30, 30, 30))
"""Room for four demands in one integer."""


def four(values: Iterable[int], rest: int) -> list[int]:
    """Fill up to four entries."""
    entries = list(values)
    return entries + [rest] * (4 - len(entries))

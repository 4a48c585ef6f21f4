"""How demands share an integer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.fit.search.labels import Packing

if TYPE_CHECKING:
    from collections.abc import Iterable

__all__ = ["ABOVE", "DEMANDS", "DEMAND_BITS", "DEMAND_ENTRIES", "PLENTY", "four"]

PLENTY = (1 << 30) - 1
"""More than anything demands."""

DEMAND_ENTRIES = 4
"""How many different demands there can be."""

DEMANDS = Packing.of((30,) * DEMAND_ENTRIES)
"""Room for four demands in one integer."""


def four(values: Iterable[int], rest: int) -> list[int]:
    """Fill up to four entries."""
    entries = list(values)
    return entries + [rest] * (4 - len(entries))


ABOVE = 128
"""Bit position in a context above which stand the kinds already placed."""

DEMAND_BITS = (1 << ABOVE) - 1
"""The demands of a context."""

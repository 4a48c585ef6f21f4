"""What is asked of the search and what it answers."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import IntEnum
from typing import TYPE_CHECKING

from wickwright.fit.search.effort import ALLOWED
from wickwright.fit.search.labels import Packing
from wickwright.fit.search.tree import Admits

if TYPE_CHECKING:
    from collections.abc import Hashable, Mapping

    from wickwright.fit.search.tree import Node

__all__ = ["COSTS", "PACKING", "Aim", "Found", "GaveUp", "How", "Query", "Way"]


class Aim(IntEnum):
    """What is made as small as possible, in the order of a label's fields."""

    PRICE = 0
    BOUGHT = 1
    DYING = 2
    SHORTFALL = 3
    LEVERAGE = 4


COSTS = (Aim.PRICE, Aim.BOUGHT, Aim.DYING)
"""The aims of a plain query."""

PACKING = Packing.of((32, 8, 8, 16, 48))
"""Room for each aim in a label, guard bits apart."""


class How(IntEnum):
    """How a placed candidate came."""

    KEPT = 0
    BOUGHT = 1
    INCLUDED = 2


@dataclass(frozen=True, slots=True)
class Query:
    """One question to the search.

    Attributes
    ----------
    root : int
        Socket class of the root.
    owned : tuple of int
        Candidates in hand that may be used again.
    buyable, usable : bytes
        1 for each candidate that may be bought, or used at all.
    masks : tuple of hashable
        By kind, stands for ``buyable`` and ``usable`` of its candidates in the memory kept
        between queries.
    required : int
        Kinds that must be present, as bits.
    scales : tuple of (int, int)
        Factor on each demand as numerator and denominator; 0 switches it off.
    openings : tuple of tuple of int
        Sets of demands on the whole tree; one set must be met.
    pivots : mapping of int to int
        Height of the pivot for each root candidate whose balance is limited.
    dry : bool
        True when varying loads do not count.
    aims : tuple of Aim
        What is made small; empty when any way will do.
    most : mapping of Aim to int
        Highest cost allowed.
    admits : Admits
        Which candidates a socket lets in.
    loose : frozenset of int
        Atoms of sockets where misfits are allowed.
    effort : int
        Steps of work before the search gives up (:mod:`wickwright.fit.search.effort`).
    """

    root: int
    owned: tuple[int, ...]
    buyable: bytes
    usable: bytes
    masks: tuple[Hashable, ...]
    required: int = 0
    scales: tuple[tuple[int, int], ...] = ()
    openings: tuple[tuple[int, ...], ...] = ((),)
    pivots: Mapping[int, int] = field(default_factory=dict)
    dry: bool = False
    aims: tuple[Aim, ...] = COSTS
    most: Mapping[Aim, int] = field(default_factory=dict)
    admits: Admits = Admits.FITS
    loose: frozenset[int] = frozenset()
    effort: int = ALLOWED


@dataclass(frozen=True, slots=True)
class Way:
    """One way to fill the tree.

    Attributes
    ----------
    costs : tuple of int
        By :class:`Aim`; the shortfall is minus the bonus. Leverage is 0 here.
    root : Node
        The placed root and all that stands on it.
    """

    costs: tuple[int, ...]
    root: Node


@dataclass(frozen=True, slots=True)
class Found:
    """All unbeaten ways; none when the tree cannot be filled."""

    ways: tuple[Way, ...]


@dataclass(frozen=True, slots=True)
class GaveUp:
    """The search stopped before it knew, after so many steps."""

    looked_at: int

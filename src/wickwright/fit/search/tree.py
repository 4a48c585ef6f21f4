"""The compiled tree: candidates, sockets and what fits them, ignorant of what they are.

A *candidate* stands in a *socket class* of another candidate. All candidates with the same
sockets, demands and inclusions form a *group*: whatever hangs below them is the same, so it
is worked out once. Everything is integers; nothing here knows a part from a toy.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from enum import IntEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

__all__ = [
    "UNKNOWN",
    "Admits",
    "Candidate",
    "Front",
    "Group",
    "Load",
    "Node",
    "Row",
    "Socket",
    "Tree",
]

UNKNOWN = -1
"""An entry of ``gives`` that is not known."""

Node = tuple[int, int, tuple["Node | None", ...]]
"""A placed candidate: its number, how it came, what stands in each of its sockets."""

Row = tuple[int, Node | None]
"""A label and its witness; None is an empty socket."""

Front = dict[int, list[Row]]
"""Unbeaten labels with their witnesses, by the tracked kinds they hold."""


class Admits(IntEnum):
    """Which candidates a class lets in."""

    FITS = 0
    UNSURE = 1
    LOOSE = 2


@dataclass(frozen=True, slots=True)
class Load:
    """Something that shifts the balance while a candidate stands: mass and its height."""

    mass: int
    centre: int


@dataclass(frozen=True, slots=True)
class Candidate:
    """One thing that can be placed.

    Attributes
    ----------
    kind : int
        At most one candidate of a kind stands in a tree.
    price : int
        In the smallest coin.
    dying : int
        1 when it is on its way out, else 0.
    bonus : int
        What it adds to the quality that is maximised.
    sockets : tuple of int
        Socket classes it offers.
    rises : tuple of int
        Height of each socket above its own foot.
    demands, gives : tuple of int
        What it demands of everything standing on it, and what it gives to whatever it
        stands on: ``gives >= demands`` must hold entry by entry.
    brings : tuple of int
        Candidates that come with it and may stand below it for nothing.
    mass, centre : int
        Mass, and centre of mass above its own foot.
    loads : tuple of Load
        Alternatives of a varying load; the worst counts.
    """

    kind: int
    price: int = 0
    dying: int = 0
    bonus: int = 0
    sockets: tuple[int, ...] = ()
    rises: tuple[int, ...] = ()
    demands: tuple[int, ...] = ()
    gives: tuple[int, ...] = ()
    brings: tuple[int, ...] = ()
    mass: int = 0
    centre: int = 0
    loads: tuple[Load, ...] = ()

    @property
    def shape(self) -> tuple[object, ...]:
        """What decides all that can hang below it."""
        return self.kind, self.sockets, self.demands, self.brings


@dataclass(frozen=True, slots=True)
class Socket:
    """A class of sockets: who fits, and whether it must be filled.

    Attributes
    ----------
    required : bool
        An empty one leaves the tree incomplete.
    fits : frozenset of int
        Candidates that fit.
    unsure : frozenset of int
        Candidates of which it is not known.
    loosened : frozenset of int
        Candidates of the right kinds whether they fit or not: all of the others and more.
        Sockets that take the same kinds share one set, so that what follows from it is
        worked out once. Empty where nothing is ever loosened.
    atom : int
        The requirement that is given up when a misfit is allowed.
    """

    required: bool
    fits: frozenset[int]
    unsure: frozenset[int] = frozenset()
    loosened: frozenset[int] = frozenset()
    atom: int = 0


@dataclass(frozen=True, slots=True)
class Group:
    """Candidates of one class below which the same can hang, cheapest first."""

    shape: int
    members: tuple[int, ...]


@dataclass(frozen=True)
class Tree:
    """Everything the search needs, compiled once for a book.

    Attributes
    ----------
    candidates : sequence of Candidate
        By number.
    sockets : sequence of Socket
        By class number.
    reach : sequence of int
        Kinds that can stand in or below a class, as bits.
    doubled : int
        Kinds that can stand below two sockets of one candidate, as bits.
    offers : sequence of sequence of sequence of int
        For each class and each demand, the distinct amounts given in or below it, ascending,
        plenty left out.
    users : mapping of int to frozenset of int
        The classes whose tree can hold a candidate where only what fits is admitted.
    shapes : sequence of int
        Shape number of each candidate; equal numbers carry equal trees.
    forced : int
        Kinds that can stand in a socket that must be filled, as bits.
    outside : sequence of int
        Kinds that can stand elsewhere in a tree than in or below a class, as bits.
    must : sequence of int
        Kinds that are bound to be there where a candidate stands, its own included, as bits.
    bound : sequence of (int, int, int)
        For each class, as bits: kinds bound to stand below any member, the members' own
        kinds, and kinds that come with some member.
    beneath : mapping of int to int
        By kind, the kinds that can stand below one of it, as bits.
    atoms_reach : sequence of int
        Atoms of the sockets in or below a class, as bits.
    demanding : int
        Kinds of which some candidate demands something, as bits.
    climbing : int
        Kinds that can stand above another of their own kind, as bits; kept from doing so.
    """

    candidates: Sequence[Candidate]
    sockets: Sequence[Socket]
    reach: Sequence[int]
    doubled: int
    offers: Sequence[Sequence[Sequence[int]]]
    shapes: Sequence[int]
    users: Mapping[int, frozenset[int]]
    climbing: int
    forced: int
    outside: Sequence[int]
    must: Sequence[int]
    bound: Sequence[tuple[int, int, int]]
    beneath: Mapping[int, int]
    atoms_reach: Sequence[int]
    demanding: int
    groups: dict[tuple[int, Admits], tuple[Group, ...]] = field(default_factory=dict)

    def members(self, socket: int, admits: Admits) -> frozenset[int]:
        """Return the candidates of a class under the given leniency."""
        entry = self.sockets[socket]
        if admits is Admits.FITS:
            return entry.fits
        return entry.fits | entry.unsure if admits is Admits.UNSURE else entry.loosened

    def grouped(self, socket: int, admits: Admits) -> tuple[Group, ...]:
        """Return the members of a class in groups, worked out at the first asking."""
        key = (socket, admits)
        found = self.groups.get(key)
        if found is None:
            found = self.groups[key] = _grouped(self, self.members(socket, admits))
        return found


def _grouped(tree: Tree, members: Iterable[int]) -> tuple[Group, ...]:
    by_shape: defaultdict[int, list[int]] = defaultdict(list)
    for number in members:
        by_shape[tree.shapes[number]].append(number)
    candidates = tree.candidates

    def rank(number: int) -> tuple[int, int, int, int]:
        it = candidates[number]
        return it.price, it.dying, -it.bonus, number

    groups = [Group(shape, tuple(sorted(numbers, key=rank))) for shape, numbers in by_shape.items()]
    return tuple(sorted(groups, key=lambda group: rank(group.members[0])))

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

from wickwright.fit.search.packs import DEMAND_ENTRIES, PLENTY

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
    "build_tree",
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
        Candidates of the right kinds whether they fit or not.
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
    optional_reach : int
        Kinds that can be left out because a socket on the way is optional, as bits.
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
    optional_reach: int
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


def _reaches(candidates: Sequence[Candidate], sockets: Sequence[Socket]) -> list[int]:
    """Kinds in or below each class."""
    direct = [_bits(candidates[number].kind for number in _everyone(socket)) for socket in sockets]
    return _spread(candidates, sockets, direct)


def _everyone(socket: Socket) -> frozenset[int]:
    return socket.fits | socket.unsure | socket.loosened


def _spread(
    candidates: Sequence[Candidate], sockets: Sequence[Socket], direct: list[int]
) -> list[int]:
    """Bits of each class joined with those of all classes below it, until nothing changes."""
    below = [
        frozenset(s for number in _everyone(socket) for s in candidates[number].sockets)
        for socket in sockets
    ]
    spread = direct[:]
    changed = True
    while changed:
        changed = False
        for at, under in enumerate(below):
            bits = spread[at]
            for socket_number in under:
                bits |= spread[socket_number]
            if bits != spread[at]:
                spread[at] = bits
                changed = True
    return spread


def _bits(kinds: Iterable[int]) -> int:
    bits = 0
    for kind in kinds:
        bits |= 1 << kind
    return bits


def _offers(
    candidates: Sequence[Candidate], sockets: Sequence[Socket]
) -> tuple[tuple[tuple[int, ...], ...], ...]:
    """Distinct amounts given in or below each class, by demand."""
    amounts = sorted({(at, value) for it in candidates for at, value in enumerate(it.gives)})
    bit = {amount: 1 << number for number, amount in enumerate(amounts)}
    own = [_sum_bits(bit[amount] for amount in enumerate(it.gives)) for it in candidates]
    direct = [_sum_bits(own[number] for number in _everyone(socket)) for socket in sockets]
    shared: dict[int, tuple[tuple[int, ...], ...]] = {}
    for bits in set(spread := _spread(candidates, sockets, direct)):
        there = [amount for amount in amounts if bits & bit[amount]]
        shared[bits] = tuple(
            tuple(value for at, value in there if at == entry and value != PLENTY)
            for entry in range(DEMAND_ENTRIES)
        )
    return tuple(shared[bits] for bits in spread)


def _sum_bits(parts: Iterable[int]) -> int:
    bits = 0
    for part in parts:
        bits |= part
    return bits


def _forced(candidates: Sequence[Candidate], sockets: Sequence[Socket]) -> int:
    return _bits(
        candidates[number].kind
        for socket in sockets
        if socket.required
        for number in _everyone(socket)
    )


def _outside(
    candidates: Sequence[Candidate], sockets: Sequence[Socket], reach: Sequence[int]
) -> list[int]:
    """Kinds beside each class: on the sockets next to it, and beside what carries it."""
    shapes = [
        {candidates[number].sockets for number in _everyone(socket)} - {()} for socket in sockets
    ]
    outside = [0] * len(sockets)
    changed = True
    while changed:
        changed = False
        for above, offered in enumerate(shapes):
            for shape in offered:
                for at, socket in enumerate(shape):
                    beside = outside[above]
                    for other, sibling in enumerate(shape):
                        beside |= reach[sibling] if other != at else 0
                    if beside | outside[socket] != outside[socket]:
                        outside[socket] |= beside
                        changed = True
    return outside


def _must(candidates: Sequence[Candidate], sockets: Sequence[Socket]) -> list[int]:
    """Kinds bound to come with each candidate, growing until nothing changes."""
    must = [1 << it.kind for it in candidates]
    changed = True
    while changed:
        changed = False
        bound = [_shared_bits(must, socket) for socket in sockets]
        for at, it in enumerate(candidates):
            bits = must[at] | _sum_bits(bound[socket] for socket in it.sockets)
            if bits != must[at]:
                must[at] = bits
                changed = True
    return must


def _bound(
    candidates: Sequence[Candidate], must: Sequence[int], socket: Socket
) -> tuple[int, int, int]:
    shared, own, brought = -1, 0, 0
    for number in _everyone(socket):
        it = candidates[number]
        shared &= must[number] & ~(1 << it.kind)
        own |= 1 << it.kind
        brought |= _bits(candidates[one].kind for one in it.brings)
    return max(shared, 0), own, brought


def _shared_bits(must: Sequence[int], socket: Socket) -> int:
    if not socket.required:
        return 0
    shared = -1
    for number in _everyone(socket):
        shared &= must[number]
    return max(shared, 0)


def _beneath(candidates: Sequence[Candidate], reach: Sequence[int]) -> dict[int, int]:
    beneath: defaultdict[int, int] = defaultdict(int)
    for kind, shape in {(candidate.kind, candidate.sockets) for candidate in candidates}:
        for socket in shape:
            beneath[kind] |= reach[socket]
    return dict(beneath)


def _climbing(candidates: Sequence[Candidate], reach: Sequence[int]) -> int:
    bits = 0
    for kind, shape in {(candidate.kind, candidate.sockets) for candidate in candidates}:
        for socket in shape:
            bits |= reach[socket] & (1 << kind)
    return bits


def _doubled(candidates: Sequence[Candidate], reach: Sequence[int]) -> int:
    twice = 0
    for shape in {candidate.sockets for candidate in candidates}:
        once = 0
        for socket in shape:
            twice |= once & reach[socket]
            once |= reach[socket]
    return twice


def _users(candidates: Sequence[Candidate], sockets: Sequence[Socket]) -> dict[int, frozenset[int]]:
    """The classes in or below which each candidate can stand."""
    holders: defaultdict[int, set[int]] = defaultdict(set)
    for at, socket in enumerate(sockets):
        for number in socket.fits | socket.unsure:
            holders[number].add(at)
    parents: defaultdict[int, set[int]] = defaultdict(set)
    for number, candidate in enumerate(candidates):
        for socket_number in candidate.sockets:
            parents[socket_number] |= holders[number]
    above: dict[int, frozenset[int]] = {}
    for start in range(len(sockets)):
        above[start] = _climb(start, parents)
    shared: dict[frozenset[int], frozenset[int]] = {}
    return {
        number: shared.setdefault(
            frozenset(at), frozenset().union(*(above[socket] for socket in at))
        )
        for number, at in holders.items()
    }


def _climb(start: int, parents: Mapping[int, set[int]]) -> frozenset[int]:
    seen = {start}
    todo = [start]
    while todo:
        for parent in parents.get(todo.pop(), ()):
            if parent not in seen:
                seen.add(parent)
                todo.append(parent)
    return frozenset(seen)


def build_tree(candidates: Sequence[Candidate], sockets: Sequence[Socket]) -> Tree:
    """Compile candidates and socket classes.

    Parameters
    ----------
    candidates : sequence of Candidate
        By number.
    sockets : sequence of Socket
        By class number.

    Returns
    -------
    Tree
        With reaches, groups and users worked out.
    """
    shape_numbers: dict[tuple[object, ...], int] = {}
    shapes = [
        shape_numbers.setdefault(candidate.shape, len(shape_numbers)) for candidate in candidates
    ]
    reach = _reaches(candidates, sockets)
    must = _must(candidates, sockets)
    optional = 0
    for at, socket in enumerate(sockets):
        if not socket.required:
            optional |= reach[at]
    return Tree(
        candidates=candidates,
        sockets=sockets,
        reach=reach,
        optional_reach=optional,
        doubled=_doubled(candidates, reach),
        offers=_offers(candidates, sockets),
        shapes=shapes,
        users=_users(candidates, sockets),
        climbing=_climbing(candidates, reach),
        forced=_forced(candidates, sockets),
        outside=_outside(candidates, sockets, reach),
        must=must,
        bound=[_bound(candidates, must, socket) for socket in sockets],
        beneath=_beneath(candidates, reach),
        atoms_reach=_spread(candidates, sockets, [1 << socket.atom for socket in sockets]),
        demanding=_bits(candidate.kind for candidate in candidates if candidate.demands),
    )

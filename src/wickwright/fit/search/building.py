"""From candidates and sockets to a compiled tree: everything that can be known beforehand."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from wickwright.fit.search.packs import DEMAND_ENTRIES, PLENTY
from wickwright.fit.search.tree import Tree

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from wickwright.fit.search.tree import Candidate, Socket

__all__ = ["build_tree"]


def _everyone(socket: Socket) -> frozenset[int]:
    return socket.loosened or socket.fits | socket.unsure


class _Crowds:
    """The sets of candidates of all sockets, each looked at once."""

    def __init__(self, candidates: Sequence[Candidate], sockets: Sequence[Socket]) -> None:
        self.candidates = candidates
        self.of = [_everyone(socket) for socket in sockets]
        self.shapes = {
            crowd: {(candidates[n].kind, candidates[n].sockets) for n in crowd}
            for crowd in set(self.of)
        }

    def kinds(self) -> list[int]:
        """Kinds of each socket's crowd, as bits."""
        bits = {crowd: _bits(kind for kind, _ in some) for crowd, some in self.shapes.items()}
        return [bits[crowd] for crowd in self.of]

    def spread(self, direct: list[int]) -> list[int]:
        """Join the bits of each class with those of all below it, until nothing changes."""
        below = {
            crowd: frozenset(s for _, shape in some for s in shape)
            for crowd, some in self.shapes.items()
        }
        spread = direct[:]
        changed = True
        while changed:
            changed = False
            joined = {
                crowd: _sum_bits(spread[at] for at in under) for crowd, under in below.items()
            }
            for at, crowd in enumerate(self.of):
                bits = spread[at] | joined[crowd]
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
    candidates: Sequence[Candidate], crowds: _Crowds
) -> tuple[tuple[tuple[int, ...], ...], ...]:
    """Distinct amounts given in or below each class, by demand."""
    amounts = sorted({(at, value) for it in candidates for at, value in enumerate(it.gives)})
    bit = {amount: 1 << number for number, amount in enumerate(amounts)}
    own = [_sum_bits(bit[amount] for amount in enumerate(it.gives)) for it in candidates]
    given = {crowd: _sum_bits(own[number] for number in crowd) for crowd in crowds.shapes}
    spread = crowds.spread([given[crowd] for crowd in crowds.of])
    shared: dict[int, tuple[tuple[int, ...], ...]] = {}
    for bits in set(spread):
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


def _outside(
    candidates: Sequence[Candidate], kinds: Sequence[int], reach: Sequence[int]
) -> list[int]:
    """Kinds beside each class: on the sockets next to it, and beside what carries it."""
    shapes = {(it.kind, it.sockets) for it in candidates if it.sockets}
    outside = [0] * len(reach)
    changed = True
    while changed:
        changed = False
        around: defaultdict[int, int] = defaultdict(int)
        for at, bits in enumerate(kinds):
            if outside[at]:
                for kind in _numbers(bits):
                    around[kind] |= outside[at]
        for kind, shape in shapes:
            for at, socket in enumerate(shape):
                beside = around[kind]
                for other, sibling in enumerate(shape):
                    beside |= reach[sibling] if other != at else 0
                if beside & ~outside[socket]:
                    outside[socket] |= beside
                    changed = True
    return outside


def _numbers(bits: int) -> list[int]:
    return [at for at in range(bits.bit_length()) if bits >> at & 1]


def _must(candidates: Sequence[Candidate], sockets: Sequence[Socket], crowds: _Crowds) -> list[int]:
    """Kinds bound to come with each candidate, growing until nothing changes."""
    must = [1 << it.kind for it in candidates]
    changed = True
    while changed:
        changed = False
        shared = {crowd: _shared_bits(must[number] for number in crowd) for crowd in crowds.shapes}
        bound = [
            shared[crowd] if socket.required else 0
            for socket, crowd in zip(sockets, crowds.of, strict=True)
        ]
        for at, it in enumerate(candidates):
            bits = must[at] | _sum_bits(bound[socket] for socket in it.sockets)
            if bits != must[at]:
                must[at] = bits
                changed = True
    return must


def _bound(
    candidates: Sequence[Candidate], must: Sequence[int], crowds: _Crowds
) -> list[tuple[int, int, int]]:
    """For each class: kinds bound to stand below any member, own kinds, kinds included."""
    known = {}
    for crowd in crowds.shapes:
        own = _bits(candidates[number].kind for number in crowd)
        shared = _shared_bits(must[n] & ~(1 << candidates[n].kind) for n in crowd)
        brought = _bits(candidates[one].kind for n in crowd for one in candidates[n].brings)
        known[crowd] = (shared, own, brought)
    return [known[crowd] for crowd in crowds.of]


def _shared_bits(parts: Iterable[int]) -> int:
    shared = -1
    for part in parts:
        shared &= part
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
    crowds = _Crowds(candidates, sockets)
    kinds = crowds.kinds()
    reach = crowds.spread(kinds)
    must = _must(candidates, sockets, crowds)
    forced = [bits for bits, socket in zip(kinds, sockets, strict=True) if socket.required]
    return Tree(
        candidates=candidates,
        sockets=sockets,
        reach=reach,
        doubled=_doubled(candidates, reach),
        offers=_offers(candidates, crowds),
        shapes=shapes,
        users=_users(candidates, sockets),
        climbing=_climbing(candidates, reach),
        forced=_sum_bits(forced),
        outside=_outside(candidates, kinds, reach),
        must=must,
        bound=_bound(candidates, must, crowds),
        beneath=_beneath(candidates, reach),
        atoms_reach=crowds.spread([1 << socket.atom for socket in sockets]),
        demanding=_bits(candidate.kind for candidate in candidates if candidate.demands),
    )

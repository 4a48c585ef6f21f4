"""Putting a list of parts together: which stands on which."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wickwright.catalogue.assembly import Assembly, Mounted
from wickwright.catalogue.records import KINDS
from wickwright.fit.joiner import RANK

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickwright.catalogue.records import Part, Port
    from wickwright.fit.joiner import Joiner

__all__ = ["assemble", "forest"]


class _Seat(NamedTuple):
    """A free place for a part: the carrying part, both ports, and how well they fit."""

    rank: int
    order: int
    carrier: int
    on: Port
    by: Port


def assemble(parts: Sequence[Part], joiner: Joiner) -> Assembly:
    """Put parts together, each in the best free place that takes its kind.

    Parameters
    ----------
    parts : sequence of Part
        In any order; of two bases the first is the root.
    joiner : Joiner
        Judges the joints.

    Returns
    -------
    Assembly
        Parts are mounted where their kind belongs even when the joint does not fit, so
        that the misfit can be told; parts without any place are left loose.
    """
    root = next((at for at, part in enumerate(parts) if part.kind == "base"), None)
    if root is None:
        return Assembly(None, tuple(parts))
    return _grown(parts, root, joiner)


def forest(parts: Sequence[Part], joiner: Joiner) -> tuple[Assembly, ...]:
    """Put parts together as far as they go, without a base to begin with.

    Parameters
    ----------
    parts : sequence of Part
        In any order.
    joiner : Joiner
        Judges the joints.

    Returns
    -------
    tuple of Assembly
        One for each group of parts that stand on each other; nothing is left loose.
    """
    grown: list[Assembly] = []
    rest = sorted(parts, key=lambda part: _ORDER[part.kind])
    while rest:
        assembly = _grown(rest, 0, joiner)
        grown.append(Assembly(assembly.root))
        rest = list(assembly.loose)
    return tuple(grown)


_ORDER = {kind: at for at, kind in enumerate(KINDS)}


def _grown(parts: Sequence[Part], root: int, joiner: Joiner) -> Assembly:
    seats = _seated(parts, root, joiner)
    tree = _mounted(parts, root, None, seats)
    loose = tuple(part for at, part in enumerate(parts) if at != root and at not in seats)
    return Assembly(tree, loose)


def _seated(parts: Sequence[Part], root: int, joiner: Joiner) -> dict[int, _Seat]:
    """Give every part a seat, best joints first, as seats appear from the root up."""
    seats: dict[int, _Seat] = {}
    taken: set[tuple[int, str]] = set()
    waiting = [at for at in range(len(parts)) if at != root]
    while waiting:
        offers = [
            (seat, at)
            for at in waiting
            for seat in _seats(parts, at, (root, *seats), taken, joiner)
        ]
        if not offers:
            break
        seat, at = min(offers, key=lambda offer: _first(parts, *offer))
        seats[at] = seat
        taken.add((seat.carrier, seat.on.name))
        waiting.remove(at)
    return seats


def _first(parts: Sequence[Part], seat: _Seat, at: int) -> tuple[int, int, int, int]:
    """Best joint, highest place, then from the table up whatever the order of the list."""
    return seat.rank, seat.order, _ORDER[parts[at].kind], at


def _seats(
    parts: Sequence[Part],
    at: int,
    placed: tuple[int, ...],
    taken: set[tuple[int, str]],
    joiner: Joiner,
) -> Iterator[_Seat]:
    for order, carrier in enumerate(placed):
        for on in parts[carrier].carries:
            if parts[at].kind in on.takes and (carrier, on.name) not in taken:
                best = joiner.best(parts[carrier], on, parts[at])
                if best:
                    yield _Seat(RANK[best[1].fit], -order, carrier, on, best[0])


def _mounted(
    parts: Sequence[Part], at: int, seat: _Seat | None, seats: dict[int, _Seat]
) -> Mounted:
    carried = tuple(
        _mounted(parts, child, its, seats) for child, its in seats.items() if its.carrier == at
    )
    if seat is None:
        return Mounted(parts[at], carried=carried)
    return Mounted(parts[at], seat.by, seat.on, carried)

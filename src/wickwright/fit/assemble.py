"""Putting a list of parts together: which stands on which."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wickwright.catalogue.assembly import Assembly, Mounted
from wickwright.fit.joints import judge
from wickwright.fit.joints.verdict import Fit, Half

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickwright.catalogue.records import Part, Port
    from wickwright.fit.joints.verdict import Joined
    from wickwright.fit.settings import Settings

__all__ = ["assemble", "best_joint", "joined"]

_RANK = {fit: rank for rank, fit in enumerate(Fit)}


class _Seat(NamedTuple):
    """A free place for a part: the carrying part, both ports, and how well they fit."""

    rank: int
    order: int
    carrier: int
    on: Port
    by: Port


def joined(below: Part, on: Port, above: Part, by: Port, settings: Settings) -> Joined:
    """Judge one joint at its service temperatures.

    Parameters
    ----------
    below, above : Part
        The carrying and the standing part.
    on, by : Port
        Their halves of the joint.
    settings : Settings
        Service temperatures.

    Returns
    -------
    Joined
        The verdict.
    """
    warmth = settings.warmth(on.joint)
    return judge(Half(on, below.material), Half(by, above.material), warmth)


def best_joint(below: Part, on: Port, above: Part, settings: Settings) -> tuple[Port, Joined] | None:
    """Return the port by which a part stands best on another, and the verdict."""
    judged = [(by, joined(below, on, above, by, settings)) for by in above.stands]
    return min(judged, key=lambda pair: _RANK[pair[1].fit], default=None)


def assemble(parts: Sequence[Part], settings: Settings) -> Assembly:
    """Put parts together, each in the best free place that takes its kind.

    Parameters
    ----------
    parts : sequence of Part
        In any order; of two bases the first is the root.
    settings : Settings
        Service temperatures.

    Returns
    -------
    Assembly
        Parts are mounted where their kind belongs even when the joint does not fit, so
        that the misfit can be told; parts without any place are left loose.
    """
    root = next((at for at, part in enumerate(parts) if part.kind == "base"), None)
    if root is None:
        return Assembly(None, tuple(parts))
    seats = _seated(parts, root, settings)
    tree = _mounted(parts, root, None, seats)
    loose = tuple(
        part for at, part in enumerate(parts) if at != root and at not in seats
    )
    return Assembly(tree, loose)


def _seated(parts: Sequence[Part], root: int, settings: Settings) -> dict[int, _Seat]:
    """Give every part a seat, best joints first, as seats appear from the root up."""
    seats: dict[int, _Seat] = {}
    taken: set[tuple[int, str]] = set()
    waiting = [at for at in range(len(parts)) if at != root]
    while waiting:
        offers = [
            (seat, at)
            for at in waiting
            for seat in _seats(parts, at, (root, *seats), taken, settings)
        ]
        if not offers:
            break
        seat, at = min(offers, key=lambda offer: (offer[0].rank, offer[0].order, offer[1]))
        seats[at] = seat
        taken.add((seat.carrier, seat.on.name))
        waiting.remove(at)
    return seats


def _seats(
    parts: Sequence[Part],
    at: int,
    placed: tuple[int, ...],
    taken: set[tuple[int, str]],
    settings: Settings,
) -> Iterator[_Seat]:
    for order, carrier in enumerate(placed):
        for on in parts[carrier].carries:
            if parts[at].kind in on.takes and (carrier, on.name) not in taken:
                best = best_joint(parts[carrier], on, parts[at], settings)
                if best:
                    yield _Seat(_RANK[best[1].fit], -order, carrier, on, best[0])


def _mounted(
    parts: Sequence[Part], at: int, seat: _Seat | None, seats: dict[int, _Seat]
) -> Mounted:
    carried = tuple(
        _mounted(parts, child, its, seats) for child, its in seats.items() if its.carrier == at
    )
    if seat is None:
        return Mounted(parts[at], carried=carried)
    return Mounted(parts[at], seat.by, seat.on, carried)

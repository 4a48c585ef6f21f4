"""In which order parts are taken off a lamp and put on it, from the joints of before and after.

Parts come off from the top down and go on from the table up. What stays where it is has no
step; what is in the way of another part comes off for it and goes back.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from wickwright.catalogue.assembly import Mounted
    from wickwright.catalogue.records import Part, Port
    from wickwright.fit.request import Situation
    from wickwright.fit.routes import Route

__all__ = ["IN_THE_WAY", "Do", "Step", "fitting_steps"]


class Do(StrEnum):
    """What is done with a part."""

    CLEAR = "clear away"
    ASIDE = "put aside"
    OFF = "take off"
    ON = "put on"


@dataclass(frozen=True, slots=True)
class Step:
    """One step.

    Attributes
    ----------
    do : Do
        ``clear away`` what is left of a part that is broken or gone; ``put aside`` one that is
        not used again; ``take off`` one that goes back; ``put on``.
    part : Part
        What is handled.
    carrier : Part or None
        What it stands on; None for the base.
    on : Port or None
        Where on the carrier; None for the base.
    riders : tuple of Part
        What stands on it and is handled with it.
    fresh : bool
        True where the part is sent.
    """

    do: Do
    part: Part
    carrier: Part | None
    on: Port | None
    riders: tuple[Part, ...] = ()
    fresh: bool = False

    @property
    def joint(self) -> str:
        """How it is held; blank for the base."""
        return self.on.joint if self.on else ""


_FROM_THE_TOP: Final = (
    "bell", "shade", "chimney", "holder", "mantle", "gallery", "spreader", "wick", "bulb",
    "burner", "reducer", "font", "base",
)  # fmt: skip
"""Kinds in the order they come off; tools are never mounted."""

IN_THE_WAY: Final[Mapping[str, tuple[str, ...]]] = {
    "chimney": ("shade",),
    "holder": ("shade", "chimney"),
    "bulb": ("shade", "chimney"),
    "mantle": ("shade", "chimney"),
    "gallery": ("shade", "chimney"),
    "spreader": ("shade", "chimney", "mantle", "gallery"),
    "wick": ("shade", "chimney", "mantle", "gallery", "spreader"),
    "burner": ("shade", "chimney", "mantle", "gallery"),
    "reducer": ("shade", "chimney", "mantle", "gallery"),
    "font": ("shade", "chimney"),
    "base": ("shade", "chimney"),
}
"""What has to be off the lamp before a part of a kind is handled (source key ``practice``)."""

_GLASS: Final = ("chimney", "shade", "bell")
"""Never handled together with what it stands on."""
_IN_PIECES: Final = ("chimney", "shade", "mantle", "bulb")
"""Of these something may be left on the lamp when they are broken."""


@dataclass(frozen=True, slots=True)
class _Seat:
    """A part in its place, and what it stands on."""

    it: Mounted
    carrier: Part | None

    @property
    def part(self) -> Part:
        return self.it.part


_Seats = dict[str, _Seat]
"""Parts in their places, by kind."""


def fitting_steps(now: Situation, route: Route) -> tuple[Step, ...]:
    """Return what is done with the lamp, in order.

    Parameters
    ----------
    now : Situation
        The lamp as it is.
    route : Route
        The lamp as it is going to be.

    Returns
    -------
    tuple of Step
        First all that comes off, from the top down, then all that goes on, from the table up;
        empty where the lamp stays as it is. What comes fitted in a part sent has no step.
    """
    before, after = _there(now), _seats(route.assembly.root, None)
    fresh = {part.id for part in (*route.buy, *route.included)}
    kept = {part.id for part in route.keep}
    touched = {*_touched(before, after, fresh, kept)}
    off = _off(before, kept, touched)
    on = {kind for kind in after if kind in touched | off and not _comes_fitted(after, kind, fresh)}
    owned = {part.id for part in now.owned}
    return (
        *(_taken(before, kind, off, kept, owned) for kind in _FROM_THE_TOP if kind in off),
        *(_put(after, kind, on, fresh) for kind in reversed(_FROM_THE_TOP) if kind in on),
    )


def _there(now: Situation) -> _Seats:
    """What is on the lamp: nothing stands on a lost part, and only glass leaves pieces."""
    owned = {part.id for part in now.owned}
    gone = {it.part.kind for it in now.now.walk() if it.part.id not in owned}
    seats = _seats(now.now.root, None, frozenset(gone))
    return {k: seat for k, seat in seats.items() if k not in gone or k in _IN_PIECES}


def _seats(it: Mounted | None, carrier: Part | None, gone: frozenset[str] = frozenset()) -> _Seats:
    if it is None or it.part.kind == "tool":
        return {}
    seats = {it.part.kind: _Seat(it, carrier)}
    for child in it.carried if it.part.kind not in gone else ():
        seats |= _seats(child, it.part, gone)
    return seats


def _touched(before: _Seats, after: _Seats, fresh: set[str], kept: set[str]) -> Iterator[str]:
    """Yield kinds that change, or stand on something else than before."""
    for kind, seat in before.items():
        if seat.part.id not in kept:
            yield kind
    for kind, seat in after.items():
        was = before.get(kind)
        carrier = seat.carrier.id if seat.carrier else ""
        stood_on = was.carrier.id if was and was.carrier else ""
        moved = was is None or carrier != stood_on or carrier in fresh
        if seat.part.id in fresh or moved:
            yield kind


def _off(before: _Seats, kept: set[str], touched: set[str]) -> set[str]:
    """Return the kinds that come off by themselves: what changes, and what is in its way."""
    handled, waiting = set[str](), {*touched}
    while waiting:
        kind = waiting.pop()
        handled.add(kind)
        waiting |= {*IN_THE_WAY.get(kind, ())} & {*before} - handled
    off = {k for k in handled if k in before and not _goes_along(before[k], kept)}
    while more := {*_covering(before, off)}:
        off |= more
    return off


def _covering(before: _Seats, off: set[str]) -> Iterator[str]:
    """Yield what would go along with its carrier, but is in the way of something on that."""
    for kind in off:
        along = {part.kind for part in _riders(before[kind].it, off)}
        yield from ({*IN_THE_WAY.get(kind, ())} & {*before}) - off - along


def _goes_along(seat: _Seat, kept: set[str]) -> bool:
    """Tell whether a part goes aside on what it stands on, which goes aside too."""
    carrier = seat.carrier
    gone = carrier is not None and not {seat.part.id, carrier.id} & kept
    return gone and seat.part.kind not in _GLASS


def _comes_fitted(after: _Seats, kind: str, fresh: set[str]) -> bool:
    """Tell whether a part sent is in its place in another part sent."""
    seat = after[kind]
    part = seat.part.id
    while kind not in _GLASS and seat.carrier is not None and seat.carrier.id in fresh:
        if part in seat.carrier.includes:
            return True
        seat = after[seat.carrier.kind]
    return False


def _taken(before: _Seats, kind: str, off: set[str], kept: set[str], owned: set[str]) -> Step:
    seat = before[kind]
    there = Do.OFF if seat.part.id in kept else Do.ASIDE
    do = there if seat.part.id in owned else Do.CLEAR
    return Step(do, seat.part, seat.carrier, seat.it.on, _riders(seat.it, off))


def _put(after: _Seats, kind: str, on: set[str], fresh: set[str]) -> Step:
    seat = after[kind]
    riders = _riders(seat.it, on)
    return Step(Do.ON, seat.part, seat.carrier, seat.it.on, riders, seat.part.id in fresh)


def _riders(it: Mounted, handled: set[str]) -> tuple[Part, ...]:
    """Return what stands on a part and is not handled by itself."""
    along = [one for one in it.carried if one.part.kind not in {*handled, "tool"}]
    return tuple(part for one in along for part in (one.part, *_riders(one, handled)))

"""The order as it should be: the same kinds, with parts that fit, and what goes with them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.catalogue.records import Ask, Service, Wish
from wickwright.fit.request import Request, claims_of, query_of, situation
from wickwright.fit.routes import Route, route_of
from wickwright.fit.search.query import Found
from wickwright.fit.search.solve import solve
from wickwright.orders.mounting import first_of_each_kind

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickwright.catalogue.records import Part
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.request import Situation
    from wickwright.orders.checking import Checked
    from wickwright.orders.understood import Understood

__all__ = ["HOPELESS", "Mended", "mend", "to_mend"]


HOPELESS = frozenset(
    {
        "dead",
        "not-heat-rated",
        "not-known",
        "oil-beside-electric",
        "over-limit",
        "surplus",
        "tips",
        "wrong-for-place",
    }
)
"""Faults that no companion can cure: another part must take the place of this one."""


@dataclass(frozen=True, slots=True)
class Mended:
    """An order put right.

    Attributes
    ----------
    now : Situation
        What the lamp has and the order wants of it.
    route : Route
        What one lamp needs, with all findings on the finished lamp.
    lines : tuple of (Part, int)
        What to send, and how many of each.
    price : int
        Of all lines, in the smallest coin.
    changed : tuple of Part
        Ordered parts that another part stands in for, or that come anyway.
    given_up : tuple of str
        Kinds that were ordered and cannot be had on this lamp at all.
    """

    now: Situation
    route: Route
    lines: tuple[tuple[Part, int], ...]
    price: int
    changed: tuple[Part, ...]
    given_up: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Attempt:
    """One idea of the order as it should be: parts kept, kinds wanted, materials kept."""

    keep: tuple[Part, ...]
    kinds: tuple[str, ...]
    alike: tuple[Part, ...] = ()


def mend(compiled: Compiled, checked: Checked) -> Mended | None:
    """Propose the order as it should be.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    checked : Checked
        The order with its faults.

    Returns
    -------
    Mended or None
        The cheapest that keeps as much of the order as can be kept; None when the lamp is
        not known, or nothing that was ordered can be had on it.
    """
    understood = checked.understood
    if understood.lamp is None or not to_mend(checked):
        return None
    burners = {part.service for part in understood.parts if part.kind == "burner"} - {None}
    if len(burners) > 1:
        return None
    ordered = first_of_each_kind(understood)
    for attempt in _attempts(ordered, checked):
        found = _route(compiled, understood, attempt) if attempt.kinds else None
        if found:
            given_up = {part.kind for part in ordered} - set(attempt.kinds)
            return _mended(*found, understood, given_up)
    return None


def to_mend(checked: Checked) -> bool:
    """Tell whether the order can be put right without an answer from the caller.

    Parameters
    ----------
    checked : Checked
        The order with its faults.

    Returns
    -------
    bool
        False while it has no number, while its place is not known, and where the only
        question is which lamp or place is meant.
    """
    order = checked.understood.order
    asked = {fault.fault for fault in checked.faults}
    unread = {one.column.lower() for line in order.lines for one in line.unread}
    no_place = not order.place and any(column.startswith("place") for column in unread)
    return bool(order.id) and "bad-place" not in asked and not no_place and not asked <= _QUESTIONS


_QUESTIONS = frozenset({"two-lamps", "two-places"})


def _attempts(ordered: Sequence[Part], checked: Checked) -> Iterator[_Attempt]:
    """Ideas from the one nearest to the order to the one furthest from it."""
    faults = {(fault.part, fault.fault) for fault in checked.faults}
    hopeless = {part for part, fault in faults if fault in HOPELESS}
    faulty = {part for part, fault in faults if fault not in ("dying", "short-stock")}
    hoped = tuple(part for part in ordered if part.id not in hopeless)
    sound = tuple(part for part in ordered if part.id not in faulty)
    kinds = tuple(part.kind for part in ordered)
    lost = tuple(part for part in ordered if part.id in hopeless)
    yield _Attempt(hoped, kinds, lost)
    yield _Attempt(hoped, kinds)
    yield _Attempt(sound, kinds)
    yield _Attempt((), kinds)
    yield _Attempt(sound, tuple(part.kind for part in sound))


def _route(
    compiled: Compiled, understood: Understood, attempt: _Attempt
) -> tuple[Situation, Route] | None:
    """Find the cheapest route that renews the kinds, with the kept parts as they are."""
    asks = [Ask("renew", kind) for kind in attempt.kinds]
    asks += [Ask("only", part.kind, "part", "is", part.id) for part in attempt.keep]
    asks += [Ask("only", part.kind, "material", "is", part.material) for part in attempt.alike]
    service = _service(understood)
    if service:
        asks.append(Ask("service", value=service))
    lamp = understood.lamp.id if understood.lamp else ""
    wish = Wish("mend", "the order put right", tuple(asks))
    now = situation(compiled, Request(lamp, wish, place=understood.place, count=_count(understood)))
    outcome = solve(compiled.memory, query_of(compiled, now, claims_of(compiled, now)))
    if not isinstance(outcome, Found) or not outcome.ways:
        return None
    return now, route_of(compiled, now, outcome.ways[0])


def _service(understood: Understood) -> str:
    """What the order turns the lamp to: its burner's service, or electric when all of it is."""
    burner = next((part for part in understood.parts if part.kind == "burner"), None)
    if burner and burner.service:
        return burner.service.value
    services = {part.service for part in understood.parts}
    return Service.ELECTRIC.value if services == {Service.ELECTRIC} else ""


def _count(understood: Understood) -> int:
    return max((count for _, _, count in understood.wanted), default=1)


def _mended(now: Situation, route: Route, understood: Understood, given_up: set[str]) -> Mended:
    sent = {part.id for part in route.buy}
    counts = {part.kind: count for _, part, count in reversed(understood.wanted)}
    lines = tuple((part, counts.get(part.kind, 1)) for part in route.buy)
    return Mended(
        now=now,
        route=route,
        lines=lines,
        price=sum((part.price or 0) * count for part, count in lines),
        changed=tuple(part for part in understood.parts if part.id not in sent),
        given_up=tuple(sorted(given_up)),
    )

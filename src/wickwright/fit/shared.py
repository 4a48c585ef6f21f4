"""Several lamps it could be: what serves all of them.

A purchase serves all lamps when each of them becomes complete and safe with nothing bought
but parts of it. The search takes the ways of the lamp that costs most by itself and adds to
each what the other lamps still need. Any other purchase either holds such a one whole, and
then it is no better, or lacks some part of it: so each part is forbidden in turn and the
search looks again, unless all that some lamp can still buy by itself is beaten already.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from wickwright.fit.light import searched
from wickwright.fit.request import claims_of, query_of, situation
from wickwright.fit.routes import Routes, route_of, routes
from wickwright.fit.search.effort import Effort
from wickwright.fit.search.query import Found, How

if TYPE_CHECKING:
    from collections.abc import Container, Hashable, Iterator, Sequence

    from wickwright.catalogue.records import Part
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.light import Lights
    from wickwright.fit.request import Request, Situation
    from wickwright.fit.routes import Answer, Route
    from wickwright.fit.search.query import Query, Way
    from wickwright.fit.search.tree import Node

__all__ = ["Purchase", "Shared", "serving_all"]

_MOST_TRIES = 40
"""Sets of forbidden parts looked at; the best was found by the fifteenth in every case tried."""

_Bought = frozenset[int]
"""Parts bought, by number."""


@dataclass(frozen=True, slots=True)
class Purchase:
    """Parts that serve every lamp, with the route each lamp takes."""

    buy: tuple[Part, ...]
    price: int
    routes: tuple[Route, ...]


@dataclass(frozen=True, slots=True)
class Shared:
    """What comes of asking for several lamps at once.

    Attributes
    ----------
    answers : tuple of Answer
        For each lamp by itself, in the order asked.
    groups : tuple of tuple of int
        Lamps, by position, whose cheapest route buys the same parts.
    purchases : tuple of Purchase
        What serves all, cheapest first.
    complete : bool
        False when the search for them stopped early and there may be more.
    """

    answers: tuple[Answer, ...]
    groups: tuple[tuple[int, ...], ...]
    purchases: tuple[Purchase, ...]
    complete: bool


class _GaveUp(Exception):  # noqa: N818 - a signal within this module, not an error
    """A search within the search stopped before it knew."""


@dataclass(frozen=True, slots=True)
class _Case:
    """One lamp with its query, and what may be spent on all lamps together."""

    now: Situation
    query: Query
    effort: Effort


def serving_all(
    compiled: Compiled, requests: Sequence[Request], lights: Lights | None = None
) -> Shared:
    """Find what serves every lamp a caller may have.

    Parameters
    ----------
    compiled : Compiled
        The book.
    requests : sequence of Request
        The same wish, at the same place, for each lamp it could be.
    lights : Lights or None
        Who knows how bright parts are together there; None goes by the book's light points.

    Returns
    -------
    Shared
        Each lamp's own answer, which lamps are served alike, and what serves all.
    """
    answers = tuple(routes(compiled, request, lights) for request in requests)
    effort = Effort(len(requests) * compiled.settings.effort)
    cases = [_case(compiled, request, lights, effort) for request in requests]
    found: list[_Bought] = []
    complete = True
    if requests and all(isinstance(answer, Routes) for answer in answers):
        complete = _search(compiled, cases, found)
    purchases = [_purchase(compiled, cases, bought) for bought in _unbeaten(compiled, found)]
    told = tuple(one for one in purchases if one)
    complete &= len(told) == len(purchases)
    return Shared(answers, _groups(answers), _affordable(requests, told), complete)


def _case(compiled: Compiled, request: Request, lights: Lights | None, effort: Effort) -> _Case:
    now = situation(compiled, request, lights)
    return _Case(now, query_of(compiled, now, claims_of(compiled, now)), effort)


def _search(compiled: Compiled, cases: Sequence[_Case], found: list[_Bought]) -> bool:
    """Fill ``found`` with what serves all; return False when any of it stopped early."""
    todo: list[_Bought] = [frozenset()]
    seen = set(todo)
    complete = True
    for tried, forbidden in enumerate(todo):
        if tried == _MOST_TRIES:
            return False
        try:
            fresh = _serving(compiled, cases, forbidden, found)
        except _GaveUp:
            complete, fresh = False, frozenset()
        for number in sorted(fresh):
            wider = forbidden | {number}
            if wider not in seen:
                seen.add(wider)
                todo.append(wider)
    return complete


def _serving(
    compiled: Compiled, cases: Sequence[_Case], forbidden: _Bought, found: list[_Bought]
) -> _Bought:
    """Note what serves all without some parts; return the first of it, empty for nothing new."""
    ways = [_without(compiled, case, forbidden) for case in cases]
    if any(all(_beaten(compiled, way, found) for way in some) for some in ways):
        return frozenset()
    dearest = max(range(len(cases)), key=lambda at: _cost(compiled, ways[at][0]))
    noted = [_used(compiled, cases, _extended(compiled, cases, ways, way)) for way in ways[dearest]]
    found += noted
    return noted[0]


def _extended(
    compiled: Compiled, cases: Sequence[_Case], ways: Sequence[Sequence[_Bought]], way: _Bought
) -> _Bought:
    """Add to a way of one lamp the least that each other lamp still needs."""
    for case, some in zip(cases, ways, strict=True):
        if not _within(compiled, case, way):
            more = [one.difference(way) for one in some]
            least = min(more, key=lambda one: _cost(compiled, one))
            way = way.union(least)
    return way


def _without(compiled: Compiled, case: _Case, forbidden: _Bought) -> list[_Bought]:
    """What a lamp may buy where some parts are forbidden, cheapest first."""
    able = bytearray(case.query.buyable)
    for number in forbidden:
        able[number] = 0
    kinds = {compiled.memory.tree.candidates[number].kind for number in forbidden}
    ways = _ways(compiled, case, bytes(able), kinds, ("not", forbidden))
    return [frozenset(_bought(way.root)) for way in ways]


def _within(compiled: Compiled, case: _Case, bought: _Bought) -> tuple[Way, ...]:
    """The ways of a lamp that buy nothing but some parts."""
    able = bytes(flag & (at in bought) for at, flag in enumerate(case.query.buyable))
    return _ways(compiled, case, able, range(len(case.query.masks)), ("only", bought))


def _ways(
    compiled: Compiled, case: _Case, buyable: bytes, kinds: Container[int], why: Hashable
) -> tuple[Way, ...]:
    masks = tuple((mask, why) if at in kinds else mask for at, mask in enumerate(case.query.masks))
    query = replace(case.query, buyable=buyable, masks=masks)
    share = case.effort.share()
    outcome = searched(compiled, case.now, query, share)
    case.effort.pay(share)
    if not isinstance(outcome, Found):
        raise _GaveUp
    return outcome.ways


def _used(compiled: Compiled, cases: Sequence[_Case], bought: _Bought) -> _Bought:
    """What is left of a purchase when each lamp takes its cheapest way."""
    ways = [_within(compiled, case, bought)[0] for case in cases]
    return frozenset(number for way in ways for number in _bought(way.root))


def _cost(compiled: Compiled, bought: _Bought) -> tuple[int, int]:
    return sum(compiled.parts[number].price or 0 for number in bought), len(bought)


def _beaten(compiled: Compiled, bought: _Bought, found: Sequence[_Bought]) -> bool:
    price, size = _cost(compiled, bought)
    costs = (_cost(compiled, one) for one in found)
    return any(other <= price and fewer <= size for other, fewer in costs)


def _purchase(compiled: Compiled, cases: Sequence[_Case], bought: _Bought) -> Purchase | None:
    """Tell a purchase route by route; None when the search for them gave up."""
    try:
        ways = [_within(compiled, case, bought)[0] for case in cases]
    except _GaveUp:
        return None
    told = tuple(route_of(compiled, case.now, way) for case, way in zip(cases, ways, strict=True))
    parts = tuple(compiled.parts[number] for number in sorted(bought))
    return Purchase(parts, _cost(compiled, bought)[0], told)


def _affordable(requests: Sequence[Request], purchases: Sequence[Purchase]) -> tuple[Purchase, ...]:
    budgets = [request.budget for request in requests if request.budget is not None]
    return tuple(one for one in purchases if not budgets or one.price <= min(budgets))


def _bought(node: Node) -> Iterator[int]:
    number, how, below = node
    if how == How.BOUGHT:
        yield number
    for child in below:
        if child is not None:
            yield from _bought(child)


def _unbeaten(compiled: Compiled, found: Sequence[_Bought]) -> Iterator[_Bought]:
    """Pass on what is not dearer and larger than something cheaper."""
    fewest = len(compiled.parts) + 1
    for one in sorted(found, key=lambda one: (_cost(compiled, one), sorted(one))):
        if len(one) < fewest:
            fewest = len(one)
            yield one


def _groups(answers: Sequence[Answer]) -> tuple[tuple[int, ...], ...]:
    """Lamps served by the same cheapest purchase, largest group first."""
    by_purchase: dict[tuple[str, ...], list[int]] = {}
    for at, answer in enumerate(answers):
        if isinstance(answer, Routes):
            key = tuple(sorted(part.id for part in answer.routes[0].buy))
            by_purchase.setdefault(key, []).append(at)
    groups = sorted(by_purchase.values(), key=lambda group: (-len(group), group))
    return tuple(tuple(group) for group in groups)

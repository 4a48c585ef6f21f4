"""Several lamps it could be: what serves all of them.

A purchase serves all lamps when each of them becomes complete and safe with nothing bought
but parts of it. The search looks for the unbeaten ways of the first lamp, tries each on the
others, and where one fails forbids its parts one at a time and looks again.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from wickwright.fit.request import claims_of, query_of, situation
from wickwright.fit.routes import Routes, route_of, routes
from wickwright.fit.search.query import Found, How
from wickwright.fit.search.solve import solve

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterator, Sequence

    from wickwright.catalogue.records import Part
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.request import Request, Situation
    from wickwright.fit.routes import Answer, Route
    from wickwright.fit.search.query import Query, Way
    from wickwright.fit.search.tree import Node

__all__ = ["Purchase", "Shared", "serving_all"]

_MOST_TRIES = 400


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


@dataclass(frozen=True, slots=True)
class _Case:
    """One lamp with its query."""

    now: Situation
    query: Query


def serving_all(compiled: Compiled, requests: Sequence[Request]) -> Shared:
    """Find what serves every lamp a caller may have.

    Parameters
    ----------
    compiled : Compiled
        The book.
    requests : sequence of Request
        The same wish for each lamp it could be.

    Returns
    -------
    Shared
        Each lamp's own answer, which lamps are served alike, and what serves all.
    """
    answers = tuple(routes(compiled, request) for request in requests)
    cases = [_case(compiled, request) for request in requests]
    purchases: dict[frozenset[int], Purchase] = {}
    complete = True
    if all(isinstance(answer, Routes) for answer in answers):
        complete = _search(compiled, cases, purchases)
    ordered = sorted(purchases.values(), key=lambda one: (one.price, len(one.buy)))
    return Shared(answers, _groups(answers), tuple(_unbeaten(ordered)), complete)


def _case(compiled: Compiled, request: Request) -> _Case:
    now = situation(compiled, request)
    return _Case(now, query_of(compiled, now, claims_of(compiled, now)))


def _search(
    compiled: Compiled, cases: Sequence[_Case], purchases: dict[frozenset[int], Purchase]
) -> bool:
    """Fill ``purchases``; return False when stopped early."""
    todo: list[frozenset[int]] = [frozenset()]
    seen = set(todo)
    tries = 0
    while todo:
        forbidden = todo.pop(0)
        tries += 1
        if tries > _MOST_TRIES:
            return False
        for way in _ways(compiled, cases[0].query, forbidden):
            bought = frozenset(_bought(way.root))
            if bought in purchases or _serves(compiled, cases, bought, purchases):
                continue
            for number in sorted(bought):
                wider = forbidden | {number}
                if wider not in seen:
                    seen.add(wider)
                    todo.append(wider)
    return True


def _ways(compiled: Compiled, query: Query, forbidden: frozenset[int]) -> tuple[Way, ...]:
    able = bytearray(query.buyable)
    for number in forbidden:
        able[number] = 0
    outcome = solve(compiled.memory, _narrowed(query, bytes(able), ("not", forbidden)))
    return outcome.ways if isinstance(outcome, Found) else ()


def _narrowed(query: Query, buyable: bytes, why: Hashable) -> Query:
    masks = tuple((mask, why) for mask in query.masks)
    return replace(query, buyable=buyable, masks=masks)


def _serves(
    compiled: Compiled,
    cases: Sequence[_Case],
    bought: frozenset[int],
    purchases: dict[frozenset[int], Purchase],
) -> bool:
    """Try a purchase on every lamp; remember it when it serves them all."""
    ways: list[Way] = []
    for case in cases:
        able = bytes(flag & (at in bought) for at, flag in enumerate(case.query.buyable))
        query = _narrowed(case.query, able, ("only", bought))
        outcome = solve(compiled.memory, query)
        if not isinstance(outcome, Found) or not outcome.ways:
            return False
        ways.append(outcome.ways[0])
    parts = tuple(compiled.parts[number] for number in sorted(bought))
    told = tuple(route_of(compiled, case.now, way) for case, way in zip(cases, ways, strict=True))
    purchases[bought] = Purchase(parts, sum(part.price or 0 for part in parts), told)
    return True


def _bought(node: Node) -> Iterator[int]:
    number, how, below = node
    if how == How.BOUGHT:
        yield number
    for child in below:
        if child is not None:
            yield from _bought(child)


def _unbeaten(ordered: Sequence[Purchase]) -> Iterator[Purchase]:
    """Pass on purchases that are not dearer and larger than an earlier one."""
    fewest = len(ordered[0].buy) + 1 if ordered else 0
    for one in ordered:
        if len(one.buy) < fewest:
            fewest = len(one.buy)
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

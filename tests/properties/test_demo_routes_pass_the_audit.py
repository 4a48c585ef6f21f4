"""The whole demo book: what the search finds, held to the audit, and the reverse."""

from __future__ import annotations

import random
from itertools import islice, permutations
from typing import TYPE_CHECKING

import pytest
from tests.support.demo import demo

from wickwright.catalogue.records import KINDS, Ask, Part, Wish
from wickwright.fit.assemble import assemble
from wickwright.fit.audit import audit
from wickwright.fit.compiled import compile_book
from wickwright.fit.oracle import Oracle
from wickwright.fit.place import Place
from wickwright.fit.request import Request, claims_of, query_of, situation
from wickwright.fit.routes import (
    Gave,
    Impossible,
    NotKnown,
    Route,
    Routes,
    route_of,
    routes,
)
from wickwright.fit.search.query import Found
from wickwright.fit.search.solve import solve
from wickwright.fit.search.tree import Admits
from wickwright.terms.finding import Severity

if TYPE_CHECKING:
    from collections.abc import Iterator

ELEVATIONS = (0.0, 1700.0, 3000.0)


def _requests(elevation: float) -> Iterator[Request]:
    book = demo().book
    for lamp in book.lamps:
        for wish in book.wishes.values():
            yield Request(lamp, wish, place=Place(elevation))


def _told(request: Request, admits: Admits) -> tuple[Route, ...]:
    """The routes of a request, without asking why there is none."""
    now = situation(demo(), request)
    query = query_of(demo(), now, claims_of(demo(), now), admits=admits)
    outcome = solve(demo().memory, query)
    assert isinstance(outcome, Found)
    return tuple(route_of(demo(), now, way) for way in outcome.ways)


def _worst(route: Route) -> Severity:
    return max((one.severity for one in route.findings), default=Severity.GOOD)


def _faults(route: Route) -> list[str]:
    """Everything that is wrong with a route whatever was asked."""
    parts = [it.part for it in route.assembly.walk()]
    kinds = [part.kind for part in parts]
    bought, included = ({part.id for part in some} for some in (route.buy, route.included))
    kits = {key for part in route.buy for key in part.includes}
    checks = {
        "a part stands on the lamp that came from nowhere": len(parts)
        == len(route.buy) + len(route.included) + len(route.keep),
        "a kind stands on the lamp twice": len(kinds) == len(set(kinds)),
        "a part is bought and comes with a kit": not bought & included,
        "a part comes with no kit that is bought": included <= kits,
        "the price is not the sum of what is bought": route.price
        == sum(part.price or 0 for part in route.buy),
        "something gone is bought": all(part.price is not None for part in route.buy),
    }
    return [fault for fault, right in checks.items() if not right]


def _costs(route: Route, *, bright: bool) -> tuple[int, ...]:
    return route.price, len(route.buy), len(route.dying), -route.light if bright else 0


def _beats(one: tuple[int, ...], other: tuple[int, ...]) -> bool:
    return all(a <= b for a, b in zip(one, other, strict=True))


@pytest.mark.slow
@pytest.mark.parametrize("elevation", ELEVATIONS)
def test_every_route_of_the_demo_is_sound_and_unbeaten(elevation: float) -> None:
    """A caller would be sold a lamp with a fault or a danger, or a route that another beats."""
    answered = 0
    for request in _requests(elevation):
        asked = f"{request.lamp} {request.wish.id}"
        found = _told(request, Admits.FITS)
        for route in found:
            assert _worst(route) < Severity.UNKNOWN, asked
            assert _faults(route) == [], asked
        bright = any(ask.ask == "brighter" for ask in request.wish.asks)
        costs = [_costs(route, bright=bright) for route in found]
        assert not any(_beats(one, other) for one, other in permutations(costs, 2)), asked
        answered += bool(found)
    assert answered > 200


@pytest.mark.slow
def test_what_is_not_known_says_what_to_measure() -> None:
    """A caller would be told that it depends on something, and not on what."""
    seen = 0
    for request in _requests(0.0):
        if not _told(request, Admits.FITS):
            for route in _told(request, Admits.UNSURE):
                unknown = [one for one in route.findings if one.severity is Severity.UNKNOWN]
                assert _worst(route) is Severity.UNKNOWN
                assert all(one.parts for one in unknown)
                seen += 1
    assert seen


def _sample(elevation: float, step: int) -> Iterator[Request]:
    return islice(_requests(elevation), 0, None, step)


@pytest.mark.parametrize("elevation", ELEVATIONS)
def test_reasons_are_minimal_and_ways_out_lead_out(elevation: float) -> None:
    """A caller would be given a reason that is none, or sent a way that does not lead out."""
    explained = 0
    for request in _sample(elevation, 71):
        answer = routes(demo(), request)
        assert not isinstance(answer, Gave)
        if isinstance(answer, Impossible):
            holds = Oracle(demo(), answer.now)
            claims = claims_of(demo(), answer.now)
            assert answer.because
            assert not holds(answer.because)
            for one in answer.because:
                assert holds([other for other in answer.because if other != one])
            for out in answer.ways_out:
                assert holds([one for one in claims if one not in out.give_up])
            explained += 1
    assert explained > 2


def test_answers_do_not_hang_on_what_was_asked_before() -> None:
    """The same question would be answered otherwise after a day at the desk."""
    for request in _sample(0.0, 53):
        warm = _told(request, Admits.FITS)
        fresh = compile_book(demo().book)
        now = situation(fresh, request)
        outcome = solve(fresh.memory, query_of(fresh, now, claims_of(fresh, now)))
        assert isinstance(outcome, Found)
        cold = [route_of(fresh, now, way) for way in outcome.ways]
        assert [_costs(one, bright=True) for one in warm] == [
            _costs(one, bright=True) for one in cold
        ]


# -- the other way round: any heap of parts, first audited, then asked about ------------------


def _vague(part: Part) -> bool:
    """Tell whether a measurement or a rating of a part is wanting."""
    return (part.heat_rating is None and part.kind in ("chimney", "shade")) or any(
        not port.sizes and not port.words and not port.label for port in part.ports
    )


def _heap(rng: random.Random, sold: dict[str, Part]) -> dict[str, Part]:
    """A lamp with some parts gone or changed, most often for one of the same size."""
    everyone = list(demo().book.parts.values())
    parts = dict(sold)
    for _ in range(rng.choice((0, 1, 1, 2, 3))):
        kind = rng.choice(list(KINDS))
        pool = [part for part in everyone if part.kind == kind]
        chance = rng.random()
        if chance < 0.15:
            parts.pop(kind, None)
            continue
        if chance < 0.55:
            pool = [part for part in pool if _vague(part)] or pool
        elif kind in parts:
            labels = {port.label for port in parts[kind].stands}
            pool = [part for part in pool if labels & {port.label for port in part.stands}] or pool
        parts[kind] = rng.choice(pool)
    parts["base"] = parts.get("base", sold["base"])
    return parts


def _verdict(worst: Severity) -> type[Routes | NotKnown | Impossible]:
    if worst < Severity.UNKNOWN:
        return Routes
    return NotKnown if worst is Severity.UNKNOWN else Impossible


def _asked_for_all(request: Request) -> type[Routes | NotKnown | Impossible]:
    """What comes of asking for exactly the parts in hand with no money to spend."""
    if _told(request, Admits.FITS):
        return Routes
    return NotKnown if _told(request, Admits.UNSURE) else Impossible


@pytest.mark.parametrize("block", range(4))
def test_search_and_audit_agree_on_any_heap_of_parts(block: int) -> None:
    """The desk would call a lamp sound when asked one way and unsound when asked another."""
    compiled = demo()
    seen: dict[type, int] = {Routes: 0, NotKnown: 0, Impossible: 0}
    for seed in range(block * 150, block * 150 + 150):
        rng = random.Random(seed)
        lamp = rng.choice(list(compiled.book.lamps.values()))
        sold = {(it := compiled.book.parts[key]).kind: it for key in lamp.as_sold}
        parts = _heap(rng, sold)
        place = Place(rng.choice((0.0, 500.0, 1700.0)))
        mounted = assemble(list(parts.values()), compiled.joiner)
        worst = max(
            (one.severity for one in audit(mounted, lamp, place, compiled.joiner)),
            default=Severity.GOOD,
        )
        wish = Wish("all", "all of it", tuple(Ask("present", kind) for kind in parts))
        request = Request(
            lamp.id,
            wish,
            have=tuple(part.id for part in parts.values()),
            bare=True,
            place=place,
            budget=0,
        )
        said = _asked_for_all(request)
        assert said is _verdict(worst), f"seed {seed}"
        seen[said] += 1
    assert min(seen.values()) > 0

"""Routes against a judge that tries every set of parts of a small book and asks the audit.

The judge knows nothing of sockets, classes or labels: it puts each set of parts together,
holds it to every rule, and adds up what would have to be bought.
"""

from __future__ import annotations

import random
from dataclasses import dataclass, replace
from functools import cache
from itertools import product
from typing import TYPE_CHECKING

import pytest
from tests.support.small_book import compiled_small, wish

from wickwright.catalogue.records import Ask, Part, Service
from wickwright.fit.assemble import assemble
from wickwright.fit.audit import audit
from wickwright.fit.flags import buyable
from wickwright.fit.place import Place
from wickwright.fit.request import Request, Situation, situation
from wickwright.fit.routes import Impossible, Routes, routes
from wickwright.fit.wishes import passes, resolved
from wickwright.terms.finding import Severity

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickwright.catalogue.assembly import Assembly

COMPILED = compiled_small()
PARTS = COMPILED.book.parts
HIGH = 1700.0
Cost = tuple[int, int, int, int]


@dataclass(frozen=True)
class Lamp:
    """A set of parts that makes a sound lamp at sea level.

    Attributes
    ----------
    parts : tuple of Part
        All of it.
    assembly : Assembly
        The same, put together.
    high : bool
        Whether it is sound high up too.
    """

    parts: tuple[Part, ...]
    assembly: Assembly
    high: bool


def _sound(assembly: Assembly, at: float) -> bool:
    found = audit(assembly, None, Place(at), COMPILED.joiner)
    return all(one.severity < Severity.UNKNOWN for one in found)


def _sets() -> Iterator[tuple[Part, ...]]:
    """Every set with at most one part of a kind that has a base, a font and a burner."""
    bases, above = ("B", "BH"), (("", "R"), ("U", "V", "VK"), ("W", "W2"), ("GQ", "GP", "GV"))
    common = (
        ("", "CQ", "CP", "CT", "CX"),
        ("", "HR", "HA"),
        ("", "SG", "SB", "SC"),
        ("", "BE", "BG"),
    )
    oil = product(bases, ("F",), *above, *common)
    electric = product(bases, ("F",), ("", "R"), ("E",), ("L", "L9"), *common)
    for keys in (*oil, *electric):
        if not (keys[-2] and not keys[-3]):  # a shade hangs on a holder
            yield tuple(PARTS[key] for key in keys if key)


@cache
def _lamps() -> tuple[Lamp, ...]:
    lamps = []
    for parts in _sets():
        assembly = assemble(parts, COMPILED.joiner)
        if not assembly.loose and _sound(assembly, 0.0):
            lamps.append(Lamp(parts, assembly, _sound(assembly, HIGH)))
    return tuple(lamps)


def _costs(now: Situation, lamp: Lamp) -> Iterator[Cost]:
    """What a lamp may cost: whatever is not in hand or in a kit is bought."""
    request = now.request
    renewed = {ask.kind for ask in request.wish.asks if ask.ask == "renew"}
    in_hand = {part.id for part in now.owned if part.kind not in renewed}
    body = {part.kind for part in now.owned if part.kind not in renewed} & {"base", "font"}
    kits = [part.id for part in lamp.parts if part.includes]
    for anew in product((False, True), repeat=len(kits)):
        again = {key for key, new in zip(kits, anew, strict=True) if new}
        bought = {part.id for part in lamp.parts if part.id not in in_hand or part.id in again}
        brought = {
            it.part.id
            for kit in lamp.assembly.walk()
            if kit.part.id in bought
            for it in kit.walk()
            if it.part.id in kit.part.includes
        }
        pay = [part for part in lamp.parts if part.id in bought - brought]
        if all(buyable(part, request.count) and part.kind not in body for part in pay):
            yield (
                sum(part.price or 0 for part in pay),
                len(pay),
                sum(part.status != "made" for part in lamp.parts),
                -sum(part.light for part in lamp.parts),
            )


def _granted(now: Situation, lamp: Lamp) -> bool:
    """Tell whether a lamp is what the wish asks for, price apart."""
    asks = list(now.request.wish.asks)
    if not any(ask.ask == "service" for ask in asks):
        asks.append(Ask("service", value=now.service.value))
    model = COMPILED.book.lamps[now.request.lamp]
    tests = [
        resolved(ask, model, now)
        for ask in asks
        if ask.ask in ("only", "never", "absent", "service")
    ]
    kinds = {part.kind for part in lamp.parts}
    barred = {ask.kind for ask in asks if ask.ask == "absent"}
    wanted = {ask.kind for ask in asks if ask.ask in ("present", "renew")}
    wanted |= {*now.keeps, *now.replaces} - barred
    gain = sum(part.light for part in lamp.parts) - now.light
    return (
        wanted <= kinds
        and all(passes(part, test) for part in lamp.parts for test in tests)
        and all(gain >= int(ask.value) for ask in asks if ask.ask == "brighter")
        and (lamp.high or now.request.place.elevation == 0.0)
    )


def _judged(request: Request) -> set[Cost]:
    now = situation(COMPILED, request)
    counts_light = any(ask.ask == "brighter" for ask in request.wish.asks)
    costs = {
        cost if counts_light else (*cost[:3], 0)
        for lamp in _lamps()
        if _granted(now, lamp)
        for cost in _costs(now, lamp)
        if request.budget is None or cost[0] <= request.budget
    }
    return {
        one
        for one in costs
        if not any(
            other != one and all(a <= b for a, b in zip(other, one, strict=True)) for other in costs
        )
    }


ASKS = (
    Ask("renew", "chimney"),
    Ask("renew", "burner"),
    Ask("renew", "wick"),
    Ask("renew", "font"),
    Ask("renew", "shade"),
    Ask("present", "shade"),
    Ask("present", "bulb"),
    Ask("present", "chimney"),
    Ask("absent", "shade"),
    Ask("absent", "holder"),
    Ask("never", "shade", "material", "is", "glass"),
    Ask("only", "chimney", "joint", "is", "plain-foot"),
    Ask("only", "chimney", "joint", "is", "@joint"),
    Ask("only", "", "status", "is", "made"),
    Ask("only", "chimney", "height", "at least", "350 mm"),
    Ask("brighter", value="10"),
    Ask("brighter", value="160"),
    Ask("service", value="electric"),
    Ask("service", value="oil"),
)


def _request(rng: random.Random) -> Request:
    """Ask something of a lamp that is whole, damaged or changed."""
    request = Request(
        rng.choice(("table", "shaded", "hanging", "bulb")),
        wish(*rng.sample(ASKS, rng.choice((0, 1, 1, 1, 2, 2, 3)))),
        have=tuple(rng.sample(sorted(PARTS), rng.choice((0, 0, 1, 2, 4)))),
        lost=tuple(rng.sample(("chimney", "W", "shade", "HR", "burner", "bell", "GQ", "font"), 1)),
        place=Place(rng.choice((0.0, 0.0, HIGH))),
        count=rng.choice((1, 1, 7)),
        budget=rng.choice((None, None, 6000, 20000)),
    )
    request = replace(request, lost=request.lost if rng.random() < 0.3 else ())
    bare = rng.random() < 0.2
    return replace(request, bare=bare, have=(*request.have, "B", "F") if bare else request.have)


@pytest.mark.parametrize("block", range(6))
def test_routes_are_those_found_by_trying_every_purchase(block: int) -> None:
    """A caller would be shown a route that is beaten or unsafe, or not be shown the best one."""
    answered = {Routes: 0, Impossible: 0}
    for seed in range(block * 50, block * 50 + 50):
        request = _request(random.Random(seed))
        answer = routes(COMPILED, request)
        costs = _judged(request)
        kind = Routes if costs else Impossible
        assert isinstance(answer, kind), f"seed {seed}: {costs}"
        answered[kind] += 1
        if isinstance(answer, Routes):
            counts = any(ask.ask == "brighter" for ask in request.wish.asks)
            found = [
                (
                    one.price,
                    len(one.buy),
                    len(one.dying),
                    -one.light - answer.now.light if counts else 0,
                )
                for one in answer.routes
            ]
            assert sorted(found) == sorted(costs), f"seed {seed}"
    assert min(answered.values()) > 10


def test_there_is_something_to_try() -> None:
    """The judge would agree with everything because it knows no sound lamp."""
    services = {part.service for lamp in _lamps() for part in lamp.parts if part.kind == "burner"}
    assert services == {Service.OIL, Service.ELECTRIC}
    assert {lamp.high for lamp in _lamps()} == {True, False}
    assert len(_lamps()) > 100

"""How the lamp of each route burns where it stands, beside the lamp as it was."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final, NamedTuple

import numpy as np

from wickwright.answers.flames.hot_seat import hot_seat
from wickwright.answers.flames.predict_burn import Burns, FlameNotKnown, Lack, lit, on_a_bulb
from wickwright.answers.flames.standing_air import INDOORS, standing_air
from wickwright.burn.glass_stress import glass_margins, seat_of
from wickwright.burn.judging import at_its_best, findings
from wickwright.burn.lamp import BurningLamp
from wickwright.burn.side_by_side import gain, side_by_side, solve_each
from wickwright.catalogue.records import Service
from wickwright.fit.audit import called
from wickwright.fit.compiled import LIT
from wickwright.terms.finding import Finding, Kind, Quantity, Range, Severity

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickwright.answers.flames.hot_seat import HotSeat
    from wickwright.answers.flames.predict_burn import BurnAnswer
    from wickwright.answers.flames.standing_air import RoomAir
    from wickwright.burn.error_bars import Estimate
    from wickwright.burn.parts import Air
    from wickwright.burn.side_by_side import Burnt
    from wickwright.catalogue.assembly import Assembly
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.place import Place
    from wickwright.fit.request import Situation
    from wickwright.fit.routes import Route
    from wickwright.terms.finding import Fact

__all__ = ["RouteFlame", "RouteFlames", "all_findings", "route_flames"]

_LEAST_TOLD: Final = 0.02
"""Change of light below which nothing is said of it [-]."""
_LEAST_FUEL: Final = 0.005
"""Change of fuel below which it is called the same [-]."""
_SAID_ELSEWHERE: Final = frozenset({"burn-care", "burn-run-time"})
"""The usual cautions, and what stands among the figures."""


@dataclass(frozen=True, slots=True)
class RouteFlame:
    """How the finished lamp of a route burns.

    Attributes
    ----------
    burns : BurnAnswer
        At its fullest clean flame; or on its bulb; or what is not known.
    at_mark : Estimate or None
        Air to spare above the least that burns clean, with the wick at its mark [-]: below
        zero carbon is likely. None without a flame.
    light, fuel : Estimate or None
        More of it than the lamp had as it was [-], what the book says of the light of parts the
        flame does not see counted in; None where either flame is not known, or the lamp as it
        was gave no light.
    findings : tuple of Finding
        What is to be said of the flame, gravest first.
    """

    burns: BurnAnswer
    at_mark: Estimate | None
    light: Estimate | None
    fuel: Estimate | None
    findings: tuple[Finding, ...]


class _Flame(NamedTuple):
    """A lamp, solved: at its fullest, at its mark, its light at its best [lm]."""

    full: Burnt
    mark: Burnt
    best: float


@dataclass(frozen=True, slots=True)
class RouteFlames:
    """How lamps burn before and after.

    Attributes
    ----------
    before : BurnAnswer
        The lamp as it was; its findings are left out where it burns.
    after : tuple of RouteFlame
        One for each route.
    """

    before: BurnAnswer
    after: tuple[RouteFlame, ...]


def route_flames(
    compiled: Compiled, now: Situation, routes: Sequence[Route], room: RoomAir = INDOORS
) -> RouteFlames:
    """Say how the lamp of each route burns.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    now : Situation
        The request, looked at, with the lamp as it was.
    routes : sequence of Route
        Those that are going to be shown.
    room : RoomAir
        The air of the room.

    Returns
    -------
    RouteFlames
        The lamp as it was, and that of each route; all flames are solved together.

    Raises
    ------
    BurnError
        When the air of the room cannot be.
    """
    place = now.request.place
    air = standing_air(place, room)
    lamps = [_looked_at(route.assembly, place, air) for route in routes]
    was = _looked_at(now.now, place, air)
    burning = [was, *lamps]
    flames = iter(_solved([lamp for lamp in burning if isinstance(lamp, BurningLamp)]))
    before, *after = [next(flames) if isinstance(lamp, BurningLamp) else lamp for lamp in burning]
    old = before if isinstance(before, _Flame) else None
    told = tuple(
        _told(compiled, now, route, one, old)
        if isinstance(one, _Flame)
        else RouteFlame(one, None, None, None, _unsaid(one))
        for route, one in zip(routes, after, strict=True)
    )
    return RouteFlames(_as_it_was(now, before), told)


def all_findings(route: Route, flame: RouteFlame) -> tuple[Finding, ...]:
    """Return all that is to be said of the lamp of a route.

    Parameters
    ----------
    route : Route
        The route.
    flame : RouteFlame
        How its lamp burns.

    Returns
    -------
    tuple of Finding
        Those of the route and of its flame, gravest first. Where the flame is known the seat
        of the chimney is judged at computed temperatures only.
    """
    seat = flame.burns.seat if isinstance(flame.burns, Burns) else None
    own = [one for one in route.findings if not _on_seat(one, seat)]
    return tuple(sorted([*own, *flame.findings], key=lambda one: -one.severity))


def _on_seat(finding: Finding, seat: HotSeat | None) -> bool:
    return seat is not None and (finding.rule, finding.parts) == (
        seat.finding.rule,
        seat.finding.parts,
    )


def _unsaid(answer: BurnAnswer) -> tuple[Finding, ...]:
    """Leave out that a bulb gives light: it stands among the figures."""
    return tuple(one for one in answer.findings if one.severity > Severity.NOTE)


def _as_it_was(now: Situation, before: _Flame | BurnAnswer) -> BurnAnswer:
    if not isinstance(before, _Flame):
        return before
    return Burns(now.now, now.request.place, before.full.prediction, None, ())


def _looked_at(assembly: Assembly, place: Place, air: Air) -> BurningLamp | BurnAnswer:
    burner = assembly.of_kind("burner")
    if burner and burner.part.service is Service.ELECTRIC:
        return on_a_bulb(assembly, place, burner.part)
    lamp = lit(assembly, air)
    if isinstance(lamp, Lack):
        return FlameNotKnown(assembly, place, lamp.measure, (lamp.finding,))
    return lamp


def _solved(lamps: Sequence[BurningLamp]) -> list[_Flame]:
    """Solve lamps at their fullest and at their mark, and what they are measured against."""
    burnt = side_by_side([(lamp, "fullest") for lamp in lamps] + [(lamp, "mark") for lamp in lamps])
    best = solve_each([at_its_best(lamp) for lamp in lamps], [1] * len(lamps))
    lights = [float(np.ravel(one.light)[0]) for one in best]
    return [
        _Flame(full, mark, light)
        for full, mark, light in zip(burnt[: len(lamps)], burnt[len(lamps) :], lights, strict=True)
    ]


def _told(
    compiled: Compiled, now: Situation, route: Route, flame: _Flame, old: _Flame | None
) -> RouteFlame:
    full = flame.full.prediction
    seat = hot_seat(compiled, route.assembly, full)
    said = findings(full, seat_of(route.assembly), flame.best)
    burns = Burns(route.assembly, now.request.place, full, seat, said)
    lit_before = old is not None and old.full.prediction["light"].value >= 1.0
    light = _light_gain(now, route, old, flame) if old and lit_before else None
    fuel = gain(old.full, flame.full, "fuel") if old and lit_before else None
    told = [
        *(one for one in said if _worth_saying(one)),
        *([seat.finding] if seat and seat.finding.severity > Severity.GOOD else []),
        *_at_the_mark(flame),
        *_gained(route, light, fuel),
        *(_easier(now, route, old, flame) if old else ()),
    ]
    told.sort(key=lambda one: -one.severity)
    return RouteFlame(burns, flame.mark.prediction["margin"], light, fuel, tuple(told))


def _light_gain(now: Situation, route: Route, old: _Flame, flame: _Flame) -> Estimate:
    """Return the gain of the flame, times that of the parts it does not see."""
    own = gain(old.full, flame.full, "light")
    after = sum(it.part.light for it in route.assembly.walk() if it.part.kind not in LIT)
    before = sum(part.light for part in now.before if part.kind not in LIT)
    factor = math.exp((after - before) / 100.0)
    return replace(own, value=(1.0 + own.value) * factor - 1.0, spread=own.spread * factor)


def _worth_saying(finding: Finding) -> bool:
    """Leave out what holds for every lamp: any glass breaks under a splash."""
    splash = finding.rule == "burn-glass-stress" and finding.severity is Severity.NOTE
    return not splash and finding.rule not in _SAID_ELSEWHERE


def _at_the_mark(flame: _Flame) -> Iterator[Finding]:
    """Say whether the mark of the wick still burns clean here."""
    mark, burner = flame.mark.prediction, flame.mark.prediction.lamp.burner
    margin, air = mark["margin"], mark["air_ratio"]
    if margin.value < 0.0:
        facts: dict[str, Fact] = {
            "burner": called(burner),
            "fuel": Quantity(mark["fuel"].value, Kind.MASS_FLOW),
            "fullest": Quantity(flame.full.prediction["fuel"].value, Kind.MASS_FLOW),
        }
        least = Range(float(mark.lamp.lamps.wick.least_air), None, Kind.RATIO)
        measured = Quantity(air.value, Kind.RATIO)
        yield Finding("flame-mark-carbon", Severity.CAUTION, (burner.id,), facts, measured, least)
    elif margin.value < margin.spread:
        near: dict[str, Fact] = {
            "burner": called(burner),
            "spread": Quantity(margin.spread, Kind.RATIO),
        }
        measured = Quantity(margin.value, Kind.RATIO)
        yield Finding("flame-mark-near", Severity.NOTE, (burner.id,), near, measured)


def _gained(route: Route, light: Estimate | None, fuel: Estimate | None) -> Iterator[Finding]:
    if light is None or fuel is None or abs(light.value) < _LEAST_TOLD:
        return
    facts: dict[str, Fact] = {
        "more": "more" if light.value > 0.0 else "less",
        "spread": Quantity(light.spread, Kind.RATIO),
    }
    rule = "flame-gain-free"
    if abs(fuel.value) >= _LEAST_FUEL:
        rule = "flame-gain"
        facts["fuel"] = Quantity(abs(fuel.value), Kind.RATIO)
        facts["burnt"] = "more" if fuel.value > 0.0 else "less"
    parts = tuple(part.id for part in route.buy)
    measured = Quantity(abs(light.value), Kind.RATIO)
    yield Finding(rule, Severity.NOTE, parts, facts, measured)


def _easier(now: Situation, route: Route, old: _Flame, flame: _Flame) -> Iterator[Finding]:
    """Compare the pull on the glass where a quarter-turn seat gives way to a plain one."""
    was, will = seat_of(now.now), seat_of(route.assembly)
    if not was or not will or (was.joint, will.joint) != ("quarter-turn", "plain-foot"):
        return
    hard = glass_margins(old.full.prediction, was).of("seat")
    mild = glass_margins(flame.full.prediction, will).of("seat")
    if mild.tension < hard.tension:
        before, after = old.full.prediction.lamp.chimney, flame.full.prediction.lamp.chimney
        facts: dict[str, Fact] = {
            "other": called(after),
            "chimney": called(before),
            "before": Quantity(hard.tension, Kind.STRESS),
            "assumed": mild.assumed,
            "assumed_before": hard.assumed,
        }
        measured = Quantity(mild.tension, Kind.STRESS)
        yield Finding("flame-seat-easier", Severity.NOTE, (after.id, before.id), facts, measured)

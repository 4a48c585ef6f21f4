"""From what the caller has to a lamp that meets the wish: all routes, or why there is none."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.catalogue.assembly import Assembly, Mounted
from wickwright.catalogue.records import Status
from wickwright.fit.audit import audit, called
from wickwright.fit.flags import buyable, weighed
from wickwright.fit.light import gained, searched
from wickwright.fit.oracle import Oracle, solved
from wickwright.fit.request import Claim, claims_of, query_of, situation
from wickwright.fit.search.effort import Effort
from wickwright.fit.search.query import Aim, GaveUp, How
from wickwright.fit.search.tree import Admits
from wickwright.fit.wishes import is_open, resolved
from wickwright.terms.finding import Finding, Quantity, Severity

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickwright.catalogue.records import Lamp, Part
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.light import Lights
    from wickwright.fit.request import Request, Situation
    from wickwright.fit.search.query import Way
    from wickwright.fit.search.tree import Node
    from wickwright.terms.finding import Fact

__all__ = [
    "Answer",
    "Cheapest",
    "Gave",
    "Impossible",
    "NotKnown",
    "Route",
    "Routes",
    "WayOut",
    "cheapest",
    "routes",
]


@dataclass(frozen=True, slots=True)
class Route:
    """One way from here to there.

    Attributes
    ----------
    buy : tuple of Part
        What is bought.
    included : tuple of Part
        What comes with it and is used.
    keep : tuple of Part
        What the caller has and stays.
    aside : tuple of Part
        What the caller has and is put away.
    price : int
        Of one lamp, in the smallest coin.
    dying : tuple of Part
        Parts of the finished lamp that are on their way out.
    light : int
        Light points gained or lost against the parts the caller had.
    assembly : Assembly
        The finished lamp.
    findings : tuple of Finding
        What remains to be said of it.
    """

    buy: tuple[Part, ...]
    included: tuple[Part, ...]
    keep: tuple[Part, ...]
    aside: tuple[Part, ...]
    price: int
    dying: tuple[Part, ...]
    light: int
    assembly: Assembly
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class WayOut:
    """Claims to give up, and the best that is possible then.

    Attributes
    ----------
    give_up : tuple of Claim
        What is no longer insisted on.
    price : int or None
        Of all that is bought, in the smallest coin; None when some of it is not for sale here.
    buy : tuple of Part
        What is bought.
    elsewhere : tuple of Part
        Those of ``buy`` that nobody can send and that would have to be found elsewhere.
    """

    give_up: tuple[Claim, ...]
    price: int | None
    buy: tuple[Part, ...]
    elsewhere: tuple[Part, ...] = ()


@dataclass(frozen=True, slots=True)
class Routes:
    """Every route that no other beats.

    Routes are compared on price, on the number of parts bought and on parts on their way out;
    where the wish asks for more light, on the light too (see
    :class:`wickwright.fit.search.query.Aim`). The search counts heights in tenths of a
    millimetre (for balance rounded up, for draft to the nearest, as the audit does) and
    masses in tenths of a gram.
    """

    now: Situation
    routes: tuple[Route, ...]


@dataclass(frozen=True, slots=True)
class Impossible:
    """There is no route, and why.

    Attributes
    ----------
    now : Situation
        The request, looked at.
    because : tuple of Claim
        A smallest set that cannot all hold.
    blocked : tuple of Part
        Parts that would do it and cannot be had.
    ways_out : tuple of WayOut
        The nearest things to give up, cheapest first.
    evidence : tuple of Finding
        For each law in ``because``, what it would be broken by, measured beside permitted:
        the mildest case among the routes that would be there without it.
    complete : bool
        False when a search for reasons gave up: a reason may then be longer than it need be,
        and a way out, evidence or a blocked part may be missing.
    """

    now: Situation
    because: tuple[Claim, ...]
    blocked: tuple[Part, ...]
    ways_out: tuple[WayOut, ...]
    evidence: tuple[Finding, ...] = ()
    complete: bool = True


@dataclass(frozen=True, slots=True)
class NotKnown:
    """It depends on something nobody has measured.

    Attributes
    ----------
    now : Situation
        The request, looked at.
    routes : tuple of Route
        What would do if the unknown joints fit and the blank figures are right; their
        findings name the measurements.
    """

    now: Situation
    routes: tuple[Route, ...]


@dataclass(frozen=True, slots=True)
class Gave:
    """The search stopped before it knew, after so many steps."""

    now: Situation
    looked_at: int


Answer = Routes | Impossible | NotKnown | Gave
"""What comes of a request; four different things."""


def routes(compiled: Compiled, request: Request, lights: Lights | None = None) -> Answer:
    """Find every unbeaten route from what a caller has to what is wanted.

    Parameters
    ----------
    compiled : Compiled
        The book.
    request : Request
        What the caller has and wants.
    lights : Lights or None
        Who knows how bright parts are together there; None goes by the book's light points.

    Returns
    -------
    Answer
        The routes; or why there is none, what is not known, or that the search gave up.
    """
    now = situation(compiled, request, lights)
    claims = claims_of(compiled, now)
    outcome = _looked_for(compiled, now, claims)
    if isinstance(outcome, GaveUp):
        return Gave(now, outcome.looked_at)
    if not outcome.ways:
        return _impossible(compiled, now, claims)
    told = _told(compiled, now, outcome.ways)
    return Routes(now, told) if outcome.known else NotKnown(now, told)


@dataclass(frozen=True, slots=True)
class Cheapest:
    """The first route alone, as what is bought for it.

    Attributes
    ----------
    answer : type
        Of which of the four answers it is the first route.
    buy : tuple of Part
        What is bought; nothing where there is no route.
    """

    answer: type[Routes | Impossible | NotKnown | Gave]
    buy: tuple[Part, ...] = ()


def cheapest(compiled: Compiled, request: Request, lights: Lights | None = None) -> Cheapest:
    """Find what the first route of :func:`routes` buys, with nothing said of it.

    Parameters
    ----------
    compiled, request, lights
        As for :func:`routes`.

    Returns
    -------
    Cheapest
        The same parts, sooner: no lamp is audited, and no reason is looked for.
    """
    now = situation(compiled, request, lights)
    outcome = _looked_for(compiled, now, claims_of(compiled, now))
    if isinstance(outcome, GaveUp):
        return Cheapest(Gave)
    if not outcome.ways:
        return Cheapest(Impossible)
    kind = Routes if outcome.known else NotKnown
    return Cheapest(kind, _bought(compiled, outcome.ways[0]))


@dataclass(frozen=True, slots=True)
class _Outcome:
    """Ways found, none if there are none, and whether it is known that they do."""

    known: bool
    ways: tuple[Way, ...]


def _looked_for(compiled: Compiled, now: Situation, claims: Sequence[Claim]) -> _Outcome | GaveUp:
    effort = Effort(compiled.settings.effort)
    sure = searched(compiled, now, query_of(compiled, now, claims), effort)
    if isinstance(sure, GaveUp) or (sure.ways and all(weighed(part) for part in now.owned)):
        return sure if isinstance(sure, GaveUp) else _Outcome(known=True, ways=sure.ways)
    for admits in (Admits.FITS, Admits.UNSURE):
        found = solved(compiled, now, claims, admits, effort)
        if isinstance(found, GaveUp):
            return found
        if sure.ways and sure.ways[0].costs == found.ways[0].costs:
            return _Outcome(known=True, ways=sure.ways)
        if found.ways:
            return _Outcome(known=False, ways=found.ways)
    return _Outcome(known=True, ways=())


def _told(compiled: Compiled, now: Situation, ways: Sequence[Way]) -> tuple[Route, ...]:
    placed = [[compiled.parts[number] for number, _ in _placed(way.root)] for way in ways]
    light = gained(now, placed)
    return tuple(
        _told_of(compiled, now, way, points) for way, points in zip(ways, light, strict=True)
    )


def route_of(compiled: Compiled, now: Situation, way: Way) -> Route:
    """Turn a filled tree into a route in terms of parts.

    Parameters
    ----------
    compiled : Compiled
        The book.
    now : Situation
        The request, looked at.
    way : Way
        From the search.

    Returns
    -------
    Route
        What to buy, keep and put away, with all findings on the finished lamp.
    """
    (route,) = _told(compiled, now, [way])
    return route


def _told_of(compiled: Compiled, now: Situation, way: Way, light: int) -> Route:
    request = now.request
    assembly = Assembly(_mounted(compiled, way.root, None, None))
    by_how: dict[How, list[Part]] = {how: [] for how in How}
    for number, how in _placed(way.root):
        by_how[how].append(compiled.parts[number])
    kept = {part.id for part in by_how[How.KEPT]}
    finished = [it.part for it in assembly.walk()]
    lamp = compiled.book.lamps[request.lamp]
    return Route(
        buy=tuple(by_how[How.BOUGHT]),
        included=tuple(by_how[How.INCLUDED]),
        keep=tuple(by_how[How.KEPT]),
        aside=tuple(part for part in now.owned if part.id not in kept),
        price=sum(part.price or 0 for part in by_how[How.BOUGHT]),
        dying=tuple(part for part in finished if part.status is not Status.MADE),
        light=light,
        assembly=assembly,
        findings=audit(assembly, lamp, request.place, compiled.joiner)
        + tuple(_dying(compiled, by_how[How.BOUGHT]))
        + tuple(_open(lamp, now, finished))
        + tuple(_formless(compiled, lamp, by_how[How.BOUGHT])),
    )


def _open(lamp: Lamp, now: Situation, finished: Sequence[Part]) -> Iterator[Finding]:
    """Yield the asks of which nobody knows whether the finished lamp meets them."""
    for ask in now.request.wish.asks:
        for part in finished:
            if is_open(part, resolved(ask, lamp, now)):
                facts: dict[str, Fact] = {
                    "part": called(part),
                    "says": ask.says,
                    "column": ask.field.replace("_", " "),
                }
                yield Finding("ask-unknown", Severity.UNKNOWN, (part.id,), facts)


_ON_NO_LAMP = "was sold on no lamp of the fit book, which would tell its form"


def _formless(compiled: Compiled, lamp: Lamp, bought: Sequence[Part]) -> Iterator[Finding]:
    """Yield a note on a new base that makes another form of lamp, or nobody knows which."""
    for part in bought:
        if part.kind != "base":
            continue
        forms = compiled.forms.get(part.id)
        if forms is None or lamp.form not in forms:
            facts: dict[str, Fact] = {
                "part": called(part),
                "form": lamp.form.value,
                "makes": f"makes a {' or '.join(sorted(forms))} lamp" if forms else _ON_NO_LAMP,
            }
            yield Finding("other-form", Severity.CAUTION, (part.id,), facts)


def _dying(compiled: Compiled, bought: Sequence[Part]) -> Iterator[Finding]:
    for part in bought:
        if part.status is Status.STOCKS:
            after = compiled.book.parts.get(part.successor)
            facts: dict[str, Fact] = {
                "part": called(part),
                "stock": part.stock or 0,
                "successor": called(after) if after else "there is none yet",
            }
            yield Finding("dying", Severity.CAUTION, (part.id,), facts)


def _placed(node: Node) -> Iterator[tuple[int, How]]:
    number, how, below = node
    yield number, How(how)
    for child in below:
        if child is not None:
            yield from _placed(child)


def _mounted(compiled: Compiled, node: Node, below: Part | None, socket: int | None) -> Mounted:
    number, _, children = node
    part = compiled.parts[number]
    carried = tuple(
        _mounted(compiled, child, part, at)
        for at, child in enumerate(children)
        if child is not None
    )
    if below is None or socket is None:
        return Mounted(part, carried=carried)
    on = below.carries[socket]
    best = compiled.joiner.best(below, on, part)
    return Mounted(part, best[0] if best else None, on, carried)


# -- why there is none ----------------------------------------------------------------------


def _impossible(compiled: Compiled, now: Situation, claims: Sequence[Claim]) -> Impossible:
    holds = Oracle(compiled, now, refuted=claims)
    because = holds.reason(claims)
    outs = [_way_out(holds, claims, one) for one in holds.ways_out(claims, because)]
    blocked = _blocked(holds, claims, because)
    evidence = tuple(_evidence(holds, claims, because))
    return Impossible(
        now=now,
        because=because,
        blocked=blocked,
        ways_out=tuple(sorted((out for out in outs if out), key=_dearness)),
        evidence=evidence,
        complete=not holds.gave_up,
    )


def _dearness(out: WayOut) -> tuple[bool, int]:
    """Cheapest first, what has no price last."""
    return out.price is None, out.price or 0


_LAW_RULES = {"tip": "tips", "heat": "heat", "draft": "draft"}
"""The audit's rule behind each law of the parts."""


def _evidence(
    holds: Oracle, claims: Sequence[Claim], because: Sequence[Claim]
) -> Iterator[Finding]:
    """Show what each law would be broken by, at its mildest."""
    for claim in because:
        rule = _LAW_RULES.get(claim.sort)
        if rule is None:
            continue
        rest = [one for one in claims if one != claim]
        broken = [
            finding
            for way in holds.solved(rest)
            for finding in route_of(holds.compiled, holds.now, way).findings
            if finding.rule == rule
        ]
        if broken:
            yield min(broken, key=_gap)


def _gap(finding: Finding) -> float:
    """How far a finding is from what is permitted."""
    if not isinstance(finding.measured, Quantity) or finding.permitted is None:
        return 0.0
    low, high = finding.permitted.low, finding.permitted.high
    value = finding.measured.value
    return max(0.0, (low or value) - value, value - (high if high is not None else value))


def _way_out(holds: Oracle, claims: Sequence[Claim], given_up: Sequence[Claim]) -> WayOut | None:
    ways = holds.solved([claim for claim in claims if claim not in given_up])
    if not ways:
        return None
    best = min(ways, key=lambda way: way.costs[Aim.PRICE])
    bought = _bought(holds.compiled, best)
    elsewhere = tuple(p for p in bought if not buyable(p, holds.now.request.count))
    price = None if elsewhere else best.costs[Aim.PRICE]
    return WayOut(tuple(given_up), price, bought, elsewhere)


def _bought(compiled: Compiled, way: Way) -> tuple[Part, ...]:
    return tuple(compiled.parts[n] for n, how in _placed(way.root) if how is How.BOUGHT)


def _blocked(holds: Oracle, claims: Sequence[Claim], because: Sequence[Claim]) -> tuple[Part, ...]:
    """The parts that would be used if availability were no matter."""
    if not any(claim.sort == "available" for claim in because):
        return ()
    ways = holds.solved([claim for claim in claims if claim.sort != "available"])
    parts = {part.id: part for way in ways for part in _bought(holds.compiled, way)}
    count = holds.now.request.count
    return tuple(part for part in parts.values() if not buyable(part, count))

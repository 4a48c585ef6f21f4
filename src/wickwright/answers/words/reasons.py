"""Why each part of a route is bought: derived from the route, as data."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from wickwright.catalogue.records import Need, Status
from wickwright.catalogue.succession import successions
from wickwright.fit.assemble import assemble
from wickwright.fit.audit import audit
from wickwright.fit.compiled import LIT
from wickwright.fit.light import lights_of
from wickwright.fit.wishes import passes, resolved
from wickwright.terms.finding import Severity

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickwright.catalogue.assembly import Mounted
    from wickwright.catalogue.records import Ask, Part
    from wickwright.catalogue.succession import Step
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.request import Situation
    from wickwright.fit.routes import Route
    from wickwright.terms.finding import Finding

__all__ = ["Reason", "Why", "reasons"]


class Why(StrEnum):
    """What a part is bought for."""

    ASKED = "asked"
    LOST = "lost"
    ONLY = "only"
    INSTEAD = "instead"
    CONVERTS = "converts"
    FOLLOWS = "follows"
    REQUIRED = "required"
    CARRIES = "carries"
    FRESH = "fresh"
    LIGHT = "light"
    NEEDED = "needed"


@dataclass(frozen=True, slots=True)
class Reason:
    """One reason to buy a part.

    Attributes
    ----------
    why : Why
        ``asked`` by the wish; the part of its kind is ``lost``; ``only`` this passes the wish;
        ``instead`` of one in hand, which would break a rule; ``converts`` a lamp to the
        successor of one of its parts; ``follows`` a part as its successor; ``required`` by
        what it stands on; ``carries`` another part; ``fresh`` where the one in hand is on its
        way out; more ``light``; ``needed`` for the lamp to be complete.
    part : Part
        The part bought.
    other : Part or None
        The part in hand it replaces, that it stands on, or that it carries.
    ask : Ask or None
        Of the wish: ``asked`` and ``only``.
    finding : Finding or None
        What would be found on the lamp with the part in hand: ``instead``.
    step : Step or None
        The succession: ``converts`` and ``follows``.
    points : int
        Light points more than from the part in hand: ``light``.
    without : tuple of str
        What was asked of such a part and is done without: ``asked``.
    """

    why: Why
    part: Part
    other: Part | None = None
    ask: Ask | None = None
    finding: Finding | None = None
    step: Step | None = None
    points: int = 0
    without: tuple[str, ...] = ()


def reasons(compiled: Compiled, now: Situation, route: Route) -> dict[str, tuple[Reason, ...]]:
    """Say why each part of a route is bought.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    now : Situation
        What the caller has and wants.
    route : Route
        One way from here to there.

    Returns
    -------
    dict of str to tuple of Reason
        By number of the part bought, in the order of ``route.buy``; the weightiest reason
        first, at least one for each.
    """
    mounted = {it.part.id: it for it in route.assembly.walk()}
    below = {child.part.id: it.part for it, child in route.assembly.joints()}
    return {
        part.id: tuple(_of_part(compiled, now, route, mounted[part.id], below.get(part.id)))
        for part in route.buy
    }


def _of_part(
    compiled: Compiled, now: Situation, route: Route, it: Mounted, below: Part | None
) -> Iterator[Reason]:
    part, old = it.part, now.owned_of(it.part.kind)
    asked = [*_asked(now, part, old)]
    found = asked + ([*_only(compiled, now, part, old)] or [*_instead(compiled, now, route, part)])
    found += [*_succession(compiled, now, part), *_light(now, route, part, old)]
    if not found or (old is None and not asked):
        found += _standing(it, below)
    if not found and old is not None and old.status is not Status.MADE is part.status:
        found.append(Reason(Why.FRESH, part, other=old))
    yield from found or [Reason(Why.NEEDED, part)]


def _asked(now: Situation, part: Part, old: Part | None) -> Iterator[Reason]:
    """Asked for by the wish, or lost."""
    for ask in now.request.wish.asks:
        wanted = ask.ask == "renew" or (ask.ask == "present" and old is None)
        if wanted and ask.kind == part.kind:
            yield Reason(Why.ASKED, part, ask=ask, without=_given_up(now, part.kind))
    if part.kind in now.replaces:
        yield Reason(Why.LOST, part, other=_before(now, part.kind))


def _given_up(now: Situation, kind: str) -> tuple[str, ...]:
    """Return what was asked of a kind of part and is done without."""
    asks = now.request.wish.asks
    return tuple(
        asks[claim.index].says
        for claim in now.request.given_up
        if claim.sort == "ask" and claim.index < len(asks) and asks[claim.index].kind == kind
    )


def _before(now: Situation, kind: str) -> Part | None:
    """Return the part of a kind the lamp had, lost or not."""
    mounted = now.now.of_kind(kind)
    return mounted.part if mounted else None


def _only(compiled: Compiled, now: Situation, part: Part, old: Part | None) -> Iterator[Reason]:
    """The wish rules the part in hand out."""
    lamp = compiled.book.lamps[now.request.lamp]
    renewed = {ask.kind for ask in now.request.wish.asks if ask.ask == "renew"}
    for ask in now.request.wish.asks:
        if ask.ask not in ("only", "never", "service") or old is None or part.kind in renewed:
            continue
        if not passes(old, resolved(ask, lamp, now)):
            yield Reason(Why.ONLY, part, other=old, ask=ask)


def _instead(compiled: Compiled, now: Situation, route: Route, part: Part) -> Iterator[Reason]:
    """What would be wrong with the part in hand, and all that came with it, in its place."""
    old = now.owned_of(part.kind)
    renewed = {ask.kind for ask in now.request.wish.asks if ask.ask == "renew"}
    if old is None or part.kind in renewed:
        return
    included = {compiled.book.parts[one].kind for one in part.includes}
    back = [one for one in now.owned if one.kind in {part.kind, *included}]
    kinds = {one.kind for one in back}
    rest = [it.part for it in route.assembly.walk() if it.part.kind not in kinds]
    lamp = compiled.book.lamps[now.request.lamp]
    built = assemble([*rest, *back], compiled.joiner)
    anyway = {(finding.rule, finding.parts) for finding in route.findings}
    for finding in audit(built, lamp, now.request.place, compiled.joiner):
        if finding.severity >= Severity.UNKNOWN and (finding.rule, finding.parts) not in anyway:
            yield Reason(Why.INSTEAD, part, other=old, finding=finding)
            return


def _succession(compiled: Compiled, now: Situation, part: Part) -> Iterator[Reason]:
    """The part is named by the succession of one the lamp had."""
    steps = [step for it in now.now.walk() for step in successions(compiled.book, it.part)]
    via = next((step for step in steps if step.via == part), None)
    new = next((step for step in steps if step.new == part), None)
    if via:
        yield Reason(Why.CONVERTS, part, other=via.old, step=via)
    elif new:
        yield Reason(Why.FOLLOWS, part, other=new.old, step=new)


def _light(now: Situation, route: Route, part: Part, old: Part | None) -> Iterator[Reason]:
    points = _light_points(now, route, part, old)
    if points > 0 and any(ask.ask == "brighter" for ask in now.request.wish.asks):
        yield Reason(Why.LIGHT, part, other=old, points=points)


def _light_points(now: Situation, route: Route, part: Part, old: Part | None) -> int:
    """Return what a part adds to the light of the finished lamp, beside the one in hand."""
    with_new = [it.part for it in route.assembly.walk()]
    with_old = [old if old and one.id == part.id else one for one in with_new]
    if part.kind in LIT and old:
        new_light, old_light = lights_of([with_new, with_old], now.lights)
        if new_light is not None and old_light is not None:
            return new_light - old_light
    return part.light - (old.light if old else 0)


def _standing(it: Mounted, below: Part | None) -> Iterator[Reason]:
    """What it stands on requires it, or it is there for what it carries."""
    if it.on and it.on.need is Need.REQUIRED and below:
        yield Reason(Why.REQUIRED, it.part, other=below)
    elif it.carried:
        yield Reason(Why.CARRIES, it.part, other=it.carried[0].part)

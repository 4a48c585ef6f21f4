"""Answers as plain dicts and lists, for JSON and for machines that ask.

Keys stand in a fixed order and never vanish: what is not there is None or an empty list.
Numbers are in SI units, the unit at the end of the key (``angle_rad``, ``length_m``); money is
decimal text. Words for people stand under ``says``, ``why`` and ``cure``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.answers.flames.light_gained import light_gained
from wickwright.answers.flames.route_flames import all_findings, route_flames
from wickwright.answers.plain.flames import plain_burning, plain_route_flame
from wickwright.answers.words.cautions import usual_cautions
from wickwright.answers.words.reason_words import reason_words
from wickwright.answers.words.reasons import reasons
from wickwright.answers.words.wording import (
    claim_words,
    give_up_words,
    kept_off,
    sentence,
    why_not_words,
)
from wickwright.fit.asked import asked_findings
from wickwright.fit.routes import Gave, Impossible, NotKnown, Routes
from wickwright.terms.finding import Finding, Kind, Quantity, Range, Severity

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from wickwright.answers.do_they_fit import Pair
    from wickwright.answers.flames.route_flames import RouteFlame
    from wickwright.answers.limits_in_force import InForce
    from wickwright.answers.what_replaced import Replacement
    from wickwright.answers.words.reasons import Reason
    from wickwright.catalogue.records import Part
    from wickwright.fit.clearance import Gap
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.request import Situation
    from wickwright.fit.routes import Answer, Route
    from wickwright.fit.shared import Shared
    from wickwright.terms.finding import Fact, Rule
    from wickwright.terms.units import Units

__all__ = [
    "Plain",
    "plain_answer",
    "plain_finding",
    "plain_money",
    "plain_pair",
    "plain_part",
    "plain_replacement",
    "plain_rule",
    "plain_shared",
    "unit_key",
]

Plain = str | int | float | bool | None | list["Plain"] | dict[str, "Plain"]
"""What JSON can hold."""

_UNITS: dict[Kind, str] = {
    Kind.LENGTH: "length_m",
    Kind.MASS: "mass_kg",
    Kind.ANGLE: "angle_rad",
    Kind.POWER: "power_w",
    Kind.TEMPERATURE: "temperature_k",
    Kind.ELEVATION: "elevation_m",
    Kind.COUNT: "count",
    Kind.PRESSURE: "pressure_pa",
    Kind.RATIO: "ratio",
    Kind.SHARE: "share",
    Kind.TIME: "time_s",
    Kind.VOLUME: "volume_m3",
    Kind.AREA: "area_m2",
    Kind.AIR_CHANGE: "air_change_per_s",
    Kind.DISTANCE: "distance_m",
    Kind.LIGHT: "light_lm",
    Kind.MASS_FLOW: "mass_flow_kg_per_s",
    Kind.VOLUME_FLOW: "volume_flow_m3_per_s",
    Kind.SPEED: "speed_m_per_s",
    Kind.DRAFT: "draft_pa",
    Kind.STRESS: "stress_pa",
}


def unit_key(kind: Kind) -> str:
    """Return the key a number of a kind stands under.

    Parameters
    ----------
    kind : Kind
        What is measured; no money.

    Returns
    -------
    str
        Such as ``'length_m'``.
    """
    return _UNITS[kind]


# -- small things --------------------------------------------------------------------------------


def plain_money(amount: int | None) -> str | None:
    """Return money as decimal text.

    Parameters
    ----------
    amount : int or None
        In the smallest coin.

    Returns
    -------
    str or None
        Such as ``'70.00'``.
    """
    return None if amount is None else f"{amount // 100}.{amount % 100:02d}"


def plain_part(part: Part) -> dict[str, Plain]:
    """Return a part in short.

    Parameters
    ----------
    part : Part
        The part.

    Returns
    -------
    dict
        ``part``, ``name``, ``kind``, ``status``, ``price``, ``stock``.
    """
    return {
        "part": part.id,
        "name": part.name,
        "kind": part.kind,
        "status": str(part.status),
        "price": plain_money(part.price),
        "stock": part.stock,
    }


def _parts(parts: Iterable[Part]) -> list[Plain]:
    return [plain_part(part) for part in parts]


def _fact(fact: Fact) -> Plain:
    if isinstance(fact, Quantity):
        if fact.kind is Kind.MONEY:
            return {"money": plain_money(round(fact.value))}
        return {_UNITS[fact.kind]: fact.value}
    if isinstance(fact, Range):
        return {_UNITS.get(fact.kind, "money"): [fact.low, fact.high]}
    return list(fact) if isinstance(fact, tuple) else fact


def plain_finding(finding: Finding, units: Units) -> dict[str, Plain]:
    """Return a finding.

    Parameters
    ----------
    finding : Finding
        Any finding.
    units : Units
        For the words.

    Returns
    -------
    dict
        ``rule``, ``severity``, ``parts``, ``facts``, ``measured``, ``permitted``, ``source``,
        ``says``, ``why``, ``cure``; a range is a list of two, None where it is open.
    """
    words = sentence(finding, units)
    return {
        "rule": finding.rule,
        "severity": Severity(finding.severity).name.lower(),
        "parts": list(finding.parts),
        "facts": {name: _fact(fact) for name, fact in finding.facts.items()},
        "measured": None if finding.measured is None else _fact(finding.measured),
        "permitted": None if finding.permitted is None else _fact(finding.permitted),
        "source": finding.source or None,
        "says": words.says,
        "why": words.why,
        "cure": words.cure,
    }


def _findings(findings: Iterable[Finding], units: Units) -> list[Plain]:
    return [plain_finding(finding, units) for finding in findings]


# -- routes --------------------------------------------------------------------------------------


def plain_answer(compiled: Compiled, answer: Answer, units: Units) -> dict[str, Plain]:
    """Return what came of a request.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    answer : Answer
        Routes, or why there are none.
    units : Units
        For the words.

    Returns
    -------
    dict
        ``answer`` is ``routes``, ``impossible``, ``not known`` or ``gave up``; then
        ``request``, ``currency``, ``burnt_before``, ``routes``, ``why_not``, ``looked_at``,
        ``cautions``.
    """
    found = answer.routes if isinstance(answer, Routes | NotKnown) else ()
    flames = route_flames(compiled, answer.now, found)
    return {
        "answer": _NAMES[type(answer)],
        "request": _request(compiled, answer.now, units),
        "currency": units.currency,
        "burnt_before": plain_burning(flames.before) if found else None,
        "routes": [
            _route(compiled, answer.now, route, flame, units)
            for route, flame in zip(found, flames.after, strict=True)
        ],
        "why_not": _why_not(answer, units) if isinstance(answer, Impossible) else None,
        "looked_at": answer.looked_at if isinstance(answer, Gave) else None,
        "cautions": list(usual_cautions(answer.now)),
    }


_NAMES: dict[type, str] = {
    Routes: "routes",
    Impossible: "impossible",
    NotKnown: "not known",
    Gave: "gave up",
}


def _request(compiled: Compiled, now: Situation, units: Units) -> dict[str, Plain]:
    request = now.request
    lamp = compiled.book.lamps[request.lamp]
    return {
        "lamp": lamp.id,
        "lamp_name": lamp.name,
        "wish": request.wish.id,
        "wish_title": request.wish.title,
        "have": list(request.have),
        "lost": list(request.lost),
        "bare": request.bare,
        "elevation_m": request.place.elevation,
        "count": request.count,
        "budget": plain_money(request.budget),
        "findings": _findings(asked_findings(compiled.book, now), units),
    }


def _route(
    compiled: Compiled, now: Situation, route: Route, flame: RouteFlame, units: Units
) -> dict[str, Plain]:
    why = reasons(compiled, now, route)
    gained = light_gained(compiled.book, now, route)
    return {
        "price": plain_money(route.price),
        "buy": [
            {**plain_part(part), "reasons": [_reason(one, units) for one in why[part.id]]}
            for part in route.buy
        ],
        "included": _parts(route.included),
        "keep": _parts(route.keep),
        "aside": _parts(route.aside),
        "dying": [part.id for part in route.dying],
        "light_points": gained.points,
        "light_against": str(gained.against),
        "flame": plain_route_flame(flame),
        "findings": _findings(all_findings(route, flame), units),
    }


def _reason(reason: Reason, units: Units) -> dict[str, Plain]:
    return {
        "why": str(reason.why),
        "other": reason.other.id if reason.other else None,
        "rule": reason.finding.rule if reason.finding else None,
        "says": reason_words(reason, units),
    }


def _why_not(answer: Impossible, units: Units) -> dict[str, Plain]:
    return {
        "says": why_not_words(answer),
        "because": [
            {
                "sort": claim.sort,
                "subject": claim.subject,
                "says": claim_words(claim, answer.now, answer.blocked, kept_off(answer)),
            }
            for claim in answer.because
        ],
        "evidence": [plain_finding(finding, units) for finding in answer.evidence],
        "blocked": _parts(answer.blocked),
        "ways_out": [
            {
                "give_up": words,
                "price": plain_money(out.price),
                "buy": [part.id for part in out.buy],
                "not_from_us": [part.id for part in out.elsewhere],
            }
            for out in answer.ways_out
            if (words := give_up_words(out.give_up, answer))
        ],
        "complete": answer.complete,
    }


def plain_shared(
    compiled: Compiled, lamps: Sequence[str], shared: Shared, units: Units
) -> dict[str, Plain]:
    """Return what serves several lamps it could be.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    lamps : sequence of str
        Their ids, in the order asked.
    shared : Shared
        What came of it.
    units : Units
        For the words.

    Returns
    -------
    dict
        ``lamps``, ``purchases`` (what serves all), ``complete``, ``groups`` (lamps served
        alike by themselves), ``answers`` by lamp.
    """
    return {
        "lamps": list(lamps),
        "currency": units.currency,
        "purchases": [
            {"price": plain_money(one.price), "buy": _parts(one.buy)} for one in shared.purchases
        ],
        "complete": shared.complete,
        "groups": [[lamps[at] for at in group] for group in shared.groups],
        "answers": {
            lamp: plain_answer(compiled, answer, units)
            for lamp, answer in zip(lamps, shared.answers, strict=True)
        },
    }


# -- the rest ------------------------------------------------------------------------------------


def plain_pair(pair: Pair, units: Units) -> dict[str, Plain]:
    """Return how two parts join.

    Parameters
    ----------
    pair : Pair
        Two parts at their best.
    units : Units
        For the words.

    Returns
    -------
    dict
        ``below``, ``above``, ``joint``, ``verdict``, ``by_label``, ``missing``, ``finding``,
        ``service`` (temperature of each side), ``room`` (``cold`` and ``hot``, each with
        ``worst`` and ``likely``; None where nothing was measured).
    """
    joined = pair.joined
    return {
        "below": pair.below.id,
        "above": pair.above.id,
        "joint": pair.on.joint,
        "verdict": str(pair.joined.fit),
        "by_label": pair.joined.by_label,
        "missing": list(pair.joined.missing),
        "finding": plain_finding(pair.finding, units),
        "service": {
            "below": {"temperature_k": pair.warmth.carrier},
            "above": {"temperature_k": pair.warmth.stander},
        },
        "room": {
            "cold": _room(joined.worst, joined.likely),
            "hot": _room(joined.hot, joined.likely_hot),
        },
    }


def _room(worst: Gap | None, likely: Gap | None) -> Plain:
    if worst is None or likely is None:
        return None
    return {"worst": {"length_m": [*worst]}, "likely": {"length_m": [*likely]}}


def plain_replacement(it: Replacement) -> dict[str, Plain]:
    """Return what became of a part.

    Parameters
    ----------
    it : Replacement
        The part and its successions.

    Returns
    -------
    dict
        ``part``, ``steps`` (``old``, ``new``, ``via``, ``changes_joint``), ``heir``.
    """
    return {
        "part": plain_part(it.part),
        "steps": [
            {
                "old": step.old.id,
                "new": step.new.id,
                "via": step.via.id if step.via else None,
                "changes_joint": step.changes_joint,
            }
            for step in it.steps
        ],
        "heir": plain_part(it.heir) if it.heir else None,
    }


def plain_rule(rule: Rule, limits: Sequence[InForce] = ()) -> dict[str, Plain]:
    """Return a rule.

    Parameters
    ----------
    rule : Rule
        Of the rule book.
    limits : sequence of InForce
        The numbers it permits.

    Returns
    -------
    dict
        ``rule``, ``title``, ``says``, ``why``, ``cure``, ``source``, ``breaks``, ``limits``
        (``says``, ``value``, ``source``).
    """
    return {
        "rule": rule.key,
        "title": rule.title,
        "says": rule.says,
        "why": rule.why,
        "cure": rule.cure,
        "source": rule.source,
        "breaks": rule.breaks,
        "limits": [
            {"says": one.says, "value": _fact(one.value), "source": one.source} for one in limits
        ],
    }

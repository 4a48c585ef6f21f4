"""What goes into the parcel beside the parts: how to fit them, and what to take care of."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from wickwright.answers.flames.predict_burn import Burns, OnABulb
from wickwright.answers.flames.route_flames import all_findings
from wickwright.answers.plain.answers import plain_finding, plain_part, unit_key
from wickwright.answers.post.besides import NOTHING, doubts, ways_of
from wickwright.answers.post.caller_reasons import caller_reason
from wickwright.answers.post.caller_words import of_weight
from wickwright.answers.post.care import carbon_may_form, care_about, care_around
from wickwright.answers.post.fitting_steps import fitting_steps
from wickwright.answers.post.letter_parts import telephone
from wickwright.answers.post.sheet_for_several import for_several
from wickwright.answers.post.step_words import before_fitting, first_lighting, step_words
from wickwright.answers.sheet.given_up import given_up_words, wish_words
from wickwright.answers.words.cautions import usual_cautions
from wickwright.answers.words.reasons import reasons
from wickwright.catalogue.revision import revision_of
from wickwright.fit.audit import called
from wickwright.fit.stance import placed
from wickwright.terms.finding import Kind, Quantity
from wickwright.terms.units import say

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from datetime import date

    from wickwright.answers.flames.route_flames import RouteFlame
    from wickwright.answers.plain.answers import Plain
    from wickwright.answers.post.besides import Besides
    from wickwright.answers.post.fitting_steps import Step
    from wickwright.answers.post.one_of_these import Fitted
    from wickwright.burn.error_bars import Estimate
    from wickwright.catalogue.assembly import Assembly
    from wickwright.catalogue.records import Lamp, Part
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.request import Request, Situation
    from wickwright.fit.routes import Route
    from wickwright.terms.finding import Finding
    from wickwright.terms.units import Units

__all__ = ["Figure", "FitSheet", "fit_sheet", "plain_sheet"]


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure of the finished lamp.

    Attributes
    ----------
    name : str
        ``light``, ``fuel``, ``a full font lasts``, ``height`` or ``tips at``.
    value : Quantity
        The figure.
    spread : float or None
        One standard uncertainty [SI unit of the kind]; None where it is not told.
    least : float or None
        Least that is permitted [SI unit of the kind]; None where nothing is.
    """

    name: str
    value: Quantity
    spread: float | None = None
    least: float | None = None


@dataclass(frozen=True, slots=True)
class FitSheet:
    """One sheet for one lamp.

    Attributes
    ----------
    maker : str
        Who sends it.
    lamp : Lamp
        The model.
    request : Request
        What the caller has and wants, and where.
    wanted : str
        What is wanted, with what is done without.
    fit, included, aside : tuple of Part
        What is sent, what comes fitted in it, what is no longer used.
    why : tuple of str
        Why each part comes that is sent, in their order.
    before : tuple of str
        What is done before the first step.
    steps : tuple of Step
        How to fit the parts, in order.
    lighting, cautions : tuple of str
        The first lighting, and the usual cautions.
    figures : tuple of Figure
        Those that are known.
    findings : tuple of Finding
        What must be heard, gravest first.
    assumed : tuple of str
        What was taken for granted.
    doubts, care : tuple of str
        What was taken for granted and may be wrong; what to be careful of, beside the findings.
    height_taken : bool
        Whether sea level was taken because nobody said how high it stands.
    lamps : tuple of Lamp
        The models it may be for; one where it is named.
    named : bool
        Whether the caller's lamp is known well enough to be named, drawn and figured.
    unnamed : frozenset of str
        Kinds of part that are not the same on each of those models.
    telephone : str
        The maker's; blank where the book has none.
    call, revision : str
        Number of the call, blank where there is none; which fit book it was answered by.
    handed_in : date or None
        When it was answered.
    """

    maker: str
    lamp: Lamp
    request: Request
    wanted: str
    fit: tuple[Part, ...]
    included: tuple[Part, ...]
    aside: tuple[Part, ...]
    why: tuple[str, ...]
    before: tuple[str, ...]
    steps: tuple[Step, ...]
    lighting: tuple[str, ...]
    cautions: tuple[str, ...]
    figures: tuple[Figure, ...]
    findings: tuple[Finding, ...]
    assumed: tuple[str, ...]
    call: str
    revision: str
    handed_in: date | None
    doubts: tuple[str, ...] = ()
    care: tuple[str, ...] = ()
    lamps: tuple[Lamp, ...] = ()
    height_taken: bool = False
    named: bool = True
    unnamed: frozenset[str] = frozenset()
    telephone: str = ""


def fit_sheet(
    compiled: Compiled,
    now: Situation,
    route: Route,
    flame: RouteFlame,
    findings: Sequence[Finding],
    units: Units,
    *,
    call: str = "",
    handed_in: date | None = None,
    revision: str | None = None,
    besides: Besides = NOTHING,
) -> FitSheet:
    """Put a fit sheet together.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    now : Situation
        The request, looked at.
    route : Route
        The way that was chosen.
    flame : RouteFlame
        How its lamp burns.
    findings : sequence of Finding
        All that is to be said, see :func:`wickwright.answers.flames.route_flames.all_findings`.
    units : Units
        For what was assumed.
    call : str
        Number of the call.
    handed_in : date or None
        When it was answered; nothing here looks at a clock.
    revision : str or None
        Of the fit book, where it is known already; None works it out, which for ten thousand
        parts takes most of a second.
    besides : Besides
        For which lamps it is, and what was taken for granted. Where the lamp is not known well
        enough, only what holds for each of them stands on the sheet, and every caution of any.

    Returns
    -------
    FitSheet
        As data; :mod:`wickwright.answers.post.printed_sheet` puts it into words.
    """
    ways = ways_of(besides, now, route, flame)
    known = revision_of(compiled.book) if revision is None else revision
    first, *more = [
        _of_one(compiled, way, besides, units, (call, known, handed_in)) for way in ways
    ]
    whole = replace(first, findings=of_weight(findings))
    if more:
        whole = for_several(whole, more)
    if not besides.named:
        unsure = _UNSURE_WHICH if more else _UNSURE_ONE
        figures = whole.figures if more else ()
        whole = replace(whole, figures=figures, assumed=(unsure, *whole.assumed), named=False)
    care = filter(None, (carbon_may_form(ways), care_about(besides.remedy)))
    return replace(
        whole,
        cautions=(*care_around(ways, units), *whole.cautions),
        doubts=tuple(doubts(besides)),
        care=tuple(care),
        height_taken=bool(besides.height),
        lamps=tuple(compiled.book.lamps[way.now.request.lamp] for way in ways),
    )


def _of_one(
    compiled: Compiled,
    way: Fitted,
    besides: Besides,
    units: Units,
    kept: tuple[str, str, date | None],
) -> FitSheet:
    now, route, flame = way
    call, revision, handed_in = kept
    steps = fitting_steps(now, route)
    why = reasons(compiled, now, route)
    findings = all_findings(route, flame)
    return FitSheet(
        maker=compiled.book.about.get("maker", ""),
        lamp=compiled.book.lamps[now.request.lamp],
        request=now.request,
        wanted=wish_words(now),
        fit=route.buy,
        included=route.included,
        aside=route.aside,
        why=tuple(caller_reason(why[part.id]) for part in route.buy),
        before=before_fitting(now, steps),
        steps=steps,
        lighting=first_lighting(now, route),
        cautions=usual_cautions(now),
        figures=tuple(_figures(route, flame, findings)),
        findings=of_weight(findings),
        assumed=tuple(_assumed(compiled, way, besides, units)),
        call=call,
        revision=revision,
        handed_in=handed_in,
        telephone=telephone(compiled),
    )


# -- figures -------------------------------------------------------------------------------------


def _figures(route: Route, flame: RouteFlame, findings: Sequence[Finding]) -> Iterator[Figure]:
    match flame.burns:
        case Burns(prediction=found):
            yield _estimated("light", found["light"])
            yield _estimated("fuel", found["fuel"])
            if found["run_time"].value > 0.0:
                yield _estimated("a full font lasts", found["run_time"])
        case OnABulb(light=light) if light is not None:
            yield _estimated("light", light)
    if height := _height(route.assembly):
        yield Figure("height", Quantity(height, Kind.LENGTH))
    for one in findings:
        limit = one.permitted.low if one.permitted else None
        if one.rule in ("stands", "tips") and isinstance(one.measured, Quantity):
            yield Figure("tips at", one.measured, least=limit)


def _estimated(name: str, one: Estimate) -> Figure:
    return Figure(name, Quantity(one.value, one.kind), one.spread)


_OUTLINE: Final = ("base", "font", "burner", "gallery", "chimney", "holder", "shade", "bell")
"""Kinds that decide how tall a lamp is."""


def _height(assembly: Assembly) -> float:
    """Return the height over all [m]; 0 where the height of a part that decides it is blank."""
    parts = [it for it in placed(assembly) if it.part.kind in _OUTLINE]
    if any(it.part.height is None for it in parts):
        return 0.0
    return max((it.top for it in parts), default=0.0)


# -- what was taken for granted ------------------------------------------------------------------


def _assumed(compiled: Compiled, way: Fitted, besides: Besides, units: Units) -> Iterator[str]:
    now, _, flame = way
    request, parts = now.request, compiled.book.parts
    have = ", ".join(called(parts[one]) for one in request.have)
    if request.bare:
        yield f"There is nothing of the lamp but {have or 'its name'}."
    else:
        but = f", but with {have} on it" if have else ""
        yield f"The lamp is as it was sold{but}, and whole{_but_lost(request)}."
    if besides.height:
        yield "The lamp stands at sea level: its height was not said."
    if without := given_up_words(now):
        yield f"Done without, as agreed: {'; '.join(without)}."
    if request.place.measured is not None:
        pressure = say(Quantity(request.place.measured, Kind.PRESSURE), units)
        yield f"The air pressure there is {pressure}, as told."
    if isinstance(flame.burns, Burns) and besides.named:
        yield "Light and fuel: at the fullest clean flame, ± one standard uncertainty."


_UNSURE_WHICH: Final = "It is one of these lamps: what was seen does not tell which."
_UNSURE_ONE: Final = "It is this lamp: what was seen makes it likely, not sure."


def _but_lost(request: Request) -> str:
    return f" but for what is broken or gone: {', '.join(request.lost)}" if request.lost else ""


# -- as plain data -------------------------------------------------------------------------------


def plain_sheet(sheet: FitSheet, units: Units) -> dict[str, Plain]:
    """Return a fit sheet as plain data.

    Parameters
    ----------
    sheet : FitSheet
        The sheet.
    units : Units
        For the words.

    Returns
    -------
    dict
        ``call``, ``revision``, ``handed_in``, ``maker``, ``lamp``, ``lamp_name``, ``wish``,
        ``elevation_m``, ``count``, ``fit``, ``included``, ``aside``, ``before``, ``steps``
        (``do``, ``part``, ``carrier``, ``joint``, ``with``, ``says``), ``lighting``,
        ``cautions``, ``figures``, ``findings``, ``assumed``, ``doubts``, ``care``,
        ``lamps``, ``named``.
    """
    return {
        "call": sheet.call or None,
        "revision": sheet.revision,
        "handed_in": sheet.handed_in.isoformat() if sheet.handed_in else None,
        "maker": sheet.maker,
        "lamp": sheet.lamp.id,
        "lamp_name": sheet.lamp.name,
        "wish": sheet.request.wish.id,
        "elevation_m": sheet.request.place.elevation,
        "count": sheet.request.count,
        "fit": [plain_part(part) for part in sheet.fit],
        "included": [plain_part(part) for part in sheet.included],
        "aside": [plain_part(part) for part in sheet.aside],
        "before": list(sheet.before),
        "steps": [_plain_step(step, sheet.unnamed) for step in sheet.steps],
        "lighting": list(sheet.lighting),
        "cautions": list(sheet.cautions),
        "figures": [_plain_figure(one) for one in sheet.figures],
        "findings": [plain_finding(one, units) for one in sheet.findings],
        "assumed": list(sheet.assumed),
        "doubts": list(sheet.doubts),
        "care": list(sheet.care),
        "lamps": [lamp.id for lamp in sheet.lamps],
        "named": sheet.named,
    }


def _plain_step(step: Step, unnamed: frozenset[str]) -> dict[str, Plain]:
    return {
        "do": str(step.do),
        "part": step.part.id,
        "carrier": step.carrier.id if step.carrier else None,
        "joint": step.joint or None,
        "with": [part.id for part in step.riders],
        "says": step_words(step, unnamed),
    }


def _plain_figure(one: Figure) -> dict[str, Plain]:
    return {
        "name": one.name,
        unit_key(one.value.kind): one.value.value,
        "spread": one.spread,
        "least": one.least,
    }

"""The paragraphs of a letter that would grow too long: parts in short, the rest on the fit sheet.

Nothing that can hurt is left out: every caution stays, said in fewer words where there are any.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickwright.answers.caller_words import briefly, of_weight
from wickwright.answers.cautions import service_wanted, usual_cautions
from wickwright.answers.given_up import asked_words, given_up_words
from wickwright.answers.letter_parts import CALL_AGAIN, about, bulleted, listed, money, quoted
from wickwright.answers.predict_burn import Burns, OnABulb
from wickwright.fit.audit import called
from wickwright.terms.finding import Kind, Quantity
from wickwright.terms.units import say

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickwright.answers.diagnose import Diagnosis
    from wickwright.answers.route_flames import RouteFlame
    from wickwright.catalogue.records import Part
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.request import Situation
    from wickwright.fit.routes import Route
    from wickwright.terms.finding import Finding
    from wickwright.terms.units import Units

__all__ = ["short_paragraphs"]

_ROWS: Final = 4
"""More parts than this are named by kind and number in one sentence [-]."""


def short_paragraphs(
    compiled: Compiled,
    now: Situation,
    route: Route,
    flame: RouteFlame,
    findings: Sequence[Finding],
    units: Units,
    complaint: str = "",
    diagnosis: Diagnosis | None = None,
) -> list[str]:
    """Write to a caller who is sent parts, in as few words as are safe.

    Parameters
    ----------
    compiled, now, route, flame, findings, units, complaint, diagnosis
        As for :func:`wickwright.answers.reply.reply`.

    Returns
    -------
    list of str
        Paragraphs: what was understood, what is sent, what is left over, the light, what to mind,
        the end.
    """
    return [
        " ".join(_understood(compiled, now, units, complaint, diagnosis)),
        _sent(now, route, units),
        _left_over(route),
        _light(flame, units),
        bulleted("Please mind:", _cautions(now, findings, units)),
        f"{_ON_THE_SHEET}{CALL_AGAIN[service_wanted(now)]}",
    ]


_ON_THE_SHEET: Final = (
    "The sheet in the parcel says how to fit them, what each is and why it comes. "
)


def _understood(
    compiled: Compiled,
    now: Situation,
    units: Units,
    complaint: str,
    diagnosis: Diagnosis | None,
) -> Iterator[str]:
    request, parts = now.request, compiled.book.parts
    lamp = compiled.book.lamps[request.lamp]
    if complaint.strip():
        yield f"Thank you for your call. You told us: {quoted(complaint)}."
    if diagnosis and diagnosis.advice.causes:
        likely = diagnosis.advice.causes[0].cause
        yield f"What is most likely wrong: {compiled.book.calls.causes[likely].says}."
    place = request.place.elevation
    where = f"at {say(Quantity(place, Kind.ELEVATION), units)}" if place else "at sea level"
    many = f"{request.count} lamps of the model" if request.count > 1 else "a"
    yield f"As we understand it you have {many} {lamp.name} ({lamp.id}) {where}"
    if request.have:
        only = "with only" if request.bare else "with"
        yield f"{only} {listed([called(parts[one]) for one in request.have])} on it"
    if request.lost:
        yield f"without {listed(request.lost)}"
    asked = "; ".join(asked_words(now)) or request.wish.title
    yield f"and want: {asked}."
    if without := given_up_words(now):
        yield f"As not all can be had, you do without this: {'; '.join(without)}."
    yield "If that is wrong, tell us first."


def _sent(now: Situation, route: Route, units: Units) -> str:
    if not route.buy:
        return "You need nothing from us: what you have does it."
    count = now.request.count
    each = " for each lamp" if count > 1 else ""
    total = f"Together {money(route.price, units)}{each}"
    if count > 1:
        total += f", {money(route.price * count, units)} in all"
    if len(route.buy) > _ROWS:
        names = listed([f"{part.kind} ({part.id})" for part in route.buy])
        return f"We send{each}: {names}. {total}, postage not counted."
    rows = [_row(part, units) for part in route.buy]
    return f"{bulleted(f'We send{each}:', rows)}\n{total}, postage not counted."


def _row(part: Part, units: Units) -> str:
    return called(part) + (f": {money(part.price, units)}" if part.price is not None else "")


def _left_over(route: Route) -> str:
    aside = "Put aside, and do not use with them, the parts they replace."
    return aside if route.aside else ""


def _light(flame: RouteFlame, units: Units) -> str:
    match flame.burns:
        case Burns(prediction=found):
            return f"The lamp will give about {about(found['light'], units)}."
        case OnABulb(light=bulb) if bulb is not None:
            return f"On its bulb the lamp will give about {about(bulb, units)}."
        case _:
            return "How bright the lamp will be is not known."


def _cautions(now: Situation, findings: Sequence[Finding], units: Units) -> tuple[str, ...]:
    grave = of_weight(findings)
    going = [one.parts[0] for one in grave if one.rule == "dying" and one.parts]
    stocks = [f"Sold while stocks last: {listed(going)}."] if going else []
    own = (briefly(one, units) for one in grave if one.rule != "dying")
    return tuple(dict.fromkeys([*own, *stocks, *usual_cautions(now)]))

"""A letter to the caller: what was understood, what is sent and why, and what to take care of.

Plain text, to be read over and changed before it is sent. No term of the trade stands in it
without a few words that say what it is.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickwright.answers.caller_reasons import caller_reason
from wickwright.answers.caller_words import caller_words, of_weight, what_it_is
from wickwright.answers.cautions import service_wanted, usual_cautions
from wickwright.answers.given_up import asked_words, given_up_words
from wickwright.answers.letter_parts import (
    CALL_AGAIN,
    about,
    bulleted,
    letter,
    listed,
    money,
    quoted,
)
from wickwright.answers.predict_burn import Burns, OnABulb
from wickwright.answers.reasons import reasons
from wickwright.answers.short_letter import short_paragraphs
from wickwright.fit.audit import called
from wickwright.terms.finding import Kind, Quantity
from wickwright.terms.units import Units, say

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickwright.answers.diagnose import Diagnosis
    from wickwright.answers.route_flames import RouteFlame
    from wickwright.burn.error_bars import Estimate
    from wickwright.catalogue.records import Part
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.request import Situation
    from wickwright.fit.routes import Route
    from wickwright.terms.finding import Finding

__all__ = ["MOST_WORDS", "reply", "understood"]


def reply(
    compiled: Compiled,
    now: Situation,
    route: Route,
    flame: RouteFlame,
    findings: Sequence[Finding],
    units: Units,
    *,
    caller: str = "",
    adviser: str = "",
    complaint: str = "",
    diagnosis: Diagnosis | None = None,
) -> str:
    """Write to a caller who is sent parts.

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
        All that is to be said, see :func:`wickwright.answers.route_flames.all_findings`.
    units : Units
        What to print in.
    caller, adviser : str
        Names at the head and the foot; may be blank.
    complaint : str
        What the caller said, in the caller's words; may be blank.
    diagnosis : Diagnosis or None
        What is likely to be wrong.

    Returns
    -------
    str
        Plain text, a blank line between paragraphs.
    """
    full = [
        understood(compiled, now, units, complaint, diagnosis),
        _sent(compiled, now, route, units),
        _left_over(route),
        _change(flame, units),
        bulleted("Please mind:", _cautions(now, findings, units)),
        _ending(now, route),
    ]
    text = letter(compiled, full, caller, adviser)
    if _is_short(text, complaint):
        return text
    short = short_paragraphs(compiled, now, route, flame, findings, units, complaint, diagnosis)
    for places in _SHORTENED:
        full = [short[at] if at in places else one for at, one in enumerate(full)]
        text = letter(compiled, full, caller, adviser)
        if _is_short(text, complaint):
            break
    return text


MOST_WORDS: Final = 250
"""A letter has no more words, the caller's own not counted [-]."""
_SHORTENED: Final = ((4,), (2,), (0,), (1, 5), (3,))
"""Paragraphs that are said in short, one after the other, until the letter is short enough: what
to mind, what is left over, what was understood; what is sent, with the end that names the sheet
for it; what changes."""


def _is_short(text: str, complaint: str) -> bool:
    return len(text.split()) - len(quoted(complaint).split()) <= MOST_WORDS


# -- what was understood -------------------------------------------------------------------------


def understood(
    compiled: Compiled,
    now: Situation,
    units: Units,
    complaint: str = "",
    diagnosis: Diagnosis | None = None,
) -> str:
    """Say back what the caller has and wants, so that a mistake is seen.

    Parameters
    ----------
    compiled, now, units, complaint, diagnosis
        As for :func:`reply`.

    Returns
    -------
    str
        One paragraph.
    """
    return " ".join(_understood(compiled, now, units, complaint, diagnosis))


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
    yield f"As we understand it you have {many} {lamp.name} ({lamp.id}) {where}."
    if request.have:
        only = "Of it you have only" if request.bare else "On it is"
        yield f"{only} {listed([called(parts[one]) for one in request.have])}."
    if request.lost:
        yield f"Broken or gone: {listed(request.lost)}."
    if asks := asked_words(now):
        yield f"What you want: {'; '.join(asks)}."
    if without := given_up_words(now):
        yield f"As not all of it can be had, you do without this: {'; '.join(without)}."
    yield "If any of this is wrong, tell us before you do anything else."


# -- what is sent --------------------------------------------------------------------------------


def _sent(compiled: Compiled, now: Situation, route: Route, units: Units) -> str:
    if not route.buy:
        return "You need nothing from us: what you have does it."
    count = now.request.count
    why = reasons(compiled, now, route)
    rows = [_row(part, caller_reason(why[part.id]), units) for part in route.buy]
    total = money(route.price, units)
    cost = (
        f"{total} for each lamp, {money(route.price * count, units)} in all" if count > 1 else total
    )
    return "\n".join(
        [
            bulleted("We send for each lamp:" if count > 1 else "We send:", rows),
            f"Together {cost}, postage not counted.",
        ]
    )


def _row(part: Part, why: str, units: Units) -> str:
    what = what_it_is(part)
    named = f"{called(part)}, {what}" if what else called(part)
    price = f" {money(part.price, units)}." if part.price is not None else ""
    return f"{named}:{price} {why[:1].upper()}{why[1:]}."


def _left_over(route: Route) -> str:
    says = []
    if route.included:
        says.append(f"Fitted in it come: {_kinds(route.included)}.")
    if route.aside:
        says.append(f"Put aside, and do not use with the new parts: the old {_kinds(route.aside)}.")
    if route.buy and route.keep:
        says.append("All else stays on the lamp.")
    return " ".join(says)


def _kinds(parts: Sequence[Part]) -> str:
    return listed([part.kind for part in parts])


def _change(flame: RouteFlame, units: Units) -> str:
    match flame.burns:
        case Burns(prediction=found):
            light = about(found["light"], units)
            fuel = say(Quantity(found["fuel"].value * _HOUR, Kind.MASS), units)
            says = f"The lamp will give about {light} and burn about {fuel} of kerosene an hour"
            return f"{says}{_than_before(flame)}."
        case OnABulb(light=bulb) if bulb is not None:
            return f"On its bulb the lamp will give about {about(bulb, units)}."
        case _:
            return "How bright the lamp will be is not known."


_HOUR: Final = 3600.0

_TOLD_FROM: Final = 0.02
"""Change of light below which nothing is said of it [-]."""


_ANY: Final = Units()
"""A share is said alike in all units."""


def _than_before(flame: RouteFlame) -> str:
    if flame.light is None or flame.fuel is None or abs(flame.light.value) < _TOLD_FROM:
        return ""
    light, fuel, spread = (
        say(Quantity(abs(value), Kind.RATIO), _ANY)
        for value in (flame.light.value, flame.fuel.value, flame.light.spread)
    )
    return (
        f": {light} {_more(flame.light)} light than before, give or take {spread}, for {fuel} "
        f"{_more(flame.fuel)} fuel"
    )


def _more(one: Estimate) -> str:
    return "more" if one.value > 0.0 else "less"


# -- care ----------------------------------------------------------------------------------------


def _cautions(now: Situation, findings: Sequence[Finding], units: Units) -> tuple[str, ...]:
    own = (caller_words(one, units) for one in of_weight(findings))
    return tuple(dict.fromkeys([*own, *usual_cautions(now)]))


def _ending(now: Situation, route: Route) -> str:
    sheet = "How to fit the parts step by step is on the sheet in the parcel. " if route.buy else ""
    return f"{sheet}{CALL_AGAIN[service_wanted(now)]}"

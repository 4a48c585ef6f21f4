"""A letter to the caller: what was understood, what is sent and why, and what to take care of.

Plain text, to be read over and changed before it is sent. No term of the trade stands in it
without a few words that say what it is.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickwright.answers.flames.predict_burn import Burns, OnABulb
from wickwright.answers.post.besides import NOTHING, doubts, ways_of
from wickwright.answers.post.caller_reasons import caller_reason
from wickwright.answers.post.caller_words import caller_words, of_weight, what_it_is
from wickwright.answers.post.care import carbon_may_form, care_about, care_around
from wickwright.answers.post.lamps_had import lamps_had, put_aside
from wickwright.answers.post.letter_parts import (
    about,
    bulleted,
    call_again,
    letter,
    listed,
    money,
    quoted,
)
from wickwright.answers.post.short_letter import short_paragraphs
from wickwright.answers.post.want_words import want_words
from wickwright.answers.sheet.given_up import given_up_words
from wickwright.answers.words.cautions import service_wanted, usual_cautions
from wickwright.answers.words.reasons import reasons
from wickwright.fit.audit import called
from wickwright.terms.finding import Kind, Quantity
from wickwright.terms.units import Units, say

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickwright.answers.diagnose import Diagnosis
    from wickwright.answers.flames.route_flames import RouteFlame
    from wickwright.answers.post.besides import Besides
    from wickwright.answers.post.one_of_these import Fitted
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
    besides: Besides = NOTHING,
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
        All that is to be said, see :func:`wickwright.answers.flames.route_flames.all_findings`.
    units : Units
        What to print in.
    caller, adviser : str
        Names at the head and the foot; may be blank.
    complaint : str
        What the caller said, in the caller's words; may be blank.
    diagnosis : Diagnosis or None
        What is likely to be wrong.
    besides : Besides
        For which lamps it is, and what was taken for granted.

    Returns
    -------
    str
        Plain text, a blank line between paragraphs.
    """
    ways = ways_of(besides, now, route, flame)
    full = [
        understood(compiled, now, units, complaint, diagnosis, besides),
        "\n".join(doubts(besides)),
        _sent(compiled, now, route, units),
        _left_over(ways),
        _change(ways, units),
        bulleted("Please mind:", _cautions(ways, findings, besides, units)),
        _ending(compiled, now, route),
    ]
    text = letter(compiled, full, caller, adviser)
    short = short_paragraphs(compiled, ways, findings, units, complaint, diagnosis, besides)
    for at, paragraph in short:
        if _is_short(text, complaint):
            break
        full[at] = paragraph
        text = letter(compiled, full, caller, adviser)
    return text


MOST_WORDS: Final = 250
"""A letter has no more words, the caller's own not counted [-]."""


def _is_short(text: str, complaint: str) -> bool:
    return len(text.split()) - len(quoted(complaint).split()) <= MOST_WORDS


# -- what was understood -------------------------------------------------------------------------


def understood(
    compiled: Compiled,
    now: Situation,
    units: Units,
    complaint: str = "",
    diagnosis: Diagnosis | None = None,
    besides: Besides = NOTHING,
) -> str:
    """Say back what the caller has and wants, so that a mistake is seen.

    Parameters
    ----------
    compiled, now, units, complaint, diagnosis, besides
        As for :func:`reply`.

    Returns
    -------
    str
        One paragraph.
    """
    return " ".join(_understood(compiled, now, units, complaint, diagnosis, besides))


def _understood(
    compiled: Compiled,
    now: Situation,
    units: Units,
    complaint: str,
    diagnosis: Diagnosis | None,
    besides: Besides,
) -> Iterator[str]:
    request, parts = now.request, compiled.book.parts
    if complaint.strip():
        yield f"Thank you for your call. You told us: {quoted(complaint)}."
    if diagnosis and diagnosis.advice.causes:
        likely = diagnosis.advice.causes[0].cause
        yield f"What is most likely wrong: {compiled.book.calls.causes[likely].says}."
    yield f"As we understand it you have {lamps_had(compiled, now, besides, units)}."
    if request.have and besides.named:
        only = "Of it you have only" if request.bare else "On it is"
        yield f"{only} {listed([called(parts[one]) for one in request.have])}."
    if request.lost:
        yield f"Broken or gone: {listed(request.lost)}."
    if wanted := want_words(now):
        yield f"You would like {wanted}."
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


def _left_over(ways: Sequence[Fitted]) -> str:
    route = ways[0].route
    says = [put_aside(ways)]
    if route.buy and route.keep:
        says.append("All else stays on the lamp.")
    return " ".join(filter(None, says))


def _change(ways: Sequence[Fitted], units: Units) -> str:
    """Say what light and fuel there will be, where that is the same for each lamp."""
    says = {_change_of(one.flame, units) for one in ways}
    return says.pop() if len(says) == 1 else ""


def _change_of(flame: RouteFlame, units: Units) -> str:
    match flame.burns:
        case Burns(prediction=found):
            light = about(found["light"], units)
            fuel = say(Quantity(found["fuel"].value * _HOUR, Kind.MASS), units)
            says = f"The lamp will burn about {fuel} of kerosene an hour"
            return f"{says}{_than_before(flame)}. It will give about {light}."
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
        f": {fuel} {_more(flame.fuel)} than before, for {light} {_more(flame.light)} light, give "
        f"or take {spread}"
    )


def _more(one: Estimate) -> str:
    return "more" if one.value > 0.0 else "less"


# -- care ----------------------------------------------------------------------------------------


def _cautions(
    ways: Sequence[Fitted], findings: Sequence[Finding], besides: Besides, units: Units
) -> tuple[str, ...]:
    own = (caller_words(one, units) for one in of_weight(findings))
    more = (care_about(besides.remedy), carbon_may_form(ways), *care_around(ways, units))
    said = (*own, *filter(None, more), *usual_cautions(ways[0].now))
    return tuple(dict.fromkeys(said))


def _ending(compiled: Compiled, now: Situation, route: Route) -> str:
    sheet = "How to fit the parts step by step is on the sheet in the parcel. " if route.buy else ""
    return f"{sheet}{call_again(compiled, service_wanted(now))}"

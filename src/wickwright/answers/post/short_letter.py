"""The paragraphs of a letter that would grow too long: parts in short, the rest on the fit sheet.

Nothing that can hurt is left out: every caution stays, said in fewer words where there are any.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickwright.answers.flames.predict_burn import Burns, OnABulb
from wickwright.answers.post.caller_reasons import caller_reason
from wickwright.answers.post.caller_words import briefly, of_weight
from wickwright.answers.post.care import carbon_may_form, care_about, care_around
from wickwright.answers.post.lamps_had import lamps_had, put_aside
from wickwright.answers.post.letter_parts import about, bulleted, call_again, listed, money, quoted
from wickwright.answers.post.want_words import want_words
from wickwright.answers.sheet.given_up import given_up_words
from wickwright.answers.words.cautions import service_wanted, usual_cautions
from wickwright.answers.words.reasons import reasons
from wickwright.fit.audit import called

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from wickwright.answers.diagnose import Diagnosis
    from wickwright.answers.flames.route_flames import RouteFlame
    from wickwright.answers.post.besides import Besides
    from wickwright.answers.post.one_of_these import Fitted
    from wickwright.answers.words.reasons import Reason
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
    ways: Sequence[Fitted],
    findings: Sequence[Finding],
    units: Units,
    complaint: str,
    diagnosis: Diagnosis | None,
    besides: Besides,
) -> Iterator[tuple[int, str]]:
    """Write to a caller who is sent parts, in as few words as are safe.

    Parameters
    ----------
    compiled, findings, units, complaint, diagnosis, besides
        As for :func:`wickwright.answers.post.reply.reply`.
    ways : sequence of Fitted
        Each lamp the parts may be for.

    Yields
    ------
    tuple of int and str
        Which paragraph of the letter is said in short, and how; in the order in which they are
        put in place of the long ones until the letter is short enough.
    """
    now, route, flame = ways[0]
    yield _CAUTIONS, bulleted("Please mind:", _cautions(ways, findings, besides, units))
    yield _LEFT_OVER, put_aside(ways)
    told = _understood(compiled, now, units, complaint, diagnosis, besides)
    yield _UNDERSTOOD, " ".join(told)
    yield _CHANGE, _light(ways, flame, units)
    yield _SENT, _sent(now, route, units, reasons(compiled, now, route))
    yield _END, f"{_ON_THE_SHEET}{call_again(compiled, service_wanted(now))}"
    yield _LEFT_OVER, put_aside(ways, numbered=False)
    yield _SENT, _sent(now, route, units, {})


_UNDERSTOOD, _SENT, _LEFT_OVER, _CHANGE, _CAUTIONS, _END = 0, 2, 3, 4, 5, 6
"""Places of paragraphs in the letter; what is doubtful, at 1, is never said in short."""
_ON_THE_SHEET: Final = "The sheet in the parcel says how to fit them, and why each comes. "


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
    had = [lamps_had(compiled, now, besides, units)]
    if request.have and besides.named:
        only = "with only" if request.bare else "with"
        had.append(f"{only} {listed([called(parts[one]) for one in request.have])} on it")
    if request.lost:
        had.append(f"without {listed(request.lost)}")
    wanted = want_words(now)
    would = f", and you would like {wanted}" if wanted else ""
    yield f"As we understand it you have {' '.join(had)}{would}."
    if without := given_up_words(now):
        yield f"As not all can be had, you do without this: {'; '.join(without)}."
    yield "If that is wrong, tell us first."


def _sent(now: Situation, route: Route, units: Units, why: Mapping[str, Sequence[Reason]]) -> str:
    if not route.buy:
        return "You need nothing from us: what you have does it."
    count = now.request.count
    each = " for each lamp" if count > 1 else ""
    total = f"Together {money(route.price, units)}{each}"
    if count > 1:
        total += f", {money(route.price * count, units)} in all"
    if len(route.buy) > _ROWS and not why:
        names = listed([f"{part.kind} ({part.id})" for part in route.buy])
        return f"We send{each}: {names}. {total}, postage not counted."
    rows = [_row(part, units, why.get(part.id, ())) for part in route.buy]
    return f"{bulleted(f'We send{each}:', rows)}\n{total}, postage not counted."


def _row(part: Part, units: Units, why: Sequence[Reason]) -> str:
    price = f": {money(part.price, units)}" if part.price is not None else ""
    because = f", {caller_reason(why)}" if why else ""
    return f"{called(part)}{price}{because}"


def _light(ways: Sequence[Fitted], flame: RouteFlame, units: Units) -> str:
    says = {_light_of(one.flame, units) for one in ways}
    return _light_of(flame, units) if len(says) == 1 else ""


def _light_of(flame: RouteFlame, units: Units) -> str:
    match flame.burns:
        case Burns(prediction=found):
            return f"The lamp will give about {about(found['light'], units)}."
        case OnABulb(light=bulb) if bulb is not None:
            return f"On its bulb the lamp will give about {about(bulb, units)}."
        case _:
            return "How bright the lamp will be is not known."


def _cautions(
    ways: Sequence[Fitted], findings: Sequence[Finding], besides: Besides, units: Units
) -> tuple[str, ...]:
    grave = of_weight(findings)
    going = [one for one in grave if one.rule == "dying" and one.parts]
    stocks = [f"Sold while stocks last: {listed([*map(_going, going)])}."] if going else []
    own = (briefly(one, units) for one in grave if one.rule != "dying")
    more = (care_about(besides.remedy), carbon_may_form(ways), *care_around(ways, units))
    said = (*own, *stocks, *filter(None, more), *usual_cautions(ways[0].now))
    return tuple(dict.fromkeys(said))


def _going(finding: Finding) -> str:
    """Name a part that is going, and what replaces it."""
    next_one = finding.facts.get("successor")
    return f"{finding.parts[0]} (then {next_one})" if next_one else finding.parts[0]

"""Letters whatever came of a request: parts are sent, it cannot be done, it is not known."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickwright.answers.flames.route_flames import route_flames
from wickwright.answers.post.besides import NOTHING, doubts, findings_of, ways_of
from wickwright.answers.post.caller_words import caller_words
from wickwright.answers.post.letter_parts import bulleted, letter
from wickwright.answers.post.reply import reply, understood
from wickwright.answers.to_measure import to_measure
from wickwright.answers.words.cautions import usual_cautions
from wickwright.answers.words.wording import give_up_words, leaves_it, why_not_words
from wickwright.fit.audit import called
from wickwright.fit.routes import Gave, Impossible, NotKnown
from wickwright.terms.finding import Kind, Quantity
from wickwright.terms.units import say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickwright.answers.diagnose import Diagnosis
    from wickwright.answers.post.besides import Besides
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.request import Situation
    from wickwright.fit.routes import Answer, Route, WayOut
    from wickwright.terms.units import Units

__all__ = ["reply_to"]


def reply_to(
    compiled: Compiled,
    answer: Answer,
    units: Units,
    *,
    way: int = 0,
    caller: str = "",
    adviser: str = "",
    complaint: str = "",
    diagnosis: Diagnosis | None = None,
    besides: Besides = NOTHING,
) -> str:
    """Write to a caller, whatever came of the request.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    answer : Answer
        What came of the request.
    units : Units
        What to print in.
    way : int
        Which of the routes was chosen, counted from 0.
    caller, adviser, complaint, diagnosis, besides
        As for :func:`wickwright.answers.post.reply.reply`.

    Returns
    -------
    str
        Plain text, a blank line between paragraphs.
    """
    match answer:
        case Impossible():
            own = [*_impossible(answer, units), *_all_the_same(answer.now)]
        case NotKnown():
            own = [*_not_known(answer.routes[way], units), *_all_the_same(answer.now)]
        case Gave():
            own = [_STILL_LOOKING, *_all_the_same(answer.now)]
        case _:
            route = answer.routes[way]
            (flame,) = route_flames(compiled, answer.now, [route]).after
            found = findings_of(ways_of(besides, answer.now, route, flame))
            return reply(
                compiled, answer.now, route, flame, found, units,
                caller=caller, adviser=adviser, complaint=complaint, diagnosis=diagnosis,
                besides=besides,
            )  # fmt: skip
    said = understood(compiled, answer.now, units, complaint, diagnosis, besides)
    return letter(compiled, [said, "\n".join(doubts(besides)), *own], caller, adviser)


def _impossible(answer: Impossible, units: Units) -> Iterator[str]:
    evidence = " ".join(caller_words(one, units) for one in answer.evidence)
    yield f"We are sorry: this cannot be done. {why_not_words(answer)} {evidence}".strip()
    offers = [
        _offer(out, words, units)
        for out in answer.ways_out
        if (words := give_up_words(out.give_up, answer))
    ]
    yield bulleted("The nearest that can be done:", offers) or _NO_OFFER


def _offer(out: WayOut, words: str, units: Units) -> str:
    if leaves_it(out):
        return "Leave the lamp as it is: nothing to buy."
    sent = ", ".join(called(part) for part in out.buy if part not in out.elsewhere)
    if out.elsewhere:
        sought = ", ".join(called(part) for part in out.elsewhere)
        then = f" We would then send {sent}." if sent else ""
        return f"Find {sought} elsewhere: we have none left.{then}"
    price = f" for {say(Quantity(out.price, Kind.MONEY), units)}" if out.price is not None else ""
    buy = f"we would send {sent}{price}" if sent else "there is nothing to buy"
    return f"If you can do without {words}, {buy}."


_NO_OFFER: Final = (
    "Nothing that could safely be left out makes it possible. Please do not try it with other "
    "parts."
)
_STILL_LOOKING: Final = (
    "We have not found out yet what to send. A colleague is going to look into it and call you "
    "back."
)


def _not_known(route: Route, units: Units) -> Iterator[str]:
    yield "We do not know yet whether we have the right parts: nobody has measured what decides it."
    yield bulleted("Please measure, and tell us:", to_measure(route.findings))
    yield _HOW_TO_MEASURE
    if route.buy:
        sent = ", ".join(called(part) for part in route.buy)
        price = say(Quantity(route.price, Kind.MONEY), units)
        yield f"If it comes out as we hope, we would send {sent} for {price}. We send nothing yet."


_HOW_TO_MEASURE: Final = (
    "Measure with the lamp out and cold. Use a sliding caliper if you can, to a tenth of a "
    "millimetre; if not, lay a ruler beside the part and send us a photograph from straight above."
)


def _all_the_same(now: Situation) -> Iterator[str]:
    yield bulleted("Until then, and always:", usual_cautions(now))

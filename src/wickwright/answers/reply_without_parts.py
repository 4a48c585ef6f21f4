"""Letters where nothing is sent: it cannot be done, it is not known, the bench looks at it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickwright.answers.caller_words import caller_words
from wickwright.answers.cautions import usual_cautions
from wickwright.answers.letter_parts import bulleted, letter, quoted
from wickwright.answers.reply import reply, understood
from wickwright.answers.route_flames import all_findings, route_flames
from wickwright.answers.to_measure import to_measure
from wickwright.answers.wording import give_up_words, leaves_it, why_not_words
from wickwright.fit.audit import called
from wickwright.fit.routes import Gave, Impossible, NotKnown
from wickwright.terms.finding import Kind, Quantity
from wickwright.terms.units import say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickwright.answers.diagnose import Diagnosis
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.request import Situation
    from wickwright.fit.routes import Answer, Route, WayOut
    from wickwright.terms.units import Units

__all__ = ["bench_letter", "reply_to"]


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
    caller, adviser, complaint, diagnosis
        As for :func:`wickwright.answers.reply.reply`.

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
            found = all_findings(route, flame)
            return reply(
                compiled, answer.now, route, flame, found, units,
                caller=caller, adviser=adviser, complaint=complaint, diagnosis=diagnosis,
            )  # fmt: skip
    said = understood(compiled, answer.now, units, complaint, diagnosis)
    return letter(compiled, [said, *own], caller, adviser)


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


# -- to the bench --------------------------------------------------------------------------------


def bench_letter(
    compiled: Compiled,
    lamp: str,
    *,
    call: str = "",
    caller: str = "",
    adviser: str = "",
    complaint: str = "",
) -> str:
    """Write to a caller whose lamp is to be seen at the bench.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    lamp : str
        Model number.
    call : str
        Number of the call; may be blank.
    caller, adviser, complaint : str
        As for :func:`wickwright.answers.reply.reply`.

    Returns
    -------
    str
        Plain text, a blank line between paragraphs.
    """
    model = compiled.book.lamps[lamp]
    told = f" You told us: {quoted(complaint)}." if complaint.strip() else ""
    begins = f"Thank you for your call about your {model.name} ({model.id}).{told} {_BRING_IT}"
    number = f"Write the number of the call, {call}, on a note inside. " if call else ""
    paragraphs = [begins, bulleted("This is how to pack it:", _PACKING), f"{number}{_BEFORE_WORK}"]
    return letter(compiled, paragraphs, caller, adviser)


_BRING_IT: Final = (
    "We could not settle it from afar and would like to see the lamp itself. Please do not light "
    "it, or plug it in, until then."
)
_BEFORE_WORK: Final = (
    "Send no glass that is cracked. We look at the lamp, and tell you what it needs and costs "
    "before we do anything."
)
_PACKING: Final = (
    "Let it get cold to the hand. Pull the plug if it runs on a bulb.",
    (
        "Empty the font, the vessel for the fuel, in the open with no flame near, and leave it "
        "open in the air for a day. No fuel goes in the post: fire."
    ),
    (
        "Take off the tall glass, the shade, and the white web that glows. Keep them at home "
        "unless we asked for them."
    ),
    "Wrap burner and font each by itself, in plenty of paper, in a stiff box.",
)
"""Common practice, no published source; carriers' own rules come first."""

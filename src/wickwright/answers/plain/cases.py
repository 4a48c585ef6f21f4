"""A case as plain data, to be written down, sent and taken up again."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.catalogue.spelling import meant
from wickwright.cause.case import Act, Answer, Cleared, Computed, Danger, Outcome, Said, Spoken
from wickwright.cause.dangers import GUARDS

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

    from wickwright.answers.diagnose import Diagnosis
    from wickwright.answers.plain.answers import Plain
    from wickwright.catalogue.call_records import CallBook
    from wickwright.cause.case import Event
    from wickwright.cause.next_step import Step

__all__ = ["CaseFault", "plain_advice", "plain_events", "read_events"]

_NONE = "no dangers"
"""Short for a no to every danger."""


@dataclass(frozen=True, slots=True)
class CaseFault:
    """One thing wrong with a list of events: which, counted from 1, what, and what mends it."""

    event: int
    what: str
    cure: str


def plain_events(events: Sequence[Event]) -> list[Plain]:
    """Return what was said and done as plain data.

    Parameters
    ----------
    events : sequence of Event
        Of a case; what was worked out is left out, for it is worked out again.

    Returns
    -------
    list
        One object for each.
    """
    return [_plain(event) for event in events if not isinstance(event, Computed)]


def _plain(event: Event) -> Plain:
    match event:
        case Answer(sign, said):
            return {"sign": sign, "said": said.value}
        case Danger(danger, said):
            return {"danger": danger, "said": said.value}
        case Cleared(danger):
            return {"cleared": danger}
        case Act(remedy, outcome, bought):
            named: dict[str, Plain] = {"bought": list(bought)} if bought else {}
            return {"remedy": remedy, "outcome": outcome.value, **named}
        case Computed(cause, chance, because):
            return {"cause": cause, "chance": round(chance, 4), "because": because}
        case Spoken(danger, mark, sure):
            return {"spoken": danger, "mark": mark, "sure": sure}


def _word(
    given: object, among: Collection[str], what: str, at: int, faults: list[CaseFault]
) -> str:
    """Return a word of a closed list, or note that it is none."""
    text = given if isinstance(given, str) else ""
    if text not in among:
        shown = ", ".join(list(among)[:8])
        more = ", ..." if len(among) > 8 else ""  # noqa: PLR2004 - enough to see the kind
        cure = f"{meant(text, among)}write one of: {shown}{more}"
        faults.append(CaseFault(at, f"there is no {what} {given!r}", cure))
    return text


def _bought(given: object, at: int, faults: list[CaseFault]) -> tuple[str, ...]:
    """Return the parts that were bought for a remedy, or note that they are no list of names."""
    if isinstance(given, list) and all(isinstance(name, str) and name.strip() for name in given):
        return tuple(name.strip() for name in given)
    faults.append(CaseFault(at, f"'bought' is {given!r}", "write a list of part numbers"))
    return ()


def _event(one: object, calls: CallBook, at: int, faults: list[CaseFault]) -> tuple[Event, ...]:
    said, outcomes = [s.value for s in Said], [o.value for o in Outcome]
    before = len(faults)
    found: tuple[Event, ...] = ()
    match one:
        case "no dangers":
            found = tuple(Danger(key, Said.NO) for key in GUARDS)
        case {"sign": sign, "said": word}:
            key = _word(sign, calls.signs, "sign", at, faults)
            answer = _word(word, said, "answer", at, faults)
            found = (Answer(key, Said(answer)),) if len(faults) == before else ()
        case {"danger": danger, "said": word}:
            key = _word(danger, GUARDS, "danger", at, faults)
            answer = _word(word, said, "answer", at, faults)
            found = (Danger(key, Said(answer)),) if len(faults) == before else ()
        case {"cleared": danger}:
            key = _word(danger, GUARDS, "danger", at, faults)
            if key in GUARDS and not GUARDS[key].clears:
                cure = "leave it out; the lamp goes to the bench"
                faults.append(CaseFault(at, f"'{key}' is cleared by no call", cure))
            found = (Cleared(key),)
        case {"spoken": danger, "mark": str(mark), "sure": bool(sure)}:
            found = (Spoken(_word(danger, GUARDS, "danger", at, faults), mark, sure),)
        case {"remedy": remedy, "outcome": word, **more}:
            key = _word(remedy, calls.remedies, "remedy", at, faults)
            outcome = _word(word, outcomes, "outcome", at, faults)
            bought = _bought(more.get("bought", []), at, faults)
            found = (Act(key, Outcome(outcome), bought),) if len(faults) == before else ()
        case _:
            cure = (
                'write {"sign": ..., "said": "yes"}, {"danger": ..., "said": "no"}, {"cleared": '
                '...}, {"remedy": ..., "outcome": "still wrong"}, or "no dangers"'
            )
            faults.append(CaseFault(at, "it is no event", cure))
    return found if len(faults) == before else ()


def read_events(given: object, calls: CallBook) -> tuple[Event, ...] | tuple[CaseFault, ...]:
    """Read what was said and done.

    Parameters
    ----------
    given : object
        A list as :func:`plain_events` makes it, out of JSON.
    calls : CallBook
        The call tables of the book.

    Returns
    -------
    tuple of Event, or tuple of CaseFault
        Every fault where there is any.
    """
    if not isinstance(given, list):
        return (CaseFault(0, "it is no list of events", "write a list in square brackets"),)
    faults: list[CaseFault] = []
    found = [event for at, one in enumerate(given, 1) for event in _event(one, calls, at, faults)]
    return tuple(faults) if faults else tuple(found)


def _step(call: Diagnosis, step: Step) -> Plain:
    calls = call.compiled.book.calls
    says = "hand it over to the bench"
    if step.do == "ask":
        says = calls.signs[step.key].question
    elif step.do == "act":
        says = calls.remedies[step.key].says
    offer = call.offers.get(step.key) if step.do == "act" else None
    return {
        "do": step.do.value,
        "key": step.key,
        "says": says,
        "expected_minutes": round(step.minutes, 1),
        "own_minutes": round(step.own, 1),
        "lamp_must_be": step.state.value,
        "about": list(step.about),
        "price": None if offer is None or offer.price is None else f"{offer.price / 100:.2f}",
    }


def plain_advice(call: Diagnosis, steps: int = 8) -> dict[str, Plain]:
    """Return what a call comes to as plain data: the next step, and all that led to it.

    Parameters
    ----------
    call : Diagnosis
        The call as it stands.
    steps : int
        How many of the ranked steps to tell.

    Returns
    -------
    dict
        Keys as in ``docs/json.md``.
    """
    advice, calls = call.advice, call.compiled.book.calls
    return {
        "lamp": call.case.lamp,
        "complaint": call.case.complaint,
        "events": plain_events(call.case.events),
        "gate": {
            "open": advice.gate.open,
            "ask": [{"danger": g.danger, "asks": g.asks} for g in advice.gate.unasked],
            "spoken_of": [
                {"danger": one.danger, "words": one.words, "sure": one.sure}
                for one in advice.gate.spoken
            ],
            "shut_by": [
                {"danger": g.danger, "tells": list(g.tells), "cleared_when": g.clears or None}
                for g in advice.gate.stops
            ],
            "bench": advice.gate.bench,
        },
        "closed": advice.closed,
        "best": _step(call, advice.best) if advice.best else None,
        "steps": [_step(call, step) for step in advice.steps[:steps]],
        "causes": [
            {
                "cause": one.cause,
                "says": calls.causes[one.cause].says,
                "chance": round(one.chance, 3),
            }
            for one in advice.causes[:steps]
        ],
        "worked_out": [_plain(one) for one in call.computed],
        "not_asked": [
            {"sign": one.sign, "cause": one.cause, "because": one.because} for one in advice.skipped
        ],
        "clash": plain_events(advice.clash),
        "plan": list(advice.plan),
    }

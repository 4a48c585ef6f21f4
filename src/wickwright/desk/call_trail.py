"""The trail of a call: every step, who took it, and what may be done with the call as a whole."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import Response

from wickwright.answers.call_record import Call, CallState, Given, Photo, Trace
from wickwright.answers.plain import Plain
from wickwright.catalogue.call_records import CallBook
from wickwright.cause.case import Outcome
from wickwright.cause.closed import Confirmed
from wickwright.desk.call_here import call_here
from wickwright.desk.frame import render
from wickwright.desk.people_here import Adviser
from wickwright.desk.state import DeskState, state_of
from wickwright.desk.times import Moment, moment

__all__ = ["OUTCOMES", "Choice", "TrailPage", "causes_of", "router"]

router = APIRouter()

OUTCOMES: Final[dict[str, str]] = {
    str(Outcome.CURED): "It burns well",
    "sent": "The order is sent",
    "sent to the bench": "Sent to the bench",
    "came back": "It came back",
    str(Outcome.STILL): "Still wrong, the caller gives up",
    str(Outcome.NOT_DONE): "It could not be done",
    "nothing to do": "There was nothing to do",
}
"""How a call may end, and how a page says it."""

_CONFIRMED: Final[dict[str, str]] = {
    str(Confirmed.TELEPHONE): "told on the telephone",
    str(Confirmed.RETURNED): "seen on a part that came back",
    str(Confirmed.BENCH): "found on the bench",
    str(Confirmed.NOT): "not confirmed",
}
_FIELDS: Final[dict[str, str]] = {
    "words": "the caller's words",
    "wish": "what is wanted",
    "complaint": "what is wrong",
    "place": "place",
    "elevation": "elevation [m]",
    "heard": "seen of the lamp",
    "have": "other parts on it",
    "lost": "broken or gone",
    "bare": "nothing else on it",
    "count": "lamps",
    "hours": "hours burnt",
    "room": "room [m³]",
    "people": "people in the room",
    "events": "asked and done",
    "route": "route",
    "reply": "reply",
}
_CUT: Final = 160


@dataclass(frozen=True, slots=True)
class Choice:
    """Something to choose."""

    key: str
    says: str


@dataclass(frozen=True, slots=True)
class Step:
    """A step of the trail.

    Attributes
    ----------
    at : Moment
        When.
    who, did, note : str
        As of :class:`wickwright.answers.call_record.Trace`.
    changes : tuple of (str, str, str)
        Field, before, after.
    """

    at: Moment
    who: str
    did: str
    note: str
    changes: tuple[tuple[str, str, str], ...]


@dataclass(frozen=True, slots=True)
class TrailPage:
    """A call's trail.

    Attributes
    ----------
    number, version : int
        Of the call.
    is_open : bool
        Whether it is open.
    caller, desk, adviser, revision, lamp, words : str
        As it stands.
    opened, changed : Moment
        When.
    ended : str
        How it ended; blank while it is open.
    steps : tuple of Step
        Oldest first.
    photos : tuple of Photo
        Attached.
    given : tuple of Given
        Answers that went out.
    desks : tuple of str
        Other desks it may lie on.
    outcomes, causes, confirmed : tuple of Choice
        For closing it.
    leads : bool
        Whether the one who looks may erase the caller.
    """

    number: int
    version: int
    is_open: bool
    caller: str
    desk: str
    adviser: str
    revision: str
    lamp: str
    words: str
    opened: Moment
    changed: Moment
    ended: str
    steps: tuple[Step, ...]
    photos: tuple[Photo, ...]
    given: tuple[Given, ...]
    desks: tuple[str, ...]
    outcomes: tuple[Choice, ...]
    causes: tuple[Choice, ...]
    confirmed: tuple[Choice, ...]
    leads: bool


@router.get("/calls/{number}/trail")
def trail(request: Request, visitor: Adviser, number: int) -> Response:
    """Show the trail of a call."""
    call, state = call_here(request, number), state_of(request)
    opened = state.books.of(call.revision)
    page = _page(call, state, opened.book.calls if opened else CallBook(), leads=visitor.leads)
    return render(request, "trail.html", page)


def _page(call: Call, state: DeskState, calls: CallBook, *, leads: bool) -> TrailPage:
    store, now = state.store, state.clock()
    return TrailPage(
        number=call.number,
        version=call.version,
        is_open=call.state is CallState.OPEN,
        caller=call.caller.name or "no name",
        desk=call.desk,
        adviser=call.adviser,
        revision=call.revision,
        lamp=call.said.lamp or "not known",
        words=call.said.words,
        opened=moment(call.opened, now),
        changed=moment(call.changed, now),
        ended=_ended(call, calls),
        steps=tuple(_step(one, state) for one in store.calls.trail(call.number)),
        photos=store.calls.photos(call.number),
        given=store.calls.given(call.number),
        desks=_desks(state, call.desk),
        outcomes=_choices(OUTCOMES),
        causes=causes_of(calls, call.said.complaint),
        confirmed=_choices(_CONFIRMED),
        leads=leads,
    )


def _choices(says: Mapping[str, str]) -> tuple[Choice, ...]:
    return tuple(Choice(key, text) for key, text in says.items())


def _desks(state: DeskState, own: str) -> tuple[str, ...]:
    """Return the other desks somebody sits at, or a call lies on."""
    people = (person.desk for person in state.store.people.people() if person.active)
    lying = (line.desk for line in state.store.calls.open_calls())
    return tuple(sorted({*people, *lying} - {own, ""}))


def causes_of(calls: CallBook, complaint: str) -> tuple[Choice, ...]:
    """Return what may be behind a complaint, the likeliest first.

    Parameters
    ----------
    calls : CallBook
        Of the fit book.
    complaint : str
        Its key; a key the book lacks has no cause.

    Returns
    -------
    tuple of Choice
        Causes that show by the sign the complaint is about.
    """
    about = calls.complaints.get(complaint)
    shows = [show for show in calls.shows if about and show.sign == about.sign]
    shows.sort(key=lambda show: -show.strength * calls.causes[show.cause].weight)
    return tuple(Choice(show.cause, calls.causes[show.cause].says) for show in shows)


def _ended(call: Call, calls: CallBook) -> str:
    closing = call.closing
    if closing is None:
        return ""
    causes = [calls.causes[key].says if key in calls.causes else key for key in closing.causes]
    because = f": {'; '.join(causes)}" if causes else ""
    how = f" ({_CONFIRMED.get(closing.confirmed, closing.confirmed)})" if causes else ""
    note = f". {closing.note}" if closing.note else ""
    return f"{OUTCOMES.get(closing.outcome, closing.outcome)}{because}{how}{note}"


def _step(trace: Trace, state: DeskState) -> Step:
    names = dict.fromkeys((*trace.before, *trace.after))
    return Step(
        at=moment(trace.at, state.clock()),
        who=trace.who,
        did=trace.did,
        note=trace.note,
        changes=tuple(
            (_FIELDS.get(name, name), _text(trace.before.get(name)), _text(trace.after.get(name)))
            for name in names
        ),
    )


def _text(value: Plain) -> str:
    """Put plain data into a few words."""
    if value is None or value in ("", [], False):
        return ""
    if isinstance(value, list):
        text = ", ".join(_text(one) for one in value)
    elif isinstance(value, dict):
        text = " ".join(_text(one) for one in value.values() if one not in (None, ""))
    else:
        text = "yes" if value is True else str(value)
    return text if len(text) <= _CUT else f"{text[:_CUT]}…"

"""The trail of a call: every step, who took it, and what may be done with the call as a whole."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import Response

from wickwright.answers.call_record import Call, CallState, Given, Photo, Said, Trace
from wickwright.answers.plain import Plain
from wickwright.catalogue.call_records import CallBook
from wickwright.catalogue.records import KINDS, Book
from wickwright.cause.case import Outcome
from wickwright.cause.closed import Confirmed
from wickwright.cause.knowledge import causes_on
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
    "looked_over": "asked what is missing",
    "count": "lamps",
    "hours": "hours burnt",
    "room": "room [m³]",
    "people": "people in the room",
    "events": "asked and done",
    "route": "route",
    "given_up": "done without",
    "reply": "letter",
    "overruled": "sent though it is not settled which lamp, because",
}
_UNSHOWN: Final = frozenset({"reply_from", "overruled_for"})
"""Fields that only tell what others belong to."""
_CUT: Final = 160
_NO_BOOK: Final = Book({}, {}, {}, {}, {})


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
    page = _page(call, state, opened.book if opened else _NO_BOOK, leads=visitor.leads)
    return render(request, "trail.html", page)


def _page(call: Call, state: DeskState, book: Book, *, leads: bool) -> TrailPage:
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
        ended=_ended(call, book.calls),
        steps=tuple(_step(one, state, book) for one in store.calls.trail(call.number)),
        photos=store.calls.photos(call.number),
        given=store.calls.given(call.number),
        desks=_desks(state, call.desk),
        outcomes=_choices(OUTCOMES),
        causes=causes_of(book, call.said),
        confirmed=_choices(_CONFIRMED),
        leads=leads,
    )


def _choices(says: Mapping[str, str]) -> tuple[Choice, ...]:
    return tuple(Choice(key, text) for key, text in says.items())


def _desks(state: DeskState, own: str) -> tuple[str, ...]:
    """Return the other desks somebody sits at, or a call lies on."""
    people = (person.desk for person in state.store.people.people() if person.active)
    return tuple(sorted({*people, *state.store.calls.open_desks()} - {own, ""}))


def causes_of(book: Book, said: Said) -> tuple[Choice, ...]:
    """Return what may be behind the complaint of a call, the likeliest first.

    Parameters
    ----------
    book : Book
        The fit book of the call.
    said : Said
        What stands on its sheet; where the lamp is not known, of any lamp.

    Returns
    -------
    tuple of Choice
        Causes that show by the sign the complaint is about; none without a complaint.
    """
    calls, lamp = book.calls, book.lamps.get(said.lamp)
    about = calls.complaints.get(said.complaint)
    kinds = {book.parts[one].kind for one in lamp.as_sold} if lamp else KINDS
    able = causes_on(calls, kinds, lamp.family) if lamp else calls.causes.values()
    shows = {show.cause: show.strength for show in calls.shows if about and show.sign == about.sign}
    found = [cause for cause in able if cause.id in shows]
    found.sort(key=lambda cause: -shows[cause.id] * cause.weight)
    return tuple(Choice(cause.id, cause.says) for cause in found)


def _ended(call: Call, calls: CallBook) -> str:
    closing = call.closing
    if closing is None:
        return ""
    causes = [calls.causes[key].says if key in calls.causes else key for key in closing.causes]
    because = f": {'; '.join(causes)}" if causes else ""
    how = f" ({_CONFIRMED.get(closing.confirmed, closing.confirmed)})" if causes else ""
    note = f". {closing.note}" if closing.note else ""
    return f"{OUTCOMES.get(closing.outcome, closing.outcome)}{because}{how}{note}"


def _step(trace: Trace, state: DeskState, book: Book) -> Step:
    names = dict.fromkeys((*trace.before, *trace.after))
    return Step(
        at=moment(trace.at, state.clock()),
        who=trace.who,
        did=trace.did,
        note=trace.note,
        changes=tuple(
            (
                _FIELDS.get(name, name),
                _says(book, name, trace.before.get(name)),
                _says(book, name, trace.after.get(name)),
            )
            for name in names
            if name not in _UNSHOWN
        ),
    )


def _says(book: Book, name: str, value: Plain) -> str:
    """Put a field into words: a wish and a complaint by what they say."""
    if name == "wish" and value in book.wishes:
        return book.wishes[str(value)].title
    if name == "complaint" and value in book.calls.complaints:
        return book.calls.complaints[str(value)].says
    return _text(value)


def _text(value: Plain) -> str:
    """Put plain data into a few words."""
    if value is None or value in ("", [], False):
        return ""
    if value is True:
        return "yes"
    if isinstance(value, list):
        text = ", ".join(_text(one) for one in value)
    elif isinstance(value, dict):
        text = " ".join(_text(one) for one in value.values() if one not in (None, ""))
    else:
        text = f"{value:g}" if isinstance(value, float) else str(value)
    return text if len(text) <= _CUT else f"{text[:_CUT]}…"

"""The trail of a call: every step, who took it, and what may be done with the call as a whole."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import Response

from wickwright.answers.plain.answers import Plain
from wickwright.answers.sheet.call_record import Call, CallState, Given, Photo, Trace
from wickwright.answers.sheet.call_sheet import Sheet, sheet_of
from wickwright.catalogue.call_records import CallBook
from wickwright.catalogue.records import Book
from wickwright.cause.case import Outcome
from wickwright.cause.closed import Confirmed
from wickwright.cause.dangers import GUARDS
from wickwright.desk.call_closing import SHOWN, CauseChoice, causes_ranked, outcome_told
from wickwright.desk.call_here import call_here
from wickwright.desk.frame import render
from wickwright.desk.people_here import Adviser
from wickwright.desk.sheet_page import memory_of
from wickwright.desk.state import DeskState, state_of
from wickwright.desk.times import Moment, moment

__all__ = ["OUTCOMES", "Choice", "TrailPage", "router"]

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
        As of :class:`wickwright.answers.sheet.call_record.Trace`.
    changes : tuple of (str, str, str)
        Field, before, after; of a list only what went and what came.
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
    outcomes, confirmed : tuple of Choice
        For closing it.
    outcome : str
        The outcome that is chosen beforehand; blank for none.
    causes, more_causes : tuple of CauseChoice
        What may have been wrong: the likeliest, and the rest.
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
    confirmed: tuple[Choice, ...]
    outcome: str
    causes: tuple[CauseChoice, ...]
    more_causes: tuple[CauseChoice, ...]
    leads: bool


@router.get("/calls/{number}/trail")
def trail(request: Request, visitor: Adviser, number: int) -> Response:
    """Show the trail of a call."""
    call, state = call_here(request, number), state_of(request)
    opened = state.books.of(call.revision)
    worked = sheet_of(memory_of(state, call), call.said) if opened else None
    page = _page(call, state, opened.book if opened else _NO_BOOK, worked, leads=visitor.leads)
    return render(request, "trail.html", page)


def _page(
    call: Call, state: DeskState, book: Book, worked: Sheet | None, *, leads: bool
) -> TrailPage:
    store, now = state.store, state.clock()
    given, causes = store.calls.given(call.number), causes_ranked(book, call.said, worked)
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
        given=given,
        desks=_desks(state, call.desk),
        outcomes=_choices(OUTCOMES),
        confirmed=_choices(_CONFIRMED),
        outcome=outcome_told(worked, given),
        causes=causes[:SHOWN],
        more_causes=causes[SHOWN:],
        leads=leads,
    )


def _choices(says: Mapping[str, str]) -> tuple[Choice, ...]:
    return tuple(Choice(key, text) for key, text in says.items())


def _desks(state: DeskState, own: str) -> tuple[str, ...]:
    """Return the other desks somebody sits at, or a call lies on."""
    people = (person.desk for person in state.store.people.people() if person.active)
    return tuple(sorted({*people, *state.store.calls.open_desks()} - {own, ""}))


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
                *_changed(book, name, trace.before.get(name), trace.after.get(name)),
            )
            for name in names
            if name not in _UNSHOWN
        ),
    )


def _changed(book: Book, name: str, before: Plain, after: Plain) -> tuple[str, str]:
    """Say what a field was and is; of a list, what went and what came."""
    if not isinstance(before, list) and not isinstance(after, list):
        return _says(book, name, before), _says(book, name, after)
    old, new = _rows(before), _rows(after)
    went = "; ".join(_row(book, one) for one in old if one not in new)
    came = "; ".join(_row(book, one) for one in new if one not in old)
    return went, came or ("taken back" if went else "")


def _rows(value: Plain) -> list[Plain]:
    return value if isinstance(value, list) else []


def _row(book: Book, row: Plain) -> str:
    """Put an answer into words: its question, and what was said."""
    if not isinstance(row, dict):
        return _text(row)
    calls = book.calls
    asked: dict[str, dict[str, str]] = {
        "look": {key: one.question for key, one in calls.looks.items()},
        "sign": {key: one.question for key, one in calls.signs.items()},
        "danger": {key: one.asks for key, one in GUARDS.items()},
        "remedy": {key: one.says for key, one in calls.remedies.items()},
    }
    words = [_text(asked.get(key, {}).get(str(one), one)) for key, one in row.items()]
    return " ".join(filter(None, words))


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

"""The call sheet: one page that grows with the call, and every step on it."""

from collections.abc import Callable
from dataclasses import dataclass
from http import HTTPStatus
from typing import Final, cast

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from wickwright.answers.places.place_names import towns_named, two_heights
from wickwright.answers.places.town_table import Known as HowHigh
from wickwright.answers.places.town_table import TownTable
from wickwright.answers.post.unsaid_height import height_unsaid
from wickwright.answers.sheet.also_said import also_said
from wickwright.answers.sheet.call_record import Call, Caller, CallState, Said
from wickwright.answers.sheet.call_sheet import Known, Parcel, Sheet, SheetFault, sheet_of
from wickwright.answers.sheet.desk_store import NothingToTakeBack, Stale, Unknown
from wickwright.answers.sheet.memory import Memory
from wickwright.answers.sheet.steps import FIELDS, UNSURE, Typed, step_taken
from wickwright.desk.call_here import call_here, written
from wickwright.desk.frame import render
from wickwright.desk.in_vain import RINGS_BACK, asked_in_vain, noted
from wickwright.desk.people_here import Adviser, Sent, SentForm
from wickwright.desk.refusals import RefusedError
from wickwright.desk.sheet_alarms import Alarm, alarms
from wickwright.desk.sheet_answers import ParcelNote, likely_lines, parcel_note, where_it_stands
from wickwright.desk.sheet_asks import (
    UNSURE_CHOICE,
    AskCard,
    Choice,
    Told,
    ask_card,
    change_card,
    numbered,
    place_card,
    told,
    unit_card,
)
from wickwright.desk.state import DeskState, state_of
from wickwright.desk.times import Moment, moment
from wickwright.terms.finding import Kind, Quantity
from wickwright.terms.units import UnitsError, parse_elevation, say

__all__ = ["SheetPage", "memory_of", "router", "towns_of"]

router = APIRouter()
_NO_TOWNS: Final = TownTable((), "\n", (), {}, {}, ())
LIVE: Final = "X-Live"
"""Header of a request that wants only the part of the page that changes."""


@dataclass(frozen=True, slots=True)
class TownChoice:
    """A town the caller may mean."""

    place: str
    height: str
    says: str


@dataclass(frozen=True, slots=True)
class Conflict:
    """A change that was not written, for another desk was quicker; what was typed is kept here.

    Attributes
    ----------
    who : str
        Who changed the call.
    when : Moment
        When.
    typed : tuple of (str, str)
        What was sent and not written, by field.
    """

    who: str
    when: Moment
    typed: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class BookNote:
    """Under which fit book the call is answered.

    Attributes
    ----------
    id, name : str
        Of the revision.
    newer : str
        The revision in force, where it is another; blank else.
    """

    id: str
    name: str
    newer: str


@dataclass(frozen=True, slots=True)
class SheetPage:
    """A call sheet.

    Attributes
    ----------
    number, version : int
        Of the call.
    is_open : bool
        Whether it can still be changed.
    closed_as : str
        How it ended.
    desk, adviser : str
        Where it lies, who changed it last.
    opened, changed : Moment
        When.
    book : BookNote
        Under which it is answered.
    caller : Caller
        Who called.
    said : Said
        What stands on the sheet.
    texts : mapping of str to str
        The fields as they are typed.
    wishes, complaints, lamps : tuple of (str, str)
        All there are, for lists to choose from.
    height : str
        How high the place lies, in words.
    towns : tuple of TownChoice
        Towns the place may mean.
    lamp : str
        Which lamp, in words; blank where it is not known.
    lamp_id : str
        Its number.
    faults : tuple of SheetFault
        What cannot be used.
    conflict : Conflict or None
        A change that was not written.
    alarms : tuple of Alarm
        Dangers.
    ask : AskCard or None
        The next question.
    ring_back : str
        The note of a caller who has answered three looks in vain, once they ring back; blank else.
    unsure : Choice
        The answer of a caller who does not know.
    told : tuple of Told
        What was answered.
    also : tuple of (str, str, str)
        What was also said and is not dealt with: its key, what it means, the caller's words.
    stands : tuple of str
        What is left, and what was not asked.
    likely : tuple of (str, str)
        What is probably wrong.
    parcels : tuple of ParcelNote
        What is sent.
    only_if : str
        What must turn out so before a way can be the chosen one; blank where it is so.
    done : str
        Said where the lamp burns well.
    """

    number: int
    version: int
    is_open: bool
    closed_as: str
    desk: str
    adviser: str
    opened: Moment
    changed: Moment
    book: BookNote
    caller: Caller
    said: Said
    texts: dict[str, str]
    wishes: tuple[tuple[str, str], ...]
    complaints: tuple[tuple[str, str], ...]
    lamps: tuple[tuple[str, str], ...]
    height: str
    towns: tuple[TownChoice, ...]
    lamp: str
    lamp_id: str
    faults: tuple[SheetFault, ...]
    conflict: Conflict | None
    alarms: tuple[Alarm, ...]
    ask: AskCard | None
    ring_back: str
    unsure: Choice
    told: tuple[Told, ...]
    also: tuple[tuple[str, str, str], ...]
    stands: tuple[str, ...]
    likely: tuple[tuple[str, str], ...]
    parcels: tuple[ParcelNote, ...]
    only_if: str
    done: str


# -- routes --------------------------------------------------------------------------------------


@router.get("/calls/{number}")
def sheet(request: Request, number: int, visitor: Adviser) -> Response:
    """Show a call sheet."""
    del visitor
    state = state_of(request)
    change = request.query_params.get("change", "")
    return _shown(request, state, call_here(request, number), change=change)


@router.post("/calls/{number}/say")
def say_step(request: Request, number: int, visitor: Adviser, sent: Sent) -> Response:
    """Write what was typed or answered, and show the sheet worked out anew."""
    state = state_of(request)
    call = _open(call_here(request, number))
    memory = memory_of(state, call)
    after, faults = step_taken(memory, call.said, Typed(sent.fields), towns_of(state))
    saved = state.store.calls.save(
        number, _version(sent, call), after, visitor.person.name, state.clock()
    )
    return _after(request, state, saved, sent, faults)


@router.post("/calls/{number}/caller")
def say_caller(request: Request, number: int, visitor: Adviser, sent: Sent) -> Response:
    """Write who called."""
    state = state_of(request)
    call = _open(call_here(request, number))
    known = call.caller
    caller = Caller(
        sent.line("caller") if "caller" in sent.fields else known.name,
        sent.line("contact") if "contact" in sent.fields else known.contact,
        sent.text("address") if "address" in sent.fields else known.address,
    )
    saved = state.store.calls.save_caller(
        number, _version(sent, call), caller, visitor.person.name, state.clock()
    )
    return _after(request, state, saved, sent, ())


@router.post("/calls/{number}/back")
def take_back(request: Request, number: int, visitor: Adviser, sent: Sent) -> Response:
    """Take the last step back."""
    state = state_of(request)
    call = _open(call_here(request, number))
    saved = state.store.calls.take_back(
        number, _version(sent, call), visitor.person.name, state.clock()
    )
    if isinstance(saved, NothingToTakeBack):
        fault = SheetFault("back", "there is nothing to take back")
        return _after(request, state, call, sent, (fault,))
    return _after(request, state, saved, sent, ())


@router.post("/calls/{number}/book")
def move(request: Request, number: int, visitor: Adviser, sent: Sent) -> Response:
    """Answer the call under the revision in force from now on."""
    state = state_of(request)
    call = _open(call_here(request, number))
    revision = state.books.in_force().revision.id
    saved = state.store.calls.move(
        number, _version(sent, call), revision, visitor.person.name, state.clock()
    )
    return _after(request, state, saved, sent, ())


def memory_of(state: DeskState, call: Call) -> Memory:
    """Return what is known under the fit book of a call; under the one in force if it is lost."""
    book = state.books.of(call.revision) or state.books.in_force()
    return book.memory(state.settings.units)


def _open(call: Call) -> Call:
    if call.state is CallState.CLOSED:
        raise RefusedError(
            409, "The call is closed", "A closed call is kept as it ended; nothing was changed.",
            "Open it again first, on its sheet.",
        )  # fmt: skip
    return call


def _version(sent: SentForm, call: Call) -> int:
    del call
    return sent.whole("version")


def _after(
    request: Request,
    state: DeskState,
    saved: Call | Stale | Unknown,
    sent: SentForm,
    faults: tuple[SheetFault, ...],
) -> Response:
    """Answer a step: with the part that changes, with the page, or by sending to the page."""
    if isinstance(saved, Unknown):
        saved = written(int(request.path_params["number"]), saved)
    conflict = None
    call = saved.now if isinstance(saved, Stale) else saved
    if isinstance(saved, Stale):
        conflict = _conflict(state, saved, sent)
    if LIVE in request.headers or conflict or faults:
        return _shown(request, state, call, faults, conflict)
    return RedirectResponse(f"/calls/{call.number}#ask", HTTPStatus.SEE_OTHER)


def _conflict(state: DeskState, stale: Stale, sent: SentForm) -> Conflict:
    hidden = {"version", "form_key", "asked"}
    typed = tuple(
        (name, ", ".join(texts)) for name, texts in sent.fields.items() if name not in hidden
    )
    return Conflict(stale.now.adviser, moment(stale.now.changed, state.clock()), typed)


def _shown(
    request: Request,
    state: DeskState,
    call: Call,
    faults: tuple[SheetFault, ...] = (),
    conflict: Conflict | None = None,
    change: str = "",
) -> Response:
    live = LIVE in request.headers
    worked = sheet_of(memory_of(state, call), call.said)
    if call.state is CallState.OPEN:
        sent = worked.parcel.route if worked.parcel else None
        parts = [part.id for part in sent.buy] if sent else []
        state.store.calls.note_sent(call.number, call.version, parts)
    page = sheet_page(state, call, worked, faults, conflict, change, live=live)
    status = HTTPStatus.CONFLICT if conflict else HTTPStatus.OK
    answer = render(request, "_sheet_live.html" if live else "sheet.html", page, status)
    answer.headers["X-Version"] = str(call.version)
    return answer


# -- the page ------------------------------------------------------------------------------------


def sheet_page(
    state: DeskState,
    call: Call,
    worked: Sheet,
    faults: tuple[SheetFault, ...] = (),
    conflict: Conflict | None = None,
    change: str = "",
    *,
    live: bool = False,
) -> SheetPage:
    """Fill the record of a call sheet.

    Parameters
    ----------
    state : DeskState
        What pages stand on.
    call : Call
        As it stands.
    worked : Sheet
        Its sheet, worked out.
    faults : tuple of SheetFault
        What could not be used of the last step.
    conflict : Conflict or None
        A change that was not written.
    change : str
        Answer whose question is asked once more, as :attr:`.sheet_asks.Told.drop` names it.
    live : bool
        Whether only the part that changes is shown; what stands beside it is left out.

    Returns
    -------
    SheetPage
        Ready for its template.
    """
    memory, now = memory_of(state, call), state.clock()
    towns = _towns(state, memory, call.said)
    book = memory.compiled.book
    return SheetPage(
        number=call.number,
        version=call.version,
        is_open=call.state is CallState.OPEN,
        closed_as=call.closing.outcome if call.closing else "",
        desk=call.desk,
        adviser=call.adviser,
        opened=moment(call.opened, now),
        changed=moment(call.changed, now),
        book=_book_note(state, call),
        caller=call.caller,
        said=call.said,
        texts=_texts(call.said),
        wishes=tuple((one.id, one.title) for one in book.wishes.values()),
        complaints=tuple((one.id, one.says) for one in book.calls.complaints.values()),
        lamps=() if live else tuple((lamp.id, lamp.name) for lamp in book.lamps.values()),
        height=_height(memory, call.said),
        towns=towns if call.said.elevation is not None else (),
        lamp=_lamp_words(memory, worked),
        lamp_id=worked.lamp,
        faults=(*faults, *worked.faults),
        conflict=conflict,
        alarms=alarms(worked),
        ask=_ask(memory, worked, towns, change) if call.state is CallState.OPEN else None,
        ring_back=noted(call.said, RINGS_BACK).note if asked_in_vain(call.said) else "",
        unsure=UNSURE_CHOICE,
        told=told(memory, worked),
        also=_also(memory, worked),
        stands=where_it_stands(memory, worked),
        likely=likely_lines(memory, worked),
        parcels=tuple(_noted(memory, parcel) for parcel in worked.parcels),
        only_if=_only_if(worked),
        done=_done(worked),
    )


def _also(memory: Memory, worked: Sheet) -> tuple[tuple[str, str, str], ...]:
    """Return what was also said; while a danger stands first, nothing beside it."""
    if worked.gate is not None and not worked.gate.open:
        return ()
    found = also_said(memory.compiled.book, worked.said)
    return tuple((one.wanted.key, one.wanted.title, one.clause) for one in found)


def _noted(memory: Memory, parcel: Parcel) -> ParcelNote:
    key = ("parcel", parcel.remedy, parcel.question, parcel.chosen)
    return cast("ParcelNote", memory.noted.get(key, lambda: parcel_note(memory, parcel)))


def _ask(
    memory: Memory, worked: Sheet, towns: tuple[TownChoice, ...], change: str
) -> AskCard | None:
    """Return the question; which town is meant comes before any that leans on its height."""
    card = ask_card(memory, worked)
    if card is None or card.sort not in {"dangers", "clear"}:
        card = change_card(memory, worked, change) or card
    said = worked.said
    if said.elevation is not None or not said.place or said.place == UNSURE:
        return card
    if card is not None and card.sort in {"wanted", "dangers", "clear", "bench"}:
        return card
    if heights := two_heights(said.place):
        return unit_card(heights)
    if not towns:
        return place_card(f"'{said.place}' is no height and no town that is known. Once more:")
    choices = [(f"{one.place}|{one.height}", one.says) for one in towns]
    return AskCard("town", "Which of these towns?", name="town", choices=numbered(choices))


def _book_note(state: DeskState, call: Call) -> BookNote:
    force = state.books.in_force().revision
    own = state.books.of(call.revision)
    name = own.revision.name if own else "a revision that is no longer kept"
    newer = force.id if force.id != call.revision else ""
    return BookNote(call.revision, name, newer)


def _texts(said: Said) -> dict[str, str]:
    """Return each typed field as it is typed."""
    found = {name: _text(getattr(said, name)) for name in FIELDS}
    found["people"] = found["people"] if said.people else ""
    bought = (one["bought"] for one in said.heard if isinstance(one, dict) and "bought" in one)
    found["bought"] = _text(next(bought, ""))
    found["bare"] = "yes" if said.bare else "no"
    found["wish"], found["complaint"] = f"wish:{said.wish}", f"complaint:{said.complaint}"
    return found


def _text(value: object) -> str:
    match value:
        case None:
            return ""
        case tuple():
            return " ".join(map(str, value))
        case float():
            return f"{value:g}"
        case _:
            return str(value)


def _height(memory: Memory, said: Said) -> str:
    if said.elevation is None:
        unsaid = not said.place or said.place == UNSURE
        return "not said: taken as sea level" if unsaid else ""
    return say(Quantity(said.elevation, Kind.ELEVATION), memory.units)


def _towns(state: DeskState, memory: Memory, said: Said) -> tuple[TownChoice, ...]:
    """Return the towns a place may mean, where it may mean several."""
    if not said.place or said.place == UNSURE or _is_height(said.place):
        return ()
    found = towns_named(towns_of(state)(), said.place)
    if len(found.towns) < 2 and said.elevation is not None:  # noqa: PLR2004 - a choice
        return ()
    choices = []
    for town in found.towns:
        height = say(Quantity(town.elevation, Kind.ELEVATION), memory.units)
        where = ", ".join(filter(None, (town.name, town.region, town.country_name)))
        about = "" if town.known is HowHigh.SURVEYED else ", from the terrain, ± 16 m"
        says = f"{where}: {height}{about}; {town.population:,} people"
        choices.append(TownChoice(where, f"{town.elevation:.0f}", says))
    return tuple(choices)


def towns_of(state: DeskState) -> Callable[[], TownTable]:
    """Return what gives the table of towns; one without towns where it cannot be read."""
    return lambda: state.towns() or _NO_TOWNS


def _is_height(place: str) -> bool:
    try:
        parse_elevation(place)
    except UnitsError:
        return not any(map(str.isalpha, place))
    return True


def _lamp_words(memory: Memory, worked: Sheet) -> str:
    if not worked.lamp:
        return ""
    lamp = memory.compiled.book.lamps[worked.lamp]
    sure = {"named": "", "settled": "", "likeliest": "most likely the "}.get(worked.known, "")
    return f"{sure}{lamp.name} ({lamp.id})"


def _only_if(worked: Sheet) -> str:
    if worked.known is Known.LIKELIEST:
        return "if it is this lamp"
    parcel = worked.parcel
    unsaid = parcel is not None and height_unsaid(worked.said, parcel.answer.now)
    return "if it stands at sea level" if unsaid else ""


def _done(worked: Sheet) -> str:
    if worked.case is not None and worked.case.advice.closed:
        return "It burns well. Never leave it alone while it burns; local codes come first."
    return ""

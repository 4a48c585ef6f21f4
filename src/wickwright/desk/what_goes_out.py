"""What goes out of a call: the order, the letter and the fit sheet; each kept as it went out."""

from dataclasses import dataclass, replace
from http import HTTPStatus
from typing import Final

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import JSONResponse, RedirectResponse, Response

from wickwright.answers.plain.answers import Plain, plain_answer, plain_money
from wickwright.answers.post.edited_letter import is_outlived, letter_mark
from wickwright.answers.post.order_lines import OrderLine, order_csv, order_lines, plain_order_lines
from wickwright.answers.sheet.call_record import Call, CallState, Given
from wickwright.answers.sheet.call_sheet import Known, Sheet, sheet_of
from wickwright.answers.sheet.held_back import held_back, overruled, what_is_sent
from wickwright.answers.sheet.memory import Memory
from wickwright.answers.sheet.one_line import one_line
from wickwright.answers.sheet.steps import Typed, step_taken
from wickwright.desk.call_here import call_here, written
from wickwright.desk.frame import render
from wickwright.desk.letters import letter_of, sendable, sheet_pdf_of
from wickwright.desk.people_here import Adviser, Sent
from wickwright.desk.refusals import RefusedError
from wickwright.desk.sheet_page import memory_of, towns_of
from wickwright.desk.state import DeskState, state_of
from wickwright.desk.times import Moment, moment

__all__ = ["OutPage", "router"]

router = APIRouter()
WHAT: Final = {"order": "The order", "reply": "The letter", "fit sheet": "The fit sheet"}
"""What can go out."""
_LONGEST_REASON: Final = 300
_NOTHING_TO_WRITE: Final = "There is nothing to write yet."


@dataclass(frozen=True, slots=True)
class Line:
    """A line of the order."""

    part: str
    name: str
    count: int
    price: str
    total: str
    had: str
    why: str


@dataclass(frozen=True, slots=True)
class Gone:
    """Something that went out, as a list shows it."""

    number: int
    what: str
    when: Moment
    who: str
    revision: str


@dataclass(frozen=True, slots=True)
class OutPage:
    """What goes out of a call.

    Attributes
    ----------
    number, version : int
        Of the call.
    is_open : bool
        Whether it can still be changed.
    lines : tuple of Line
        The order; empty where nothing can be sent.
    total : str
        Of the order, with its currency; blank where a price is missing.
    doubt : str
        That it is not settled which lamp it is; blank where it is.
    held : bool
        Whether nothing goes out before that is settled or overruled.
    overruled : str
        Why it goes out all the same.
    why_none : str
        Why there is no order; blank where there is one.
    letter : str
        To the caller, as edited or as computed.
    edited : bool
        Whether the letter was edited.
    outlived : str
        The letter as it is computed now, where the edited one was made from another answer;
        blank else.
    gone : tuple of Gone
        What went out before.
    """

    number: int
    version: int
    is_open: bool
    lines: tuple[Line, ...]
    total: str
    doubt: str
    held: bool
    overruled: str
    why_none: str
    letter: str
    edited: bool
    outlived: str
    gone: tuple[Gone, ...]


@dataclass(frozen=True, slots=True)
class GivenPage:
    """An answer as it went out.

    Attributes
    ----------
    call : int
        Of which call.
    what : str
        Order, letter or fit sheet.
    when : Moment
        When.
    who, revision : str
        By whom, under which fit book.
    letter : str
        The letter, where it is one.
    lines : tuple of Line
        The order, where it is one.
    """

    call: int
    what: str
    when: Moment
    who: str
    revision: str
    letter: str
    lines: tuple[Line, ...]


# -- pages ---------------------------------------------------------------------------------------


@router.get("/calls/{number}/out")
def out(request: Request, number: int, visitor: Adviser) -> Response:
    """Show what goes out."""
    state, call = state_of(request), call_here(request, number)
    memory = memory_of(state, call)
    worked = sheet_of(memory, call.said)
    held = held_back(worked)
    lines = () if held else _order(memory, worked, call)
    computed = "" if held else letter_of(memory, worked, call, visitor.letter_name)
    outlived = bool(call.said.reply) and is_outlived(call.said, _unsigned(memory, worked, call))
    page = OutPage(
        number=number,
        version=call.version,
        is_open=call.state is CallState.OPEN,
        lines=tuple(map(_line, lines)),
        total=_total(lines, memory),
        doubt=_doubt(memory, worked),
        held=held,
        overruled=overruled(worked),
        why_none=_why_none(worked, lines),
        letter="" if held else call.said.reply or computed,
        edited=bool(call.said.reply),
        outlived=(computed or _NOTHING_TO_WRITE) if outlived and not held else "",
        gone=tuple(_gone(one, state) for one in state.store.calls.given(number)),
    )
    return render(request, "out.html", page)


@router.get("/calls/{number}/order.csv")
def order_file(request: Request, number: int, visitor: Adviser) -> Response:
    """Give the order as a file a spreadsheet and ``wickwright check`` read."""
    del visitor
    call = call_here(request, number)
    memory = memory_of(state_of(request), call)
    lines = _lines_or_refused(memory, call)
    text = order_csv(lines, memory.units.currency)
    return _file(text.encode(), "text/csv; charset=utf-8", f"order-{number}.csv")


@router.get("/calls/{number}/order.json")
def order_json(request: Request, number: int, visitor: Adviser) -> Response:
    """Give the order as JSON."""
    del visitor
    call = call_here(request, number)
    memory = memory_of(state_of(request), call)
    lines = _lines_or_refused(memory, call)
    return JSONResponse(plain_order_lines(lines, memory.units.currency))


@router.get("/calls/{number}/fit-sheet.pdf")
def fit_sheet_file(request: Request, number: int, visitor: Adviser) -> Response:
    """Give the fit sheet to be printed and put into the parcel."""
    del visitor
    state, call = state_of(request), call_here(request, number)
    memory = memory_of(state, call)
    worked = sheet_of(memory, call.said)
    parcel = sendable(worked)
    if held_back(worked) or parcel is None or parcel.route is None:
        why = _why_none(worked, ())
        raise RefusedError(404, "There is no fit sheet", why, "Go back to the sheet.")
    body = sheet_pdf_of(memory, worked, parcel, call)
    return _file(body, "application/pdf", f"fit-sheet-{number}.pdf")


@router.post("/calls/{number}/letter")
def edit(request: Request, number: int, visitor: Adviser, sent: Sent) -> Response:
    """Keep the letter as it was edited; blank takes the computed one again."""
    state, call = state_of(request), _open(call_here(request, number))
    memory = memory_of(state, call)
    worked = sheet_of(memory, call.said)
    text = "" if "afresh" in sent.fields else sent.text("reply")
    if text == letter_of(memory, worked, call, visitor.letter_name).strip():
        text = ""
    said, faults = step_taken(memory, call.said, Typed({"reply": [text]}), towns_of(state))
    said = replace(said, reply_from=letter_mark(_unsigned(memory, worked, call)) if text else "")
    if faults:
        raise RefusedError(400, "The letter is too long", faults[0].says, faults[0].cure)
    now = state.clock()
    saved = state.store.calls.save(number, sent.whole("version"), said, visitor.person.name, now)
    written(number, saved)
    return RedirectResponse(f"/calls/{number}/out", HTTPStatus.SEE_OTHER)


@router.post("/calls/{number}/overrule")
def overrule(request: Request, number: int, visitor: Adviser, sent: Sent) -> Response:
    """Keep why something is sent though it is not settled which lamp it is; blank takes it back."""
    state, call = state_of(request), _open(call_here(request, number))
    worked = sheet_of(memory_of(state, call), call.said)
    reason = one_line(sent.text("reason"))
    if "back" not in sent.fields and not 0 < len(reason) <= _LONGEST_REASON:
        raise RefusedError(
            400, "Why is it sent?", "No reason was given, so nothing was overruled.",
            f"Go back and write the reason, in at most {_LONGEST_REASON} letters.",
        )  # fmt: skip
    given = "" if "back" in sent.fields else reason
    named = what_is_sent(worked) if given else ""
    said = replace(call.said, overruled=given, overruled_for=named)
    now = state.clock()
    saved = state.store.calls.save(number, sent.whole("version"), said, visitor.person.name, now)
    written(number, saved)
    return RedirectResponse(f"/calls/{number}/out", HTTPStatus.SEE_OTHER)


@router.post("/calls/{number}/given")
def give(request: Request, number: int, visitor: Adviser, sent: Sent) -> Response:
    """Keep an answer as it goes out now."""
    state, call = state_of(request), call_here(request, number)
    what = sent.text("what")
    if what not in WHAT:
        raise RefusedError(
            400, "What went out?", "No answer was named.", "Choose one of the three."
        )
    memory = memory_of(state, call)
    _sure_enough(memory, call, what)
    answer = _snapshot(memory, call, what, visitor.letter_name)
    state.store.calls.give(number, what, answer, visitor.person.name, state.clock())
    return RedirectResponse(f"/calls/{number}/out?done=given", HTTPStatus.SEE_OTHER)


@router.get("/calls/{number}/given/{given}")
def given_page(request: Request, number: int, given: int, visitor: Adviser) -> Response:
    """Show an answer as it went out, whatever the fit book says today."""
    del visitor
    state = state_of(request)
    call_here(request, number)
    found = next((one for one in state.store.calls.given(number) if one.number == given), None)
    if found is None:
        raise RefusedError(
            404, "No such answer went out", "The address is misspelt.", "Choose it from the list."
        )
    page = GivenPage(
        call=number,
        what=WHAT.get(found.what, found.what),
        when=moment(found.at, state.clock()),
        who=found.who,
        revision=found.revision,
        letter=str(found.answer.get("letter") or ""),
        lines=tuple(_kept_lines(found.answer.get("order"))),
    )
    return render(request, "given.html", page)


# -- what they are made of -----------------------------------------------------------------------


def _file(body: bytes, media: str, name: str) -> Response:
    headers = {"Content-Disposition": f'attachment; filename="{name}"'}
    return Response(body, media_type=media, headers=headers)


def _open(call: Call) -> Call:
    if call.state is CallState.CLOSED:
        raise RefusedError(
            409, "The call is closed", "A closed call is kept as it ended; nothing was changed.",
            "Open it again first, on its sheet.",
        )  # fmt: skip
    return call


def _sure_enough(memory: Memory, call: Call, what: str) -> None:
    """Refuse to keep as sent what must not go out."""
    worked = sheet_of(memory, call.said)
    if held_back(worked):
        raise RefusedError(
            409, "Not settled which lamp it is", _doubt(memory, worked),
            "Go back and answer what is asked, or overrule it with a reason.",
        )  # fmt: skip
    if what == "reply" and is_outlived(call.said, _unsigned(memory, worked, call)):
        raise RefusedError(
            409, "The letter is about another answer",
            "It was edited, and the answer has changed since; it was not kept as sent.",
            "Go back, keep the edited letter again or write it afresh, then send it.",
        )  # fmt: skip


def _unsigned(memory: Memory, worked: Sheet, call: Call) -> str:
    """Return the computed letter without its adviser, who does not make it another one."""
    return letter_of(memory, worked, call, "")


def _order(memory: Memory, worked: Sheet, call: Call) -> tuple[OrderLine, ...]:
    parcel = sendable(worked)
    if parcel is None or parcel.route is None:
        return ()
    return order_lines(
        memory.compiled, parcel.answer.now, parcel.route, memory.units, order=str(call.number)
    )


def _lines_or_refused(memory: Memory, call: Call) -> tuple[OrderLine, ...]:
    worked = sheet_of(memory, call.said)
    lines = () if held_back(worked) else _order(memory, worked, call)
    if not lines:
        raise RefusedError(
            404, "There is no order", _why_none(worked, lines), "Go back to the sheet."
        )
    return lines


def _doubt(memory: Memory, worked: Sheet) -> str:
    if worked.known is not Known.LIKELIEST:
        return ""
    lamp = memory.compiled.book.lamps[worked.lamp]
    return (
        f"It is not settled which lamp it is: all this is for the {lamp.name} ({lamp.id}), the "
        "likeliest, and another would take something else."
    )


def _why_none(worked: Sheet, lines: tuple[OrderLine, ...]) -> str:
    if lines:
        return ""
    parcel = worked.parcel
    if parcel is None:
        return "It is not settled yet what is sent."
    if held_back(worked):
        return "It is withheld until it is settled which lamp it is, or overruled with a reason."
    if sendable(worked) is None:
        return "Nothing can be sent as it stands; the sheet says why."
    return "Nothing has to be bought: what is there does it."


def _line(one: OrderLine) -> Line:
    price, total = plain_money(one.price) or "", plain_money(one.total) or ""
    return Line(one.part, one.name, one.count, price, total, one.availability, one.why)


def _total(lines: tuple[OrderLine, ...], memory: Memory) -> str:
    totals = [line.total for line in lines]
    known = [one for one in totals if one is not None]
    if not lines or len(known) < len(totals):
        return ""
    return f"{memory.units.currency} {plain_money(sum(known))}"


# -- as it went out ------------------------------------------------------------------------------


def _snapshot(memory: Memory, call: Call, what: str, adviser: str) -> dict[str, Plain]:
    worked = sheet_of(memory, call.said)
    lines = _order(memory, worked, call)
    parcel = worked.parcel
    found: dict[str, Plain] = {
        "lamp": worked.lamp,
        "order": plain_order_lines(lines, memory.units.currency) if lines else None,
        "answer": plain_answer(memory.compiled, parcel.answer, memory.units) if parcel else None,
        "chosen": parcel.chosen if parcel else 0,
        "overruled": overruled(worked) or None,
    }
    if what == "reply":
        found["letter"] = call.said.reply or letter_of(memory, worked, call, adviser)
    return found


def _kept_lines(order: Plain) -> list[Line]:
    lines = order.get("lines") if isinstance(order, dict) else None
    found = []
    for one in lines if isinstance(lines, list) else []:
        if isinstance(one, dict):
            text = {name: "" if value is None else str(value) for name, value in one.items()}
            count = one.get("quantity") or one.get("count") or 0
            found.append(
                Line(
                    text.get("part", ""),
                    text.get("name", ""),
                    count if isinstance(count, int) else 0,
                    text.get("price", ""),
                    text.get("total", ""),
                    text.get("availability", ""),
                    text.get("why", ""),
                )
            )
    return found


def _gone(one: Given, state: DeskState) -> Gone:
    what, when = WHAT.get(one.what, one.what), moment(one.at, state.clock())
    return Gone(one.number, what, when, one.who, one.revision)

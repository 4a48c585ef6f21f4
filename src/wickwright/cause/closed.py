"""Closed cases, one JSON object a line: what was said and done, and what it turned out to be."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import TYPE_CHECKING, TypeVar, cast

from wickwright.catalogue.call_records import DANGERS
from wickwright.catalogue.faults import Fault
from wickwright.catalogue.spelling import meant, quoted
from wickwright.cause.case import (
    Act,
    Answer,
    Case,
    Cleared,
    Computed,
    Danger,
    Outcome,
    Said,
    Spoken,
)

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Mapping

    from wickwright.catalogue.records import Book
    from wickwright.cause.case import Event

__all__ = ["ClosedCase", "Confirmed", "read_closed", "written_closed"]


class Confirmed(StrEnum):
    """How the causes of a case became known."""

    TELEPHONE = "telephone"
    RETURNED = "returned part"
    BENCH = "bench"
    NOT = "not confirmed"


@dataclass(frozen=True, slots=True)
class ClosedCase:
    """A case that is over.

    Attributes
    ----------
    case : Case
        What was said and done.
    outcome : Outcome
        What it came to.
    causes : tuple of str
        What was wrong, as far as it was confirmed.
    confirmed : Confirmed
        How it became known.
    closed : date
        The day the case was closed.
    """

    case: Case
    outcome: Outcome
    causes: tuple[str, ...]
    confirmed: Confirmed
    closed: date


_Word = TypeVar("_Word", bound=StrEnum)
_KEYS = ("lamp", "parts", "complaint", "events", "outcome", "causes", "confirmed", "closed")
_EVENTS: dict[str, tuple[str, ...]] = {
    "sign": ("sign", "said"),
    "remedy": ("remedy", "outcome"),
    "danger": ("danger", "said"),
    "cleared": ("cleared",),
    "cause": ("cause", "chance", "because"),
    "spoken": ("spoken", "mark", "sure"),
}


@dataclass(slots=True)
class _Line:
    """One line as it is read, and what is wrong with it."""

    book: Book
    table: str
    number: int
    faults: list[Fault]

    def fault(self, column: str, what: str, cure: str) -> None:
        self.faults.append(Fault(self.table, self.number, column, what, cure))

    def keys(self, found: Mapping[str, object], wanted: tuple[str, ...], column: str) -> None:
        for key in found:
            if key not in wanted:
                cure = f"{meant(key, wanted)}the keys are {', '.join(wanted)}"
                self.fault(column, f"there is no key {quoted(key)}", cure)
        for key in wanted:
            if key not in found:
                self.fault(column, f"the key '{key}' is missing", "add it")

    def name(self, value: object, among: Collection[str], column: str, table: str) -> str:
        if not isinstance(value, str):
            self.fault(column, f"{quoted(json.dumps(value))} is no text", "write it in quotes")
        elif value not in among:
            cure = f"{meant(value, among)}it has to be one of {table}"
            self.fault(column, f"there is no {quoted(value)}", cure)
        else:
            return value
        return ""

    def names(self, value: object, among: Collection[str], column: str, table: str) -> list[str]:
        return [self.name(one, among, column, table) for one in self.list_of(value, column)]

    def list_of(self, value: object, column: str) -> list[object]:
        if isinstance(value, list):
            return cast("list[object]", value)
        self.fault(column, f"{quoted(json.dumps(value))} is no list", "write it in [ ]")
        return []

    def word(self, kind: type[_Word], value: object, column: str) -> _Word:
        words = [one.value for one in kind]
        said = self.name(value, words, column, ", ".join(words))
        return kind(said) if said else next(iter(kind))

    def day(self, value: object) -> date:
        try:
            return date.fromisoformat(value if isinstance(value, str) else "")
        except ValueError:
            what = f"{quoted(json.dumps(value))} is no day"
            self.fault("closed", what, "write it as 2026-03-14")
            return date.min

    def chance(self, value: object) -> float:
        if isinstance(value, int | float) and 0.0 <= value <= 1.0:
            return float(value)
        self.fault("events", f"{quoted(json.dumps(value))} is no chance", "give 0 to 1")
        return 0.0


def _event(line: _Line, found: object) -> Event | None:
    if not isinstance(found, dict):
        what = f"{quoted(json.dumps(found))} is no event"
        line.fault("events", what, 'write it as {"sign": "...", "said": "yes"}')
        return None
    given = cast("dict[str, object]", found)
    kind = next((key for key in _EVENTS if key in given), "")
    if not kind:
        cure = f"an event has one of the keys {', '.join(_EVENTS)}"
        line.fault("events", f"nobody can tell what {quoted(json.dumps(found))} is", cure)
        return None
    before = len(line.faults)
    line.keys(given, _EVENTS[kind], "events")
    return None if len(line.faults) > before else _known_event(line, kind, given)


def _known_event(line: _Line, kind: str, given: Mapping[str, object]) -> Event:
    calls = line.book.calls
    match kind:
        case "sign":
            sign = line.name(given["sign"], calls.signs, "events", "the table signs")
            return Answer(sign, line.word(Said, given["said"], "events"))
        case "remedy":
            remedy = line.name(given["remedy"], calls.remedies, "events", "the table remedies")
            return Act(remedy, line.word(Outcome, given["outcome"], "events"))
        case "danger":
            danger = line.name(given["danger"], DANGERS, "events", ", ".join(DANGERS))
            return Danger(danger, line.word(Said, given["said"], "events"))
        case "cleared":
            return Cleared(line.name(given["cleared"], DANGERS, "events", ", ".join(DANGERS)))
        case "spoken":
            danger = line.name(given["spoken"], DANGERS, "events", ", ".join(DANGERS))
            return Spoken(danger, str(given["mark"]), given["sure"] is True)
        case _:
            cause = line.name(given["cause"], calls.causes, "events", "the table causes")
            return Computed(cause, line.chance(given["chance"]), str(given["because"]))


def _record(line: _Line, given: Mapping[str, object]) -> ClosedCase | None:
    """Return the case of a line, with every fault of the line noted."""
    line.keys(given, _KEYS, "")
    if any(key not in given for key in _KEYS):
        return None
    book = line.book
    events = [_event(line, one) for one in line.list_of(given["events"], "events")]
    complaints = book.calls.complaints
    case = Case(
        line.name(given["lamp"], book.lamps, "lamp", "the table lamps"),
        tuple(line.names(given["parts"], book.parts, "parts", "the table parts")),
        line.name(given["complaint"], complaints, "complaint", "the table complaints"),
        tuple(one for one in events if one is not None),
    )
    causes = line.names(given["causes"], book.calls.causes, "causes", "the table causes")
    confirmed = line.word(Confirmed, given["confirmed"], "confirmed")
    if given["causes"] == [] and confirmed is not Confirmed.NOT:
        what = f"no cause is named though it was confirmed by '{confirmed}'"
        line.fault("causes", what, "name what was found, or write 'not confirmed'")
    outcome = line.word(Outcome, given["outcome"], "outcome")
    return ClosedCase(case, outcome, tuple(causes), confirmed, line.day(given["closed"]))


def _parsed(line: _Line, text: str) -> ClosedCase | None:
    try:
        found: object = json.loads(text)
    except (ValueError, RecursionError):
        line.fault("", "the line is no JSON", "write one object { } on one line")
        return None
    if not isinstance(found, dict):
        line.fault("", "the line is no JSON object", "write one object { } on one line")
        return None
    record = _record(line, cast("dict[str, object]", found))
    return None if line.faults else record


def read_closed(
    lines: Iterable[str], book: Book, table: str = "cases"
) -> tuple[tuple[ClosedCase, ...], tuple[Fault, ...]]:
    """Read closed cases.

    Parameters
    ----------
    lines : iterable of str
        One JSON object each; blank lines are passed over.
    book : Book
        Whose lamps, parts, signs, causes and remedies they speak of.
    table : str
        What the faults call the file.

    Returns
    -------
    tuple of ClosedCase, and tuple of Fault
        The cases of the lines without a fault, in order; every fault of the others.
    """
    cases: list[ClosedCase] = []
    faults: list[Fault] = []
    for number, text in enumerate(lines, 1):
        if not text.strip():
            continue
        line = _Line(book, table, number, [])
        record = _parsed(line, text)
        faults.extend(line.faults)
        if record is not None:
            cases.append(record)
    return tuple(cases), tuple(faults)


def _written_event(event: Event) -> dict[str, object]:
    match event:
        case Answer(sign, said):
            return {"sign": sign, "said": said.value}
        case Act(remedy, outcome):
            return {"remedy": remedy, "outcome": outcome.value}
        case Danger(danger, said):
            return {"danger": danger, "said": said.value}
        case Cleared(danger):
            return {"cleared": danger}
        case Computed(cause, chance, because):
            return {"cause": cause, "chance": chance, "because": because}
        case Spoken(danger, mark, sure):
            return {"spoken": danger, "mark": mark, "sure": sure}


def written_closed(closed: ClosedCase) -> str:
    """Return a closed case as one line of JSON, without the line's end.

    Parameters
    ----------
    closed : ClosedCase
        The case.

    Returns
    -------
    str
        Reading it gives an equal case.
    """
    case = closed.case
    record = {
        "lamp": case.lamp,
        "parts": list(case.parts),
        "complaint": case.complaint,
        "events": [_written_event(one) for one in case.events],
        "outcome": closed.outcome.value,
        "causes": list(closed.causes),
        "confirmed": closed.confirmed.value,
        "closed": closed.closed.isoformat(),
    }
    return json.dumps(record, ensure_ascii=False)

"""A call sheet worked out: from what stands on it to what is sent, and what to ask next.

The order is that of a good adviser. Dangers come before everything. Then the sheet asks what is
wanted, which lamp it is (until what to send is settled, not longer), and what is wrong; what can
be worked out is not asked. As soon as there is an answer it stands there, and the questions that
are left can still be answered.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TYPE_CHECKING, Final, TypeVar

import numpy as np

from wickwright.answers.flames.room_air import RoomPlan
from wickwright.answers.plain.cases import CaseFault, read_events
from wickwright.answers.plain.lamps import read_heard
from wickwright.answers.said.what_is_meant import CallFor, what_is_meant
from wickwright.answers.sheet.call_record import UNSURE
from wickwright.answers.sheet.dangers import (
    danger_asked,
    gate_of_wish,
    makes_good,
    with_spoken,
)
from wickwright.answers.sheet.given_up import offered
from wickwright.answers.sheet.memory import question_of
from wickwright.answers.sheet.questions import (
    AskAct,
    AskBench,
    AskClear,
    AskDangers,
    Asked,
    AskGiveUp,
    AskLook,
    AskMissing,
    AskPlace,
    AskSign,
    AskWanted,
)
from wickwright.answers.way_taken import NoSuchWayError, without_bought
from wickwright.answers.which_parts import UnknownNameError
from wickwright.answers.worked_out import Circumstances
from wickwright.catalogue.records import KINDS, Service
from wickwright.catalogue.spelling import meant
from wickwright.cause.case import Act, Case, Outcome
from wickwright.cause.gate import gate_of
from wickwright.cause.knowledge import NothingKnownError
from wickwright.cause.next_step import Do
from wickwright.fit.routes import Impossible, NotKnown, Routes
from wickwright.recognise.asking import Stop
from wickwright.terms.units import UnitsError

if TYPE_CHECKING:
    from collections.abc import Callable, Container, Hashable, Sequence

    from wickwright.answers.diagnose import Diagnosis
    from wickwright.answers.flames.route_flames import RouteFlames
    from wickwright.answers.plain.answers import Plain
    from wickwright.answers.said.what_is_meant import Wanted
    from wickwright.answers.sheet.call_record import Said
    from wickwright.answers.sheet.memory import Memory
    from wickwright.answers.which_lamp import WhichLamp
    from wickwright.catalogue.records import Ask, Book
    from wickwright.cause.case import Event
    from wickwright.cause.gate import Gate
    from wickwright.fit.routes import Answer, Route
    from wickwright.recognise.asking import Heard
    from wickwright.recognise.guesses import Guess

__all__ = [
    "AskAct",
    "AskBench",
    "AskClear",
    "AskDangers",
    "AskGiveUp",
    "AskLook",
    "AskMissing",
    "AskPlace",
    "AskSign",
    "AskWanted",
    "Asked",
    "Known",
    "Parcel",
    "Sheet",
    "SheetFault",
    "likeliest",
    "sheet_of",
]

_One = TypeVar("_One")
_LIKELY: Final = 0.02
"""Chance below which a lamp is no longer counted as possible [-]."""
_BREAKS: Final = ("chimney", "mantle", "wick", "gallery", "shade", "holder", "spreader", "burner")
"""Kinds that go missing, the commonest first (common practice, no published source)."""


class Known(StrEnum):
    """How it is known which lamp it is."""

    NAMED = "named"
    """The caller or the adviser named the model."""
    SETTLED = "settled"
    """What was seen leaves one answer."""
    LIKELIEST = "likeliest"
    """It is the likeliest; others would take something else."""
    NOT = "not known"


@dataclass(frozen=True, slots=True)
class SheetFault:
    """Something on the sheet that cannot be used; it stays there as it was typed.

    Attributes
    ----------
    field : str
        Of :class:`wickwright.answers.sheet.call_record.Said`.
    says : str
        What is wrong.
    cure : str
        What mends it.
    """

    field: str
    says: str
    cure: str = ""


# -- what is sent --------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, eq=False)
class Parcel:
    """What is sent for a wish, or for a remedy.

    Attributes
    ----------
    sort : CallFor
        Whether a wish or a complaint leads to it.
    remedy : str
        Key of the remedy; blank for a wish.
    answer : Answer
        The routes, or why there are none.
    flames : RouteFlames
        How the lamp of each route burns.
    question : hashable
        All that it depends on beside the fit book.
    chosen : int
        Which of the routes was chosen; the first is the best [-].
    """

    sort: CallFor
    remedy: str
    answer: Answer
    flames: RouteFlames
    question: Hashable
    chosen: int = 0

    @property
    def routes(self) -> tuple[Route, ...]:
        """The routes there are."""
        return self.answer.routes if isinstance(self.answer, Routes | NotKnown) else ()

    @property
    def route(self) -> Route | None:
        """The chosen route."""
        return self.routes[self.chosen] if self.routes else None


@dataclass(frozen=True, slots=True, eq=False)
class Sheet:
    """A call sheet, worked out.

    Attributes
    ----------
    said : Said
        What stands on it.
    faults : tuple of SheetFault
        What on it cannot be used.
    meant : tuple of Wanted
        What the caller's words may mean, best first.
    heard : tuple of Heard
        What was seen of the lamp, as far as it can be used.
    events : tuple of Event
        What was asked and done, as far as it can be used.
    which : WhichLamp or None
        The search for the lamp; None where it is named or nothing can be asked.
    lamp : str
        Model number the answer is for; blank where none is likely enough.
    known : Known
        How it is known.
    have : tuple of str
        Parts on the lamp that are not its own, those that were recognised included.
    gate : Gate or None
        Dangers; None where nothing is wrong with the lamp and no words speak of one.
    case : Diagnosis or None
        What is wrong with it.
    asked : Asked or None
        What to ask next.
    parcels : tuple of Parcel
        What is sent; that of the wish first.
    """

    said: Said
    faults: tuple[SheetFault, ...]
    meant: tuple[Wanted, ...]
    heard: tuple[Heard, ...]
    events: tuple[Event, ...]
    which: WhichLamp | None
    lamp: str
    known: Known
    have: tuple[str, ...]
    gate: Gate | None
    case: Diagnosis | None
    asked: Asked | None
    parcels: tuple[Parcel, ...]

    @property
    def parcel(self) -> Parcel | None:
        """What goes in the post: the first parcel that has a route, or the first there is."""
        sendable = (one for one in self.parcels if one.routes)
        return next(sendable, next(iter(self.parcels), None))

    @property
    def lamps_left(self) -> int:
        """How many models are still possible [-]."""
        if self.which is None:
            return int(bool(self.lamp))
        return sum(chance >= _LIKELY for _, chance in self.which.recognition.lamps)


def sheet_of(memory: Memory, said: Said) -> Sheet:
    """Work a sheet out.

    Parameters
    ----------
    memory : Memory
        The fit book, and what was worked out from it before.
    said : Said
        What stands on the sheet. What of it cannot be used is a fault and is passed over.

    Returns
    -------
    Sheet
        With what to ask next and what is sent, as far as that is known.
    """
    return _Working(memory, said).sheet()


class _Working:
    """A sheet while it is worked out."""

    def __init__(self, memory: Memory, said: Said) -> None:
        self.memory, self.book, self.said = memory, memory.compiled.book, said
        self.faults: list[SheetFault] = []
        self.meant = memory.meant.get(said.words, lambda: what_is_meant(self.book, said.words))
        self.wish = self._key("wish", said.wish, self.book.wishes)
        self.complaint = self._key("complaint", said.complaint, self.book.calls.complaints)
        self.heard = self._heard()
        self.events = with_spoken(self._events(), memory.spoken_in(said))

    def sheet(self) -> Sheet:
        which = None if self.said.lamp else self._which()
        lamp, known, foreign = self._lamp(which)
        have = tuple(dict.fromkeys((*self.said.have, *foreign)))
        case = self._case(lamp, have) if lamp and self.complaint else None
        gate = self._gate(case, known)
        barred = gate is not None and not gate.open and not self._made_good(gate)
        parcels = [] if barred else self._parcels(lamp, have, case)
        asked: Asked | None = None
        if gate is not None and barred:
            asked = danger_asked(gate, self.book, self.complaint)
        asked = asked or self._asked(which, case, known) or _give_up_asked(parcels)
        return Sheet(
            self.said,
            tuple(self.faults),
            self.meant,
            self.heard,
            self.events,
            which,
            lamp,
            known,
            have,
            gate,
            case,
            asked,
            tuple(parcels),
        )

    # what stands there, as far as it can be used

    def _fault(self, field: str, says: str, cure: str = "") -> None:
        self.faults.append(SheetFault(field, says, cure))

    def _key(self, field: str, key: str, among: Container[str]) -> str:
        if key and key not in among:
            says = f"there is no {field} '{key}' in this revision of the fit book"
            self._fault(field, says, "choose one that is offered")
            return ""
        return key

    def _heard(self) -> tuple[Heard, ...]:
        asking = self.memory.asking
        if asking is None:
            return ()
        return self._read("heard", self.said.heard, lambda one: read_heard([one], asking))

    def _events(self) -> tuple[Event, ...]:
        calls = self.book.calls
        return self._read("events", self.said.events, lambda one: read_events([one], calls))

    def _read(
        self,
        field: str,
        given: Sequence[Plain],
        read: Callable[[Plain], tuple[_One, ...] | tuple[CaseFault, ...]],
    ) -> tuple[_One, ...]:
        usable: list[_One] = []
        for one in given:
            for found in read(one):
                if isinstance(found, CaseFault):
                    self._fault(field, found.what, found.cure)
                else:
                    usable.append(found)
        return tuple(usable)

    # which lamp

    def _which(self) -> WhichLamp | None:
        """Look for the lamp: for its parcel where only a wish is served, else for its model.

        Where every lamp takes the same, its model is asked for once: an answer is for a lamp.
        """
        wish = "" if self.complaint else self.wish
        found = self.memory.which(self.said, wish, self.heard)
        if found is None or self.heard or not wish or found.recognition.stop is None:
            return found
        return self.memory.which(self.said, "", ())

    def _lamp(self, which: WhichLamp | None) -> tuple[str, Known, tuple[str, ...]]:
        named = self.said.lamp
        if named:
            if named in self.book.lamps:
                return named, Known.NAMED, ()
            self._fault(
                "lamp",
                f"there is no lamp '{named}' in this revision of the fit book",
                f"{meant(named, self.book.lamps)}or leave it blank and answer what is asked",
            )
            return "", Known.NOT, ()
        guess = likeliest(which) if which is not None and self.heard else None
        if which is None or guess is None:
            return "", Known.NOT, ()
        settled = which.recognition.stop is Stop.SETTLED
        return guess.lamp, Known.SETTLED if settled else Known.LIKELIEST, tuple(guess.foreign)

    # what is wrong

    def _gate(self, case: Diagnosis | None, known: Known) -> Gate | None:
        """Read the dangers; while it is not sure which lamp it is, those of all it may be.

        Where nothing is wrong with the lamp they are read as soon as anybody spoke of one.
        """
        if not self.complaint:
            return gate_of_wish(self.events, self.book.calls)
        if case is not None and known is not Known.LIKELIEST:
            return case.advice.gate
        calls = self.book.calls
        bulb = "bulb" in calls.signs[calls.complaints[self.complaint].sign].needs
        told = Case("", (), self.complaint, self.events, bulb=bulb, flame=not bulb)
        if case is not None:
            bulb, flame = bulb or case.case.bulb, told.flame or case.case.flame
            told = replace(told, bulb=bulb, flame=flame)
        return gate_of(told, calls)

    def _case(self, lamp: str, have: tuple[str, ...]) -> Diagnosis | None:
        said = self.said
        try:
            room = RoomPlan(volume=said.room, people=said.people) if said.room else None
            where = Circumstances(said.elevation, said.hours, room)
            begun = (lamp, self.complaint, have, said.lost, where)
            try:
                return self.memory.case(*begun, self.events)
            except NoSuchWayError as error:
                self._fault("events", str(error), "the cheapest way is taken in its place")
                return self.memory.case(*begun, without_bought(self.events))
        except NothingKnownError as error:
            self._fault("complaint", str(error))
        except (UnknownNameError, UnitsError, ValueError) as error:
            for line in str(error).splitlines():
                self._fault("have", line)
        return None

    def _made_good(self, gate: Gate) -> bool:
        """Tell whether what is wanted makes every danger good that is there."""
        return not self.complaint and makes_good(gate, self.book.wishes.get(self.wish))

    # what to ask

    def _asked(self, which: WhichLamp | None, case: Diagnosis | None, known: Known) -> Asked | None:
        if not self.wish and not self.complaint:
            return AskWanted(self.meant)
        if self._place_matters():
            return AskPlace()
        if self._missing_matters():
            return AskMissing(_may_be_missing(self.book, self.said.lamp))
        if which is not None and which.recognition.looks and known is not Known.SETTLED:
            return AskLook(which.recognition.looks[0])
        return None if case is None or case.advice.closed else _step_asked(case)

    def _place_matters(self) -> bool:
        """Tell whether nobody knows how high it stands, and it is not to run on a bulb."""
        if self.said.place == UNSURE or self.said.elevation is not None:
            return False
        asks = self._asks()
        return not any(ask.ask == "service" and ask.value == Service.ELECTRIC for ask in asks)

    def _missing_matters(self) -> bool:
        """Tell whether a lamp is to be made whole, and nobody has said what is not on it."""
        if self.said.lost or self.said.bare or self.said.looked_over:
            return False
        asks = {(ask.ask, ask.kind) for ask in self._asks()}
        return ("present", "burner") in asks and not any(ask == "service" for ask, _ in asks)

    def _asks(self) -> tuple[Ask, ...]:
        wish = self.book.wishes.get(self.wish)
        return wish.asks if wish else ()

    # what is sent

    def _parcels(self, lamp: str, have: tuple[str, ...], case: Diagnosis | None) -> list[Parcel]:
        found: list[Parcel] = []
        if lamp and self.wish:
            found += self._parcel(CallFor.WISH, "", lamp, self.wish, have)
        remedy = "" if case is None else _remedy_of(case)
        if remedy:
            wish = self.book.calls.remedies[remedy].wish
            found += self._parcel(CallFor.COMPLAINT, remedy, lamp, wish, have)
        return found

    def _parcel(
        self, sort: CallFor, remedy: str, lamp: str, wish: str, have: tuple[str, ...]
    ) -> list[Parcel]:
        try:
            answer, flames = self.memory.answer(lamp, wish, self.said, have)
        except (UnknownNameError, ValueError) as error:
            for line in str(error).splitlines():
                if not any(line == fault.says for fault in self.faults):
                    self._fault("have", line)
            return []
        question = question_of(lamp, wish, self.said, have)
        parcel = Parcel(sort, remedy, answer, flames, question)
        wanted = sorted(self.said.route)
        bought = [sorted(part.id for part in route.buy) for route in parcel.routes]
        chosen = bought.index(wanted) if wanted in bought else 0
        return [replace(parcel, chosen=chosen)]


def _may_be_missing(book: Book, lamp: str) -> tuple[str, ...]:
    """Return the kinds of part that a lamp, or any lamp, is sold with; what breaks stands first."""
    lamps = [book.lamps[lamp]] if lamp in book.lamps else list(book.lamps.values())
    sold = {book.parts[part].kind for one in lamps for part in one.as_sold}
    return tuple(
        kind for kind in dict.fromkeys((*_BREAKS, *KINDS)) if kind in sold and kind != "tool"
    )


def _step_asked(case: Diagnosis) -> Asked:
    step = case.advice.best
    if step is None or step.do is Do.BENCH:
        return AskBench()
    return AskSign(step) if step.do is Do.ASK else AskAct(step)


def _give_up_asked(parcels: Sequence[Parcel]) -> Asked | None:
    """Ask what the caller does without, where the wish cannot be met and nothing else is asked."""
    for parcel in parcels:
        if parcel.sort is CallFor.WISH and isinstance(parcel.answer, Impossible):
            outs = offered(parcel.answer)
            return AskGiveUp(parcel.answer, outs) if outs else None
    return None


def _remedy_of(case: Diagnosis) -> str:
    """Return the remedy whose parts are sent: the one to do next, or the last one that cured."""
    remedies = case.compiled.book.calls.remedies
    step = case.advice.best
    if step is not None and step.do is Do.ACT and remedies[step.key].wish:
        return step.key
    cured = (
        one.remedy
        for one in reversed(case.case.events)
        if isinstance(one, Act) and one.outcome is Outcome.CURED
    )
    return next((one for one in cured if remedies[one].wish), "")


def likeliest(which: WhichLamp) -> Guess | None:
    """Return the likeliest lamp; None where what was heard cannot all be so."""
    beliefs = which.recognition.beliefs
    if beliefs is None:
        return None
    return which.asking.guesses.all[int(np.argmax(beliefs.weights))]

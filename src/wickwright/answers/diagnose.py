"""What is wrong with this lamp, and what to do next, from the complaint to the parts to send."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING, Final, TypedDict

from wickwright.answers.way_taken import way_taken
from wickwright.answers.which_parts import request_of
from wickwright.answers.worked_out import Circumstances, worked_out
from wickwright.catalogue.call_records import BENCH
from wickwright.catalogue.records import Service, Wish
from wickwright.cause.case import Act, Case, Computed, Danger, Outcome, Said
from wickwright.cause.case import Answer as Heard
from wickwright.cause.costs import Costs, Offer
from wickwright.cause.gate import gate_of
from wickwright.cause.knowledge import NothingKnownError, knowledge_of
from wickwright.cause.next_step import advise, questions_of
from wickwright.cause.words import complaints_meant
from wickwright.fit.assemble import assemble
from wickwright.fit.request import situation
from wickwright.fit.routes import Impossible, Routes, routes
from wickwright.terms.units import Units

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.catalogue.call_records import Remedy
    from wickwright.catalogue.records import Book, Part
    from wickwright.cause.case import Event
    from wickwright.cause.knowledge import Knowledge
    from wickwright.cause.next_step import Advice
    from wickwright.cause.words import Meant
    from wickwright.chance.next_question import Questions
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.routes import Answer, Route

__all__ = ["Diagnosis", "complaints_of", "diagnose"]

_NO_WISH: Final = Wish("", "", ())
_DEFAULT: Final = Costs()
_ANYWHERE: Final = Circumstances()
_UNITS: Final = Units()


@dataclass(frozen=True)
class Diagnosis:
    """A call about something wrong, as it stands.

    Attributes
    ----------
    compiled : Compiled
        The fit book.
    case : Case
        What was said and done, in order. All else follows from it.
    parts : tuple of Part
        What is on the lamp.
    lost : tuple of str
        Kinds or parts that are gone.
    where : Circumstances
        Where and how it burns.
    costs : Costs
        What steps cost.
    units : Units
        For what is worked out.
    known : Knowledge
        What the book knows about the complaint of this lamp.
    have : tuple of str
        Parts on it that were named, or put on since.
    given : tuple of (tuple of str, tuple of str)
        Parts named and lost as the call began, before anything was put on.
    """

    compiled: Compiled
    case: Case
    parts: tuple[Part, ...]
    lost: tuple[str, ...]
    where: Circumstances
    costs: Costs
    units: Units
    known: Knowledge
    have: tuple[str, ...] = ()
    given: tuple[tuple[str, ...], tuple[str, ...]] = ((), ())

    def told(self, *events: Event) -> Diagnosis:
        """Return the call after something was said or done.

        Parameters
        ----------
        *events : Event
            Answers, acts, dangers, in order.

        Returns
        -------
        Diagnosis
            With everything worked out anew.
        """
        return self._with(self.case.then(*self._still_there(events), *events))

    def _still_there(self, events: Sequence[Event]) -> tuple[Danger, ...]:
        """Return the dangers not cleared whose only mention would go with an answer given anew."""
        calls = self.compiled.book.calls
        anew = {calls.signs[one.sign].danger for one in events if isinstance(one, Heard)} - {""}
        shut = gate_of(self.case, calls).shut if anew else ()
        return tuple(Danger(one.danger, Said.YES) for one in shut if one.danger in anew)

    def prepared(self) -> Diagnosis:
        """Work out now what every later state of the call shares, and return the call."""
        _ = self.questions, self.offers, self.computed
        return self

    def back(self) -> Diagnosis:
        """Return the call without the last thing that was said or done."""
        return self._with(self.case.back())

    def _with(self, case: Case) -> Diagnosis:
        if self._put_on(case) != self._put_on(self.case):
            have, lost = self.given
            begun = replace(self, **_on_it(self.compiled, case.lamp, have, lost))
            return _fitted(begun, case.events)
        after = replace(self, case=replace(case, parts=self.case.parts))
        for name in ("questions", "offers", "answers", "computed"):
            if name in self.__dict__:
                after.__dict__[name] = self.__dict__[name]
        return after

    def _put_on(self, case: Case) -> tuple[Act, ...]:
        """Return what was done that put parts on the lamp and left it as wrong as it was."""
        remedies = self.compiled.book.calls.remedies
        return tuple(
            one
            for one in case.events
            if isinstance(one, Act)
            and one.outcome is Outcome.STILL
            and one.remedy in remedies
            and remedies[one.remedy].wish
        )

    @cached_property
    def questions(self) -> Questions | None:
        """The signs that could be asked after, laid out once."""
        return questions_of(self.known)

    @cached_property
    def computed(self) -> tuple[Computed, ...]:
        """What was worked out instead of asked, about causes that can make the complaint."""
        book = self.compiled.book
        lamp = book.lamps[self.case.lamp]
        assembly = assemble(self.parts, self.compiled.joiner)
        able = {c.id for c, link in zip(self.known.causes, self.known.links, strict=True) if link}
        found = worked_out(
            self.compiled,
            book.calls,
            lamp,
            assembly,
            frozenset(self.have),
            self.where,
            self.units,
        )
        return tuple(one for one in found if one.cause in able)

    @cached_property
    def answers(self) -> dict[str, Answer]:
        """The routes of each remedy that needs a part, by remedy."""
        return {one.id: self._routes(one) for one in self.known.remedies if one.wish}

    def _routes(self, remedy: Remedy) -> Answer:
        request = request_of(
            self.compiled,
            self.case.lamp,
            remedy.wish,
            self.have,
            self.lost,
            elevation=self.where.elevation or 0.0,
        )
        return routes(self.compiled, request)

    @cached_property
    def offers(self) -> dict[str, Offer]:
        """What the parts of each remedy cost, by remedy."""
        return {key: _offer(answer) for key, answer in self.answers.items()}

    @cached_property
    def advice(self) -> Advice:
        """What the call comes to as it stands, and what to do next."""
        case = replace(self.case, events=(*self.computed, *self.case.events))
        return advise(
            case, self.known, self.compiled.book.calls, self.offers, self.costs, self.questions
        )


def _offer(answer: Answer) -> Offer:
    match answer:
        case Routes(_, found):
            return Offer(found[0].price)
        case Impossible():
            return Offer(None, to_be_had=False)
        case _:
            return Offer(None)


def complaints_of(compiled: Compiled, lamp: str, words: str) -> tuple[Meant, ...]:
    """Return the complaints a caller's words may mean that this lamp can give.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    lamp : str
        Model number.
    words : str
        What the caller said.

    Returns
    -------
    tuple of Meant
        Best first; whoever asks shows them and lets a person choose.

    Raises
    ------
    UnknownNameError
        When the lamp is not in the book.
    """
    found = complaints_meant(compiled.book.calls, words)
    return tuple(one for one in found if _can_be(compiled, lamp, one.complaint.id))


def _can_be(compiled: Compiled, lamp: str, complaint: str) -> bool:
    try:
        diagnose(compiled, lamp, complaint)
    except NothingKnownError:
        return False
    return True


def diagnose(
    compiled: Compiled,
    lamp: str,
    complaint: str,
    *,
    have: Sequence[str] = (),
    lost: Sequence[str] = (),
    where: Circumstances = _ANYWHERE,
    costs: Costs = _DEFAULT,
    units: Units = _UNITS,
    events: Sequence[Event] = (),
) -> Diagnosis:
    """Begin, or take up again, a call about something wrong.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    lamp : str
        Model number.
    complaint : str
        Key of the complaint; :func:`wickwright.cause.words.complaints_meant` finds it from a
        caller's words.
    have : sequence of str
        Parts on the lamp that were named; each replaces the one of its kind.
    lost : sequence of str
        Parts or kinds that are gone.
    where : Circumstances
        Where and how it burns.
    costs : Costs
        What steps cost.
    units : Units
        For what is worked out.
    events : sequence of Event
        What was said and done before.

    Returns
    -------
    Diagnosis
        Its ``advice`` says what to do next; ``answers`` hold the routes of the remedies.

    Raises
    ------
    UnknownNameError
        When a lamp or part is not in the book.
    NothingKnownError
        When the book has nothing on this complaint of this lamp.
    NoSuchWayError
        When parts are said to have been bought for a remedy that none of its ways buys.
    """
    request = request_of(compiled, lamp, _NO_WISH, have, lost)
    now = situation(compiled, request)
    book = compiled.book
    record = book.lamps[request.lamp]
    kinds = {book.parts[part].kind for part in record.as_sold} | {p.kind for p in now.owned}
    bench = book.calls.remedies.get(BENCH)
    costs = replace(costs, hand_over=bench.minutes) if bench else costs
    known = knowledge_of(book.calls, kinds, record.family, complaint, costs.most_faults)
    on_it = _on_it(compiled, request.lamp, request.have, request.lost)
    case = Case(request.lamp, (), complaint)
    begun = Diagnosis(
        compiled=compiled,
        case=case,
        parts=on_it["parts"],
        lost=on_it["lost"],
        where=where,
        costs=costs,
        units=units,
        known=known,
        have=on_it["have"],
        given=(tuple(request.have), tuple(request.lost)),
    )
    return _fitted(begun, tuple(events))


class _OnIt(TypedDict):
    """What is on a lamp, what of it was named, and what is lost."""

    parts: tuple[Part, ...]
    have: tuple[str, ...]
    lost: tuple[str, ...]


def _on_it(compiled: Compiled, lamp: str, have: Sequence[str], lost: Sequence[str]) -> _OnIt:
    request = request_of(compiled, lamp, _NO_WISH, have, lost)
    owned = situation(compiled, request).owned
    return {"parts": owned, "have": tuple(request.have), "lost": tuple(request.lost)}


def _fitted(call: Diagnosis, events: tuple[Event, ...]) -> Diagnosis:
    """Return the call with the parts on the lamp that were put on in it, act by act."""
    calls = call.compiled.book.calls
    for act in call._put_on(replace(call.case, events=events)):  # noqa: SLF001 - the same module
        answer = call._routes(calls.remedies[act.remedy])  # noqa: SLF001 - as above
        way = way_taken(act, answer)
        if way is not None:
            call = replace(call, **_after(call, way))
    ids = tuple(part.id for part in call.parts)
    electric = any(p.kind == "burner" and p.service is Service.ELECTRIC for p in call.parts)
    bulb = electric or any(part.kind == "bulb" for part in call.parts)
    case = replace(call.case, parts=ids, events=events, bulb=bulb, flame=not electric)
    return replace(call, case=case)


def _after(call: Diagnosis, way: Route) -> _OnIt:
    """Return what is on the lamp when a way was taken."""
    assembly = way.assembly
    parts = (*(one.part for one in assembly.walk()), *assembly.loose)
    book, kinds = call.compiled.book, {part.kind for part in parts}
    sold = set(book.lamps[call.case.lamp].as_sold)
    named = [p.id for p in parts if p.id not in sold or p.id in call.have or p in way.buy]
    lost = [one for one in call.lost if _kind(book, one) not in kinds]
    return _on_it(call.compiled, call.case.lamp, tuple(dict.fromkeys(named)), lost)


def _kind(book: Book, part_or_kind: str) -> str:
    return book.parts[part_or_kind].kind if part_or_kind in book.parts else part_or_kind

"""What was worked out for a book and holds as long as the book does, so that a sheet is quick.

An answer depends on its request and the book alone, so an answer to the same request may be
handed out again. Nothing here changes an answer; it is forgotten, the longest unused first,
where there is too much of it.
"""

from __future__ import annotations

from collections import OrderedDict
from dataclasses import dataclass, field
from threading import Lock
from typing import TYPE_CHECKING, Generic, TypeVar

from wickwright.answers.diagnose import Diagnosis, diagnose
from wickwright.answers.flames.route_flames import route_flames
from wickwright.answers.pictures.look_pictures import look_pictures
from wickwright.answers.sheet.given_up import read_claims
from wickwright.answers.which_lamp import WhichLamp, which_lamp
from wickwright.answers.which_parts import which_parts
from wickwright.cause.spoken import spoken_of
from wickwright.fit.routes import NotKnown, Routes

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable, Mapping, Sequence

    from wickwright.answers.flames.route_flames import RouteFlames
    from wickwright.answers.said.what_is_meant import Wanted
    from wickwright.answers.sheet.call_record import Said
    from wickwright.answers.worked_out import Circumstances
    from wickwright.cause.case import Event, Spoken
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.request import Claim
    from wickwright.fit.routes import Answer
    from wickwright.recognise.asking import Asking, Heard
    from wickwright.terms.units import Units

__all__ = ["Kept", "Memory", "question_of"]

_Value = TypeVar("_Value")
_AT_ONCE = 60
"""Answers worked out in one step, so that a page does not keep anybody waiting [-]."""


class Kept(Generic[_Value]):
    """Values by what they were worked out from, the longest unused forgotten first.

    Parameters
    ----------
    most : int
        How many are kept [-].
    """

    def __init__(self, most: int) -> None:
        self._most = most
        self._held: OrderedDict[Hashable, _Value] = OrderedDict()
        self._lock = Lock()

    def get(self, key: Hashable, make: Callable[[], _Value]) -> _Value:
        """Return the value of a key, made where it is not there.

        Parameters
        ----------
        key : hashable
            All that the value depends on.
        make : callable
            Works it out; called outside the lock, so two threads may both do so.

        Returns
        -------
        object
            The value.
        """
        with self._lock:
            if key in self._held:
                self._held.move_to_end(key)
                return self._held[key]
        made = make()
        with self._lock:
            self._held[key] = made
            self._held.move_to_end(key)
            while len(self._held) > self._most:
                self._held.popitem(last=False)
        return made


def question_of(lamp: str, wish: str, said: Said, have: tuple[str, ...]) -> Hashable:
    """Return all that an answer depends on beside the fit book."""
    given_up = _given_up(wish, said)
    return (lamp, wish, have, said.lost, said.bare, said.elevation, said.count, given_up)


def _given_up(wish: str, said: Said) -> tuple[Claim, ...]:
    """Return what is given up of a wish: what was given up belongs to the wish of the call."""
    return read_claims(said.given_up) if wish == said.wish else ()


@dataclass(frozen=True, eq=False)
class Memory:
    """A fit book made ready, and what was worked out from it.

    Attributes
    ----------
    compiled : Compiled
        The book.
    asking : Asking or None
        What can be asked about its lamps; None where the book says nothing about looks.
    units : Units
        For words.
    meant : Kept
        What callers' words may mean, by the words.
    spoken : Kept
        Dangers that words speak of, by the words.
    noted : Kept
        What an edge made of an answer, by the question and what it made.
    """

    compiled: Compiled
    asking: Asking | None
    units: Units
    meant: Kept[tuple[Wanted, ...]] = field(default_factory=lambda: Kept(512), repr=False)
    spoken: Kept[tuple[Spoken, ...]] = field(default_factory=lambda: Kept(512), repr=False)
    noted: Kept[object] = field(default_factory=lambda: Kept(512), repr=False)
    _pictures: Kept[Mapping[str, str]] = field(default_factory=lambda: Kept(128), repr=False)
    _lamps: Kept[WhichLamp] = field(default_factory=lambda: Kept(64), repr=False)
    _told: Kept[WhichLamp] = field(default_factory=lambda: Kept(256), repr=False)
    _cases: Kept[Diagnosis] = field(default_factory=lambda: Kept(128), repr=False)
    _heard: Kept[Diagnosis] = field(default_factory=lambda: Kept(256), repr=False)
    _answers: Kept[tuple[Answer, RouteFlames]] = field(
        default_factory=lambda: Kept(512), repr=False
    )

    def spoken_in(self, said: Said) -> tuple[Spoken, ...]:
        """Return the dangers that the caller's words and the note of a sheet speak of."""
        text = f"{said.words}\n{said.note}"
        return self.spoken.get(text, lambda: spoken_of(text, self.compiled.book.calls))

    def pictures(self, look: str) -> Mapping[str, str]:
        """Return the pictures of the answers to a look: SVG text by answer."""
        return self._pictures.get(look, lambda: look_pictures(self.compiled, look, self.units))

    def which(self, said: Said, wish: str, heard: Sequence[Heard]) -> WhichLamp | None:
        """Return a call about an unknown lamp as it stands; None where nothing can be asked.

        Parameters
        ----------
        said : Said
            What stands on the sheet.
        wish : str
            What is wanted; blank where the model itself is asked for.
        heard : sequence of Heard
            What was seen of the lamp.

        Returns
        -------
        WhichLamp or None
            It shares what is worked out with every other call for the same at the same place.
        """
        asking = self.asking
        if asking is None:
            return None
        lost, height = said.lost, said.elevation or 0.0
        key = (wish, lost, height)
        first = self._lamps.get(
            key,
            lambda: which_lamp(
                self.compiled, asking, wish, lost=lost, elevation=height, at_once=_AT_ONCE
            ),
        )
        return self._told.get((key, tuple(heard)), lambda: first.told(*heard))

    def case(
        self,
        lamp: str,
        complaint: str,
        have: tuple[str, ...],
        lost: tuple[str, ...],
        where: Circumstances,
        events: Sequence[Event],
    ) -> Diagnosis:
        """Return a call about something wrong as it stands.

        Parameters
        ----------
        lamp, complaint : str
            Which lamp, and what is wrong with it.
        have, lost : tuple of str
            What is on it that is not its own; what is broken or gone.
        where : Circumstances
            Where and how it burns.
        events : sequence of Event
            What was asked and done.

        Returns
        -------
        Diagnosis
            It shares what is worked out with every other call of the same beginning.
        """
        key = (lamp, complaint, have, lost, where)
        first = self._cases.get(
            key,
            lambda: diagnose(
                self.compiled,
                lamp,
                complaint,
                have=have,
                lost=lost,
                where=where,
                units=self.units,
            ).prepared(),
        )
        return self._heard.get((key, tuple(events)), lambda: first.told(*events))

    def answer(
        self, lamp: str, wish: str, said: Said, have: tuple[str, ...]
    ) -> tuple[Answer, RouteFlames]:
        """Return the routes from what is there to what is wanted, and how each lamp burns."""
        key = question_of(lamp, wish, said, have)
        return self._answers.get(key, lambda: self._answered(lamp, wish, said, have))

    def _answered(
        self, lamp: str, wish: str, said: Said, have: tuple[str, ...]
    ) -> tuple[Answer, RouteFlames]:
        answer = which_parts(
            self.compiled,
            lamp,
            wish,
            have=have,
            lost=said.lost,
            bare=said.bare,
            elevation=said.elevation,
            count=said.count,
            given_up=_given_up(wish, said),
        )
        found = answer.routes if isinstance(answer, Routes | NotKnown) else ()
        return answer, route_flames(self.compiled, answer.now, found)

"""Which lamp a caller has, asking only what changes what is sent."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import TYPE_CHECKING, Final

import numpy as np

from wickwright.answers.goes_on import foreign_parts
from wickwright.answers.which_parts import request_of
from wickwright.catalogue.call_records import Way
from wickwright.catalogue.cells import parse_length
from wickwright.chance.beliefs import Beliefs
from wickwright.fit.routes import Gave, Impossible, NotKnown, Routes, cheapest, routes
from wickwright.fit.shared import serving_all
from wickwright.recognise.asking import SURE, Asking, recognised
from wickwright.recognise.guesses import guesses
from wickwright.recognise.looks import sights

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.chance.arrays import Ints
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.request import Request
    from wickwright.fit.routes import Answer, Cheapest
    from wickwright.fit.shared import Shared
    from wickwright.recognise.asking import Heard, Recognition
    from wickwright.recognise.guesses import Guess

__all__ = ["WhichLamp", "asking_of", "which_lamp"]

_COVERED: Final = 0.99
"""Share of what callers may have whose answer is worked out before asking goes on [-]."""
_AT_ONCE: Final = 120
"""Answers worked out in one step at most [-]."""
_FAR: Final = 9999


def asking_of(compiled: Compiled) -> Asking:
    """Lay out everything that can be asked about the lamps of a book; do it once.

    Parameters
    ----------
    compiled : Compiled
        The fit book.

    Returns
    -------
    Asking
        For :func:`which_lamp`.

    Raises
    ------
    ChanceError
        If the book has no looks or no lamps.
    """
    book = compiled.book
    found = guesses(book, foreign_parts(compiled))
    measured = {look.id for look in book.calls.looks.values() if look.way is Way.MEASURE}
    lengths = {
        (mark.part, mark.look): parse_length(mark.value).nominal
        for mark in book.calls.marks
        if mark.look in measured
    }
    seen = sights(book.calls, found.on, lengths)
    years = np.array([(lamp.first or 0, lamp.last or _FAR) for lamp in book.lamps.values()])
    return Asking.of(found, seen, tuple(book.lamps), years.astype(np.float64))


@dataclass(frozen=True)
class WhichLamp:
    """A call in which the lamp is not known, as it stands.

    Attributes
    ----------
    compiled : Compiled
        The fit book.
    asking : Asking
        Of :func:`asking_of`.
    wish : str
        What the caller wants; blank where only the model is asked for.
    lost : tuple of str
        Kinds that are broken or gone.
    elevation : float
        Where the lamp stands [m].
    heard : tuple of Heard
        What the caller said, oldest first.
    sure : float
        Share of one answer at which asking stops [-].
    at_once : int
        Answers worked out in one step at most [-].
    """

    compiled: Compiled
    asking: Asking
    wish: str = ""
    lost: tuple[str, ...] = ()
    elevation: float = 0.0
    heard: tuple[Heard, ...] = ()
    sure: float = SURE
    at_once: int = _AT_ONCE
    _parcels: dict[tuple[str, frozenset[str]], tuple[str, ...]] = field(
        default_factory=dict, repr=False
    )

    def told(self, *heard: Heard) -> WhichLamp:
        """Return the call after more was said.

        Parameters
        ----------
        *heard : Heard
            In order; a look that was answered before is answered anew.

        Returns
        -------
        WhichLamp
            As it stands then.
        """
        looks = {getattr(one, "look", None) for one in heard} - {None}
        kept = tuple(one for one in self.heard if getattr(one, "look", "") not in looks)
        return replace(self, heard=(*kept, *heard))

    @property
    def last(self) -> Heard | None:
        """The last look that was answered; what was given once with the call is none."""
        return next((one for one in reversed(self.heard) if hasattr(one, "look")), None)

    def back(self) -> WhichLamp:
        """Return the call without the last look that was answered."""
        last = self.last
        return replace(self, heard=tuple(one for one in self.heard if one is not last))

    @cached_property
    def recognition(self) -> Recognition:
        """What was heard comes to, and what to look at next."""
        return recognised(self.asking, self.heard, self._classes, self.sure)

    @cached_property
    def classes(self) -> Ints:
        """The class of each guess, as far as it was worked out (guesses) [-]."""
        beliefs = self.recognition.beliefs
        return self._classes(Beliefs(self.asking.guesses.weights) if beliefs is None else beliefs)

    def answer(self, guess: Guess) -> Answer:
        """Return the routes for a lamp the caller may have.

        Parameters
        ----------
        guess : Guess
            One of ``asking.guesses``.

        Returns
        -------
        Answer
            With all that is to be said of them.
        """
        return routes(self.compiled, self._request(guess))

    def _request(self, guess: Guess) -> Request:
        return request_of(
            self.compiled,
            guess.lamp,
            self.wish,
            guess.foreign,
            self.lost,
            elevation=self.elevation,
        )

    def parcel(self, guess: Guess) -> tuple[str, ...]:
        """Return what would be sent for a lamp the caller may have; what tells classes apart.

        Worked out once for one lamp's parts.
        """
        key = (guess.lamp, frozenset(guess.parts))
        if key not in self._parcels:
            self._parcels[key] = _parcel(cheapest(self.compiled, self._request(guess)))
        return self._parcels[key]

    def likely(self, least: float = 0.02, most: int = 12) -> tuple[Guess, ...]:
        """Return the lamps the caller may still have.

        Parameters
        ----------
        least : float
            Chance below which a guess is left out [-].
        most : int
            Guesses at most [-].

        Returns
        -------
        tuple of Guess
            Likeliest first.
        """
        beliefs = self.recognition.beliefs
        if beliefs is None:
            return ()
        order = np.argsort(-beliefs.weights, kind="stable")[:most]
        return tuple(self.asking.guesses.all[p] for p in order if beliefs.weights[p] >= least)

    def serving_likely(self) -> Shared | None:
        """Return what serves every lamp the caller may still have.

        Returns
        -------
        Shared or None
            None without a wish, or where nothing is likely enough to be served.
        """
        found = self.likely()
        if not self.wish or not found:
            return None
        return serving_all(self.compiled, [self._request(guess) for guess in found])

    def parcels(self) -> tuple[tuple[tuple[str, ...], float], ...]:
        """Return what would be sent, and how probable each is, likeliest first.

        Returns
        -------
        tuple of (tuple of str, float)
            Without a wish there is nothing to send, and it is empty.
        """
        if not self.wish:
            return ()
        first = {int(c): p for p, c in reversed(list(enumerate(self.classes)))}
        guesses = self.asking.guesses.all
        return tuple(
            (self._near(guesses[first[place]]), chance)
            for place, chance in self.recognition.classes
            if place in first
        )

    def _classes(self, beliefs: Beliefs) -> Ints:
        """Return the class of each guess: its model, or what would be sent for it."""
        if not self.wish:
            return self.asking.guesses.lamps
        self._work_out(beliefs)
        numbers: dict[tuple[str, ...], int] = {}
        found = [numbers.setdefault(self._near(g), len(numbers)) for g in self.asking.guesses.all]
        return np.array(found, dtype=np.intp)

    def _near(self, guess: Guess) -> tuple[str, ...]:
        """Return a guess's parcel; that of the lamp as sold where it is not worked out."""
        for parts in (guess.parts, self.compiled.book.lamps[guess.lamp].as_sold):
            known = self._parcels.get((guess.lamp, frozenset(parts)))
            if known is not None:
                return known
        return ("not worked out",)

    def _work_out(self, beliefs: Beliefs) -> None:
        """Work answers out, the likeliest guesses first, until most of the weight is covered."""
        order = np.argsort(-beliefs.weights, kind="stable")
        covered, worked = 0.0, 0
        for place in order:
            guess = self.asking.guesses.all[int(place)]
            if covered >= _COVERED or worked >= self.at_once:
                break
            if (guess.lamp, frozenset(guess.parts)) not in self._parcels:
                self.parcel(guess)
                worked += 1
            covered += float(beliefs.weights[place])


_TOLD: Final = {Routes: "send", NotKnown: "measure first", Impossible: "no route", Gave: "gave up"}


def _parcel(found: Cheapest) -> tuple[str, ...]:
    return (_TOLD[found.answer], *sorted(part.id for part in found.buy))


def which_lamp(
    compiled: Compiled,
    asking: Asking,
    wish: str = "",
    *,
    lost: Sequence[str] = (),
    elevation: float = 0.0,
    heard: Sequence[Heard] = (),
    sure: float = SURE,
    at_once: int = _AT_ONCE,
) -> WhichLamp:
    """Begin, or take up again, a call in which the lamp is not known.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    asking : Asking
        Of :func:`asking_of`.
    wish : str
        What the caller wants; then asking stops as soon as what to send is settled. Blank
        where the model itself is asked for.
    lost : sequence of str
        Kinds that are broken or gone.
    elevation : float
        Where the lamp stands [m].
    heard : sequence of Heard
        What was said before; the same thing said twice counts once.
    sure : float
        Share of one answer at which asking stops [-].
    at_once : int
        Answers worked out in one step at most [-].

    Returns
    -------
    WhichLamp
        Its ``recognition`` says what to look at next, and when to stop.

    Raises
    ------
    UnknownNameError
        When the wish is not in the book.
    """
    if wish:
        first = next(iter(compiled.book.lamps))
        wish = request_of(compiled, first, wish, (), lost, elevation=elevation).wish.id
    once = tuple(dict.fromkeys(heard))
    return WhichLamp(compiled, asking, wish, tuple(lost), elevation, once, sure, at_once)

"""What has been heard about a lamp, what it comes to, and what to look at next."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, Final

import numpy as np

from wickwright.chance.beliefs import Beliefs, Contradiction, combined, lifts
from wickwright.chance.beliefs import clash as clashing
from wickwright.chance.next_question import Question, gains, settled, stack

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from wickwright.chance.arrays import Floats, Ints
    from wickwright.chance.next_question import Questions
    from wickwright.recognise.guesses import Guesses
    from wickwright.recognise.looks import Sight

__all__ = [
    "Asking",
    "Bought",
    "Heard",
    "Measured",
    "Model",
    "NextLook",
    "Recognition",
    "Saw",
    "Stop",
    "Unsure",
    "recognised",
]

SURE: Final = 0.95
"""Share of one answer at which asking stops [-]: a setting."""
_FIRM: Final = 0.80
"""Least share of an answer that no single look is given the power to change [-]."""
_SAYING: Final = 0.25
"""What it takes to say a question and hear the answer, beside the look itself [min]:
``assumption``."""
_TELLS: Final = 0.01
"""A look that tells less is not worth asking [bit]."""
_ODD: Final = -2.0
"""Two answers this much less probable together than apart are said to clash [bit]."""
_RARE: Final = 1e-3
"""An answer fewer callers give than this is not waited for [-]."""
_RIGHT_NAME: Final = 0.97
"""Share of callers who read a name or number off the lamp rightly [-]: ``assumption``."""
_OTHER_YEAR: Final = 0.05
"""Chance that a lamp was bought in a year it was not made, beside one it was [-]:
``assumption``."""


@dataclass(frozen=True, slots=True)
class Saw:
    """A look, and what was seen or felt."""

    look: str
    value: str


@dataclass(frozen=True, slots=True)
class Measured:
    """A measured look, and the length [m]."""

    look: str
    length: float


@dataclass(frozen=True, slots=True)
class Unsure:
    """A look the caller could not answer."""

    look: str


@dataclass(frozen=True, slots=True)
class Model:
    """The caller read or knows a name: one of these lamps."""

    lamps: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Bought:
    """The year the lamp was bought new."""

    year: int


Heard = Saw | Measured | Unsure | Model | Bought
"""One thing a caller said."""


class Stop(StrEnum):
    """Why there is nothing more to ask."""

    SETTLED = "one answer is sure enough"
    NO_MATTER = "nothing that could be asked would change the answer"
    NOTHING_LEFT = "there is nothing left to look at"


@dataclass(frozen=True, slots=True)
class NextLook:
    """A look worth taking.

    Attributes
    ----------
    look : str
        Its key.
    tells : float
        What it is expected to tell about the answer [bit].
    a_minute : float
        What it spares of asking by the minute, the saying included: what it tells, and what is
        left open after answers that settle the call, for nobody asks about that [bit/min].
    apart : tuple of str
        Two lamps that it tells apart, the likeliest first; one or none where it does not.
    """

    look: str
    tells: float
    a_minute: float
    apart: tuple[str, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Recognition:
    """What has been heard comes to.

    Attributes
    ----------
    beliefs : Beliefs or None
        Over the guesses; None where what was heard is impossible under the tables.
    lamps : tuple of (int, float)
        Place of each lamp in the book and its chance, likeliest first [-].
    classes : tuple of (int, float)
        Each answer and its chance, likeliest first [-].
    looks : tuple of NextLook
        Worth taking, most spared by the minute first; empty once asking stops. Where what was
        heard is impossible, the looks that clash, to be taken again.
    stop : Stop or None
        Why asking stops; None while it goes on.
    clash : tuple of Heard
        Things heard that seldom or never go together.
    """

    beliefs: Beliefs | None
    lamps: tuple[tuple[int, float], ...]
    classes: tuple[tuple[int, float], ...]
    looks: tuple[NextLook, ...]
    stop: Stop | None
    clash: tuple[Heard, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Asking:
    """Everything that can be asked about the lamps of a book; made once.

    Attributes
    ----------
    guesses : Guesses
        Lamps a caller may have.
    sights : tuple of Sight
        Looks.
    questions : tuple of Question
        The same before anything was heard.
    names : tuple of str
        Model numbers in the order of the book.
    years : array
        First and last year made of each lamp (lamps, 2) [a].
    """

    guesses: Guesses
    sights: tuple[Sight, ...]
    questions: tuple[Question, ...]
    names: tuple[str, ...]
    years: Floats

    @classmethod
    def of(
        cls, guesses: Guesses, sights: Sequence[Sight], names: Sequence[str], years: Floats
    ) -> Asking:
        """Lay the looks out for the lamps."""
        asked = tuple(_question(one, guesses.on[one.look.kind].share) for one in sights)
        return cls(guesses, tuple(sights), asked, tuple(names), years)

    def has(self, look: str) -> bool:
        """Say whether the book has a look that some part answers."""
        return any(sight.look.id == look for sight in self.sights)

    def sight(self, look: str) -> Sight:
        """Return a look by its key.

        Raises
        ------
        KeyError
            If the book has no such look, or no part answers it.
        """
        for sight in self.sights:
            if sight.look.id == look:
                return sight
        raise KeyError(look)

    def of_part(self, heard: Heard) -> tuple[str, Floats] | None:
        """Return the kind something heard is about, and how probable it is for each part.

        Parameters
        ----------
        heard : Heard
            What was heard.

        Returns
        -------
        tuple of (str, array), or None
            Up to a factor (parts) [-]; None where it is about the lamp, or tells nothing.

        Raises
        ------
        KeyError
            If the book has no such look.
        ValueError
            If the look has no such answer.
        """
        match heard:
            case Saw(look, value):
                sight = self.sight(look)
                return sight.look.kind, sight.saw(value)
            case Measured(look, length):
                sight = self.sight(look)
                return sight.look.kind, sight.measured(length)
            case _:
                return None

    def of_lamp(self, heard: Heard) -> Floats | None:
        """Return how probable something heard about the lamp is under each guess (guesses) [-]."""
        match heard:
            case Model(lamps):
                named = np.isin(self.names, lamps)[self.guesses.lamps]
                return np.where(named, _RIGHT_NAME, 1.0 - _RIGHT_NAME)
            case Bought(year):
                made = (self.years[:, 0] <= year) & (year <= self.years[:, 1] + 2)
                return np.where(made, 1.0, _OTHER_YEAR)[self.guesses.lamps]
            case _:
                return None

    def alone(self, heard: Heard) -> Floats:
        """Return how probable something is under each guess if nothing else was heard.

        Parameters
        ----------
        heard : Heard
            What was heard.

        Returns
        -------
        array
            Up to a factor (guesses) [-].
        """
        part, lamp = self.of_part(heard), self.of_lamp(heard)
        if part is not None:
            row: Floats = self.guesses.on[part[0]].share @ part[1]
            return row
        return np.ones(len(self.guesses.all)) if lamp is None else lamp

    def together(self, heard: Sequence[Heard]) -> Together:
        """Return how probable all that was heard is, and what is on the lamps in its light.

        Parameters
        ----------
        heard : sequence of Heard
            What was heard.

        Returns
        -------
        Together
            Two looks at one part are two looks at *one* part, not at two.
        """
        parts: dict[str, Floats] = {}
        rows = [row for one in heard if (row := self.of_lamp(one)) is not None]
        for told in filter(None, map(self.of_part, heard)):
            kind, likely = told
            parts[kind] = parts.get(kind, np.ones(len(likely))) * (likely / likely.max())
        on: dict[str, Floats] = {}
        for kind, likely in parts.items():
            joint = self.guesses.on[kind].share * likely
            total = joint.sum(axis=1)
            rows.append(total)
            on[kind] = joint / np.where(total > 0.0, total, 1.0)[:, None]
        return Together(tuple(rows), on)


@dataclass(frozen=True, slots=True, eq=False)
class Together:
    """All that was heard, laid beside the guesses.

    Attributes
    ----------
    rows : tuple of array
        How probable it is under each guess, kind by kind (guesses) [-].
    on : mapping of str to array
        Of each kind that something was heard about: what is on the lamp (guesses, parts) [-].
    """

    rows: tuple[Floats, ...]
    on: Mapping[str, Floats]


def _question(sight: Sight, share: Floats) -> Question:
    table = np.ascontiguousarray((share @ sight.rows).T)
    return Question(table / table.sum(axis=0), sight.look.minutes)


def recognised(
    asking: Asking,
    heard: Sequence[Heard],
    classes_of: Callable[[Beliefs], Ints],
    sure: float = SURE,
) -> Recognition:
    """Say what has been heard comes to, and what to look at next.

    Parameters
    ----------
    asking : Asking
        What can be asked.
    heard : sequence of Heard
        What was heard, in any order.
    classes_of : callable
        Gives the class of each guess: guesses of one class have the same answer. It is handed
        the beliefs, so that it need not work out what hardly anyone has.
    sure : float
        Share of one class at which asking stops [-].

    Returns
    -------
    Recognition
        Looks ranked by what they spare of asking about the class by the minute.

    Notes
    -----
    A look is worth (told + settled) / (look + saying) [bit/min]: what it tells of the class
    (:func:`~wickwright.chance.next_question.gains`), what is left open after answers that settle
    the call (:func:`~wickwright.chance.next_question.settled`), and the minutes of the look with
    those of its saying. It is only an order: which looks are worth taking, and whether asking
    stops after what was heard, hang on what was heard and on ``told``, not on it.
    """
    twice = _said_both_ways(heard)
    if twice:
        return _at_a_loss(twice)
    told = asking.together(heard)
    beliefs = combined(asking.guesses.weights, told.rows) if told.rows else _before(asking)
    if isinstance(beliefs, Contradiction):
        return _at_a_loss(_clash(asking, heard))
    classes = classes_of(beliefs)
    open_ = _open(asking, heard, told)
    looks = _looks(asking, open_, beliefs, classes, sure)
    stop = _stop(open_, beliefs, classes, looks, sure)
    return Recognition(
        beliefs,
        _ranked(beliefs.share(asking.guesses.lamps)),
        _ranked(beliefs.share(classes)),
        () if stop else looks,
        stop,
        _clash(asking, heard),
    )


def _said_both_ways(heard: Sequence[Heard]) -> tuple[Heard, ...]:
    """Return two answers to one look that cannot both be so; empty where there are none."""
    said: dict[str, Saw] = {}
    for one in heard:
        if isinstance(one, Saw) and said.setdefault(one.look, one).value != one.value:
            return said[one.look], one
    return ()


def _at_a_loss(clash: tuple[Heard, ...]) -> Recognition:
    """Return that nothing can be said; the looks that clash are to be taken again."""
    again = dict.fromkeys(one.look for one in clash if not isinstance(one, Model | Bought))
    looks = tuple(NextLook(look, 0.0, 0.0, ()) for look in again)
    return Recognition(None, (), (), looks, None if looks else Stop.NOTHING_LEFT, clash)


def _ranked(shares: Floats) -> tuple[tuple[int, float], ...]:
    order = np.argsort(-shares, kind="stable")
    return tuple((int(place), float(shares[place])) for place in order if shares[place] > 0.0)


def _before(asking: Asking) -> Beliefs:
    return Beliefs(asking.guesses.weights)


@dataclass(frozen=True, slots=True, eq=False)
class _Open:
    """Looks not taken yet, laid side by side as things stand."""

    sights: tuple[Sight, ...]
    questions: Questions | None


def _open(asking: Asking, heard: Sequence[Heard], told: Together) -> _Open:
    asked = {one.look for one in heard if isinstance(one, Saw | Measured | Unsure)}
    places = [p for p, sight in enumerate(asking.sights) if sight.look.id not in asked]
    kept = tuple(asking.sights[place] for place in places)
    laid = [
        _question(sight, told.on[sight.look.kind])
        if sight.look.kind in told.on
        else asking.questions[place]
        for place, sight in zip(places, kept, strict=True)
    ]
    return _Open(kept, stack(laid) if laid else None)


def _looks(
    asking: Asking, open_: _Open, beliefs: Beliefs, classes: Ints, sure: float
) -> tuple[NextLook, ...]:
    """Return the looks that tell something, what spares most asking by the minute first."""
    if open_.questions is None:
        return ()
    told = gains(beliefs, open_.questions, classes)
    spared = told + settled(beliefs, open_.questions, classes, sure)
    worth = spared / (open_.questions.minutes + _SAYING)
    places = [place for place in range(len(open_.sights)) if told[place] > _TELLS]
    places.sort(key=lambda place: -round(float(worth[place]), 12))
    return tuple(
        NextLook(
            open_.sights[place].look.id,
            float(told[place]),
            float(worth[place]),
            _apart(asking, open_.questions, beliefs, classes, place),
        )
        for place in places
    )


def _apart(
    asking: Asking, questions: Questions, beliefs: Beliefs, classes: Ints, place: int
) -> tuple[str, ...]:
    """Return the likeliest lamp, and the likeliest of another class that answers otherwise."""
    weights, found = beliefs.weights, asking.guesses
    first = int(np.argmax(weights))
    answer = np.argmax(questions.rows[questions.owner == place], axis=0)
    other = np.where((answer != answer[first]) & (classes != classes[first]), weights, 0.0)
    second = int(np.argmax(other))
    names = [found.all[first].lamp]
    if other[second] > 0.0 and found.all[second].lamp != names[0]:
        names.append(found.all[second].lamp)
    return tuple(names)


def _stop(
    open_: _Open, beliefs: Beliefs, classes: Ints, looks: Sequence[NextLook], sure: float
) -> Stop | None:
    shares = beliefs.share(classes)
    best = int(np.argmax(shares))
    if shares[best] >= sure:
        return Stop.SETTLED
    if not looks or open_.questions is None:
        return Stop.NOTHING_LEFT
    if shares[best] >= _FIRM and not _could_change(open_.questions, beliefs, classes, best):
        return Stop.NO_MATTER
    return None


def _could_change(questions: Questions, beliefs: Beliefs, classes: Ints, best: int) -> bool:
    """Say whether any answer to any look would make another class the likeliest."""
    for row in questions.rows * beliefs.weights:
        shares = np.bincount(classes, weights=row)
        if shares.sum() > _RARE and int(np.argmax(shares)) != best:
            return True
    return False


def _clash(asking: Asking, heard: Sequence[Heard]) -> tuple[Heard, ...]:
    told = [one for one in heard if not isinstance(one, Unsure)]
    if len(told) < 2:  # noqa: PLR2004 - a pair
        return ()
    rows = [asking.alone(one) for one in told]
    found = clashing(asking.guesses.weights, rows)
    if found and float(lifts(asking.guesses.weights, [rows[p] for p in found])[0, 1]) > _ODD:
        return ()
    return tuple(told[place] for place in found)

"""A case as it stands: the lamp, the complaint, and what has been said and done, in order.

Everything the program says about a case follows from this record and the fit book, so a case
can be written down, taken up again, and any step of it taken back.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

__all__ = [
    "Act",
    "Answer",
    "Case",
    "Cleared",
    "Computed",
    "Danger",
    "Event",
    "Outcome",
    "Said",
    "Spoken",
    "said_both_ways",
]


class Said(StrEnum):
    """What a caller answers."""

    YES = "yes"
    NO = "no"
    UNSURE = "don't know"


class Outcome(StrEnum):
    """What came of something done."""

    CURED = "it burns well"
    STILL = "still wrong"
    NOT_DONE = "could not be done"


@dataclass(frozen=True, slots=True)
class Answer:
    """A sign asked about, and what was said."""

    sign: str
    said: Said


@dataclass(frozen=True, slots=True)
class Computed:
    """Something worked out about a cause instead of asked.

    Attributes
    ----------
    cause : str
        The cause it speaks of.
    chance : float
        How probable the cause is by this alone [-].
    because : str
        The reason, to be read out.
    """

    cause: str
    chance: float
    because: str


@dataclass(frozen=True, slots=True)
class Act:
    """A remedy tried, and what came of it.

    Attributes
    ----------
    remedy : str
        Key of the remedy.
    outcome : Outcome
        What came of it.
    bought : tuple of str
        All parts that were bought for it; empty where nobody said, and then it is the cheapest
        way.
    """

    remedy: str
    outcome: Outcome
    bought: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Danger:
    """A danger asked about, and what was said."""

    danger: str
    said: Said


@dataclass(frozen=True, slots=True)
class Cleared:
    """A danger dealt with: what clears it was read out, and the caller says it is so."""

    danger: str


@dataclass(frozen=True, slots=True)
class Spoken:
    """A danger that somebody's own words speak of; it is asked about for these words.

    Attributes
    ----------
    danger : str
        Key of :data:`wickwright.cause.dangers.GUARDS`.
    mark : str
        Tells one clause from another without a word of it, so that no caller's words are kept
        among the events of a case.
    sure : bool
        Whether the words leave no doubt, so that the caller is told to stop at once.
    words : str
        The clause in which it was said; blank where it is taken up again without the words.
    """

    danger: str
    mark: str
    sure: bool = False
    words: str = field(default="", compare=False)


Event = Answer | Computed | Act | Danger | Cleared | Spoken
"""One thing said, worked out or done."""


@dataclass(frozen=True, slots=True)
class Case:
    """A case as it stands.

    Attributes
    ----------
    lamp : str
        Model number.
    parts : tuple of str
        The parts really on it.
    complaint : str
        Key of the complaint.
    events : tuple of Event
        What was said, worked out and done, oldest first.
    bulb : bool
        True when there is a bulb on it, or a burner for one: the dangers of current are asked
        about.
    flame : bool
        True unless it is known to have no burner for fuel: the dangers of a flame are asked about.
    """

    lamp: str
    parts: tuple[str, ...]
    complaint: str
    events: tuple[Event, ...] = ()
    bulb: bool = False
    flame: bool = True

    def then(self, *events: Event) -> Case:
        """Return the case with more said or done.

        A sign answered anew is answered as it is said last, unless something was done to the
        lamp in between: then both answers count, each for the lamp as it was.
        """
        anew = {one.sign for one in events if isinstance(one, Answer)}
        done = [at for at, one in enumerate(self.events) if isinstance(one, Act)]
        since = done[-1] + 1 if done else 0
        kept = (
            one
            for at, one in enumerate(self.events)
            if at < since or not (isinstance(one, Answer) and one.sign in anew)
        )
        return replace(self, events=(*kept, *events))

    def back(self) -> Case:
        """Return the case without the last thing a person answered or did.

        What was worked out after it goes with it: it is worked out again. Dangers that the
        caller's words speak of stay, to be asked about again.
        """
        beside = (Computed, Spoken)
        people = [at for at, one in enumerate(self.events) if not isinstance(one, beside)]
        last = people[-1] if people else 0
        spoken = (one for one in self.events[last:] if isinstance(one, Spoken))
        return replace(self, events=(*self.events[:last], *spoken))


def said_both_ways(events: Iterable[Event]) -> tuple[Event, ...]:
    """Return a yes and a no to one sign that cannot both be so.

    Parameters
    ----------
    events : iterable of Event
        Of a case, oldest first.

    Returns
    -------
    tuple of Event
        The two; empty where there are none. After something was done a sign may be otherwise.
    """
    said: dict[str, Answer] = {}
    for one in events:
        if isinstance(one, Act):
            said.clear()
        elif (
            isinstance(one, Answer)
            and one.said is not Said.UNSURE
            and said.setdefault(one.sign, one).said is not one.said
        ):
            return said[one.sign], one
    return ()

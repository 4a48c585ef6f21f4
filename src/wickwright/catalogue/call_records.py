"""The records a call is taken with: what tells lamps apart, and what goes wrong with them."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = [
    "BENCH",
    "COMPUTATIONS",
    "DANGERS",
    "STRENGTHS",
    "CallBook",
    "Cause",
    "Complaint",
    "Cure",
    "Look",
    "Mark",
    "Often",
    "Remedy",
    "Show",
    "Sign",
    "State",
    "Swap",
    "Way",
]

DANGERS: Final[dict[str, str]] = {
    "wet-font": "the font or the table under it is wet with fuel",
    "cracked-font": "the font is cracked or its seam is open",
    "no-answer": "the flame does not answer the knob",
    "outside-glass": "flame stands outside the glass or runs up above it",
    "wrong-fuel": "there may be petrol, camp fuel or something unknown in the font",
    "unwell": "someone in the room has a headache, is dizzy or feels sick",
    "closed-room": "the lamp burns in a tent, a vehicle or a room with no air",
    "shock": "the lamp or its wiring may give a shock",
}
"""What stops a call before anything is worked out. Part of the program, not of a book: no
table, setting or learning takes one away."""

COMPUTATIONS: Final[dict[str, str]] = {
    "thin-air": "the chimney is too short for the burner at this elevation",
    "wrong-chimney": "the chimney is not one for this burner and seat",
    "wrong-mantle": "the mantle is not one for this burner",
    "wrong-wick": "the wick is not one for this burner",
    "wrong-gallery": "the gallery is not one for this burner",
    "hard-seat": "the seat presses the glass as they warm and cool",
    "low-fuel": "the fuel is nearly used up after the hours burned since filling",
    "tight-room": "the air of the room is used up faster than it is renewed",
}
"""What the program can work out about a cause instead of asking."""

BENCH: Final = "bench"
"""The remedy that is no act of the caller's: handing the lamp over. Its minutes are the price of
a repair at the bench, and it needs no cures of its own beside those it is named for."""

STRENGTHS: Final[dict[str, float]] = {"strong": 0.85, "medium": 0.50, "weak": 0.20}
"""Share of lamps with the cause alone that show the sign (expert words, an assumption)."""


class Way(StrEnum):
    """How something is found out."""

    ASK = "ask"
    LOOK = "look"
    FEEL = "feel"
    MEASURE = "measure"
    TEST = "test"


class State(StrEnum):
    """What the lamp must be for a step."""

    ANY = "any"
    COLD = "cold"
    LIT = "lit"


class Often(StrEnum):
    """How often callers take one thing for another."""

    OFTEN = "often"
    SOMETIMES = "sometimes"
    SELDOM = "seldom"


@dataclass(frozen=True, slots=True)
class Look:
    """Something to see, feel or measure on a cold lamp.

    Attributes
    ----------
    id, kind, question : str
        Short name, kind of part it is seen on, what the adviser asks.
    way : Way
        Look, feel or measure.
    minutes : float
        How long it takes [min].
    right, unsure : float
        Share of callers that answer rightly, of those who answer; share who do not know [-].
    error : float
        A caller's standard error of a measured look [m]; 0 for the others.
    note : str
        How to look.
    printed : str
        ``error`` as the book has it.
    """

    id: str
    kind: str
    question: str
    way: Way
    minutes: float
    right: float
    unsure: float
    error: float = 0.0
    note: str = ""
    printed: str = ""


@dataclass(frozen=True, slots=True)
class Mark:
    """What a look shows on a part, and what callers take it for."""

    part: str
    look: str
    value: str
    confused_with: str = ""
    confused: Often = Often.SOMETIMES


@dataclass(frozen=True, slots=True)
class Swap:
    """How often a part of a kind is not the original [-]."""

    kind: str
    share: float
    source: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Sign:
    """Something that is so, or not so, with a lamp that burns badly.

    Attributes
    ----------
    id, question, says : str
        Short name, what is asked, the sign in words.
    way : Way
        How it is found out.
    minutes : float
        How long it takes [min].
    state : State
        What the lamp must be.
    needs : tuple of str
        Kinds of part without which it makes no sense.
    yes_right, no_right, unsure : float
        Share of yes where it is so, of no where it is not, of those who know; share who do
        not know [-].
    anyway : float
        Share of lamps that show it without any listed cause [-].
    danger : str
        Key of :data:`DANGERS` that a yes means, or blank.
    why, source : str
        Why it is asked; key of the bibliography.
    words : tuple of str
        What callers say where it is so; where it is a danger, it is heard in their words.
    """

    id: str
    question: str
    says: str
    way: Way
    minutes: float
    state: State
    needs: tuple[str, ...]
    yes_right: float
    no_right: float
    unsure: float
    anyway: float
    danger: str
    why: str
    source: str
    words: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Complaint:
    """What callers complain of, the sign it is, and other words for it."""

    id: str
    says: str
    sign: str
    words: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Cause:
    """Something that can be wrong.

    Attributes
    ----------
    id, says : str
        Short name, plain words.
    weight : float
        Share of lamps complained of that have it [-].
    needs, families : tuple of str
        Kinds of part the lamp must have; families it can happen to, empty for all.
    computed : str
        Key of :data:`COMPUTATIONS`, or blank.
    why, source : str
        What happens in the lamp; key of the bibliography.
    """

    id: str
    says: str
    weight: float
    needs: tuple[str, ...]
    families: tuple[str, ...]
    computed: str
    why: str
    source: str


@dataclass(frozen=True, slots=True)
class Show:
    """How strongly a cause shows itself by a sign.

    Attributes
    ----------
    cause, sign : str
        Their keys.
    strength : float
        Share of lamps with this cause alone that show the sign [-].
    source : str
        Key of the bibliography.
    printed : str
        The strength as the book has it: a word, or a number of a hundred.
    """

    cause: str
    sign: str
    strength: float
    source: str
    printed: str = ""


@dataclass(frozen=True, slots=True)
class Remedy:
    """Something to do about a cause.

    Attributes
    ----------
    id, says : str
        Short name, what the caller is told to do.
    minutes : float
        How long it takes without cooling [min].
    state : State
        What the lamp must be.
    wish : str
        The wish whose route says which parts to send, or blank.
    extra : float
        Minutes added for its risk [min].
    caution, source : str
        What to be careful of; key of the bibliography.
    """

    id: str
    says: str
    minutes: float
    state: State
    wish: str
    extra: float
    caution: str
    source: str


@dataclass(frozen=True, slots=True)
class Cure:
    """A cause that a remedy cures, and how surely [-]."""

    remedy: str
    cause: str
    sure: float


@dataclass(frozen=True, slots=True)
class CallBook:
    """What a book knows for taking a call; everything may be empty."""

    looks: Mapping[str, Look] = field(default_factory=dict)
    marks: tuple[Mark, ...] = ()
    swaps: Mapping[str, Swap] = field(default_factory=dict)
    signs: Mapping[str, Sign] = field(default_factory=dict)
    complaints: Mapping[str, Complaint] = field(default_factory=dict)
    causes: Mapping[str, Cause] = field(default_factory=dict)
    shows: tuple[Show, ...] = ()
    remedies: Mapping[str, Remedy] = field(default_factory=dict)
    cures: tuple[Cure, ...] = ()

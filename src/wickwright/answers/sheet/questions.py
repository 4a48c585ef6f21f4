"""What a call sheet may ask next: one record for each sort of question."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from wickwright.answers.said.what_is_meant import Wanted
    from wickwright.cause.case import Spoken
    from wickwright.cause.dangers import Guard
    from wickwright.cause.next_step import Step
    from wickwright.fit.routes import Impossible, WayOut
    from wickwright.recognise.asking import NextLook

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
]


@dataclass(frozen=True, slots=True)
class AskWanted:
    """What the caller wants; offered, best first."""

    offers: tuple[Wanted, ...]


@dataclass(frozen=True, slots=True)
class AskPlace:
    """Where the lamp stands: thin air asks for another glass."""


@dataclass(frozen=True, slots=True)
class AskMissing:
    """What is not on the lamp any more: only that decides what it needs.

    Attributes
    ----------
    kinds : tuple of str
        Kinds of part that may be missing, the likeliest first.
    """

    kinds: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class AskDangers:
    """Whether any of these is so.

    Attributes
    ----------
    guards : tuple of Guard
        Dangers, those that somebody's words speak of first.
    spoken : tuple of Spoken
        These words.
    """

    guards: tuple[Guard, ...]
    spoken: tuple[Spoken, ...] = ()


@dataclass(frozen=True, slots=True)
class AskClear:
    """What is done about a danger, and whether it is over."""

    guard: Guard


@dataclass(frozen=True, slots=True)
class AskLook:
    """What the lamp looks like, out and cold."""

    look: NextLook


@dataclass(frozen=True, slots=True)
class AskSign:
    """What the lamp does."""

    step: Step


@dataclass(frozen=True, slots=True)
class AskAct:
    """Something to do, and what came of it."""

    step: Step


@dataclass(frozen=True, slots=True)
class AskGiveUp:
    """What the caller would rather do without, where not all that is wanted can be had.

    Attributes
    ----------
    answer : Impossible
        Why it cannot.
    outs : tuple of WayOut
        What can be offered, the cheapest first.
    """

    answer: Impossible
    outs: tuple[WayOut, ...]


@dataclass(frozen=True, slots=True)
class AskBench:
    """Nothing more is worth doing by telephone.

    Attributes
    ----------
    offers : tuple of Wanted
        Parts that make good what cannot be cleared.
    """

    offers: tuple[Wanted, ...] = ()


Asked = (
    AskWanted
    | AskPlace
    | AskMissing
    | AskDangers
    | AskClear
    | AskLook
    | AskSign
    | AskAct
    | AskGiveUp
    | AskBench
)
"""What a sheet may ask."""

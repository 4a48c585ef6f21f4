"""Shapes of checked baskets and of calls, for the OpenAPI document of the interface."""

from typing import Literal

from pydantic import JsonValue
from typing_extensions import TypedDict

from wickwright.desk.api_answer_shapes import FindingLine, TownLine
from wickwright.desk.api_book_shapes import PartInShort

__all__ = ["BasketAnswer", "WhichAnswer", "WhyAnswer"]


class FaultLine(TypedDict):
    """A fault of a basket; `row` counts its lines from 1."""

    fault: str
    part: str
    row: int
    finding: FindingLine
    because: FindingLine | None


class MendedLine(PartInShort):
    """A line of the basket as it should be."""

    quantity: int


class CureLine(TypedDict):
    """A fault that a change cures."""

    fault: str
    part: str
    row: int


class ChangeLine(TypedDict):
    """What was done with a line."""

    did: Literal["kept", "exchanged", "added", "left out"]
    part: str | None
    ordered: str | None
    row: int | None
    cures: list[CureLine]
    says: str


class MendedBasket(TypedDict):
    """The basket as it should be."""

    price: str
    lines: list[MendedLine]
    changed: list[str]
    given_up: list[str]
    changes: list[ChangeLine]
    findings: list[FindingLine]


class BasketAnswer(TypedDict):
    """Every fault of a basket, and the basket put right where there is any."""

    order: str
    lamp: str
    place: str
    could_be_for: list[str]
    faults: list[FaultLine]
    mended: MendedBasket | None
    currency: str
    cautions: list[str]
    town: TownLine | None


# -- calls step by step --------------------------------------------------------------------------


class LampChance(TypedDict):
    """A lamp it may be."""

    lamp: str
    chance: float


class ParcelChance(TypedDict):
    """What may have to be sent."""

    send: list[str]
    chance: float


class LookLine(TypedDict):
    """Something to look at next."""

    look: str
    question: str
    answers: list[str]
    measured: bool
    tells_bits: float
    apart: list[str]


class WhichAnswer(TypedDict):
    """Which lamp it may be, and what to look at next."""

    wish: str | None
    heard: list[dict[str, JsonValue]]
    stop: str | None
    lamps: list[LampChance]
    parcels: list[ParcelChance]
    looks: list[LookLine]
    clash: list[dict[str, JsonValue]]
    town: TownLine | None


class DangerAsk(TypedDict):
    """A danger to ask about."""

    danger: str
    asks: str


class DangerShut(TypedDict):
    """A danger that is there: what to tell at once."""

    danger: str
    tells: list[str]
    cleared_when: str | None


class DangerSpoken(TypedDict):
    """A danger that the words sent speak of: it is asked about first."""

    danger: str
    words: str
    sure: bool


class Gate(TypedDict):
    """Dangers come first: while the gate is shut no step needs a flame."""

    open: bool
    ask: list[DangerAsk]
    spoken_of: list[DangerSpoken]
    shut_by: list[DangerShut]
    bench: bool


class StepLine(TypedDict):
    """A step: a question, something to do, or the bench."""

    do: Literal["ask", "act", "bench"]
    key: str
    says: str
    expected_minutes: float
    own_minutes: float
    lamp_must_be: str
    about: list[str]
    price: str | None


class CauseChance(TypedDict):
    """A cause it may be."""

    cause: str
    says: str
    chance: float


class ComputedLine(TypedDict):
    """What was worked out instead of asked."""

    cause: str
    chance: float
    because: str


class NotAsked(TypedDict):
    """What was not asked, and why not."""

    sign: str
    cause: str
    because: str


class WhyAnswer(TypedDict):
    """What to do next about a lamp that is not well; dangers first."""

    lamp: str
    complaint: str
    events: list[dict[str, JsonValue]]
    gate: Gate
    closed: bool
    best: StepLine | None
    steps: list[StepLine]
    causes: list[CauseChance]
    worked_out: list[ComputedLine]
    not_asked: list[NotAsked]
    clash: list[dict[str, JsonValue]]
    plan: list[str]
    town: TownLine | None

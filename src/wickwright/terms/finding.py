"""What the program found out, as data; words come last.

A :class:`Finding` names a :class:`Rule` and carries the facts the rule's sentence needs.
Nothing below an edge puts them into words.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import IntEnum
from types import MappingProxyType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["Fact", "Finding", "Kind", "Quantity", "Range", "Rule", "Severity"]


class Severity(IntEnum):
    """How much a finding matters, mildest first."""

    GOOD = 0
    NOTE = 1
    CAUTION = 2
    UNKNOWN = 3
    FAULT = 4
    DANGER = 5


class Kind(IntEnum):
    """What a number measures; decides its units when it is printed."""

    LENGTH = 0
    MASS = 1
    ANGLE = 2
    POWER = 3
    MONEY = 4
    TEMPERATURE = 5
    ELEVATION = 6
    COUNT = 7
    PRESSURE = 8
    RATIO = 9
    SHARE = 10
    TIME = 11
    VOLUME = 12
    AREA = 13
    AIR_CHANGE = 14
    DISTANCE = 15
    LIGHT = 16
    MASS_FLOW = 17
    VOLUME_FLOW = 18
    SPEED = 19
    DRAFT = 20
    STRESS = 21


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number and what it measures.

    Attributes
    ----------
    value : float
        SI value: m, kg, rad, W, K, Pa, s, m2, m3, 1/s, lm, kg/s, m3/s, m/s; money in the
        book's smallest coin. A share is of the air's volume. A distance is a length that is
        kept, not made.
    kind : Kind
        What is measured.
    """

    value: float
    kind: Kind


@dataclass(frozen=True, slots=True)
class Range:
    """What is permitted: from ``low`` to ``high``, either end open when None."""

    low: float | None
    high: float | None
    kind: Kind


Fact = str | int | Quantity | Range | tuple[str, ...]
"""What a rule's sentence may be filled with."""


@dataclass(frozen=True, slots=True)
class Rule:
    """One thing the program checks.

    Attributes
    ----------
    key : str
        Short name, stable; what JSON output and tests name.
    title : str
        The rule in a few words.
    says : str
        The sentence of a finding, with ``{fact}`` in braces.
    why : str
        Why the rule is there, in words an adviser can read out.
    cure : str
        What mends it, with ``{fact}`` in braces.
    source : str
        Key of the bibliography.
    breaks : str
        What it would take to break the rule: the observation that would prove it wrong.
    """

    key: str
    title: str
    says: str
    why: str
    cure: str
    source: str
    breaks: str


_NO_FACTS: Mapping[str, Fact] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Finding:
    """One verdict with its reasons.

    Attributes
    ----------
    rule : str
        Key of the rule that speaks.
    severity : Severity
        How much it matters here.
    parts : tuple of str
        The parts concerned, by their id in the fit book.
    facts : mapping of str to Fact
        What fills the rule's sentence.
    measured, permitted : Quantity, Range or None
        The value found beside the range allowed.
    source : str
        Key of the bibliography; blank means the rule's own.
    """

    rule: str
    severity: Severity
    parts: tuple[str, ...] = ()
    facts: Mapping[str, Fact] = field(default_factory=lambda: _NO_FACTS)
    measured: Quantity | Range | None = None
    permitted: Range | None = None
    source: str = ""

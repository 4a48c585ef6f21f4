"""What a joint rule is given and what it answers."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType
from typing import TYPE_CHECKING, NamedTuple, Protocol

from wickwright.fit.clearance import Gap

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickwright.catalogue.records import Port

__all__ = ["ACCEPTED", "COLD", "Fit", "Gap", "Half", "Joined", "Joint", "Warmth"]


class Fit(StrEnum):
    """The verdict on a joint."""

    FITS = "fits"
    EFFORT = "fits with effort"
    LOOSE = "loose"
    BINDS_HOT = "will bind when hot"
    NOT = "does not fit"
    UNKNOWN = "not known"


ACCEPTED = frozenset({Fit.FITS, Fit.EFFORT})
"""Verdicts with which a lamp may leave the desk."""


@dataclass(frozen=True, slots=True)
class Half:
    """One side of a joint: the port and what it is made of."""

    port: Port
    material: str


@dataclass(frozen=True, slots=True)
class Warmth:
    """Temperature of both sides [K].

    Attributes
    ----------
    carrier, stander : float
        The carrying and the standing side.
    """

    carrier: float = 293.15
    stander: float = 293.15


COLD = Warmth()
"""Both sides at 20 °C, the reference temperature of ISO 1."""


_NO_WORDS: Mapping[str, str] = MappingProxyType({})


class Joined(NamedTuple):
    """The answer of a joint rule.

    A tuple, because one is made for each of the hundred thousand pairs of a large book, and a
    frozen dataclass takes three times as long.

    Attributes
    ----------
    fit : Fit
        The verdict.
    why : str
        Key of the reason, such as ``'clearance'``, ``'lugs'``, ``'pitch'``, ``'label'``.
    worst, likely : Gap or None
        Cold clearance as worst case and as statistical (RSS) interval.
    hot : Gap or None
        Worst-case clearance at the given temperatures.
    permitted : Gap or None
        What the rule allows cold without effort and without being loose.
    by_label : bool
        True when a size label was compared because a dimension is unknown.
    missing : tuple of str
        ``'carrier diameter'`` and the like: measurements that would settle it.
    words : mapping of str to str
        Compared words, such as ``{'carrier': 'right', 'stander': 'left'}``.
    likely_hot : Gap or None
        Statistical (RSS) clearance at the given temperatures, with the usual expansions.
    """

    fit: Fit
    why: str
    worst: Gap | None = None
    likely: Gap | None = None
    hot: Gap | None = None
    permitted: Gap | None = None
    by_label: bool = False
    missing: tuple[str, ...] = ()
    words: Mapping[str, str] = _NO_WORDS
    likely_hot: Gap | None = None


class Joint(Protocol):
    """One rule of the closed set."""

    @property
    def key(self) -> str:
        """Name used in the fit book."""

    @property
    def sketch(self) -> str:
        """A drawing in characters, with the sizes it reads."""

    @property
    def reads(self) -> tuple[str, ...]:
        """Columns of the two ports that it reads."""

    @property
    def source(self) -> str:
        """Key of the bibliography for the permitted range."""

    def judge(self, carrier: Half, stander: Half, warmth: Warmth = COLD) -> Joined:
        """Return the verdict for one pair of halves."""

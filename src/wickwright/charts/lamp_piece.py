"""An assembled lamp as data, before anything of it is drawn."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["Balance", "Piece", "Ring", "Section", "State", "Tip"]


class State(StrEnum):
    """What becomes of a part."""

    KEPT = "kept"
    NEW = "new"
    MISSING = "missing"
    ASIDE = "put aside"


class Ring(NamedTuple):
    """Where two parts meet: height above the part's own foot and radius [m]."""

    height: float
    radius: float


@dataclass(frozen=True, slots=True)
class Piece:
    """One part as it is drawn.

    Attributes
    ----------
    id, kind, label : str
        Part number, kind and name.
    foot, tall : float
        Height of its foot above the table, or above the foot of what hangs; its own height [m].
    state : State
        Whether it stays, is new, is missing or is put aside.
    known : bool
        False where its height is not in the book and is guessed.
    form : str
        Which of the shapes of its kind.
    by : Ring or None
        Where it stands on what carries it.
    takes : mapping of str to Ring
        Where it carries each kind of part.
    bore : float
        Radius of what is thinner higher up: the tube of a chimney, the web of a mantle [m].
    shoulder : float
        From the foot of a chimney to the middle of its shoulder [m]; 0 where not known.
    edge : float
        Radius of a round foot or of the circle through the feet [m].
    feet, lugs : int
        Number of feet; of lugs or grooves of a seat that turns.
    fuel : tuple of float or None
        Height of its bottom and of the full line above the font's foot, and radius [m].
    marks : frozenset of str
        What else is seen on it: ``cap``, ``tube``, ``slots``, ``holes``, ``pleats``, ``fringe``.
    """

    id: str
    kind: str
    label: str
    foot: float
    tall: float
    state: State = State.KEPT
    known: bool = True
    form: str = ""
    by: Ring | None = None
    takes: Mapping[str, Ring] = field(default_factory=dict)
    bore: float = 0.0
    shoulder: float = 0.0
    edge: float = 0.0
    feet: int = 0
    lugs: int = 0
    fuel: tuple[float, float, float] | None = None
    marks: frozenset[str] = frozenset()

    @property
    def top(self) -> float:
        """Height of its top above the table [m]."""
        return self.foot + self.tall


@dataclass(frozen=True, slots=True)
class Tip:
    """The slope at which the lamp tips.

    Attributes
    ----------
    reach, centre : float
        Axis to the nearest edge of the base; height of the centre of mass [m].
    angle, limit : float
        Slope at which it tips, and the slope it must stand on [rad].
    """

    reach: float
    centre: float
    angle: float
    limit: float


class Balance(NamedTuple):
    """Centre of mass at one filling: 0 empty to 1 full; height [m]."""

    fill: float
    centre: float


@dataclass(frozen=True, slots=True)
class Section:
    """All that is drawn.

    Attributes
    ----------
    title : str
        Name of the lamp.
    pieces, aside : tuple of Piece
        What is mounted; what is put aside, each with its foot at 0.
    balances : tuple of Balance
        Centres of mass, the one that tips first before the others.
    tip : Tip or None
        None where it cannot tip.
    note : str
        What else the reader must know.
    """

    title: str
    pieces: tuple[Piece, ...]
    aside: tuple[Piece, ...] = ()
    balances: tuple[Balance, ...] = ()
    tip: Tip | None = None
    note: str = ""

    def of_kind(self, kind: str) -> Piece | None:
        """Return the mounted piece of a kind, if there is one."""
        return next((it for it in self.pieces if it.kind == kind), None)

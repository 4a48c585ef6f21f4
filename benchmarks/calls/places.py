"""Where and how callers' lamps burn, and what the desk works out from it before it asks."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from wickwright.answers.flames.room_air import RoomPlan
from wickwright.answers.which_parts import request_of
from wickwright.answers.worked_out import Circumstances, worked_out
from wickwright.catalogue.records import Wish
from wickwright.fit.assemble import assemble
from wickwright.fit.request import situation
from wickwright.terms.units import Units

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.catalogue.records import Lamp
    from wickwright.cause.case import Computed
    from wickwright.cause.knowledge import Knowledge
    from wickwright.chance.arrays import Bools, Floats
    from wickwright.fit.compiled import Compiled

__all__ = ["Lives", "Place", "frequencies", "lives_at", "places"]

Place = tuple["Computed", ...]
"""What the desk works out of a place: the chance of some causes, each with its reason."""

KINDS = ("chimney", "mantle", "wick", "gallery")
TOLD, NAMED, FILLED, ROOM, ODD = 0.9, 0.4, 0.5, 0.3, 0.3
"""Shares of callers: who say where they live, name a part, know when they filled it, tell of the
room; and, before :func:`frequencies`, who have a part of another lamp on it [-]. All made up."""
_ROUNDS = 200


def _elevation(rng: np.random.Generator) -> float:
    """Draw the height above the sea [m]: most live low, some high."""
    low, high = ((0.0, 400.0), (400.0, 1500.0), (1500.0, 3000.0))[
        int(rng.choice(3, p=(0.7, 0.2, 0.1)))
    ]
    return float(rng.uniform(low, high))


def _where(rng: np.random.Generator) -> Circumstances:
    room = RoomPlan(float(rng.uniform(15.0, 90.0)), people=int(rng.integers(1, 5)))
    return Circumstances(
        _elevation(rng) if rng.random() < TOLD else None,
        float(rng.uniform(0.0, 14.0)) if rng.random() < FILLED else None,
        room if rng.random() < ROOM else None,
    )


def _named(compiled: Compiled, lamp: Lamp, rng: np.random.Generator) -> list[str]:
    """Draw the parts that the caller names: those it was sold with, or one of another lamp."""
    book = compiled.book
    have = {book.parts[p].kind: p for p in lamp.as_sold if book.parts[p].kind in KINDS}
    named = {kind: part for kind, part in have.items() if rng.random() < NAMED}
    if have and rng.random() < ODD:
        kind = str(rng.choice(list(have)))
        named[kind] = str(rng.choice([p.id for p in book.parts.values() if p.kind == kind]))
    return list(named.values())


def places(compiled: Compiled, lamp: str, many: int, rng: np.random.Generator) -> list[Place]:
    """Draw where and how a lamp may burn, and work out what the desk would.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    lamp : str
        Model number.
    many : int
        How many.
    rng : Generator
        Draws them.

    Returns
    -------
    list of tuple of Computed
        What is worked out at each.
    """
    record, found = compiled.book.lamps[lamp], []
    for _ in range(many):
        named = _named(compiled, record, rng)
        owned = situation(compiled, request_of(compiled, lamp, Wish("", "", ()), named)).owned
        found.append(
            worked_out(
                compiled,
                compiled.book.calls,
                record,
                assemble(owned, compiled.joiner),
                frozenset(named),
                _where(rng),
                Units(),
            )
        )
    return found


@dataclass(frozen=True, slots=True, eq=False)
class Lives:
    """Places laid out for one complaint of one lamp.

    Attributes
    ----------
    places : tuple of Place
        What is worked out at each about the causes that can make the complaint.
    prior : array
        Chance of each cause on a lamp at large (causes) [-].
    chance : array
        The same at each place (places, causes) [-]; as at large where nothing is worked out.
    weights : array
        How frequent each place is (places) [-].
    """

    places: tuple[Place, ...]
    prior: Floats
    chance: Floats
    weights: Floats

    @classmethod
    def of(cls, known: Knowledge, drawn: Sequence[Place]) -> Lives:
        """Lay places out for a complaint of the lamp they were drawn for."""
        able = {c.id: p for p, c in enumerate(known.causes) if known.links[p] > 0.0}
        here = tuple(tuple(one for one in place if one.cause in able) for place in drawn)
        chance = np.tile(known.net.prior, (len(drawn), 1))
        for row, place in enumerate(here):
            for one in place:
                chance[row, able[one.cause]] = one.chance
        return cls(here, known.net.prior, chance, frequencies(chance, known.net.prior))


def frequencies(chance: Floats, prior: Floats) -> Floats:
    """Return how frequent places are, if causes are as frequent over all as at large.

    Parameters
    ----------
    chance : array
        Chance of each cause at each place (places, causes) [-].
    prior : array
        Chance of each cause on a lamp at large (causes) [-].

    Returns
    -------
    array
        Weights that sum to 1 (places) [-]: those nearest to equal ones whose mean chance of each
        cause is the prior, as far as the places allow (iterative proportional fitting).
    """
    weights = np.full(len(chance), 1.0 / len(chance))
    for _ in range(_ROUNDS):
        for cause in np.flatnonzero((chance != prior).any(axis=0)):
            held, now = chance[:, cause], float(weights @ chance[:, cause])
            here = prior[cause]
            weights *= held * here / now + (1.0 - held) * (1.0 - here) / (1.0 - now)
    found: Floats = weights / weights.sum()
    return found


def lives_at(lives: Lives, faults: Bools, rng: np.random.Generator) -> Place:
    """Draw where somebody lives whose lamp has these causes.

    Parameters
    ----------
    lives : Lives
        Places for the complaint and lamp.
    faults : array
        Causes that hold (causes) [-].
    rng : Generator
        Draws it.

    Returns
    -------
    tuple of Computed
        What is worked out there. A place where a cause is likely is the likelier home of a lamp
        that has it: P(place | causes) goes as P(place) times chance/prior of those that hold and
        (1 - chance)/(1 - prior) of those that do not.
    """
    held = lives.chance / lives.prior
    free = (1.0 - lives.chance) / (1.0 - lives.prior)
    weights = lives.weights * np.where(faults, held, free).prod(axis=1)
    return lives.places[int(rng.choice(len(weights), p=weights / weights.sum()))]

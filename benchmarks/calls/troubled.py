"""Callers whose lamp burns badly: what is wrong with it, what they say of it, what an act does."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from wickwright.chance.evidence import NO, UNSURE, YES
from wickwright.chance.noisy_or import NoisyOr, set_weights, sign_given

if TYPE_CHECKING:
    from wickwright.cause.case import Computed
    from wickwright.cause.knowledge import Knowledge
    from wickwright.chance.arrays import Bools, Floats

__all__ = ["Caller", "Lamp", "as_it_is", "caller"]


@dataclass(frozen=True, slots=True, eq=False)
class Caller:
    """One caller; everything that chance decides is decided once and stays.

    Attributes
    ----------
    faults : array
        Causes that hold (causes) [-].
    complains, anyway : array, bool
        Causes whose link makes the complaint (causes) [-]; whether it is there without any.
    shows, appears : array
        Causes whose link makes each sign (signs, causes) [-]; signs there without any (signs).
    errs, wavers : array
        Signs answered the wrong way where they are there or not (signs, 2) [-]; signs the
        caller cannot tell (signs) [-].
    works : array
        Whether a remedy removes a cause (remedies, causes) [-].
    worked : tuple of Computed
        What the desk works out from where and how the lamp burns.
    """

    faults: Bools
    complains: Bools
    anyway: bool
    shows: Bools
    appears: Bools
    errs: Bools
    wavers: Bools
    works: Bools
    worked: tuple[Computed, ...] = ()


@dataclass(slots=True, eq=False)
class Lamp:
    """A caller's lamp as it is now: acts take causes away."""

    caller: Caller
    there: Bools

    @classmethod
    def of(cls, caller: Caller) -> Lamp:
        """Return the lamp as it was when the caller rang."""
        return cls(caller, caller.faults.copy())

    def says(self, sign: int) -> int:
        """Return the row of the answer: yes, no or 'don't know'."""
        who = self.caller
        if who.wavers[sign]:
            return UNSURE
        seen = bool(who.appears[sign] or (who.shows[sign] & self.there).any())
        return YES if seen != bool(who.errs[sign, int(not seen)]) else NO

    def treated(self, remedy: int) -> bool:
        """Do an act, light the lamp and look; return whether the complaint is gone."""
        self.there &= ~self.caller.works[remedy]
        return not (self.caller.anyway or (self.caller.complains & self.there).any())


def _off(chances: Floats, spread: float, rng: np.random.Generator) -> Floats:
    """Return chances moved by noise on their log-odds; 0 and 1 stay."""
    inside = (chances > 0.0) & (chances < 1.0)
    odds = np.where(inside, chances, 0.5)
    noise = spread * rng.standard_normal(chances.shape)
    moved = 1.0 / (1.0 + (1.0 - odds) / odds * np.exp(-noise))
    return np.where(inside, moved, chances)


def as_it_is(known: Knowledge, spread: float, rng: np.random.Generator) -> Knowledge:
    """Return what is true where the book's numbers are an expert's.

    Parameters
    ----------
    known : Knowledge
        What the book says.
    spread : float
        Standard deviation of the log-odds of priors and links about the book's; 0: the book is
        right.
    rng : Generator
        Draws the noise.

    Returns
    -------
    Knowledge
        For drawing callers from.
    """
    if not spread:
        return known
    net = known.net
    prior, links = _off(net.prior, spread, rng), _off(known.links, spread, rng)
    own = NoisyOr(prior, links[None, :], np.array([known.leak]))
    weights = set_weights(prior, known.sets) * sign_given(own, known.sets)[0]
    true = NoisyOr(prior, _off(net.links, spread, rng), net.leak)
    return replace(known, net=true, links=links, weights=weights / weights.sum())


def caller(known: Knowledge, rng: np.random.Generator) -> Caller:
    """Draw a caller with this complaint of this lamp.

    Parameters
    ----------
    known : Knowledge
        What is true of such lamps.
    rng : Generator
        Decides everything.

    Returns
    -------
    Caller
        Who errs the same way however often a question is asked.
    """
    faults = known.sets[rng.choice(len(known.sets), p=known.weights)]
    while True:
        complains = (rng.random(len(known.causes)) < known.links) & faults
        anyway = bool(rng.random() < known.leak)
        if anyway or complains.any():
            break
    signs = known.signs
    right = np.array([(sign.yes_right, sign.no_right) for sign in signs]).reshape(-1, 2)
    unsure = np.array([sign.unsure for sign in signs])
    return Caller(
        faults,
        complains,
        anyway,
        rng.random(known.net.links.shape) < known.net.links,
        rng.random(len(signs)) < known.net.leak,
        rng.random(right.shape) >= right,
        rng.random(len(signs)) < unsure,
        rng.random(known.cures.shape) < known.cures,
    )

"""Causes that make signs seen, each on its own: the noisy OR with a leak.

Convention: a link is the chance that its cause *alone*, without the leak, makes the sign seen, so
P(no sign | causes) = (1 - leak) times the product over the present causes of (1 - link).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from wickwright.chance.arrays import (
    Bools,
    Floats,
    chance_faults,
    fixed,
    refuse,
    shape_faults,
)

__all__ = ["NoisyOr", "quiet", "set_weights", "sign_given", "still_there"]


@dataclass(frozen=True, slots=True, eq=False)
class NoisyOr:
    """Independent causes and the signs they make seen.

    Attributes
    ----------
    prior : array
        Chance of each cause before anything is heard (causes) [-].
    links : array
        Chance that a cause alone makes a sign seen (signs, causes) [-].
    leak : array
        Chance that a sign is seen though none of the causes holds (signs) [-].

    Raises
    ------
    ChanceError
        For every shape that does not fit and every number that is no chance.
    """

    prior: Floats
    links: Floats
    leak: Floats

    def __post_init__(self) -> None:
        prior, links, leak = fixed(self.prior), fixed(self.links), fixed(self.leak)
        faults = shape_faults("prior", prior, (None,)) + shape_faults("leak", leak, (None,))
        faults = faults or shape_faults("links", links, (leak.size, prior.size))
        for name, values in (("prior", prior), ("links", links), ("leak", leak)):
            faults += chance_faults(name, values)
            object.__setattr__(self, name, values)
        refuse(faults)


def quiet(links: Floats, sets: Bools | Floats) -> Floats:
    """Return the chance that none of the present causes makes a sign seen.

    Parameters
    ----------
    links : array
        Chance that a cause alone does (..., causes) [-].
    sets : array
        Which causes hold (sets, causes) [-].

    Returns
    -------
    array
        Product over the present causes of 1 - link (..., sets) [-].
    """
    sure = links >= 1.0
    logs = np.log1p(-np.where(sure, 0.0, links))
    held = np.asarray(sets, dtype=np.float64)
    product: Floats = np.exp(logs @ held.T)
    if sure.any():
        product[(sure.astype(np.float64) @ held.T) > 0.0] = 0.0
    return product


def set_weights(prior: Floats, sets: Bools) -> Floats:
    """Return how probable each set of causes is before anything is heard.

    Parameters
    ----------
    prior : array
        Chance of each cause, independent of the others (causes) [-].
    sets : array
        Which causes hold (sets, causes) [-].

    Returns
    -------
    array
        Chances that sum to 1 over these sets (sets) [-].

    Raises
    ------
    ChanceError
        If the sets leave no weight: causes that are sure to hold, more of them than a set has.
    """
    weights: Floats = np.prod(np.where(sets, prior, 1.0 - prior), axis=1)
    total = float(weights.sum())
    if not total > 0.0:
        refuse(["No set of causes has any weight. Is a prior 0 or 1, or are the sets too small?"])
    return weights / total


def sign_given(net: NoisyOr, sets: Bools) -> Floats:
    """Return the chance of every sign under every set of causes.

    Parameters
    ----------
    net : NoisyOr
        Causes and signs.
    sets : array
        Which causes hold (sets, causes) [-].

    Returns
    -------
    array
        P(sign | set) (signs, sets) [-].

    Notes
    -----
    1 - (1 - leak) prod (1 - link), ``pearl1988``.
    """
    return 1.0 - (1.0 - net.leak)[:, None] * quiet(net.links, sets)


def still_there(
    links: Floats, leak: float, sets: Bools | Floats, cured: Floats, before: Floats | None = None
) -> Floats:
    """Return the chance that a complaint is still there after an act.

    Parameters
    ----------
    links : array
        Chance that a cause alone makes the complaint (causes) [-].
    leak : float
        Chance of the complaint with none of the causes [-]; no act cures it.
    sets : array
        Which causes held before anything was done (sets, causes) [-].
    cured : array
        Chance that the act removes each cause, 1 for a sure cure (..., causes) [-].
    before : array, optional
        Chance that each cause withstood the acts done so far, all of which failed
        (causes) [-]; 1 if left out.

    Returns
    -------
    array
        P(complaint after | complaint before, set) (..., sets) [-]; 1 for a set that
        cannot have made the complaint.

    Notes
    -----
    The noise is persistent, as ``breese1996`` calls for: a cause that did not make the complaint
    before the act does not begin to. So the chance is P(complaint | what is left) over
    P(complaint | what was there), each by the noisy OR; a cause removed with chance c leaves a
    link of l (1 - c).
    """
    there = links if before is None else links * before
    was = 1.0 - (1.0 - leak) * quiet(there, sets)
    now: Floats = 1.0 - (1.0 - leak) * quiet(there * (1.0 - cured), sets)
    return np.where(was > 0.0, now / np.where(was > 0.0, was, 1.0), 1.0)

"""Links and priors learned from closed cases, held back by what was believed before.

Only cases whose causes were confirmed are learned from; a case that was only talked about tells
more of what was asked than of what was wrong.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from wickwright.chance.arrays import (
    Bools,
    Floats,
    Ints,
    chance_faults,
    fixed,
    refuse,
    shape_faults,
)
from wickwright.chance.noisy_or import NoisyOr, quiet

__all__ = [
    "HIGH",
    "LOW",
    "STRENGTH",
    "Cases",
    "Responsibility",
    "beta_mean",
    "case_weights",
    "counts_for",
    "learned",
    "log_likelihood",
    "responsibilities",
]

STRENGTH = 10.0
"""Cases that the belief before counts for, a link or a prior [cases]: ``assumption``. With fewer,
fifty cases make a table worse than it was; with more, a thousand hardly move it."""
LOW, HIGH = 0.02, 0.98
"""Bounds of a learned link [-]: ``assumption``; no link becomes impossible or sure."""

_LEAST = 1e-4
_STEADY = 1e-12


@dataclass(frozen=True, slots=True, eq=False)
class Cases:
    """Closed cases.

    Attributes
    ----------
    causes : array
        Which causes were confirmed (cases, causes) [-].
    if_there, if_not : array
        P(what was answered | the sign is there), and | it is not (cases, signs) [-]; equal, such
        as both 1, where the sign was not asked after or 'don't know' told nothing.
    weight : array
        What each case counts for (cases) [cases]; 0 leaves it out.

    Raises
    ------
    ChanceError
        For every shape that does not fit and every number that is no chance.
    """

    causes: Bools
    if_there: Floats
    if_not: Floats
    weight: Floats

    def __post_init__(self) -> None:
        there, absent, weight = fixed(self.if_there), fixed(self.if_not), fixed(self.weight)
        faults = shape_faults("if_there", there, (len(self.causes), None))
        faults = faults or shape_faults("if_not", absent, there.shape)
        faults += shape_faults("weight", weight, (len(self.causes),))
        faults += chance_faults("if_there", there) + chance_faults("if_not", absent)
        faults += chance_faults("weight", weight)
        refuse(faults)
        for name, values in (("if_there", there), ("if_not", absent), ("weight", weight)):
            object.__setattr__(self, name, values)


@dataclass(frozen=True, slots=True, eq=False)
class Responsibility:
    """How often each link is expected to have acted, and how often it could have.

    Attributes
    ----------
    links, leak : array
        Expected times it made the sign seen (signs, causes) and (signs) [cases].
    link_trials, leak_trials : array
        Times it could have (signs, causes) and (signs) [cases].
    """

    links: Floats
    leak: Floats
    link_trials: Floats
    leak_trials: Floats


def beta_mean(before: Floats, strength: float | Floats, hits: Floats, trials: Floats) -> Floats:
    """Return a chance learned from counts and a belief before them.

    Parameters
    ----------
    before : array
        Mean of the belief before (any shape) [-].
    strength : float or array
        Cases it counts for [cases].
    hits, trials : array
        How often it happened, and could have (any shape) [cases].

    Returns
    -------
    array
        Mean of the Beta distribution after (any shape) [-].

    Notes
    -----
    (s m + hits)/(s + trials): Beta(s m, s (1 - m)) is conjugate to counting, ``gelman2013``. For
    shares of one whole the same is the mean of a Dirichlet distribution.
    """
    total = strength + trials
    mean: Floats = (strength * before + hits) / np.where(total > 0.0, total, 1.0)
    return np.where(total > 0.0, mean, before)


def counts_for(chance: Floats, strength: float, finds: float) -> Floats:
    """Return how many cases the belief in a chance counts for.

    Parameters
    ----------
    chance : array
        Mean of the belief (any shape) [-].
    strength : float
        Cases at least [cases].
    finds : float
        How often the thing has to be met before cases weigh as much as the belief [-].

    Returns
    -------
    array
        The greater of the strength and finds/chance (any shape) [cases]. What happens once in a
        hundred cases is not known from ten.
    """
    seldom = np.where(chance > 0.0, finds / np.where(chance > 0.0, chance, 1.0), 0.0)
    return np.maximum(strength, seldom)


def case_weights(age: Floats, kind: Ints, worth: Floats, half_life: float) -> Floats:
    """Return what each closed case counts for.

    Parameters
    ----------
    age : array
        Time since it was closed (cases) [same as the half life].
    kind : array
        How its cause was confirmed, a place in ``worth`` (cases) [-]; below 0 for not at all.
    worth : array
        What each kind of confirmation counts for, 0 to 1 (kinds) [cases].
    half_life : float
        Time in which a case comes to count half [any unit of time], above zero.

    Returns
    -------
    array
        Weights (cases) [cases]; 0 for a case that was not confirmed.

    Raises
    ------
    ChanceError
        If the half life is not above zero.
    """
    if not half_life > 0.0:
        refuse([f"A half life of {half_life:g} is none; it has to be above 0."])
    counted = np.where(kind >= 0, worth[np.maximum(kind, 0)], 0.0)
    fade: Floats = 0.5 ** (np.maximum(age, 0.0) / half_life)
    return counted * fade


def _present(net: NoisyOr, cases: Cases) -> Floats:
    """Return P(sign | confirmed causes) (cases, signs)."""
    return 1.0 - (1.0 - net.leak) * quiet(net.links, cases.causes).T


def _seen(present: Floats, cases: Cases) -> Floats:
    """Return P(sign | confirmed causes, answer) (cases, signs)."""
    there = present * cases.if_there
    all_ = there + (1.0 - present) * cases.if_not
    return np.where(all_ > 0.0, there / np.where(all_ > 0.0, all_, 1.0), present)


def responsibilities(net: NoisyOr, cases: Cases) -> Responsibility:
    """Return how much of what was seen each link is held to have made.

    Parameters
    ----------
    net : NoisyOr
        Links and leaks as believed now.
    cases : Cases
        Closed cases.

    Returns
    -------
    Responsibility
        Expected counts; a sign that nothing was said of counts neither as seen nor as a trial.

    Notes
    -----
    Given that a sign is seen, link k of a present cause acted with chance l_k/P(sign); given that
    it is not, none did (E-step for a noisy OR, ``vomlel2006``). Several may have acted at once, so
    these need not sum to 1.
    """
    present = _present(net, cases)
    told = (cases.if_there != cases.if_not) * cases.weight[:, None]
    rate = told * _seen(present, cases) / np.where(present > 0.0, present, 1.0)
    held = cases.causes.astype(np.float64)
    return Responsibility(
        net.links * (rate.T @ held),
        net.leak * rate.sum(axis=0),
        told.T @ held,
        told.sum(axis=0),
    )


def log_likelihood(net: NoisyOr, cases: Cases) -> float:
    """Return how well links and leaks explain the answers.

    Parameters
    ----------
    net : NoisyOr
        Links and leaks.
    cases : Cases
        Closed cases.

    Returns
    -------
    float
        Weighted sum of ln P(answer | confirmed causes) [nat].
    """
    present = _present(net, cases)
    chance = present * cases.if_there + (1.0 - present) * cases.if_not
    with np.errstate(divide="ignore"):
        logs = np.where(cases.weight[:, None] > 0.0, np.log(chance), 0.0)
    return float((logs * cases.weight[:, None]).sum())


def learned(
    before: NoisyOr,
    cases: Cases,
    *,
    strength: float = STRENGTH,
    finds: float = 0.0,
    floor: Floats | None = None,
    rounds: int = 200,
) -> NoisyOr:
    """Return priors, links and leaks after closed cases.

    Parameters
    ----------
    before : NoisyOr
        What was believed before the cases.
    cases : Cases
        Closed cases; those of weight 0 change nothing.
    strength : float
        Cases that the belief before counts for, each link and prior [cases].
    finds : float
        A prior or a leak counts for at least as many cases as it takes to meet it this often [-].
    floor : array, optional
        Least chance of each cause (causes) [-]; 1e-4 if left out, or the chance before where that
        is less. No cause is ever learned to zero.
    rounds : int
        Most rounds of expectation and maximisation [-].

    Returns
    -------
    NoisyOr
        The mean after, links within :data:`LOW` and :data:`HIGH`; a link or leak of 0 stays 0,
        and one that no case had a trial of stays as it was.

    Raises
    ------
    ChanceError
        If the strength is below zero.

    Notes
    -----
    EM for the noisy OR with a Beta belief on every link, the mean of the Beta after in place of its
    mode, so that a link may be learned to neither 0 nor 1.
    """
    if not strength >= 0.0:
        refuse([f"A strength of {strength:g} cases is none; it has to be at least 0."])
    net = before
    for _ in range(rounds):
        after = _round(before, net, cases, strength, finds)
        moved = float(np.max(np.abs(after.links - net.links), initial=0.0))
        net = after
        if moved < _STEADY:
            break
    held = counts_for(before.prior, strength, finds)
    return NoisyOr(_priors(before.prior, cases, held, floor), net.links, net.leak)


def _round(before: NoisyOr, net: NoisyOr, cases: Cases, strength: float, finds: float) -> NoisyOr:
    """Return links and leaks after one expectation and maximisation."""
    share = responsibilities(net, cases)
    links = beta_mean(before.links, strength, share.links, share.link_trials)
    held = counts_for(before.leak, strength, finds)
    leak = beta_mean(before.leak, held, share.leak, share.leak_trials)
    moved = (share.link_trials > 0.0) & (before.links > 0.0)
    links = np.where(moved, np.clip(links, LOW, HIGH), before.links)
    return NoisyOr(before.prior, links, leak)


def _priors(before: Floats, cases: Cases, strength: Floats, floor: Floats | None) -> Floats:
    """Return the chance of each cause after the cases, never below its floor."""
    hits = cases.weight @ cases.causes.astype(np.float64)
    total = np.full_like(before, cases.weight.sum())
    least = np.minimum(before, _LEAST) if floor is None else floor
    return np.maximum(beta_mean(before, strength, hits, total), least)

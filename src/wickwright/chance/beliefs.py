"""What is believed about enumerated hypotheses, and what to do when the answers clash."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from wickwright.chance.arrays import (
    Bools,
    ChanceError,
    Floats,
    Ints,
    refuse,
    shape_faults,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = [
    "Beliefs",
    "Contradiction",
    "ImpossibleEvidenceError",
    "clash",
    "combined",
    "entropy",
    "lifts",
]


class ImpossibleEvidenceError(ChanceError):
    """What was heard is impossible under every hypothesis that was left."""


@dataclass(frozen=True, slots=True)
class Contradiction:
    """Answers that no hypothesis allows together.

    Attributes
    ----------
    clash : tuple of int
        Which pieces of evidence: impossible together, and no longer so without any one of them.
    """

    clash: tuple[int, ...]


def entropy(chances: Floats) -> float:
    """Return how much is not known.

    Parameters
    ----------
    chances : array
        Chances that sum to 1 (classes) [-].

    Returns
    -------
    float
        Entropy [bit].

    Notes
    -----
    -sum p log2 p, ``shannon1948``.
    """
    held = chances[chances > 0.0]
    return float(-(held * np.log2(held)).sum()) + 0.0


@dataclass(frozen=True, slots=True, eq=False)
class Beliefs:
    """How probable each hypothesis is.

    Attributes
    ----------
    weights : array
        Any weights of at least 0 when it is made, chances that sum to 1 from then on
        (hypotheses) [-].

    Raises
    ------
    ChanceError
        If a weight is below zero or no number.
    ImpossibleEvidenceError
        If no weight is left.
    """

    weights: Floats

    def __post_init__(self) -> None:
        weights = np.asarray(self.weights, dtype=np.float64)
        faults = shape_faults("weights", weights, (None,))
        if not (weights >= 0.0).all() or np.isinf(weights).any():
            faults.append("A weight is below 0 or no finite number; weights are chances.")
        refuse(faults)
        most = float(weights.max(initial=0.0))
        if not most > 0.0:
            msg = (
                "No hypothesis is left with any weight: two of the answers clash, or one is wrong."
            )
            raise ImpossibleEvidenceError(msg)
        weights = weights / most
        weights /= weights.sum()
        weights.setflags(write=False)
        object.__setattr__(self, "weights", weights)

    def given(self, likelihood: Floats) -> Beliefs:
        """Return the beliefs after something was heard.

        Parameters
        ----------
        likelihood : array
            How probable it is under each hypothesis, up to a factor (hypotheses) [-].

        Returns
        -------
        Beliefs
            By Bayes' rule.

        Raises
        ------
        ImpossibleEvidenceError
            If no hypothesis allows it; :func:`clash` tells which answers do not go together.
        """
        return Beliefs(self.weights * likelihood)

    def share(self, groups: Ints) -> Floats:
        """Return the chance of each class of hypotheses.

        Parameters
        ----------
        groups : array
            Class of each hypothesis, from 0 (hypotheses) [-].

        Returns
        -------
        array
            Chances that sum to 1 (classes) [-].
        """
        return np.bincount(groups, weights=self.weights).astype(np.float64)

    def marginals(self, sets: Bools) -> Floats:
        """Return the chance of each cause.

        Parameters
        ----------
        sets : array
            Which causes each hypothesis holds (hypotheses, causes) [-].

        Returns
        -------
        array
            Chances, which need not sum to 1 (causes) [-].
        """
        return self.weights @ sets.astype(np.float64)

    @property
    def entropy(self) -> float:
        """How much is not known of the hypothesis [bit]."""
        return entropy(self.weights)


def combined(prior: Floats, likelihoods: Sequence[Floats]) -> Beliefs | Contradiction:
    """Return the beliefs after all of the evidence, or what in it clashes.

    Parameters
    ----------
    prior : array
        Weights before (hypotheses) [-].
    likelihoods : sequence of array
        One for each piece of evidence, up to a factor (hypotheses) [-].

    Returns
    -------
    Beliefs or Contradiction
        The order of the evidence does not matter. Summed in logarithms: many unlikely answers do
        not run out of numbers.
    """
    with np.errstate(divide="ignore"):
        logs = np.log(prior) + sum(np.log(row) for row in likelihoods)
    most = float(np.max(logs))
    if most == -np.inf:
        return Contradiction(clash(prior, likelihoods))
    return Beliefs(np.exp(logs - most))


def lifts(prior: Floats, likelihoods: Sequence[Floats]) -> Floats:
    """Return how much more probable two pieces of evidence are together than apart.

    Parameters
    ----------
    prior : array
        Weights before (hypotheses) [-].
    likelihoods : sequence of array
        One for each piece of evidence, up to a factor (hypotheses) [-].

    Returns
    -------
    array
        log2 of P(both) / (P(one) P(other)) (evidence, evidence) [bit]: -inf where they are
        impossible together, below zero where one makes the other less probable.
    """
    rows = np.stack(likelihoods).astype(np.float64)
    most = rows.max(axis=1, keepdims=True)
    rows /= np.where(most > 0.0, most, 1.0)
    weights = prior / prior.sum()
    both = (rows * weights) @ rows.T
    alone = rows @ weights
    with np.errstate(divide="ignore", invalid="ignore"):
        bits = np.log2(both) - np.log2(alone)[:, None] - np.log2(alone)[None, :]
    return np.where(np.isnan(bits), -np.inf, bits)


def clash(prior: Floats, likelihoods: Sequence[Floats]) -> tuple[int, ...]:
    """Return the pieces of evidence that do not go together.

    Parameters
    ----------
    prior : array
        Weights before (hypotheses) [-].
    likelihoods : sequence of array
        One for each piece of evidence, up to a factor (hypotheses) [-].

    Returns
    -------
    tuple of int
        If the evidence is impossible: one impossible piece, else the first impossible pair, else
        a set that is possible without any one of its members. If it is possible: the pair whose
        :func:`lifts` is lowest, or nothing where no pair makes each other less probable.
    """
    if not likelihoods:
        return ()
    allows = np.stack([np.asarray(row) > 0.0 for row in likelihoods]) & (prior > 0.0)
    if not allows.all(axis=0).any():
        return _impossible(allows)
    bits = lifts(prior, likelihoods)
    bits[np.tril_indices(len(bits))] = np.inf
    first, second = np.unravel_index(int(np.argmin(bits)), bits.shape)
    return (int(first), int(second)) if bits[first, second] < 0.0 else ()


def _impossible(allows: Bools) -> tuple[int, ...]:
    """Return a smallest clash of one or two, or one that cannot be made smaller."""
    counts = allows.astype(np.float64)
    together = np.triu(counts @ counts.T == 0.0)
    alone = np.flatnonzero(np.diag(together))
    if alone.size:
        return (int(alone[0]),)
    pairs = np.argwhere(together)
    if len(pairs):
        return (int(pairs[0][0]), int(pairs[0][1]))
    kept = list(range(len(allows)))
    for item in range(len(allows)):
        rest = [other for other in kept if other != item]
        if not allows[rest].all(axis=0).any():
            kept = rest
    return tuple(kept)

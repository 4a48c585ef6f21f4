"""What can be done about a complaint: acts, what they cost and cure, and the state of a repair."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from wickwright.chance.arrays import (
    Bools,
    Floats,
    Ints,
    chance_faults,
    cost_faults,
    fixed,
    refuse,
    shape_faults,
)
from wickwright.chance.noisy_or import quiet, still_there

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.chance.beliefs import Beliefs

__all__ = ["Acts", "Repair", "acts"]


@dataclass(frozen=True, slots=True, eq=False)
class Acts:
    """Acts of repair; each is followed by a look whether the complaint is gone.

    Attributes
    ----------
    cost : array
        Cost of each, the look included (acts) [min].
    cures : array
        Chance that an act removes a cause (acts, causes) [-]; an act may cure several causes, a
        cause may have several cures.
    cluster : array
        Cost cluster of each act (acts) [-]; -1 for none.
    entry : array
        Cost of opening each cluster (clusters) [min]: paid once for acts of it that are done
        together before one look, again after a look.

    Raises
    ------
    ChanceError
        For every shape that does not fit and every number that is no chance or no cost.
    """

    cost: Floats
    cures: Floats
    cluster: Ints
    entry: Floats

    def __post_init__(self) -> None:
        cost, cures, entry = fixed(self.cost), fixed(self.cures), fixed(self.entry)
        faults = shape_faults("cost", cost, (None,)) + cost_faults("cost", cost)
        faults += shape_faults("cures", cures, (cost.size, None)) + chance_faults("cures", cures)
        faults += shape_faults("entry", entry, (None,)) + cost_faults("entry", entry)
        if self.cluster.shape != cost.shape:
            faults.append(f"{cost.size} acts have {self.cluster.size} clusters; one each, or -1.")
        elif cost.size and not -1 <= self.cluster.min() <= self.cluster.max() < entry.size:
            faults.append(f"A cluster lies outside the {entry.size} that have an entry cost.")
        refuse(faults)
        for name, values in (("cost", cost), ("cures", cures), ("entry", entry)):
            object.__setattr__(self, name, values)

    def __len__(self) -> int:
        """How many acts there are."""
        return len(self.cost)


def acts(
    cost: Sequence[float] | Floats,
    cures: Sequence[Sequence[float]] | Floats,
    cluster: Sequence[int] | Ints | None = None,
    entry: Sequence[float] | Floats = (),
) -> Acts:
    """Return acts from plain lists.

    Parameters
    ----------
    cost : sequence of float
        Cost of each [min].
    cures : sequence of sequence of float
        Chance that each act removes each cause (acts, causes) [-].
    cluster : sequence of int, optional
        Cost cluster of each act [-]; none if left out.
    entry : sequence of float
        Cost of opening each cluster [min].

    Returns
    -------
    Acts
        The same, checked.
    """
    group = np.full(len(cost), -1) if cluster is None else np.asarray(cluster)
    return Acts(fixed(cost), fixed(cures), group.astype(np.intp), fixed(entry))


@dataclass(frozen=True, slots=True, eq=False)
class Repair:
    """A repair in hand: what is believed of the case as it was, and what has been tried since.

    Old answers stay true of the case as it was, so the hypotheses are the sets of causes that held
    *before* any act; what the acts removed is kept beside them.

    Attributes
    ----------
    beliefs : Beliefs
        After all that was heard, the complaint included once, and after all acts that failed.
    sets : array
        Which causes each hypothesis holds (sets, causes) [-].
    held : array
        The same as numbers (sets, causes) [-].
    links : array
        Chance that a cause alone makes the complaint (causes) [-].
    leak : float
        Chance of the complaint with none of the causes [-]; no act cures it.
    left : array
        Chance that each cause withstood the acts done so far (causes) [-].
    done : array
        Acts not to be done, or done again (acts) [-].
    inside : int
        Cost cluster that is open now [-]; -1 for none.
    """

    beliefs: Beliefs
    sets: Bools
    held: Floats
    links: Floats
    leak: float
    left: Floats
    done: Bools
    inside: int = -1

    @classmethod
    def begun(cls, beliefs: Beliefs, sets: Bools, links: Floats, leak: float, acts: Acts) -> Repair:
        """Return a repair in which nothing has been tried.

        Parameters
        ----------
        beliefs : Beliefs
            After all that was heard, the complaint included once.
        sets : array
            Which causes each hypothesis holds (sets, causes) [-].
        links : array
            Chance that a cause alone makes the complaint (causes) [-].
        leak : float
            Chance of the complaint with none of the causes [-].
        acts : Acts
            What can be done.

        Returns
        -------
        Repair
            With every act open.

        Raises
        ------
        ChanceError
            For every shape that does not fit and every number that is no chance.
        """
        links = fixed(links)
        causes = sets.shape[1]
        faults = shape_faults("links", links, (causes,)) + chance_faults("links", links)
        faults += chance_faults("leak", np.atleast_1d(np.float64(leak)))
        faults += shape_faults("acts.cures", acts.cures, (len(acts), causes))
        faults += shape_faults("beliefs", beliefs.weights, (len(sets),))
        refuse(faults)
        return cls(
            beliefs, sets, fixed(sets), links, leak, np.ones(causes), np.zeros(len(acts), np.bool_)
        )

    def given(self, likelihood: Floats, inside: int | None = None) -> Repair:
        """Return the repair after something was heard of the case as it was before any act.

        Parameters
        ----------
        likelihood : array
            How probable it is under each hypothesis (sets) [-].
        inside : int, optional
            Cost cluster that is open now [-]; as before if left out.

        Returns
        -------
        Repair
            With the new beliefs.
        """
        where = self.inside if inside is None else inside
        return replace(self, beliefs=self.beliefs.given(likelihood), inside=where)

    def gone_after(self, acts: Acts) -> Floats:
        """Return the chance that each act would make the complaint go.

        Parameters
        ----------
        acts : Acts
            What can be done.

        Returns
        -------
        array
            P(gone) of each act done next (acts) [-]; 0 for one that may not be done.
        """
        still = still_there(self.links, self.leak, self.held, acts.cures, self.left)
        return np.where(self.done, 0.0, 1.0 - still @ self.beliefs.weights)

    def behind(self) -> Floats:
        """Return the chance that each cause makes the complaint now.

        Returns
        -------
        array
            P(the cause is there and makes the complaint) (causes) [-]: no more than that it is
            there, for what is there need not be what is complained of. They need not sum to 1:
            two causes may make it, or none.

        Notes
        -----
        A cause makes the complaint with the chance of its link, and where it does the complaint is
        there: P(it makes it | complaint, set) = link / P(complaint | set), by ``pearl1988``.
        """
        there = self.links * self.left
        possible = 1.0 - (1.0 - self.leak) * quiet(there, self.held)
        share = self.beliefs.weights / np.where(possible > 0.0, possible, np.inf)
        return np.minimum(there * (share @ self.held), 1.0)

    def failed(self, acts: Acts, *done: int) -> Repair:
        """Return the repair after acts that did not make the complaint go.

        Parameters
        ----------
        acts : Acts
            What can be done.
        *done : int
            Which of them were done, with one look after the last [-].

        Returns
        -------
        Repair
            The complaint persists, so what they cure is the less probable; the cluster is closed.

        Raises
        ------
        ImpossibleEvidenceError
            If the acts were sure to make it go.
        """
        keep = np.prod(1.0 - acts.cures[list(done)], axis=0)
        still = still_there(self.links, self.leak, self.held, 1.0 - keep, self.left)
        shut = self.done.copy()
        shut[list(done)] = True
        return replace(
            self,
            beliefs=self.beliefs.given(still),
            left=self.left * keep,
            done=shut,
            inside=-1,
        )

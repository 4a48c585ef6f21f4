"""What the book knows about one complaint of one lamp, laid out for inference."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from wickwright.catalogue.call_records import BENCH
from wickwright.chance.fault_sets import fault_sets
from wickwright.chance.noisy_or import NoisyOr, set_weights, sign_given

if TYPE_CHECKING:
    from collections.abc import Collection

    from wickwright.catalogue.call_records import CallBook, Cause, Complaint, Remedy, Sign
    from wickwright.chance.arrays import Bools, Floats

__all__ = ["FAULTS", "Knowledge", "NothingKnownError", "causes_on", "knowledge_of"]


FAULTS = 0.3
"""Causes a lamp at large has on average [-]: ``assumption``. Of lamps that are complained of,
about one in seven then has more than one."""


class NothingKnownError(LookupError):
    """The book has nothing on this complaint of this lamp; the message says what to do."""


@dataclass(frozen=True, slots=True, eq=False)
class Knowledge:
    """One complaint of one lamp.

    Attributes
    ----------
    complaint : Complaint
        What is complained of. Its sign is known to be there and is not among ``signs``.
    causes, signs, remedies : tuple
        Those that apply to this lamp, in the order of the book.
    net : NoisyOr
        Causes and signs (the complaint's own sign is left out).
    links : array
        Chance that a cause alone makes the complaint (causes) [-].
    leak : float
        Chance of the complaint with none of the causes, on a lamp at large [-].
    cures : array
        Chance that a remedy removes a cause (remedies, causes) [-].
    sets : array
        Which causes hold, set by set (sets, causes) [-].
    weights : array
        Chance of each set, given the complaint (sets) [-].
    """

    complaint: Complaint
    causes: tuple[Cause, ...]
    signs: tuple[Sign, ...]
    remedies: tuple[Remedy, ...]
    net: NoisyOr
    links: Floats
    leak: float
    cures: Floats
    sets: Bools
    weights: Floats


def _applies(needs: Collection[str], kinds: Collection[str]) -> bool:
    return set(needs) <= set(kinds)


def causes_on(calls: CallBook, kinds: Collection[str], family: str) -> tuple[Cause, ...]:
    """Return what can be wrong with a lamp of a make-up.

    Parameters
    ----------
    calls : CallBook
        The call tables of the book.
    kinds : collection of str
        Kinds of part the lamp has, or was sold with.
    family : str
        Key of its family.

    Returns
    -------
    tuple of Cause
        In the order of the book.
    """
    return tuple(
        cause
        for cause in calls.causes.values()
        if _applies(cause.needs, kinds) and (not cause.families or family in cause.families)
    )


def _links(calls: CallBook, causes: tuple[Cause, ...], signs: tuple[Sign, ...]) -> Floats:
    """Return the strength of each cause for each sign (signs, causes) [-]."""
    rows = {sign.id: place for place, sign in enumerate(signs)}
    columns = {cause.id: place for place, cause in enumerate(causes)}
    table = np.zeros((len(signs), len(causes)))
    for show in calls.shows:
        if show.sign in rows and show.cause in columns:
            table[rows[show.sign], columns[show.cause]] = show.strength
    return table


def _cures(calls: CallBook, remedies: tuple[Remedy, ...], causes: tuple[Cause, ...]) -> Floats:
    rows = {remedy.id: place for place, remedy in enumerate(remedies)}
    columns = {cause.id: place for place, cause in enumerate(causes)}
    table = np.zeros((len(remedies), len(causes)))
    for cure in calls.cures:
        if cure.remedy in rows and cure.cause in columns:
            table[rows[cure.remedy], columns[cure.cause]] = cure.sure
    return table


def _remedies(calls: CallBook, causes: tuple[Cause, ...]) -> tuple[Remedy, ...]:
    """Return the remedies that cure any of the causes, but for the bench, which cures all."""
    held = {cause.id for cause in causes}
    useful = {cure.remedy for cure in calls.cures if cure.cause in held} - {BENCH}
    return tuple(remedy for remedy in calls.remedies.values() if remedy.id in useful)


def knowledge_of(
    calls: CallBook,
    kinds: Collection[str],
    family: str,
    complaint: str,
    most: int = 3,
    faults: float = FAULTS,
) -> Knowledge:
    """Lay out what the book knows about one complaint of one lamp.

    Parameters
    ----------
    calls : CallBook
        The call tables of the book.
    kinds : collection of str
        Kinds of part the lamp has, or was sold with.
    family : str
        Key of its family.
    complaint : str
        Key of the complaint.
    most : int
        Causes that may hold at once [-].
    faults : float
        Causes a lamp at large has on average [-].

    Returns
    -------
    Knowledge
        Conditioned on the complaint, once.

    Raises
    ------
    NothingKnownError
        If the complaint is not in the book, or nothing in it can cause it on this lamp.
    """
    if complaint not in calls.complaints:
        held = ", ".join(calls.complaints) or "none"
        msg = f"There is no complaint '{complaint}' in the book. It has: {held}."
        raise NothingKnownError(msg)
    causes = causes_on(calls, kinds, family)
    own = calls.signs[calls.complaints[complaint].sign]
    links = _links(calls, causes, (own,))[0]
    if not links.any() or not _applies(own.needs, kinds):
        msg = (
            f"Nothing in the book makes a lamp of this make-up show '{own.says}'. "
            "Add the cause to the tables causes and shows, or hand the call to the bench."
        )
        raise NothingKnownError(msg)
    return _laid_out(calls, kinds, causes, complaint, most, faults)


def _at_large(causes: tuple[Cause, ...], faults: float) -> float:
    """Return how much seldomer a lamp at large has a cause than one complained of [-].

    The book's weights are shares of the lamps that are complained of. A lamp at large has each in
    the same proportion and all of them seldom, so that one alone mostly makes the complaint. That
    a complaint is there with none of the causes is as much seldomer: otherwise nothing at all
    would be behind every third call.
    """
    return faults / max(sum(cause.weight for cause in causes), faults)


def _laid_out(
    calls: CallBook,
    kinds: Collection[str],
    causes: tuple[Cause, ...],
    complaint: str,
    most: int,
    faults: float,
) -> Knowledge:
    own = calls.signs[calls.complaints[complaint].sign]
    every = (s for s in calls.signs.values() if s is not own and _applies(s.needs, kinds))
    links = _links(calls, causes, all_ := tuple(every))
    kept = [bool(row.any()) for row in links]
    signs = tuple(sign for sign, keep in zip(all_, kept, strict=True) if keep)
    large = _at_large(causes, faults)
    prior = np.minimum(np.array([cause.weight for cause in causes]) * large, 0.5)
    leak = own.anyway * large
    net = NoisyOr(prior, links[kept], np.array([sign.anyway for sign in signs]))
    complained = NoisyOr(prior, _links(calls, causes, (own,)), np.array([leak]))
    sets = fault_sets(len(causes), min(most, len(causes)))
    weights = set_weights(prior, sets) * sign_given(complained, sets)[0]
    remedies = _remedies(calls, causes)
    return Knowledge(
        complaint=calls.complaints[complaint],
        causes=causes,
        signs=signs,
        remedies=remedies,
        net=net,
        links=complained.links[0],
        leak=leak,
        cures=_cures(calls, remedies, causes),
        sets=sets,
        weights=weights / weights.sum(),
    )

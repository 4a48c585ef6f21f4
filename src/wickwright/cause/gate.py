"""Safety comes before the arithmetic: what stands between a case and any step with a flame.

A :class:`Step` is made without knowing of dangers; only what the gate lets through is offered.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol, TypeVar

from wickwright.cause.case import Answer, Cleared, Danger, Said, Spoken
from wickwright.cause.dangers import GUARDS

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wickwright.catalogue.call_records import CallBook
    from wickwright.cause.case import Case, Event
    from wickwright.cause.dangers import Guard

__all__ = ["Gate", "MayBurn", "gate_of"]


class MayBurn(Protocol):
    """Anything that could be done with a lamp."""

    @property
    def lit(self) -> bool:
        """True if the lamp burns during it or is lit after it."""


Step = TypeVar("Step", bound=MayBurn)


@dataclass(frozen=True, slots=True)
class Gate:
    """Whether a lamp may burn, and what is still to be asked or done about it.

    Attributes
    ----------
    unasked : tuple of Guard
        Dangers nobody has asked about yet: first those that somebody's words speak of, then the
        others of such a lamp; the gravest first.
    shut : tuple of Guard
        Dangers found and not cleared, gravest first.
    spoken : tuple of Spoken
        What was said of a danger and not asked about yet.
    """

    unasked: tuple[Guard, ...]
    shut: tuple[Guard, ...]
    spoken: tuple[Spoken, ...] = ()

    @property
    def open(self) -> bool:
        """True when every danger has been asked about and none is left."""
        return not self.unasked and not self.shut

    @property
    def stops(self) -> tuple[Guard, ...]:
        """What the caller is told to stop for now: dangers found, or said beyond doubt."""
        sure = {one.danger for one in self.spoken if one.sure}
        return tuple(one for one in GUARDS.values() if one in self.shut or one.danger in sure)

    @property
    def bench(self) -> bool:
        """True when a danger is there that no telephone call can clear."""
        return any(not guard.clears for guard in self.shut)

    def lets(self, steps: Iterable[Step]) -> tuple[Step, ...]:
        """Return the steps that may be offered: none that needs a flame unless all is clear.

        Parameters
        ----------
        steps : iterable of Step
            Best first.

        Returns
        -------
        tuple of Step
            In the same order.
        """
        return tuple(step for step in steps if self.open or not step.lit)


def _standing(event: Event, calls: CallBook) -> tuple[str, bool]:
    """Return the danger an event speaks of, and whether it may be there."""
    match event:
        case Danger(danger, said):
            return danger, said is not Said.NO
        case Answer(sign, said) if said is not Said.NO and sign in calls.signs:
            return calls.signs[sign].danger, True
        case Cleared(danger) if danger in GUARDS:
            return danger, not GUARDS[danger].clears
        case _:
            return "", False


def _complained_of(case: Case, calls: CallBook) -> str:
    """Return the danger that the complaint itself is; blank where it is none."""
    complaint = calls.complaints.get(case.complaint)
    return calls.signs[complaint.sign].danger if complaint else ""


def gate_of(case: Case, calls: CallBook) -> Gate:
    """Read a case for dangers.

    Parameters
    ----------
    case : Case
        The case as it stands.
    calls : CallBook
        The call tables of the book, with the signs that do not suit this lamp.

    Returns
    -------
    Gate
        A danger counts as there from the first yes until it is cleared; 'don't know' counts
        as there, because not knowing is no reason to light a lamp. What no call can clear
        stays for the rest of the case. One that is not asked about such a lamp counts all the
        same where it is said, and one that the complaint itself is needs no asking. One that
        somebody's words speak of is asked about for these words, also where it was asked before.
    """
    own = _complained_of(case, calls)
    found = {own: True} if own in GUARDS else {}
    said: list[Spoken] = []
    for event in case.events:
        if isinstance(event, Spoken):
            said += [event] if event.danger in GUARDS else []
            continue
        danger, there = _standing(event, calls)
        if danger in GUARDS:
            stays = found.get(danger, False) and not isinstance(event, Cleared)
            found[danger] = stays or there
            said = [one for one in said if one.danger != danger]
    return _gate(case, found, said)


def _gate(case: Case, found: dict[str, bool], said: list[Spoken]) -> Gate:
    """Lay out what was found, and what was said after it was last asked about."""
    shut = tuple(guard for key, guard in GUARDS.items() if found.get(key))
    asked = tuple(one for one in said if not found.get(one.danger))
    spoken = {one.danger for one in asked}
    first = tuple(guard for key, guard in GUARDS.items() if key in spoken)
    others = tuple(
        guard
        for key, guard in GUARDS.items()
        if key not in found
        and key not in spoken
        and ((case.flame and guard.flame) or (case.bulb and guard.bulb))
    )
    return Gate((*first, *others), shut, asked)

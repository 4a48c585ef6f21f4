"""Safety comes before the arithmetic: what stands between a case and any step with a flame.

A :class:`Step` is made without knowing of dangers; only what the gate lets through is offered.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol, TypeVar

from wickwright.cause.case import Answer, Cleared, Danger, Said
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
        Dangers of such a lamp nobody has asked about yet, gravest first.
    shut : tuple of Guard
        Dangers found and not cleared, gravest first.
    """

    unasked: tuple[Guard, ...]
    shut: tuple[Guard, ...]

    @property
    def open(self) -> bool:
        """True when every danger has been asked about and none is left."""
        return not self.unasked and not self.shut

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
        same where it is said, and one that the complaint itself is needs no asking.
    """
    own = _complained_of(case, calls)
    found = {own: True} if own in GUARDS else {}
    for event in case.events:
        danger, there = _standing(event, calls)
        if danger in GUARDS:
            stays = found.get(danger, False) and not isinstance(event, Cleared)
            found[danger] = stays or there
    return Gate(
        unasked=tuple(
            guard
            for key, guard in GUARDS.items()
            if key not in found and ((case.flame and guard.flame) or (case.bulb and guard.bulb))
        ),
        shut=tuple(guard for key, guard in GUARDS.items() if found.get(key)),
    )

"""What a room's spent air does to the flames in it, as data."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickwright.room.evening import who
from wickwright.terms.finding import Fact, Finding, Kind, Quantity, Range, Severity

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickwright.room.evening import Evening

__all__ = ["DIM", "carbon_finding", "dimmed_finding", "out_finding"]

DIM: Final = 0.85
"""Least share of its light in fresh air at which a lamp is not called dimmed [-];
``assumption``."""
_WORTH_SAYING = -0.005


def _facts(evening: Evening) -> dict[str, Fact]:
    return {"sources": who(evening), "duration": Quantity(evening.duration, Kind.TIME)}


def dimmed_finding(evening: Evening, share: float, fuel: float) -> Finding:
    """Say how much light the room's air leaves.

    Parameters
    ----------
    evening : Evening
        What goes on.
    share : float
        Light at the end over that at the start [-].
    fuel : float
        Fuel one lamp then burns [kg/s].

    Returns
    -------
    Finding
        A caution below :data:`DIM`.
    """
    return Finding(
        "room-flame-dims",
        Severity.CAUTION if share < DIM else Severity.GOOD,
        facts={**_facts(evening), "fuel": Quantity(fuel, Kind.MASS_FLOW)},
        measured=Quantity(share, Kind.RATIO),
        permitted=Range(DIM, None, Kind.RATIO),
    )


def carbon_finding(
    evening: Evening, times: Sequence[float], margins: Sequence[float]
) -> Iterator[Finding]:
    """Say when a lamp that is left as it was set runs short of air.

    Parameters
    ----------
    evening : Evening
        What goes on.
    times : sequence of float
        Since the lamps were lit [s].
    margins : sequence of float
        Air to spare above the least that burns clean, at these times [-].

    Yields
    ------
    Finding
        A fault, where the air falls short.
    """
    short = [when for when, margin in zip(times, margins, strict=True) if margin < _WORTH_SAYING]
    if short:
        yield Finding(
            "room-flame-carbon",
            Severity.FAULT,
            facts={**_facts(evening), "passed": Quantity(short[0], Kind.TIME)},
            measured=Quantity(-min(margins), Kind.RATIO),
            permitted=Range(None, 0.0, Kind.RATIO),
        )


def out_finding(evening: Evening, when: float, oxygen: float) -> Finding:
    """Say that the flames go out for want of oxygen.

    Parameters
    ----------
    evening : Evening
        What goes on.
    when : float
        Time since the lamps were lit [s].
    oxygen : float
        Oxygen of dry air at which they do [-].

    Returns
    -------
    Finding
        A danger: people are in trouble long before.
    """
    return Finding(
        "room-flame-out",
        Severity.DANGER,
        facts={**_facts(evening), "least": Quantity(oxygen, Kind.SHARE)},
        measured=Quantity(when, Kind.TIME),
    )

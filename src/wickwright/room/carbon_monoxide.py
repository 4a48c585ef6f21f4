"""Carbon monoxide: never foretold as a fact.

No published figure was found for a lamp of this kind. What follows from an assumption is
shown as an assumption, with both its ends, and the advice is the same whatever it says: have
an alarm.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickwright.room.box import share_after
from wickwright.room.checks import Bound, demand

if TYPE_CHECKING:
    from wickwright.room.air import Room

__all__ = ["ASSUMED_YIELD", "Assumed", "assumed_band", "share_of_yield"]

_MOLAR_MASS: Final = 0.0280101  # kg/mol


@dataclass(frozen=True, slots=True)
class Assumed:
    """A band that is assumed and not measured.

    Attributes
    ----------
    low, high : float
        Its two ends.
    unit : str
        Unit of the ends.
    source : str
        Key of the bibliography.
    says : str
        What it stands for.
    """

    low: float
    high: float
    unit: str
    source: str
    says: str


ASSUMED_YIELD: Final = Assumed(
    0.3e-3,
    30e-3,
    "kg/kg",
    "assumption",
    "carbon monoxide for each kilogram of kerosene, from a clean full flame to a starved or "
    "carboned one; no measurement of a lamp was found",
)
"""Assumed, a hundredfold wide on purpose."""


def share_of_yield(room: Room, fuel: float, produced: float, time: float) -> float:
    """Return the carbon monoxide of a room for an assumed yield.

    Parameters
    ----------
    room : Room
        The room.
    fuel : float
        Fuel burnt by all lamps [kg/s].
    produced : float
        Carbon monoxide for each kilogram of fuel [kg/kg].
    time : float
        Time since the lamps were lit [s].

    Returns
    -------
    float
        Share of the air, over what comes in from outside [-].

    Raises
    ------
    RoomError
        When fuel or yield is below zero.

    Notes
    -----
    :func:`~wickwright.room.box.share_after`, ``box``.
    """
    demand(
        Bound("fuel burnt", fuel, 0.0, 1.0, "kg/s", "Add up the lamps that burn"),
        Bound("yield of carbon monoxide", produced, 0.0, 2.0, "kg/kg", "A gram is 0.001"),
    )
    source = fuel * produced / _MOLAR_MASS * room.molar_volume / room.volume
    return share_after(start=0.0, outside=0.0, source=source, change=room.change, time=time)


def assumed_band(room: Room, fuel: float, time: float) -> tuple[float, float]:
    """Return the ends of what the assumption allows.

    Parameters
    ----------
    room : Room
        The room.
    fuel : float
        Fuel burnt by all lamps [kg/s].
    time : float
        Time since the lamps were lit [s].

    Returns
    -------
    tuple of float
        Least and most share of the air [-], from :data:`ASSUMED_YIELD`.
    """
    return (
        share_of_yield(room, fuel, ASSUMED_YIELD.low, time),
        share_of_yield(room, fuel, ASSUMED_YIELD.high, time),
    )

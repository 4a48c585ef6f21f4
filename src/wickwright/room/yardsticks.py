"""What the fuel-gas code asks of a room with an unvented gas appliance.

These rules were written for gas appliances and not for lamps: nothing in them makes a lamp
safe or lawful. They are shown so that a caller has a figure to hold a room against.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from wickwright.room.checks import Bound, demand

__all__ = [
    "KNOWN_CHANGE_CAP",
    "NOT_FOR_LAMPS",
    "STANDARD_LEAST_CHANGE",
    "Yardsticks",
    "known_rate_volume",
    "opening_to_indoors",
    "opening_to_outdoors",
    "standard_volume",
    "yardsticks",
]

NOT_FOR_LAMPS: Final = (
    "This rule was written for gas appliances, not for lamps: a yardstick, not a permit"
)
STANDARD_LEAST_CHANGE: Final = 0.40 / 3600.0
"""The standard method may not be used in a room known to change less air [1/s]; ``nfpa54``."""
KNOWN_CHANGE_CAP: Final = 0.60 / 3600.0
"""The known-rate method counts no more air changes than this [1/s]; ``nfpa54``."""

_BTU = 1055.05585262 / 3600.0  # W in a Btu/h
_FOOT3 = 0.3048**3
_INCH2 = 0.0254**2
_STANDARD = 50.0 * _FOOT3 / (1000.0 * _BTU)
_LEAST_INDOOR = 100.0 * _INCH2


def standard_volume(heat: float) -> float:
    """Return the room asked for where the air change is not known.

    Parameters
    ----------
    heat : float
        Heat of all appliances in the room [W].

    Returns
    -------
    float
        Volume [m3].

    Notes
    -----
    50 cubic feet for 1000 Btu/h, ``nfpa54``.
    """
    return _STANDARD * heat


def known_rate_volume(heat: float, change: float, *, fan: bool = False) -> float:
    """Return the room asked for where the air change is known.

    Parameters
    ----------
    heat : float
        Heat of all appliances in the room [W].
    change : float
        Air changes, of which the code counts 0.60 an hour at most [1/s].
    fan : bool
        Whether a fan helps the appliance; no lamp has one.

    Returns
    -------
    float
        Volume [m3].

    Raises
    ------
    RoomError
        When the air change is not above zero.

    Notes
    -----
    21 cubic feet over the air changes an hour for 1000 Btu/h, 15 with a fan, ``nfpa54``.
    """
    demand(
        Bound(
            "air change", change * 3600.0, 1e-6, 100.0, "an hour", "Measure it, or ask without it"
        )
    )
    counted = min(change, KNOWN_CHANGE_CAP) * 3600.0
    return (15.0 if fan else 21.0) / counted * heat / (1000.0 * _BTU) * _FOOT3


def opening_to_indoors(heat: float) -> float:
    """Return each of the two openings asked for between rooms, without the least size.

    Parameters
    ----------
    heat : float
        Heat of all appliances in the room [W].

    Returns
    -------
    float
        Area of each opening, one high and one low; the code asks 100 square inches at least
        [m2].

    Notes
    -----
    1 square inch for 1000 Btu/h, ``nfpa54``.
    """
    return heat / (1000.0 * _BTU) * _INCH2


def opening_to_outdoors(heat: float) -> float:
    """Return each of the two openings asked for straight to outdoors.

    Parameters
    ----------
    heat : float
        Heat of all appliances in the room [W].

    Returns
    -------
    float
        Area of each opening, one high and one low [m2].

    Notes
    -----
    1 square inch for 4000 Btu/h, ``nfpa54-outdoor``.
    """
    return heat / (4000.0 * _BTU) * _INCH2


@dataclass(frozen=True, slots=True)
class Yardsticks:
    """A room held against the fuel-gas code.

    Attributes
    ----------
    standard : float or None
        Volume by the standard method [m3]; None where the code forbids the method because
        the room changes less than 0.40 an hour.
    known_rate : float or None
        Volume by the known air change [m3]; None for a sealed room.
    indoors : float
        Each of two openings to another room by the heat [m2].
    indoors_least : float
        The least the code lets such an opening be [m2].
    outdoors : float
        Each of two openings to outdoors by the heat [m2].
    """

    standard: float | None
    known_rate: float | None
    indoors: float
    indoors_least: float
    outdoors: float


def yardsticks(heat: float, change: float) -> Yardsticks:
    """Hold the lamps of a room against the fuel-gas code.

    Parameters
    ----------
    heat : float
        Heat of all lamps in the room [W].
    change : float
        Air changes of the room [1/s].

    Returns
    -------
    Yardsticks
        With :data:`NOT_FOR_LAMPS` to be said beside them.

    Raises
    ------
    RoomError
        When the heat or the air change is below zero.
    """
    demand(
        Bound("heat of the lamps", heat, 0.0, math.inf, "W", "Add up the lamps that burn"),
        Bound("air change", change * 3600.0, 0.0, 100.0, "an hour", "Zero is a sealed room"),
    )
    standard = None if change < STANDARD_LEAST_CHANGE * (1.0 - 1e-9) else standard_volume(heat)
    known = known_rate_volume(heat, change) if change > 0.0 else None
    return Yardsticks(
        standard, known, opening_to_indoors(heat), _LEAST_INDOOR, opening_to_outdoors(heat)
    )

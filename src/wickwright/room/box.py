"""One gas in one well-mixed box: the law every gas of a room follows at steady rates.

V dC/dt = n V (Co - C) + S. The air that leaves is taken to be as much as comes in: what
burning adds to the number of molecules is left out. For one lamp in a small room this reads
the fall of oxygen about 0.05 % of the air too small; a test holds it to that.
"""

from __future__ import annotations

import math

import numpy as np

from wickwright.physics.formula import Real, in_kind
from wickwright.room.checks import Bound, RoomError, demand

__all__ = [
    "air_change_of_decay",
    "change_that_holds",
    "share_after",
    "share_settled",
    "time_to_reach",
]


def share_after(*, start: Real, outside: Real, source: Real, change: Real, time: Real) -> Real:
    """Return the share of a gas after a time of steady rates.

    Parameters
    ----------
    start, outside : float or array
        Share of the room's air at the start, and of the air that comes in [-].
    source : float or array
        Gas given off over the volume of the room, below zero where taken [1/s].
    change : float or array
        Air changes, zero for a sealed room [1/s].
    time : float or array
        Time since the start [s].

    Returns
    -------
    float or array
        Share of the air [-].

    Notes
    -----
    Co + S/(n V) (1 - exp(-n t)) + (C0 - Co) exp(-n t), ``box``; without air change
    C0 + S t/V.
    """
    spent = change * time
    tiny = np.less(spent, 1e-12)
    safe = np.where(tiny, 1.0, change)
    lasted = np.where(tiny, time, -np.expm1(-spent) / safe)
    share = outside + source * lasted + (start - outside) * np.exp(-spent)
    return in_kind(np.asarray(share), time)


def share_settled(*, outside: float, source: float, change: float) -> float:
    """Return the share of a gas that a room comes to in the end.

    Parameters
    ----------
    outside : float
        Share of the air that comes in [-].
    source : float
        Gas given off over the volume of the room [1/s].
    change : float
        Air changes, above zero [1/s].

    Returns
    -------
    float
        Share of the air [-].

    Raises
    ------
    RoomError
        When no air comes in: then a room never settles.

    Notes
    -----
    Co + S/(n V), ``box``.
    """
    if not change > 0.0:
        msg = (
            f"With {change * 3600:g} air changes an hour the air never settles; allowed is "
            "anything above 0. Ask for the share after a time, or give the room an air change."
        )
        raise RoomError([msg])
    return outside + source / change


def time_to_reach(
    *, start: float, outside: float, source: float, change: float, limit: float
) -> float | None:
    """Return the time at which a gas crosses a limit.

    Parameters
    ----------
    start, outside : float
        Share at the start, and of the air that comes in [-].
    source : float
        Gas given off over the volume of the room [1/s].
    change : float
        Air changes [1/s].
    limit : float
        The share asked about [-].

    Returns
    -------
    float or None
        Time [s]; None when the gas never gets there.

    Notes
    -----
    The inverse of :func:`share_after`, ``box``.
    """
    if start == limit:
        return 0.0
    if change == 0.0:
        time = (limit - start) / source if source else -1.0
        return time if time > 0.0 else None
    end = outside + source / change
    left = (limit - end) / (start - end) if start != end else -1.0
    return -math.log(left) / change if 0.0 < left < 1.0 else None


def change_that_holds(
    *, start: float, outside: float, source: float, limit: float, time: float | None = None
) -> float | None:
    """Return the least air change that keeps a gas from crossing a limit.

    Parameters
    ----------
    start, outside : float
        Share at the start, and of the air that comes in [-].
    source : float
        Gas given off over the volume of the room, below zero where taken [1/s].
    limit : float
        Highest share allowed, or lowest of a gas that is taken [-].
    time : float or None
        How long it must hold [s]; None for ever.

    Returns
    -------
    float or None
        Air changes [1/s]; None when the air that comes in is over the limit itself.

    Notes
    -----
    For ever, S/(V (limit - Co)); for a time, by halving intervals, ``box``.
    """
    room_left = (limit - outside) * math.copysign(1.0, source)
    if source == 0.0:
        return 0.0
    if room_left <= 0.0:
        return None
    always = source / (limit - outside)
    return always if time is None else _for_a_time(start, outside, source, limit, time, always)


def _for_a_time(
    start: float, outside: float, source: float, limit: float, time: float, most: float
) -> float:
    """Halve down to the air change that just meets the limit at the end."""
    sign = math.copysign(1.0, source)
    low, high = 0.0, most
    for _ in range(60):
        middle = 0.5 * (low + high)
        end = share_after(start=start, outside=outside, source=source, change=middle, time=time)
        over = sign * (end - limit) > 0.0
        low, high = (middle, high) if over else (low, middle)
    return 0.0 if low == 0.0 else high


def air_change_of_decay(*, start: float, end: float, outside: float, time: float) -> float:
    """Return the air change from how a gas fades after its source is gone.

    Parameters
    ----------
    start, end : float
        Share at the start and at the end [-].
    outside : float
        Share of the air that comes in [-].
    time : float
        Time between the two readings [s].

    Returns
    -------
    float
        Air changes [1/s].

    Raises
    ------
    RoomError
        When the readings do not fade towards the air outside.

    Notes
    -----
    ln((C0 - Co)/(C1 - Co))/t, the concentration decay of ``astm-e741``.
    """
    cure = "Take both readings with lamps out and people gone, some time apart"
    demand(
        Bound("time between the readings", time, 1.0, math.inf, "s", cure),
        Bound("second reading", end * 1e6, outside * 1e6 + 1.0, start * 1e6, "ppm", cure),
    )
    return math.log((start - outside) / (end - outside)) / time

"""From a clearance interval to a verdict: the one place where borders are drawn.

On the line of clearances, from tight to wide, lie five zones::

    does not fit | fits with effort | fits | loose | does not fit
               floor              low    high    ceiling

A likely interval can lie across several of them. It gets exactly one verdict:

1. wholly below the floor, or wholly above the ceiling: does not fit;
2. partly beyond either of them: not known. Some pairs that the tolerances allow go together
   and some do not; only the two parts in the hand can tell;
3. else reaching above ``high``: loose, even where it also reaches below ``low``, because no
   lamp may leave the desk on a pair that may be loose;
4. else reaching below ``low``: fits with effort;
5. else: fits.

The borders belong to the milder zone. Growing the shaft moves the verdict only towards the
tight end (loose, fits, effort, not known, does not fit); ``test_joint_laws`` proves it.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt
from typing import TYPE_CHECKING

from wickwright.fit.clearance import Gap
from wickwright.fit.joints.verdict import Fit, Joined

if TYPE_CHECKING:
    from wickwright.terms.dimension import Dimension

__all__ = ["NO_BORDER", "Play", "cold_verdict", "graded", "play"]

NO_BORDER = 1e-9
"""Lengths closer than this are equal [m]: far below any gauge, far above rounding."""


@dataclass(frozen=True, slots=True)
class Play:
    """The borders of a joint, cold; made by :func:`play`.

    Attributes
    ----------
    permitted : Gap
        From ``low`` to ``high``: fits [m].
    floor, ceiling : float
        Tightest that goes with effort, widest that still engages [m].
    """

    permitted: Gap
    floor: float
    ceiling: float


def play(low: float, high: float, *, effort: float = 0.0, loose: float = 0.0) -> Play:
    """Draw the borders of a joint.

    Parameters
    ----------
    low, high : float
        Clearances that fit [m].
    effort, loose : float
        How far below ``low`` it still goes with effort, and how far above ``high`` it still
        engages [m].

    Returns
    -------
    Play
        The borders.
    """
    return Play(Gap(low, high), low - effort, high + loose)


def cold_verdict(low: float, high: float, borders: Play) -> tuple[Fit, str]:
    """Return verdict and reason for one likely interval.

    Parameters
    ----------
    low, high : float
        The likely clearance [m].
    borders : Play
        The joint's borders.

    Returns
    -------
    (Fit, str)
        The verdict by the five steps above; ``'tight'``, ``'loose'``, ``'wide'`` (tolerances
        too wide to tell) or ``'clearance-likely'``.
    """
    floor = borders.floor - NO_BORDER
    ceiling = borders.ceiling + NO_BORDER
    if high < floor:
        return Fit.NOT, "tight"
    if low > ceiling:
        return Fit.NOT, "loose"
    if low < floor or high > ceiling:
        return Fit.UNKNOWN, "wide"
    if high > borders.permitted.high + NO_BORDER:
        return Fit.LOOSE, "loose"
    if low < borders.permitted.low - NO_BORDER:
        return Fit.EFFORT, "tight"
    return Fit.FITS, "clearance-likely"


_DIAMETERS = ("carrier diameter", "stander diameter")


def graded(hole: Dimension, shaft: Dimension, borders: Play) -> Joined:
    """Judge a hole and a shaft, both at 20 °C.

    Parameters
    ----------
    hole, shaft : Dimension
        Inner and outer size [m].
    borders : Play
        The joint's borders [m].

    Returns
    -------
    Joined
        With worst and likely clearance. The likely one decides: the worst case asks that both
        parts be at the very ends of their zones at once, which almost no pair is. Where only
        the likely interval lies inside, ``why`` is ``'clearance-likely'``; where the worst
        case does too, it is ``'clearance'``. Where the tolerances leave it open, ``missing``
        names the two diameters to measure.
    """
    low = hole.low - shaft.high
    high = hole.high - shaft.low
    middle = (low + high) * 0.5
    one = hole.high - hole.low
    other = shaft.high - shaft.low
    half = sqrt(one * one + other * other) * 0.5
    fit, why = cold_verdict(middle - half, middle + half, borders)
    if fit is Fit.FITS:
        permitted = borders.permitted
        if low >= permitted.low - NO_BORDER and high <= permitted.high + NO_BORDER:
            why = "clearance"
    worst, likely = Gap(low, high), Gap(middle - half, middle + half)
    missing = _DIAMETERS if fit is Fit.UNKNOWN else ()
    return Joined(fit, why, worst, likely, None, borders.permitted, missing=missing)

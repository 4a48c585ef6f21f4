"""Standard tolerances of ISO 286: what a workshop can be asked to hold on a size."""

from __future__ import annotations

from bisect import bisect_left
from math import sqrt

__all__ = ["standard_tolerance", "tolerance_unit"]

_STEPS = (1, 3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500)
"""Borders of the steps of nominal sizes [mm]; the first step is reckoned from 1 mm."""

_UNITS = {6: 10, 7: 16, 8: 25, 9: 40, 10: 64, 11: 100, 12: 160, 13: 250, 14: 400}
"""Tolerance units in each grade."""


def tolerance_unit(size: float) -> float:
    """Return the tolerance unit i of a size.

    Parameters
    ----------
    size : float
        Nominal size [m].

    Returns
    -------
    float
        ``0.45 D**(1/3) + 0.001 D`` micrometres, D the geometric mean of the step in
        millimetres [m].

    Raises
    ------
    ValueError
        When the size is not above 0 and at most 500 mm.

    Notes
    -----
    ISO 286-1 (source key ``iso286``, from memory, not seen). The upper border belongs to a step.
    """
    millimetres = round(size * 1000, 9)
    if not 0 < millimetres <= _STEPS[-1]:
        msg = f"{millimetres:g} mm is outside the steps of ISO 286: they end at {_STEPS[-1]} mm"
        raise ValueError(msg)
    at = max(bisect_left(_STEPS, millimetres), 1)
    mean = sqrt(_STEPS[at - 1] * _STEPS[at])
    return float(0.45 * mean ** (1 / 3) + 0.001 * mean) * 1e-6


def standard_tolerance(size: float, grade: int) -> float:
    """Return the standard tolerance of a size and grade, before the table's rounding.

    Parameters
    ----------
    size : float
        Nominal size [m].
    grade : int
        6 to 14.

    Returns
    -------
    float
        Width of the tolerance zone [m].

    Raises
    ------
    ValueError
        When the grade is not 6 to 14, or the size outside the steps.

    Notes
    -----
    ISO 286-1 (source key ``iso286``, from memory, not seen): 10, 16, 25, 40, 64, 100, 160, 250
    and 400 units for IT6 to IT14.
    """
    if grade not in _UNITS:
        msg = f"IT{grade} is not reckoned here: write a grade from 6 to 14"
        raise ValueError(msg)
    return _UNITS[grade] * tolerance_unit(size)

"""Limits of Unified (UN) screw threads: the ground for tolerances of collars of that form.

No published standard for the collars of kerosene burners was found; where a maker cuts them
to the UN form, these limits say what a pair of them leaves.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from wickwright.fit.clearance import Gap

__all__ = ["External", "Internal", "external_limits", "internal_limits"]

INCH = 0.0254
"""One inch [m]; the standard's formulas hold in inches."""

_PITCH_SHARE = {"1A": 1.5, "2A": 1.0, "3A": 0.75, "1B": 1.95, "2B": 1.3, "3B": 0.975}
"""Pitch diameter tolerance as a share of that of class 2A."""

_MAJOR_SHARE = {"1A": 0.090, "2A": 0.060, "3A": 0.060}
"""Factor of pitch**(2/3) in the major diameter tolerance."""

_LEAST_SIZE, _GREATEST_PITCH = 0.25, 0.25
"""The formulas below hold from 1/4 in upwards and for pitches up to 1/4 in."""


@dataclass(frozen=True, slots=True)
class External:
    """Limits of an external thread.

    Attributes
    ----------
    allowance : float
        By which the greatest external thread stays below the basic one [m].
    major, pitch : Gap
        Least and greatest major and pitch diameter [m].
    """

    allowance: float
    major: Gap
    pitch: Gap


@dataclass(frozen=True, slots=True)
class Internal:
    """Limits of an internal thread.

    Attributes
    ----------
    major : float
        Least major diameter [m]; the standard sets no greatest one.
    pitch, minor : Gap
        Least and greatest pitch and minor diameter [m].
    """

    major: float
    pitch: Gap
    minor: Gap


def _check(diameter: float, pitch: float, thread_class: str, letter: str) -> None:
    """Raise when the formulas do not cover what is asked."""
    classes = [name for name in _PITCH_SHARE if name.endswith(letter)]
    if thread_class not in classes:
        msg = f"'{thread_class}' is not a class of this side: write {', '.join(classes)}"
        raise ValueError(msg)
    if diameter < _LEAST_SIZE * INCH or not 0 < pitch <= _GREATEST_PITCH * INCH:
        msg = (
            f"a thread of {diameter / INCH:.4f} in with a pitch of {pitch / INCH:.4f} in is "
            "outside the formulas: they hold from 0.25 in and for pitches up to 0.25 in"
        )
        raise ValueError(msg)


def _pitch_tolerance(diameter: float, pitch: float, engagement: float) -> float:
    """Return the class 2A pitch diameter tolerance [in]."""
    cube_root: float = diameter ** (1 / 3)
    return 0.0015 * cube_root + 0.0015 * sqrt(engagement) + 0.015 * float(pitch ** (2 / 3))


def _scaled(low: float, high: float) -> Gap:
    return Gap(low * INCH, high * INCH)


def external_limits(
    diameter: float,
    pitch: float,
    thread_class: str = "2A",
    *,
    engagement: float | None = None,
    rounded: bool = True,
) -> External:
    """Return the limits of an external UN thread.

    Parameters
    ----------
    diameter, pitch : float
        Basic major diameter and pitch [m].
    thread_class : {'1A', '2A', '3A'}
        Class of the fit.
    engagement : float or None
        Length of engagement [m]; the basic diameter where None, as in the coarse tables.
    rounded : bool
        Round allowance, tolerances and basic sizes to 0.0001 in before they are taken off. The
        printed limits of external threads agree with rounding first (1/2-13 2A: 0.4435 in;
        rounding last would give 0.4436).

    Returns
    -------
    External
        Limits [m].

    Raises
    ------
    ValueError
        When the class is not external, or size or pitch is outside the formulas.

    Notes
    -----
    ASME B1.1 (source key ``asme-b1-1``), with H = 0.866025 P: allowance es = 0.3 Td2(2A), none
    for 3A; Td2(2A) = 0.0015 D^(1/3) + 0.0015 Le^(1/2) + 0.015 P^(2/3), times 1.5 for 1A and
    0.75 for 3A; major tolerance 0.060 P^(2/3), for 1A 0.090; pitch diameter D - 0.649519 P.
    """
    _check(diameter, pitch, thread_class, "A")
    size, step = diameter / INCH, pitch / INCH
    length = size if engagement is None else engagement / INCH
    places = 4 if rounded else 15
    usual = _pitch_tolerance(size, step, length)
    allowance = 0.0 if thread_class == "3A" else round(0.3 * usual, places)
    of_pitch = round(_PITCH_SHARE[thread_class] * usual, places)
    of_major = round(_MAJOR_SHARE[thread_class] * step ** (2 / 3), places)
    major = round(size, places) - allowance
    middle = round(size - 0.649519 * step, places) - allowance
    return External(
        allowance * INCH, _scaled(major - of_major, major), _scaled(middle - of_pitch, middle)
    )


def internal_limits(
    diameter: float,
    pitch: float,
    thread_class: str = "2B",
    *,
    engagement: float | None = None,
    rounded: bool = True,
) -> Internal:
    """Return the limits of an internal UN thread.

    Parameters
    ----------
    diameter, pitch : float
        Basic major diameter and pitch [m].
    thread_class : {'1B', '2B', '3B'}
        Class of the fit.
    engagement : float or None
        Length of engagement [m]; the basic diameter where None, as in the coarse tables.
    rounded : bool
        Round the sums to 0.0001 in. The printed limits of internal threads agree with rounding
        last (1/4-20 2B: 0.2224 in; rounding first would give 0.2223).

    Returns
    -------
    Internal
        Limits [m].

    Raises
    ------
    ValueError
        When the class is not internal, or size or pitch is outside the formulas.

    Notes
    -----
    ASME B1.1 (source key ``asme-b1-1``): pitch diameter tolerance 1.95, 1.3 and 0.975 times
    Td2(2A) for 1B, 2B and 3B; least minor diameter D - 1.082532 P. The minor diameter tolerance
    is from memory, not seen: 0.25 P - 0.4 P^2, and for 3B 0.05 P^(2/3) + 0.03 P/D - 0.002
    within 0.23 P - 1.5 P^2 (0.120 P for 12 threads an inch and coarser) and 0.394 P.
    """
    _check(diameter, pitch, thread_class, "B")
    size, step = diameter / INCH, pitch / INCH
    length = size if engagement is None else engagement / INCH
    places = 4 if rounded else 15
    usual = _pitch_tolerance(size, step, length)
    middle = size - 0.649519 * step
    most_middle = middle + _PITCH_SHARE[thread_class] * usual
    minor = size - 1.082532 * step
    most_minor = minor + _minor_tolerance(size, step, thread_class)
    return Internal(
        diameter,
        _scaled(round(middle, places), round(most_middle, places)),
        _scaled(round(minor, places), round(most_minor, places)),
    )


def _minor_tolerance(size: float, step: float, thread_class: str) -> float:
    """Return the minor diameter tolerance of an internal thread [in]."""
    if thread_class != "3B":
        return 0.25 * step - 0.4 * step**2
    fine = 1 / 13
    least = 0.23 * step - 1.5 * step**2 if step <= fine else 0.120 * step
    wanted = 0.05 * step ** (2 / 3) + 0.03 * step / size - 0.002
    return float(min(max(wanted, least), 0.394 * step))

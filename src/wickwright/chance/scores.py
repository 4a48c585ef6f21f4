"""How good stated chances turned out to be."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from wickwright.chance.arrays import Bools, Floats, Ints, refuse, shape_faults

__all__ = ["Calibration", "brier_score", "calibration", "log_score"]


def _checked(said: Floats, happened: Ints) -> None:
    faults = shape_faults("said", said, (None, None))
    if not faults and happened.shape != said.shape[:1]:
        faults.append(f"{len(said)} forecasts have {happened.size} outcomes; one each is needed.")
    if not faults and not len(said):
        faults.append("There are no forecasts to score.")
    refuse(faults)


def log_score(said: Floats, happened: Ints) -> float:
    """Return the mean surprise at what happened.

    Parameters
    ----------
    said : array
        Chance stated for each outcome (cases, outcomes) [-].
    happened : array
        Which outcome it was (cases) [-].

    Returns
    -------
    float
        Mean of -ln(chance stated for what happened) [nat]: 0 at best, infinite if what happened
        was called impossible.

    Notes
    -----
    ``good1952``.
    """
    _checked(said, happened)
    with np.errstate(divide="ignore"):
        return float(-np.log(said[np.arange(len(said)), happened]).mean()) + 0.0


def brier_score(said: Floats, happened: Ints) -> float:
    """Return the mean squared distance from what happened.

    Parameters
    ----------
    said : array
        Chance stated for each outcome (cases, outcomes) [-].
    happened : array
        Which outcome it was (cases) [-].

    Returns
    -------
    float
        Mean over cases of the sum over outcomes of (said - happened)**2 [-]: 0 at best, 2 at
        worst.

    Notes
    -----
    ``brier1950``, the form with all outcomes; for two outcomes it is twice the one in common use.
    """
    _checked(said, happened)
    truth = np.zeros_like(said)
    truth[np.arange(len(said)), happened] = 1.0
    return float(((said - truth) ** 2).sum(axis=1).mean())


@dataclass(frozen=True, slots=True, eq=False)
class Calibration:
    """Stated chances beside how often it happened, bin by bin.

    Attributes
    ----------
    edges : array
        Ends of the bins (bins + 1) [-].
    count : array
        Forecasts in each (bins) [-].
    said, happened : array
        Mean chance stated, and share that happened (bins) [-]; not a number in an empty bin.
    error : float
        Expected calibration error [-]: distance of the two, weighted by count.
    """

    edges: Floats
    count: Ints
    said: Floats
    happened: Floats
    error: float


def calibration(said: Floats, happened: Bools, bins: int = 10) -> Calibration:
    """Return how well stated chances match what happened.

    Parameters
    ----------
    said : array
        Chance stated for one event each (forecasts) [-].
    happened : array
        Whether it happened (forecasts) [-].
    bins : int
        Bins of equal width from 0 to 1 [-].

    Returns
    -------
    Calibration
        A chance on an edge counts in the bin above it, 1 in the last.

    Raises
    ------
    ChanceError
        If the arrays differ in length, are empty or there is no bin.

    Notes
    -----
    Bins of equal width, ``naeini2015``.
    """
    if said.shape != happened.shape or said.ndim != 1 or not said.size or bins < 1:
        given = f"{said.size} forecasts, {happened.size} outcomes and {bins} bins"
        wanted = "one outcome each, at least one of each, at least one bin"
        refuse([f"{given} do not go together: {wanted}."])
    place = np.clip((said * bins).astype(np.intp), 0, bins - 1)
    count = np.bincount(place, minlength=bins)
    with np.errstate(invalid="ignore"):
        mean = np.bincount(place, weights=said, minlength=bins) / count
        share = np.bincount(place, weights=happened.astype(np.float64), minlength=bins) / count
    full = count > 0
    error = float((count[full] * np.abs(mean[full] - share[full])).sum() / said.size)
    return Calibration(np.linspace(0.0, 1.0, bins + 1), count, mean, share, error)

"""The same joint at other temperatures: does the gap close."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from wickwright.fit.clearance import Gap
from wickwright.fit.expansion import EXPANSIONS, REFERENCE, expansion_of
from wickwright.fit.joints.grade import NO_BORDER
from wickwright.fit.joints.verdict import COLD, Fit, Joined, Warmth

if TYPE_CHECKING:
    from wickwright.terms.dimension import Dimension

__all__ = ["Heated", "is_cold", "warmed"]

_GOES = frozenset({Fit.FITS, Fit.EFFORT, Fit.LOOSE})


class Heated(NamedTuple):
    """One side of a joint at its temperature.

    Attributes
    ----------
    side : str
        ``'carrier'`` or ``'stander'``.
    size : Dimension
        Its size at 20 °C [m].
    material : str
        What it is made of; blank where unknown.
    temperature : float
        How hot it is [K].
    """

    side: str
    size: Dimension
    material: str
    temperature: float


def is_cold(warmth: Warmth) -> bool:
    """Tell whether both sides are at the temperature sizes are stated for."""
    return warmth is COLD or warmth.carrier == warmth.stander == REFERENCE


@lru_cache(maxsize=1024)
def _growth(material: str, temperature: float) -> tuple[float, float, float]:
    """Return least, usual and greatest growth per size."""
    return expansion_of(material).at(temperature - REFERENCE)


def warmed(cold: Joined, hole: Heated, shaft: Heated) -> Joined:
    """Judge a joint again at its temperatures.

    Parameters
    ----------
    cold : Joined
        The verdict at 20 °C.
    hole, shaft : Heated
        The outer and the inner side.

    Returns
    -------
    Joined
        With ``hot``, the worst case of tolerances and of the materials' bands together, and
        ``likely_hot``, the statistical interval with the usual expansions. Where the joint goes
        together cold, but its likely gap with the usual expansions falls below zero, the
        verdict is ``BINDS_HOT``. A material that is not in the table is taken at the end of
        its band that closes the gap; where the gap closes only because of that, the verdict is
        ``UNKNOWN`` and ``missing`` names the material.
    """
    if cold.worst is None or cold.likely is None:
        return cold
    out, into = hole.size.nominal, shaft.size.nominal
    out_least, out_usual, out_most = _growth(hole.material, hole.temperature)
    in_least, in_usual, in_most = _growth(shaft.material, shaft.temperature)
    hot = Gap(
        cold.worst.low + out * out_least - into * in_most,
        cold.worst.high + out * out_most - into * in_least,
    )
    strange = _strange(hole, shaft)
    if strange:
        out_usual = out_usual if hole.material in EXPANSIONS else out_least
        in_usual = in_usual if shaft.material in EXPANSIONS else in_most
    opens = out * out_usual - into * in_usual
    likely = Gap(cold.likely.low + opens, cold.likely.high + opens)
    if likely.low >= -NO_BORDER or cold.fit not in _GOES:
        return cold._replace(hot=hot, likely_hot=likely)
    if strange:
        return cold._replace(
            fit=Fit.UNKNOWN, why="material", hot=hot, missing=strange, likely_hot=likely
        )
    return cold._replace(fit=Fit.BINDS_HOT, why="hot", hot=hot, likely_hot=likely)


def _strange(*halves: Heated) -> tuple[str, ...]:
    """Name the sides whose material is blank or not in the table."""
    return tuple(f"{half.side} material" for half in halves if half.material not in EXPANSIONS)

"""The light of a bulb, to stand beside a flame's."""

from __future__ import annotations

from wickwright.burn.checks import BurnError
from wickwright.burn.error_bars import Estimate
from wickwright.terms.finding import Kind

__all__ = ["bulb_light"]

_AT_SIXTY = 710.0  # lm, a clear filament bulb of 60 W: assumption
_RISE = 1.25  # power of the watts: larger filaments run hotter
_SPREAD = 0.12
_WATTS = (5.0, 200.0)


def bulb_light(watts: float) -> Estimate:
    """Return the light of a filament bulb.

    Parameters
    ----------
    watts : float
        Its watts [W], 5 to 200.

    Returns
    -------
    Estimate
        Luminous flux [lm]: an assumption, 710 lm at 60 W and rising with the 1.25th power,
        within 12 %.

    Raises
    ------
    BurnError
        When no filament bulb has these watts.
    """
    low, high = _WATTS
    if not low <= watts <= high:
        msg = (
            f"a bulb of {watts:g} W is none this was thought out for ({low:g} W to {high:g} W): "
            "check the figure stamped on it"
        )
        raise BurnError(msg)
    light = _AT_SIXTY * (watts / 60.0) ** _RISE
    return Estimate(light, _SPREAD * light, Kind.LIGHT)

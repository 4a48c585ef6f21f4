"""What a glowing mantle radiates and how much of it the eye sees, laid out in tables.

Emissivity has two steps: one below 0.7 um, one above. No measured curve of an incandescent
oxide was found; both numbers belong to the part or are assumptions.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Final

import numpy as np

from wickwright.burn.steps import Steps, refined, steps_of
from wickwright.physics.light import (
    LUMINOUS_EFFICACY,
    PHOTOPIC,
    PHOTOPIC_STEP,
    PHOTOPIC_WAVELENGTHS,
)
from wickwright.physics.radiation import (
    SECOND_CONSTANT,
    STEFAN_BOLTZMANN,
    fraction_below,
    spectral_exitance,
)

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

__all__ = ["EDGE", "FAR", "far_share", "luminous", "radiated"]

EDGE: Final = 0.7e-6
"""Wavelength at which the emissivity steps [m]."""
FAR: Final = 2.7e-6
"""Wavelength above which glass of a few millimetres is taken to be black [m]: assumption."""

_SERIES = 15.0 / np.pi**4
_COLDEST, _HOTTEST, _FINE, _NODES = 700.0, 2600.0, 4096, 512


@lru_cache(maxsize=1)
def _tables() -> Steps:
    """By temperature: light below and above the edge [ln lm/m2], share beyond FAR [-]."""
    fine, hot = (np.linspace(_COLDEST, _HOTTEST, count) for count in (_FINE, _NODES))
    seen = PHOTOPIC * spectral_exitance(PHOTOPIC_WAVELENGTHS, hot[:, None])
    seen *= LUMINOUS_EFFICACY * PHOTOPIC_STEP
    below = np.clip(0.5 + (EDGE - PHOTOPIC_WAVELENGTHS) / PHOTOPIC_STEP, 0.0, 1.0)
    far = 1.0 - fraction_below(np.asarray(FAR), hot)
    light, rest = (seen * below).sum(axis=-1), (seen * (1.0 - below)).sum(axis=-1)
    rows = (refined(hot, row, fine) for row in (np.log(light), np.log(rest), far))
    return steps_of(_COLDEST, _HOTTEST, *rows)


def luminous(temperature: Floats, visible: Floats, infrared: Floats) -> Floats:
    """Return the light a square metre of mantle sends out.

    Parameters
    ----------
    temperature : array
        Temperature [K], 700 to 2600; beyond, the light of that end.
    visible, infrared : array
        Emissivity below and above 0.7 um [-].

    Returns
    -------
    array
        Luminous exitance [lm/m2].

    Notes
    -----
    Planck's law and V (``cie018``), as :func:`wickwright.physics.light.selective_efficacy`;
    interpolated within 3 parts in a million.
    """
    table = _tables()
    place = table.place(temperature)
    low, high = np.exp(table.row(0, place)), np.exp(table.row(1, place))
    return np.asarray(visible * low + infrared * high)


def far_share(temperature: Floats) -> Floats:
    """Return the share of black radiation that glass stops.

    Parameters
    ----------
    temperature : array
        Temperature of what radiates [K].

    Returns
    -------
    array
        Share beyond :data:`FAR` [-].

    Notes
    -----
    ``chang-rhee1984``.
    """
    table = _tables()
    return table.row(2, table.place(temperature))


def radiated(temperature: Floats, visible: Floats, infrared: Floats) -> tuple[Floats, Floats]:
    """Return the power a square metre of mantle radiates, and its slope.

    Parameters
    ----------
    temperature : array
        Temperature [K].
    visible, infrared : array
        Emissivity below and above 0.7 um [-].

    Returns
    -------
    tuple of array
        Exitance [W/m2] and its slope with temperature [W/(m2 K)].

    Notes
    -----
    The share below the edge is the first term of the series of ``chang-rhee1984``: the second
    is smaller by exp(-x), less than 4 parts in a million below 2400 K.
    """
    x = SECOND_CONSTANT / EDGE / temperature
    fading = _SERIES * np.exp(-x)
    square = x * x
    below = fading * (square * x + 3.0 * square + 6.0 * x + 6.0)
    black = STEFAN_BOLTZMANN * temperature**2 * temperature**2
    extra = visible - infrared
    power = black * (infrared + extra * below)
    return power, (4.0 * power + black * extra * fading * square * square) / temperature

"""Light: how much of heat radiation the eye sees.

Wavelengths are taken in air where the eye's table has them; the difference from vacuum is
0.03 % of a wavelength.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from wickwright.physics.formula import Real, Validity, in_kind
from wickwright.physics.radiation import (
    SECOND_CONSTANT,
    black_exitance,
    fraction_below,
    spectral_exitance,
)

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

__all__ = [
    "LIGHT_RANGES",
    "LUMINOUS_EFFICACY",
    "PHOTOPIC",
    "PHOTOPIC_STEP",
    "PHOTOPIC_WAVELENGTHS",
    "eye",
    "flux_of_candlepower",
    "luminance",
    "luminous_efficacy",
    "luminous_exitance",
    "selective_efficacy",
    "temperature_exponent",
]

LUMINOUS_EFFICACY: Final = 683.002
"""Lumens in a watt where V is 1 [lm/W]; ``cie018``: 683 exactly at 540 THz, 555.016 nm."""
PHOTOPIC_STEP: Final = 5e-9
"""Step of the table [m]."""
# fmt: off
PHOTOPIC: Final[Floats] = np.array([
    3.917e-06, 6.965e-06, 1.239e-05, 2.202e-05, 3.9e-05, 6.4e-05, 0.00012, 0.000217,
    0.000396, 0.00064, 0.00121, 0.00218, 0.004, 0.0073, 0.0116, 0.01684,
    0.023, 0.0298, 0.038, 0.048, 0.06, 0.0739, 0.09098, 0.1126,
    0.13902, 0.1693, 0.20802, 0.2586, 0.323, 0.4073, 0.503, 0.6082,
    0.71, 0.7932, 0.862, 0.9148501, 0.954, 0.9803, 0.9949501, 1.0,
    0.995, 0.9786, 0.952, 0.9154, 0.87, 0.8163, 0.757, 0.6949,
    0.631, 0.5668, 0.503, 0.4412, 0.381, 0.321, 0.265, 0.217,
    0.175, 0.1382, 0.107, 0.0816, 0.061, 0.04458, 0.032, 0.0232,
    0.017, 0.01192, 0.00821, 0.005723, 0.004102, 0.002929, 0.002091, 0.001484,
    0.001047, 0.00074, 0.00052, 0.0003611, 0.0002492, 0.0001719, 0.00012, 8.48e-05,
    6e-05, 4.24e-05, 3e-05, 2.12e-05, 1.499e-05, 1.06e-05, 7.4657e-06, 5.2578e-06,
    3.7029e-06, 2.6078e-06, 1.8366e-06, 1.2934e-06, 9.1093e-07, 6.4153e-07, 4.5181e-07,
])
# fmt: on
"""Photopic luminous efficiency V of CIE 1924 from 360 nm to 830 nm [-]; ``cie018``."""
PHOTOPIC_WAVELENGTHS: Final[Floats] = np.linspace(360e-9, 830e-9, len(PHOTOPIC))
"""Wavelengths of the table [m]."""
LIGHT_RANGES = (
    Validity("luminous_efficacy", "temperature", "K", 1000.0, 20000.0, "assumption"),
    Validity("selective_efficacy", "temperature", "K", 1000.0, 3000.0, "assumption"),
)
"""Ranges of this module's formulas: outside them nothing was compared."""


def eye(wavelength: Real) -> Real:
    """Return the photopic luminous efficiency at a wavelength.

    Parameters
    ----------
    wavelength : float or array
        Wavelength [m].

    Returns
    -------
    float or array
        V, 1 at 555 nm [-]; 0 outside 360 nm to 830 nm.

    Notes
    -----
    ``cie018``, straight lines between the values at 5 nm.
    """
    seen: Real = np.interp(wavelength, PHOTOPIC_WAVELENGTHS, PHOTOPIC, left=0.0, right=0.0)
    return seen


def _spectrum(temperature: Floats) -> Floats:
    """Weigh the spectrum of a black body with the eye, by wavelength of the table."""
    return PHOTOPIC * spectral_exitance(PHOTOPIC_WAVELENGTHS, temperature[..., None])


def luminous_exitance(temperature: Real) -> Real:
    """Return the light a black body sends out.

    Parameters
    ----------
    temperature : float or array
        Temperature [K].

    Returns
    -------
    float or array
        Luminous exitance [lm/m2].

    Notes
    -----
    683 lm/W times the integral of V and Planck's law (``cie018``), summed in steps of 5 nm.
    """
    seen = _spectrum(np.asarray(temperature)).sum(axis=-1)
    return in_kind(np.asarray(LUMINOUS_EFFICACY * PHOTOPIC_STEP * seen), temperature)


def luminance(temperature: Real) -> Real:
    """Return the luminance of a black body.

    Parameters
    ----------
    temperature : float or array
        Temperature [K].

    Returns
    -------
    float or array
        Luminance [cd/m2].

    Notes
    -----
    :func:`luminous_exitance` over pi.
    """
    return luminous_exitance(temperature) / np.pi


def luminous_efficacy(temperature: Real) -> Real:
    """Return the light in each watt a black body radiates, at all wavelengths.

    Parameters
    ----------
    temperature : float or array
        Temperature [K].

    Returns
    -------
    float or array
        Luminous efficacy of the whole radiation [lm/W].

    Notes
    -----
    :func:`luminous_exitance` over ``black_exitance``. Not the figure a spectrum cut to the
    visible gives: at 2000 K that is forty times as much.
    """
    return luminous_exitance(temperature) / black_exitance(temperature)


def temperature_exponent(temperature: Real) -> Real:
    """Return by what power of its temperature the light of a black body rises.

    Parameters
    ----------
    temperature : float or array
        Temperature [K].

    Returns
    -------
    float or array
        d ln L / d ln T [-]: at 2000 K one per cent of temperature is 12 % of light.

    Notes
    -----
    Planck's law differentiated: the mean of x/(1 - exp(-x)), x = c2/(lambda T), over the
    light.
    """
    hot = np.asarray(temperature)
    seen = _spectrum(hot)
    x = SECOND_CONSTANT / (PHOTOPIC_WAVELENGTHS * hot[..., None])
    exponent = (seen * x / -np.expm1(-x)).sum(axis=-1) / seen.sum(axis=-1)
    return in_kind(np.asarray(exponent), temperature)


def selective_efficacy(
    temperature: Real, *, visible: float, infrared: float, edge: float = 700e-9
) -> Real:
    """Return the light in each watt of a body that radiates poorly beyond an edge.

    Parameters
    ----------
    temperature : float or array
        Temperature [K].
    visible : float
        Emissivity at wavelengths below the edge [-].
    infrared : float
        Emissivity above the edge [-].
    edge : float
        Wavelength of the edge [m].

    Returns
    -------
    float or array
        Luminous efficacy of the whole radiation [lm/W].

    Notes
    -----
    Planck's law with an emissivity of two steps: an idealisation. No measured curve of an
    incandescent oxide was found; both numbers are to be fitted to a measured light.
    """
    hot = np.asarray(temperature)
    below = np.clip(0.5 + (edge - PHOTOPIC_WAVELENGTHS) / PHOTOPIC_STEP, 0.0, 1.0)
    skin = infrared + (visible - infrared) * below
    light = LUMINOUS_EFFICACY * PHOTOPIC_STEP * (skin * _spectrum(hot)).sum(axis=-1)
    share = fraction_below(np.asarray(edge), hot)
    power = black_exitance(hot) * (infrared + (visible - infrared) * share)
    return in_kind(np.asarray(light / power), temperature)


def flux_of_candlepower(candles: Real, per_candle: Real | float = 4.0 * np.pi) -> Real:
    """Return the luminous flux of a source rated in candles.

    Parameters
    ----------
    candles : float or array
        Luminous intensity [cd].
    per_candle : float or array
        Lumens for each candle [lm/cd]: 4 pi for a mean spherical intensity; about 10 for the
        horizontal intensity old tables print (``luckiesh1920``).

    Returns
    -------
    float or array
        Luminous flux [lm].
    """
    flux: Real = np.multiply(candles, per_candle)
    return flux

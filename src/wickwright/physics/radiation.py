"""Heat radiation: black bodies, bands of wavelength, exchange between grey surfaces."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from wickwright.physics.formula import Real, Validity, in_kind

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

__all__ = [
    "FIRST_CONSTANT",
    "RADIATION_RANGES",
    "SECOND_CONSTANT",
    "STEFAN_BOLTZMANN",
    "band_fraction",
    "black_exitance",
    "concentric_exchange",
    "enclosed_exchange",
    "fraction_below",
    "radiative_coefficient",
    "spectral_exitance",
]

STEFAN_BOLTZMANN: Final = 5.670374419e-8
"""Stefan-Boltzmann constant [W/(m2 K4)]; ``codata2018``."""
FIRST_CONSTANT: Final = 3.741771852e-16
"""First radiation constant, 2 pi h c**2 [W m2]; ``codata2018``."""
SECOND_CONSTANT: Final = 1.438776877e-2
"""Second radiation constant, h c/k [m K]; ``codata2018``."""
RADIATION_RANGES = (
    Validity("fraction_below", "wavelength * temperature", "m K", 1e-4, 10.0, "chang-rhee1984"),
)
"""Ranges of this module's formulas."""

_SCALE = 15.0 / np.pi**4
_TERMS = np.arange(1.0, 31.0)
_BERNOULLI = (
    (2, 1.0 / 60.0),
    (4, -1.0 / 5040.0),
    (6, 1.0 / 272160.0),
    (8, -1.0 / 13305600.0),
    (10, 1.0 / 622702080.0),
)


def black_exitance(temperature: Real) -> Real:
    """Return the power a black body radiates.

    Parameters
    ----------
    temperature : float or array
        Temperature [K].

    Returns
    -------
    float or array
        Exitance [W/m2].

    Notes
    -----
    sigma T**4, Stefan and Boltzmann (``codata2018``).
    """
    return STEFAN_BOLTZMANN * temperature**4


def spectral_exitance(wavelength: Real, temperature: Real) -> Real:
    """Return the power a black body radiates in a unit of wavelength.

    Parameters
    ----------
    wavelength : float or array
        Wavelength in vacuum [m].
    temperature : float or array
        Temperature [K].

    Returns
    -------
    float or array
        Spectral exitance [W/m3]; over pi it is the spectral radiance.

    Notes
    -----
    Planck's law, c1/(lambda**5 (exp(c2/(lambda T)) - 1)) (``codata2018``).
    """
    exitance: Real = (
        FIRST_CONSTANT / wavelength**5 / np.expm1(SECOND_CONSTANT / (wavelength * temperature))
    )
    return exitance


def fraction_below(wavelength: Real, temperature: Real) -> Real:
    """Return the share of black-body power at shorter wavelengths.

    Parameters
    ----------
    wavelength : float or array
        Upper bound of the band [m].
    temperature : float or array
        Temperature [K].

    Returns
    -------
    float or array
        Share of ``black_exitance`` [-].

    Notes
    -----
    With x = c2/(lambda T), the series 15/pi**4 sum of
    exp(-n x)/n (x**3 + 3 x**2/n + 6 x/n**2 + 6/n**3) (``chang-rhee1984``);
    below x = 1 the expansion of the integrand in Bernoulli numbers. Eleven digits.
    """
    x = np.asarray(SECOND_CONSTANT / (wavelength * temperature))
    share = np.where(x < 1.0, 1.0 - _shares_long(x), _shares_short(x))
    return in_kind(share, wavelength * temperature)


def _shares_short(x: Floats) -> Floats:
    x, n = x[..., None], _TERMS
    series = np.exp(-n * x) / n * (x**3 + 3.0 * x**2 / n + 6.0 * x / n**2 + 6.0 / n**3)
    return np.asarray(_SCALE * series.sum(axis=-1))


def _shares_long(x: Floats) -> Floats:
    """Share at longer wavelengths."""
    series = 1.0 / 3.0 - x / 8.0 + sum(c * x**power for power, c in _BERNOULLI)
    return np.asarray(_SCALE * x**3 * series)


def band_fraction(low: Real, high: Real, temperature: Real) -> Real:
    """Return the share of black-body power in a band.

    Parameters
    ----------
    low, high : float or array
        Bounds of the band [m].
    temperature : float or array
        Temperature [K].

    Returns
    -------
    float or array
        Share of ``black_exitance`` [-].

    Notes
    -----
    Difference of two :func:`fraction_below`.
    """
    return fraction_below(high, temperature) - fraction_below(low, temperature)


def enclosed_exchange(emissivity: Real, area: Real, temperature: Real, around: Real) -> Real:
    """Return the power a grey body loses to a large enclosure.

    Parameters
    ----------
    emissivity : float or array
        Total emissivity of the body [-].
    area : float or array
        Area of the body, nowhere hollow [m2].
    temperature : float or array
        Temperature of the body [K].
    around : float or array
        Temperature of the walls around it [K].

    Returns
    -------
    float or array
        Net power lost [W].

    Notes
    -----
    eps A sigma (T**4 - To**4), ``incropera``, equation 13.22.
    """
    return emissivity * area * STEFAN_BOLTZMANN * (temperature**4 - around**4)


def concentric_exchange(
    *, inner_area: Real, ratio: Real, inner: Real, outer: Real, emissivities: tuple[Real, Real]
) -> Real:
    """Return the power from a long grey cylinder to one around it.

    Parameters
    ----------
    inner_area : float or array
        Area of the inner cylinder [m2].
    ratio : float or array
        Inner over outer radius [-].
    inner, outer : float or array
        Temperatures [K].
    emissivities : tuple of float or array
        Total emissivities of the inner and the outer surface [-].

    Returns
    -------
    float or array
        Net power from the inner to the outer cylinder [W].

    Notes
    -----
    A sigma (Ti**4 - To**4)/(1/eps_i + (1 - eps_o)/eps_o r), ``incropera``, equation 13.20.
    A ratio of 0 is the large enclosure, of 1 a pair of parallel plates.
    """
    first, second = emissivities
    resistance = 1.0 / first + (1.0 - second) / second * ratio
    return inner_area * STEFAN_BOLTZMANN * (inner**4 - outer**4) / resistance


def radiative_coefficient(emissivity: Real, temperature: Real, around: Real) -> Real:
    """Return the heat-transfer coefficient that stands for radiation to a large enclosure.

    Parameters
    ----------
    emissivity : float or array
        Total emissivity [-].
    temperature : float or array
        Temperature of the surface [K].
    around : float or array
        Temperature of the walls around it [K].

    Returns
    -------
    float or array
        Coefficient [W/(m2 K)].

    Notes
    -----
    eps sigma (T + To)(T**2 + To**2), ``incropera``, equation 1.9.
    """
    return emissivity * STEFAN_BOLTZMANN * (temperature + around) * (temperature**2 + around**2)

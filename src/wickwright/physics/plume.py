"""Hot gas above a source and heat beside it.

Published for turbulent fires of some kilowatts to megawatts; formulas here take watts and
convert. A source of 0.8 kW is an extrapolation: half a metre above it the three methods give
59, 61 and 46 K. Within two diameters of a hot outlet none of them holds: there the gas has
its outlet temperature.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from wickwright.physics.formula import Real, Validity, in_kind, power

__all__ = [
    "CONVECTIVE_SHARE",
    "PLUME_RANGES",
    "alpert_rise",
    "alpert_velocity",
    "flame_height",
    "heskestad_height",
    "heskestad_rise",
    "heskestad_strength",
    "heskestad_velocity",
    "heskestad_width",
    "mccaffrey_rise",
    "mccaffrey_velocity",
    "point_source_distance",
    "point_source_flux",
    "virtual_origin",
]

CONVECTIVE_SHARE: Final = 0.7
"""Share of a fire's heat that rises with the gas [-]; ``nureg1805``."""
PLUME_RANGES = (
    Validity("heskestad_rise", "heat", "W", 1e4, 1e8, "assumption"),
    Validity("mccaffrey_rise", "heat", "W", 14e3, 58e3, "mccaffrey1979"),
    Validity("alpert_rise", "heat", "W", 6e5, 1e8, "alpert1972"),
)
"""Heats the formulas were fitted to, from memory; a small source lies outside all of them."""

_GRAVITY = 9.81
_CAPACITY = 1.0  # kJ/(kg K)
_SEA_LEVEL = 101325.0


def _density(pressure: Real, air: Real) -> Real:
    """Density of air as the sources have it: 353/T at sea level."""
    return 353.0 / air * (pressure / _SEA_LEVEL)


def heskestad_strength(air: Real, pressure: Real) -> Real:
    """Return the factor of Heskestad's centre-line temperature.

    Parameters
    ----------
    air : float or array
        Temperature of the air [K].
    pressure : float or array
        Air pressure [Pa].

    Returns
    -------
    float or array
        9.1 (T/(g c**2 rho**2))**(1/3) [K m**(5/3) kW**(-2/3)]; it grows as pressure**(-2/3).

    Notes
    -----
    ``nureg1805``, chapter 9, with g = 9.81, c = 1.0 kJ/(kg K), rho = 353/T at sea level.
    """
    thin = air / (_GRAVITY * _CAPACITY**2 * _density(pressure, air) ** 2)
    return 9.1 * power(thin, 1.0 / 3.0)


def virtual_origin(heat: Real, diameter: Real) -> Real:
    """Return where the plume seems to start.

    Parameters
    ----------
    heat : float or array
        Heat released [W].
    diameter : float or array
        Diameter of the source [m].

    Returns
    -------
    float or array
        Height above the source, often below zero [m].

    Notes
    -----
    z0 = 0.083 Q**(2/5) - 1.02 D, Q in kW, ``nureg1805``, chapter 9.
    """
    return 0.083 * power(heat / 1000.0, 0.4) - 1.02 * diameter


def heskestad_rise(height: Real, rising: Real, origin: Real, air: Real, pressure: Real) -> Real:
    """Return the temperature rise on the centre line.

    Parameters
    ----------
    height : float or array
        Height above the source, above ``origin`` [m].
    rising : float or array
        Heat that rises with the gas [W].
    origin : float or array
        :func:`virtual_origin` [m].
    air : float or array
        Temperature of the air [K].
    pressure : float or array
        Air pressure [Pa].

    Returns
    -------
    float or array
        Temperature rise [K].

    Notes
    -----
    :func:`heskestad_strength` Qc**(2/3) (z - z0)**(-5/3), ``nureg1805``, chapter 9. The
    default of the three: it alone knows the size of the source and the pressure.
    """
    reach = power(height - origin, -5.0 / 3.0)
    return heskestad_strength(air, pressure) * power(rising / 1000.0, 2.0 / 3.0) * reach


def heskestad_height(rise: Real, rising: Real, origin: Real, air: Real, pressure: Real) -> Real:
    """Return the height at which the centre line has cooled to a given rise.

    Parameters
    ----------
    rise : float or array
        Temperature rise allowed [K].
    rising : float or array
        Heat that rises with the gas [W].
    origin : float or array
        :func:`virtual_origin` [m].
    air : float or array
        Temperature of the air [K].
    pressure : float or array
        Air pressure [Pa].

    Returns
    -------
    float or array
        Height above the source [m].

    Notes
    -----
    The inverse of :func:`heskestad_rise`.
    """
    warm = heskestad_strength(air, pressure) * power(rising / 1000.0, 2.0 / 3.0)
    return origin + power(warm / rise, 0.6)


def heskestad_velocity(height: Real, rising: Real, origin: Real, air: Real, pressure: Real) -> Real:
    """Return the velocity on the centre line.

    Parameters
    ----------
    height : float or array
        Height above the source, above ``origin`` [m].
    rising : float or array
        Heat that rises with the gas [W].
    origin : float or array
        :func:`virtual_origin` [m].
    air : float or array
        Temperature of the air [K].
    pressure : float or array
        Air pressure [Pa].

    Returns
    -------
    float or array
        Velocity [m/s].

    Notes
    -----
    3.4 (g/(c rho T))**(1/3) Qc**(1/3) (z - z0)**(-1/3), ``nureg1805``, chapter 9.
    """
    push = _GRAVITY / (_CAPACITY * _density(pressure, air) * air) * (rising / 1000.0)
    return 3.4 * power(push / (height - origin), 1.0 / 3.0)


def heskestad_width(height: Real, rise: Real, origin: Real, air: Real) -> Real:
    """Return the radius at which the temperature rise is half that of the centre line.

    Parameters
    ----------
    height : float or array
        Height above the source [m].
    rise : float or array
        Temperature rise on the centre line [K].
    origin : float or array
        :func:`virtual_origin` [m].
    air : float or array
        Temperature of the air [K].

    Returns
    -------
    float or array
        Radius [m].

    Notes
    -----
    0.12 (Tc/T)**(1/2) (z - z0), ``nureg1805``, chapter 9.
    """
    return 0.12 * power(1.0 + rise / air, 0.5) * (height - origin)


def flame_height(heat: Real, diameter: Real) -> Real:
    """Return the mean height of a fire's visible flame.

    Parameters
    ----------
    heat : float or array
        Heat released [W].
    diameter : float or array
        Diameter of the source [m].

    Returns
    -------
    float or array
        Height [m].

    Notes
    -----
    0.235 Q**(2/5) - 1.02 D, Q in kW, ``heskestad1983``, from memory. For fires in the open,
    not for a flame in a glass.
    """
    return 0.235 * power(heat / 1000.0, 0.4) - 1.02 * diameter


def _mccaffrey(reach: Real) -> tuple[Real, Real]:
    """Give kappa and eta of the region: flame, intermittent, plume."""
    zones = [np.less(reach, 0.08), np.less(reach, 0.20)]
    kappa = np.select(zones, [6.8, 1.9], 1.1)
    eta = np.select(zones, [0.5, 0.0], -1.0 / 3.0)
    return in_kind(kappa, reach), in_kind(eta, reach)


def mccaffrey_rise(height: Real, heat: Real, air: Real) -> Real:
    """Return the temperature rise on the centre line by McCaffrey.

    Parameters
    ----------
    height : float or array
        Height above the source [m].
    heat : float or array
        Heat released [W].
    air : float or array
        Temperature of the air [K].

    Returns
    -------
    float or array
        Temperature rise [K].

    Notes
    -----
    (kappa/(0.9 sqrt(2 g)))**2 (z/Q**(2/5))**(2 eta - 1) T, Q in kW, ``mccaffrey1979``.
    """
    reach = height / power(heat / 1000.0, 0.4)
    kappa, eta = _mccaffrey(reach)
    warm = (kappa / 0.9) ** 2 / (2.0 * _GRAVITY)
    spread: Real = np.power(reach, 2.0 * eta - 1.0)
    return warm * spread * air


def mccaffrey_velocity(height: Real, heat: Real) -> Real:
    """Return the velocity on the centre line by McCaffrey.

    Parameters
    ----------
    height : float or array
        Height above the source [m].
    heat : float or array
        Heat released [W].

    Returns
    -------
    float or array
        Velocity [m/s].

    Notes
    -----
    kappa (z/Q**(2/5))**eta Q**(1/5), Q in kW, ``mccaffrey1979``, from memory.
    """
    reach = height / power(heat / 1000.0, 0.4)
    kappa, eta = _mccaffrey(reach)
    spread: Real = np.power(reach, eta)
    return kappa * spread * power(heat / 1000.0, 0.2)


def alpert_rise(height: Real, radius: Real, heat: Real) -> Real:
    """Return the greatest temperature rise under a ceiling.

    Parameters
    ----------
    height : float or array
        Ceiling above the source [m].
    radius : float or array
        Distance from the axis [m].
    heat : float or array
        Heat released [W].

    Returns
    -------
    float or array
        Temperature rise [K].

    Notes
    -----
    16.9 Q**(2/3)/H**(5/3) for r/H up to 0.18, else 5.38 (Q/r)**(2/3)/H, Q in kW,
    ``alpert1972``.
    """
    power_kw = heat / 1000.0
    near = 16.9 * power(power_kw, 2.0 / 3.0) * power(height, -5.0 / 3.0)
    off = np.maximum(radius, 0.01 * height)
    far = 5.38 * power(power_kw / off, 2.0 / 3.0) / height
    return in_kind(np.where(np.less_equal(radius / height, 0.18), near, far), near)


def alpert_velocity(height: Real, radius: Real, heat: Real) -> Real:
    """Return the greatest gas velocity under a ceiling.

    Parameters
    ----------
    height : float or array
        Ceiling above the source [m].
    radius : float or array
        Distance from the axis [m].
    heat : float or array
        Heat released [W].

    Returns
    -------
    float or array
        Velocity [m/s].

    Notes
    -----
    0.96 (Q/H)**(1/3) for r/H up to 0.15, else 0.195 Q**(1/3) H**(1/2)/r**(5/6), Q in kW,
    ``alpert1972``.
    """
    power_kw = heat / 1000.0
    near = 0.96 * power(power_kw / height, 1.0 / 3.0)
    off = np.maximum(radius, 0.01 * height)
    far = 0.195 * power(power_kw, 1.0 / 3.0) * power(height, 0.5) * power(off, -5.0 / 6.0)
    return in_kind(np.where(np.less_equal(radius / height, 0.15), near, far), near)


def point_source_flux(heat: Real, share: Real, distance: Real) -> Real:
    """Return the radiant flux beside a source.

    Parameters
    ----------
    heat : float or array
        Heat released [W].
    share : float or array
        Share that leaves as radiation [-].
    distance : float or array
        Distance from the middle of the source [m].

    Returns
    -------
    float or array
        Flux on a surface that faces the source [W/m2].

    Notes
    -----
    chi Q/(4 pi R**2), ``nureg1805``, chapter 5. Nearer than about two sizes of the source it
    is a guess.
    """
    return share * heat / (4.0 * np.pi * distance**2)


def point_source_distance(heat: Real, share: Real, flux: Real) -> Real:
    """Return the distance at which a source's radiation has fallen to a given flux.

    Parameters
    ----------
    heat : float or array
        Heat released [W].
    share : float or array
        Share that leaves as radiation [-].
    flux : float or array
        Flux allowed [W/m2].

    Returns
    -------
    float or array
        Distance [m].

    Notes
    -----
    The inverse of :func:`point_source_flux`.
    """
    return power(share * heat / (4.0 * np.pi * flux), 0.5)

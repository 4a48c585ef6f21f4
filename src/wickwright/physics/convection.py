"""Heat carried by moving air: along upright walls, off plates, inside tubes."""

from __future__ import annotations

import numpy as np

from wickwright.physics.air import GRAVITY, dry_density
from wickwright.physics.formula import Real, Validity, in_kind, power
from wickwright.physics.transport import conductivity, heat_capacity, prandtl, viscosity

__all__ = [
    "CONVECTION_RANGES",
    "coefficient",
    "graetz",
    "grashof",
    "horizontal_cylinder_nusselt",
    "plate_facing_down_nusselt",
    "plate_facing_up_nusselt",
    "slender_cylinder_nusselt",
    "thick_enough",
    "tube_inside_nusselt",
    "upright_tube_coefficient",
    "upright_wall_nusselt",
]

CONVECTION_RANGES = (
    Validity("upright_wall_nusselt", "grashof * prandtl", "-", 0.0, 1e12, "churchill-chu1975"),
    Validity("slender_cylinder_nusselt", "prandtl", "-", 0.01, 100.0, "popiel2007"),
    Validity("plate_facing_up_nusselt", "grashof * prandtl", "-", 1e4, 1e11, "mcadams1954"),
    Validity("plate_facing_down_nusselt", "grashof * prandtl", "-", 1e5, 1e10, "mcadams1954"),
    Validity(
        "horizontal_cylinder_nusselt", "grashof * prandtl", "-", 1e-5, 1e12, "churchill-chu1975h"
    ),
    Validity("tube_inside_nusselt", "Reynolds number", "-", 0.0, 2300.0, "hausen1943"),
)
"""Ranges of this module's formulas."""

_MIXING = 1e7  # Rayleigh number above which the flow over a plate is turbulent


def grashof(length: Real, wall: Real, air: Real, pressure: Real) -> Real:
    """Return the Grashof number of a wall in air.

    Parameters
    ----------
    length : float or array
        Height of the wall, or the length the correlation asks for [m].
    wall : float or array
        Temperature of the wall [K].
    air : float or array
        Temperature of the air far from it [K].
    pressure : float or array
        Air pressure [Pa].

    Returns
    -------
    float or array
        Grashof number [-], properties at the mean of the two temperatures.

    Notes
    -----
    g beta dT L**3/nu**2 with beta = 1/T of an ideal gas, ``incropera``, equation 9.12.
    """
    film = 0.5 * (wall + air)
    kinematic = viscosity(film) / dry_density(pressure, film)
    return GRAVITY / film * (wall - air) * length**3 / kinematic**2


def upright_wall_nusselt(number: Real, grash: Real) -> Real:
    """Return the mean Nusselt number of an upright wall at one temperature.

    Parameters
    ----------
    number : float or array
        Prandtl number [-].
    grash : float or array
        Grashof number on the height [-].

    Returns
    -------
    float or array
        Nusselt number on the height [-].

    Notes
    -----
    ``churchill-chu1975``, equation 9.26 of ``incropera``:
    (0.825 + 0.387 Ra**(1/6)/(1 + (0.492/Pr)**(9/16))**
    (8/27))**2. Holds for a cylinder too where :func:`thick_enough` says so.
    """
    fade = power(1.0 + power(0.492 / number, 9.0 / 16.0), 8.0 / 27.0)
    return (0.825 + 0.387 * power(grash * number, 1.0 / 6.0) / fade) ** 2


def thick_enough(diameter: float, height: float, grash: float) -> bool:
    """Tell whether an upright cylinder may be taken for a flat wall.

    Parameters
    ----------
    diameter, height : float
        Size of the cylinder [m].
    grash : float
        Grashof number on the height [-].

    Returns
    -------
    bool
        True when D/L is at least 35/Gr**(1/4).

    Notes
    -----
    ``incropera``, section 9.6.1.
    """
    return bool(diameter / height >= 35.0 / power(grash, 0.25))


def slender_cylinder_nusselt(number: Real, grash: Real, slenderness: Real) -> Real:
    """Return the mean Nusselt number of an upright slender cylinder.

    Parameters
    ----------
    number : float or array
        Prandtl number [-].
    grash : float or array
        Grashof number on the height [-].
    slenderness : float or array
        Height over diameter [-].

    Returns
    -------
    float or array
        Nusselt number on the height [-].

    Notes
    -----
    ``popiel2007`` on :func:`upright_wall_nusselt`. The default for a glass
    tube: the boundary layer is not thin beside its radius.
    """
    log: Real = np.log(number)
    gain = 0.0571322 + 0.20305 * power(number, -0.43)
    exponent = 0.9165 - 0.0043 * power(number, 0.5) + 0.01333 * log + 0.0004809 / number
    curvature = 32.0**0.5 * power(grash, -0.25) * slenderness
    bent: Real = np.power(curvature, exponent)
    return upright_wall_nusselt(number, grash) * (1.0 + gain * bent)


def horizontal_cylinder_nusselt(number: Real, grash: Real) -> Real:
    """Return the mean Nusselt number of a horizontal cylinder.

    Parameters
    ----------
    number : float or array
        Prandtl number [-].
    grash : float or array
        Grashof number on the diameter [-].

    Returns
    -------
    float or array
        Nusselt number on the diameter [-].

    Notes
    -----
    ``churchill-chu1975h``, equation 9.34 of ``incropera``.
    """
    fade = power(1.0 + power(0.559 / number, 9.0 / 16.0), 8.0 / 27.0)
    return (0.60 + 0.387 * power(grash * number, 1.0 / 6.0) / fade) ** 2


def plate_facing_up_nusselt(number: Real, grash: Real) -> Real:
    """Return the Nusselt number of a hot plate that faces up.

    Parameters
    ----------
    number : float or array
        Prandtl number [-].
    grash : float or array
        Grashof number on area over perimeter [-].

    Returns
    -------
    float or array
        Nusselt number on area over perimeter [-].

    Notes
    -----
    ``mcadams1954``: 0.54 Ra**(1/4) up to 1e7, 0.15 Ra**(1/3) above.
    """
    rayleigh = grash * number
    calm, mixed = 0.54 * power(rayleigh, 0.25), 0.15 * power(rayleigh, 1.0 / 3.0)
    return in_kind(np.where(rayleigh <= _MIXING, calm, mixed), rayleigh)


def plate_facing_down_nusselt(number: Real, grash: Real) -> Real:
    """Return the Nusselt number of a hot plate that faces down.

    Parameters
    ----------
    number : float or array
        Prandtl number [-].
    grash : float or array
        Grashof number on area over perimeter [-].

    Returns
    -------
    float or array
        Nusselt number on area over perimeter [-].

    Notes
    -----
    ``mcadams1954``: 0.27 Ra**(1/4).
    """
    return 0.27 * power(grash * number, 0.25)


def graetz(flow: Real, temperature: Real, length: Real) -> Real:
    """Return the Graetz number of gas in a round tube.

    Parameters
    ----------
    flow : float or array
        Mass flow [kg/s].
    temperature : float or array
        Mean temperature of the gas [K].
    length : float or array
        Length of the tube [m].

    Returns
    -------
    float or array
        Re Pr D/L [-], for air.

    Notes
    -----
    4 G c/(pi k L): the diameter drops out.
    """
    stream = flow * heat_capacity(temperature)
    return 4.0 / np.pi * stream / (conductivity(temperature) * length)


def tube_inside_nusselt(number: Real) -> Real:
    """Return the mean Nusselt number of laminar flow in a tube at one wall temperature.

    Parameters
    ----------
    number : float or array
        Graetz number, Re Pr D/L [-].

    Returns
    -------
    float or array
        Nusselt number on the diameter [-]: 3.66 in a long tube.

    Notes
    -----
    3.66 + 0.0668 Gz/(1 + 0.04 Gz**(2/3)), ``hausen1943``: the velocity profile developed,
    the temperature profile not.
    """
    return 3.66 + 0.0668 * number / (1.0 + 0.04 * power(number, 2.0 / 3.0))


def coefficient(nusselt: Real, length: Real, film: Real) -> Real:
    """Return the heat-transfer coefficient for a Nusselt number in air.

    Parameters
    ----------
    nusselt : float or array
        Nusselt number [-].
    length : float or array
        The length it is formed on [m].
    film : float or array
        Mean temperature of wall and air [K].

    Returns
    -------
    float or array
        Coefficient [W/(m2 K)].

    Notes
    -----
    Nu k/L, by definition.
    """
    return nusselt * conductivity(film) / length


def upright_tube_coefficient(
    *, height: Real, diameter: Real, wall: Real, air: Real, pressure: Real
) -> Real:
    """Return the heat-transfer coefficient outside an upright tube in still air.

    Parameters
    ----------
    height, diameter : float or array
        Size of the tube [m].
    wall : float or array
        Temperature of the tube, above that of the air [K].
    air : float or array
        Temperature of the air [K].
    pressure : float or array
        Air pressure [Pa].

    Returns
    -------
    float or array
        Coefficient [W/(m2 K)].

    Notes
    -----
    :func:`slender_cylinder_nusselt` with properties at the mean temperature.
    """
    film = 0.5 * (wall + air)
    grash = grashof(height, wall, air, pressure)
    nusselt = slender_cylinder_nusselt(prandtl(film), grash, height / diameter)
    return coefficient(nusselt, height, film)

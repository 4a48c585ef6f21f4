"""How a chimney's glass gives its heat to the room, and takes it from the gas inside."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

from wickwright.burn.burnt_gas import conductivity_of, viscosity_of
from wickwright.burn.steps import Steps, steps_of
from wickwright.physics.air import GRAVITY
from wickwright.physics.convection import (
    slender_cylinder_nusselt,
    tube_inside_nusselt,
    upright_wall_nusselt,
)

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

__all__ = ["PRANDTL", "inside_nusselt", "outside_coefficient"]

PRANDTL = 0.70
"""Of air from 300 K to 700 K, within 2 % [-]; ``lemmon2004``."""

_FLAT_TOP, _BENT_TOP, _GRAETZ_TOP, _FINE = 600.0, 4.0, 1024.0, 8192


@lru_cache(maxsize=1)
def _flat() -> Steps:
    """Nusselt number of an upright wall, by the fourth root of the Grashof number."""
    root = np.linspace(0.0, _FLAT_TOP, _FINE)
    return steps_of(0.0, _FLAT_TOP, upright_wall_nusselt(np.asarray(PRANDTL), root**4))


@lru_cache(maxsize=1)
def _gain() -> Steps:
    """Gain of a slender cylinder over it, by slenderness over that root."""
    bent, one = np.linspace(0.0, _BENT_TOP, _FINE), np.asarray(1.0)
    slender = slender_cylinder_nusselt(np.asarray(PRANDTL), one, bent)
    return steps_of(0.0, _BENT_TOP, slender / upright_wall_nusselt(np.asarray(PRANDTL), one))


@lru_cache(maxsize=1)
def _inside() -> Steps:
    """Nusselt number in the tube, by Graetz number."""
    number = np.linspace(0.0, _GRAETZ_TOP, _FINE)
    return steps_of(0.0, _GRAETZ_TOP, tube_inside_nusselt(number))


def inside_nusselt(graetz: Floats) -> Floats:
    """Return the Nusselt number in the tube, fast.

    Parameters
    ----------
    graetz : array
        Graetz number [-].

    Returns
    -------
    array
        Nusselt number on the bore [-]; ``hausen1943``.
    """
    return _inside().at(graetz)


def outside_coefficient(
    wall: Floats, room: Floats, dense: Floats, height: Floats, slenderness: Floats
) -> Floats:
    """Return the convective coefficient outside the glass, fast.

    Parameters
    ----------
    wall, room : array
        Mean temperature of the glass and of the room [K].
    dense : array
        Density of the room's air times its temperature [kg K/m3].
    height : array
        Height of the chimney [m].
    slenderness : array
        Height over outside diameter [-].

    Returns
    -------
    array
        Coefficient [W/(m2 K)].

    Notes
    -----
    ``popiel2007`` on ``churchill-chu1975``, as
    :func:`wickwright.physics.convection.upright_tube_coefficient`, properties at the mean
    temperature, Prandtl number :data:`PRANDTL`.
    """
    film = 0.5 * (wall + room)
    fluid = dense / (film * viscosity_of(film))
    grashof = GRAVITY / film * np.maximum(wall - room, 1e-3) * height**3 * fluid * fluid
    root = np.sqrt(np.sqrt(grashof))
    nusselt = _flat().at(root) * _gain().at(slenderness / root)
    return nusselt * conductivity_of(film) / height

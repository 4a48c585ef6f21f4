"""The heat a lamp sends out sideways, and how near a curtain, wall or shade may be."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickwright.physics.convection import coefficient, grashof, upright_wall_nusselt
from wickwright.physics.plume import point_source_distance, point_source_flux
from wickwright.physics.radiation import enclosed_exchange
from wickwright.physics.transport import prandtl
from wickwright.room.carbon_monoxide import Assumed
from wickwright.room.checks import Bound, demand

if TYPE_CHECKING:
    from wickwright.physics.formula import Real

__all__ = [
    "ABSORBED",
    "RADIANT_SHARE",
    "distance_that_cools",
    "flux_held",
    "radiant_flux",
    "surface_beside",
]

RADIANT_SHARE: Final = Assumed(
    0.2, 0.4, "-", "assumption", "share of the lamp's heat that leaves sideways as radiation"
)
"""Assumed, with 0.3 in the middle; findings take the upper end."""
ABSORBED: Final = 0.9
"""What wood, cloth and painted plaster take up and give off [-]; ``emissivity``."""
_PATCH = 0.3  # m, height of the warm patch whose air rises


def radiant_flux(heat: Real, share: Real, distance: Real) -> Real:
    """Return the radiant heat that falls on a surface beside a lamp.

    Parameters
    ----------
    heat : float or array
        All heat of the lamp [W].
    share : float or array
        Share that leaves as radiation [-].
    distance : float or array
        From the mantle [m].

    Returns
    -------
    float or array
        Flux on a surface that faces the mantle [W/m2].

    Notes
    -----
    ``nureg1805``, chapter 5, a point source: nearer than about 0.2 m it is a guess.
    """
    return point_source_flux(heat, share, distance)


def flux_held(temperature: float, air: float, pressure: float) -> float:
    """Return the radiant heat that would hold a surface at a temperature.

    Parameters
    ----------
    temperature : float
        Temperature of the surface, not below that of the air [K].
    air : float
        Temperature of the room and its walls [K].
    pressure : float
        Air pressure [Pa].

    Returns
    -------
    float
        Flux that falls on it [W/m2].

    Notes
    -----
    Taken up: 0.9 of it. Given back from the front alone, by air along an upright patch
    0.3 m high (``churchill-chu1975``) and by radiation; nothing goes through to the back,
    which errs on the safe side.
    """
    film = 0.5 * (temperature + air)
    grash = grashof(_PATCH, temperature, air, pressure)
    by_air = coefficient(upright_wall_nusselt(prandtl(film), grash), _PATCH, film)
    given = by_air * (temperature - air) + enclosed_exchange(ABSORBED, 1.0, temperature, air)
    return given / ABSORBED


def surface_beside(flux: float, air: float, pressure: float) -> float:
    """Return the temperature a surface settles at under radiant heat.

    Parameters
    ----------
    flux : float
        Radiant heat that falls on it [W/m2].
    air : float
        Temperature of the room [K].
    pressure : float
        Air pressure [Pa].

    Returns
    -------
    float
        Temperature [K].

    Raises
    ------
    RoomError
        When the flux is below zero.

    Notes
    -----
    The inverse of :func:`flux_held`, by halving intervals.
    """
    demand(Bound("radiant heat", flux, 0.0, 1e6, "W/m2", "Ask radiant_flux for it"))
    low, high = air, 4000.0
    for _ in range(60):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if flux_held(middle, air, pressure) < flux else (low, middle)
    return high


def distance_that_cools(
    heat: float, share: float, temperature: float, air: float, pressure: float
) -> float:
    """Return how far from the mantle a surface stays at a temperature or below.

    Parameters
    ----------
    heat : float
        All heat of the lamp [W].
    share : float
        Share that leaves as radiation [-].
    temperature : float
        Temperature allowed, above that of the room [K].
    air : float
        Temperature of the room [K].
    pressure : float
        Air pressure [Pa].

    Returns
    -------
    float
        Distance [m].

    Raises
    ------
    RoomError
        When the share is no share, or the room is as warm as the temperature allowed.
    """
    demand(
        Bound("heat of the lamp", heat, 0.0, 1e5, "W", "A mantle lamp gives 700 to 950 W"),
        Bound("share that is radiation", share, 0.0, 1.0, "", "Assume 0.2 to 0.4"),
        Bound(
            "temperature allowed beside the lamp",
            temperature,
            air + 1.0,
            2500.0,
            "K",
            "The room itself is warmer: cool the room, or ask for more",
        ),
    )
    return point_source_distance(heat, share, flux_held(temperature, air, pressure))

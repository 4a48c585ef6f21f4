"""Glass under heat: stress, shock, and the gap between glass and metal."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickwright.physics.formula import Validity

if TYPE_CHECKING:
    from wickwright.physics.formula import Real

__all__ = [
    "BOROSILICATE",
    "BRASS",
    "EXPANSION",
    "GLASS_RANGES",
    "SODA_LIME",
    "STEEL",
    "Expansion",
    "Glass",
    "clamped_stress",
    "gap_change",
    "shock_limit",
    "shock_limit_one_way",
    "stress_per_kelvin",
    "wall_drop",
    "wall_stress",
]


@dataclass(frozen=True, slots=True)
class Expansion:
    """How much a material grows when warmed.

    Attributes
    ----------
    material : str
        Name.
    value : float
        Linear expansion used [1/K].
    low, high : float
        Spread between sources and alloys [1/K].
    source : str
        Key of the bibliography.
    """

    material: str
    value: float
    low: float
    high: float
    source: str


@dataclass(frozen=True, slots=True)
class Glass:
    """A glass.

    Attributes
    ----------
    name : str
        What it is.
    expansion : float
        Linear expansion, 20 to 300 °C [1/K].
    modulus : float
        Young's modulus [Pa].
    poisson : float
        Poisson's ratio [-].
    density : float
        Density [kg/m3].
    conductivity : float
        Thermal conductivity [W/(m K)].
    warmest : float
        Highest temperature for short use [K].
    source : str
        Key of the bibliography.
    """

    name: str
    expansion: float
    modulus: float
    poisson: float
    density: float
    conductivity: float
    warmest: float
    source: str


BOROSILICATE: Final = Glass("borosilicate 3.3", 3.3e-6, 64e9, 0.20, 2230.0, 1.2, 773.15, "iso3585")
SODA_LIME: Final = Glass("soda-lime", 9.0e-6, 72e9, 0.22, 2500.0, 1.0, 723.15, "soda-lime")
BRASS: Final = Expansion("brass", 19.0e-6, 18.7e-6, 20.0e-6, "expansion")
STEEL: Final = Expansion("steel", 12.0e-6, 11.7e-6, 12.3e-6, "expansion")
EXPANSION: Final = (
    BRASS,
    STEEL,
    Expansion(BOROSILICATE.name, 3.3e-6, 3.2e-6, 3.4e-6, "iso3585"),
    Expansion(SODA_LIME.name, 9.0e-6, 8.5e-6, 9.1e-6, "soda-lime"),
)
"""Linear expansions, for a table."""
GLASS_RANGES = (
    Validity("clamped_stress", "temperature", "K", 293.15, 573.15, "iso3585"),
    Validity("shock_limit", "strength", "Pa", 1e7, 1e8, "assumption"),
)
"""Range of the expansions, and of strengths worth putting in: old glass is scratched."""


def stress_per_kelvin(glass: Glass) -> float:
    """Return the surface stress for each kelvin the surface is held from shrinking.

    Parameters
    ----------
    glass : Glass
        The glass.

    Returns
    -------
    float
        Stress in both directions of the surface [Pa/K].

    Notes
    -----
    E alpha/(1 - nu), ``timoshenko1951``.
    """
    return glass.modulus * glass.expansion / (1.0 - glass.poisson)


def clamped_stress(glass: Glass, difference: Real) -> Real:
    """Return the tension in a surface chilled at once.

    Parameters
    ----------
    glass : Glass
        The glass.
    difference : float or array
        Body hotter than surface [K].

    Returns
    -------
    float or array
        Tension in the surface [Pa], compression below zero.

    Notes
    -----
    :func:`stress_per_kelvin` dT: the worst case, a surface that took the new temperature
    before the body noticed.
    """
    return stress_per_kelvin(glass) * difference


def shock_limit(glass: Glass, strength: Real) -> Real:
    """Return the sudden chill that a surface stands.

    Parameters
    ----------
    glass : Glass
        The glass.
    strength : float or array
        Tension at which the surface breaks [Pa].

    Returns
    -------
    float or array
        Temperature difference [K].

    Notes
    -----
    sigma (1 - nu)/(E alpha), ``kingery1955``. The default: a wall is stressed both ways.
    """
    return strength / stress_per_kelvin(glass)


def shock_limit_one_way(glass: Glass, strength: Real) -> Real:
    """Return the sudden chill that a rod stands.

    Parameters
    ----------
    glass : Glass
        The glass.
    strength : float or array
        Tension at which it breaks [Pa].

    Returns
    -------
    float or array
        Temperature difference [K], too hopeful for a wall.

    Notes
    -----
    sigma/(E alpha), ``callister``.
    """
    return strength / (glass.modulus * glass.expansion)


def wall_drop(glass: Glass, flux: Real, thickness: Real) -> Real:
    """Return the temperature drop through a wall under a steady flux.

    Parameters
    ----------
    glass : Glass
        The glass.
    flux : float or array
        Heat through the wall [W/m2].
    thickness : float or array
        Wall thickness [m].

    Returns
    -------
    float or array
        Temperature difference [K].

    Notes
    -----
    q t/k, Fourier.
    """
    return flux * thickness / glass.conductivity


def wall_stress(glass: Glass, drop: Real) -> Real:
    """Return the tension in the cool face of a thin wall that conducts steadily.

    Parameters
    ----------
    glass : Glass
        The glass.
    drop : float or array
        Temperature difference between the faces [K].

    Returns
    -------
    float or array
        Tension in the cool face, equal to the compression in the warm one [Pa].

    Notes
    -----
    E alpha dT/(2 (1 - nu)), thin wall, ``timoshenko1951``.
    """
    return 0.5 * clamped_stress(glass, drop)


def gap_change(seat: Real, rise: Real, outer: Real, inner: Real) -> Real:
    """Return how much a gap on the diameter opens when both sides are warmed alike.

    Parameters
    ----------
    seat : float or array
        Diameter of the seat [m].
    rise : float or array
        Temperature rise of both [K].
    outer, inner : float or array
        Linear expansions of the outer and the inner side [1/K].

    Returns
    -------
    float or array
        Change of the gap [m]: above zero it opens.

    Notes
    -----
    D dT (a_o - a_i).
    """
    return seat * rise * (outer - inner)

"""Where everything stands, what it weighs, and at which slope it tips.

A body tips when the plumb line through its centre of mass leaves the base:
``tan(angle) = R / h`` (source key ``statics``), with ``R`` the distance from the axis to
the nearest edge of the base in the worst direction, ``R cos(pi / n)`` for ``n`` feet.

Fuel runs to the low side. For a straight-sided font of radius ``r`` filled to depth ``h``
that acts as if its mass stood higher by ``r**2 / (4 h)``, the metacentric height of a free
surface; a full font has none.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.catalogue.records import Footing

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickwright.catalogue.assembly import Assembly, Mounted
    from wickwright.catalogue.records import Fuel, Part, Support
    from wickwright.fit.settings import Settings

__all__ = [
    "Placed",
    "Stance",
    "base_reach",
    "fuel_load",
    "placed",
    "stance",
    "tip_angle",
    "tip_energy",
    "tipping_force",
    "unweighed",
]

_GRAVITY = 9.80665
"""Standard acceleration of free fall [m/s2], by definition."""


@dataclass(frozen=True, slots=True)
class Placed:
    """A part and how high its foot stands.

    Attributes
    ----------
    part : Part
        The part.
    foot : float
        Height of its foot above the table [m].
    """

    part: Part
    foot: float

    @property
    def top(self) -> float:
        """Height of its top above the table [m]."""
        return self.foot + (self.part.height or 0.0)


@dataclass(frozen=True, slots=True)
class Stance:
    """How an assembled lamp stands at one filling.

    Attributes
    ----------
    fill : float
        0 empty to 1 full.
    mass : float
        Total [kg].
    centre : float
        Height of the centre of mass, fuel counted at its metacentre [m].
    reach : float
        Axis to the nearest edge of the base [m]; 0 when it cannot tip.
    angle : float
        Slope at which it tips [rad]; a quarter turn when it cannot.
    """

    fill: float
    mass: float
    centre: float
    reach: float
    angle: float


def base_reach(support: Support) -> float:
    """Return the distance from the axis to the nearest edge in the worst direction.

    Parameters
    ----------
    support : Support
        What the base stands on.

    Returns
    -------
    float
        ``R``, or ``R cos(pi / n)`` for ``n`` feet [m]; infinite when hung or fixed.
    """
    match support.footing:
        case Footing.ROUND:
            return support.radius
        case Footing.FEET:
            return support.radius * math.cos(math.pi / support.feet)
        case _:
            return math.inf


def tip_angle(reach: float, centre: float) -> float:
    """Return the slope at which a body tips.

    Parameters
    ----------
    reach : float
        Axis to the nearest edge of the base [m].
    centre : float
        Height of the centre of mass [m].

    Returns
    -------
    float
        ``atan(reach / centre)`` [rad].
    """
    return math.atan2(reach, centre)


def tipping_force(mass: float, reach: float, push_height: float) -> float:
    """Return the level push that begins to tip a body.

    Parameters
    ----------
    mass : float
        Of the whole body [kg].
    reach : float
        Axis to the nearest edge of the base [m].
    push_height : float
        Where it is pushed, above the ground [m].

    Returns
    -------
    float
        ``m g R / H`` [N] (source key ``statics``). The body is taken not to slide.
    """
    return mass * _GRAVITY * reach / push_height


def tip_energy(mass: float, reach: float, centre: float) -> float:
    """Return the work that brings a body from standing level to the point of tipping.

    Parameters
    ----------
    mass : float
        Of the whole body [kg].
    reach : float
        Axis to the nearest edge of the base [m].
    centre : float
        Height of the centre of mass [m].

    Returns
    -------
    float
        ``m g (sqrt(R**2 + h**2) - h)`` [J] (source key ``statics``): the centre of mass rises
        to its distance from the edge it turns about.
    """
    return mass * _GRAVITY * (math.hypot(reach, centre) - centre)


def fuel_load(fuel: Fuel, fill: float, density: float) -> tuple[float, float]:
    """Return the mass of the fuel and the height it acts at.

    Parameters
    ----------
    fuel : Fuel
        The fuel space, taken as straight-sided.
    fill : float
        0 empty to 1 full.
    density : float
        Of the fuel [kg/m3].

    Returns
    -------
    tuple of float
        Mass [kg] and height above the font's own foot [m], raised by the free surface.
    """
    mass = fuel.volume * fill * density
    depth = fuel.depth * fill
    if fill <= 0.0:
        return 0.0, fuel.floor
    free = 0.0 if fill >= 1.0 else fuel.volume / (math.pi * fuel.depth) / (4 * depth)
    return mass, fuel.floor + depth / 2 + free


def placed(assembly: Assembly) -> tuple[Placed, ...]:
    """Return every mounted part with the height of its foot above the table."""
    return tuple(_rising(assembly.root, 0.0)) if assembly.root else ()


def _rising(it: Mounted, foot: float) -> Iterator[Placed]:
    yield Placed(it.part, foot)
    for child in it.carried:
        stand = child.by.height if child.by else 0.0
        yield from _rising(child, foot + (child.on.height if child.on else 0.0) - stand)


def stance(assembly: Assembly, settings: Settings, *, dry: bool = False) -> tuple[Stance, ...]:
    """Return how a lamp stands at each filling.

    Parameters
    ----------
    assembly : Assembly
        A lamp whose parts all have mass and centre; others count nothing, see
        :func:`unweighed`.
    settings : Settings
        Fillings and fuel.
    dry : bool
        True when there must be no fuel, as with an electric burner.

    Returns
    -------
    tuple of Stance
        One for each filling; one only when dry or without a fuel space.
    """
    parts = [it for it in placed(assembly) if it.part.kind != "tool"]
    if not parts:
        return ()
    support = parts[0].part.support
    reach = base_reach(support) if support else math.inf
    fuelled = [it for it in parts if it.part.fuel]
    fills: Sequence[float] = settings.fills if fuelled and not dry else (0.0,)
    return tuple(_at(fill, parts, fuelled, reach, settings.fuel_density) for fill in fills)


def _at(
    fill: float, parts: list[Placed], fuelled: list[Placed], reach: float, density: float
) -> Stance:
    loads = [(it.part.mass or 0.0, it.foot + (it.part.centre or 0.0)) for it in parts]
    for it in fuelled:
        if it.part.fuel:
            mass, height = fuel_load(it.part.fuel, fill, density)
            loads.append((mass, it.foot + height))
    total = sum(mass for mass, _ in loads)
    centre = sum(mass * height for mass, height in loads) / total if total else 0.0
    if math.isinf(reach):
        return Stance(fill, total, centre, 0.0, math.pi / 2)
    return Stance(fill, total, centre, reach, tip_angle(reach, centre))


def unweighed(assembly: Assembly) -> tuple[str, ...]:
    """Return the parts whose mass or centre of mass is not known, by id."""
    return tuple(
        it.part.id
        for it in assembly.walk()
        if it.part.kind != "tool" and (it.part.mass is None or it.part.centre is None)
    )

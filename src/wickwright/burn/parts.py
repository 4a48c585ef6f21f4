"""What a flame is computed from: passages, wick, mantle, chimney, air and what is assumed.

Every field is a float or an array of floats in SI units; arrays of one call broadcast against
each other, so that chimneys, elevations and settings may each lie along an axis of their own.
"""

from __future__ import annotations

from dataclasses import dataclass, field, fields, replace
from typing import TYPE_CHECKING, Final

import numpy as np

from wickwright.physics.combustion import AIR, KEROSENE
from wickwright.physics.kerosene import DENSITY

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

__all__ = [
    "FULLEST",
    "Air",
    "Chimney",
    "Lamps",
    "Mantle",
    "Model",
    "Passages",
    "Values",
    "Wick",
    "columned",
    "leaves",
    "with_leaf",
]

Values = "float | NDArray[np.float64]"
"""A float, or an array of floats that broadcasts."""

FULLEST: Final = np.inf
"""The setting that stands for the most fuel that burns clean."""


@dataclass(frozen=True, slots=True)
class Passages:
    """How a burner lets its air through.

    Attributes
    ----------
    area : float or array
        Area the loss coefficient refers to [m2].
    loss : float or array
        Velocity heads lost on the way to the flame, in the room's air [-].
    laminar : float or array
        Laminar resistance: pressure over viscosity and volume flow [1/m3].
    inner_share : float or array
        Share of the air that comes through the inner tube [-].
    """

    area: float | NDArray[np.float64]
    loss: float | NDArray[np.float64]
    laminar: float | NDArray[np.float64]
    inner_share: float | NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Wick:
    """What the wick gives and what its flame stands.

    Attributes
    ----------
    limit : float or array
        Most fuel it can give [kg/s].
    least_air : float or array
        Least ratio of air supplied to air needed at which the flame stays clean [-].
    efficacy : float or array
        Light of the flame itself for each watt of heat [lm/W]; 0 for a blue flame.
    radiant : float or array
        Share of the heat that the flame's own glow carries off [-]; 0 for a blue flame.
    """

    limit: float | NDArray[np.float64]
    least_air: float | NDArray[np.float64]
    efficacy: float | NDArray[np.float64] = 0.0
    radiant: float | NDArray[np.float64] = 0.0


@dataclass(frozen=True, slots=True)
class Mantle:
    """The web that gives the light.

    Attributes
    ----------
    area : float or array
        Area that radiates [m2]; 0 where there is no mantle.
    visible, infrared : float or array
        Emissivity below and above 0.7 um [-].
    exchange : float or array
        Heat it takes from the flame for each kelvin between them [W/K].
    """

    area: float | NDArray[np.float64]
    visible: float | NDArray[np.float64]
    infrared: float | NDArray[np.float64]
    exchange: float | NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Chimney:
    """The glass tube, by section.

    Attributes
    ----------
    height : float or array
        From foot to top [m].
    foot_bore, foot_length : float or array
        Inside diameter and length of the wide part round the flame [m].
    body_bore : float or array
        Inside diameter above it [m].
    wall : float or array
        Thickness of the glass [m].
    """

    height: float | NDArray[np.float64]
    foot_bore: float | NDArray[np.float64]
    foot_length: float | NDArray[np.float64]
    body_bore: float | NDArray[np.float64]
    wall: float | NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Air:
    """The air of the room.

    Attributes
    ----------
    pressure : float or array
        Of the place [Pa].
    temperature : float or array
        Of the room [K].
    humidity : float or array
        Relative humidity [-].
    oxygen, carbon_dioxide : float or array
        Mole fractions in the dry air [-].
    """

    pressure: float | NDArray[np.float64]
    temperature: float | NDArray[np.float64] = 293.15
    humidity: float | NDArray[np.float64] = 0.5
    oxygen: float | NDArray[np.float64] = AIR["O2"]
    carbon_dioxide: float | NDArray[np.float64] = AIR["CO2"]


@dataclass(frozen=True, slots=True)
class Model:
    """What no part of a lamp says: our assumptions, and the fuel.

    Attributes
    ----------
    outer_joined : float or array
        Share of the outer air that has joined the flame where it meets the mantle [-].
    cooled_share : float or array
        Share of the heat the gas gives to the foot's glass that is gone before the gas meets
        the mantle [-].
    gas_emissivity : float or array
        Emissivity of burnt gas in a bore of 40 mm at sea level [-].
    glass_emissivity : float or array
        Emissivity of glass [-].
    foot_contact : float or array
        Convection to the glass of the foot, over what it would be in a full tube [-]: a cool
        mantle of unburnt air lies between.
    flame_base : float or array
        Height above the chimney's foot at which the column begins to be hot [m].
    neck_loss : float or array
        Velocity heads lost where the foot narrows to the body [-].
    transmission : float or array
        Share of the light that passes the glass [-].
    soot_far_share : float or array
        Share of a yellow flame's glow that the glass stops [-].
    heating_value : float or array
        Lower heating value of the fuel [J/kg].
    density : float or array
        Of the fuel [kg/m3].
    """

    outer_joined: float | NDArray[np.float64] = 0.4
    cooled_share: float | NDArray[np.float64] = 0.2
    gas_emissivity: float | NDArray[np.float64] = 0.045
    glass_emissivity: float | NDArray[np.float64] = 0.90
    foot_contact: float | NDArray[np.float64] = 0.25
    flame_base: float | NDArray[np.float64] = 0.012
    neck_loss: float | NDArray[np.float64] = 0.1
    transmission: float | NDArray[np.float64] = 0.90
    soot_far_share: float | NDArray[np.float64] = 0.40
    heating_value: float | NDArray[np.float64] = KEROSENE.lower_heating_value
    density: float | NDArray[np.float64] = DENSITY.value


@dataclass(frozen=True, slots=True)
class Lamps:
    """One lamp state or many: everything the flame depends on.

    Attributes
    ----------
    passages, wick, mantle, chimney, air, model : record
        As above.
    fuel : float or array
        Fuel the wick is set to [kg/s]; :data:`FULLEST` for the most that burns clean.
    """

    passages: Passages
    wick: Wick
    mantle: Mantle
    chimney: Chimney
    air: Air
    model: Model = field(default_factory=Model)
    fuel: float | NDArray[np.float64] = FULLEST


_GROUPS = ("passages", "wick", "mantle", "chimney", "air", "model")


def leaves(lamps: Lamps) -> Iterator[tuple[str, float | NDArray[np.float64]]]:
    """Yield every number of a lamp with its name.

    Parameters
    ----------
    lamps : Lamps
        One state or many.

    Yields
    ------
    tuple of str and float or array
        Such as ``('chimney.height', 0.296)``; the setting as ``'fuel'``.
    """
    for group in _GROUPS:
        record = getattr(lamps, group)
        for one in fields(record):
            yield f"{group}.{one.name}", getattr(record, one.name)
    yield "fuel", lamps.fuel


def with_leaf(lamps: Lamps, name: str, value: float | NDArray[np.float64]) -> Lamps:
    """Return lamps with one number changed.

    Parameters
    ----------
    lamps : Lamps
        One state or many.
    name : str
        As :func:`leaves` gives it.
    value : float or array
        The new value [SI unit of the number].

    Returns
    -------
    Lamps
        The same otherwise.
    """
    if name == "fuel":
        return replace(lamps, fuel=value)
    group, leaf = name.split(".")
    return replace(lamps, **{group: replace(getattr(lamps, group), **{leaf: value})})


def columned(lamps: Lamps) -> Lamps:
    """Return lamps with a new last axis, for places or settings to lie along.

    Parameters
    ----------
    lamps : Lamps
        One state or many.

    Returns
    -------
    Lamps
        Every array with an axis of one behind its own; floats stay as they are.
    """
    for name, value in leaves(lamps):
        if np.ndim(value):
            lamps = with_leaf(lamps, name, np.asarray(value)[..., None])
    return lamps

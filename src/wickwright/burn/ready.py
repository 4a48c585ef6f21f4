"""What of a lamp state does not change while its flame is sought."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from wickwright.burn.burnt_gas import NEEDED_AIR, gas, polynomial, viscosity_of
from wickwright.physics.air import SEA_LEVEL_PRESSURE
from wickwright.physics.combustion import KEROSENE
from wickwright.physics.humidity import saturation_pressure
from wickwright.physics.species import MOLAR_GAS_CONSTANT

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from wickwright.burn.parts import Air, Chimney, Lamps

    Floats = NDArray[np.float64]

__all__ = ["CELLS", "AirHere", "Ready", "Tube", "air_here", "ready", "room_density"]

CELLS: Final = 3
"""Lengths of chimney with one glass temperature each: the foot and two halves of the body."""

_OXYGEN, _CARBON_DIOXIDE, _NITROGEN, _WATER = 0.031998, 0.044009, 0.028155, 0.018015
"""Molar masses [kg/mol]; nitrogen with its argon."""
_STEAM = 2.0
"""Heat capacity of steam over that of air near 1500 K [-]; ``nasa-tm4513``."""
_REFERENCE_BORE = 0.040


@dataclass(frozen=True, slots=True)
class AirHere:
    """The room's air as the flame meets it.

    Attributes
    ----------
    pressure, temperature : array
        As given [Pa, K].
    thin : array
        Logarithm of the pressure over that at sea level [-].
    density : array
        Of the moist air [kg/m3].
    viscosity : array
        [Pa s].
    needed : array
        Moist air that just burns a kilogram of fuel [kg/kg].
    thermal : array
        Standard dry air that warms as much as the air needed, over :data:`NEEDED_AIR` [-].
    warm : array
        Heat content of a kilogram of standard air at the room's temperature [J/kg].
    """

    pressure: Floats
    temperature: Floats
    thin: Floats
    density: Floats
    viscosity: Floats
    needed: Floats
    thermal: Floats
    warm: Floats


@dataclass(frozen=True, slots=True)
class Tube:
    """The chimney cell by cell, from the foot up.

    Attributes
    ----------
    height, slenderness : array
        Height [m] and height over outside diameter [-].
    lengths, bores, inner, outer : tuple of array
        Of each cell: length and bore [m], inside and outside surface [m2].
    foot_area, body_area : array
        Sections [m2].
    """

    height: Floats
    slenderness: Floats
    lengths: tuple[Floats, ...]
    bores: tuple[Floats, ...]
    inner: tuple[Floats, ...]
    outer: tuple[Floats, ...]
    foot_area: Floats
    body_area: Floats


@dataclass(frozen=True, slots=True)
class Ready:
    """One chunk of lamp states, prepared.

    Attributes
    ----------
    lamps : Lamps
        As given, every number an array.
    air : AirHere
        The room's air.
    tube : Tube
        The chimney.
    cap : array
        Fuel for each kilogram of air at the least clean ratio [kg/kg]; infinite where a
        setting is given.
    fuel : array
        Fuel the wick is set to, or its limit where the fullest flame is asked for [kg/s].
    joined : array
        Share of the spare air that has joined the flame where it meets the mantle [-].
    lacking : array
        Share of the standard heating value that this fuel lacks [-].
    gas_emissivity : tuple of array
        Of the burnt gas in each cell [-].
    drag : array
        Pressure for each squared kilogram a second of air through the burner [Pa s2/kg2].
    laminar : array
        Pressure for each kilogram a second of air through the burner [Pa s/kg].
    """

    lamps: Lamps
    air: AirHere
    tube: Tube
    cap: Floats
    fuel: Floats
    joined: Floats
    lacking: Floats
    gas_emissivity: tuple[Floats, ...]
    drag: Floats
    laminar: Floats


def _moist(air: Air) -> tuple[Floats, Floats, Floats]:
    """Return the mole fraction of water, molar mass [kg/mol] and oxygen of moist air."""
    pressure, room = np.asarray(air.pressure), np.asarray(air.temperature)
    water = air.humidity * saturation_pressure(room) / pressure
    dry = (
        _OXYGEN * air.oxygen
        + _CARBON_DIOXIDE * air.carbon_dioxide
        + _NITROGEN * (1.0 - air.oxygen - air.carbon_dioxide)
    )
    mass = (1.0 - water) * dry + water * _WATER
    return np.asarray(water), np.asarray(mass), np.asarray((1.0 - water) * air.oxygen)


def room_density(air: Air) -> Floats:
    """Return the density of the room's moist air.

    Parameters
    ----------
    air : Air
        The air of the room.

    Returns
    -------
    array
        Density [kg/m3]: that of the place's pressure and the room's temperature.

    Notes
    -----
    Ideal gas of the molar mass the composition gives.
    """
    _, mass, _ = _moist(air)
    return np.asarray(air.pressure * mass / (MOLAR_GAS_CONSTANT * np.asarray(air.temperature)))


def air_here(air: Air) -> AirHere:
    """Prepare the air of a room.

    Parameters
    ----------
    air : Air
        The air of the room.

    Returns
    -------
    AirHere
        As the flame meets it. Air short of oxygen is standard air with inert gas added;
        water counts as inert gas of twice the heat capacity.
    """
    water, mass, oxygen = _moist(air)
    room = np.asarray(air.temperature)
    needed = KEROSENE.oxygen / oxygen * mass / KEROSENE.molar_mass
    wet = water * _WATER / mass
    heavy = needed * (1.0 + (_STEAM - 1.0) * wet)
    warm = polynomial(gas().air, room)
    return AirHere(
        pressure=np.asarray(air.pressure),
        temperature=room,
        thin=np.asarray(np.log(np.asarray(air.pressure) / SEA_LEVEL_PRESSURE)),
        density=room_density(air),
        viscosity=np.asarray(viscosity_of(room)),
        needed=np.asarray(needed),
        thermal=np.asarray(heavy / NEEDED_AIR),
        warm=np.asarray(warm),
    )


def _tube(chimney: Chimney) -> Tube:
    foot = np.asarray(chimney.foot_length)
    height = np.asarray(chimney.height)
    half = 0.5 * (height - foot)
    lengths = (foot, half, half)
    bores = tuple(map(np.asarray, (chimney.foot_bore, chimney.body_bore, chimney.body_bore)))
    wall = np.asarray(chimney.wall)
    return Tube(
        height=height,
        slenderness=np.asarray(height / (bores[1] + 2.0 * wall)),
        lengths=lengths,
        bores=bores,
        inner=tuple(np.pi * b * n for b, n in zip(bores, lengths, strict=True)),
        outer=tuple(np.pi * (b + 2.0 * wall) * n for b, n in zip(bores, lengths, strict=True)),
        foot_area=np.asarray(0.25 * np.pi * bores[0] ** 2),
        body_area=np.asarray(0.25 * np.pi * bores[1] ** 2),
    )


def ready(lamps: Lamps) -> Ready:
    """Prepare a chunk of lamp states.

    Parameters
    ----------
    lamps : Lamps
        One state or many, checked.

    Returns
    -------
    Ready
        Everything that stays while the flame is sought.
    """
    air, tube = air_here(lamps.air), _tube(lamps.chimney)
    passages, wick, model = lamps.passages, lamps.wick, lamps.model
    asked = np.asarray(lamps.fuel, dtype=np.float64)
    fullest = np.isinf(asked)
    inner = np.asarray(passages.inner_share)
    thick = [np.sqrt(air.pressure / SEA_LEVEL_PRESSURE * b / _REFERENCE_BORE) for b in tube.bores]
    return Ready(
        lamps=lamps,
        air=air,
        tube=tube,
        cap=np.where(fullest, 1.0 / (wick.least_air * air.needed), np.inf),
        fuel=np.where(fullest, wick.limit, asked),
        joined=np.asarray(inner + (1.0 - inner) * model.outer_joined),
        lacking=np.asarray(1.0 - model.heating_value / KEROSENE.lower_heating_value),
        gas_emissivity=tuple(np.asarray(model.gas_emissivity * one) for one in thick),
        drag=np.asarray(passages.loss / (2.0 * air.density * np.asarray(passages.area) ** 2)),
        laminar=np.asarray(air.viscosity * passages.laminar / air.density),
    )

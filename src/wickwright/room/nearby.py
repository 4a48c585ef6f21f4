"""Things above and beside a lamp, and what is found out about them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickwright.physics.plume import PLUME_RANGES
from wickwright.room.above import extrapolated, height_that_cools, rises_at
from wickwright.room.beside import (
    RADIANT_SHARE,
    distance_that_cools,
    radiant_flux,
    surface_beside,
)
from wickwright.room.checks import Bound, demand
from wickwright.room.materials import tolerance_of
from wickwright.terms.finding import Fact, Finding, Kind, Quantity, Range, Severity

if TYPE_CHECKING:
    from wickwright.room.above import Column
    from wickwright.room.materials import Tolerance

__all__ = ["Thing", "above_findings", "beside_finding", "needed_above", "needed_beside"]

_SPREAD_AT: Final = 0.5  # m


@dataclass(frozen=True, slots=True)
class Thing:
    """Something near a lamp.

    Attributes
    ----------
    name : str
        What it is: a ceiling, a shelf, a bell, a shade, a curtain.
    material : str
        As :data:`~wickwright.room.materials.TOLERANCES` names it.
    distance : float
        Above the chimney's top, or beside from the mantle [m].
    rating : float or None
        Heat of a lamp its maker made it for [W]; None where none is stated.
    part : str
        Its id in the fit book; blank where it is none.
    """

    name: str
    material: str
    distance: float
    rating: float | None = None
    part: str = ""

    def __post_init__(self) -> None:
        """Refuse a thing inside the lamp."""
        demand(
            Bound(f"distance of the {self.name}", self.distance, 1e-3, 50.0, "m", "Measure it"),
            Bound(
                f"heat rating of the {self.name}",
                1.0 if self.rating is None else self.rating,
                1.0,
                math.inf,
                "W",
                "Leave it out where the maker states none",
            ),
        )

    @property
    def parts(self) -> tuple[str, ...]:
        """Its id, if it has one."""
        return (self.part,) if self.part else ()


def needed_above(column: Column, material: str) -> float:
    """Return the height over a chimney that a material must keep.

    Parameters
    ----------
    column : Column
        The gas.
    material : str
        As :data:`~wickwright.room.materials.TOLERANCES` names it.

    Returns
    -------
    float
        The greatest by the three laws [m].

    Raises
    ------
    RoomError
        When there is no limit for the material, or the room is hotter than it.
    """
    limit = tolerance_of(material).limit
    return max(height for _, height in height_that_cools(column, limit))


def needed_beside(heat: float, material: str, air: float, pressure: float) -> float:
    """Return the distance from the mantle that a material must keep.

    Parameters
    ----------
    heat : float
        All heat of the lamp [W].
    material : str
        As :data:`~wickwright.room.materials.TOLERANCES` names it.
    air : float
        Temperature of the room [K].
    pressure : float
        Air pressure [Pa].

    Returns
    -------
    float
        Distance with the upper end of the assumed radiant share [m].

    Raises
    ------
    RoomError
        When there is no limit for the material, or the room is hotter than it.
    """
    limit = tolerance_of(material).limit
    return distance_that_cools(heat, RADIANT_SHARE.high, limit, air, pressure)


def _facts(thing: Thing, tolerance: Tolerance, needed: float) -> dict[str, Fact]:
    return {
        "thing": thing.name,
        "material": thing.material,
        "distance": Quantity(thing.distance, Kind.DISTANCE),
        "needed": Quantity(needed, Kind.DISTANCE),
        "why": tolerance.why,
    }


def _rated(thing: Thing, heat: float) -> Finding | None:
    """Hold a thing against its maker's rating, where there is one."""
    if thing.rating is None:
        return None
    holds = heat <= thing.rating
    return Finding(
        "rated",
        Severity.GOOD if holds else Severity.FAULT,
        thing.parts,
        {"thing": thing.name},
        measured=Quantity(heat, Kind.POWER),
        permitted=Range(None, thing.rating, Kind.POWER),
    )


def above_findings(column: Column, things: tuple[Thing, ...]) -> tuple[Finding, ...]:
    """Judge what is above a lamp.

    Parameters
    ----------
    column : Column
        The gas over the chimney.
    things : tuple of Thing
        Ceiling, shelf, bell.

    Returns
    -------
    tuple of Finding
        One or two for each thing; and a note that the plume laws were made for larger fires,
        where they decide.

    Raises
    ------
    RoomError
        When there is no limit for a material, or the room is hotter than it.
    """
    found: list[Finding] = []
    for thing in things:
        found += _above(column, thing)
    if any(thing.distance > column.zone for thing in things) and extrapolated(column):
        found.append(_small_fire(column))
    return tuple(found)


def _above(column: Column, thing: Thing) -> list[Finding]:
    rated = _rated(thing, column.heat)
    if rated is not None:
        return [rated]
    tolerance, there = tolerance_of(thing.material), rises_at(column, thing.distance)
    facts = _facts(thing, tolerance, needed_above(column, thing.material))
    facts["how"] = "the gas as it left the chimney" if there.exit_zone else "by three plume laws"
    clear = there.high <= tolerance.limit
    return [
        Finding(
            "above-clear" if clear else "above-near",
            Severity.GOOD if clear else Severity.DANGER,
            thing.parts,
            facts,
            measured=_warmth(there.low, there.high),
            permitted=Range(None, tolerance.limit, Kind.TEMPERATURE),
            source=tolerance.source,
        )
    ]


def _warmth(low: float, high: float) -> Quantity | Range:
    if low == high:
        return Quantity(high, Kind.TEMPERATURE)
    return Range(low, high, Kind.TEMPERATURE)


def _small_fire(column: Column) -> Finding:
    there = rises_at(column, _SPREAD_AT)
    spread = there.high - there.low
    fitted = [valid.low for valid in PLUME_RANGES]
    return Finding(
        "above-small-fire",
        Severity.NOTE,
        facts={"spread": f"{spread:.0f} K ({spread * 1.8:.0f} °F)"},
        measured=Quantity(column.heat, Kind.POWER),
        permitted=Range(min(fitted), None, Kind.POWER),
    )


def beside_finding(heat: float, thing: Thing, air: float, pressure: float) -> Finding:
    """Judge what is beside a lamp.

    Parameters
    ----------
    heat : float
        All heat of the lamp [W].
    thing : Thing
        Curtain, wall, shelf, shade.
    air : float
        Temperature of the room [K].
    pressure : float
        Air pressure [Pa].

    Returns
    -------
    Finding
        With the temperature over the whole band of the assumed radiant share; its upper end
        decides. A thing with a maker's rating is held against that.

    Raises
    ------
    RoomError
        When there is no limit for the material, or the room is hotter than it.
    """
    rated = _rated(thing, heat)
    if rated is not None:
        return rated
    tolerance = tolerance_of(thing.material)
    low, high = (
        surface_beside(radiant_flux(heat, share, thing.distance), air, pressure)
        for share in (RADIANT_SHARE.low, RADIANT_SHARE.high)
    )
    facts = _facts(thing, tolerance, needed_beside(heat, thing.material, air, pressure))
    clear = high <= tolerance.limit
    return Finding(
        "beside-clear" if clear else "beside-near",
        Severity.GOOD if clear else Severity.DANGER,
        thing.parts,
        facts,
        measured=_warmth(low, high),
        permitted=Range(None, tolerance.limit, Kind.TEMPERATURE),
        source=tolerance.source,
    )

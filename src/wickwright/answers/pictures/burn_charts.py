"""Charts of a lamp that burns: over elevations, over chimney heights, of its room, above it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

import numpy as np

from wickwright.answers.pictures.flame_curves import chimneys_beside, over_elevations, over_heights
from wickwright.burn.checks import LIMITS
from wickwright.burn.lamp import burning_parts
from wickwright.charts.above_lamp import above_chart
from wickwright.charts.axis import axis_of
from wickwright.charts.chimney_height import OverHeight, chimney_height_chart
from wickwright.charts.elevation import Measured, OverElevation, elevation_chart
from wickwright.charts.room_evening import OverEvening, room_chart
from wickwright.fit.audit import called
from wickwright.physics.kerosene import DENSITY
from wickwright.room.above import LAWS, rise_by
from wickwright.room.evening import course_of, passing
from wickwright.room.limits import limit_named
from wickwright.room.materials import tolerance_of
from wickwright.room.ventilation import change_needed
from wickwright.terms.finding import Kind, Quantity
from wickwright.terms.units import Units, say

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from wickwright.answers.flames.above_and_beside import AboveAndBeside
    from wickwright.answers.flames.predict_burn import Burns
    from wickwright.answers.flames.room_air import RoomAnswer
    from wickwright.answers.pictures.flame_curves import Curve
    from wickwright.burn.lamp import BurningLamp
    from wickwright.catalogue.records import Part
    from wickwright.fit.compiled import Compiled

    Floats = NDArray[np.float64]

__all__ = ["above_svg", "elevation_svg", "height_svg", "room_svg"]

_HIGH: Final = {"metric": 1500.0, "us": 5000 * 0.3048}
"""Elevation that is marked where the caller names none [m]."""
_TOP, _STEPS = 3500.0, 36
_AT_SEA = 1.0  # m
_CAUTION: Final = (
    "Computed, not measured. Air in the room, a carbon monoxide alarm, never leave a lit lamp "
    "alone; local codes and the maker's leaflet come first."
)


def _measured(values: Floats, spread: Floats) -> Measured:
    return Measured(tuple(map(float, values)), tuple(map(float, spread)))


def _level(burns: Burns) -> str:
    """Say what the bands leave out."""
    light = burns.prediction["light"]
    return (
        "The bands are of the comparison with the lamp's own chimney at sea level; how bright "
        f"that is, is itself known to {100 * light.spread / light.value:.0f} %."
    )


def _under(lamp: BurningLamp, chimney: Part) -> BurningLamp:
    if chimney is lamp.chimney:
        return lamp
    air = lamp.lamps.air
    return burning_parts(lamp.burner, chimney, lamp.mantle, air, lamp.lamps.model)


def _share(curve: Curve, at: float, of: float) -> float:
    return float(np.interp(at, curve.along, curve.light)) / of


def _place(burns: Burns, units: Units) -> float:
    here = burns.place.elevation
    return here if abs(here) > _AT_SEA else _HIGH[units.system]


def _up(value: float, units: Units) -> str:
    return say(Quantity(value, Kind.ELEVATION), units)


def elevation_svg(compiled: Compiled, burns: Burns, units: Units) -> str:
    """Draw light, fuel and margin over elevations for the chimneys a lamp can carry.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    burns : Burns
        How the lamp burns.
    units : Units
        What to print in.

    Returns
    -------
    str
        SVG text.

    Raises
    ------
    BurnError
        When a figure of another chimney cannot be.
    """
    lamp, here = burns.prediction.lamp, _place(burns, units)
    low, high = min(0.0, here), max(_TOP, here)
    chimneys = chimneys_beside(compiled, burns)
    names = (f"{called(chimneys[0])}, the lamp's own", *map(called, chimneys[1:]))
    lamps = [(name, _under(lamp, part)) for name, part in zip(names, chimneys, strict=True)]
    curves = over_elevations(lamp, lamps, np.linspace(low, high, _STEPS))
    at_sea = float(np.interp(0.0, curves[0].along, curves[0].light))
    return elevation_chart(
        [
            OverElevation(
                it.name,
                tuple(map(float, it.along)),
                _measured(it.light, it.light_spread),
                _measured(it.fuel, it.fuel_spread),
                _measured(it.margin, it.margin_spread),
            )
            for it in curves
        ],
        title=_elevation_title(chimneys, curves, here, at_sea, units),
        subtitle=f"{_lamp_words(burns)}: fullest clean flame in a room kept at "
        f"{say(Quantity(float(lamp.lamps.air.temperature), Kind.TEMPERATURE), units)}",
        places=((here, _up(here, units)),),
        light_reference=(at_sea, "own chimney at sea level"),
        note=f"{_level(burns)} {_CAUTION}",
        units=units.system,
        fuel_density=DENSITY.value,
        margin_title="Air to spare where the wick stays as set at sea level with the own chimney",
    )


def _elevation_title(
    chimneys: Sequence[Part], curves: Sequence[Curve], here: float, at_sea: float, units: Units
) -> str:
    said = f"At {_up(here, units)} {chimneys[0].id} leaves {_percent(curves[0], here, at_sea)}"
    taller = [
        (part, curve)
        for part, curve in zip(chimneys[1:2], curves[1:2], strict=True)
        if (part.height or 0.0) > (chimneys[0].height or 0.0)
    ]
    more = "".join(f"; the taller {p.id} gives {_percent(c, here, at_sea)}" for p, c in taller)
    return f"{said} of its light at sea level{more}"


def _percent(curve: Curve, at: float, of: float) -> str:
    return f"{100 * _share(curve, at, of):.0f} %"


def _lamp_words(burns: Burns) -> str:
    lamp = burns.prediction.lamp
    web = f" and {called(lamp.mantle)}" if lamp.mantle else ""
    return f"{called(lamp.burner)}{web}"


# -- chimney height ------------------------------------------------------------------------------


def height_svg(compiled: Compiled, burns: Burns, units: Units) -> str:
    """Draw light and fuel over heights of the chimney, at sea level and higher up.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    burns : Burns
        How the lamp burns.
    units : Units
        What to print in.

    Returns
    -------
    str
        SVG text.

    Raises
    ------
    BurnError
        When a height cannot be.
    """
    lamp, here = burns.prediction.lamp, _place(burns, units)
    chimneys = [part for part in chimneys_beside(compiled, burns) if part.height]
    marks = [(part.height or 0.0, part.id) for part in chimneys]
    known = [height for height, _ in marks]
    least = max(LIMITS["chimney.height"].low, 1.2 * float(lamp.lamps.chimney.foot_length))
    heights = np.linspace(max(least, 0.7 * min(known)), 1.25 * max(known), _STEPS)
    places = (("at sea level", 0.0), (f"at {_up(here, units)}", here))
    curves = over_heights(lamp, heights, places)
    low, high = (float(np.interp(known[0], curve.along, curve.light)) for curve in curves)
    wanted = _height_for(curves[1], low)
    needs = (
        f"it takes {say(Quantity(wanted, Kind.LENGTH), units)} to have it all back"
        if wanted
        else "no height drawn here gives it all back"
    )
    return chimney_height_chart(
        [
            OverHeight(
                it.name,
                tuple(map(float, it.along)),
                _measured(it.light, it.light_spread),
                _measured(it.fuel, it.fuel_spread),
            )
            for it in curves
        ],
        title=f"At {_up(here, units)} {marks[0][1]} leaves {100 * high / low:.0f} % of its light "
        f"at sea level; {needs}",
        subtitle=f"{_lamp_words(burns)}: fullest clean flame, chimneys of the bores of "
        f"{chimneys[0].id}",
        chimneys=marks,
        note=f"{_level(burns)}{_wick_words(curves)} {_CAUTION}",
        units=units.system,
        fuel_density=DENSITY.value,
    )


def _wick_words(curves: Sequence[Curve]) -> str:
    """Explain a light that falls again under the tallest chimneys."""
    if all(float(np.max(curve.light)) <= float(curve.light[-1]) for curve in curves):
        return ""
    return " Where the light falls again the wick gives out: more draft then only cools the flame."


def _height_for(curve: Curve, light: float) -> float | None:
    """Return the least height that gives a light; None where none does."""
    over = np.flatnonzero(curve.light >= light)
    if not over.size:
        return None
    at = int(over[0])
    if at == 0:
        return float(curve.along[0])
    pair = slice(at - 1, at + 1)
    return float(np.interp(light, curve.light[pair], curve.along[pair]))


# -- room ----------------------------------------------------------------------------------------

_DANGER, _GUIDE, _AIR = "co2-work", "co2-unacceptable", "oxygen-low"


def room_svg(burns: Burns, room: RoomAnswer, units: Units) -> str:
    """Draw carbon dioxide and oxygen of a room, as it is and aired as it should be.

    Parameters
    ----------
    burns : Burns
        How the lamp burns.
    room : RoomAnswer
        What it does to the room.
    units : Units
        What to print in.

    Returns
    -------
    str
        SVG text.
    """
    guide, work, oxygen = (limit_named(key) for key in (_GUIDE, _DANGER, _AIR))
    evenings = [_over("as it is", room)]
    airy = _aired(room)
    if airy is not None:
        evenings.append(airy)
    when = passing(room.course, guide)
    lamps = "a lamp" if room.plan.lamps == 1 else f"{room.plan.lamps} lamps"
    volume = say(Quantity(room.plan.volume, Kind.VOLUME), units)
    passed = (
        f"passes the guide value after {say(Quantity(when, Kind.TIME), units)}"
        if when is not None
        else "keeps within the guide value"
    )
    change = say(Quantity(room.evening.room.change, Kind.AIR_CHANGE), units)
    people = f", {room.plan.people} people" if room.plan.people else ""
    return room_chart(
        evenings,
        title=f"With {lamps} burning, a room of {volume} {passed}",
        subtitle=f"{_lamp_words(burns)}{people}; {change} as it is; flames and air act on each "
        "other",
        carbon_dioxide_limits=(
            (guide.value, guide.says.removeprefix("the ")),
            (work.value, work.says.removeprefix("the ")),
        ),
        oxygen_limits=((oxygen.value, oxygen.says.removeprefix("the ")),),
        note="Well-mixed room. Carbon monoxide is not shown: nobody knows it beforehand. "
        f"{_CAUTION}",
        units=units.system,
    )


def _over(name: str, room: RoomAnswer) -> OverEvening:
    airs = room.course.airs
    return OverEvening(
        name,
        room.course.times,
        tuple(air.carbon_dioxide for air in airs),
        tuple(air.oxygen for air in airs),
    )


def _aired(room: RoomAnswer) -> OverEvening | None:
    """Return the evening with air enough for the guide value; None where it has enough."""
    needed = change_needed(limit_named(_GUIDE), room.evening.room, room.evening.exchange)
    if needed is None or needed <= room.evening.room.change:
        return None
    evening = replace(room.evening, room=replace(room.evening.room, change=needed))
    course = course_of(evening)
    return OverEvening(
        f"aired: {needed * 3600:.1f} air changes an hour",
        course.times,
        tuple(air.carbon_dioxide for air in course.airs),
        tuple(air.oxygen for air in course.airs),
    )


# -- above ---------------------------------------------------------------------------------------

_NEAREST, _FARTHEST = 0.02, 1.5


def above_svg(
    burns: Burns, near: AboveAndBeside, things: Sequence[tuple[str, float]], units: Units
) -> str:
    """Draw how hot it is above a lamp.

    Parameters
    ----------
    burns : Burns
        How the lamp burns.
    near : AboveAndBeside
        What must be kept free.
    things : sequence of (str, float)
        What is above it: material and height over the chimney's top [m].
    units : Units
        What to print in.

    Returns
    -------
    str
        SVG text.
    """
    column, keep = near.column, near.keep_above.value
    farthest = max(_FARTHEST, 1.15 * keep, *(1.05 * height for _, height in things))
    heights = np.linspace(_NEAREST, farthest, 120)
    wood = tolerance_of("wood")
    kept = axis_of("height", "", units.system).says(keep, 2)
    heat = say(Quantity(column.heat, Kind.POWER), units)
    return above_chart(
        tuple(map(float, heights)),
        [
            (law, tuple(map(float, column.air + np.asarray(rise_by(law, column, heights)))))
            for law in LAWS
        ],
        title=f"Keep wood {kept} or more above the chimney of this lamp",
        subtitle=f"{_lamp_words(burns)}: {heat}",
        exit_zone=(column.zone, "gas as hot as it left the chimney"),
        limits=((wood.limit, "wood, for years"),),
        keep=(keep, "to be kept free of wood"),
        things=tuple((height, f"{material} here") for material, height in things),
        note="Three published laws, fitted to fires of 10 kW and more: the greatest decides. "
        f"{_CAUTION}",
        units=units.system,
    )

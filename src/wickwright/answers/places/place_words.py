"""Towns and their elevations in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.answers.places.place_names import TERRAIN_WITHIN
from wickwright.answers.places.town_table import Known
from wickwright.catalogue.spelling import quoted
from wickwright.terms.finding import Kind, Quantity
from wickwright.terms.units import say

if TYPE_CHECKING:
    from wickwright.answers.places.place_names import ElevationTyped, TownsFound
    from wickwright.answers.places.town_table import Town
    from wickwright.terms.units import Units

__all__ = ["TOWNS_FROM", "assumed_words", "choice_lines", "taken_words", "town_words"]

TOWNS_FROM = "Towns and elevations: GeoNames (geonames.org), CC BY 4.0."
"""What the licence of the table asks to be shown."""


def town_words(town: Town, units: Units) -> str:
    """Put a town into words: where it is, how large, how high, and how that is known.

    Parameters
    ----------
    town : Town
        The town.
    units : Units
        What to print in.

    Returns
    -------
    str
        Such as ``'Leadville, Colorado, United States of America: 2,644 people, 3,097 m
        (surveyed)'``.
    """
    high = _height(town.elevation, units)
    return f"{_where(town)}: {town.population:,} people, {high} ({_KNOWN[town.known]})"


_KNOWN = {
    Known.SURVEYED: "surveyed",
    Known.TERRAIN: "terrain model",
    Known.DISPUTED: "terrain model, far from a surveyed figure: ask",
}


def _where(town: Town) -> str:
    return ", ".join(filter(None, (town.name, town.region, town.country_name)))


def _height(metres: float, units: Units) -> str:
    return say(Quantity(metres, Kind.ELEVATION), units)


def taken_words(town: Town, units: Units) -> str:
    """Say which town was taken for a name, and what to do where it is another.

    Parameters
    ----------
    town : Town
        The town that was taken.
    units : Units
        What to print in.

    Returns
    -------
    str
        A few sentences with the attribution of the table.
    """
    near = _height(TERRAIN_WITHIN, units)
    sure = f"nine in ten such heights are within {near} of the surveyed one; "
    return (
        f"Place taken: {town_words(town, units)}; "
        f"{sure if town.known is Known.TERRAIN else ''}a house uphill or down in the valley has "
        "its own. Is it another place? Write its country or region behind a comma, or its "
        f"elevation. {TOWNS_FROM}"
    )


def choice_lines(found: TownsFound, units: Units) -> list[str]:
    """Say which towns a name may mean, and how to name one of them.

    Parameters
    ----------
    found : TownsFound
        One town at least.
    units : Units
        What to print in.

    Returns
    -------
    list of str
        A sentence, and a line for each town.
    """
    many = f"{found.in_all:,} towns" if found.in_all > 1 else "a town"
    lines = [
        f"{quoted(found.text)} may mean {many}: {_what_to_write(found)}",
        *(town_words(town, units) for town in found.towns),
    ]
    if found.in_all > len(found.towns):
        lines.append(f"and {found.in_all - len(found.towns):,} more")
    return lines


def _what_to_write(found: TownsFound) -> str:
    first = found.towns[0]
    if found.in_all == 1 and first.known is Known.DISPUTED:
        return "how high it lies is not sure, so write the elevation with its unit"
    narrow = ", ".join(filter(None, (first.name, first.region, first.country)))
    return (
        f"write the whole name with its country or region, such as '{narrow}', or the elevation "
        "with its unit"
    )


def assumed_words(typed: ElevationTyped, units: Units) -> str:
    """Say which unit was taken for a height without one; blank where it had one.

    Parameters
    ----------
    typed : ElevationTyped
        The height.
    units : Units
        What to print in.

    Returns
    -------
    str
        A sentence, or a blank.
    """
    if not typed.assumed:
        return ""
    name = {"m": "metres", "ft": "feet"}[typed.assumed]
    return f"No unit was given: taken in {name}, so {_height(typed.elevation, units)}."

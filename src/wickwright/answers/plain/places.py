"""A town as plain data for machines."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.answers.places.place_names import TERRAIN_WITHIN
from wickwright.answers.places.place_words import TOWNS_FROM
from wickwright.answers.places.town_table import Known

if TYPE_CHECKING:
    from wickwright.answers.places.town_table import Town
    from wickwright.answers.plain.answers import Plain

__all__ = ["plain_town"]


def plain_town(town: Town) -> dict[str, Plain]:
    """Return a town as plain data.

    Parameters
    ----------
    town : Town
        The town.

    Returns
    -------
    dict
        ``name``, ``country`` (its code), ``country_name``, ``region``, ``population``,
        ``elevation_m``, ``known`` (``surveyed``, ``terrain``, ``disputed``), ``within_m`` (nine in
        ten terrain heights are so near the surveyed one; null for others), ``attribution``.
    """
    return {
        "name": town.name,
        "country": town.country,
        "country_name": town.country_name,
        "region": town.region,
        "population": town.population,
        "elevation_m": town.elevation,
        "known": town.known.name.lower(),
        "within_m": TERRAIN_WITHIN if town.known is Known.TERRAIN else None,
        "attribution": TOWNS_FROM,
    }

"""The towns of the world with their elevations, as one table made to be searched by name."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

__all__ = ["Area", "Known", "Town", "TownTable", "folded", "town_table"]


class Known(Enum):
    """How the elevation of a town is known; the value is what its row says."""

    SURVEYED = "s"
    TERRAIN = "t"
    DISPUTED = "d"
    """By the terrain; a surveyed figure is more than 100 m away, so one of them is wrong."""


@dataclass(frozen=True, slots=True)
class Town:
    """A town and how high it lies.

    Attributes
    ----------
    name : str
        As the table spells it.
    country, country_name : str
        Code of two letters (ISO 3166-1), and the name.
    region : str
        State, province or canton; blank where it is not known.
    population : int
        People.
    elevation : float
        Above sea level [m].
    known : Known
        How the elevation is known.
    """

    name: str
    country: str
    country_name: str
    region: str
    population: int
    elevation: float
    known: Known


@dataclass(frozen=True, slots=True)
class Area:
    """A name or code by which a country or one of its regions is called.

    Attributes
    ----------
    called : str
        The name or code, folded.
    code : str
        ``BO`` is a country, ``BO.04`` a region of it.
    is_code : bool
        Whether ``called`` is a code, which is only ever meant whole.
    """

    called: str
    code: str
    is_code: bool


@dataclass(frozen=True, slots=True)
class TownTable:
    """Towns, the largest first.

    Attributes
    ----------
    rows : tuple of str
        Name, country, region, population, elevation [m] and how it is known, tabs between them.
    folded_names : str
        The names folded, each between line feeds, in the same order.
    starts : tuple of int
        Where in ``folded_names`` the line feed before each name stands.
    countries, regions : mapping of str to str
        Names by code.
    areas : tuple of Area
        Everything a country or a region is called.
    """

    rows: tuple[str, ...]
    folded_names: str
    starts: tuple[int, ...]
    countries: Mapping[str, str]
    regions: Mapping[str, str]
    areas: tuple[Area, ...]

    def town(self, at: int) -> Town:
        """Return the town of a row.

        Parameters
        ----------
        at : int
            Number of the row, from 0.

        Returns
        -------
        Town
            With the names of its country and region.
        """
        name, country, region, population, elevation, known = self.rows[at].split("\t")
        return Town(
            name,
            country,
            self.countries.get(country, country),
            self.regions.get(f"{country}.{region}", ""),
            int(population),
            float(elevation),
            Known(known),
        )


_LETTERS: Final[dict[str, str]] = {
    **dict(zip("øłđðħŧ\u0131əŋɓɗƙƴ", "olddhtienbdky", strict=True)),
    "æ": "ae",
    "œ": "oe",
    "þ": "th",
    **dict.fromkeys("\u2018\u2019\u02bb\u02bc\u02be\u02bf\u2032", ""),
}
"""Letters that no decomposition takes apart; apostrophes, which people leave out."""
_BREAKS: Final = 5
"""Tabs in the row of a town."""
_FOREIGN: Final = re.compile(r"[^\x00-\x7f]")
_BETWEEN: Final = re.compile(r"[^\w\n]+")
_FIRST: Final = re.compile(r"^[^\t\n]*(?=\t)", re.MULTILINE)
_EDGES: Final = re.compile(r" *\n *")


def _flat(text: str) -> str:
    """Fold accents, capitals and punctuation of a text, line by line."""
    small = unicodedata.normalize("NFKD", text.casefold())
    if not small.isascii():
        small = unicodedata.normalize("NFKD", small.casefold())
        small = _FOREIGN.sub(_plain_sign, small)
    return _BETWEEN.sub(" ", small.replace("'", "").replace("`", ""))


def _plain_sign(match: re.Match[str]) -> str:
    """Drop a mark, spell a letter that stands for itself in another way."""
    sign = match[0]
    return "" if unicodedata.combining(sign) else _LETTERS.get(sign, sign)


def folded(text: str) -> str:
    """Return a name as it is compared: small letters, no accents, one blank between words.

    Parameters
    ----------
    text : str
        Such as ``'Sant Julià de Lòria'``.

    Returns
    -------
    str
        Such as ``'sant julia de loria'``; folding it again changes nothing.
    """
    return " ".join(_flat(text).split())


def town_table(towns: str, regions: str, countries: str) -> TownTable:
    """Make the table of towns from its three texts.

    Parameters
    ----------
    towns : str
        A line for each town, the largest first: see :attr:`TownTable.rows`.
    regions : str
        A line for each region: code such as ``BO.04``, and name.
    countries : str
        A line for each country: code, and all its names.

    Returns
    -------
    TownTable
        Ready to be searched; a town itself is made only when it is found.

    Raises
    ------
    ValueError
        When a line has too few cells, or that of a town too many.
    """
    rows = tuple(towns.removesuffix("\n").split("\n"))
    if towns.count("\t") != _BREAKS * len(rows):
        msg = f"each town has {_BREAKS + 1} cells"
        raise ValueError(msg)
    names = _EDGES.sub("\n", _flat("\n".join(_FIRST.findall(towns))))
    lines = f"\n{names}\n"
    starts = tuple(match.start() for match in re.finditer("\n", lines))[:-1]
    states = {code: names for code, *names in _cells(countries)}
    parts = {code: name for code, name, *_ in _cells(regions)}
    areas = (*_areas_of_countries(states), *_areas_of_regions(parts))
    shown = {code: _shown(names) for code, names in states.items()}
    return TownTable(rows, lines, starts, shown, parts, areas)


def _cells(text: str) -> Iterable[list[str]]:
    return (line.split("\t") for line in text.removesuffix("\n").split("\n"))


def _shown(names: list[str]) -> str:
    """Return the name of a country that reads best in a line with commas."""
    return next((name for name in names if "," not in name), names[0])


def _areas_of_countries(states: Mapping[str, list[str]]) -> Iterable[Area]:
    for code, names in states.items():
        yield Area(folded(code), code, is_code=True)
        yield from (Area(folded(name), code, is_code=False) for name in names)


def _areas_of_regions(parts: Mapping[str, str]) -> Iterable[Area]:
    for code, name in parts.items():
        own = code.partition(".")[2]
        if own.isalpha():
            yield Area(folded(own), code, is_code=True)
        yield Area(folded(name), code, is_code=False)

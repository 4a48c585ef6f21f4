"""The elevation of a place that is typed as a height or as the name of a town.

Names of towns mislead: some are borne by many, and the largest of all may be missing while a
hamlet answers. So every match is given with its country, region, people and elevation, and a town
is only taken for meant where no other of that name would change the answer.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

from wickwright.answers.places.town_table import Known, folded
from wickwright.catalogue.spelling import quoted
from wickwright.terms.units import UnitsError, parse_elevation

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from wickwright.answers.places.town_table import Town, TownTable

__all__ = [
    "TERRAIN_WITHIN",
    "ElevationTyped",
    "NoSuchTownError",
    "TownsFound",
    "elevation_typed",
    "towns_named",
    "two_heights",
]

TERRAIN_WITHIN: Final = 16.0
"""Nine in ten terrain heights lie this near the surveyed one [m] (``geonames``, 33,509 places)."""

_LONGEST, _MOST_WORDS = 100, 16
"""Signs and words beyond which no text is the name of a place."""
_LEAST_BEGUN = 3
"""Signs from which on the beginning of a name is looked up, and not only whole words."""
_SAME_HEIGHT = 100.0
"""Towns no further apart in height than this [m] are as good as one: 1.2 % of the air's
pressure (``usstd1976``)."""
_DWARFED = 10
"""A town with this many times the people of another is meant, unless the two bear one name."""
_NEAR_SPELT = 0.75


@dataclass(frozen=True, slots=True)
class TownsFound:
    """Towns a text may mean: whole names first, then whole words, then beginnings.

    Attributes
    ----------
    text : str
        What was looked for.
    towns : tuple of Town
        The first of them; within each sort the largest first.
    in_all : int
        How many there are.
    meant : Town or None
        The one that is unmistakably meant; None where there is none, or a choice.
    """

    text: str
    towns: tuple[Town, ...]
    in_all: int
    meant: Town | None


@dataclass(frozen=True, slots=True)
class ElevationTyped:
    """A height that was typed as such.

    Attributes
    ----------
    elevation : float
        Above sea level [m].
    assumed : {'', 'm', 'ft'}
        The unit that was taken, where none was written.
    """

    elevation: float
    assumed: Literal["", "m", "ft"]


class NoSuchTownError(UnitsError):
    """A text that is neither a height nor the name of a town.

    Parameters
    ----------
    text : str
        What was typed.
    nearest : Town or None
        The town whose name is spelt most like it.
    """

    def __init__(self, text: str, nearest: Town | None) -> None:
        readable = "".join(sign if sign.isprintable() else "\ufffd" for sign in text)
        guess = ""
        if nearest is not None:
            where = ", ".join(filter(None, (nearest.name, nearest.region, nearest.country_name)))
            guess = f"did you mean {where}? "
        super().__init__(
            f"{quoted(readable)} is no elevation, and no such town is in the table (it has those "
            "of 5,000 people and more, and of 1,000 and more above 1,000 m): "
            f"{guess}write the elevation with its unit, such as 5200ft or 1700m, or a larger town "
            "near by that lies as high"
        )
        self.nearest = nearest


# -- names ---------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Rows:
    """Rows of the table whose names match: whole names, whole words in a name, beginnings."""

    exact: tuple[int, ...]
    words: tuple[int, ...]
    begun: tuple[int, ...]

    @property
    def all(self) -> tuple[int, ...]:
        return self.exact + self.words + self.begun

    def within(self, kept: Callable[[int], bool]) -> _Rows:
        exact, words, begun = (
            tuple(filter(kept, rows)) for rows in (self.exact, self.words, self.begun)
        )
        return _Rows(exact, words, begun)


_NONE = _Rows((), (), ())


def towns_named(table: TownTable, text: str, most: int = 8) -> TownsFound:
    """Return the towns a text may mean.

    Accents, capitals and punctuation do not matter. A country or region, by name or code, may
    follow behind a comma or without one: ``'La Paz, BO'``, ``'la paz bolivia'``.

    Parameters
    ----------
    table : TownTable
        All towns that are known.
    text : str
        What was typed.
    most : int
        How many are given in full.

    Returns
    -------
    TownsFound
        Without towns where none has that name. One town is meant where it alone bears the whole
        name and each other that has it among its words lies within 100 m of its height or has
        less than a tenth of its people; never one whose height is disputed.
    """
    found = _rows_of(table, text) if len(text) <= _LONGEST else _NONE
    rows = found.all
    towns = tuple(table.town(at) for at in rows[: max(most, 0)])
    return TownsFound(text, towns, len(rows), _meant(table, found))


def _rows_of(table: TownTable, text: str) -> _Rows:
    """Look up what stands before the first comma, then, where none is called so, before others."""
    parts = [part for part in map(folded, text.split(",")) if part]
    if len(" ".join(parts).split()) > _MOST_WORDS:
        return _NONE
    for many in range(1, len(parts) + 1):
        rows = _rows_named(table, " ".join(parts[:many]).split(), parts[many:])
        if rows.all:
            return rows
    return _NONE


def _rows_named(table: TownTable, words: Sequence[str], terms: Sequence[str]) -> _Rows:
    """Look a name up, then ever shorter beginnings of it with the rest as country or region."""
    for many in range(len(words), 0, -1):
        inside = [*terms, " ".join(words[many:])] if many < len(words) else terms
        rows = _narrowed(table, _matching(table, " ".join(words[:many])), inside)
        if rows.all:
            return rows
    return _NONE


def _matching(table: TownTable, name: str) -> _Rows:
    """Return the rows whose names are, hold or begin with a folded name."""
    names, size = table.folded_names, len(name)
    exact, words, begun = [], [], []
    for before in ("\n", " "):
        for at in _places(names, before + name):
            behind = names[at + 1 + size]
            if behind not in "\n ":
                if size >= _LEAST_BEGUN and before == "\n":
                    begun.append(at)
            elif behind == before == "\n":
                exact.append(at)
            else:
                words.append(at)
    whole, among, first = (_rows_at(table, places) for places in (exact, words, begun))
    return _Rows(whole, tuple(sorted({*among} - {*whole})), first)


def _places(text: str, part: str) -> Iterator[int]:
    at = text.find(part)
    while at >= 0:
        yield at
        at = text.find(part, at + 1)


def _rows_at(table: TownTable, places: Iterable[int]) -> tuple[int, ...]:
    return tuple(bisect_right(table.starts, at) - 1 for at in places)


# -- countries and regions -----------------------------------------------------------------------


def _narrowed(table: TownTable, rows: _Rows, terms: Iterable[str]) -> _Rows:
    """Keep the rows that lie in every country or region named."""
    for term in terms:
        if rows.all:
            rows = _inside(table, rows, term)
    return rows


def _inside(table: TownTable, rows: _Rows, term: str) -> _Rows:
    """Keep the rows inside an area; where nothing is called so, inside two areas named in a row."""
    if codes := _codes(table, term):
        return _kept(table, rows, codes)
    words = term.split()
    for cut in range(1, len(words)):
        first, second = (_codes(table, " ".join(half)) for half in (words[:cut], words[cut:]))
        if first and second:
            return _kept(table, _kept(table, rows, first), second)
    return _NONE


def _kept(table: TownTable, rows: _Rows, codes: frozenset[str]) -> _Rows:
    return rows.within(lambda at: _lies_in(table, at, codes))


def _codes(table: TownTable, term: str) -> frozenset[str]:
    """Return the codes of the areas called so, whole or by the words they begin with."""
    begins, joined = f"{term} ", term.replace(" ", "")
    return frozenset(
        area.code
        for area in table.areas
        if area.called == (joined if area.is_code else term)
        or (not area.is_code and area.called.startswith(begins))
    )


def _lies_in(table: TownTable, at: int, codes: frozenset[str]) -> bool:
    _, country, region, _ = table.rows[at].split("\t", 3)
    return country in codes or f"{country}.{region}" in codes


# -- which is meant ------------------------------------------------------------------------------


def _meant(table: TownTable, found: _Rows) -> Town | None:
    """Return the town that is meant where no other would change the answer."""
    if len(found.exact) != 1:
        return None
    town = table.town(found.exact[0])
    if town.known is Known.DISPUTED:
        return None
    others = (table.town(at) for at in found.words)
    return town if all(_no_matter(town, other) for other in others) else None


def _no_matter(town: Town, other: Town) -> bool:
    near = abs(town.elevation - other.elevation) <= _SAME_HEIGHT
    return near or other.population * _DWARFED < town.population


# -- heights and names ---------------------------------------------------------------------------


def elevation_typed(
    text: str, table: Callable[[], TownTable], bare: Literal["m", "ft"] | None = None
) -> ElevationTyped | TownsFound:
    """Read where a lamp stands: a height, or the name of a town.

    Parameters
    ----------
    text : str
        Such as ``'1900 m'``, ``'6,200 ft'`` or ``'Leadville, CO'``.
    table : callable
        Gives the table of towns; called only where the text is no height.
    bare : {'m', 'ft'} or None
        What a number without a unit is taken in; None refuses it.

    Returns
    -------
    ElevationTyped or TownsFound
        The height, with the unit that was taken for it; or the towns, one at least.

    Raises
    ------
    NoSuchTownError
        When it is neither.
    UnitsError
        When it is a height that cannot be used.
    """
    try:
        return ElevationTyped(parse_elevation(text), "")
    except UnitsError:
        if not _begins_as_number(text):
            return _towns_or_refused(table(), text)
        if bare is not None and (height := _in_unit(text, bare)) is not None:
            return ElevationTyped(height, bare)
        found = towns_named(table(), text) if any(map(str.isalpha, text)) else None
        if found is None or not found.towns:
            raise
        return found


def two_heights(text: str) -> tuple[str, ...]:
    """Return the two heights a number without a unit may be.

    Parameters
    ----------
    text : str
        What was typed.

    Returns
    -------
    tuple of str
        Such as ``('5200 m', '5200 ft')``; empty where it has a unit, is no number, can be only
        one of them, or where both are as good as one height.
    """
    if any(map(str.isalpha, text)) or not any(map(str.isdigit, text)):
        return ()
    metres, feet = _in_unit(text, "m"), _in_unit(text, "ft")
    if metres is None or feet is None or abs(metres - feet) <= _SAME_HEIGHT:
        return ()
    return (f"{text} m", f"{text} ft")


def _begins_as_number(text: str) -> bool:
    plain = text.strip().lstrip("+-\u2212.")
    return not plain or plain[0].isdigit()


def _in_unit(text: str, unit: str) -> float | None:
    """Return a number without a unit as one with it; None where it has a unit, or is unusable."""
    try:
        return parse_elevation(f"{text} {unit}")
    except UnitsError:
        return None


def _towns_or_refused(table: TownTable, text: str) -> TownsFound:
    found = towns_named(table, text)
    if found.towns:
        return found
    raise NoSuchTownError(text, _nearest(table, text))


def _nearest(table: TownTable, text: str) -> Town | None:
    """Return the largest of the towns spelt most like a text, the first letter being right."""
    name = folded(text[:_LONGEST].partition(",")[0])
    if not name or len(text) > _LONGEST:
        return None
    best, row = _NEAR_SPELT, -1
    for at, ratio in _alike(table, name):
        if ratio > best:
            best, row = ratio, at
    return table.town(row) if row >= 0 else None


def _alike(table: TownTable, name: str) -> Iterator[tuple[int, float]]:
    """Yield the rows of names that are spelt somewhat like a folded one, and how much."""
    from difflib import SequenceMatcher  # noqa: PLC0415 - only for a name that is not found

    matcher = SequenceMatcher(b=name, autojunk=False)
    for place in _places(table.folded_names, f"\n{name[0]}"):
        end = table.folded_names.index("\n", place + 1)
        matcher.set_seq1(table.folded_names[place + 1 : end])
        if min(matcher.real_quick_ratio(), matcher.quick_ratio()) > _NEAR_SPELT:
            yield bisect_right(table.starts, place) - 1, matcher.ratio()

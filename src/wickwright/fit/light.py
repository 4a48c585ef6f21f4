"""Light that parts give together, for a search that only adds.

The fit book gives each part light points of its own, and a sum of them is all the search
knows. How burner, chimney and mantle shine together is for someone else to say: a
:class:`Lights` is handed in, and what these three give counts in the place of their points.
Parts of other kinds keep theirs.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import product
from typing import TYPE_CHECKING, NamedTuple, Protocol

from wickwright.catalogue.records import Service
from wickwright.fit.compiled import KIND_NUMBERS, LIT
from wickwright.fit.search.jointly import NONE, Jointly, solve_jointly
from wickwright.fit.search.possible import possible
from wickwright.fit.search.query import Aim, Found
from wickwright.fit.search.solve import solve

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterable, Sequence

    from wickwright.catalogue.records import Part
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.request import Situation
    from wickwright.fit.search.effort import Effort
    from wickwright.fit.search.query import GaveUp, Query

__all__ = ["Lights", "Trio", "findable", "gained", "lights_of", "searched", "trio_of"]


class Trio(NamedTuple):
    """The parts of a lamp that give its light together.

    Attributes
    ----------
    burner, chimney : Part
        The flame and its draft.
    mantle : Part or None
        None where there is none.
    """

    burner: Part
    chimney: Part
    mantle: Part | None


class Lights(Protocol):
    """Knows how bright parts are together, at one place."""

    def knows(self, burner: Part) -> bool:
        """Tell whether the flame of a burner is known."""

    def sort_of(self, part: Part) -> Hashable:
        """Return what decides the light of a part of :data:`LIT`: equal for parts alike."""

    def bulb_points(self, bulb: Part) -> int | None:
        """Return light points of a bulb; None where its watts tell nothing."""

    def points(self, trios: Sequence[Trio]) -> Sequence[int | None]:
        """Return light points, hundredths of a natural-log unit; None where not known."""


def trio_of(parts: Iterable[Part]) -> Trio | None:
    """Return the parts that give the light of a lamp.

    Parameters
    ----------
    parts : iterable of Part
        Of the lamp.

    Returns
    -------
    Trio or None
        None when it has no burner or chimney, or the burner is electric.
    """
    of = {part.kind: part for part in parts if part.kind in LIT}
    burner, chimney = of.get("burner"), of.get("chimney")
    if burner is None or chimney is None or burner.service is Service.ELECTRIC:
        return None
    return Trio(burner, chimney, of.get("mantle"))


def lights_of(lamps: Sequence[Sequence[Part]], lights: Lights | None) -> list[int | None]:
    """Return the light points of lamps, each with its flame or its bulb.

    Parameters
    ----------
    lamps : sequence of sequence of Part
        The parts of each lamp.
    lights : Lights or None
        Who knows how bright parts are together; asked once for all lamps.

    Returns
    -------
    list of int or None
        None where nobody knows.
    """
    if lights is None:
        return [None] * len(lamps)
    found = [_bulb_light(parts, lights) for parts in lamps]
    trios = [trio_of(parts) for parts in lamps]
    known = {at: it for at, it in enumerate(trios) if it and lights.knows(it.burner)}
    for at, points in zip(known, lights.points(list(known.values())), strict=True):
        found[at] = _whole(lamps[at], points)
    return found


def _bulb_light(parts: Sequence[Part], lights: Lights) -> int | None:
    """Return the light of a lamp on a bulb."""
    of = {part.kind: part for part in parts if part.kind in ("burner", "bulb")}
    if len(of) < len(("burner", "bulb")) or of["burner"].service is not Service.ELECTRIC:
        return None
    return _whole(parts, lights.bulb_points(of["bulb"]))


def _whole(parts: Iterable[Part], points: int | None) -> int | None:
    """Add the light points of the parts that give no light themselves."""
    rest = sum(part.light for part in parts if part.kind not in (*LIT, "bulb"))
    return None if points is None else points + rest


def gained(now: Situation, lamps: Sequence[Sequence[Part]]) -> list[int]:
    """Return the light points that lamps have more than the one there was.

    Parameters
    ----------
    now : Situation
        The request, looked at, with the lamp as it was.
    lamps : sequence of sequence of Part
        The parts of each lamp afterwards.

    Returns
    -------
    list of int
        Hundredths of a natural-log unit: both lamps as the lights see them, or both by the
        light points of the book.
    """
    before, *after = lights_of([now.before, *lamps], now.lights)
    return [
        points - before
        if points is not None and before is not None
        else sum(part.light for part in parts) - now.light
        for parts, points in zip(lamps, after, strict=True)
    ]


def searched(
    compiled: Compiled, now: Situation, query: Query, effort: Effort | None = None
) -> Found | GaveUp:
    """Solve a query, light counted as the lights see it where they know every flame.

    Parameters
    ----------
    compiled : Compiled
        The book.
    now : Situation
        The request, looked at.
    query : Query
        With a limit on the shortfall where more light is asked for.
    effort : Effort, optional
        What may be spent; else as much as the query says.

    Returns
    -------
    Found or GaveUp
        As of :func:`wickwright.fit.search.solve.solve`.
    """
    lit = _lit(compiled, now, query)
    if lit is None:
        return solve(compiled.memory, query, effort)
    return solve_jointly(compiled.unlit, lit.query, lit.jointly, effort)


def findable(
    compiled: Compiled, now: Situation, query: Query, effort: Effort | None = None
) -> bool | GaveUp:
    """Tell whether :func:`searched` finds any way.

    Parameters
    ----------
    compiled, now, query, effort
        As for :func:`searched`; the query's aims do not matter.

    Returns
    -------
    bool or GaveUp
        True when it does.
    """
    lit = _lit(compiled, now, query)
    if lit is None:
        return possible(compiled.memory, query, effort)
    outcome = solve_jointly(compiled.unlit, lit.query, lit.jointly, effort)
    return bool(outcome.ways) if isinstance(outcome, Found) else outcome


@dataclass(frozen=True, slots=True)
class _Lit:
    """A query whose limit on light is on the light that parts give together."""

    query: Query
    jointly: Jointly


def _lit(compiled: Compiled, now: Situation, query: Query) -> _Lit | None:
    """Ask for light as the lights see it; None where it is not asked for, or not known."""
    short = query.most.get(Aim.SHORTFALL)
    if short is None or now.lights is None or trio_of(now.before) is None:
        return None
    jointly = _jointly(compiled, query, now.lights)
    (before,) = lights_of([now.before], now.lights)
    if jointly is None or before is None:
        return None
    most = {**query.most, Aim.SHORTFALL: short + now.light - before}
    return _Lit(replace(query, most=most), jointly)


_REMEMBERED = 64
"""Mixtures of usable parts whose light is remembered at once."""


def _jointly(compiled: Compiled, query: Query, lights: Lights) -> Jointly | None:
    """Return what the usable parts give together; None where some flame is not known."""
    key = (lights, tuple(query.masks[KIND_NUMBERS[kind]] for kind in LIT))
    found = compiled.together_lit.get(key)
    if found is None:
        field = _Field(compiled, query, lights)
        if not field.known:
            return None
        if len(compiled.together_lit) >= _REMEMBERED:
            compiled.together_lit.clear()
        found = compiled.together_lit[key] = field.jointly()
    return found


@dataclass(frozen=True, slots=True)
class _Sort:
    """Parts alike in their light."""

    part: Part
    numbers: frozenset[int]


class _Field:
    """The parts a query may put into a trio, in sorts."""

    def __init__(self, compiled: Compiled, query: Query, lights: Lights) -> None:
        self.compiled, self.query, self.lights = compiled, query, lights
        self.sorts = {kind: self._sorted(kind) for kind in LIT}
        self.known = all(lights.knows(sort.part) for sort in self.sorts["burner"])

    def _sorted(self, kind: str) -> list[_Sort]:
        alike: dict[Hashable, list[int]] = {}
        for number in sorted(self.compiled.unlit.of_kind(KIND_NUMBERS[kind])):
            part = self.compiled.parts[number]
            if self.query.usable[number] and part.service is not Service.ELECTRIC:
                alike.setdefault(self.lights.sort_of(part), []).append(number)
        return [_Sort(self.compiled.parts[some[0]], frozenset(some)) for some in alike.values()]

    def jointly(self) -> Jointly:
        """Return what every trio gives."""
        burners, chimneys, mantles = (self.sorts[kind] for kind in LIT)
        picks = list(product(range(len(burners)), range(len(chimneys)), range(NONE, len(mantles))))
        trios = [
            Trio(burners[b].part, chimneys[c].part, mantles[m].part if m != NONE else None)
            for b, c, m in picks
        ]
        found = zip(picks, self.lights.points(trios), strict=True)
        return Jointly(
            tuple(KIND_NUMBERS[kind] for kind in LIT),
            tuple(tuple(sort.numbers for sort in self.sorts[kind]) for kind in LIT),
            {pick: points for pick, points in found if points is not None},
        )

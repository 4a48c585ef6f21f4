"""What is said where nobody knows how high a lamp stands: sea level is taken, and up to where."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final, cast

from wickwright.answers.flames.route_flames import route_flames
from wickwright.answers.sheet.call_record import UNSURE
from wickwright.answers.words.cautions import service_wanted
from wickwright.catalogue.records import Service
from wickwright.fit.audit import drawing
from wickwright.fit.place import Place
from wickwright.terms.finding import Kind, Quantity, Severity
from wickwright.terms.units import ELEVATION_RANGE, say

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.answers.flames.route_flames import RouteFlame
    from wickwright.answers.post.one_of_these import Fitted, Meant
    from wickwright.answers.sheet.call_record import Said
    from wickwright.answers.sheet.memory import Memory
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.request import Situation
    from wickwright.fit.routes import Route
    from wickwright.terms.finding import Finding

__all__ = ["air_cautions", "height_unsaid", "height_words", "highest_without_caution"]

_OF_AIR: Final = frozenset({"draft", "burn-starved", "burn-carbon", "flame-mark-carbon"})
"""Rules of which air that is too thin is the cause."""
_UNSEEN: Final = frozenset({"base", "font", "reducer", "holder", "shade", "bell", "tool"})
"""Kinds that do not change a flame's air."""
_FINE: Final = 10.0
"""How exactly the elevation is sought [m]."""
_FOOT: Final = 0.3048
_STEPS: Final = {"us": 100.0 * _FOOT}
_STEP: Final = 50.0
"""What the elevation is rounded down to [m]."""


def height_unsaid(said: Said, now: Situation) -> bool:
    """Tell whether a lamp is to burn at a height that nobody knows.

    Parameters
    ----------
    said : Said
        What stands on the sheet.
    now : Situation
        The request, looked at.

    Returns
    -------
    bool
        False for a lamp that runs on a bulb: air does not matter to it.
    """
    return said.elevation is None and service_wanted(now) is Service.OIL


def air_cautions(
    compiled: Compiled, now: Situation, route: Route, elevation: float
) -> frozenset[tuple[str, Severity]]:
    """Return what is to be said against the lamp of a route for want of air at an elevation.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    now : Situation
        The request, looked at.
    route : Route
        The way, whose finished lamp is judged as it is.
    elevation : float
        Where it stands [m].

    Returns
    -------
    frozenset of (str, Severity)
        Rules from a caution up, with their weight.
    """
    place = Place(elevation)
    there = replace(now, request=replace(now.request, place=place))
    (flame,) = route_flames(compiled, there, [route]).after
    return _told(route, flame, place)


def _told(route: Route, flame: RouteFlame, place: Place) -> frozenset[tuple[str, Severity]]:
    found: Sequence[Finding] = (*drawing(route.assembly, place), *flame.findings)
    return frozenset(
        (one.rule, one.severity)
        for one in found
        if one.rule in _OF_AIR and one.severity >= Severity.CAUTION
    )


def highest_without_caution(memory: Memory, now: Situation, route: Route) -> float | None:
    """Return how high a lamp may go before more has to be said of its air than at sea level.

    Parameters
    ----------
    memory : Memory
        The fit book. What was found is kept by the parts that the flame sees.
    now : Situation
        The request, looked at.
    route : Route
        The way.

    Returns
    -------
    float or None
        Elevation, by bisection to 10 m [m]; None where nothing has to be said of the highest
        dwellings.
    """
    seen = tuple(it.part.id for it in route.assembly.walk() if it.part.kind not in _UNSEEN)
    found = memory.noted.get(("air", seen), lambda: _highest(memory.compiled, now, route))
    return cast("float | None", found)


def _highest(compiled: Compiled, now: Situation, route: Route) -> float | None:
    own = air_cautions(compiled, now, route, 0.0)
    low, high = 0.0, ELEVATION_RANGE[1]
    if air_cautions(compiled, now, route, high) <= own:
        return None
    while high - low > _FINE:
        middle = (low + high) / 2.0
        if air_cautions(compiled, now, route, middle) <= own:
            low = middle
        else:
            high = middle
    return low


def height_words(memory: Memory, said: Said, meant: Meant) -> str:
    """Say that sea level was taken, and above what height the parts must not be fitted.

    Parameters
    ----------
    memory : Memory
        The fit book.
    said : Said
        What stands on the sheet.
    meant : Meant
        For which lamps the parts are.

    Returns
    -------
    str
        Two sentences; blank where the height is known or does not matter.
    """
    if not height_unsaid(said, meant.ways[0].now):
        return ""
    known = [highest_without_caution(memory, way.now, way.route) for way in meant.ways]
    limits = [one for one in known if one is not None]
    says = f"We took sea level, because {_because(said)}."
    if not limits:
        return says
    units = memory.units
    step = _STEPS.get(units.system, _STEP)
    highest = min(limits) // step * step
    above = f"Above {say(Quantity(highest, Kind.ELEVATION), units)}" if highest else "Higher up"
    return f"{says} {above} do not fit {_what(meant.ways[0])}: call us."


def _because(said: Said) -> str:
    if not said.place or said.place == UNSURE:
        return "you did not say how high you live"
    return f"we do not know how high '{said.place}' lies"


def _what(way: Fitted) -> str:
    return "this glass" if any(part.kind == "chimney" for part in way.route.buy) else "these parts"

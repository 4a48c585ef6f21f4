"""The drawing of an assembled lamp, to scale from the fit book."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from wickwright.catalogue.records import Footing, Service
from wickwright.charts.lamp_section import Piece, Section, Tip, lamp_section, small_section
from wickwright.fit.stance import Placed, placed, stance, unweighed

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable

    from wickwright.catalogue.assembly import Assembly
    from wickwright.catalogue.records import Part
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.request import Situation
    from wickwright.fit.routes import Route
    from wickwright.fit.settings import Settings
    from wickwright.terms.units import Units

__all__ = ["lamp_drawing", "lamp_svg", "section_of", "small_lamp_drawing"]

_GUESSED_HEIGHT = 0.05
_GUESSED_RADIUS = 0.03
_GUESSED_BELL = 0.05
"""Heights and radii drawn, dashed, where the book has none [m]."""


def lamp_drawing(compiled: Compiled, now: Situation, route: Route | None, units: Units) -> str:
    """Draw the lamp of a request: as it will be by a route, or as it is.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    now : Situation
        What the caller has.
    route : Route or None
        The way from here to there, of which what is new is marked; None for the lamp as it is.
    units : Units
        What to print in.

    Returns
    -------
    str
        SVG text.

    Raises
    ------
    ValueError
        When no part of the lamp stands on a base.
    """
    lamp = compiled.book.lamps[now.request.lamp]
    title = f"{lamp.name} ({lamp.id})"
    if route is None:
        return lamp_svg(title, now.now, compiled.settings, units)
    new = {part.id for part in (*route.buy, *route.included)}
    settings = compiled.settings
    return lamp_svg(title, route.assembly, settings, units, new=new, aside=route.aside)


def small_lamp_drawing(compiled: Compiled, now: Situation, route: Route) -> str:
    """Draw the finished lamp of a route for a narrow column, with part numbers only.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    now : Situation
        What the caller has.
    route : Route
        The way from here to there, of which what is new is marked.

    Returns
    -------
    str
        SVG text.

    Raises
    ------
    ValueError
        When no part of the lamp stands on a base.
    """
    lamp = compiled.book.lamps[now.request.lamp]
    new = {part.id for part in (*route.buy, *route.included)}
    title = f"{lamp.name} ({lamp.id})"
    section = section_of(title, route.assembly, compiled.settings, new=new, aside=route.aside)
    return small_section(section)


def lamp_svg(
    title: str,
    assembly: Assembly,
    settings: Settings,
    units: Units,
    *,
    new: Collection[str] = (),
    aside: Iterable[Part] = (),
) -> str:
    """Draw a lamp.

    Parameters
    ----------
    title : str
        Name of the lamp.
    assembly : Assembly
        The lamp.
    settings : Settings
        Fillings, fuel and the limit of tipping.
    units : Units
        What to print in.
    new : collection of str
        Parts that are new.
    aside : iterable of Part
        Parts put aside.

    Returns
    -------
    str
        SVG text.

    Raises
    ------
    ValueError
        When no part of the lamp stands on a base.
    """
    return lamp_section(section_of(title, assembly, settings, new=new, aside=aside), units)


def section_of(
    title: str,
    assembly: Assembly,
    settings: Settings,
    *,
    new: Collection[str] = (),
    aside: Iterable[Part] = (),
) -> Section:
    """Return what is drawn of a lamp.

    Parameters
    ----------
    title : str
        Name of the lamp.
    assembly : Assembly
        The lamp.
    settings : Settings
        Fillings, fuel and the limit of tipping.
    new : collection of str
        Parts that are new.
    aside : iterable of Part
        Parts put aside.

    Returns
    -------
    Section
        Its pieces, its balance and the slope at which it tips.
    """
    dry = _electric(assembly)
    pieces = tuple(
        _piece(it, new=it.part.id in new, dry=dry)
        for it in _curled(placed(assembly))
        if it.part.kind != "tool"
    )
    off = tuple(
        _piece(Placed(part, 0.0), new=False, dry=True) for part in aside if part.kind != "tool"
    )
    unknown = unweighed(assembly)
    if unknown:
        note = f"No centre of mass is drawn: not weighed are {', '.join(unknown)}."
        return Section(title, pieces, off, note=note)
    stands = stance(assembly, settings, dry=dry)
    worst = min(stands, key=lambda one: one.angle, default=None)
    tip = None
    if worst is not None and worst.reach > 0.0:
        tip = Tip(worst.reach, worst.centre, worst.angle, settings.limit.angle)
    return Section(title, pieces, off, tuple((one.fill, one.centre) for one in stands), tip)


def _electric(assembly: Assembly) -> bool:
    burner = assembly.of_kind("burner")
    return burner is not None and burner.part.service is Service.ELECTRIC


def _curled(parts: tuple[Placed, ...]) -> tuple[Placed, ...]:
    """Let the tail of a wick lie on the floor of the font, which it is longer than."""
    floor = max((it.foot + it.part.fuel.floor for it in parts if it.part.fuel), default=-math.inf)
    return tuple(
        Placed(replace(it.part, height=it.top - floor), floor)
        if it.part.kind == "wick" and it.foot < floor < it.top
        else it
        for it in parts
    )


def _piece(it: Placed, *, new: bool, dry: bool) -> Piece:
    part, fuel = it.part, it.part.fuel
    radii, sized = _radii(part)
    return Piece(
        part.id,
        part.kind,
        part.name,
        it.foot,
        it.foot + (_GUESSED_HEIGHT if part.height is None else part.height),
        radii,
        new,
        known=sized and part.height is not None,
        fuel=(it.foot + fuel.floor, it.foot + fuel.floor + fuel.depth)
        if fuel and not dry
        else None,
        frame=bool(part.support and part.support.footing in {Footing.HUNG, Footing.FIXED}),
    )


def _radii(part: Part) -> tuple[tuple[float, float, float], bool]:
    """Return the radii at foot, body and top, and whether the book gives any of them."""
    ports = {False: _widest(part, carries=False), True: _widest(part, carries=True)}
    own = ports[False] or ports[True] or _GUESSED_RADIUS
    over = ports[True] or own
    known = bool(ports[False] or ports[True])
    if part.support:
        foot = part.support.radius or over
        return (foot, over, over), known
    if part.fuel:
        body = math.sqrt(part.fuel.volume / (math.pi * part.fuel.depth))
        return (own, body, over), known
    if _hangs_from_its_fitter(part):
        return (own * 1.6, own * 1.3, own), False
    if part.kind == "bell":
        return (_GUESSED_BELL, _GUESSED_BELL, own), False
    return _by_kind(part.kind, own, over), known


def _hangs_from_its_fitter(part: Part) -> bool:
    """Whether the ring that carries a shade is high inside it, as in cloth ones."""
    high = max((port.height for port in part.ports), default=0.0)
    return part.kind == "shade" and high > 0.25 * (part.height or math.inf)


def _by_kind(kind: str, own: float, over: float) -> tuple[float, float, float]:
    match kind:
        case "mantle":
            return own, own * 1.15, own * 0.35
        case "chimney":
            return own, own * 1.12, own * 0.72
        case "shade":
            return own, own, own * 0.35
        case _:
            return own, max(own, over), over


def _widest(part: Part, *, carries: bool) -> float | None:
    ports = part.carries if carries else [one for one in part.ports if one not in part.carries]
    sizes = [
        dimension.nominal / 2
        for port in ports
        for name in ("diameter", "capture")
        if (dimension := port.sizes.get(name)) is not None and dimension.nominal
    ]
    return max(sizes, default=None)

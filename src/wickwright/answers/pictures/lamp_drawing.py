"""The drawing of an assembled lamp, to scale from the fit book."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from wickwright.answers.pictures.drawn_parts import looks_of, piece_of
from wickwright.catalogue.records import Service
from wickwright.charts.lamp_piece import Balance, Section, State, Tip
from wickwright.charts.lamp_section import lamp_section, small_section
from wickwright.fit.assemble import forest
from wickwright.fit.stance import placed, stance, unweighed

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from wickwright.catalogue.assembly import Assembly
    from wickwright.catalogue.records import Part
    from wickwright.charts.lamp_piece import Piece
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.request import Situation
    from wickwright.fit.routes import Route
    from wickwright.fit.stance import Stance
    from wickwright.terms.units import Units

__all__ = ["lamp_drawing", "section_of", "small_lamp_drawing", "sold_drawing"]


def lamp_drawing(compiled: Compiled, now: Situation, route: Route | None, units: Units) -> str:
    """Draw the lamp of a request: as it will be by a route, or as it is.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    now : Situation
        What the caller has.
    route : Route or None
        The way from here to there, of which what is new is marked and what is put aside is
        drawn beside it; None for the lamp as it is, with what is missing dashed.
    units : Units
        What to print in.

    Returns
    -------
    str
        SVG text; the drawing in words is its description.

    Raises
    ------
    ValueError
        When the caller has no part that could be drawn.
    """
    if route is not None:
        return lamp_section(_by_route(compiled, now, route), units)
    owned = {part.id for part in now.owned}
    gone = [part.id for part in now.before if part.id not in owned]
    states = dict.fromkeys(gone, State.MISSING)
    as_is = _standing(compiled, now.now)
    return lamp_section(section_of(compiled, _title(compiled, now), as_is, states), units)


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
        When the finished lamp has no part that could be drawn.
    """
    return small_section(_by_route(compiled, now, route))


def _title(compiled: Compiled, now: Situation) -> str:
    lamp = compiled.book.lamps[now.request.lamp]
    return f"{lamp.name} ({lamp.id})"


def _by_route(compiled: Compiled, now: Situation, route: Route) -> Section:
    states = dict.fromkeys((part.id for part in (*route.buy, *route.included)), State.NEW)
    return section_of(compiled, _title(compiled, now), route.assembly, states, route.aside)


def sold_drawing(compiled: Compiled, lamp: str, units: Units) -> str:
    """Draw a lamp as it left the works.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    lamp : str
        Model, by id.
    units : Units
        What to print in.

    Returns
    -------
    str
        SVG text.

    Raises
    ------
    ValueError
        When the book has no part of it that could be drawn.
    """
    model = compiled.book.lamps[lamp]
    title = f"{model.name} ({model.id})"
    return lamp_section(section_of(compiled, title, compiled.sold(lamp)), units)


def _standing(compiled: Compiled, assembly: Assembly) -> Assembly:
    """Return what can be drawn of a lamp without a base: its largest group of parts."""
    if assembly.root is not None or not assembly.loose:
        return assembly
    groups = forest(assembly.loose, compiled.joiner)
    return max(groups, key=lambda it: sum(1 for _ in it.walk()))


def section_of(
    compiled: Compiled,
    title: str,
    assembly: Assembly,
    states: Mapping[str, State] | None = None,
    aside: Iterable[Part] = (),
) -> Section:
    """Return what is drawn of a lamp.

    Parameters
    ----------
    compiled : Compiled
        The fit book, with the limits in force.
    title : str
        Name of the lamp.
    assembly : Assembly
        The lamp.
    states : mapping of str to State, optional
        What becomes of parts that do not simply stay, by part number.
    aside : iterable of Part
        Parts put aside.

    Returns
    -------
    Section
        Its pieces, its balance and the slope at which it tips.
    """
    known = states or {}
    looks, dry = looks_of(compiled.book), _electric(assembly)
    stands_by = {it.part.id: it.by for it in assembly.walk()}
    pieces = [
        piece_of(
            it.part,
            it.foot,
            looks,
            by=stands_by.get(it.part.id),
            state=known.get(it.part.id, State.KEPT),
            dry=dry,
        )
        for it in placed(assembly)
        if it.part.kind != "tool"
    ]
    off = [piece_of(it, 0.0, looks, state=State.ASIDE) for it in aside if it.kind != "tool"]
    bare = Section(title, _settled(pieces), tuple(off))
    return _balanced(compiled, bare, assembly, dry=dry)


def _electric(assembly: Assembly) -> bool:
    burner = assembly.of_kind("burner")
    return burner is not None and burner.part.service is Service.ELECTRIC


def _settled(pieces: list[Piece]) -> tuple[Piece, ...]:
    """Lay the tail of a wick on the floor of the font, and lead the draft tube to its burner."""
    floor = max((it.foot + it.fuel[0] for it in pieces if it.fuel), default=-math.inf)
    inner = next((it.takes.get("spreader") for it in pieces if it.kind == "burner"), None)
    found = []
    for it in pieces:
        if it.kind == "wick" and it.foot < floor < it.top:
            found.append(replace(it, tall=it.top - floor, foot=floor))
        elif it.kind == "font" and "tube" in it.marks and inner is not None:
            found.append(replace(it, bore=inner.radius))
        else:
            found.append(it)
    return tuple(found)


def _balanced(compiled: Compiled, bare: Section, assembly: Assembly, *, dry: bool) -> Section:
    """Add the balance of a lamp whose parts have all been weighed."""
    if assembly.root is None or assembly.root.part.kind != "base":
        return replace(bare, note="There is no base: how the lamp stands is not drawn.")
    if any(it.state is State.MISSING for it in bare.pieces):
        return replace(bare, note="Parts are missing: no centre of mass is drawn.")
    unknown = unweighed(assembly)
    if unknown:
        note = f"No centre of mass is drawn: not weighed are {', '.join(unknown)}."
        return replace(bare, note=note)
    stands = sorted(stance(assembly, compiled.settings, dry=dry), key=lambda one: one.angle)
    balances = tuple(Balance(one.fill, one.centre) for one in stands)
    return replace(bare, balances=balances, tip=_tip(compiled, stands[0]))


def _tip(compiled: Compiled, worst: Stance) -> Tip | None:
    if worst.reach <= 0.0:
        return None
    return Tip(worst.reach, worst.centre, worst.angle, compiled.settings.limit.angle)

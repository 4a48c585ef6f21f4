"""An assembled lamp to scale: its outside on the left of the axis, a section on the right.

Heights and the radii of joints are those of the pieces; curves between them are only
indicative of the kind. Nothing is drawn that is not handed in.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickwright.charts.drawn_pieces import put_beside, shaped, stacked, width_beside
from wickwright.charts.inking import GREY, INK, Paper, dash_of, inked
from wickwright.charts.lamp_marks import (
    COLUMN,
    ROW,
    SIZE,
    balance_mark,
    height_marks,
    length,
    letter_group,
    letters,
    measured_heights,
    name_marks,
    named_in,
    names_tall,
    scale_bar,
    tip_marks,
    written,
)
from wickwright.charts.lamp_piece import State
from wickwright.charts.lettering import width_of, wrapped
from wickwright.charts.shape import MM, left
from wickwright.charts.svg import document, group, path, tag, words
from wickwright.terms.finding import Kind, Quantity
from wickwright.terms.units import say

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickwright.charts.drawn_pieces import Drawn
    from wickwright.charts.lamp_marks import Measured, Named
    from wickwright.charts.lamp_piece import Piece, Section
    from wickwright.terms.units import Units

__all__ = ["lamp_section", "pixels_per_metre", "small_section"]

_TALL: Final = 600.0
_VERY_TALL: Final = 800.0
_TOP: Final = 86.0
_EDGE: Final = 22.0
_WIDE: Final = 520.0
_FINEST: Final = 1500.0
_LEADER: Final = 54.0


def pixels_per_metre(section: Section) -> float:
    """Return the scale of a drawing.

    Parameters
    ----------
    section : Section
        What is drawn.

    Returns
    -------
    float
        Pixels of the drawing for one metre [px/m].
    """
    return _scale(section, shaped(section.pieces))


def _scale(section: Section, drawn: list[Drawn]) -> float:
    low, high = _span(section)
    wide = max(it.left for it in drawn) + max(it.right for it in drawn)
    tall = _TALL if high - low < 1.0 else _VERY_TALL
    return min(tall / max(high - low, 0.05), _WIDE / max(wide, 0.02), _FINEST)


def _span(section: Section) -> tuple[float, float]:
    """Lowest and highest of all that is drawn [m]."""
    low = min(0.0, *(it.foot for it in section.pieces))
    high = max(it.top for it in section.pieces)
    return low, max([high, *(low + it.tall for it in section.aside)])


@dataclass(frozen=True, slots=True)
class _Plan:
    """What is written beside a lamp, how large it is drawn, and where the paper begins [px]."""

    share: float
    top: float
    heights: list[Measured]
    said: Callable[[Piece], str]
    masses: str


@dataclass(frozen=True, slots=True)
class _Sheet:
    """Where everything falls on the paper [px]."""

    top: float
    paper: Paper
    drawn: list[Drawn]
    aside: list[list[Drawn]]
    names: list[Named]
    heights: list[Measured]
    lamp_left: float
    names_left: float
    floor: float
    bottom: float
    width: float


def lamp_section(section: Section, units: Units) -> str:
    """Draw a lamp.

    Parameters
    ----------
    section : Section
        What is drawn.
    units : Units
        What heights and angles are printed in.

    Returns
    -------
    str
        SVG text with its title and, in words, all that it shows. It stands on white paper; a
        page that honours forced colours must leave the letters of its drawings dark.

    Raises
    ------
    ValueError
        When there is nothing to draw.
    """
    plan = _Plan(1.0, _TOP, _measured(section, units), _said, _masses(section, units))
    sheet = _laid_out(section, plan)
    below = _below(section, sheet)
    rows = sheet.bottom + 26.0
    body = [
        words(_EDGE, 32, section.title, size=17, bold=True),
        words(_EDGE, 54, _how_to_read(section), size=SIZE, fill="#5a5a5a"),
        height_marks(sheet.heights, sheet.paper, sheet.lamp_left),
        _surroundings(section, sheet),
        *_lamp(sheet),
        put_beside(sheet.aside, sheet.paper.scale, _EDGE, sheet.floor),
        _balance(section, sheet),
        name_marks(sheet.names, sheet.names_left, _TOP - 14, sheet.bottom - 6),
        _slopes(section, sheet, units),
        scale_bar(_EDGE, rows + 12, sheet.paper, units),
        *(written(_EDGE, rows + 38 + 17 * at, said) for at, said in enumerate(below)),
    ]
    told = " ".join(_told(section, sheet, units))
    return document(
        sheet.width, rows + 38 + 17 * len(below), section.title, told, [letter_group("".join(body))]
    )


def small_section(section: Section) -> str:
    """Draw a lamp for a narrow column: the same lines at half the size, with part numbers only.

    Parameters
    ----------
    section : Section
        What is drawn.

    Returns
    -------
    str
        SVG text.

    Raises
    ------
    ValueError
        When there is nothing to draw.
    """
    sheet = _laid_out(section, _Plan(0.5, _SMALL_TOP, [], lambda it: it.id, ""))
    body = [
        _surroundings(section, sheet),
        *_lamp(sheet),
        put_beside(sheet.aside, sheet.paper.scale, _EDGE, sheet.floor),
        _balance(section, sheet),
        name_marks(sheet.names, sheet.names_left, 2.0, sheet.bottom - 6),
    ]
    order = [it.piece for column in sheet.aside for it in column]
    marks = letters(order)
    key = ", ".join(f"{marks[it.id]} {it.id}" for it in order)
    lines = wrapped(f"Put aside: {key}", SIZE, sheet.width - 2 * _EDGE) if order else ()
    start = sheet.bottom + (36.0 if order else 0.0)
    body += [written(_EDGE, start + ROW * row, said) for row, said in enumerate(lines)]
    told = " ".join([*(f"{_said(it)}." for it in section.pieces), *_aside_said(sheet)])
    tall = start + ROW * len(lines)
    return document(sheet.width, tall, section.title, told, [letter_group("".join(body))])


_SMALL_TOP: Final = 18.0


def _measured(section: Section, units: Units) -> list[Measured]:
    return measured_heights(section, units) if section.pieces else []


def _how_to_read(section: Section) -> str:
    said = "Left of the axis from outside, right of it cut open."
    if any(it.state is State.NEW for it in section.pieces):
        said += " Yellow, heavy lines and letters: new."
    if any(it.state is State.MISSING for it in section.pieces):
        said += " Dashed: missing."
    return said


def _laid_out(section: Section, plan: _Plan) -> _Sheet:
    if not section.pieces:
        msg = "there is no lamp to draw: the caller has no part of it yet"
        raise ValueError(msg)
    drawn, aside = shaped(section.pieces), shaped(section.aside)
    scale = _scale(section, drawn) * plan.share
    low, high = _span(section)
    columns = stacked(aside, scale, (high - low) * scale)
    measures = 26.0 + COLUMN * len(plan.heights) if plan.heights else 0.0
    lamp_left = _EDGE + width_beside(columns, scale) + measures
    axis = lamp_left + max(it.left for it in drawn) * scale
    paper = Paper(scale, axis, plan.top + high * scale)
    names = _names(section, drawn, paper, plan)
    names_left = axis + max(it.right for it in drawn) * scale + _LEADER
    floor = paper.ground - low * scale
    bottom = max(floor + 8.0, plan.top - 14 + names_tall(names)) + 6.0
    said = [line for it in names for line in it.lines]
    room = max(width_of(line, SIZE, bold=True) for line in said)
    widths = (names_left + room + 30.0, width_of(section.title, 17, bold=True) + _EDGE)
    width = (max(widths) if plan.heights else widths[0]) + _EDGE
    return _Sheet(
        plan.top, paper, drawn, columns, names, plan.heights, lamp_left, names_left, floor,
        bottom, width,
    )  # fmt: skip


def _names(section: Section, drawn: list[Drawn], paper: Paper, plan: _Plan) -> list[Named]:
    """Name each part from the top down, and the centre of mass among them."""
    spots = [(paper.at(it.shape.point[0], it.piece.foot + it.shape.point[1]), it) for it in drawn]
    falling = sorted(spots, key=lambda it: it[0][1])
    marks = letters([it.piece for _, it in falling])
    found = [
        named_in(plan.said(it.piece), at, marks[it.piece.id], it.piece.state) for at, it in falling
    ]
    if section.balances and plan.masses:
        at = paper.at(0.0, section.balances[0].centre)
        found.append(named_in(plan.masses, at, "", None))
    return sorted(found, key=lambda it: it.at[1])


_PREFIX: Final = {State.NEW: "NEW ", State.MISSING: "MISSING "}


def _said(piece: Piece) -> str:
    unsure = "" if piece.known else " (height not in the fit book)"
    return f"{_PREFIX.get(piece.state, '')}{piece.label}, {piece.id}{unsure}"


def _masses(section: Section, units: Units) -> str:
    names = {0.0: "empty", 0.5: "half full", 1.0: "full"}
    alone = len(section.balances) == 1
    each = ", ".join(
        length(it.centre, units)
        + ("" if alone else f" {names.get(it.fill, f'{it.fill:.0%} full')}")
        for it in section.balances
    )
    return f"Centre of mass: {each}"


def _lamp(sheet: _Sheet) -> list[str]:
    """Draw all that is mounted; what hangs or holds it from outside comes first."""
    behind = [it for it in sheet.drawn if it.piece.form in {"hung", "fixed"}]
    found = [_grouped(it, inked(it.shape.signed, it.piece, sheet.paper), "back") for it in behind]
    for it in sheet.drawn:
        shape = it.shape
        strokes = (
            *(() if it in behind else shape.signed),
            *(() if shape.inner else left(shape.outside)),
            *shape.cut,
        )
        found.append(_grouped(it, inked(strokes, it.piece, sheet.paper), "front"))
    return found


def _grouped(it: Drawn, inside: str, layer: str) -> str:
    look: dict[str, str | float] = {"fill": "none", "stroke": INK, "stroke_width": 1.1}
    data = {"data_part" if layer == "front" else "data_behind": it.piece.id}
    return group([inside], **data, **look, **dash_of(it.piece)) if inside else ""


def _surroundings(section: Section, sheet: _Sheet) -> str:
    """Draw what it stands on, hangs from or is fixed to, and the axis."""
    base = section.of_kind("base")
    form = base.form if base else ""
    paper = sheet.paper
    right = sheet.names_left - _LEADER
    if form == "hung" and base:
        y = paper.at(0.0, base.top)[1]
        edge = _edge((paper.axis - 46, y), (paper.axis + 46, y), (5.0, -6.0))
    elif form == "fixed" and base:
        ends = [paper.at(0.0, base.foot - 30 * MM)[1], paper.at(0.0, base.top + 30 * MM)[1]]
        ends[1] = max(ends[1], sheet.top - 14)
        edge = _edge((sheet.lamp_left, ends[0]), (sheet.lamp_left, ends[1]), (-6.0, 5.0))
    else:
        edge = _edge((sheet.lamp_left - 8, paper.ground), (right + 8, paper.ground), (-5.0, 6.0))
    ends_of_axis = path([(paper.axis, sheet.top - 12), (paper.axis, sheet.floor + 8)])
    look: dict[str, str | float] = {"d": ends_of_axis, "stroke": GREY, "stroke_width": 0.7}
    return edge + tag("path", {**look, "stroke_dasharray": "12 3 2 3"})


def _edge(start: tuple[float, float], end: tuple[float, float], lean: tuple[float, float]) -> str:
    """A line with short strokes on the side of what is solid."""
    count = max(2, int(max(abs(end[0] - start[0]), abs(end[1] - start[1])) / 10))
    ticks = []
    for at in range(1, count):
        x, y = (start[way] + (end[way] - start[way]) * at / count for way in (0, 1))
        ticks.append(f"M{x:.0f} {y:.0f}l{lean[0]:.0f} {lean[1]:.0f}")
    line = tag("path", {"d": path([start, end]), "stroke": INK, "stroke_width": 1.2})
    return line + tag("path", {"d": "".join(ticks), "stroke": GREY, "stroke_width": 0.7})


def _balance(section: Section, sheet: _Sheet) -> str:
    tip = tip_marks(section.tip, sheet.paper) if section.tip else ""
    mark = balance_mark(section.balances[0].centre, sheet.paper) if section.balances else ""
    return tip + mark


def _angles(section: Section, units: Units) -> tuple[str, str] | None:
    if section.tip is None:
        return None
    tips, limit = (
        say(Quantity(value, Kind.ANGLE), units) for value in (section.tip.angle, section.tip.limit)
    )
    return tips, limit


def _slopes(section: Section, sheet: _Sheet, units: Units) -> str:
    """Write both angles below the edge about which the lamp tips."""
    angles = _angles(section, units)
    if angles is None or section.tip is None:
        return ""
    x = sheet.paper.at(section.tip.reach, 0.0)[0]
    said = (f"tips at {angles[0]} (full arc)", f"must stand {angles[1]} (dashed arc)")
    return "".join(
        written(x + 4, sheet.bottom + 13 + ROW * row, one) for row, one in enumerate(said)
    )


def _below(section: Section, sheet: _Sheet) -> list[str]:
    """What is written under the drawing, broken into lines."""
    said = [*_aside_said(sheet), _GUESSED, *_wall_said(section)]
    if section.note:
        said.append(section.note)
    return [line for one in said for line in wrapped(one, SIZE, sheet.width - 2 * _EDGE)]


_GUESSED: Final = (
    "Heights and the diameters of joints are to scale from the fit book; other widths and the "
    "curves between are as usual for the kind of part."
)


def _aside_said(sheet: _Sheet) -> list[str]:
    order = [it.piece for column in sheet.aside for it in column]
    if not order:
        return []
    marks = letters(order)
    names = "; ".join(f"{marks[it.id]} {it.label}, {it.id}" for it in order)
    return [f"Put aside (hatched, dashed): {names}."]


def _wall_said(section: Section) -> list[str]:
    if any(it.form == "fixed" for it in section.pieces):
        return ["How far the wall is from the lamp is not in the fit book and is not to scale."]
    return []


def _told(section: Section, sheet: _Sheet, units: Units) -> list[str]:
    """Put the whole drawing into sentences for a reader who cannot see it."""
    by_state = {
        state: [f"{it.label} ({it.id})" for it in section.pieces if it.state is state]
        for state in State
    }
    heads = {State.NEW: "New", State.KEPT: "Stays", State.MISSING: "Missing"}
    said = [
        f"{head}: {'; '.join(by_state[state])}." for state, head in heads.items() if by_state[state]
    ]
    said += _aside_said(sheet)
    tall = [f"{it.says}" for it in measured_heights(section, units)]
    said.append(f"Heights: {', '.join(tall)}.")
    if section.balances:
        said.append(f"{_masses(section, units)}.")
    angles = _angles(section, units)
    if angles:
        said.append(f"Tips at a slope of {angles[0]}; it must stand on {angles[1]}.")
    return [*said, *([section.note] if section.note else [])]

"""Pictures to compare: 'does yours look like this or like that'."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial
from typing import TYPE_CHECKING, Final

from wickwright.answers.pictures.drawn_parts import piece_of
from wickwright.charts.base_views import plate_view, stance_view
from wickwright.charts.burner_views import (
    basket_view,
    burner_rim_view,
    flame_view,
    gallery_rim_view,
    mantle_ring_view,
    post_view,
    seat_view,
)
from wickwright.charts.compared import Compared, Span, side_by_side
from wickwright.charts.font_views import cap_view, font_view, thread_view, tube_view
from wickwright.charts.glass_views import bell_view, foot_view, holder_view, joint_view, shade_view
from wickwright.charts.knob_views import knob_view
from wickwright.terms.finding import Kind, Quantity
from wickwright.terms.units import Units, say

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from wickwright.catalogue.records import Book, Part, Port
    from wickwright.charts.lamp_piece import Piece
    from wickwright.charts.view import View
    from wickwright.fit.compiled import Compiled

__all__ = ["DRAWN", "look_picture", "look_pictures"]

_SKETCH: Final = "sketch, not to scale"


@dataclass(frozen=True, slots=True)
class _Shown:
    """A part that shows an answer, as it is drawn and as the book has it."""

    part: Part
    piece: Piece


_Draw = Callable[[_Shown, str], "View | None"]
_Measure = Callable[[_Shown], "float | None"]


@dataclass(frozen=True, slots=True)
class _Way:
    """How one look is drawn.

    Attributes
    ----------
    draw : callable
        From a part that shows the answer, and the answer.
    size : callable or None
        What is measured on a part [m], None where the book does not have it; None for a sketch
        that is not to scale.
    says : str
        How the measure is named.
    upright : bool
        Whether it is a height.
    beside : bool
        Whether it is drawn and printed beside the part; not where it tells nothing of what is
        asked.
    """

    draw: _Draw
    size: _Measure | None = None
    says: str = "across"
    upright: bool = False
    beside: bool = True


# -- what is measured on a part ------------------------------------------------------------------


def _height(it: _Shown) -> float | None:
    return it.part.height


def _taken(kind: str, it: _Shown) -> float | None:
    """Return how wide the place for a kind of part is [m]."""
    ring = it.piece.takes.get(kind)
    return 2 * ring.radius if ring else None


def _stood(it: _Shown) -> float | None:
    """Return how wide the part's own foot is [m]."""
    return 2 * it.piece.by.radius if it.piece.by else None


def _collar(it: _Shown) -> Port | None:
    return next((port for port in it.part.carries if port.joint == "thread"), None)


def _pitch(it: _Shown) -> float | None:
    port = _collar(it)
    size = port.sizes.get("pitch") if port else None
    return size.nominal if size else None


# -- what is drawn -------------------------------------------------------------------------------


def _of_piece(draw: Callable[[Piece, str], View | None]) -> _Draw:
    return lambda it, answer: draw(it.piece, answer)


def _thread(it: _Shown, _: str) -> View | None:
    port, pitch = _collar(it), _pitch(it)
    if port is None or pitch is None:
        return None
    reach = port.sizes.get("reach")
    return thread_view(pitch, port.words.get("form", ""), reach.nominal if reach else 4 * pitch)


def _tall(draw: Callable[[Piece, str], View | None]) -> _Way:
    return _Way(_of_piece(draw), _height, "tall", upright=True)


def _only_scaled(draw: Callable[[Piece, str], View | None]) -> _Way:
    """Draw to scale, where how tall a part is does not tell the answers apart."""
    return _Way(_of_piece(draw), _height, "tall", upright=True, beside=False)


def _across(draw: Callable[[Piece, str], View | None], kind: str) -> _Way:
    return _Way(_of_piece(draw), partial(_taken, kind))


def _sketch(draw: Callable[[Piece, str], View | None]) -> _Way:
    return _Way(_of_piece(draw))


DRAWN: Final[Mapping[str, _Way]] = {
    "base-stance": _only_scaled(stance_view),
    "base-plate": _sketch(plate_view),
    "font-shape": _tall(font_view),
    "font-tube": _Way(_of_piece(tube_view), _stood),
    "font-cap": _only_scaled(cap_view),
    "collar-ridges": _Way(_thread, _pitch, "apart", upright=True),
    "collar-crests": _Way(_thread, _pitch, "apart", upright=True),
    "burner-burns": _only_scaled(flame_view),
    "burner-basket": _Way(_of_piece(basket_view), partial(_taken, "gallery")),
    "burner-knob": _sketch(knob_view),
    "mantle-post": _only_scaled(post_view),
    "burner-rim": _across(burner_rim_view, "holder"),
    "gallery-seat": _across(seat_view, "chimney"),
    "mantle-ring": _across(mantle_ring_view, "mantle"),
    "gallery-rim": _across(gallery_rim_view, "holder"),
    "chimney-foot": _Way(_of_piece(foot_view), _stood),
    "holder-carries": _across(holder_view, "shade"),
    "holder-joints": _sketch(joint_view),
    "shade-form": _tall(shade_view),
    "bell-edge": _only_scaled(bell_view),
}
"""Looks that can be drawn, by their name in the fit book; of the others nothing is drawn."""


# -- which part is drawn -------------------------------------------------------------------------


def look_picture(
    compiled: Compiled, look: str, answer: str, units: Units | None = None
) -> str | None:
    """Draw what an answer to a look would look like.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    look : str
        Short name of the look, of the book's looks.
    answer : str
        One of the values that marks of the book give it.
    units : Units, optional
        What sizes are printed in.

    Returns
    -------
    str or None
        SVG text; None where nothing true can be drawn.
    """
    return look_pictures(compiled, look, units).get(answer)


def look_pictures(compiled: Compiled, look: str, units: Units | None = None) -> dict[str, str]:
    """Draw every answer to a look that can be drawn, all at the same scale.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    look : str
        Short name of the look, of the book's looks.
    units : Units, optional
        What sizes are printed in.

    Returns
    -------
    dict of str to str
        SVG text by answer. Each is drawn from a part that carries the mark: of those that are
        measured, the one nearest to the middle size of all that are looked at, so that answers
        differ in what is asked rather than in size.
    """
    way = DRAWN.get(look)
    if way is None or look not in compiled.book.calls.looks:
        return {}
    by_answer = _shown(compiled.book, look)
    size = way.size or _height
    middle = _middle([size(it) for shown in by_answer.values() for it in shown])
    found: dict[str, Compared] = {}
    for answer, shown in by_answer.items():
        drawn = _compared(way, answer, _ordered(shown, size, middle), units or Units())
        if drawn is not None:
            found[answer] = drawn
    return side_by_side(found)


def _shown(book: Book, look: str) -> dict[str, list[_Shown]]:
    """Return the parts that show each answer, with all that their marks say of them."""
    here = [mark for mark in book.calls.marks if mark.look == look]
    ids = {mark.part for mark in here}
    seen: dict[str, list[str]] = {}
    for mark in book.calls.marks:
        if mark.part in ids:
            seen.setdefault(mark.part, []).append(mark.value)
    looks = {part: tuple(values) for part, values in seen.items()}
    found: dict[str, list[_Shown]] = {}
    for mark in here:
        part = book.parts[mark.part]
        piece = _with_tube(book, part, piece_of(part, 0.0, looks, dry=True))
        found.setdefault(mark.value, []).append(_Shown(part, piece))
    return found


def _with_tube(book: Book, part: Part, piece: Piece) -> Piece:
    """Give a draft tube the width of the burner it was sold with."""
    if "tube" not in piece.marks:
        return piece
    sold = (lamp.as_sold for lamp in book.lamps.values() if part.id in lamp.as_sold)
    burners = (book.parts[one] for parts in sold for one in parts if one in book.parts)
    inner = (
        piece_of(one, 0.0, {}).takes.get("spreader") for one in burners if one.kind == "burner"
    )
    ring = next((it for it in inner if it is not None), None)
    return piece if ring is None else replace(piece, bore=ring.radius)


def _middle(sizes: Iterable[float | None]) -> float:
    known = sorted(it for it in sizes if it)
    return known[len(known) // 2] if known else 0.0


def _ordered(shown: Sequence[_Shown], size: _Measure, middle: float) -> list[_Shown]:
    """Return parts with those first that are measured, and near to the middle size."""

    def rank(it: _Shown) -> tuple[bool, bool, float]:
        found = size(it)
        return found is None, not it.piece.known, abs((found or middle) - middle)

    return sorted(shown, key=rank)


def _compared(way: _Way, answer: str, shown: Sequence[_Shown], units: Units) -> Compared | None:
    """Return the drawing of one answer: from the first part that can be drawn and is measured."""
    size = way.size
    views = ((it, way.draw(it, answer)) for it in shown)
    it, view = next(((it, view) for it, view in views if view is not None), (None, None))
    if it is None or view is None:
        return None
    length = size(it) if size else None
    span = _span(way, length) if length and way.beside else None
    sizes = sorted(one for one in map(size, shown) if one) if size else []
    said = f"{_between(sizes, units)} {way.says}" if sizes else ""
    told = [f"{answer}.", view.seen, _told_scale(it, said, to_scale=size is not None), view.note]
    return Compared(
        answer,
        " ".join(filter(None, told)),
        view.front,
        view.plan,
        span,
        _below(said if way.beside else "", sketch=size is None),
    )


def _below(said: str, *, sketch: bool) -> tuple[str, ...]:
    """Return what is written below a drawing."""
    return tuple(filter(None, (_SKETCH if sketch else said,)))


def _told_scale(it: _Shown, said: str, *, to_scale: bool) -> str:
    if not to_scale:
        return "A sketch, not to scale: the fit book has no dimension of it."
    drawn = f"To one scale with the other pictures of this question, from part {it.part.id}."
    return f"{drawn} By the fit book {said}." if said else drawn


def _span(way: _Way, length: float) -> Span:
    return Span(0.0, length, upright=True) if way.upright else Span(-length / 2, length / 2)


def _between(sizes: Iterable[float], units: Units) -> str:
    """Print the smallest and the largest of sizes, or the one there is."""
    said = list(dict.fromkeys(_length(one, units) for one in sizes))
    if len(said) == 1:
        return said[0]
    number, _, unit = said[0].rpartition(" ")
    return f"{number if said[-1].endswith(unit) else said[0]} to {said[-1]}"


def _length(value: float, units: Units) -> str:
    return say(Quantity(value, Kind.LENGTH), units).replace(".0 mm", " mm")

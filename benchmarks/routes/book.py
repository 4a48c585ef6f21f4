"""A whole invented book of a given size, from one seed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmarks.routes.bodies import bodies
from benchmarks.routes.draw import Draw
from benchmarks.routes.flames import flames
from benchmarks.routes.glass import glass
from benchmarks.routes.ladders import ladders
from benchmarks.routes.lamps import Works, succeeded
from benchmarks.routes.wishes import wishes

from wickwright.catalogue.records import Book, Family
from wickwright.fit.compiled import compile_book

if TYPE_CHECKING:
    from collections.abc import Iterable

    from benchmarks.routes.scale import Scale

    from wickwright.catalogue.records import Lamp, Part

__all__ = ["made_up_book"]


def made_up_book(scale: Scale, seed: int) -> Book:
    """Make a book.

    Parameters
    ----------
    scale : Scale
        How large.
    seed : int
        Same seed, same book.

    Returns
    -------
    Book
        Plausible, and nobody's.
    """
    draw = Draw(scale, seed)
    sizes = ladders(draw)
    parts = [*bodies(draw, sizes), *flames(draw, sizes), *glass(draw, sizes)]
    parts = list(succeeded(parts))
    parts = list(Works(draw, compile_book(_book(parts))).kits())
    lamps = Works(draw, compile_book(_book(parts))).lamps()
    return _book(parts, lamps)


def _book(parts: Iterable[Part], lamps: Iterable[Lamp] = ()) -> Book:
    return Book(
        about={"maker": "Skerry Lampworks", "edition": "made up", "currency": "EUR"},
        families={"all": Family("all", "All lamps")},
        lamps={lamp.id: lamp for lamp in lamps},
        parts={part.id: part for part in parts},
        wishes={wish.id: wish for wish in wishes()},
    )

"""A lamp to light, the demo book, and its lamps put together."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

import wickwright.data.demo.take_readings as demo
from wickwright.burn.checks import air_at
from wickwright.burn.parts import (
    FULLEST,
    Air,
    Chimney,
    Lamps,
    Mantle,
    Model,
    Passages,
    Wick,
)
from wickwright.catalogue.reading import read_book
from wickwright.catalogue.records import Book
from wickwright.fit.assemble import assemble
from wickwright.fit.joiner import Joiner
from wickwright.fit.settings import Settings
from wickwright.store.tables import are_faults, read_tables

if TYPE_CHECKING:
    from wickwright.catalogue.assembly import Assembly

__all__ = ["GRAM_AN_HOUR", "demo_book", "lit", "put_together", "table_lamp"]

GRAM_AN_HOUR = 1e-3 / 3600.0
_BOOK = Path(demo.__file__).parent / "book"


@lru_cache(maxsize=1)
def demo_book() -> Book:
    """Return the demo book."""
    tables = read_tables(_BOOK)
    assert not are_faults(tables)
    book = read_book(tables)
    assert isinstance(book, Book)
    return book


@lru_cache(maxsize=1)
def _joiner() -> Joiner:
    return Joiner(Settings())


def put_together(lamp: str, **changed: str) -> Assembly:
    """Return a lamp of the demo as sold, with parts of a kind exchanged, blank to leave out."""
    book = demo_book()
    parts = [book.parts[key] for key in book.lamps[lamp].as_sold]
    kept = [part for part in parts if part.kind not in changed]
    return assemble([*kept, *(book.parts[key] for key in changed.values() if key)], _joiner())


def table_lamp(fuel: float = FULLEST) -> Lamps:
    """Return a mantle lamp at sea level that burns about 65 g/h."""
    return Lamps(
        Passages(318e-6, 2.0, 190e6, 0.42),
        Wick(82.0 * GRAM_AN_HOUR, 1.3),
        Mantle(48e-4, 0.50, 0.06, 2.0),
        Chimney(0.296, 0.0578, 0.090, 0.040, 0.002),
        air_at(0.0),
        Model(),
        fuel,
    )


def lit(air: Air, fuel: float = FULLEST) -> Lamps:
    """Return that lamp in another room."""
    return replace(table_lamp(fuel), air=air)

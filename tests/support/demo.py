"""The demo book, read once and made ready once for all tests of a process."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import wickwright
from wickwright.catalogue.reading import read_book
from wickwright.catalogue.records import Book
from wickwright.fit.compiled import Compiled, compile_book
from wickwright.store.tables import are_faults, read_tables

__all__ = ["compiled_demo", "demo_book"]

_FOLDER = Path(wickwright.__file__).parent / "data" / "demo" / "book"


@cache
def demo_book() -> Book:
    """Return the demo book as the program reads it."""
    tables = read_tables(_FOLDER)
    assert not are_faults(tables), tables
    book = read_book(tables)
    assert isinstance(book, Book), book
    return book


@cache
def compiled_demo() -> Compiled:
    """Return the demo book ready for the route search."""
    return compile_book(demo_book())

"""The demo book, made ready once."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from tests.support.command import DEMO_BOOK

from wickwright.catalogue.reading import read_book
from wickwright.catalogue.records import Book
from wickwright.fit.compiled import compile_book
from wickwright.store.tables import are_faults, read_tables

if TYPE_CHECKING:
    from wickwright.fit.compiled import Compiled

__all__ = ["demo"]


@cache
def demo() -> Compiled:
    """Return the demo book, ready for questions."""
    tables = read_tables(DEMO_BOOK)
    assert not are_faults(tables)
    book = read_book(tables)
    assert isinstance(book, Book)
    return compile_book(book)

"""New numbers take effect under a name and a reason, and older signatures stay."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from tests.support.demo import demo

from wickwright.catalogue.compare import Did, compare_books
from wickwright.catalogue.reading import read_book
from wickwright.catalogue.records import Book, Signature
from wickwright.catalogue.writing import book_tables
from wickwright.cause.closed import Confirmed
from wickwright.cause.learning import Learned
from wickwright.cause.signing import UnsignedError, signed

DAY = date(2026, 7, 1)
BOOK = demo().book
NOTHING = Learned(BOOK.calls, (), dict.fromkeys(Confirmed, 0), None, None)


def test_a_signature_stands_behind_the_older_ones() -> None:
    """The second revision of a day would push the first one out of the book."""
    once = signed(BOOK, NOTHING, " A. Lead ", " a year of calls ", DAY)
    twice = signed(once, NOTHING, "A. Lead", "a year of calls", DAY)
    mark = Signature(
        DAY,
        "A. Lead",
        "a year of calls",
        "0 numbers learned from 0 confirmed cases; too few to score",
    )
    assert twice.revisions == (mark, mark)
    assert read_book(book_tables(twice)) == twice


def test_a_book_compared_with_its_next_revision_shows_who_signed() -> None:
    """Whoever compares two editions would see numbers move and not who moved them."""
    once = signed(BOOK, NOTHING, "A. Lead", "a year of calls", DAY)
    twice = signed(once, NOTHING, "A. Lead", "a year of calls", DAY)
    (change,) = compare_books(once, twice)
    assert (change.table, change.did) == ("revisions", Did.ADDED)
    assert change.key == ("2026-07-01", "A. Lead", "a year of calls", "2")


def test_a_signature_kept_among_the_facts_of_a_book_is_read_as_it_was() -> None:
    """A book signed before there was a table for it would lose its signature, or be refused."""
    about = {**BOOK.about, "revision-2026-06-01": "A. Lead: forty calls (too few cases to score)"}
    old = replace(BOOK, about=about)
    tables = [table for table in book_tables(old) if table.name != "revisions"]
    read = read_book(tables)
    assert isinstance(read, Book)
    assert (read.about, read.revisions) == (about, ())


@pytest.mark.parametrize(
    ("name", "reason", "missing"),
    [("", "why", "a name"), ("A", " ", "a reason"), (" ", "", "a name and a reason")],
)
def test_nothing_is_signed_without_name_and_reason(name: str, reason: str, missing: str) -> None:
    """Nobody would answer for numbers that advisers follow."""
    with pytest.raises(UnsignedError) as caught:
        signed(BOOK, NOTHING, name, reason, DAY)
    assert str(caught.value) == f"{missing} must stand under new numbers: nothing was changed"

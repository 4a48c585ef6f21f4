"""A caller's words are offered beside complaints, never taken silently."""

from __future__ import annotations

import pytest
from tests.support.small_calls import small_calls

from wickwright.catalogue.call_records import CallBook, Complaint
from wickwright.cause.words import complaints_meant

CALLS = CallBook(
    signs=small_calls().signs,
    complaints={
        one.id: one
        for one in (
            Complaint("dim", "it is not bright any more", "dim", ("gives little light", "dull")),
            Complaint("breaks-glass", "it breaks its glass", "x", ("the chimney keeps cracking",)),
            Complaint("smells", "it smells while it burns", "smells", ("stinks", "fumes")),
        )
    },
)


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("It's not bright any more!", "dim"),
        ("hardly gives any light", "dim"),
        ("My chimneys keep cracking", "breaks-glass"),
        ("the chimny keeps craking", "breaks-glass"),
        ("what a stink", "smells"),
    ],
)
def test_what_a_caller_says_finds_the_complaint(said: str, meant: str) -> None:
    """An adviser would have to know the book's names for complaints."""
    assert complaints_meant(CALLS, said)[0].complaint.id == meant


def test_words_that_are_near_nothing_find_nothing() -> None:
    """A caller who wants a catalogue would be asked about soot."""
    assert complaints_meant(CALLS, "please send a catalogue") == ()
    assert complaints_meant(CALLS, "") == ()


def test_the_words_of_the_book_are_sure() -> None:
    """The complaint typed as the book has it would not come first."""
    found = complaints_meant(CALLS, "it smells while it burns")
    assert (found[0].complaint.id, found[0].likeness) == ("smells", 1.0)

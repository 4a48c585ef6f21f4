"""A caller's own words beside what the book knows."""

from __future__ import annotations

import pytest
from tests.support.demo import demo

from wickwright.answers.said.what_is_meant import CallFor, what_is_meant

_SAID = [
    ("I broke my glass", "renew-chimney"),
    ("it is not bright any more", "dim"),
    ("I would like a shade", "add-shade"),
    ("Can I put a bulb in it?", "to-electric"),
    ("I found a lamp in a barn. What do I need?", "complete"),
    ("my shade cracked", "renew-shade"),
    ("we moved to the mountains", "suit-place"),
]


@pytest.mark.parametrize(("words", "key"), _SAID)
def test_what_callers_say_is_offered_first(words: str, key: str) -> None:
    """If this fails, the adviser has to look for the commonest calls by hand."""
    assert what_is_meant(demo().book, words)[0].key == key


def test_a_broken_glass_is_offered_as_a_wish_and_as_a_complaint() -> None:
    """If this fails, an adviser sends the tenth glass to a caller whose glass keeps breaking."""
    sorts = {one.sort for one in what_is_meant(demo().book, "the glass keeps breaking")[:2]}
    assert sorts == {CallFor.WISH, CallFor.COMPLAINT}


def test_nothing_is_offered_where_nothing_is_near() -> None:
    """If this fails, a call about something else is pressed into a wish."""
    assert what_is_meant(demo().book, "zzz qqq") == ()
    assert what_is_meant(demo().book, "") == ()


_NONSENSE = (
    "xyzzy plugh",
    "plugh",
    "foo bar baz",
    "blah",
    "hello good morning",
    "my car wont start",
)


@pytest.mark.parametrize("words", _NONSENSE)
def test_words_the_book_does_not_know_are_not_understood(words: str) -> None:
    """If this fails, an adviser is offered a wish for words that mean nothing."""
    assert what_is_meant(demo().book, words) == ()


@pytest.mark.parametrize(
    ("words", "key"),
    [("new buld", "renew-bulb"), ("chimny", "renew-chimney"), ("wik", "renew-wick"),
     ("glas brok", "renew-chimney"), ("it smel", "smells"), ("shde", "add-shade")],
)  # fmt: skip
def test_words_typed_in_a_hurry_are_known_again(words: str, key: str) -> None:
    """If this fails, a slip of the finger hides what the caller wants."""
    assert what_is_meant(demo().book, words)[0].key == key

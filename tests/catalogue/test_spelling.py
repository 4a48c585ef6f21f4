from __future__ import annotations

import pytest

from wickwright.catalogue.spelling import meant, nearest, quoted, spelled


@pytest.mark.parametrize(
    ("word", "near"),
    [("burnr", "burner"), ("BURNER", "burner"), ("xyz", ""), ("burner" * 9, "")],
)
def test_the_nearest_name_is_guessed_only_where_one_is_near(word: str, near: str) -> None:
    """A slip would go without a guess, or nonsense get one."""
    assert nearest(word, ("base", "burner", "bulb")) == near


def test_the_guess_is_a_question_before_the_rest_of_the_cure() -> None:
    """The question would run into the words behind it."""
    assert meant("bas", ("base", "bulb")) == "did you mean 'base'? "
    assert not meant("chimney", ("base", "bulb"))


def test_a_long_text_is_cut_in_a_message() -> None:
    """A whole letter pasted into a cell would fill the screen."""
    assert quoted("a" * 41) == f"'{'a' * 40}…'"
    assert quoted("a" * 40) == f"'{'a' * 40}'"


def test_capitals_and_blanks_around_a_name_do_not_matter() -> None:
    """A number typed in small letters would be said not to be in the book."""
    names = ("CH-3296", "ch-3296b")
    assert spelled(" ch-3296 ", names) == "CH-3296"
    assert spelled("CH-3296B", names) == "ch-3296b"
    assert not spelled("CH-32", names)


def test_a_dash_of_another_length_is_the_same_name() -> None:
    """A number that a text program gave a longer dash would be said not to be in the book."""
    assert spelled("ch\u20113296", ("CH-3296", "CH-3297")) == "CH-3296"


def test_of_two_names_that_differ_in_capitals_none_is_picked() -> None:
    """A part would be sent that was perhaps not meant."""
    assert not spelled("A1", ("a1", "A1 "))
    assert spelled("a1", ("a1", "A1")) == "a1"

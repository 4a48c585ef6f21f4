"""One line in which several numbered answers are named."""

from __future__ import annotations

import pytest

from wickwright.cli.talk import NONE, Choice, named_in

CHOICES = (
    Choice("unwell", "Does anyone feel sick?"),
    Choice("wet-font", "Is the font wet?"),
    Choice("cracked-font", "Is the font cracked, or its seam open?"),
)


@pytest.mark.parametrize(
    ("line", "keys"),
    [
        ("1", ("unwell",)),
        ("3 1", ("unwell", "cracked-font")),
        ("1,3", ("unwell", "cracked-font")),
        ("1, 2 and 3", ("unwell", "wet-font", "cracked-font")),
        ("2 2", ("wet-font",)),
        ("wet-font", ("wet-font",)),
        ("Wet font; sick", ("unwell", "wet-font")),
        ("is the font wet?", ("wet-font",)),
        ("seam", ("cracked-font",)),
        ("4", (NONE,)),
        ("none", (NONE,)),
        ("no", (NONE,)),
    ],
)
def test_several_answers_may_stand_in_one_line(line: str, keys: tuple[str, ...]) -> None:
    """Somebody who is unwell beside a wet font could say only one of the two."""
    assert named_in(line, CHOICES) == (keys, "")


@pytest.mark.parametrize(
    ("line", "fault"),
    [
        ("", "Nothing was said."),
        (",", "Nothing was said."),
        ("5", "'5' is none of these."),
        ("1 5", "'5' is none of these."),
        ("1, burning", "'burning' is none of these."),
        ("font", "'font' may be 2 or 3."),
        ("0, font", "'0' is none of these. 'font' may be 2 or 3."),
        ("1 4", "'1 4' names one of these and 'none of these'."),
        ("none, 1", "'none, 1' names one of these and 'none of these'."),
    ],
)
def test_a_line_that_is_not_wholly_understood_is_not_taken_in_part(line: str, fault: str) -> None:
    """A danger behind a slip of the finger would be dropped in silence."""
    assert named_in(line, CHOICES) == ((), fault)

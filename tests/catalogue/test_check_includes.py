from __future__ import annotations

import pytest
from tests.support.tables import draft, faults_after, faults_in, tables_of

_ONE = "a lamp carries one part of each kind: take one of them out"


@pytest.mark.parametrize(
    ("part", "other", "fault"),
    [
        (
            "W1",
            "U2",
            (
                "includes 3 includes: the parts include each other in a loop: U2 -> W1 -> U2; "
                "take one of these rows out"
            ),
        ),
        (
            "W1",
            "W1",
            (
                "includes 3 includes: the parts include each other in a loop: W1 -> W1; "
                "take one of these rows out"
            ),
        ),
        (
            "U2",
            "U1",
            (
                "includes 3 includes: 'U2' would bring two parts of the kind burner: 'U2' and "
                f"'U1'; {_ONE}"
            ),
        ),
        (
            "U2",
            "W1",
            (
                "includes 3 includes: part 'U2', includes 'W1' is already on row 2; "
                "keep one of the rows 2 and 3, or give one of them another includes"
            ),
        ),
        (
            "U2",
            "W2",
            (
                "includes 3 includes: there is no part 'W2'; "
                "write the key of a row of the table parts, or add the row"
            ),
        ),
    ],
)
def test_what_comes_with_a_part_cannot_come_twice_or_for_ever(
    part: str, other: str, fault: str
) -> None:
    """An order would be filled without end, or with two wicks for one burner."""
    assert faults_after("includes", part=part, includes=other) == [fault]


def test_a_kind_brought_through_another_part_is_told_where_the_two_meet() -> None:
    """A set within a set would bring a second wick unseen."""
    spoilt = draft()
    spoilt["includes"] += [
        {"part": "F1", "includes": "U2"},
        {"part": "F1", "includes": "C1"},
        {"part": "C1", "includes": "W1"},
    ]
    assert faults_in(tables_of(spoilt)) == [
        f"includes 4 includes: 'F1' would bring two parts of the kind wick: 'W1' and 'W1'; {_ONE}"
    ]

from __future__ import annotations

import pytest
from tests.support.tables import faults_with

_RADIUS = "write the radius of the rim or of the circle of feet"


@pytest.mark.parametrize(
    ("cells", "faults"),
    [
        (
            {"support": "feet", "radius": ""},
            [
                "parts 2 feet: a base on feet needs their number; write how many, 3 or more",
                f"parts 2 radius: a base with support 'feet' needs its radius; {_RADIUS}",
            ],
        ),
        (
            {"radius": ""},
            [f"parts 2 radius: a base with support 'round' needs its radius; {_RADIUS}"],
        ),
        (
            {"support": "feet", "feet": "2"},
            [
                (
                    "parts 2 feet: a base does not stand on 2 feet; "
                    "write 3 or more, or make the support round, hung or fixed"
                )
            ],
        ),
        (
            {"support": "hung", "feet": "3"},
            [
                (
                    "parts 2 feet: the number of feet does not go with support 'hung'; "
                    "clear the cell, or make the support feet"
                ),
                (
                    "parts 2 radius: a radius does not go with support 'hung'; "
                    "clear the cell, or make the support round or feet"
                ),
            ],
        ),
        (
            {"support": ""},
            [
                (
                    "parts 2 support: feet or radius are filled, support is blank; "
                    "write round, feet, hung or fixed"
                )
            ],
        ),
    ],
)
def test_a_base_stands_on_what_it_says(cells: dict[str, str], faults: list[str]) -> None:
    """Where a lamp tips would be computed from half a base."""
    assert faults_with("parts", 0, **cells) == faults


@pytest.mark.parametrize(
    ("cells", "fault"),
    [
        ({"fuel_floor": ""}, "parts 3 fuel_floor: fuel_floor is blank"),
        (
            {"fuel_floor": "", "fuel_depth": ""},
            "parts 3 fuel_floor: fuel_floor and fuel_depth are blank",
        ),
    ],
)
def test_the_fuel_of_a_font_is_told_whole_or_not_at_all(cells: dict[str, str], fault: str) -> None:
    """A full font would weigh nothing because one figure of three is missing."""
    all_or_none = "fill in all of fuel_volume, fuel_floor, fuel_depth, or none of them"
    assert faults_with("parts", 1, **cells) == [f"{fault}; {all_or_none}"]


def test_figures_of_another_kind_of_part_are_told() -> None:
    """A figure in the wrong row would be passed over without a word."""
    cells = {"heat": "5", "support": "round", "radius": "1 mm", "least_chimney": "3 mm"}
    clear = "clear the cell, or correct the kind: only a"
    assert faults_with("parts", 5, **cells) == [
        f"parts 7 heat: a chimney has no heat; {clear} burner or a bulb has one",
        f"parts 7 least_chimney: a chimney has no least_chimney; {clear} burner has one",
        f"parts 7 support: a chimney has no support; {clear} base has one",
        f"parts 7 radius: a chimney has no radius; {clear} base has one",
    ]


def test_a_part_does_not_end_before_it_begins() -> None:
    """A part would be said to suit no year at all."""
    assert faults_with("parts", 0, to="1929") == [
        (
            "parts 2 to: it was last made in 1929, before it was first made in 1930; "
            "correct one of the two years"
        )
    ]


def test_a_part_still_made_may_have_a_last_year() -> None:
    """A part announced to end would be refused before it has ended."""
    found = faults_with("parts", 6, from_="1930", to="1990", status="made", mass="x")
    assert [line.split(":")[0] for line in found] == ["parts 8 mass"]


@pytest.mark.parametrize(
    ("at", "cells", "fault"),
    [
        (
            3,
            {"successor": "U1"},
            (
                "parts 5 successor: the successors run in a loop: U1 -> U2 -> U1; "
                "clear the successor of the newest of them"
            ),
        ),
        (
            3,
            {"successor": "U2"},
            (
                "parts 5 successor: the successors run in a loop: U2 -> U2; "
                "clear the successor of the newest of them"
            ),
        ),
        (
            3,
            {"successor": "C1"},
            (
                "parts 5 successor: the successor 'C1' is a chimney, this is a burner; "
                "name a successor of the same kind"
            ),
        ),
        (
            3,
            {"via": "C1"},
            (
                "parts 5 via: there is a converter but no successor; "
                "name the successor, or clear the converter"
            ),
        ),
        (
            3,
            {"successor": "U9"},
            (
                "parts 5 successor: there is no part 'U9'; "
                "write the key of a row of the table parts, or add the row"
            ),
        ),
    ],
)
def test_successors_lead_somewhere(at: int, cells: dict[str, str], fault: str) -> None:
    """What replaced a part would be followed round and round, or to another kind of part."""
    assert faults_with("parts", at, **cells) == [fault]

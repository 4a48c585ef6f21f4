from __future__ import annotations

import pytest
from tests.support.tables import faults_after, faults_with

from wickwright.catalogue.check_ports import JOINT_COLUMNS
from wickwright.catalogue.columns import TABLES
from wickwright.catalogue.lists import JOINTS
from wickwright.catalogue.records import Side

_STANDS = "clear the cell, or make the side carries"
_RANGE = "write the least and the greatest: 65.5..67.5 mm"
_REST = "on the side that carries; clear the cell, or correct the joint; it looks at: diameter"


@pytest.mark.parametrize(
    ("at", "cells", "faults"),
    [
        (
            0,
            {"takes": "", "need": ""},
            [
                (
                    "ports 2 takes: a port that carries takes nothing; write the kinds of part it "
                    "accepts: base, font, reducer, burner, wick, spreader, gallery, mantle, "
                    "chimney, holder, shade, bell, bulb, tool"
                )
            ],
        ),
        (2, {"takes": "font"}, [f"ports 4 takes: a port that stands has no takes; {_STANDS}"]),
        (2, {"need": "optional"}, [f"ports 4 need: a port that stands has no need; {_STANDS}"]),
        (
            0,
            {"need": "care"},
            [
                (
                    "ports 2 need: the need 'care' is for tools, not for 'font'; "
                    "write required or optional, or take a tool here"
                )
            ],
        ),
        (
            0,
            {"joint": "threat", "side": "carry"},
            [
                (
                    "ports 2 side: 'carry' is not one of the sides; did you mean 'carries'? "
                    "choose from: carries, stands"
                ),
                (
                    "ports 2 joint: 'threat' is not one of the joints; did you mean 'thread'? "
                    "choose from: thread, plain-foot, quarter-turn, wick, mantle, fitter, "
                    "open-arms, lampholder, rest"
                ),
            ],
        ),
        (
            0,
            {"lugs": "3", "form": "un"},
            [
                f"ports 2 form: the joint rest does not look at form {_REST}",
                f"ports 2 lugs: the joint rest does not look at lugs {_REST}",
            ],
        ),
        (
            3,
            {"capture": "66.5 mm"},
            [f"ports 5 capture: '66.5 mm' is not a range of diameters; {_RANGE}"],
        ),
        (
            3,
            {"capture": "66 ± 0.5 mm"},
            [f"ports 5 capture: '66 ± 0.5 mm' is not a range of diameters; {_RANGE}"],
        ),
        (
            3,
            {"capture": "66..66 mm"},
            [f"ports 5 capture: '66..66 mm' is not a range of diameters; {_RANGE}"],
        ),
        (
            3,
            {"capture": "67..66 mm"},
            ["ports 5 capture: '67..66 mm' runs downwards; write the smaller size first"],
        ),
        (
            1,
            {"form": "uns", "pitch": "14", "hand": "rite"},
            [
                (
                    "ports 3 pitch: '14' is not a pitch; write the threads per inch or the "
                    "millimetres a turn, such as '14 tpi' or '1.814 mm'"
                ),
                (
                    "ports 3 form: 'uns' is not a form of the joint thread; did you mean 'un'? "
                    "choose from: un, round, tube"
                ),
                (
                    "ports 3 hand: 'rite' is not one of the hands; did you mean 'right'? "
                    "choose from: right, left"
                ),
            ],
        ),
        (
            4,
            {"lugs": "0", "angle": "400"},
            [
                (
                    "ports 6 lugs: a quarter-turn joint has at least one lug; "
                    "write how many lugs, or leave it blank if not known"
                ),
                (
                    "ports 6 angle: 400 degrees is not a turn from entry to lock; "
                    "write degrees above 0, at most 360"
                ),
            ],
        ),
        (
            4,
            {"joint": "open-arms", "lugs": "", "angle": "", "form": "1", "diameter": "90 mm"},
            ["ports 6 form: '1' is not a number of arms; write how many arms, such as 3"],
        ),
        (
            4,
            {"joint": "lampholder", "lugs": "", "angle": "", "limit": "0", "cap": "E26"},
            [
                (
                    "ports 6 limit: a lampholder or bulb of 0 watts gives no light; "
                    "write the watts, or leave it blank if not known"
                )
            ],
        ),
    ],
)
def test_a_port_that_cannot_be_is_told(at: int, cells: dict[str, str], faults: list[str]) -> None:
    """A joint would be judged by figures that are not those of its kind."""
    assert faults_with("ports", at, **cells) == faults


def test_two_ports_of_a_part_cannot_both_require_the_same_kind() -> None:
    """The lamp could never be complete, since it carries one part of each kind."""
    port = {"port": "two", "side": "carries", "joint": "thread", "need": "required"}
    assert faults_after("ports", part="B1", takes="font", **port) == [
        (
            "ports 7 takes: 'B1' already requires a font at the port 'top' on row 2; "
            "a lamp carries one part of each kind: make one of the two optional"
        )
    ]


def test_the_same_kind_may_be_taken_where_it_is_not_required() -> None:
    """A burner with two places for a mantle could not be written down."""
    port = {"port": "two", "side": "carries", "joint": "thread", "need": "optional"}
    assert faults_after("ports", part="B1", takes="font", height="?", **port) == [
        (
            "ports 7 height: '?' is not a height; write a number and a unit (mm, cm, m, in, ft), "
            "such as '31 mm', '0 mm' or '-12 mm'"
        )
    ]


def test_every_joint_says_which_columns_it_looks_at() -> None:
    """A joint that is left out would take any figure, or a column be misspelt."""
    assert set(JOINT_COLUMNS) == {(joint, side) for joint in JOINTS for side in Side}
    known = {column.name for column in TABLES["ports"].columns}
    assert {name for names in JOINT_COLUMNS.values() for name in names} <= known

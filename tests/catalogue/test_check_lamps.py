from __future__ import annotations

import pytest
from tests.support.tables import faults_with

_ONE = "a lamp carries one part of each kind: keep one"


@pytest.mark.parametrize(
    ("cells", "faults"),
    [
        (
            {"from_": "1960"},
            [
                (
                    "lamps 2 to: it was last made in 1948, before it was first made in 1960; "
                    "correct one of the two years"
                )
            ],
        ),
        (
            {"to": "1930", "from_": "1929"},
            [
                (
                    "lamps 2 as_sold: the lamp was last made in 1930, but its part 'U1' was first "
                    "made in 1931; correct one of the two years, or name the part it was sold with"
                )
            ],
        ),
        (
            {"as_sold": "F1 B1 U1 U2"},
            [
                (
                    "lamps 2 as_sold: as sold it has two parts of the kind burner: 'U1' and 'U2'; "
                    f"{_ONE}"
                ),
                (
                    "lamps 2 as_sold: the first part as sold, 'F1', is a font, not a base; "
                    "write the base first"
                ),
            ],
        ),
        (
            {"as_sold": "B1 B1"},
            ["lamps 2 as_sold: 'B1' stands twice in the cell; write it once"],
        ),
        (
            {"as_sold": ""},
            [
                (
                    "lamps 2 as_sold: the cell is blank; "
                    "fill it in: the parts it left the works with, base first"
                )
            ],
        ),
        (
            {"needs": "wick, chimney"},
            [
                (
                    "lamps 2 needs: 'wick, chimney' has commas between its words; "
                    "put blanks there: wick chimney"
                )
            ],
        ),
        (
            {"form": "tabel", "service": "gas"},
            [
                (
                    "lamps 2 form: 'tabel' is not one of the forms; did you mean 'table'? "
                    "choose from: table, shelf, bracket, hanging, floor"
                ),
                "lamps 2 service: 'gas' is not one of the services; choose from: oil, electric",
            ],
        ),
    ],
)
def test_a_lamp_that_cannot_have_existed_is_told(cells: dict[str, str], faults: list[str]) -> None:
    """Advice would be given on a lamp that no one can own."""
    assert faults_with("lamps", 0, **cells) == faults


def test_an_unknown_first_part_is_one_fault() -> None:
    """The part behind an unknown one would be blamed for not being a base."""
    assert faults_with("lamps", 0, as_sold="B9 F1") == [
        (
            "lamps 2 as_sold: there is no part 'B9'; "
            "write the key of a row of the table parts, or add the row"
        )
    ]

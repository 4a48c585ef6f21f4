import json
from pathlib import Path

import pytest
from tests.support.command import DEMO_ORDERS, said

KEYS = ["type", "title", "detail", "details", "exit_code", "faults"]


@pytest.mark.parametrize(
    ("arguments", "kind", "details"),
    [
        (("fit", "WH-302"), "bad-arguments", ["Missing argument 'WISH'."]),
        (
            ("fit", "WH-302", "renew-chimney", "--at", "1700"),
            "bad-arguments",
            [
                (
                    "Invalid value for '--at': '1700' has no unit: 1,700 m, or 1,700 ft, which is "
                    "518 m: write the unit behind it, such as 5200ft or 1700m"
                )
            ],
        ),
        (
            ("fit", "WH-30", "renew-chimny"),
            "unknown-name",
            [
                (
                    "there is no lamp 'WH-30' in the fit book: did you mean 'WH-308'? "
                    "'wickwright book list lamps' lists them all"
                ),
                (
                    "there is no wish 'renew-chimny' in the fit book: did you mean "
                    "'renew-chimney'? 'wickwright book list wishes' lists them all"
                ),
            ],
        ),
        (
            ("rules", "drafft"),
            "not-usable",
            [
                (
                    "there is no rule 'drafft': did you mean 'draft'? 'wickwright rules --short' "
                    "lists them all"
                )
            ],
        ),
        (
            ("check", "orders.xls"),
            "not-usable",
            [
                "'orders.xls' cannot be read as orders:",
                (
                    "orders.xls: there is no file or folder 'orders.xls'; "
                    "check the name and the folder '.'"
                ),
            ],
        ),
    ],
)
def test_what_cannot_be_used_is_told_to_machines_in_json(
    arguments: tuple[str, ...], kind: str, details: list[str]
) -> None:
    """If this failed, a web shop would have to read prose to learn what it asked wrongly."""
    found = said(*arguments, "--json")
    plain = json.loads(found.err)
    assert (found.code, found.out, list(plain)) == (2, "", KEYS)
    assert (plain["type"], plain["details"], plain["exit_code"]) == (kind, details, 2)


def test_the_faults_of_a_book_come_as_under_book_check(tmp_path: Path) -> None:
    """If this failed, a script could not point at the cell that is wrong."""
    (tmp_path / "lamps.csv").write_text("lamp,name\nL1,One\n", encoding="utf-8")
    problem = json.loads(said("--book", str(tmp_path), "fit", "L1", "add-shade", "--json").err)
    checked = json.loads(said("book", "check", str(tmp_path), "--json").out)
    assert problem["faults"] == checked
    assert len(checked) > 1


def test_without_json_people_read_sentences() -> None:
    """If this failed, an adviser would be answered with braces."""
    assert said("rules", "drafft").err.startswith("Error: there is no rule 'drafft'")


@pytest.mark.parametrize("name", ["report.xlsx", "report.pdf"])
def test_a_report_is_not_written_in_a_form_it_cannot_have(tmp_path: Path, name: str) -> None:
    """If this failed, a spreadsheet would refuse to open a text that calls itself a workbook."""
    out = tmp_path / name
    found = said("check", str(DEMO_ORDERS), "--out", str(out))
    assert (found.code, found.err) == (
        2,
        (
            f"Error: '{out}' ends in '{out.suffix}', and a report is not written in that form. "
            "Name a file that ends in .json, .csv (opens in a spreadsheet) or .txt.\n"
        ),
    )
    assert not out.exists()

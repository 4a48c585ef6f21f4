"""The files calls are kept in and answers are read from: what holds, and what is refused."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest
from tests.support.command import said
from tests.support.conversation import typed

if TYPE_CHECKING:
    from pathlib import Path

COMMANDS = (("why", "WH-302", "dim"), ("which",))


def as_json(*arguments: str) -> dict[str, object]:
    found = said(*arguments, "--json")
    assert found.err == ""
    read: dict[str, object] = json.loads(found.out)
    return read


@pytest.mark.parametrize("asked", COMMANDS)
def test_what_is_no_list_is_told_without_a_number(tmp_path: Path, asked: tuple[str, ...]) -> None:
    """A reader would look for an entry number 0."""
    path = tmp_path / "given.json"
    path.write_text("7")
    kind, what = ("events", "event") if asked[0] == "why" else ("", "answer")
    found = said(*asked, "--answers", str(path))
    says = f"it is no list{f' of {kind}' if kind else ''}; write a list in square brackets"
    assert (found.code, found.err) == (2, f"Error: '{path}' cannot be used:\n  {says}\n")
    path.write_text("[7]")
    found = said(*asked, "--answers", str(path))
    assert found.err.splitlines()[1].startswith(f"  {what} 1: ")


@pytest.mark.parametrize("asked", COMMANDS)
def test_brackets_nested_beyond_reason_are_refused(tmp_path: Path, asked: tuple[str, ...]) -> None:
    """A broken file would end as a mistake of ours."""
    path = tmp_path / "deep.json"
    path.write_text("[" * 200_000)
    for option in ("--answers", "--case"):
        found = said(*asked, option, str(path))
        assert found.code == 2
        assert found.err == (
            f"Error: '{path}' cannot be used: its brackets stand deeper in each other than those "
            "of any list of answers; write one flat list, see docs/json.md\n"
        )


@pytest.mark.parametrize("asked", COMMANDS)
def test_a_file_that_cannot_be_written_is_refused_before_the_first_question(
    tmp_path: Path, asked: tuple[str, ...]
) -> None:
    """A caller would answer a dozen questions for a file that cannot be kept."""
    path = tmp_path / "no such folder" / "case.json"
    found = typed(*asked, "--case", str(path), lines=("1",))
    assert (found.code, found.out) == (2, "")
    assert found.err == f"Error: '{path}' cannot be written: No such file or directory\n"


@pytest.mark.parametrize("asked", COMMANDS)
def test_answers_given_at_once_are_kept_too(tmp_path: Path, asked: tuple[str, ...]) -> None:
    """A call a machine began could not be taken up by a person."""
    path, answers = tmp_path / "case.json", tmp_path / "given.json"
    under, given = {
        "why": ("events", '["no dangers", {"sign": "soot", "said": "no"}]'),
        "which": ("heard", '[{"look": "base-magnet", "value": "it holds"}]'),
    }[asked[0]]
    answers.write_text(given)
    for more in (("--json",), ()):
        path.unlink(missing_ok=True)
        said(*asked, "--answers", str(answers), "--case", str(path), *more)
        assert json.loads(path.read_text())[under][-1] == json.loads(given)[-1]


def test_everything_wrong_with_what_a_case_keeps_is_told_at_once(tmp_path: Path) -> None:
    """A case with three slips would be refused three times, or a slip be taken for a place."""
    path = tmp_path / "case.json"
    path.write_text(
        '{"lamp": "WH-302", "complaint": "dim", "elevation_m": "high", "people": 1.5, '
        '"have": "CH-3371", "hours": -1, "events": []}'
    )
    found = said("why", "WH-302", "dim", "--case", str(path))
    assert found.code == 2
    assert found.err == (
        f"Error: '{path}' cannot be used:\n"
        "  'elevation_m': 'high' is none; write a number from -430 to 6000, or leave it out\n"
        "  'hours': -1 is none; write a number from 0 to 1000, or leave it out\n"
        "  'people': 1.5 is none; write a whole number from 0 to 1000, or leave it out\n"
        "  'have': 'CH-3371' is none; write a list of names, or leave it out\n"
    )


def test_a_case_kept_without_circumstances_is_taken_up(tmp_path: Path) -> None:
    """Cases kept before circumstances were would be lost."""
    path = tmp_path / "case.json"
    path.write_text('{"lamp": "WH-302", "complaint": "dim", "events": ["no dangers"]}')
    found = typed("why", "WH-302", "dim", "--at", "1900m", "--case", str(path))
    assert "your glass is 37.1 mm short for 1,900 m" in found.out
    assert "  ! " not in found.out
    assert json.loads(path.read_text())["elevation_m"] == 1900.0


def test_all_that_was_given_holds_when_a_case_is_taken_up(tmp_path: Path) -> None:
    """A caller would be asked again what was known, and get the parts for another place."""
    path = str(tmp_path / "case.json")
    given = ("--at", "1900m", "--hours", "6", "--room", "12m3", "--people", "3")
    parts = ("--air-changes", "0.4", "--have", "GA-2450,CH-3371", "--lost", "mantle")
    first = as_json("why", "WH-302", "dim", *given, *parts, "--case", path)
    assert first["given"] == {
        "elevation_m": 1900.0,
        "hours": 6.0,
        "room_m3": 12.0,
        "people": 3,
        "air_changes_per_hour": 0.4,
        "have": ["GA-2450", "CH-3371"],
        "lost": ["mantle"],
    }
    assert as_json("why", "WH-302", "dim", "--case", path) == first
    again = as_json("why", "WH-302", "dim", *given, *parts, "--case", path)
    assert again == first
    anew = as_json("why", "WH-302", "dim", "--people", "2", "--case", path)
    assert anew["given_anew"] == [{"what": "people", "was": 3, "now": 2}]


def test_what_is_said_with_the_command_counts_once(tmp_path: Path) -> None:
    """The more often a call is taken up, the surer it would be of what was said once."""
    path = str(tmp_path / "lamp.json")
    given = ("--lamps", "DU-401,TY-101", "--bought", "1935", "--case", path)
    first = as_json("which", "renew-chimney", *given)
    for _ in range(3):
        assert as_json("which", "renew-chimney", *given) == first
    assert as_json("which", "--case", path) == first
    assert as_json("which", *given[:2], "--bought", "1936", "--case", path)["given_anew"] == [
        {"what": "bought", "was": 1935, "now": 1936}
    ]


def test_a_call_kept_with_a_model_said_over_and_over_counts_it_once(tmp_path: Path) -> None:
    """A file that was kept before this was put right would stay as sure as it was."""
    path = tmp_path / "lamp.json"
    once = as_json("which", "renew-chimney", "--lamps", "DU-401")
    path.write_text(json.dumps({"wish": "renew-chimney", "heard": [{"lamps": ["DU-401"]}] * 3}))
    again = as_json("which", "--case", str(path))
    assert (again["lamps"], again["parcels"]) == (once["lamps"], once["parcels"])

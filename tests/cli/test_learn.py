"""What closed cases would change, and that nothing changes without a name."""

from __future__ import annotations

import json
import re
from datetime import UTC, datetime
from typing import TYPE_CHECKING

import pytest
from tests.support.command import DEMO, said

from wickwright.store.tables import read_tables

if TYPE_CHECKING:
    from pathlib import Path

CASES = DEMO / "cases.jsonl"


@pytest.fixture(scope="module")
def few(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a file of the first forty demo cases and one broken line."""
    path = tmp_path_factory.mktemp("cases") / "few.jsonl"
    lines = CASES.read_text(encoding="utf-8").splitlines()[:40]
    path.write_text("\n".join([*lines, "{"]) + "\n", encoding="utf-8")
    return path


def test_the_report_changes_nothing(few: Path) -> None:
    """A look at the cases would already change the book."""
    found = said("learn", str(few))
    assert found.code == 1
    assert found.out.startswith("Passed over\n  - cases, row 41: ")
    assert "Nothing is changed. To put it in force: --out NEW --signed-by NAME" in found.out


def test_new_numbers_take_effect_with_a_name_and_a_reason(few: Path, tmp_path: Path) -> None:
    """Nobody would answer for numbers that advisers follow."""
    new = tmp_path / "book-2"
    ask = ("learn", str(few), "--out", str(new))
    unsigned = said(*ask)
    assert (unsigned.code, new.exists()) == (2, False)
    assert unsigned.err.endswith(
        "a name and a reason must stand under new numbers: nothing was changed\n"
    )
    found = said(*ask, "--signed-by", "A. Lead", "--because", "forty calls", "--json")
    assert json.loads(found.out)["written"] == str(new)
    tables = {table.name: table for table in read_tables(new)}  # type: ignore[union-attr]
    ((_, signature),) = tables["revisions"].rows  # type: ignore[union-attr]
    assert signature[:3] == (datetime.now(tz=UTC).date().isoformat(), "A. Lead", "forty calls")
    assert re.fullmatch(
        r"\d+ numbers learned from \d+ confirmed cases; on \d+ of them log score "
        r"[\d.]+ before, [\d.]+ after",
        signature[3],
    )
    assert said("book", "check", str(new)).code == 0
    changed = said("book", "compare", str(DEMO / "book"), str(new), "--json")
    tables_changed = {row["table"] for row in json.loads(changed.out)}
    assert tables_changed <= {"revisions", "causes", "shows", "signs"}
    anew = json.loads(said("--book", str(new), "learn", str(few), "--json").out)
    assert 0 < anew["again"] <= 40
    again = said(*ask, "--signed-by", "A. Lead", "--because", "forty calls")
    assert again.err == (
        f"Error: '{new}' is there already: name a new folder or workbook; old books stay readable\n"
    )


def test_a_signature_without_a_place_is_refused(few: Path) -> None:
    """A signed change would be lost without a word."""
    found = said("learn", str(few), "--signed-by", "A. Lead")
    assert found.code == 2
    assert found.err == (
        "Error: a signature needs --out, the new folder or workbook it is written to\n"
    )


def test_a_file_that_is_not_there_is_told(tmp_path: Path) -> None:
    """A slip in a file's name would end in a traceback."""
    found = said("learn", str(tmp_path / "none.jsonl"))
    assert found.code == 2
    assert "cannot be read" in found.err

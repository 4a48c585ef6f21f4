"""The order, the fit sheet and the letter from the command line."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest
from tests.cli.test_start_up import _loaded_after
from tests.support.command import said
from tests.support.reading_pdf import pages_of, words_of

if TYPE_CHECKING:
    from pathlib import Path

CALL = ("fit", "WH-302", "renew-chimney", "--at", "1700m")


def test_sheet_order_and_letter_come_of_one_command(tmp_path: Path) -> None:
    """If this failed, what goes into the parcel would have to be asked for three times."""
    sheet, order = tmp_path / "fit.pdf", tmp_path / "order.csv"
    found = said(*CALL, "--sheet", str(sheet), "--order", str(order), "--reply")
    assert (found.code, found.err) == (0, "")
    assert found.out.startswith("Hello,\n\nAs we understand it you have a Tirrick shelf lamp")
    assert found.out.endswith("With kind regards\nSkerry Lampworks\n")
    pdf = sheet.read_bytes()
    assert pages_of(pdf) == 1
    assert "CH-3371 Chimney, plain foot, tall" in words_of(pdf)
    checked = said("check", str(order))
    assert (checked.code, checked.err) == (0, "")


def test_an_order_is_checked_with_the_place_it_was_made_for(tmp_path: Path) -> None:
    """If this failed, a tall chimney would be ordered and checked as for the sea."""
    order = tmp_path / "order.csv"
    said(*CALL, "--order", str(order))
    text = order.read_text(encoding="utf-8")
    assert text.splitlines()[1].startswith("1,WH-302,1700 m,GA-2450,1,")


def test_the_letter_is_written_for_what_cannot_be_done_too() -> None:
    """If this failed, only callers who buy would get an answer by post."""
    found = said("fit", "WH-302", "add-glass-shade", "--reply")
    assert found.code == 1
    assert "We are sorry: this cannot be done." in found.out


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (
            ("fit", "WH-302", "add-glass-shade", "--sheet", "{folder}/a.pdf"),
            "Error: there are no parts that could be sent: ask without --sheet for the reason\n",
        ),
        (
            ("fit", "WH-302", "add-glass-shade", "--order", "{folder}/a.csv"),
            "Error: there are no parts that could be sent: ask without --order for the reason\n",
        ),
        (
            ("fit", "DU-402", "add-shade", "--order", "{folder}/a.csv"),
            "Error: there is nothing to send: what is there does it; ask without --order\n",
        ),
        (
            ("fit", "WH-301,WH-302", "renew-chimney", "--sheet", "{folder}/a.pdf"),
            "Error: --sheet is for one lamp: ask for the lamps one by one\n",
        ),
    ],
)
def test_what_cannot_go_out_is_refused(
    arguments: tuple[str, ...], says: str, tmp_path: Path
) -> None:
    """If this failed, an empty or wrong file would be posted, or a mistake be told unclearly."""
    found = said(*(one.format(folder=tmp_path) for one in arguments))
    assert (found.code, found.out) == (2, "")
    assert found.err == says
    assert [*tmp_path.iterdir()] == []


def test_a_letter_is_no_json() -> None:
    """If this failed, a machine would be handed a letter where it asked for data."""
    found = said(*CALL, "--reply", "--json")
    assert (found.code, found.out) == (2, "")
    says = "--reply prints a letter and --json an answer: leave out one of them"
    assert json.loads(found.err)["detail"] == says


def test_a_file_is_known_by_its_ending(tmp_path: Path) -> None:
    """If this failed, a sheet named order.csv would be opened in a spreadsheet."""
    found = said(*CALL, "--sheet", str(tmp_path / "a.csv"))
    assert found.code == 2
    wrong = f"'{tmp_path / 'a.csv'}' does not end in .pdf: name a file that does"
    assert " ".join(found.err.split()).endswith(f"Invalid value for '--sheet': {wrong}")


def test_only_a_sheet_loads_the_typesetter() -> None:
    """If this failed, every answer would wait for a typesetter that prints nothing."""
    loaded = _loaded_after(*CALL)
    ours = ("typst", "wickwright.paper", "wickwright.answers.post.reply")
    assert "wickwright.cli.fit" in loaded
    assert [name for name in loaded if name.startswith(ours)] == []

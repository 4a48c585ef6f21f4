"""A caller who has no lamp at hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from tests.desk.test_sheet_page import begun, step

from wickwright.answers.sheet.call_record import UNSURE, Said
from wickwright.desk.in_vain import RINGS_BACK, asked_in_vain, noted

if TYPE_CHECKING:
    from tests.support.desks import Browser

    from wickwright.answers.plain.answers import Plain

OFFER = "Three looks in a row were not known."


def _looks(*answers: str) -> Said:
    rows: list[Plain] = [{"look": f"look-{at}", "value": one} for at, one in enumerate(answers)]
    return Said(heard=(*rows[:1], {"bought": 1950}, *rows[1:]))


@pytest.mark.parametrize(
    ("answers", "in_vain"),
    [
        ((), False),
        ((UNSURE, UNSURE), False),
        ((UNSURE, UNSURE, UNSURE), True),
        (("round", UNSURE, UNSURE, UNSURE), True),
        ((UNSURE, UNSURE, "round", UNSURE), False),
        ((UNSURE, UNSURE, UNSURE, "round"), False),
    ],
)
def test_three_looks_in_a_row_that_are_not_known(
    answers: tuple[str, ...], *, in_vain: bool
) -> None:
    """If this failed, a caller without the lamp would be asked on, or one with it sent off."""
    assert asked_in_vain(_looks(*answers)) is in_vain


def test_a_note_is_put_under_what_stands_there_once() -> None:
    """If this failed, a note would wipe out another, or pile up."""
    first = noted(Said(note="she calls at five"), "bring the lamp")
    assert first.note == "she calls at five\nbring the lamp"
    assert noted(first, "bring the lamp") is first
    assert noted(Said(), " ").note == ""


def _answer_unsure(browser: Browser) -> str:
    page = browser.get("/calls/1").text
    look = page.split('name="look" value="')[1].split('"')[0]
    return step(browser, look=look, value=UNSURE)


def test_a_caller_who_knows_nothing_is_offered_to_look_first() -> None:
    """If this failed, a caller would be asked fourteen questions that they cannot answer."""
    browser = begun()
    step(browser, choose="wish:renew-chimney", place="40 m")
    pages = [_answer_unsure(browser) for _ in range(3)]
    assert [OFFER in page for page in pages] == [False, False, True]
    assert "It stands in the note" not in pages[-1]
    assert f'<button name="note" value="{RINGS_BACK}"' in pages[-1]
    after = step(browser, note=RINGS_BACK)
    assert "It stands in the note for the next adviser." in after

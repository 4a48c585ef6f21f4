"""Texts of one line stay one line, whatever is sent."""

from __future__ import annotations

import unicodedata

from hypothesis import given
from hypothesis import strategies as st

from wickwright.answers.sheet.one_line import one_line


@given(st.text())
def test_nothing_breaks_the_line_or_steers_the_screen(text: str) -> None:
    """If this failed, a name could forge a second line of a letter, a list or the ledger."""
    found = one_line(text)
    assert not {"Cc", "Zl", "Zp"} & {unicodedata.category(sign) for sign in found}
    assert found.splitlines() in ([], [found])
    assert found == found.strip()
    assert one_line(found) == found


def test_words_are_kept_as_they_are() -> None:
    """If this failed, names with accents or joined letters would be spoilt."""
    kept = "Zoë O'Brien-Łuk, \u0646\u06cc\u0645\u200c\u0641"
    assert one_line(kept) == kept
    assert one_line(" back\r\nroom\tup\x00stairs\u2028\x1b[2J ") == "back room up stairs [2J"
    assert one_line("Anna\u202egreB") == "Anna greB"

"""Laws of names of towns: folding settles, and what is found is what is there."""

from __future__ import annotations

import re

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.support.towns import all_towns, small_towns

from wickwright.answers.places.place_names import (
    ElevationTyped,
    elevation_typed,
    towns_named,
)
from wickwright.answers.places.town_table import folded
from wickwright.terms.units import UnitsError

LAW = settings(max_examples=150, deadline=None)
ROWS = st.integers(0, len(all_towns().rows) - 1)


@LAW
@given(st.text(max_size=30))
def test_folding_is_done_once(text: str) -> None:
    """If this failed, a name in the table could be folded so that nobody's typing meets it."""
    once = folded(text)
    assert folded(once) == once
    assert folded(text.upper().lower()) == folded(text.lower())


@LAW
@given(ROWS)
def test_every_town_is_found_by_its_name_and_country(at: int) -> None:
    """If this failed, there would be towns in the table that nobody can reach."""
    town = all_towns().town(at)
    found = towns_named(all_towns(), f"{town.name}, {town.country}", most=10_000)
    assert town in found.towns
    assert found.in_all == len(found.towns)


@settings(max_examples=30, deadline=None)
@given(ROWS)
def test_the_table_is_searched_as_one_would_line_by_line(at: int) -> None:
    """If this failed, the quick search would miss or invent towns that reading would not."""
    table = all_towns()
    name = folded(table.town(at).name)
    lines = table.folded_names.strip("\n").split("\n")
    word = re.compile(rf"(?:^|(?<= )){re.escape(name)}(?:$|(?= ))")
    exact = [row for row, line in enumerate(lines) if line == name]
    words = [row for row, line in enumerate(lines) if line != name and word.search(line)]
    begun = [
        row
        for row, line in enumerate(lines)
        if len(name) > 2 and line.startswith(name) and line[len(name) :][:1] not in {"", " "}
    ]
    wanted = [table.town(row) for row in exact + words + begun]
    assert list(towns_named(table, name, most=10_000).towns) == wanted


@LAW
@given(st.one_of(st.text(max_size=60), st.text("abe nN,.08\t\n\x00\u0301", max_size=200)))
def test_no_text_is_answered_with_anything_but_a_height_towns_or_a_refusal(text: str) -> None:
    """If this failed, hostile text in an order or a field would stop the desk."""
    try:
        typed = elevation_typed(text, small_towns, "m")
    except UnitsError:
        return
    assert isinstance(typed, ElevationTyped) or typed.towns

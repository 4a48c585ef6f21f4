"""What stands on a call sheet, as data."""

from __future__ import annotations

import json
from dataclasses import fields

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickwright.answers.sheet.call_record import (
    Said,
    SaidError,
    changed_fields,
    plain_said,
    read_said,
    said_with,
)

_TEXTS = st.lists(st.text(max_size=8), max_size=3).map(tuple)
_EVENTS = st.lists(st.fixed_dictionaries({"sign": st.text(max_size=5)}), max_size=3).map(tuple)
SAID = st.builds(
    Said,
    words=st.text(max_size=30),
    elevation=st.none() | st.floats(-400, 6000),
    have=_TEXTS,
    lost=_TEXTS,
    bare=st.booleans(),
    count=st.integers(1, 50),
    events=_EVENTS,
    route=_TEXTS,
)


@given(SAID)
def test_a_sheet_comes_back_from_json_as_it_was(said: Said) -> None:
    """If this fails, a call that is taken up again shows something else than was typed."""
    assert read_said(json.loads(json.dumps(plain_said(said)))) == said


@given(SAID, SAID)
def test_changed_fields_lead_to_the_other_sheet_and_back(one: Said, other: Said) -> None:
    """If this fails, taking a step back does not restore what stood there."""
    before, after = changed_fields(one, other)
    assert said_with(one, after) == other
    assert said_with(other, before) == one


def test_every_fault_of_a_sheet_is_told_at_once() -> None:
    """If this fails, whoever sends a sheet by machine mends one fault after the other."""
    with pytest.raises(SaidError) as refused:
        read_said({"colour": "red", "count": True, "have": ["CH-1", 3], "elevation": "high"})
    assert str(refused.value) == (
        "'count' is True: it has to be a whole number\n"
        "'elevation' is 'high': it has to be a number or nothing\n"
        "'have' is ['CH-1', 3]: it has to be a list of texts\n"
        "there is no field 'colour' on a sheet"
    )


def test_an_empty_record_is_an_empty_sheet() -> None:
    """If this fails, old calls cannot be read after a field was added."""
    assert read_said({}) == Said()
    assert set(plain_said(Said())) == {one.name for one in fields(Said)}

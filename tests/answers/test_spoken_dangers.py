"""Dangers in the words on a sheet come before everything else that it asks or offers."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.answers.sheet.test_call_sheet import after, worked
from tests.support.demo import demo

from wickwright.answers.sheet.call_record import Said
from wickwright.answers.sheet.call_sheet import AskBench, AskClear, AskDangers, AskWanted
from wickwright.cause.danger_words import ASKS
from wickwright.cause.spoken import spoken_of

WORDS = [(danger, phrase) for danger, phrases in ASKS.items() for phrase in phrases]
BEFORE = st.sampled_from(["", "hello, ", "no smell. ", "I broke my glass and ", "it is old; "])
BEHIND = st.sampled_from(["", ".", "!! please", ", and a new mantle", " I am afraid"])
BEGUN = st.sampled_from(
    [
        Said(),
        Said(wish="renew-chimney", lamp="WH-302", place="0 m", elevation=0.0),
        Said(complaint="dim", lamp="WH-302", place="0 m", elevation=0.0),
        Said(wish="renew-mantle"),
    ]
)


@settings(max_examples=150, deadline=None)
@given(st.sampled_from(WORDS), BEFORE, BEHIND, BEGUN, st.sampled_from(["words", "note"]))
def test_every_word_of_danger_is_asked_about_before_anything_is_offered(
    word: tuple[str, str], before: str, behind: str, begun: Said, field: str
) -> None:
    """If this failed, somebody would be sold a part beside a lamp that hurts them."""
    danger, phrase = word
    sheet = worked(after(begun, **{field: f"{before}{phrase}{behind}"}))
    assert isinstance(sheet.asked, AskDangers)
    spoken = [one.danger for one in sheet.asked.spoken]
    assert danger in spoken
    assert {guard.danger for guard in sheet.asked.guards[: len({*spoken})]} == {*spoken}
    assert sheet.parcels == ()
    assert sheet.case is None or sheet.case.advice.best is None


def test_a_no_goes_on_and_new_words_are_asked_about_anew() -> None:
    """If this failed, a call would stand still, or a danger told later would be passed over."""
    said = after(Said(), words="it leaks and I broke my glass")
    asked = worked(said).asked
    assert isinstance(asked, AskDangers)
    said = after(said, asked=[guard.danger for guard in asked.guards])
    assert isinstance(worked(said).asked, AskWanted)
    said = after(said, choose="wish:renew-chimney", lamp="WH-302", place="0 m")
    assert worked(said).asked is None
    said = after(said, words="it leaks and I broke my glass. and my head hurts")
    asked = worked(said).asked
    assert isinstance(asked, AskDangers)
    assert [guard.danger for guard in asked.guards] == ["unwell"]
    assert worked(said).parcels == ()


def test_a_yes_on_a_wish_stops_the_call_until_it_is_cleared() -> None:
    """If this failed, a glass would be sent to somebody whose lamp stands in its oil."""
    said = after(Said(), words="it leaks", choose="wish:renew-chimney", lamp="WH-302", place="0 m")
    asked = worked(said).asked
    assert isinstance(asked, AskDangers)
    said = after(said, asked=[guard.danger for guard in asked.guards], danger="wet-font")
    assert isinstance(worked(said).asked, AskClear)
    assert worked(said).parcels == ()
    cleared = worked(after(said, cleared="wet-font", said="yes"))
    assert cleared.asked is None
    assert cleared.parcels


def test_a_cracked_font_leads_to_the_bench_or_to_a_new_font() -> None:
    """If this failed, a caller with a cracked font could never be sold the one that mends it."""
    said = after(Said(), words="the font is cracked", lamp="WH-302", place="0 m")
    asked = worked(said).asked
    assert isinstance(asked, AskDangers)
    said = after(said, asked=[guard.danger for guard in asked.guards], danger="cracked-font")
    bench = worked(said).asked
    assert isinstance(bench, AskBench)
    assert [one.key for one in bench.offers] == ["renew-font"]
    assert worked(after(said, choose="wish:renew-chimney")).parcels == ()
    mended = worked(after(said, choose="wish:renew-font"))
    assert mended.parcels
    assert mended.gate is not None
    assert [guard.danger for guard in mended.gate.stops] == ["cracked-font"]


@pytest.mark.parametrize("key", ["feel funny", "goes up like a torch", "sweats oil"])
def test_words_of_the_demo_book_are_heard(key: str) -> None:
    """If this failed, the column where a support lead adds words of danger would do nothing."""
    assert spoken_of(key) == ()
    assert spoken_of(key, demo().book.calls)


def test_words_that_are_gone_are_no_longer_asked_about() -> None:
    """If this failed, a slip of the pen would be asked about for the rest of the call."""
    said = after(after(Said(), words="we have headaches"), words="I broke my glass")
    assert isinstance(worked(said).asked, AskWanted)

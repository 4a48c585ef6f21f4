"""What stands in a caller's words besides what is wanted: numbers, breakages, other wants."""

from __future__ import annotations

import pytest
from tests.answers.sheet.test_call_sheet import NO_TOWNS, after, memory, worked
from tests.support.demo import demo

from wickwright.answers.said.kind_words import KIND_WORDS, kinds_called
from wickwright.answers.said.numbers_said import numbers_in, part_words
from wickwright.answers.said.what_is_meant import what_is_meant
from wickwright.answers.said.words_said import broken_by_words
from wickwright.answers.sheet.also_said import also_said, said_next
from wickwright.answers.sheet.call_record import Said
from wickwright.answers.sheet.steps import Typed, step_taken
from wickwright.catalogue.records import KINDS
from wickwright.desk.sheet_answers import where_it_stands

THREE = "a new wick and the mantle broke and a glass shade please"


def test_each_of_several_wants_is_offered_before_what_nobody_wants() -> None:
    """If this failed, three wants in one breath would be answered by a fourth."""
    first = [one.key for one in what_is_meant(demo().book, THREE)[:3]]
    assert sorted(first) == ["add-glass-shade", "renew-mantle", "renew-wick"]


def test_what_was_also_said_is_told_until_it_has_a_call_of_its_own() -> None:
    """If this failed, a mantle and a shade would be gone without a word once a wick is chosen."""
    book = demo().book
    assert also_said(book, after(Said(), words=THREE)) == ()
    said = after(Said(), words=THREE, choose="wish:renew-wick", lamp="WH-302", place="40 m")
    found = also_said(book, said)
    assert [(one.wanted.key, one.clause) for one in found] == [
        ("renew-mantle", "the mantle broke"),
        ("add-glass-shade", "a glass shade please"),
    ]
    then = said_next(book, said, found[0], 3)
    assert (then.words, then.wish) == ("the mantle broke", "renew-mantle")
    assert (then.lamp, then.elevation, then.note) == ("WH-302", 40.0, "Also said in call 3.")
    noted = after(said, note="'the mantle broke': call 4.")
    assert [one.wanted.key for one in also_said(book, noted)] == ["add-glass-shade"]


@pytest.mark.parametrize("typed", ["WH-302", "wh 302", "Wh302"])
def test_a_lamp_in_the_words_is_the_lamp_until_it_is_taken_back(typed: str) -> None:
    """If this failed, fourteen questions would be asked after a number that was read out."""
    said = after(Said(), words=f"a mantle for my {typed} please")
    assert said.lamp == "WH-302"
    assert where_it_stands(memory(), worked(said))[0] == (
        "WH-302 stands in the words, so it is the lamp; empty its field if it is not."
    )
    again = after(said, lamp="", words=f"a new mantle for my {typed} please")
    assert again.lamp == ""


def test_two_lamps_in_the_words_are_none() -> None:
    """If this failed, one of two lamps would be taken without asking which."""
    assert after(Said(), words="is it a WH-302 or a WH-301?").lamp == ""
    assert numbers_in("my AB-123 lamp", demo().book.lamps) == ()


def test_a_part_that_is_named_is_challenged_and_offered() -> None:
    """If this failed, a chimney nobody makes any more would be promised."""
    book = demo().book
    assert part_words(book, book.parts["CH-2296"]) == (
        "Chimney, quarter-turn 2, standard (CH-2296) stands in the words; it is no longer made; "
        "Chimney, plain foot, standard (CH-3296) replaced it."
    )
    said = after(Said(), words="I need a CH-2296")
    assert worked(said).meant[0].title == "A new one for the chimney (CH-2296 was named)"
    assert after(said, choose="have:CH-2296").have == ("CH-2296",)


@pytest.mark.parametrize(
    ("words", "wish", "lost"),
    [
        ("I broke my glass", "renew-chimney", ("chimney",)),
        ("the tank has a hole", "renew-font", ("font",)),
        ("a new glass please", "renew-chimney", ()),
        ("the glass is not broken", "renew-chimney", ()),
        ("I broke my shade", "renew-mantle", ()),
    ],
)
def test_what_broke_counts_as_broken(words: str, wish: str, lost: tuple[str, ...]) -> None:
    """If this failed, the fit sheet would have broken glass turned back and lifted off by hand."""
    assert after(Said(), words=words, choose=f"wish:{wish}").lost == lost
    assert all(broken_by_words(words, kind) for kind in lost)


def test_callers_words_for_kinds_are_taken_and_two_meanings_asked() -> None:
    """If this failed, the field would refuse the word that every caller uses for a chimney."""
    found, faults = step_taken(
        memory(), Said(), Typed({"lost": ["glass tank globe"]}), lambda: NO_TOWNS
    )
    assert found.lost == ("chimney", "font")
    assert [(one.says, one.cure) for one in faults] == [
        ("'globe' may be the chimney or the shade", "write which; the rest was taken")
    ]
    assert set(KIND_WORDS) <= set(KINDS)
    assert kinds_called("shoe") == ()


def test_what_is_done_without_is_not_sent_as_it_was_asked() -> None:
    """If this failed, parchment would be sent 'as you asked' to somebody who asked for glass."""
    said = after(Said(), choose="wish:add-glass-shade", lamp="WH-302", place="1890 m")
    said = after(said, without="ask:shade:1")
    parcel = worked(said).parcels[0]
    assert parcel.route is not None
    from wickwright.answers.words.reason_words import reasons_words  # noqa: PLC0415
    from wickwright.answers.words.reasons import reasons  # noqa: PLC0415

    why = reasons(demo(), parcel.answer.now, parcel.route)
    (shade,) = (part for part in parcel.route.buy if part.kind == "shade")
    assert reasons_words(why[shade.id], memory().units).startswith(
        "a shade, as near as can be to what you asked: without 'the shade is of glass'"
    )


def test_what_one_call_makes_good_is_not_sent_by_the_next_as_well() -> None:
    """If this failed, a second mantle would go out with the wick."""
    book = demo().book
    said = after(Said(), words="the mantle broke and a new wick", choose="wish:renew-mantle")
    assert said.lost == ("mantle",)
    (wick,) = also_said(book, said)
    assert said_next(book, said, wick, 1).lost == ()

"""Dangers are heard in a caller's own words."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.support.small_calls import small_calls

from wickwright.catalogue.call_records import DANGERS, Complaint
from wickwright.cause.case import Answer, Case, Cleared, Danger, Event, Said
from wickwright.cause.danger_words import ASKS, NO_DOUBT
from wickwright.cause.dangers import GUARDS
from wickwright.cause.gate import gate_of
from wickwright.cause.spoken import not_heard_yet, spoken_of

CALLS = small_calls()


def heard(text: str) -> list[str]:
    return [one.danger for one in spoken_of(text)]


@pytest.mark.parametrize(
    ("text", "danger"),
    [
        ("we have headaches when it burns", "unwell"),
        ("and now it smokes and my head hurts", "unwell"),
        ("It makes me SICK.", "unwell"),
        ("the lamp is on fire!!", "outside-glass"),
        ("the flame shoots up", "outside-glass"),
        ("kerosene dripping on the table", "wet-font"),
        ("I spilt some of it", "wet-font"),
        ("my tank has a hole in it", "cracked-font"),
        ("my husband filled it with gasoline", "wrong-fuel"),
        ("can I use petrol?", "wrong-fuel"),
        ("we burn it in the caravan", "closed-room"),
        ("the knob turns and nothing happens", "no-answer"),
        ("it can't be turned down", "no-answer"),
        ("I got a shock from it", "shock"),
    ],
)
def test_what_callers_say_of_a_danger_is_heard(text: str, danger: str) -> None:
    """If this failed, somebody with a headache would be sold a mantle."""
    assert heard(text) == [danger]


@pytest.mark.parametrize("danger", DANGERS)
def test_every_danger_has_words(danger: str) -> None:
    """If this failed, one danger would be heard in nobody's words."""
    assert ASKS[danger]
    assert set(NO_DOUBT) <= set(ASKS)


@pytest.mark.parametrize(
    "text",
    [
        "no headache",
        "nobody has a headache",
        "no one feels sick",
        "It doesn\N{RIGHT SINGLE QUOTATION MARK}t leak",
        "it never drips",
        "without a leak",
        "no smell, no leak, no headache",
        "I have not put gasoline in",
        "I broke my glass",
        "It is not bright any more",
        "I would like a glass shade",
        "the first time I lit it the flames were low",
        "a single mantle, still in stock",
    ],
)
def test_what_is_plainly_denied_or_no_danger_is_not_heard(text: str) -> None:
    """If this failed, every call would begin with seven questions, and nobody would read them."""
    assert heard(text) == []


@pytest.mark.parametrize(
    "text",
    [
        "it does not leak any more",
        "no, it leaks",
        "not sure whether it leaks",
        "does it not leak?",
        "no headache and it leaks",
        "not only does it leak",
        "it does not leak unless it is full",
        "why does it not leak",
        "I know it should not leak",
    ],
)
def test_in_doubt_a_denial_is_none(text: str) -> None:
    """If this failed, a leak would be passed over for a 'not' that belongs to something else."""
    assert heard(text) == ["wet-font"]


@pytest.mark.parametrize(
    ("plain", "doubtful"),
    [
        ("he filled it with gasoline", "should I fill it with gasoline"),
        ("filled with gasoline", "filled with gasoline?"),
        ("we have headaches", "if we have headaches"),
        ("the lamp is on fire", "maybe it is on fire"),
    ],
)
def test_only_words_beyond_doubt_stop_a_call_by_themselves(plain: str, doubtful: str) -> None:
    """If this failed, a question about petrol would send everybody out into the street."""
    assert [one.sure for one in spoken_of(plain)] == [True]
    assert [one.sure for one in spoken_of(doubtful)] == [False]


def test_a_book_adds_words_by_its_signs_and_complaints() -> None:
    """If this failed, words that a support lead adds for a danger would be heard by nobody."""
    wet = replace(CALLS.signs["wet"], words=("weeps",))
    own = {"sweats": Complaint("sweats", "it sweats", "wet", ("sticky underneath",))}
    calls = replace(CALLS, signs={**CALLS.signs, "wet": wet}, complaints=own)
    for text in ("it weeps a little", "it sweats", "it is sticky underneath"):
        assert heard(text) == []
        assert [one.danger for one in spoken_of(text, calls)] == ["wet-font"]


def test_no_word_of_a_caller_is_kept_with_what_was_asked() -> None:
    """If this failed, a caller's words would go into the cases that others learn from."""
    (one,) = spoken_of("my neighbour Anna has a headache")
    assert one.words == "my neighbour anna has a headache"
    assert set(one.mark) <= set("0123456789abcdef")


def test_a_no_settles_these_words_and_no_others() -> None:
    """If this failed, a headache that comes later would be taken for the one that was denied."""
    first = spoken_of("it made me sick last year")
    told: tuple[Event, ...] = (*first, Danger("unwell", Said.NO))
    assert gate_of(Case("", (), "", told, flame=False), CALLS).open
    later = not_heard_yet(spoken_of("it made me sick last year. my head hurts"), told)
    gate = gate_of(Case("", (), "", (*told, *later), flame=False), CALLS)
    assert [one.danger for one in gate.unasked] == ["unwell"]
    assert [one.words for one in gate.spoken] == ["my head hurts"]


def test_words_never_clear_a_danger_that_is_there() -> None:
    """If this failed, speaking of a danger again would open the gate that it shut."""
    yes = Danger("wet-font", Said.YES)
    told: tuple[Event, ...] = (*spoken_of("it leaks"), yes, *spoken_of("it drips now"))
    gate = gate_of(Case("", (), "", told, flame=False), CALLS)
    assert [one.danger for one in gate.shut] == ["wet-font"]
    again = (*told, Cleared("wet-font"), *spoken_of("a puddle"))
    assert not gate_of(Case("", (), "", again, flame=False), CALLS).open


def test_what_is_beyond_doubt_is_told_before_it_is_asked() -> None:
    """If this failed, a lamp on fire would be answered by a list of questions."""
    told = spoken_of("the lamp is on fire")
    gate = gate_of(Case("", (), "", told), CALLS)
    assert gate.stops == (GUARDS["outside-glass"],)
    assert gate.unasked[0] is GUARDS["outside-glass"]
    assert gate_of(Case("", (), "", (*told, Danger("outside-glass", Said.NO))), CALLS).stops == ()


def test_a_step_back_leaves_what_was_said() -> None:
    """If this failed, taking an answer back would take the danger out of the caller's words."""
    told = Case("", (), "dim", (Answer("wet", Said.NO), *spoken_of("it leaks")))
    assert [one.danger for one in gate_of(told.back(), CALLS).spoken] == ["wet-font"]

"""A case as it stands, and what is said twice in it."""

from __future__ import annotations

from wickwright.cause.case import Act, Answer, Case, Danger, Outcome, Said, said_both_ways

YES, NO, UNSURE = (Answer("soot", said) for said in (Said.YES, Said.NO, Said.UNSURE))
DONE = Act("clean-wick", Outcome.STILL)
CLEAR = Danger("unwell", Said.NO)


def test_a_yes_and_a_no_to_one_sign_are_found() -> None:
    """A case that says both would be weighed as if it said something."""
    assert said_both_ways([CLEAR, YES, Answer("dim", Said.NO), NO]) == (YES, NO)


def test_what_was_not_known_or_was_otherwise_before_an_act_is_no_clash() -> None:
    """A lamp whose soot is gone after its wick was cleaned would be held for a mistake."""
    assert said_both_ways([YES, UNSURE, YES]) == ()
    assert said_both_ways([YES, DONE, NO]) == ()
    assert said_both_ways([YES, DONE, NO, YES]) == (NO, YES)


def test_an_answer_given_anew_takes_the_place_of_the_one_before() -> None:
    """A clash could never be put right by asking again."""
    case = Case("L1", (), "dim", (CLEAR, YES, NO))
    assert case.then(NO).events == (CLEAR, NO)
    assert Case("L1", (), "dim", (YES, DONE)).then(NO).events == (YES, DONE, NO)

"""Safety comes before the arithmetic."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.support.small_calls import small_calls

from wickwright.catalogue.call_records import DANGERS, Complaint
from wickwright.cause.case import Act, Answer, Case, Cleared, Computed, Danger, Event, Outcome, Said
from wickwright.cause.dangers import GUARDS
from wickwright.cause.gate import gate_of
from wickwright.cause.knowledge import knowledge_of
from wickwright.cause.next_step import advise, questions_of

CALLS = small_calls()
KNOWN = knowledge_of(CALLS, {"chimney"}, "", "dim")
QUESTIONS = questions_of(KNOWN)
ALL_CLEAR = tuple(Danger(key, Said.NO) for key in GUARDS)


def case(*events: Event) -> Case:
    return Case("L1", ("P1",), "dim", events)


said = st.sampled_from(Said)
events = st.lists(
    st.one_of(
        st.builds(Danger, st.sampled_from(sorted(DANGERS)), said),
        st.builds(Cleared, st.sampled_from(sorted(DANGERS))),
        st.builds(Answer, st.sampled_from(sorted(CALLS.signs)), said),
        st.builds(Act, st.sampled_from(sorted(CALLS.remedies)), st.just(Outcome.STILL)),
        st.builds(
            Computed,
            st.sampled_from(sorted(CALLS.causes)),
            st.floats(0.02, 0.98),
            st.just("worked out"),
        ),
    ),
    max_size=14,
)


def dangers_left(told: list[Event]) -> set[str]:
    """Read a case for dangers anew, with nothing but a walk along it."""
    there = {key for key, guard in GUARDS.items() if guard.flame}
    sure = set()
    for event in told:
        match event:
            case Danger(danger, Said.NO) if danger not in sure:
                there.discard(danger)
            case Danger(danger, _) if danger in DANGERS:
                there.add(danger)
                if event.said is not Said.NO:
                    sure.add(danger)
            case Answer("wet", Said.YES | Said.UNSURE):
                there.add("wet-font")
                sure.add("wet-font")
            case Cleared(danger) if GUARDS[danger].clears:
                there.discard(danger)
                sure.discard(danger)
            case Cleared(danger):
                there.add(danger)
                sure.add(danger)
    return there


@settings(deadline=None)
@given(events)
def test_nothing_that_needs_a_flame_is_offered_while_a_danger_is_left(told: list[Event]) -> None:
    """A caller would be told to light a lamp that leaks, or in a room full of bad air."""
    advice = advise(case(*told), KNOWN, CALLS, {}, questions=QUESTIONS)
    if dangers_left(told):
        assert not advice.gate.open
        assert [step for step in advice.steps if step.lit] == []
        assert advice.best is None
    else:
        assert advice.gate.open


def test_every_danger_is_asked_about_before_anything_else() -> None:
    """A call could go from the complaint straight to lighting the lamp."""
    advice = advise(case(), KNOWN, CALLS, {}, questions=QUESTIONS)
    flame = [key for key, guard in GUARDS.items() if guard.flame]
    assert [guard.danger for guard in advice.gate.unasked] == flame
    assert advice.best is None


def test_all_clear_opens_the_gate() -> None:
    """No call would ever come to its steps."""
    advice = advise(case(*ALL_CLEAR), KNOWN, CALLS, {}, questions=QUESTIONS)
    assert advice.gate.open
    assert advice.best is not None


@pytest.mark.parametrize("danger", [key for key, guard in GUARDS.items() if not guard.clears])
def test_what_no_call_can_clear_stays(danger: str) -> None:
    """A cracked font would be lit again because somebody said it was fine."""
    told = case(*ALL_CLEAR, Danger(danger, Said.YES), Cleared(danger), Danger(danger, Said.NO))
    gate = gate_of(told, CALLS)
    assert gate.bench
    assert [guard.danger for guard in gate.shut] == [danger]


def test_a_danger_is_cleared_only_by_saying_that_what_clears_it_is_so() -> None:
    """A 'no' after a 'yes' would open the gate without anything having been done."""
    wet: tuple[Event, ...] = (*ALL_CLEAR, Answer("wet", Said.YES), Danger("wet-font", Said.NO))
    assert not gate_of(case(*wet), CALLS).open
    assert gate_of(case(*wet, Cleared("wet-font")), CALLS).open


def test_not_knowing_is_no_reason_to_light_a_lamp() -> None:
    """Somebody unsure what is in the font would be told to light it."""
    told = case(*ALL_CLEAR[:-1], Danger(ALL_CLEAR[-1].danger, Said.UNSURE))
    assert [g.danger for g in gate_of(told, CALLS).shut] == [ALL_CLEAR[-1].danger]


def test_a_lamp_with_a_bulb_is_asked_about_shocks_and_not_about_its_flame() -> None:
    """Somebody who felt a tingle would not be asked, or a bulb be asked whether it shoots up."""
    bulb = Case("L1", ("P1",), "dim", (), bulb=True, flame=False)
    assert [guard.danger for guard in gate_of(bulb, CALLS).unasked] == ["shock", "wet-font"]
    shocks = gate_of(bulb.then(Danger("shock", Said.YES), Danger("wet-font", Said.NO)), CALLS)
    assert [guard.danger for guard in shocks.shut] == ["shock"]


def test_a_danger_that_is_said_counts_whatever_the_lamp_runs_on() -> None:
    """A shock from a lamp that was taken for one with a flame would be passed over."""
    gate = gate_of(case(*ALL_CLEAR, Danger("shock", Said.YES)), CALLS)
    assert [guard.danger for guard in gate.shut] == ["shock"]


def test_a_lamp_with_a_bulb_and_a_burner_for_fuel_is_asked_about_both() -> None:
    """A bulb named beside a burner would take every question about its flame away."""
    both = Case("L1", ("P1",), "dim", (), bulb=True)
    assert [guard.danger for guard in gate_of(both, CALLS).unasked] == list(GUARDS)


def test_a_complaint_that_is_a_danger_shuts_the_gate_by_itself() -> None:
    """Somebody who calls because the lamp leaks would be told to light it after seven times no."""
    wet = replace(CALLS, complaints={"wet": Complaint("wet", "it leaks", "wet", ())})
    told = Case("L1", ("P1",), "wet", ALL_CLEAR)
    assert [guard.danger for guard in gate_of(told, wet).shut] == ["wet-font"]
    assert gate_of(told.then(Cleared("wet-font")), wet).open


@pytest.mark.parametrize("danger", [key for key, guard in GUARDS.items() if not guard.clears])
def test_saying_that_what_no_call_can_clear_is_cleared_tells_that_it_was_there(danger: str) -> None:
    """A cracked font that nobody was asked about would pass as no danger once 'cleared'."""
    others = tuple(one for one in ALL_CLEAR if one.danger != danger)
    gate = gate_of(case(*others, Cleared(danger)), CALLS)
    assert [guard.danger for guard in gate.shut] == [danger]


def test_not_knowing_of_a_sign_of_danger_shuts_the_gate() -> None:
    """'Don't know' to 'is the font wet' would count as dry where it is asked as a sign."""
    gate = gate_of(case(*ALL_CLEAR, Answer("wet", Said.UNSURE)), CALLS)
    assert [guard.danger for guard in gate.shut] == ["wet-font"]

"""What a case comes to, judged by working every set of causes out on its own."""

from __future__ import annotations

from itertools import product
from typing import TYPE_CHECKING

import pytest
from tests.support.small_calls import small_calls

from wickwright.cause.case import Act, Answer, Case, Computed, Danger, Event, Outcome, Said
from wickwright.cause.costs import Costs, Offer
from wickwright.cause.dangers import GUARDS
from wickwright.cause.knowledge import NothingKnownError, knowledge_of
from wickwright.cause.next_step import Advice, Do, advise
from wickwright.cause.weighing import COLD, LIT, acts_for, weighed

if TYPE_CHECKING:
    from wickwright.catalogue.call_records import Cause

CALLS = small_calls()
KINDS = {"chimney"}
LARGE = 0.3 / 0.34
CLEAR = tuple(Danger(key, Said.NO) for key in GUARDS if key != "wet-font")
DRY = Danger("wet-font", Said.NO)


def advice(
    *events: Event, offers: dict[str, Offer] | None = None, costs: Costs | None = None
) -> Advice:
    known = knowledge_of(CALLS, KINDS, "", "dim", most=5)
    told = Case("L1", ("P1",), "dim", (*CLEAR, DRY, *events))
    return advise(told, known, CALLS, offers or {}, costs or Costs(most_faults=5))


def by_hand(
    answers: dict[str, bool], computed: dict[str, float], done: str = ""
) -> dict[str, float]:
    """Return the chance that each cause makes the complaint by going through all 32 sets."""
    strengths = {(s.cause, s.sign): s.strength for s in CALLS.shows}
    cured = {c.cause: c.sure for c in CALLS.cures if c.remedy == done}
    total, held = 0.0, dict.fromkeys(CALLS.causes, 0.0)
    for bits in product((False, True), repeat=len(CALLS.causes)):
        there = [c for c, bit in zip(CALLS.causes.values(), bits, strict=True) if bit]
        weight = 1.0
        for cause, bit in zip(CALLS.causes.values(), bits, strict=True):
            chance = computed.get(cause.id, cause.weight * LARGE)
            weight *= chance if bit else 1 - chance
        chances = {}
        for sign in CALLS.signs.values():
            quiet = 1 - sign.anyway * (LARGE if sign.id == "dim" else 1.0)
            for cause in there:
                quiet *= 1 - strengths.get((cause.id, sign.id), 0.0)
            chances[sign.id] = 1 - quiet
        left = 1 - CALLS.signs["dim"].anyway * LARGE
        for cause in there:
            left *= 1 - strengths.get((cause.id, "dim"), 0.0) * (1 - cured.get(cause.id, 0.0))
        weight *= (1 - left) if done else chances["dim"]
        for sign_id, yes in answers.items():
            p = chances[sign_id]
            weight *= (0.92 * p + 0.06 * (1 - p)) if yes else (0.08 * p + 0.94 * (1 - p))
        total += weight
        for cause in there:
            held[cause.id] += weight * blamed(cause.id, there, cured, strengths)
    return {cause: weight / total for cause, weight in held.items()}


def blamed(
    cause: str, there: list[Cause], cured: dict[str, float], strengths: dict[tuple[str, str], float]
) -> float:
    """Return how often a cause makes the complaint, of all the ways in which these make it."""
    chances = [strengths.get((c.id, "dim"), 0.0) * (1 - cured.get(c.id, 0.0)) for c in there]
    chances.append(CALLS.signs["dim"].anyway * LARGE)
    total = mine = 0.0
    for acting in product((False, True), repeat=len(chances)):
        weight = 1.0
        for chance, acts in zip(chances, acting, strict=True):
            weight *= chance if acts else 1 - chance
        total += weight if any(acting) else 0.0
        mine += weight if acting[[c.id for c in there].index(cause)] else 0.0
    return mine / total


@pytest.mark.parametrize(
    ("events", "answers", "computed", "done"),
    [
        ((), {}, {}, ""),
        ((Answer("uneven", Said.YES),), {"uneven": True}, {}, ""),
        (
            (Answer("smells", Said.NO), Answer("carbon", Said.YES)),
            {"smells": False, "carbon": True},
            {},
            "",
        ),
        ((Computed("short", 0.9, "short glass"),), {}, {"short": 0.9}, ""),
        (
            (Answer("uneven", Said.YES), Act("clean-wick", Outcome.STILL)),
            {"uneven": True},
            {},
            "clean-wick",
        ),
    ],
)
def test_beliefs_are_those_of_every_set_gone_through_by_hand(
    events: tuple[Event, ...], answers: dict[str, bool], computed: dict[str, float], done: str
) -> None:
    """The causes shown to an adviser would not follow from the tables and the answers."""
    found = {one.cause: one.chance for one in advice(*events).causes}
    want = by_hand({"wet": False, **answers}, computed, done)
    assert found == pytest.approx(want, abs=1e-12)


def test_dont_know_moves_nothing_and_is_not_asked_again() -> None:
    """Not knowing would count as no, or the caller would be asked the same again."""
    before, after = advice(), advice(Answer("smells", Said.UNSURE))
    assert [(o.cause, round(o.chance, 12)) for o in before.causes] == [
        (o.cause, round(o.chance, 12)) for o in after.causes
    ]
    assert "smells" in {step.key for step in before.steps}
    assert "smells" not in {step.key for step in after.steps}


def test_the_complaint_is_never_asked_about() -> None:
    """The reason for the call would be asked about, and counted twice."""
    assert "dim" not in {step.key for step in advice().steps}


def test_the_steps_are_ranked_by_what_the_whole_repair_is_expected_to_cost() -> None:
    """The step offered first would not be the one that costs the caller least."""
    steps = advice(Answer("uneven", Said.YES), costs=Costs(near=0.0)).steps
    assert [step.minutes for step in steps] == sorted(step.minutes for step in steps)
    assert Do.BENCH in {step.do for step in steps}


@pytest.mark.parametrize("short_call", [False, True])
@pytest.mark.parametrize("events", [(), (Computed("short", 0.9, "short glass"),)])
def test_while_no_cause_is_clear_a_question_comes_before_what_is_as_good(
    events: tuple[Event, ...], *, short_call: bool
) -> None:
    """The caller would be sent to do something while a question as good is still open."""
    exact, wide = (
        advice(*events, costs=Costs(near=near, short_call=short_call)).steps for near in (0.0, 1e6)
    )
    asks = next(step for step in exact if step.do is Do.ASK)
    clear = advice(*events).causes[0].chance >= 0.5
    assert clear == bool(events)
    rest = [step for step in exact if step != asks]
    assert list(wide) == (list(exact) if clear or short_call else [asks, *rest])


def test_a_remedy_that_failed_is_not_offered_again() -> None:
    """The caller would be sent to do again what did not help."""
    keys = {step.key for step in advice(Act("clean-wick", Outcome.STILL)).steps}
    assert "clean-wick" not in keys
    assert "clean-wick" in {step.key for step in advice().steps}


def test_a_complaint_without_a_cause_is_as_seldom_as_the_causes_are() -> None:
    """Nothing at all would be behind every third call, and the bench come too soon."""
    many, few = (knowledge_of(CALLS, KINDS, "", "dim", most=5, faults=f) for f in (0.34, 0.034))
    assert many.leak == pytest.approx(0.02)
    assert few.leak == pytest.approx(0.002)
    assert few.net.leak == pytest.approx(many.net.leak)


def test_a_lamp_that_was_let_cool_for_one_look_is_cold_for_the_next_step() -> None:
    """Cooling would be counted again for every look and act on the same cold lamp."""

    def inside(*events: Event) -> int:
        known = knowledge_of(CALLS, KINDS, "", "dim", most=5)
        told = Case("L1", ("P1",), "dim", events)
        repair = weighed(told, known, CALLS.signs, acts_for(known, {}, Costs()), frozenset()).repair
        assert repair is not None
        return repair.inside

    cold, lit = Answer("carbon", Said.UNSURE), Answer("uneven", Said.NO)
    assert inside() == -1
    assert inside(cold) == COLD
    assert inside(cold, Answer("smells", Said.NO)) == COLD
    assert inside(cold, lit) == LIT
    assert inside(cold, Act("clean-wick", Outcome.NOT_DONE)) == COLD
    assert inside(cold, Act("clean-wick", Outcome.STILL)) == -1
    before = {step.key: step.minutes for step in advice().steps}
    after = {step.key: step.minutes for step in advice(cold).steps}
    assert after["clean-wick"] < before["clean-wick"] - Costs().cooling / 2


def test_a_part_that_is_not_to_be_had_is_no_step() -> None:
    """The caller would be promised a part that no route leads to."""
    offers = {"tall-chimney": Offer(None, to_be_had=False)}
    assert "tall-chimney" not in {step.key for step in advice(offers=offers).steps}


def test_a_dear_part_comes_later_than_a_cheap_one() -> None:
    """The price of the parts would not count."""

    def place(price: int) -> int:
        found = advice(offers={"tall-chimney": Offer(price)}).steps
        return [step.key for step in found].index("tall-chimney")

    assert place(100_000) > place(0)


def test_what_was_worked_out_is_not_asked_again() -> None:
    """A caller would be asked what the program has computed."""
    found = advice(Computed("leaks", 0.02, "it was weighed")).skipped
    assert [(one.sign, one.cause, one.because) for one in found] == [
        ("wet", "leaks", "it was weighed")
    ]


def test_answers_that_go_badly_together_are_named() -> None:
    """A slip of the tongue would be taken for evidence without a word."""
    sure = Computed("crusted", 1e-9, "the wick is new and was cleaned today")
    found = advice(Answer("uneven", Said.YES), sure)
    assert found.clash == (Answer("uneven", Said.YES), sure)
    assert advice(Answer("uneven", Said.YES)).clash == ()


def test_a_cured_case_is_closed() -> None:
    """A lamp that burns would be asked about further."""
    found = advice(Act("clean-wick", Outcome.CURED))
    assert found.closed
    assert found.best is None


def test_a_complaint_that_is_not_in_the_book_is_refused() -> None:
    """A slip in a complaint's name would end in a traceback or a guess."""
    with pytest.raises(NothingKnownError) as caught:
        knowledge_of(CALLS, KINDS, "", "dimm")
    assert str(caught.value) == "There is no complaint 'dimm' in the book. It has: dim."


def test_taking_back_takes_what_was_worked_out_after_it_too() -> None:
    """What was computed from a withdrawn answer would stay in the case."""
    told = Case("L1", (), "dim", (DRY, Answer("wet", Said.NO), Computed("short", 2.0, "x")))
    assert told.back().events == (DRY,)
    assert told.back().back().events == ()
    assert told.back().back().back().events == ()

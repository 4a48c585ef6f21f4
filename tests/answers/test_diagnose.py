"""From a complaint to the parts to send, on the demo book."""

from __future__ import annotations

import pytest
from tests.support.demo import demo

from wickwright.answers.diagnose import Diagnosis, diagnose
from wickwright.answers.flames.room_air import RoomPlan
from wickwright.answers.way_taken import NoSuchWayError
from wickwright.answers.which_parts import UnknownNameError
from wickwright.answers.worked_out import Circumstances
from wickwright.cause.case import Act, Answer, Cleared, Danger, Outcome, Said
from wickwright.cause.costs import Costs
from wickwright.cause.dangers import GUARDS
from wickwright.cause.knowledge import NothingKnownError
from wickwright.cause.next_step import Do
from wickwright.fit.audit import audit
from wickwright.fit.place import Place
from wickwright.fit.routes import Routes
from wickwright.terms.finding import Severity

HIGH = Circumstances(elevation=1900.0)
CLEAR = tuple(Danger(key, Said.NO) for key in GUARDS)


def call(lamp: str = "WH-302", complaint: str = "dim", **given: object) -> Diagnosis:
    return diagnose(demo(), lamp, complaint, **given).told(*CLEAR)  # type: ignore[arg-type]


def test_a_dim_lamp_up_a_mountain_gets_the_taller_glass_first() -> None:
    """A caller whose glass is too short for the place would be asked about everything else."""
    found = call(where=HIGH)
    assert found.advice.plan[0] == "suit-place"
    acts = [step.key for step in found.advice.steps if step.do is Do.ACT]
    assert acts[0] == "suit-place"
    assert found.advice.causes[0].cause == "thin-air"
    reasons = {one.cause: one.because for one in found.computed}
    assert reasons["thin-air"] == (
        "your glass is 37.1 mm short for 1,900 m: this burner needs 332.3 mm there"
    )


def test_a_remedy_that_needs_a_part_is_a_route_held_to_the_same_rules() -> None:
    """A glass would be sent that does not fit the seat, or cracks, or draws too little."""
    found = call(where=HIGH)
    answer = found.answers["suit-place"]
    assert isinstance(answer, Routes)
    route, lamp = answer.routes[0], demo().book.lamps["WH-302"]
    assert {part.kind for part in route.buy} == {"chimney", "gallery"}
    gravest = audit(route.assembly, lamp, Place(1900.0), demo().joiner)[0]
    assert gravest.severity < Severity.UNKNOWN
    assert found.offers["suit-place"].price == route.price


def test_a_turned_seat_that_keeps_breaking_glass_is_converted() -> None:
    """The caller would be sent the same glass for the same seat, to break again."""
    found = call(complaint="glass-breaks")
    assert found.advice.causes[0].cause == "seat-pinches"
    answer = found.answers["convert-seat"]
    assert isinstance(answer, Routes)
    bought = {part.kind: part for part in answer.routes[0].buy}
    assert set(bought) == {"chimney", "gallery"}
    plain = call("DU-401", "glass-breaks")
    assert next(o.chance for o in plain.advice.causes if o.cause == "seat-pinches") < 0.1


def test_a_short_call_acts_sooner() -> None:
    """The setting would change nothing, or an adviser in no hurry would be told to act unsure."""
    long, short = (
        {(one.do, one.key): one.minutes for one in call(costs=Costs(short_call=s)).advice.steps}
        for s in (False, True)
    )
    acts = [key for key in long if key[0] is Do.ACT]
    assert all(short[key] <= long[key] for key in acts)
    assert any(short[key] < long[key] - 1.0 for key in acts)
    assert all(short[key] == long[key] for key in long if key[0] is not Do.ACT)


def test_at_the_shore_the_height_speaks_against_thin_air() -> None:
    """What was computed would only ever count for a cause, never against it."""
    low = call(where=Circumstances(elevation=5.0))
    chances = {one.cause: one.chance for one in low.advice.causes}
    assert chances["thin-air"] < 0.05
    assert "thin-air" in {one.cause for one in low.computed}


def test_nothing_is_worked_out_from_what_nobody_has_said() -> None:
    """Taking the shore for granted would speak against the mountain's cause."""
    assert [one.cause for one in call().computed] == []


def test_fuel_nearly_used_up_is_worked_out_from_the_hours() -> None:
    """A lamp that is simply empty would be taken apart."""
    dry = call("WH-301", where=Circumstances(hours=14.0))
    fresh = call("WH-301", where=Circumstances(hours=1.0))
    chance = [
        next(one.chance for one in it.advice.causes if one.cause == "fuel-low")
        for it in (dry, fresh)
    ]
    assert chance[0] > 0.8
    assert chance[1] < 0.05


def test_a_tight_room_is_worked_out() -> None:
    """A family would be sent a wick for want of air."""
    closet = Circumstances(room=RoomPlan(volume=6.0, people=2, change=0.1 / 3600, duration=14400.0))
    found = call(where=closet)
    stale = next(one for one in found.computed if one.cause == "room-stale")
    assert stale.chance > 0.9


def test_a_wrong_part_on_the_lamp_is_worked_out() -> None:
    """A mantle for another burner would be looked for by questions."""
    found = call(have=("MA-1100",))
    wrong = {one.cause: one for one in found.computed}
    assert wrong["mantle-wrong"].chance > 0.9


def test_taking_an_answer_back_gives_the_case_before_it() -> None:
    """A slip of the adviser's hand would have to be lived with."""
    found = call(where=HIGH)
    after = found.told(Answer("goes-out", Said.YES))
    assert after.advice.causes != found.advice.causes
    assert after.back().case == found.case
    assert after.back().advice.causes == found.advice.causes


def test_an_act_that_failed_makes_way_for_the_next() -> None:
    """The same parts would be sent again."""
    found = call(where=HIGH).told(Act("suit-place", Outcome.STILL))
    assert "suit-place" not in {step.key for step in found.advice.steps}
    assert found.advice.best is not None


@pytest.mark.parametrize("complaint", sorted(demo().book.calls.complaints))
def test_every_complaint_of_the_book_can_be_taken_for_some_lamp(complaint: str) -> None:
    """A row of the table would lead nowhere."""
    taken = []
    for lamp in ("WH-302", "TU-601", "BX-702", "SO-501"):
        try:
            taken.append(diagnose(demo(), lamp, complaint))
        except NothingKnownError:
            continue
    assert taken


def test_names_that_are_not_in_the_book_are_refused() -> None:
    """A slip would end in a traceback."""
    with pytest.raises(UnknownNameError):
        diagnose(demo(), "WH-999", "dim")
    with pytest.raises(NothingKnownError):
        diagnose(demo(), "WH-302", "purple")


def test_a_bulb_lamp_is_not_asked_about_its_wick() -> None:
    """An electric lamp would be diagnosed as if it burned."""
    with pytest.raises(NothingKnownError) as caught:
        diagnose(demo(), "BX-702", "carbon")
    assert str(caught.value).startswith("Nothing in the book makes a lamp of this make-up show")


def test_a_part_that_was_put_on_and_did_not_help_stays_on_the_lamp() -> None:
    """A caller with the tall glass on would be told that the glass is short, and sent another."""
    before = call(where=HIGH)
    answer = before.answers["suit-place"]
    assert isinstance(answer, Routes)
    after = before.told(Act("suit-place", Outcome.STILL))
    bought = {part.id for part in answer.routes[0].buy}
    assert bought <= set(after.case.parts)
    assert set(after.case.parts) == {
        *(it.part.id for it in answer.routes[0].assembly.walk()),
        *(part.id for part in answer.routes[0].assembly.loose),
    }
    reasons = {one.cause: one.because for one in after.computed}
    assert reasons["thin-air"].startswith("your glass is tall enough for 1,900 m")
    thin = [
        next(o.chance for o in c.advice.causes if o.cause == "thin-air") for c in (before, after)
    ]
    assert thin[1] < 0.1 < thin[0]
    assert after.back().case == before.case
    assert after.back().computed == before.computed
    again = diagnose(demo(), "WH-302", "dim", where=HIGH, events=after.case.events)
    assert (again.case, again.computed, again.have) == (after.case, after.computed, after.have)


def test_a_part_that_could_not_be_put_on_is_not_on_the_lamp() -> None:
    """A parcel that never came would be held for a glass that stands on the lamp."""
    before = call(where=HIGH)
    assert before.told(Act("suit-place", Outcome.NOT_DONE)).case.parts == before.case.parts
    assert before.told(Act("clean-wick", Outcome.STILL)).case.parts == before.case.parts


def test_a_bulb_named_beside_a_burner_for_fuel_leaves_its_flame_asked_about() -> None:
    """Naming a bulb on the table would open the way to a flame nobody asked about."""
    beside = diagnose(demo(), "WH-302", "dim", have=["LB-2740"])
    assert [guard.danger for guard in beside.advice.gate.unasked] == list(GUARDS)
    assert not any(step.lit for step in beside.advice.steps)


def test_a_lamp_whose_bulb_is_gone_is_still_asked_about_shocks() -> None:
    """A bare lampholder would be asked whether its flame shoots up, and not about current."""
    bare = diagnose(demo(), "BX-704", "no-current", lost=["bulb"])
    assert [guard.danger for guard in bare.advice.gate.unasked] == ["shock", "wet-font"]


def test_a_no_in_place_of_a_yes_does_not_take_the_danger_away() -> None:
    """Answering a sign of danger anew would light a lamp that leaks, with nothing cleared."""
    wet = call().told(Answer("font-wet", Said.YES)).told(Answer("font-wet", Said.NO))
    assert [guard.danger for guard in wet.advice.gate.shut] == ["wet-font"]
    assert not any(step.lit for step in wet.advice.steps)
    assert wet.told(Cleared("wet-font")).advice.gate.open


def test_the_way_that_was_bought_stays_on_the_lamp() -> None:
    """A caller who took the new burner would be told of the old one as if it were still there."""
    before = call(where=HIGH)
    answer = before.answers["suit-place"]
    assert isinstance(answer, Routes)
    dear = answer.routes[-1]
    bought = tuple(part.id for part in dear.buy)
    assert bought != tuple(part.id for part in answer.routes[0].buy)
    after = before.told(Act("suit-place", Outcome.STILL, tuple(reversed(bought))))
    assert set(bought) <= set(after.case.parts)
    assert set(after.case.parts) == {
        *(it.part.id for it in dear.assembly.walk()),
        *(part.id for part in dear.assembly.loose),
    }
    cheap = before.told(Act("suit-place", Outcome.STILL))
    assert cheap.case.parts != after.case.parts
    assert after.back().case == before.case


def test_what_no_way_buys_is_refused_with_the_ways_there_are() -> None:
    """A slip in a part number would silently put another burner on the lamp."""
    with pytest.raises(NoSuchWayError) as caught:
        call(where=HIGH).told(Act("suit-place", Outcome.STILL, ("CH-3371",)))
    assert str(caught.value) == (
        "no way of 'suit-place' buys CH-3371: name all that was bought for it, which can be "
        "GA-2450, CH-3371; WI-2100, GA-2450, CH-3371; WI-2100, GA-2450, CH-3371, MA-2300; "
        "BU-3210, CH-3371"
    )

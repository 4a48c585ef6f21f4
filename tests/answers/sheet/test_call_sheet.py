"""Whole calls on a sheet: what is asked in which order, and what is sent."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.support.demo import demo

from wickwright.answers.places.town_table import TownTable
from wickwright.answers.sheet.call_record import Said
from wickwright.answers.sheet.call_sheet import (
    AskAct,
    AskBench,
    AskClear,
    AskDangers,
    AskGiveUp,
    AskLook,
    AskMissing,
    AskPlace,
    AskSign,
    AskWanted,
    Known,
    Sheet,
    sheet_of,
)
from wickwright.answers.sheet.given_up import claim_text
from wickwright.answers.sheet.memory import Kept, Memory, question_of
from wickwright.answers.sheet.steps import Typed, step_taken
from wickwright.answers.which_lamp import asking_of
from wickwright.answers.which_parts import which_parts
from wickwright.cause.dangers import GUARDS
from wickwright.terms.units import Units

if TYPE_CHECKING:
    from wickwright.answers.plain.answers import Plain

NO_TOWNS = TownTable((), "\n", (), {}, {}, ())
ALL = list(GUARDS)


@cache
def memory() -> Memory:
    compiled = demo()
    return Memory(compiled, asking_of(compiled), Units("metric", compiled.book.currency))


def after(before: Said, /, **fields: str | list[str]) -> Said:
    texts = {name: [one] if isinstance(one, str) else one for name, one in fields.items()}
    found, faults = step_taken(memory(), before, Typed(texts), lambda: NO_TOWNS)
    assert faults == ()
    return found


def worked(said: Said) -> Sheet:
    return sheet_of(memory(), said)


def sent(sheet: Sheet) -> list[str]:
    assert sheet.parcel is not None
    assert sheet.parcel.route is not None
    return [part.id for part in sheet.parcel.route.buy]


def test_an_empty_sheet_asks_what_is_wanted() -> None:
    """If this failed, a call would begin with a question nobody can answer yet."""
    assert worked(Said()).asked == AskWanted(())


def test_a_broken_glass_is_asked_for_height_and_lamp_until_the_parcel_is_settled() -> None:
    """If this failed, the commonest call would ask too much or send the wrong glass."""
    said = after(Said(), words="I broke my glass", choose="wish:renew-chimney")
    assert isinstance(worked(said).asked, AskPlace)
    said = after(said, place="40 m")
    asked = 0
    while isinstance(look := worked(said).asked, AskLook):
        asking = memory().asking
        assert asking is not None
        sight = asking.sight(look.look.look)
        said = after(said, look=look.look.look, value=sight.answers[0])
        asked += 1
    sheet = worked(said)
    assert sheet.known is Known.SETTLED
    assert asked <= 3
    assert sheet.lamps_left > 1, "the model was asked further than the parcel needs"
    assert said.lost == ("chimney",)
    answer = which_parts(
        demo(), sheet.lamp, "renew-chimney", have=sheet.have, lost=said.lost, elevation=40.0
    )
    assert sheet.parcel is not None
    assert sheet.parcel.routes == getattr(answer, "routes", ())


def test_a_dim_lamp_up_a_mountain_comes_to_its_tall_glass() -> None:
    """If this failed, what the elevation does to the flame would be asked instead of computed."""
    said = after(Said(), words="it is not bright any more", choose="complaint:dim", lamp="wh-302")
    assert isinstance(worked(said).asked, AskDangers)
    said = after(said, asked=ALL)
    assert isinstance(worked(said).asked, AskPlace)
    said = after(said, place="1900 m")
    while isinstance(step := worked(said).asked, AskSign):
        said = after(said, sign=step.step.key, said="no")
    sheet = worked(said)
    assert isinstance(sheet.asked, AskAct)
    assert sent(sheet) == ["GA-2450", "CH-3371"]
    assert sheet.case is not None
    assert "short for 1,900 m" in sheet.case.computed[0].because
    said = after(said, remedy=sheet.asked.step.key, outcome="it burns well")
    done = worked(said)
    assert done.asked is None
    assert sent(done) == ["GA-2450", "CH-3371"], "what cured it is still what goes in the post"


def test_a_shade_for_a_shelf_lamp_is_answered_as_soon_as_the_lamp_is_named() -> None:
    """If this failed, an adviser who knows the lamp would be asked about it all the same."""
    sheet = worked(after(Said(), choose="wish:add-shade", lamp="Tirrick shelf lamp", place="0 m"))
    assert sheet.asked is None
    assert sheet.said.lamp == "WH-302"
    assert sent(sheet) == ["HO-2073", "SH-0731"]


def test_a_lamp_from_a_barn_is_asked_what_is_missing_then_which_lamp_it_is() -> None:
    """If this failed, an incomplete lamp would be told to need nothing, or be left unanswered."""
    said = after(Said(), choose="wish:complete", place="0 m")
    asked = worked(said).asked
    assert isinstance(asked, AskMissing)
    assert asked.kinds[:3] == ("chimney", "mantle", "wick")
    assert set(asked.kinds) >= {"burner", "font", "base"}
    assert "tool" not in asked.kinds
    said = after(said, looked="yes", missing=["chimney", "mantle"])
    assert said.lost == ("chimney", "mantle")
    assert isinstance(worked(said).asked, AskLook)
    said = after(said, lamp="DU-406")
    assert worked(said).asked is None
    assert sent(worked(said)) == ["CH-3296", "MA-3300"]


def test_a_lamp_with_nothing_missing_is_asked_about_it_once() -> None:
    """If this failed, the question would come back for ever, or none would follow it."""
    said = after(Said(), choose="wish:complete", place="0 m", looked="yes")
    assert said.lost == ()
    assert isinstance(worked(said).asked, AskLook)


def test_a_wish_that_is_the_same_for_every_lamp_still_finds_a_lamp_to_answer_for() -> None:
    """If this failed, the sheet would neither ask nor answer."""
    said = after(Said(), choose="wish:remove-shade", place="0 m")
    look = worked(said).asked
    assert isinstance(look, AskLook)
    asking = memory().asking
    assert asking is not None
    said = after(said, look=look.look.look, value=asking.sight(look.look.look).answers[0])
    sheet = worked(said)
    assert sheet.lamp
    assert sheet.parcel is not None


def test_a_place_nobody_knows_is_asked_for_again() -> None:
    """If this failed, a slip in a town's name would count as sea level, in thin air."""
    said = Said(wish="renew-chimney", lamp="WH-302", place="Nowhere at all")
    assert isinstance(worked(said).asked, AskPlace)
    assert worked(after(said, place="?")).asked is None


def test_a_bulb_is_not_asked_where_it_stands() -> None:
    """If this failed, a question that cannot change the answer would be asked."""
    assert not isinstance(worked(after(Said(), choose="wish:to-electric")).asked, AskPlace)


def test_dangers_stand_before_everything_and_no_step_is_offered_while_one_is_there() -> None:
    """If this failed, somebody would be sent looking for a wick beside a lamp that flares."""
    said = after(Said(), choose="complaint:dim", lamp="WH-302", place="0 m")
    said = after(said, asked=ALL, danger=["outside-glass", "cracked-font"])
    sheet = worked(said)
    assert sheet.gate is not None
    assert [guard.danger for guard in sheet.gate.shut] == ["outside-glass", "cracked-font"]
    assert sheet.asked == AskClear(GUARDS["outside-glass"])
    assert sheet.parcels == ()
    sheet = worked(after(said, cleared="outside-glass", said="yes"))
    assert isinstance(sheet.asked, AskBench), "a cracked font is never cleared on the telephone"


@settings(max_examples=25, deadline=None)
@given(st.sets(st.sampled_from(ALL), min_size=1), st.sampled_from(["dim", "smokes", "flickers"]))
def test_no_sign_or_act_is_asked_with_any_danger_there(there: set[str], complaint: str) -> None:
    """If this failed, some danger would not shut the gate on the sheet."""
    said = after(Said(), choose=f"complaint:{complaint}", lamp="WH-302", place="0 m")
    sheet = worked(after(said, asked=ALL, danger=sorted(there)))
    assert isinstance(sheet.asked, AskClear | AskBench)
    assert sheet.parcels == ()


def test_a_lamp_with_a_bulb_is_asked_about_shocks_and_then_what_is_wrong() -> None:
    """If this failed, every call about a lamp with a bulb would end at the bench unasked."""
    said = after(Said(), choose="complaint:no-current", lamp="BX-704", place="0 m")
    assert worked(said).asked == AskDangers((GUARDS["shock"], GUARDS["wet-font"]))
    assert isinstance(worked(after(said, asked=["shock", "wet-font"])).asked, AskSign | AskAct)


def test_a_complaint_about_current_is_asked_about_shocks_before_the_lamp_is_known() -> None:
    """If this failed, a caller who felt a shock would be asked about a flame first."""
    sheet = worked(after(Said(), choose="complaint:no-current", place="0 m"))
    assert sheet.asked == AskDangers((GUARDS["shock"], GUARDS["wet-font"]))


def test_a_sign_answered_anew_is_as_it_is_said_last() -> None:
    """If this failed, a sheet would ask the same sign for ever after a slip of the tongue."""
    said = after(Said(), choose="complaint:dim", lamp="WH-302", place="0 m")
    said = after(said, asked=[key for key in ALL if key != "shock"])
    once = after(said, sign="soot", said="no")
    assert after(after(said, sign="soot", said="yes"), sign="soot", said="no") == once
    cleaned = after(once, remedy="turn-down", outcome="still wrong")
    assert len(after(cleaned, sign="soot", said="yes").events) == len(cleaned.events) + 1


def test_a_sign_of_danger_answered_anew_keeps_what_was_said_first() -> None:
    """If this failed, 'no' after 'yes' would open the gate with nothing cleared."""
    said = after(Said(), choose="complaint:dim", lamp="WH-302", place="0 m")
    said = after(said, asked=[key for key in ALL if key != "shock"])
    said = after(after(said, sign="font-wet", said="yes"), sign="font-wet", said="no")
    assert worked(said).asked == AskClear(GUARDS["wet-font"])


def test_what_the_book_no_longer_knows_is_told_and_kept() -> None:
    """If this failed, a call kept under an older fit book would lose its answers or break."""
    events: tuple[Plain, ...] = ({"sign": "no-such-sign", "said": "yes"}, "nonsense")
    said = Said(lamp="XX-1", wish="no-wish", complaint="dim", events=events, heard=(7,))
    sheet = worked(said)
    assert sheet.said == said
    assert [(fault.field, fault.says) for fault in sheet.faults] == [
        ("wish", "there is no wish 'no-wish' in this revision of the fit book"),
        ("heard", "it is nothing a caller says"),
        ("events", "there is no sign 'no-such-sign'"),
        ("events", "it is no event"),
        ("lamp", "there is no lamp 'XX-1' in this revision of the fit book"),
    ]


def test_a_chosen_route_stays_chosen_and_is_given_up_when_it_is_gone() -> None:
    """If this failed, other parts would go in the post than those that were chosen."""
    said = after(Said(), choose="wish:renew-chimney", lamp="WH-302", lost="chimney", place="1700 m")
    first = worked(said)
    assert first.parcel is not None
    other = first.parcel.routes[2]
    chosen = after(said, route=" ".join(part.id for part in other.buy))
    assert sent(worked(chosen)) == [part.id for part in other.buy]
    moved = worked(after(chosen, choose="wish:add-parchment-shade"))
    assert moved.parcel is not None
    assert moved.parcel.chosen == 0


@pytest.mark.parametrize("wish", ["renew-chimney", "add-shade", "complete"])
def test_working_a_sheet_out_twice_gives_the_same(wish: str) -> None:
    """If this failed, two desks would give two answers to one call."""
    said = after(Said(), choose=f"wish:{wish}", lamp="TY-101", place="1200 m")
    fresh = Memory(demo(), memory().asking, memory().units)
    one, other = sheet_of(fresh, said), worked(said)
    assert [parcel.routes for parcel in one.parcels] == [parcel.routes for parcel in other.parcels]
    assert one.asked == other.asked


def test_the_longest_unused_is_forgotten_first() -> None:
    """If this failed, a desk that runs for weeks would fill the memory of its machine."""
    kept: Kept[int] = Kept(2)
    made: list[str] = []

    def make(key: str) -> int:
        made.append(key)
        return len(made)

    for key in ("a", "b", "a", "c", "a", "b"):
        kept.get(key, lambda key=key: make(key))  # type: ignore[misc]
    assert made == ["a", "b", "c", "b"]


def test_the_way_that_was_chosen_stays_on_the_lamp_when_it_does_not_help() -> None:
    """If this failed, the next question would be about parts the caller did not buy."""
    said = Said(lamp="WH-302", complaint="dim", place="1900 m", elevation=1900.0)
    said = after(said, asked=ALL)
    bought = ["BU-3210", "CH-3371"]
    put_on = " ".join(bought)
    done = after(said, remedy="suit-place", outcome="still wrong", put_on=put_on)
    assert done.events[-1] == {
        "remedy": "suit-place",
        "outcome": "still wrong",
        "bought": bought,
    }
    case = worked(done).case
    assert case is not None
    assert set(bought) <= set(case.case.parts)
    cheapest = worked(after(said, remedy="suit-place", outcome="still wrong")).case
    assert cheapest is not None
    assert "BU-3210" not in cheapest.case.parts


def test_a_way_that_a_newer_book_does_not_have_is_told_and_the_call_goes_on() -> None:
    """If this failed, a call moved to another revision of the book would lose its diagnosis."""
    said = Said(lamp="WH-302", complaint="dim", place="1900 m", elevation=1900.0)
    said = after(
        after(said, asked=ALL), remedy="suit-place", outcome="still wrong", put_on="CH-2296"
    )
    sheet = worked(said)
    assert sheet.case is not None
    (fault,) = sheet.faults
    assert fault.says.startswith("no way of 'suit-place' buys CH-2296: name all that was bought")
    assert fault.cure == "the cheapest way is taken in its place"


# -- what cannot all be had ----------------------------------------------------------------------


def glass_shade() -> Said:
    said = after(Said(words="a glass shade"), choose="wish:add-glass-shade", lamp="WH-302")
    return after(said, place="1900 m")


def test_where_not_all_can_be_had_it_is_asked_what_is_done_without() -> None:
    """If this failed, a call would end with 'it cannot be done' though the next thing can."""
    said = glass_shade()
    asked = worked(said).asked
    assert isinstance(asked, AskGiveUp)
    offers = {tuple(claim_text(claim) for claim in out.give_up): out for out in asked.outs}
    said = after(said, without="ask:shade:1")
    sheet = worked(said)
    assert sheet.asked is None
    assert sheet.parcel is not None
    assert sheet.parcel.route is not None
    bought = offers["ask:shade:1",].buy
    assert sheet.parcel.route.buy == bought
    assert "shade" in {part.kind for part in bought}
    assert "glass" not in {part.material for part in bought if part.kind == "shade"}


def test_what_was_given_up_belongs_to_its_wish() -> None:
    """If this failed, what one wish does without would silently be left out of another."""
    said = after(glass_shade(), without="ask:shade:1")
    other = after(said, choose="wish:renew-chimney")
    assert other.given_up == ()
    assert after(said, choose="wish:add-glass-shade") == said
    remedy = replace(said, wish="renew-chimney")
    bare = replace(remedy, given_up=())
    glass = "add-glass-shade"
    assert question_of("WH-302", glass, remedy, ()) == question_of("WH-302", glass, bare, ())
    whole = replace(said, given_up=())
    assert question_of("WH-302", glass, said, ()) != question_of("WH-302", glass, whole, ())


def test_a_law_of_the_parts_is_never_given_up() -> None:
    """If this failed, a form made by hand could have a lamp sent that tips over."""
    before = glass_shade()
    for law in ("tip::0", "heat::0", "draft::0", "joint:base: font:1", "available:shade:0"):
        found, faults = step_taken(memory(), before, Typed({"without": [law]}), lambda: NO_TOWNS)
        assert found == before
        assert [fault.says for fault in faults] == ["that is not offered to be given up"]
        forced = worked(replace(before, given_up=(law,)))
        assert isinstance(forced.asked, AskGiveUp)


@pytest.mark.parametrize("kept", ["", ":", "ask:shade:-1", "ask:shade:99", "ask:shade:٣", "x:y:0"])
def test_a_claim_that_is_none_changes_nothing(kept: str) -> None:
    """If this failed, a call kept by another version could not be shown any more."""
    before = worked(glass_shade())
    sheet = worked(replace(glass_shade(), given_up=(kept,)))
    assert type(sheet.asked) is type(before.asked)
    assert [one.routes for one in sheet.parcels] == [one.routes for one in before.parcels]

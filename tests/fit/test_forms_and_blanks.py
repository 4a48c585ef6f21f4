"""A new base keeps the form of the lamp; a figure nobody knows meets no wish silently."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from tests.support.demo import demo

from wickwright.answers import which_parts
from wickwright.catalogue.records import Ask, Wish
from wickwright.fit.request import Claim
from wickwright.fit.routes import Impossible, NotKnown, Routes

if TYPE_CHECKING:
    from wickwright.catalogue.records import Lamp

RATED = Ask("only", "chimney", "heat_rating", "at least", "1000", "the chimney stands 1000 W")
THAT_GLASS = Ask("only", "chimney", "part", "is", "CH-3302", "it keeps that glass")


@pytest.mark.parametrize("lamp", ["DU-401", "BX-705"])
def test_an_unrated_chimney_is_not_taken_for_a_rated_one(lamp: str) -> None:
    """Glass that nobody rated would be kept as 'rated for at least 1000 W'."""
    answer = which_parts(demo(), lamp, "strong-glass", have=["CH-3302"])
    assert isinstance(answer, Routes)
    assert "CH-3302" in [part.id for part in answer.routes[0].aside]


@pytest.mark.parametrize("lamp", ["DU-401", "BX-705"])
def test_where_an_unknown_figure_decides_it_is_asked_for(lamp: str) -> None:
    """'It cannot be' would be said of what nobody has measured."""
    wish = Wish("mine", "That glass, if it is rated", (THAT_GLASS, RATED))
    answer = which_parts(demo(), lamp, wish, have=["CH-3302"])
    assert isinstance(answer, NotKnown)
    (found,) = (one for one in answer.routes[0].findings if one.rule == "ask-unknown")
    assert found.parts == ("CH-3302",)
    assert found.facts["column"] == "heat rating"


@pytest.mark.parametrize("lamp", [*demo().book.lamps.values()], ids=lambda lamp: lamp.id)
def test_a_lost_base_is_made_good_by_one_of_the_same_form(lamp: Lamp) -> None:
    """A shelf lamp would come back as a table lamp, and a hanging lamp on a foot."""
    answer = which_parts(demo(), lamp.id, "suit-place", lost=["base"])
    bases = [
        part.id
        for route in (answer.routes if isinstance(answer, Routes) else ())
        for part in route.buy
        if part.kind == "base"
    ]
    assert all(lamp.form in demo().forms[base] for base in bases)
    assert bases or isinstance(answer, Impossible)


def test_the_form_can_be_given_up_when_the_caller_agrees() -> None:
    """A caller whose frame is no longer made would not hear that a foot would do."""
    answer = which_parts(demo(), "TU-603", "suit-place", lost=["base"])
    assert isinstance(answer, Impossible)
    out = next(out for out in answer.ways_out if Claim("form", "hanging") in out.give_up)
    assert [part.id for part in out.buy] == ["BA-6110"]


def test_a_wish_about_the_base_may_change_the_form() -> None:
    """A caller who asks for another base would be refused it; the change would go unsaid."""
    ask = Ask("only", "base", "part", "is", "BA-3110", "it stands on the Dunlin foot")
    answer = which_parts(demo(), "SA-205", Wish("foot", "On a foot", (ask,)), lost=["base"])
    assert isinstance(answer, Routes)
    (found,) = (one for one in answer.routes[0].findings if one.rule == "other-form")
    assert found.facts["makes"] == "makes a table lamp"
    assert found.facts["form"] == "floor"


def test_a_successor_makes_the_form_of_what_it_replaced() -> None:
    """The foot that replaced a shelf foot would be said to be of no form."""
    assert "shelf" in demo().forms["BA-2130"]
    assert "table" not in demo().forms["BA-2130"]

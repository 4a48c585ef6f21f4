"""What goes out on a guess: of the lamp, of the height; and what it has to say then."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from tests.answers.sheet.test_call_sheet import memory
from tests.support.demo import demo

from wickwright.answers import Impossible, Routes, which_parts
from wickwright.answers.post.besides import Besides, not_these
from wickwright.answers.post.edited_letter import is_outlived, letter_mark
from wickwright.answers.post.one_of_these import SURE_OF_MODEL, lamps_meant
from wickwright.answers.post.unsaid_height import (
    air_cautions,
    height_words,
    highest_without_caution,
)
from wickwright.answers.post.want_words import want_words
from wickwright.answers.sheet.call_record import Said
from wickwright.answers.sheet.call_sheet import Known, Parcel, Sheet, sheet_of
from wickwright.answers.sheet.held_back import held_back, overruled, what_is_sent

if TYPE_CHECKING:
    from wickwright.fit.routes import Route

KNOB = {"look": "burner-knob", "value": "large, four holes"}
SEAT = {"look": "gallery-seat", "value": "dropped in and turned under 3 lugs"}
GLASS = Said(wish="renew-chimney", place="40 m", elevation=40.0)


def _parcel(sheet: Sheet) -> tuple[Parcel, Route]:
    parcel = sheet.parcel
    assert parcel is not None
    assert parcel.route is not None
    return parcel, parcel.route


def _sheet(said: Said, **changes: object) -> Sheet:

    return sheet_of(memory(), replace(said, **changes))  # type: ignore[arg-type]


# -- which lamp ----------------------------------------------------------------------------------


def test_each_lamp_that_takes_the_parcel_is_meant_and_no_other() -> None:
    """If this failed, a letter would say 'all of them take this' of one that does not."""
    sheet = _sheet(GLASS, heard=(KNOB, SEAT))
    parcel, route = _parcel(sheet)
    meant = lamps_meant(memory(), sheet, parcel)
    assert sheet.known is Known.SETTLED
    assert not meant.named
    assert len(meant.lamps) == len({lamp.id for lamp in meant.lamps}) == 10
    for way in meant.ways:
        assert [part.id for part in way.route.buy] == [part.id for part in route.buy]
        own = which_parts(demo(), way.now.request.lamp, "renew-chimney", elevation=40.0)
        assert isinstance(own, Routes)
        assert {part.id for part in route.buy} in [
            {part.id for part in one.buy} for one in own.routes
        ]


def test_a_lamp_that_takes_something_else_is_named_as_one() -> None:
    """If this failed, whoever has that lamp would fit parts that are not for it."""
    sheet = _sheet(GLASS, heard=(KNOB,))
    parcel, route = _parcel(sheet)
    meant = lamps_meant(memory(), sheet, parcel)
    assert meant.others
    for lamp in meant.others:
        own = which_parts(demo(), lamp.id, "renew-chimney", elevation=40.0)
        bought = [{part.id for part in one.buy} for one in own.routes]  # type: ignore[union-attr]
        assert {part.id for part in route.buy} not in bought
        assert f"{lamp.name} ({lamp.id})" in not_these(Besides(meant))


def test_a_lamp_that_was_named_is_meant_alone() -> None:
    """If this failed, a caller who read the model off the lamp would be told of nine others."""
    sheet = _sheet(GLASS, lamp="WH-302")
    meant = lamps_meant(memory(), sheet, _parcel(sheet)[0])
    assert (meant.named, [lamp.id for lamp in meant.lamps], meant.others) == (True, ["WH-302"], ())
    assert not_these(Besides(meant)) == ""


def test_a_model_is_named_from_its_chance() -> None:
    """If this failed, a lamp of one chance in five would be drawn as the caller's."""
    sheet = _sheet(GLASS, heard=(KNOB, SEAT))
    assert sheet.which is not None
    _, chance = sheet.which.recognition.lamps[0]
    assert chance < SURE_OF_MODEL


def test_what_is_not_settled_is_held_back_until_it_is_overruled() -> None:
    """If this failed, a parcel for a guess would go out, or never could."""
    sheet = _sheet(GLASS, heard=(KNOB,))
    assert sheet.known is Known.LIKELIEST
    assert held_back(sheet)
    reason = {"overruled": "she has it before her", "overruled_for": what_is_sent(sheet)}
    told = _sheet(GLASS, heard=(KNOB,), **reason)
    assert (held_back(told), overruled(told)) == (False, "she has it before her")
    other = _sheet(GLASS, heard=(KNOB,), overruled="she has it", overruled_for="TY-101: CH-1")
    assert (held_back(other), overruled(other)) == (True, "")
    assert not held_back(_sheet(GLASS, heard=(KNOB, SEAT)))


# -- how high ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("lamp", "wish"), [("WH-302", "renew-chimney"), ("TU-601", "renew-chimney")]
)
def test_below_the_height_nothing_more_is_said_of_the_air_and_above_it_is(
    lamp: str, wish: str
) -> None:
    """If this failed, a glass would be fitted where it smokes, or be refused where it draws."""
    sheet = _sheet(Said(wish=wish, lamp=lamp))
    parcel, route = _parcel(sheet)
    now = parcel.answer.now
    highest = highest_without_caution(memory(), now, route)
    assert highest is not None
    own = air_cautions(demo(), now, route, 0.0)
    assert air_cautions(demo(), now, route, highest) <= own
    assert not air_cautions(demo(), now, route, highest + 10.0) <= own


def test_the_height_that_is_said_is_no_higher_than_the_one_found() -> None:
    """If this failed, rounding would send a glass higher than it draws."""
    said = Said(wish="renew-chimney", lamp="WH-302")
    sheet = sheet_of(memory(), said)
    meant = lamps_meant(memory(), sheet, _parcel(sheet)[0])
    found = highest_without_caution(memory(), meant.ways[0].now, meant.ways[0].route)
    told = re.search(r"Above ([\d,]+) m do not fit this glass", height_words(memory(), said, meant))
    assert told is not None
    assert found is not None
    assert 0.0 <= found - float(told[1].replace(",", "")) < 50.0


def test_the_air_does_not_matter_to_a_bulb() -> None:
    """If this failed, a caller who wants a bulb would be asked how high she lives."""
    said = Said(wish="to-electric", lamp="DU-401")
    sheet = sheet_of(memory(), said)
    assert height_words(memory(), said, lamps_meant(memory(), sheet, _parcel(sheet)[0])) == ""


# -- letters -------------------------------------------------------------------------------------


def test_a_letter_is_outlived_when_the_computed_one_is_another() -> None:
    """If this failed, an old letter would go out with new parts."""
    said = Said(reply="Dear Anna", reply_from=letter_mark("We send CH-3296.\n"))
    assert not is_outlived(said, "We send  CH-3296.")
    assert is_outlived(said, "We send CH-3371.")
    assert is_outlived(Said(reply="Dear Anna"), "We send CH-3296."), "of no known letter"
    assert not is_outlived(Said(), "We send CH-3296.")


@pytest.mark.parametrize(
    ("wish", "says"),
    [
        ("renew-chimney", "a new chimney"),
        ("renew-holder", "a new shade holder"),
        ("add-glass-shade", "a shade of glass"),
        ("remove-shade", "no shade and no shade holder"),
        ("brighter", "this: more light"),
        ("to-electric", "this: run it on a bulb"),
    ],
)
def test_a_wish_is_said_as_people_say_it(wish: str, says: str) -> None:
    """If this failed, a letter would say that the caller wants 'the chimney is a new one'."""
    answer = which_parts(demo(), "DU-401", wish)
    assert isinstance(answer, Routes | Impossible)
    assert want_words(answer.now) == says

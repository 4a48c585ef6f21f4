"""How a lamp burns where it stands."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from tests.support.demo import demo

from wickwright.answers import Burns, FlameNotKnown, OnABulb, UnknownNameError, predict_burn
from wickwright.answers.flames.predict_burn import how_it_burns
from wickwright.answers.flames.standing_air import INDOORS, RoomAir
from wickwright.answers.words.wording import sentence
from wickwright.burn.checks import BurnError, air_at
from wickwright.burn.predicting import predict
from wickwright.fit.assemble import assemble
from wickwright.fit.joints.verdict import Fit
from wickwright.fit.place import Place
from wickwright.terms.finding import Severity
from wickwright.terms.units import Units

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.answers import BurnAnswer
    from wickwright.catalogue.records import Part

UNITS = Units("metric", "SKD")


def _burns(
    lamp: str,
    have: Sequence[str] = (),
    lost: Sequence[str] = (),
    *,
    elevation: float | None = None,
    room: RoomAir = INDOORS,
    setting: str | float = "fullest",
) -> Burns:
    found = predict_burn(
        demo(), lamp, have=have, lost=lost, elevation=elevation, room=room, setting=setting
    )
    assert isinstance(found, Burns)
    return found


def _says(answer: BurnAnswer) -> str:
    (finding,) = answer.findings
    return sentence(finding, UNITS).says


def test_a_lamp_as_sold_burns_as_its_parts_do() -> None:
    """If this failed, the answer would be about another lamp than the one named."""
    found = _burns("DU-401", elevation=1700.0)
    same = predict(demo().sold("DU-401"), air_at(1700.0))
    assert found.prediction["light"] == same["light"]
    assert found.place == Place(1700.0)


def test_have_and_lost_change_the_lamp_that_burns() -> None:
    """If this failed, the part in the caller's hand would not be the one computed with."""
    tall = _burns("DU-401", have=["CH-3371"])
    assert tall.prediction.lamp.chimney.id == "CH-3371"
    dark = _burns("DU-401", lost="mantle")
    assert dark.prediction.lamp.mantle is None
    assert dark.findings[0].rule == "burn-no-mantle"


def test_a_high_place_starves_the_standard_chimney() -> None:
    """If this failed, an adviser would not hear why the lamp is dim.

    Common practice, no published source.
    """
    found = _burns("WH-302", elevation=1700.0)
    starved = next(one for one in found.findings if one.rule == "burn-starved")
    assert starved.severity is Severity.CAUTION
    assert "CH-2296" in starved.parts
    assert all(one.rule != "burn-starved" for one in _burns("WH-302").findings)


def test_the_room_and_the_setting_are_heard() -> None:
    """If this failed, a stuffy room or a low wick would give the light of the full flame."""
    full = _burns("DU-401").prediction["light"].value
    assert _burns("DU-401", room=RoomAir(oxygen=0.19)).prediction["light"].value < full
    assert _burns("DU-401", setting=0.5).prediction["light"].value < full
    with pytest.raises(BurnError, match="'high' is not a setting of the wick"):
        predict_burn(demo(), "DU-401", setting="high")


def test_a_seat_is_judged_at_the_temperatures_of_its_own_flame() -> None:
    """If this failed, a small flame's seat would be judged as a large one's."""
    full, low = _burns("WH-302").seat, _burns("WH-302", setting=0.4).seat
    assert full is not None
    assert low is not None
    assert 293.15 < low.warmth.carrier < full.warmth.carrier < full.warmth.stander
    assert low.warmth.stander < full.warmth.stander
    assert (full.gallery.id, full.chimney.id, full.joined.fit) == ("GA-2410", "CH-2296", Fit.FITS)
    assert full.joined.hot is not None
    assert low.joined.hot is not None
    # brass outgrows heat-rated glass: a hotter seat has more room
    assert full.joined.hot.high > low.joined.hot.high


def test_a_bulb_has_light_and_no_flame() -> None:
    """If this failed, an electric lamp would be told to mind its wick."""
    found = predict_burn(demo(), "BX-701")
    assert isinstance(found, OnABulb)
    assert found.light is not None
    assert _says(found) == (
        "Bulb, clear, 60 W (LB-2760) gives about 710 lm, give or take 85 lm, and needs no chimney "
        "to draw."
    )
    dark = predict_burn(demo(), "BX-701", lost="bulb")
    assert isinstance(dark, OnABulb)
    assert dark.light is None
    assert _says(dark) == (
        "Electric burner, coarse (BU-7110) is electric and no bulb of known watts is in it, so its "
        "light is not known."
    )


def _unmeasured(part: Part) -> Part:
    flame = {name: of for name, of in part.flame.items() if name != "wick_limit"}
    return replace(part, flame=flame)


def _of_no_height(part: Part) -> Part:
    return replace(part, height=None)


UNKNOWN = {
    "burner": (
        _unmeasured,
        ("wick_limit",),
        (
            "Nobody has measured the most fuel its wick gives of Kame burner (BU-3200), so how it "
            "burns is not known."
        ),
    ),
    "chimney": (
        _of_no_height,
        ("height",),
        (
            "The height of Chimney, plain foot, standard (CH-3296) is not in the book, so its "
            "draft is not known."
        ),
    ),
}


@pytest.mark.parametrize("kind", UNKNOWN)
def test_what_nobody_measured_is_named(kind: str) -> None:
    """If this failed, a guess would be passed for a computed flame."""
    change, measure, says = UNKNOWN[kind]
    sold = [it.part for it in demo().sold("DU-401").walk()]
    parts = [change(part) if part.kind == kind else part for part in sold]
    found = how_it_burns(demo(), assemble(parts, demo().joiner), Place())
    assert isinstance(found, FlameNotKnown)
    assert (found.measure, _says(found)) == (measure, says)


MISSING = {
    "burner": "There is no burner on the lamp, so there is no flame to compute.",
    "chimney": "Kame burner (BU-3200) has no chimney on it, so there is no draft to compute a "
    "flame from.",
}


@pytest.mark.parametrize("lost", MISSING)
def test_a_lamp_without_burner_or_chimney_has_no_flame(lost: str) -> None:
    """If this failed, a lamp that cannot burn would end in an error."""
    found = predict_burn(demo(), "DU-401", lost=lost)
    assert isinstance(found, FlameNotKnown)
    assert (found.measure, _says(found)) == ((), MISSING[lost])


def test_an_unknown_name_is_answered_with_what_was_meant() -> None:
    """If this failed, a slip in a number ends without help."""
    with pytest.raises(UnknownNameError) as caught:
        predict_burn(demo(), "DU-4O1", have=["CH-33711"])
    assert str(caught.value) == (
        "there is no lamp 'DU-4O1' in the fit book: did you mean 'DU-401'? 'wickwright book list "
        "lamps' lists them all\n"
        "there is no part 'CH-33711' in the fit book: did you mean 'CH-3371'? 'wickwright book "
        "list parts' lists them all"
    )

"""How the lamp of each route burns, beside the lamp as it was."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from tests.support.demo import demo

from wickwright.answers import (
    Burns,
    FlameNotKnown,
    OnABulb,
    RouteFlame,
    Routes,
    all_findings,
    predict_burn,
    route_flames,
    which_parts,
)
from wickwright.answers.flames.hot_seat import hot_seat
from wickwright.answers.flames.standing_air import RoomAir
from wickwright.answers.words.wording import sentence
from wickwright.burn.checks import BurnError, air_at
from wickwright.burn.predicting import predict
from wickwright.fit.assemble import assemble
from wickwright.fit.audit import audit
from wickwright.fit.compiled import compile_book
from wickwright.fit.joints.verdict import Fit
from wickwright.fit.place import Place
from wickwright.terms.dimension import parse_dimension
from wickwright.terms.finding import Severity
from wickwright.terms.units import Units

if TYPE_CHECKING:
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.routes import Route

UNITS = Units("metric", "SKD")


def _answer(lamp: str, wish: str, at: float = 0.0, compiled: Compiled | None = None) -> Routes:
    answer = which_parts(compiled or demo(), lamp, wish, elevation=at)
    assert isinstance(answer, Routes)
    return answer


def _first(lamp: str, wish: str, at: float = 0.0) -> RouteFlame:
    answer = _answer(lamp, wish, at)
    return route_flames(demo(), answer.now, answer.routes[:1]).after[0]


def _rules(flame: RouteFlame) -> set[str]:
    return {one.rule for one in flame.findings}


def _says(flame: RouteFlame, rule: str) -> str:
    (finding,) = [one for one in flame.findings if one.rule == rule]
    return sentence(finding, UNITS).says


def _with(lamp: str, wish: str, **parts: str) -> tuple[RouteFlame, Route]:
    """Return the first route of a wish with other parts put on its lamp."""
    answer = _answer(lamp, wish)
    route = answer.routes[0]
    kept = [it.part for it in route.assembly.walk() if it.part.kind not in parts]
    other = [demo().book.parts[key] for key in parts.values()]
    changed = replace(route, assembly=assemble([*kept, *other], demo().joiner))
    return route_flames(demo(), answer.now, [changed]).after[0], changed


def test_a_route_burns_as_its_lamp_does_alone() -> None:
    """If this failed, two commands would give two lights for one lamp."""
    flame = _first("DU-401", "tall-chimney", 1200.0)
    alone = predict_burn(demo(), "DU-401", have=["CH-3371"], elevation=1200.0)
    assert isinstance(flame.burns, Burns)
    assert isinstance(alone, Burns)
    for name in ("light", "fuel", "heat"):
        found, wanted = flame.burns.prediction[name], alone.prediction[name]
        assert found.value == pytest.approx(wanted.value, rel=1e-7)
        assert found.spread == pytest.approx(wanted.spread, rel=1e-3)


def test_a_taller_chimney_is_brighter_for_less_than_as_much_more_fuel() -> None:
    """If this failed, a caller could not weigh light against fuel.

    More light for somewhat more fuel: common practice, no published source.
    """
    flame = _first("DU-401", "tall-chimney")
    assert flame.light is not None
    assert flame.fuel is not None
    assert 0.0 < flame.fuel.value < flame.light.value
    assert flame.light.spread < 0.5 * flame.light.value
    assert _says(flame, "flame-gain") == (
        "About 23 % more light than before, give or take 6 %, for 15 % more fuel."
    )


def test_high_up_the_mark_is_too_high() -> None:
    """If this failed, an owner in the hills would set the wick to its mark and get carbon."""
    flame = _first("WH-302", "renew-chimney", 1700.0)
    assert flame.at_mark is not None
    assert flame.at_mark.value < 0.0
    assert _says(flame, "flame-mark-carbon") == (
        "With the wick at its mark (65.0 g/h) Hollin burner, fine (BU-2200) has 119 % of the air "
        "it needs here; carbon begins below at least 130 %."
    )
    low = _first("WH-302", "renew-chimney")
    assert "flame-mark-carbon" not in _rules(low)


def test_a_short_wick_is_told_that_height_adds_nothing() -> None:
    """If this failed, the owner of a small flame would be sold a tall chimney."""
    flame, _ = _with("DU-408", "renew-mantle", chimney="CH-3371")
    assert "burn-taller-unneeded" in _rules(flame)
    assert "burn-starved" not in _rules(flame)


def test_glass_beyond_its_rating_is_a_fault() -> None:
    """If this failed, the look-alike in soda glass would pass where the book was wrong."""
    flame, _ = _with("DU-401", "renew-mantle", chimney="CH-6296")
    faults = {one.rule for one in flame.findings if one.severity is Severity.FAULT}
    assert {"burn-glass-heat", "burn-glass-hot"} <= faults


def test_a_brighter_mantle_costs_no_fuel() -> None:
    """If this failed, a mantle would be said to burn more, or less by nothing."""
    flame, _ = _with("DU-401", "renew-wick", mantle="MA-3310")
    assert _says(flame, "flame-gain-free") == (
        "About 8 % more light than before, give or take 6 %, for the same fuel."
    )


def test_what_the_flame_does_not_see_counts_by_the_book() -> None:
    """If this failed, a finer spreader would add no light."""
    plain, _ = _with("DU-401", "renew-wick", mantle="MA-3310")
    finer, _ = _with("DU-401", "renew-wick", mantle="MA-3310", spreader="SP-3110")
    assert plain.light is not None
    assert finer.light is not None
    assert finer.light.value > plain.light.value


def test_a_plain_seat_is_easier_on_the_glass() -> None:
    """If this failed, nobody could tell a caller why the old seat keeps breaking chimneys.

    That it does is common practice, no published source; the tensions are computed.
    """
    flame = _first("WH-302", "renew-chimney", 1700.0)
    (finding,) = [one for one in flame.findings if one.rule == "flame-seat-easier"]
    before, measured = finding.facts["before"], finding.measured
    assert getattr(before, "value", 0.0) > 10.0 * getattr(measured, "value", 1e9)
    assert "lugs that do not give" in sentence(finding, UNITS).says
    assert "flame-seat-easier" not in _rules(_first("DU-401", "renew-chimney"))


def test_the_seat_is_told_once_and_at_the_temperatures_of_its_flame() -> None:
    """If this failed, a seat would be told twice, or as it is at temperatures it never has."""
    book = demo().book
    gallery = book.parts["GA-2410"]
    seat = next(port for port in gallery.carries if port.joint == "quarter-turn")
    wide = replace(seat, sizes={**seat.sizes, "diameter": parse_dimension("62.5 mm")})
    ports = tuple(wide if port is seat else port for port in gallery.ports)
    loose = compile_book(
        replace(book, parts={**book.parts, gallery.id: replace(gallery, ports=ports)})
    )
    lamp = loose.sold("WH-302")
    route = replace(
        _answer("WH-302", "renew-wick").routes[0],
        assembly=lamp,
        findings=audit(lamp, None, Place(), loose.joiner),
    )
    flame = route_flames(loose, _answer("WH-302", "renew-wick").now, [route]).after[0]
    assert isinstance(flame.burns, Burns)
    assert flame.burns.seat is not None
    told = [one for one in all_findings(route, flame) if one.rule == "joint-quarter-turn"]
    assumed = [one for one in route.findings if one.rule == "joint-quarter-turn"]
    assert told == [flame.burns.seat.finding]
    assert [one.severity for one in assumed] == [Severity.FAULT]
    assert told[0].facts["hot"] != assumed[0].facts["hot"]


def test_no_seat_of_the_demo_is_judged_otherwise_for_its_own_flame() -> None:
    """If this failed, the search would let in a seat that its lamp's own flame makes bind."""
    seen = 0
    for key in ("TY-101", "WH-302", "DU-401", "SO-501"):
        kept = [it.part for it in demo().sold(key).walk() if it.part.kind != "chimney"]
        for chimney in (it for it in demo().book.parts.values() if it.kind == "chimney"):
            built = assemble([*kept, chimney], demo().joiner)
            seat = hot_seat(demo(), built, predict(built, air_at(0.0)))
            pair = next(one for one in built.joints() if one[1].part is chimney)
            assert seat is not None
            assert pair[1].on is not None
            assert pair[1].by is not None
            assumed = demo().joiner.joined(pair[0].part, pair[1].on, chimney, pair[1].by)
            assert seat.joined.fit is assumed.fit
            seen += assumed.fit is Fit.FITS
    assert seen > 10


def test_bulb_and_flame_stand_side_by_side() -> None:
    """If this failed, a caller would change to a bulb without knowing what the flame gave."""
    answer = _answer("WH-301", "to-electric")
    flames = route_flames(demo(), answer.now, answer.routes)
    assert isinstance(flames.before, Burns)
    assert flames.before.findings == ()
    lights = [one.burns.light for one in flames.after if isinstance(one.burns, OnABulb)]
    assert [round(light.value) for light in lights if light] == [428, 710]
    assert [route.light for route in answer.routes] == [14, 65]
    assert all(one.findings == () for one in flames.after)


def _unmeasured_book(*burners: str) -> Compiled:
    book = demo().book
    parts = {key: replace(it, flame={}) if key in burners else it for key, it in book.parts.items()}
    return compile_book(replace(book, parts=parts))


def test_light_goes_by_the_book_where_one_burner_is_not_known() -> None:
    """If this failed, a computed light would be ranked beside a rated one."""
    every = tuple(key for key, it in demo().book.parts.items() if it.kind == "burner")
    partly = _unmeasured_book("BU-3210")
    answer = _answer("WH-302", "brighter", 1700.0, partly)
    assert [part.id for part in answer.routes[0].buy] == ["GA-2450", "CH-3371"]
    by_column = which_parts(_unmeasured_book(*every), "WH-302", "brighter", elevation=1700.0)
    assert isinstance(by_column, Routes)
    assert [one.price for one in answer.routes] == [one.price for one in by_column.routes]
    (flame,) = route_flames(partly, answer.now, answer.routes[:1]).after
    assert isinstance(flame.burns, Burns)


def test_a_lamp_nobody_measured_says_what_to_measure() -> None:
    """If this failed, a route would be shown a light that nobody can know."""
    every = tuple(key for key, it in demo().book.parts.items() if it.kind == "burner")
    dark = _unmeasured_book(*every)
    answer = _answer("WH-302", "brighter", 1700.0, dark)
    (flame,) = route_flames(dark, answer.now, answer.routes[:1]).after
    assert answer.routes[0].light == 12
    assert isinstance(flame.burns, FlameNotKnown)
    assert flame.burns.measure == ("passage_area", "wick_limit")
    assert (flame.light, flame.fuel, flame.at_mark) == (None, None, None)
    assert _rules(flame) == {"flame-unmeasured"}


def test_air_that_cannot_be_is_refused() -> None:
    """If this failed, a room of no oxygen would burn."""
    answer = _answer("DU-401", "renew-chimney")
    with pytest.raises(BurnError) as caught:
        route_flames(demo(), answer.now, answer.routes, RoomAir(oxygen=0.05, humidity=1.5))
    assert str(caught.value) == (
        "the relative humidity (air.humidity) is 150 %; it may be 0 % to 100 %; the oxygen of the "
        "dry air (air.oxygen) is 5 %; it may be 12 % to 20.96 %: check the figures and their units"
    )

from __future__ import annotations

import math
import random
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from tests.support.demo import demo
from tests.support.small_book import PARTS, compiled_small, foot, small_book, wish

from wickwright.catalogue.records import Ask, Footing, Part, Status, Support, Wish
from wickwright.fit.audit import audit
from wickwright.fit.compiled import Compiled, compile_book
from wickwright.fit.oracle import Oracle
from wickwright.fit.place import Place
from wickwright.fit.request import Claim, Request, claims_of, situation
from wickwright.fit.routes import (
    Answer,
    Gave,
    Impossible,
    NotKnown,
    Route,
    Routes,
    routes,
)
from wickwright.fit.search.query import GaveUp
from wickwright.fit.settings import Settings
from wickwright.fit.stance import stance
from wickwright.terms.dimension import parse_dimension
from wickwright.terms.finding import Severity

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wickwright.fit.search.effort import Effort
    from wickwright.fit.search.memory import Memory
    from wickwright.fit.search.query import Query
    from wickwright.terms.dimension import Dimension

BY_ID = {one.id: one for one in PARTS}
NEW_CHIMNEY = wish(Ask("renew", "chimney"))
NEW_BURNER = wish(Ask("renew", "burner"))
A_SHADE = wish(Ask("present", "shade"))
NOTHING = wish()
TO_ELECTRIC = wish(Ask("service", value="electric"), Ask("present", "bulb"))
TO_OIL = wish(Ask("service", value="oil"), Ask("present", "burner"))


def _with(*others: Part) -> Compiled:
    return compile_book(small_book(*others))


def _gone(key: str) -> Part:
    return replace(BY_ID[key], status=Status.GONE, price=None)


def _asked(request: Request, compiled: Compiled | None = None) -> Answer:
    return routes(compiled or compiled_small(), request)


def _routes(request: Request, compiled: Compiled | None = None) -> tuple[Route, ...]:
    answer = _asked(request, compiled)
    assert isinstance(answer, Routes), answer
    return answer.routes


def _ids(parts: Iterable[Part]) -> str:
    return " ".join(part.id for part in parts)


def _bought(request: Request, compiled: Compiled | None = None) -> list[tuple[str, int]]:
    return [(_ids(one.buy), one.price) for one in _routes(request, compiled)]


def _impossible(request: Request, compiled: Compiled | None = None) -> Impossible:
    answer = _asked(request, compiled)
    assert isinstance(answer, Impossible), answer
    return answer


# -- what is bought, kept and put aside -----------------------------------------------------


def test_a_whole_lamp_needs_nothing() -> None:
    """A caller whose lamp is whole would be sold something."""
    first = _routes(Request("shaded", NOTHING))[0]
    assert (first.buy, first.price, first.aside, first.light) == ((), 0, (), 0)
    assert _ids(first.keep) == "B F U W GQ CQ HR SG"


def test_every_unbeaten_route_is_shown() -> None:
    """A caller would not see that fewer dying parts can be had for more money."""
    assert _bought(Request("table", NEW_CHIMNEY)) == [("GP CP", 6300), ("R VK CP", 18400)]


def test_parts_that_come_with_a_kit_are_not_bought_twice() -> None:
    """A caller would pay for the wick and gallery that come with the burner."""
    (only,) = _routes(Request("table", NEW_BURNER))
    assert _ids(only.buy) == "R VK CP"
    assert _ids(only.included) == "W2 GV"
    assert only.price == 1400 + 14600 + 2400


def test_a_kit_is_left_where_its_parts_are_in_hand() -> None:
    """A caller who has wick and gallery of the new burner would be sold the dearer kit."""
    request = Request("table", NEW_BURNER, have=("W2", "GV", "CP"))
    (only,) = _routes(request)
    assert (_ids(only.buy), only.included) == ("R V", ())
    assert _ids(only.keep) == "B F W2 GV CP"


def test_an_own_chimney_stands_on_a_bought_gallery() -> None:
    """A caller would be sold a second chimney because the first needs another gallery."""
    first = _routes(Request("table", NOTHING, have=("CP",)))[0]
    assert (_ids(first.buy), first.price) == ("GP", 3900)
    assert _ids(first.keep) == "B F U W CP"
    assert _ids(first.aside) == "GQ"


def test_an_own_burner_stands_on_a_bought_reducer() -> None:
    """A caller would be sold a second burner because the first needs a reducer."""
    first = _routes(Request("table", NOTHING, have=("V",)))[0]
    assert _ids(first.buy) == "R W2 GV CP"
    assert "V" in {one.id for one in first.keep}


def test_own_shade_on_a_bought_holder() -> None:
    """A caller would be sold a shade who has one and lacks its holder."""
    first = _routes(Request("table", A_SHADE, have=("SG",)))[0]
    assert (_ids(first.buy), first.price) == ("HR", 2700)
    assert "SG" in {one.id for one in first.keep}


def test_own_holder_with_a_bought_shade() -> None:
    """A caller would be sold a second holder of the kind that is on the lamp."""
    found = {_ids(one.buy): one for one in _routes(Request("table", A_SHADE, have=("HR",)))}
    assert found["SG"].price == 7900
    assert "HR" in {one.id for one in found["SG"].keep}
    assert _ids(found["HA SC"].aside) == "HR"


@pytest.mark.parametrize("lost", ["holder", "HR"])
def test_a_lost_part_is_made_good_by_kind_or_number(lost: str) -> None:
    """A lost holder would stay lost, or be counted as still there."""
    first = _routes(Request("shaded", NOTHING, lost=(lost,)))[0]
    assert (_ids(first.buy), first.price) == ("HR", 2700)


def test_the_same_part_can_be_bought_anew() -> None:
    """A new wick of the same number would not be counted as bought, or the old one kept."""
    first = _routes(Request("table", wish(Ask("renew", "wick"))))[0]
    assert (_ids(first.buy), _ids(first.aside)) == ("W", "W")


def test_a_barn_find_is_completed() -> None:
    """A font found in a barn would be taken to have the parts its model was sold with."""
    request = Request("table", wish(Ask("present", "burner")), have=("B", "F"), bare=True)
    (only,) = _routes(request)
    assert _ids(only.buy) == "R VK CP"
    assert _ids(only.keep) == "B F"


def test_nothing_at_all_can_be_completed_where_all_is_sold() -> None:
    """A caller with no part in hand would be told that nothing can be done."""
    base = replace(BY_ID["B"], status=Status.MADE, price=8000)
    (only,) = _routes(Request("table", NOTHING, bare=True), _with(base))
    assert (_ids(only.buy), only.keep) == ("B F R VK CP", ())
    assert only.price == 8000 + 7000 + 18400


def test_to_a_bulb_and_back() -> None:
    """A lamp turned to a bulb could not be turned back, or would keep parts for the bulb."""
    (there,) = _routes(Request("table", TO_ELECTRIC))
    assert (_ids(there.buy), _ids(there.aside)) == ("E L", "U W GQ CQ")
    (back,) = _routes(Request("table", TO_OIL, have=("E", "L")))
    assert (_ids(back.buy), _ids(back.keep)) == ("R VK CP", "B F")


def test_a_bulb_shade_does_not_go_over_a_flame() -> None:
    """A shade rated for bulbs would stay on a lamp turned to oil."""
    for one in _routes(Request("bulb", TO_OIL)):
        assert "SB" in {part.id for part in one.aside}
        assert "shade" in {part.kind for part in one.buy}


def test_more_light_is_told() -> None:
    """A caller who asks for more light would not be told how much more a route gives."""
    first = _routes(Request("table", wish(Ask("brighter", value="10"))))[0]
    assert (_ids(first.buy), first.light) == ("GP CT", 12)


# -- what can be had ------------------------------------------------------------------------


def test_as_many_as_are_left_and_no_more() -> None:
    """Seven lamps would be promised six fonts."""
    lost = Request("table", NOTHING, lost=("font",))
    assert _bought(replace(lost, count=6))[0] == ("F", 7000)
    answer = _impossible(replace(lost, count=7))
    assert Claim("available", "font") in answer.because
    assert _ids(answer.blocked) == "F"


def test_the_last_of_a_part_is_a_caution() -> None:
    """A caller would depend on a part that is running out and not be told."""
    compiled = _with(replace(BY_ID["W"], successor="W2"))
    first = _routes(Request("table", wish(Ask("renew", "wick"))), compiled)[0]
    (found,) = (one for one in first.findings if one.rule == "dying")
    assert found.severity is Severity.CAUTION
    assert found.facts == {"part": "wick W (W)", "stock": 14, "successor": "wick W2 (W2)"}
    plain = _routes(Request("table", wish(Ask("renew", "wick"))))[0]
    (found,) = (one for one in plain.findings if one.rule == "dying")
    assert found.facts["successor"] == "there is none yet"


def test_what_runs_out_counts_as_dying() -> None:
    """A caller would not be shown the dearer part that will still be there next time."""
    lasting = replace(BY_ID["W"], id="W3", price=1700, status=Status.MADE, stock=None)
    request = Request("table", wish(Ask("renew", "wick")))
    assert _bought(request, _with(lasting))[:2] == [("W", 1650), ("W3", 1700)]


def test_an_empty_shelf_sells_nothing() -> None:
    """A part sold while stocks last would be promised after the last is gone."""
    compiled = _with(replace(BY_ID["W"], stock=0))
    for one in _routes(Request("table", wish(Ask("renew", "wick"))), compiled):
        assert "W" not in {part.id for part in one.buy}


def test_a_budget_is_kept_to_the_last_coin() -> None:
    """A route would cost a coin more than there is to spend, or one that costs all be hidden."""
    assert _bought(Request("table", NEW_CHIMNEY, budget=6300)) == [("GP CP", 6300)]
    answer = _impossible(Request("table", NEW_CHIMNEY, budget=6299))
    assert Claim("budget") in answer.because
    assert [
        (out.price, _ids(out.buy)) for out in answer.ways_out if out.give_up == (Claim("budget"),)
    ] == [(6300, "GP CP")]


# -- laws -----------------------------------------------------------------------------------


def test_a_bell_is_rated_for_the_burner_beside_it() -> None:
    """The cheap bell for small flames would be hung over a large one."""
    first = _routes(Request("hanging", NOTHING, lost=("bell",)))[0]
    assert _ids(first.buy) == "BE"
    cool = replace(BY_ID["U"], heat=400.0)
    first = _routes(Request("hanging", NOTHING, lost=("bell",)), _with(cool))[0]
    assert _ids(first.buy) == "BG"


def test_a_new_burner_is_not_too_hot_for_the_bell_that_hangs() -> None:
    """A hotter burner would be sold under a bell that is rated for the old one."""
    hot = replace(BY_ID["VK"], heat=1100.0)
    glass = tuple(replace(BY_ID[key], heat_rating=1500.0) for key in ("CP", "CT"))
    own = replace(BY_ID["BE"], heat_rating=900.0, status=Status.GONE, price=None)
    request = Request("hanging", NEW_BURNER)
    none = _impossible(request, _with(hot, _gone("V"), own, _gone("BG"), *glass))
    assert Claim("heat") in none.because
    strong = replace(BY_ID["BG"], heat_rating=1100.0)
    (only,) = _routes(request, _with(hot, _gone("V"), own, strong, *glass))
    assert _ids(only.buy) == "R VK CP BG"
    assert "BE" in {one.id for one in only.aside}


def test_cheap_glass_is_not_sold_for_a_mantle_flame() -> None:
    """The flat-wick chimney would be sold because it fits and costs least."""
    for one in _routes(Request("table", NEW_CHIMNEY)):
        assert "CX" not in {part.id for part in one.buy}
    cool = replace(BY_ID["U"], heat=400.0)
    assert _bought(Request("table", NEW_CHIMNEY), _with(cool))[0] == ("GP CX", 4700)


def test_part_of_a_watt_too_much_is_too_much() -> None:
    """Glass would be sold for a burner a little hotter than it is rated for."""
    for heat, bought in ((400.0, "GP CX"), (400.1, "GP CP")):
        cool = replace(BY_ID["U"], heat=heat)
        glass = replace(BY_ID["CX"], heat_rating=400.9)
        assert _bought(Request("table", NEW_CHIMNEY), _with(cool, glass))[0][0] == bought


def test_a_high_place_takes_the_tall_chimney() -> None:
    """A lamp would be sold for a place where its flame starves."""
    assert _bought(Request("table", NOTHING, place=Place(900.0)))[0] == ("", 0)
    assert _bought(Request("table", NOTHING, place=Place(1700.0)))[0] == ("GP CT", 7000)
    answer = _impossible(Request("table", NOTHING, place=Place(3000.0)))
    assert Claim("draft") in answer.because


def _crossing(least: float, height: float) -> float:
    """The elevation from which a chimney is too short, by halving [m]."""
    low, high = 0.0, 6000.0
    while high - low > 1e-7:
        middle = (low + high) / 2
        low, high = (
            (middle, high) if Place(middle).chimney_needed(least) < height else (low, middle)
        )
    return low


@pytest.mark.parametrize("least", [0.263, 0.264, 0.2651125, 0.26526])
def test_search_and_audit_draw_the_line_of_draft_together(least: float) -> None:
    """A chimney would be sold that the audit of the same lamp calls too short."""
    burner = replace(BY_ID["U"], least_chimney=least)
    compiled = _with(burner)
    lamp, judges = compiled.book.lamps["table"], set()
    at = _crossing(least, 0.296)
    for step in range(-40, 41):
        place = Place(at + step * 0.05)
        free = isinstance(
            _asked(Request("table", NOTHING, place=place, budget=0), compiled), Routes
        )
        found = audit(compiled.sold("table"), lamp, place, compiled.joiner)
        sound = all(one.severity < Severity.UNKNOWN for one in found)
        assert free is sound, f"{place.elevation} m"
        judges.add(free)
    assert judges == {True, False}


def test_a_heavy_shade_is_not_sold_for_a_small_foot() -> None:
    """A shade that tips the lamp would be sold because it costs less."""
    narrow = replace(BY_ID["B"], support=Support(Footing.ROUND, 0.020))
    cheap = replace(BY_ID["SG"], price=100)
    assert _bought(Request("table", A_SHADE), _with(cheap))[0] == ("HR SG", 2800)
    first = _routes(Request("table", A_SHADE), _with(narrow, cheap))[0]
    assert _ids(first.buy) == "HA SC"


def _odd(rng: random.Random, key: str) -> Part:
    """A part with sizes in sixty-fourths of an inch, so that no height is a round number."""
    it = BY_ID[key]
    ports = tuple(
        replace(port, height=rng.randint(1, 600) / 64 * 0.0254) if port.height else port
        for port in it.ports
    )
    centre = rng.randint(1, 200) / 64 * 0.0254
    return replace(it, mass=rng.randint(50, 1500) / 1000, centre=centre, ports=ports)


@pytest.mark.parametrize("seed", range(25))
def test_no_route_stands_in_the_search_and_tips_in_the_audit(seed: int) -> None:
    """A lamp on the border of tipping would be sold as safe for the sake of rounding."""
    rng = random.Random(seed)
    parts = [_odd(rng, key) for key in ["B", "F", "U", "W", "GQ", "CQ", "HR", "SG"]]
    sold = _with(*parts).sold("shaded")
    centre = max(one.centre for one in stance(sold, Settings()))
    just = centre * math.tan(Settings().limit.angle)
    found = set()
    for share in (0.99, 1 - 1e-4, 1 - 1e-6, 1 + 1e-6, 1 + 1e-4, 1.01):
        support = Support(Footing.ROUND, just * share)
        compiled = _with(*parts[1:], replace(parts[0], support=support))
        answer = _asked(Request("shaded", NOTHING), compiled)
        free = isinstance(answer, Routes) and answer.routes[0].price == 0
        assert free is False or share > 1
        found.add(free)
    assert found == {True, False}


@pytest.mark.parametrize("footing", [Footing.HUNG, Footing.FIXED])
def test_what_hangs_takes_any_shade(footing: Footing) -> None:
    """A hanging lamp would be refused a shade for fear that it tips."""
    base = replace(BY_ID["B"], support=Support(footing))
    heavy = replace(BY_ID["SG"], mass=50.0, price=100)
    assert _bought(Request("table", A_SHADE), _with(base, heavy))[0] == ("HR SG", 2800)


def test_two_feet_at_two_heights_are_weighed_at_the_worse() -> None:
    """A shade that can stand by either of two feet would be weighed at the lower place."""
    feet = (foot(75), replace(foot(75, height=200), name="lower"))
    shade = replace(BY_ID["SC"], ports=feet, mass=5.0, centre=0.2)
    narrow = replace(BY_ID["B"], support=Support(Footing.ROUND, 0.045))
    answer = _impossible(Request("table", A_SHADE), _with(narrow, shade, _gone("SG")))
    assert Claim("tip") in answer.because


# -- not known ------------------------------------------------------------------------------


def _unmeasured() -> Compiled:
    chimney = replace(BY_ID["CP"], id="CU", ports=(foot(None, "plain-foot"),))
    return _with(chimney, _gone("CP"), _gone("CT"))


def test_an_unmeasured_foot_is_not_known_and_named() -> None:
    """A chimney nobody measured would be sold as fitting, or the desk not told what to measure."""
    answer = _asked(Request("table", NEW_CHIMNEY), _unmeasured())
    assert isinstance(answer, NotKnown)
    assert [_ids(one.buy) for one in answer.routes] == ["GP CU", "R VK CU"]
    (joint,) = (one for one in answer.routes[0].findings if one.severity is Severity.UNKNOWN)
    assert (joint.rule, joint.parts) == ("joint-plain-foot", ("GP", "CU"))
    assert joint.facts["missing"] == ("stander diameter",)


def test_a_sure_route_hides_the_unsure_ones() -> None:
    """A caller would be offered a gamble beside a sure thing."""
    chimney = replace(BY_ID["CP"], id="CU", price=1, ports=(foot(None, "plain-foot"),))
    for one in _routes(Request("table", NEW_CHIMNEY), _with(chimney)):
        assert "CU" not in {part.id for part in one.buy}


def test_a_chimney_of_unknown_height_or_rating_is_not_known() -> None:
    """A chimney of unknown height or heat rating would be sold for a burner that needs both."""
    for field in ("height", "heat_rating"):
        it = BY_ID["CP"]
        vague = replace(it, height=None) if field == "height" else replace(it, heat_rating=None)
        answer = _asked(Request("table", NEW_CHIMNEY), _with(vague, _gone("CT"), _gone("CX")))
        assert isinstance(answer, NotKnown)
        rules = {one.rule for one in answer.routes[0].findings if one.severity is Severity.UNKNOWN}
        assert rules == {"draft-unknown" if field == "height" else "heat-unknown"}


def test_an_unweighed_part_is_not_sold_as_safe() -> None:
    """A shade that nobody weighed would be sold for a lamp it may tip."""
    answer = _asked(Request("table", A_SHADE), _with(replace(BY_ID["SC"], mass=None), _gone("SG")))
    assert isinstance(answer, NotKnown)
    (found,) = (one for one in answer.routes[0].findings if one.severity is Severity.UNKNOWN)
    assert (found.rule, found.parts) == ("unweighed", ("SC",))


def test_an_unweighed_part_of_ones_own_is_told() -> None:
    """A caller would be told that all is known of a lamp with a shade that nobody weighed."""
    compiled = _with(replace(BY_ID["SG"], mass=None))
    answer = routes(compiled, Request("shaded", wish(Ask("renew", "wick"))))
    assert isinstance(answer, NotKnown)
    unknown = [one for one in answer.routes[0].findings if one.severity is Severity.UNKNOWN]
    assert [(one.rule, one.parts) for one in unknown] == [("unweighed", ("SG",))]


def test_an_unweighed_part_that_is_put_aside_does_not_matter() -> None:
    """A caller would be told that nothing is known because of a shade that is being replaced."""
    compiled = _with(replace(BY_ID["SG"], mass=None, status=Status.GONE, price=None))
    first = _routes(Request("shaded", wish(Ask("renew", "shade"))), compiled)[0]
    assert _ids(first.buy) == "HA SC"
    assert "SG" in {one.id for one in first.aside}


def test_an_unweighed_part_in_hand_excuses_no_lamp_that_tips() -> None:
    """A heavy shade would be sold for a small foot because an unused holder was never weighed."""
    narrow = replace(BY_ID["B"], support=Support(Footing.ROUND, 0.020))
    glass = wish(Ask("present", "shade"), Ask("only", "shade", "material", "is", "glass"))
    compiled = _with(narrow, replace(BY_ID["HA"], mass=None))
    answer = _impossible(Request("table", glass, have=("HA",)), compiled)
    assert Claim("tip") in answer.because


def test_a_base_that_was_never_weighed_leaves_it_open() -> None:
    """A lamp would be said to tip because its heaviest part counts as nothing."""
    answer = _asked(
        Request("table", wish(Ask("renew", "wick"))), _with(replace(BY_ID["B"], mass=None))
    )
    assert isinstance(answer, NotKnown)
    assert _ids(answer.routes[0].buy) == "W"


@pytest.mark.parametrize("block", range(4))
def test_whatever_is_unweighed_no_answer_claims_too_much(block: int) -> None:
    """A lamp would be called safe that was never weighed, or be sold although it tips."""
    seen = dict.fromkeys((Routes, NotKnown, Impossible), 0)
    for seed in range(block * 30, block * 30 + 30):
        rng = random.Random(seed)
        vague = [replace(BY_ID[key], mass=None) for key in rng.sample(sorted(BY_ID), 4)]
        support = Support(Footing.ROUND, rng.choice((0.018, 0.025, 0.070)))
        base = replace(BY_ID["B"], support=support)
        compiled = _with(*vague, base if rng.random() < 0.8 else replace(base, mass=None))
        wanted = rng.choice((NEW_CHIMNEY, A_SHADE, NOTHING, wish(Ask("renew", "shade"))))
        have = tuple(rng.sample(["HA", "HR", "SG", "GP", "CP", "SC"], rng.choice((0, 1, 2))))
        answer = _asked(Request("table", wanted, have=have), compiled)
        assert not isinstance(answer, Gave)
        seen[type(answer)] += 1
        if isinstance(answer, Impossible):
            assert answer.because
            continue
        worst = [max(one.severity for one in route.findings) for route in answer.routes]
        assert max(worst) < Severity.FAULT, f"seed {seed}"
        assert (max(worst) is Severity.UNKNOWN) is isinstance(answer, NotKnown), f"seed {seed}"
    assert seen[Routes]
    assert seen[NotKnown]


def test_a_hanging_lamp_need_not_be_weighed() -> None:
    """A bell nobody weighed would be called not known for a lamp that cannot tip."""
    compiled = _with(replace(BY_ID["BE"], mass=None))
    assert _bought(Request("hanging", NOTHING, lost=("bell",)), compiled)[0] == ("BE", 2800)


def _half_measured(known: str) -> Part:
    """The gallery the lamp was sold with, its foot not measured but for what is known."""
    foot_, skirt = BY_ID["GQ"].ports
    sizes: dict[str, Dimension] = {known: parse_dimension("2.54 mm")} if known else {}
    return replace(BY_ID["GQ"], ports=(replace(foot_, sizes=sizes), skirt))


@pytest.mark.parametrize("known", ["", "pitch"])
def test_what_left_the_works_together_fits(known: str) -> None:
    """A lamp would not be known to fit together that was sold so, for want of a measurement."""
    first = _routes(Request("table", NOTHING), _with(_half_measured(known)))[0]
    assert (first.buy, first.price) == ((), 0)
    assert [one.rule for one in first.findings] == ["stands"]


@pytest.mark.parametrize("known", ["", "pitch"])
def test_what_left_the_works_with_another_is_not_known(known: str) -> None:
    """A gallery nobody measured would be sold as fitting because another like it was sold so."""
    gallery = _half_measured(known)
    compiled = _with(gallery, replace(gallery, id="G2"))
    answer = _asked(Request("table", NOTHING, have=("G2",), budget=0), compiled)
    assert isinstance(answer, NotKnown)
    (found,) = (one for one in answer.routes[0].findings if one.severity is Severity.UNKNOWN)
    assert (found.rule, found.parts) == ("joint-rest", ("U", "G2"))


# -- impossible, and gave up ----------------------------------------------------------------

HARD = (
    (Request("table", NEW_CHIMNEY, budget=6000), ()),
    (Request("table", NOTHING, lost=("font",), count=7), ()),
    (Request("table", NOTHING, place=Place(3000.0)), ()),
    (Request("hanging", wish(Ask("absent", "bell"), Ask("present", "bell"))), ()),
    (Request("bulb", wish(Ask("brighter", value="500"))), ()),
    (Request("table", wish(Ask("renew", "base"))), ()),
    (Request("shaded", TO_OIL, have=("E", "L"), budget=100), ()),
    (Request("table", A_SHADE), (_gone("SC"), _gone("SG"))),
)


@pytest.mark.parametrize(("request_", "others"), HARD)
def test_each_reason_is_needed_and_they_suffice(
    request_: Request, others: tuple[Part, ...]
) -> None:
    """A caller would be given a reason that is none, or not the whole reason."""
    compiled = _with(*others)
    answer = _impossible(request_, compiled)
    holds = Oracle(compiled, answer.now)
    assert answer.because
    assert not holds(answer.because)
    for one in answer.because:
        assert holds([other for other in answer.because if other != one])


@pytest.mark.parametrize(("request_", "others"), HARD)
def test_each_way_out_is_one_and_gives_up_no_more_than_it_must(
    request_: Request, others: tuple[Part, ...]
) -> None:
    """A caller would give something up in vain, or more than is needed."""
    compiled = _with(*others)
    answer = _impossible(request_, compiled)
    holds = Oracle(compiled, answer.now)
    claims = claims_of(compiled, answer.now)
    assert answer.ways_out
    for out in answer.ways_out:
        assert set(out.give_up) & set(answer.because)
        assert holds([one for one in claims if one not in out.give_up])
        for spared in out.give_up:
            rest = [one for one in claims if one not in out.give_up or one == spared]
            assert not holds(rest)
    prices = [out.price for out in answer.ways_out if out.price is not None]
    assert prices == sorted(prices)


def test_what_would_do_it_is_named() -> None:
    """A caller would not be told which part is sold out."""
    answer = _impossible(Request("table", A_SHADE), _with(_gone("SC"), _gone("SG")))
    assert set(answer.because) == {
        Claim("available", "shade"),
        Claim("heat"),
        Claim("service", "oil"),
        Claim("ask", "shade"),
    }
    assert _ids(answer.blocked) == "SC"


def test_a_possible_wish_has_no_reason_against_it() -> None:
    """The oracle would call impossible what the search finds a route for."""
    compiled = compiled_small()
    for request in (Request("table", NEW_CHIMNEY), Request("bulb", TO_OIL)):
        now = situation(compiled, request)
        assert Oracle(compiled, now)(claims_of(compiled, now))


def test_giving_up_is_not_impossible() -> None:
    """A search that stopped early would be reported as proof that nothing can be done."""
    narrow = replace(BY_ID["B"], support=Support(Footing.ROUND, 0.020))
    book = small_book(narrow, replace(BY_ID["SG"], price=100))
    request = Request("table", A_SHADE)
    answer = routes(compile_book(book, Settings(effort=1)), request)
    assert isinstance(answer, Gave)
    assert answer.looked_at <= 1
    assert isinstance(routes(compile_book(book), request), Routes)


def _tired(_: Memory, query: Query, __: Effort) -> GaveUp:
    return GaveUp(query.effort)


def test_a_reason_not_searched_to_the_end_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    """A reason that names too much would be told as the whole truth."""
    request = Request("table", NEW_CHIMNEY, budget=6299)
    assert _impossible(request).complete
    monkeypatch.setattr("wickwright.fit.light.possible", _tired)
    tired = _impossible(request)
    assert not tired.complete
    assert Claim("budget") in tired.because


def test_what_must_be_found_elsewhere_has_no_price() -> None:
    """A part that nobody sells would be offered for nothing."""
    answer = _impossible(Request("table", A_SHADE), _with(_gone("SC"), _gone("SG")))
    found = {out.give_up: out for out in answer.ways_out}
    out = found[Claim("available", "shade"),]
    assert (_ids(out.elsewhere), out.price) == ("SC", None)
    assert answer.ways_out[-1] == out
    assert all(one.price is not None for one in answer.ways_out if not one.elsewhere)


# -- wishes are data ------------------------------------------------------------------------


def test_a_wish_nobody_thought_of_needs_no_code() -> None:
    """A wish that a support lead writes into the book would need a programmer."""
    nothing_old = Wish(
        "no-old-glass",
        "No glass from before 1990, and a chimney of at most 320 mm",
        (
            Ask("present", "chimney"),
            Ask("only", "chimney", "from", "at least", "1990"),
            Ask("only", "chimney", "height", "at most", "320 mm"),
            Ask("never", "chimney", "part", "in", "CH-3296, CH-3305"),
        ),
    )
    compiled = compile_book(demo().book)
    first = _routes(Request("SA-201", nothing_old), compiled)[0]
    assert _ids(first.buy) == "GA-2450 CH-3297"


def test_the_same_seat_and_another_seat() -> None:
    """'The foot it was sold with' would be another foot than that of the lamp."""
    same = Ask("only", "chimney", "joint", "is", "@joint")
    other = replace(same, ask="never")
    answer = _impossible(Request("table", wish(Ask("renew", "chimney"), same)))
    assert Claim("available", "chimney") in answer.because
    assert _ids(answer.blocked) == "CQ"
    first = _routes(Request("table", wish(Ask("renew", "chimney"), other)))[0]
    assert _ids(first.buy) == "GP CP"

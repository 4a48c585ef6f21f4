from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

import pytest
from tests.support.demo import demo
from tests.support.small_book import PARTS, cap, foot, lamp, seat

from wickwright.catalogue.records import Footing, Need, Part, Support
from wickwright.fit.assemble import assemble
from wickwright.fit.audit import audit, called, fill_word
from wickwright.fit.joiner import Joiner
from wickwright.fit.place import Place
from wickwright.fit.settings import Settings
from wickwright.terms.finding import Finding, Kind, Quantity, Range, Severity

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wickwright.catalogue.records import Lamp

BY_ID = {one.id: one for one in PARTS}
JOINER = Joiner(Settings())
SOUND = "B F U W GQ CQ"


def _audit(
    keys: str,
    *others: Part,
    at: float = 0.0,
    model: Lamp | None = None,
    settings: Settings | None = None,
) -> tuple[Finding, ...]:
    """Audit parts of the small book; others take the place of those of their number."""
    parts = {key: BY_ID[key] for key in keys.split()} | {one.id: one for one in others}
    joiner = Joiner(settings) if settings else JOINER
    return audit(assemble(list(parts.values()), joiner), model, Place(at), joiner)


def _said(found: Iterable[Finding]) -> list[tuple[str, Severity, tuple[str, ...]]]:
    return [(one.rule, one.severity, one.parts) for one in found]


STANDS = ("stands", Severity.GOOD, ("B",))


def test_a_sound_lamp_has_only_good_to_be_said() -> None:
    """A lamp with nothing wrong would be found fault with, or its stance not told."""
    assert _said(_audit(SOUND)) == [STANDS]


@pytest.mark.parametrize("key", sorted(demo().book.lamps))
def test_lamps_of_the_demo_left_the_works_sound(key: str) -> None:
    """A lamp the maker sold would be called dangerous or incomplete as sold."""
    compiled = demo()
    found = audit(compiled.sold(key), demo().book.lamps[key], Place(), compiled.joiner)
    assert [one for one in found if one.severity >= Severity.UNKNOWN] == []


def test_every_required_port_that_is_empty_is_told() -> None:
    """A burner without its wick would pass as complete."""
    found = _audit("B F U")
    assert _said(found)[:2] == [("incomplete", Severity.FAULT, ("U",))] * 2
    assert [one.facts for one in found[:2]] == [
        {"carrier": "burner U (U)", "kinds": "wick"},
        {"carrier": "burner U (U)", "kinds": "gallery"},
    ]


def test_an_empty_collar_names_all_it_takes() -> None:
    """A caller would be told to buy a burner where a reducer would do."""
    (first, *_) = _audit("B F")
    assert first.facts == {"carrier": "font F (F)", "kinds": "burner or reducer"}


def test_optional_and_care_ports_may_be_empty() -> None:
    """A lamp would be incomplete for want of a wick cleaner."""
    burner = replace(BY_ID["U"], ports=(*BY_ID["U"].ports, seat("tool", 30, need=Need.CARE)))
    assert _said(_audit(SOUND, burner)) == [STANDS]


def test_what_the_form_needs_is_missed() -> None:
    """A hanging lamp without its bell would pass as complete."""
    model = lamp("L", "", needs="bell wick")
    found = _audit("BH F U W GQ CQ", model=model)
    assert _said(found) == [("needs", Severity.FAULT, ())]
    assert found[0].facts == {"lamp": "lamp L", "kinds": "bell"}


def test_a_misfit_is_told_with_both_parts() -> None:
    """A chimney for another seat would pass, or nobody could say which two parts disagree."""
    found = _audit("B F U W GQ CP")
    assert _said(found)[0] == ("joint-quarter-turn", Severity.FAULT, ("GQ", "CP"))


def test_a_joint_nobody_measured_is_not_known() -> None:
    """A foot of unknown size would pass as fitting, or as not fitting."""
    chimney = replace(BY_ID["CP"], ports=(foot(None, "plain-foot"),))
    found = _audit("B F U W GP", chimney)
    assert _said(found)[0] == ("joint-plain-foot", Severity.UNKNOWN, ("GP", "CP"))
    assert found[0].facts["missing"] == ("stander diameter",)


def test_a_part_without_a_place_is_told_what_carries_it() -> None:
    """A shade without its holder would be sent as if it could be used."""
    found = _audit(f"{SOUND} SG")
    assert _said(found)[0] == ("no-place", Severity.FAULT, ("SG",))
    assert found[0].facts == {
        "part": "shade SG (SG)",
        "kinds": "shade",
        "carriers": "a shade holder",
    }


def test_a_second_part_of_a_kind_is_told() -> None:
    """Two chimneys for one lamp would pass."""
    found = _audit(f"{SOUND} CP")
    assert _said(found)[0] == ("twice", Severity.FAULT, ("CP", "CQ"))
    assert found[0].facts["other"] == "chimney CQ (CQ)"


def test_glass_not_rated_for_the_heat_is_a_danger() -> None:
    """A flat-wick chimney over a mantle flame would pass."""
    found = _audit("B F U W GP CX")
    assert _said(found)[0] == ("heat", Severity.DANGER, ("CX", "U"))
    assert found[0].measured == Quantity(820, Kind.POWER)
    assert found[0].permitted == Range(None, 400, Kind.POWER)


@pytest.mark.parametrize(
    ("rating", "said"), [(820.0, []), (819.9, ["heat"]), (None, ["heat-unknown"])]
)
def test_the_rating_must_reach_the_heat(rating: float | None, said: list[str]) -> None:
    """Glass rated for exactly the heat would be refused, or glass a watt short let through."""
    chimney = replace(BY_ID["CQ"], heat_rating=rating)
    found = _audit("B F U W GQ", chimney)
    assert [one.rule for one in found if one.rule != "stands"] == said


@pytest.mark.parametrize(("heat", "said"), [(820.0, []), (820.1, ["heat"])])
def test_part_of_a_watt_counts_as_a_watt(heat: float, said: list[str]) -> None:
    """A burner a little hotter than the glass is rated for would pass for rounding."""
    burner = replace(BY_ID["U"], heat=heat)
    found = _audit("B F W GQ", burner, replace(BY_ID["CQ"], heat_rating=820.9))
    assert [one.rule for one in found if one.rule != "stands"] == said


def test_a_shade_of_unknown_rating_is_not_known() -> None:
    """A shade whose rating nobody states would pass over a flame."""
    found = _audit(f"{SOUND} HA", replace(BY_ID["SC"], heat_rating=None))
    assert _said(found)[0] == ("heat-unknown", Severity.UNKNOWN, ("SC", "U"))


def test_bare_metal_needs_no_rating() -> None:
    """A metal shade would be refused for want of a rating that metal does not need."""
    shade = replace(BY_ID["SC"], heat_rating=None, material="brass")
    assert _said(_audit(f"{SOUND} HA", shade)) == [("stands", Severity.GOOD, ("B", "SC"))]


def test_a_bulb_shade_stands_over_a_bulb() -> None:
    """A shade for bulbs would be refused on an electric lamp, or let onto a flame."""
    assert _said(_audit("B F E L HR SB")) == [("stands", Severity.GOOD, ("B", "SB"))]
    found = _audit(f"{SOUND} HR SB")
    assert _said(found)[0] == ("heat", Severity.DANGER, ("SB", "U"))


def test_a_shade_is_held_to_the_most_the_lampholder_allows() -> None:
    """A shade would be judged by today's bulb, and scorch under the strongest allowed."""
    weak = replace(BY_ID["L"], ports=(cap(25),), heat=25)
    shade = replace(BY_ID["SB"], heat_rating=40)
    found = _audit("B F E HR", weak, shade)
    assert _said(found)[0] == ("heat", Severity.DANGER, ("SB", "E"))
    assert found[0].measured == Quantity(60, Kind.POWER)


@pytest.mark.parametrize(
    ("bell", "said"),
    [
        ({"heat_rating": 820.0}, []),
        ({"heat_rating": 400.0}, ["heat"]),
        ({"heat_rating": None, "material": "glass"}, ["heat-unknown"]),
        ({"heat_rating": None, "material": "brass"}, []),
    ],
)
def test_a_bell_hangs_in_the_heat_too(bell: dict[str, float | str | None], said: list[str]) -> None:
    """A flat-wick bell over a mantle lamp would pass, because it hangs beside the burner."""
    rating, material = bell["heat_rating"], bell.get("material", "brass")
    assert not isinstance(rating, str)
    it = replace(BY_ID["BE"], heat_rating=rating, material=str(material))
    assert [one.rule for one in _audit("BH F U W GQ CQ", it)] == said


def test_a_short_chimney_high_up_is_a_fault() -> None:
    """A lamp would be called right for a place where its flame starves."""
    found = _audit(SOUND, at=1700.0)
    assert _said(found)[0] == ("draft", Severity.FAULT, ("CQ", "U"))
    assert found[0].facts["elevation"] == Quantity(1700.0, Kind.ELEVATION)
    assert found[0].permitted == Range(Place(1700.0).chimney_needed(0.264), None, Kind.LENGTH)


@pytest.mark.parametrize("at", [0.0, 1000.0, 1700.0, 3000.0])
def test_the_border_of_draft_lies_within_a_tenth_of_a_millimetre(at: float) -> None:
    """A chimney long enough at an elevation would be refused, or one too short let through."""
    needed = math.ceil(Place(at).chimney_needed(0.264) * 1e4 - 1e-6)
    enough = replace(BY_ID["CQ"], height=needed * 1e-4)
    short = replace(BY_ID["CQ"], height=(needed - 1) * 1e-4)
    assert [one.rule for one in _audit("B F U W GQ", enough, at=at)] == ["stands"]
    assert [one.rule for one in _audit("B F U W GQ", short, at=at)] == ["draft", "stands"]


def test_below_the_sea_no_shorter_chimney_will_do() -> None:
    """A lamp on a shore below sea level would be sold a chimney its burner is not made for."""
    needed = replace(BY_ID["CQ"], height=0.2639)
    assert [one.rule for one in _audit("B F U W GQ", needed, at=-400.0)] == ["draft", "stands"]


def test_a_chimney_of_unknown_height_is_not_known() -> None:
    """A chimney nobody measured would pass at any elevation."""
    found = _audit("B F U W GQ", replace(BY_ID["CQ"], height=None))
    assert _said(found)[0] == ("draft-unknown", Severity.UNKNOWN, ("CQ", "U"))


def test_a_burner_without_a_least_chimney_takes_any() -> None:
    """An electric burner would be told that its chimney is too short for the draft."""
    chimney = replace(BY_ID["CP"], height=0.05)
    assert [one.rule for one in _audit("B F E L", chimney, at=3000.0)] == ["stands"]


def test_a_lamp_that_tips_is_a_danger() -> None:
    """A heavy shade on a small foot would pass."""
    narrow = replace(BY_ID["B"], support=Support(Footing.ROUND, 0.020))
    found = _audit("F U W GQ CQ HR SG", narrow)
    assert _said(found)[0] == ("tips", Severity.DANGER, ("B", "SG"))
    assert found[0].permitted == Range(math.radians(8), None, Kind.ANGLE)
    assert found[0].source == "ul153"


def test_the_worst_filling_is_told() -> None:
    """A lamp would be called steady with its font full that tips when it is half full."""
    fuel = BY_ID["F"].fuel
    assert fuel
    font = replace(BY_ID["F"], fuel=replace(fuel, volume=3 * fuel.volume))
    (found,) = _audit(SOUND, font)
    assert found.facts == {"fill": "half full"}


def test_another_limit_can_be_chosen() -> None:
    """A support lead's stricter limit would change nothing, or be told with another source."""
    strict = Settings(tip="iec60598-2-10")
    base = replace(BY_ID["B"], support=Support(Footing.ROUND, 0.040))
    mild = _audit(f"{SOUND} HR SG", base)
    hard = _audit(f"{SOUND} HR SG", base, settings=strict)
    assert [(one.rule, one.source) for one in mild] == [("stands", "ul153")]
    assert [(one.rule, one.source) for one in hard] == [("tips", "iec60598-2-10")]


@pytest.mark.parametrize("footing", [Footing.HUNG, Footing.FIXED])
def test_hung_and_fixed_lamps_are_not_asked_to_stand(footing: Footing) -> None:
    """A hanging lamp would be told that it tips, or to be weighed for it."""
    base = replace(BY_ID["B"], support=Support(footing), mass=None)
    assert _audit("F U W GQ CQ", base) == ()


def test_unweighed_parts_are_named() -> None:
    """A lamp would be called steady although its shade was never weighed."""
    shade = replace(BY_ID["SC"], mass=None)
    found = _audit(f"{SOUND} HA", shade)
    assert _said(found) == [("unweighed", Severity.UNKNOWN, ("SC",))]
    assert found[0].facts == {"part": "SC"}


def test_an_electric_lamp_is_weighed_dry() -> None:
    """An electric lamp would be judged with oil in its font."""
    (found,) = _audit("B F E L")
    assert found.facts == {"fill": "empty"}


def test_oil_and_electric_do_not_mix() -> None:
    """A bulb beside a flame, or a wick under a bulb, would pass."""
    found = _audit("B F E L W")
    assert _said(found)[0] == ("oil-and-electric", Severity.DANGER, ("W", "E"))
    assert found[0].facts == {"part": "wick W (W)", "service": "oil", "other": "burner E (E)"}
    assert ("oil-and-electric", Severity.DANGER, ("L", "U")) in _said(_audit(f"{SOUND} L"))


def test_without_a_burner_nothing_mixes() -> None:
    """Parts of both services in one box would be a danger though no lamp holds them."""
    assert "oil-and-electric" not in {one.rule for one in _audit("B F W L")}


def test_the_gravest_comes_first() -> None:
    """An adviser would read out a note before the danger."""
    severities = [one.severity for one in _audit("B F U GP CX SG", at=3000.0)]
    assert all(one >= other for one, other in pairwise(severities))
    assert severities[0] is Severity.DANGER


def test_words_for_fillings() -> None:
    """A finding would print a number where the adviser reads a word."""
    words = [fill_word(fill) for fill in (0.0, 0.5, 1.0, 0.25)]
    assert words == ["empty", "half full", "full", "25 % full"]


def test_parts_are_called_by_name_and_number() -> None:
    """An adviser would read out a number that says nothing, or a name that many parts share."""
    assert called(BY_ID["CQ"]) == "chimney CQ (CQ)"

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from tests.support.small_book import PARTS, compiled_small, foot, part, seat

from wickwright.catalogue.assembly import Assembly
from wickwright.catalogue.records import Footing, Fuel, Support
from wickwright.fit.assemble import assemble
from wickwright.fit.joiner import Joiner
from wickwright.fit.settings import Settings
from wickwright.fit.stance import base_reach, fuel_load, placed, stance, unweighed

JOINER = Joiner(Settings())
BY_ID = {one.id: one for one in PARTS}
CYLINDER = Fuel(volume=math.pi * 0.05**2 * 0.08, floor=0.012, depth=0.08)
"""A straight font of 50 mm radius, filled to 80 mm."""


@pytest.mark.parametrize("footing", [Footing.HUNG, Footing.FIXED])
def test_what_hangs_has_no_edge(footing: Footing) -> None:
    """A hanging or wall lamp would be told to tip."""
    assert base_reach(Support(footing)) == math.inf


def test_empty_font_weighs_nothing_on_its_floor() -> None:
    """Fuel that is not there would weigh on the balance."""
    assert fuel_load(CYLINDER, 0.0, 807.0) == (0.0, 0.012)


def test_full_font_acts_at_half_its_depth() -> None:
    """A full font would be given a free surface, or fuel at another height."""
    mass, height = fuel_load(CYLINDER, 1.0, 807.0)
    assert mass == pytest.approx(807.0 * CYLINDER.volume)
    assert height == pytest.approx(0.012 + 0.040)


def test_half_full_font_is_raised_by_its_free_surface() -> None:
    """Fuel running to the low side would be left out: r2 / 4h, 15.6 mm here, in closed form."""
    mass, height = fuel_load(CYLINDER, 0.5, 807.0)
    assert mass == pytest.approx(807.0 * CYLINDER.volume / 2)
    assert height == pytest.approx(0.012 + 0.020 + 0.05**2 / (4 * 0.040))


def test_feet_stand_in_the_joints_below() -> None:
    """A part would stand at another height than its joint puts it."""
    shade = replace(part("S", "shade", foot(75, height=110)), height=0.190)
    parts = [BY_ID[key] for key in ("B", "F", "U", "HA")]
    heights = {
        it.part.id: (round(it.foot * 1000), round(it.top * 1000))
        for it in placed(assemble([*parts, shade], JOINER))
    }
    assert heights == {
        "B": (0, 0),
        "F": (90, 90),
        "U": (210, 210),
        "HA": (240, 240),
        "S": (190, 380),
    }


def test_nothing_is_placed_without_a_base() -> None:
    """Loose parts would be weighed as if they stood."""
    empty = Assembly(None, (BY_ID["F"],))
    assert placed(empty) == ()
    assert stance(empty, Settings()) == ()


def test_each_filling_is_weighed() -> None:
    """A lamp would be judged with one filling of its font only."""
    found = stance(assemble([BY_ID["B"], BY_ID["F"]], JOINER), Settings())
    assert [one.fill for one in found] == [0.0, 0.5, 1.0]
    fuel = 900e-6 * 807.0
    assert [one.mass for one in found] == pytest.approx([2.1, 2.1 + fuel / 2, 2.1 + fuel])


def test_centre_and_slope_of_a_lamp() -> None:
    """Centre of mass or tipping slope of an empty lamp would not be those worked out by hand."""
    empty = stance(assemble([BY_ID["B"], BY_ID["F"]], JOINER), Settings())[0]
    centre = (1.5 * 0.030 + 0.6 * (0.090 + 0.060)) / 2.1
    assert empty.centre == pytest.approx(centre)
    assert empty.reach == pytest.approx(0.070)
    assert empty.angle == pytest.approx(math.atan(0.070 / centre))


def test_half_full_can_be_worst() -> None:
    """A lamp would be tested empty and full only, though it tips soonest half full."""
    wide = Fuel(volume=math.pi * 0.12**2 * 0.04, floor=0.01, depth=0.04)
    font = replace(BY_ID["F"], fuel=wide)
    empty, half, full = stance(assemble([BY_ID["B"], font], JOINER), Settings())
    assert half.angle < min(empty.angle, full.angle)


def test_a_dry_lamp_is_weighed_without_fuel() -> None:
    """An electric lamp would be judged with fuel in its font."""
    (found,) = stance(assemble([BY_ID["B"], BY_ID["F"]], JOINER), Settings(), dry=True)
    assert found.fill == 0.0
    assert found.mass == pytest.approx(2.1)


@pytest.mark.parametrize("support", [Support(Footing.HUNG), Support(Footing.FIXED), None])
def test_hung_and_fixed_lamps_cannot_tip(support: Support | None) -> None:
    """A lamp that hangs, or whose base has no edge on record, would be given a tipping slope."""
    base = replace(BY_ID["B"], support=support)
    for one in stance(assemble([base, BY_ID["F"]], JOINER), Settings()):
        assert one.reach == 0.0
        assert one.angle == math.pi / 2


def test_tools_are_not_on_the_lamp() -> None:
    """A wick cleaner lying beside the lamp would be weighed with it."""
    care = seat("tool", 30, height=500)
    burner = replace(BY_ID["U"], ports=(*BY_ID["U"].ports, care))
    tool = replace(part("T", "tool", foot(30)), mass=5.0)
    lamp = assemble([BY_ID["B"], BY_ID["F"], burner], JOINER)
    with_tool = assemble([BY_ID["B"], BY_ID["F"], burner, tool], JOINER)
    assert [it.part.id for it in with_tool.walk()] == ["B", "F", "U", "T"]
    assert stance(with_tool, Settings()) == stance(lamp, Settings())
    vague = assemble([BY_ID["B"], BY_ID["F"], burner, replace(tool, mass=None)], JOINER)
    assert unweighed(vague) == ()


def test_parts_without_mass_or_centre_are_named() -> None:
    """A lamp would be weighed in part, without a word of the part that was left out."""
    font = replace(BY_ID["F"], mass=None)
    burner = replace(BY_ID["U"], centre=None)
    assert unweighed(assemble([BY_ID["B"], font, burner], JOINER)) == ("F", "U")


def test_pivot_of_a_base() -> None:
    """The route search would turn a lamp about another height than its slope and base give."""
    compiled = compiled_small()
    slope = math.tan(compiled.settings.limit.angle)
    base = compiled.numbers["B"]
    assert compiled.pivots == {base: math.floor(0.070 / slope / 1e-4)}

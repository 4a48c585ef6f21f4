from __future__ import annotations

import pytest
from tests.support.halves import carrier, exact, stander

from wickwright.fit.joints import judge
from wickwright.fit.joints.verdict import Fit, Half, Warmth

HOT = Warmth(393.15, 393.15)


def recess(material: str, size: str = exact(66.05)) -> Half:
    """Make a recess of 66.05 mm."""
    return carrier("rest", {"diameter": size}, material=material)


def foot(material: str, size: str = exact(66.0)) -> Half:
    """Make a foot of 66 mm."""
    return stander("rest", {"diameter": size}, material=material)


def test_hot_gap_by_hand() -> None:
    """The hot gap would not be tolerances and the materials' bands taken together."""
    hot = judge(recess("brass"), foot("glass"), HOT).hot
    assert hot is not None
    low = 66.05 * (1 + 18.7e-4) - 66.0 * (1 + 3.4e-4)
    high = 66.05 * (1 + 20.0e-4) - 66.0 * (1 + 3.2e-4)
    assert hot == pytest.approx((low * 1e-3, high * 1e-3), abs=1e-9)


def test_likely_hot_gap_by_hand() -> None:
    """The statistical room left hot would not be the cold one moved by the usual growth."""
    one, other = "66.30 ± 0.03 mm", "66.00 ± 0.04 mm"
    joined = judge(recess("brass", one), foot("glass", other), HOT)
    opens = 66.3 * 19.0e-4 - 66.0 * 3.3e-4  # usual growth over 100 K
    expected = (0.3 - 0.05 + opens, 0.3 + 0.05 + opens)  # root of 0.03 squared and 0.04 squared
    assert joined.likely_hot is not None
    assert [gap * 1e3 for gap in joined.likely_hot] == pytest.approx(expected, abs=1e-9)


def test_the_usual_growth_decides() -> None:
    """The worst hot case would refuse pairs that likely stay open."""
    joined = judge(
        carrier("rest", {"diameter": exact(66.0 + 0.066 * 1.58)}, material="glass"),
        foot("brass"),
        HOT,
    )
    assert joined.fit is Fit.FITS  # usual growth difference 66 mm x 15.7e-6 x 100 K = 0.1036 mm
    assert joined.hot is not None
    assert joined.hot.low < 0


@pytest.mark.parametrize(
    ("size", "fit"),
    [(66.05, Fit.BINDS_HOT), (66.2, Fit.FITS), (68.05, Fit.LOOSE), (65.95, Fit.NOT)],
)
def test_what_heat_changes(size: float, fit: Fit) -> None:
    """Heat would mend a bad fit, or spoil one with room."""
    assert judge(recess("glass", exact(size)), foot("brass"), HOT).fit is fit


def test_a_loose_spread_can_bind_too() -> None:
    """A pair that is loose at one end of its tolerance and closes hot at the other would be
    called loose only.
    """
    wide = recess("glass", "67.10 ± 1.09 mm")
    assert judge(wide, foot("brass")).fit is Fit.LOOSE
    assert judge(wide, foot("brass"), HOT).fit is Fit.BINDS_HOT


def test_cold_brass_closes_on_glass() -> None:
    """A lamp left in frost would not count as closing on its glass."""
    frost = Warmth(243.15, 243.15)
    assert judge(recess("brass", exact(66.03)), foot("glass"), frost).fit is Fit.BINDS_HOT


@pytest.mark.parametrize(
    ("one", "other", "missing"),
    [
        ("", "brass", ("carrier material",)),
        ("glass", "unobtanium", ("stander material",)),
        ("", "", ("carrier material", "stander material")),
    ],
)
def test_a_strange_material_leaves_a_tight_joint_open(
    one: str, other: str, missing: tuple[str, ...]
) -> None:
    """A joint of unknown material would be said to be safe hot."""
    joined = judge(recess(one), foot(other), HOT)
    assert (joined.fit, joined.why, joined.missing) == (Fit.UNKNOWN, "material", missing)


def test_a_strange_material_does_not_matter_where_there_is_room() -> None:
    """A blank material would make every warm joint 'not known'."""
    assert judge(recess("", exact(67)), foot(""), HOT).fit is Fit.FITS


def test_fabric_keeps_its_size() -> None:
    """A cloth part would be reckoned to grow like metal."""
    joined = judge(recess("cloth"), foot("cloth"), HOT)
    assert joined.hot == joined.worst


def test_each_side_has_its_own_temperature() -> None:
    """A hot foot in a cool recess of the same metal would be reckoned as if both were cool."""
    joined = judge(recess("brass"), foot("brass"), Warmth(293.15, 393.15))
    assert joined.fit is Fit.BINDS_HOT
    assert judge(recess("brass"), foot("brass"), Warmth(393.15, 293.15)).fit is Fit.FITS


def test_hot_the_likely_interval_decides_as_it_does_cold() -> None:
    """Pairs at the very ends of both tolerances would make a joint bind that likely stays open."""
    joined = judge(recess("glass", "66.2 ± 0.06 mm"), foot("brass", "66 ± 0.06 mm"), HOT)
    assert joined.fit is Fit.FITS
    assert joined.hot is not None
    assert joined.hot.low < 0

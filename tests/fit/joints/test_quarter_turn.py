from __future__ import annotations

import math

import pytest
from tests.support.halves import carrier, exact, stander

from wickwright.fit.joints import judge
from wickwright.fit.joints.verdict import Fit, Half, Joined, Warmth

NUMBERS = {"lugs": 3.0, "angle": math.radians(40)}


def gallery(size: float = 67.2, **numbers: float) -> Half:
    """Make a gallery's bore with three lugs."""
    return carrier("quarter-turn", {"diameter": exact(size)}, numbers=NUMBERS | numbers)


def glass(size: float = 66.7, material: str = "glass", **numbers: float) -> Half:
    """Make a foot with three grooves."""
    return stander(
        "quarter-turn",
        {"diameter": exact(size)},
        numbers=NUMBERS | numbers,
        material=material,
    )


@pytest.mark.parametrize(
    ("gap", "fit"),
    [
        (0.049, Fit.NOT),
        (0.05, Fit.FITS),
        (1.2, Fit.FITS),
        (1.201, Fit.LOOSE),
        (2.0, Fit.LOOSE),
        (2.001, Fit.NOT),
    ],
)
def test_borders(gap: float, fit: Fit) -> None:
    """The room of the bayonet would have moved."""
    assert judge(gallery(67.2), glass(67.2 - gap)).fit is fit


def test_lugs_must_be_as_many() -> None:
    """A four-lug foot would be sent for a three-lug gallery."""
    joined = judge(gallery(), glass(lugs=4.0))
    assert joined == Joined(Fit.NOT, "lugs", words={"carrier": "3", "stander": "4"})


@pytest.mark.parametrize(("degrees", "fit"), [(35, Fit.FITS), (45, Fit.FITS), (46, Fit.NOT)])
def test_angle_within_five_degrees(degrees: float, fit: Fit) -> None:
    """A foot that cannot be turned home would pass."""
    assert judge(gallery(), glass(angle=math.radians(degrees))).fit is fit


def test_angle_is_told_in_degrees() -> None:
    """The adviser would read out radians."""
    joined = judge(gallery(), glass(angle=math.radians(60)))
    assert joined.words == {"carrier": "40°", "stander": "60°"}


def test_lugs_blank_on_both_sides_are_missing() -> None:
    """Two feet with unknown lugs would pass for the same."""
    joined = judge(
        carrier("quarter-turn", {"diameter": exact(67.2)}),
        stander("quarter-turn", {"diameter": exact(66.7)}),
    )
    assert (joined.fit, joined.missing) == (Fit.UNKNOWN, ("carrier lugs", "stander lugs"))


def test_angle_blank_on_both_sides_is_left_out() -> None:
    """A book that never states the angle would have no bayonet that fits."""
    joined = judge(
        carrier("quarter-turn", {"diameter": exact(67.2)}, numbers={"lugs": 3}),
        stander("quarter-turn", {"diameter": exact(66.7)}, numbers={"lugs": 3}),
    )
    assert joined.fit is Fit.FITS


def test_hot_brass_foot_in_glass_binds() -> None:
    """A joint that breaks glass when the lamp is hot would pass for good."""
    ring = carrier("quarter-turn", {"diameter": exact(66.78)}, numbers=NUMBERS, material="glass")
    foot = glass(66.7, material="brass")
    assert judge(ring, foot).fit is Fit.FITS
    joined = judge(ring, foot, Warmth(393.15, 393.15))
    assert (joined.fit, joined.why) == (Fit.BINDS_HOT, "hot")


def test_hot_brass_around_glass_opens() -> None:
    """The safe pair of metals and glass would be refused."""
    joined = judge(gallery(66.8), glass(66.7), Warmth(393.15, 393.15))
    assert joined.fit is Fit.FITS
    assert joined.hot is not None
    assert joined.worst is not None
    assert joined.hot.low > joined.worst.low

"""Tipping against published slopes and closed forms.

The closed forms are the statics of a rigid body worked out by hand, for a lamp of 1.6 kg with
its centre of mass 250 mm above a base of 70 mm radius.
"""

from __future__ import annotations

import math

import pytest

from wickwright.catalogue.records import Footing, Support
from wickwright.fit.settings import TIP_LIMITS, Settings
from wickwright.fit.stance import base_reach, tip_angle, tip_energy, tipping_force
from wickwright.terms.source import SOURCES, Seen

PUBLISHED = {
    "ul153": (8, Seen.TEXT),  # UL 153 clause 132.2.2, complete with shade, turned the worst way
    "ul153toy": (15, Seen.TEXT),  # UL 153 clause 132.2.3, toy-like lamps
    "iec60598-2-4": (6, Seen.TEXT),  # IEC 60598-2-4 clause 4.6.3, worst position of normal use
    "iec60598-2-7": (15, Seen.QUOTED),  # IEC 60598-2-7, for gardens; seen on a page quoting it
    "iec60598-2-10": (15, Seen.TEXT),  # IEC 60598-2-10 clause 10.6.2, for children
    "en15493": (10, Seen.MEMORY),  # EN 15493 and ASTM F2417, candles; from memory, not seen
    "iec60335-1": (10, Seen.MEMORY),  # IEC 60335-1 clause 20.1; from memory, not seen
}
"""Slope in degrees and how far the source was followed."""


@pytest.mark.parametrize(
    ("support", "degrees"),
    [
        (Support(Footing.ROUND, 0.070), 15.642),
        (Support(Footing.FEET, 0.070, 4), 11.199),
        (Support(Footing.FEET, 0.070, 3), 7.970),
    ],
    ids=["round", "four feet", "three feet"],
)
def test_slope_at_which_a_body_tips(support: Support, degrees: float) -> None:
    """A lamp on feet would be called as steady as one on a round rim of the same radius."""
    found = math.degrees(tip_angle(base_reach(support), 0.250))
    assert found == pytest.approx(degrees, abs=5e-4)


def test_three_feet_fail_where_a_rim_passes() -> None:
    """A lamp on three feet that fails the slope of 8 degrees would be sold as safe."""
    limit = Settings().limit.angle
    feet, rim = Support(Footing.FEET, 0.070, 3), Support(Footing.ROUND, 0.070)
    assert tip_angle(base_reach(feet), 0.250) < limit < tip_angle(base_reach(rim), 0.250)


@pytest.mark.parametrize(
    ("key", "millimetres"),
    [("iec60598-2-4", 26.28), ("ul153", 35.14), ("en15493", 44.08), ("ul153toy", 66.99)],
)
def test_least_round_base_for_a_height(key: str, millimetres: float) -> None:
    """A base too small for the slope in force would pass, or one large enough would fail."""
    limit = TIP_LIMITS[key].angle
    assert tip_angle((millimetres - 0.01) * 1e-3, 0.250) < limit
    assert tip_angle((millimetres + 0.01) * 1e-3, 0.250) > limit


def test_push_that_tips() -> None:
    """The push an adviser is told would not be m g R / H: 1.6 kg pushed at 500 mm, 2.197 N."""
    assert tipping_force(1.6, 0.070, 0.500) == pytest.approx(2.197, abs=5e-4)


def test_work_that_tips() -> None:
    """The work to tip would not be m g (sqrt(R2 + h2) - h): 0.1509 J for this lamp."""
    assert tip_energy(1.6, 0.070, 0.250) == pytest.approx(0.1509, abs=5e-5)


def test_push_and_work_agree() -> None:
    """Push and work would not be of one body: on a small foot the work is half the push at the \
    centre of mass by the way that centre moves, which is the reach.
    """
    mass, reach, centre = 1.6, 0.001, 0.250
    half = tipping_force(mass, reach, centre) * reach / 2
    assert tip_energy(mass, reach, centre) == pytest.approx(half, rel=1e-4)


@pytest.mark.parametrize("key", sorted(PUBLISHED))
def test_limits_are_as_published(key: str) -> None:
    """A lamp would be held to a slope its standard does not name, or to an unnamed source."""
    degrees, seen = PUBLISHED[key]
    limit = TIP_LIMITS[key]
    assert math.degrees(limit.angle) == pytest.approx(degrees, rel=1e-12)
    assert SOURCES[limit.source].seen is seen
    assert f"({degrees} degrees)" in SOURCES[limit.source].title


def test_every_limit_has_a_published_slope() -> None:
    """A limit could be chosen that no standard stands behind."""
    assert TIP_LIMITS.keys() == PUBLISHED.keys()


def test_the_usual_limit_is_that_of_portable_lamps() -> None:
    """A lamp would be judged by a limit for toys or gardens without anyone having asked."""
    assert Settings().limit is TIP_LIMITS["ul153"]

from __future__ import annotations

import pytest

from wickwright.fit.joints.grade import cold_verdict, play
from wickwright.fit.joints.verdict import Fit

BORDERS = play(0.0, 1.0, effort=1.0, loose=1.0)


@pytest.mark.parametrize(
    ("low", "high", "expected"),
    [
        (-3, -2, (Fit.NOT, "tight")),
        (-3, -0.5, (Fit.UNKNOWN, "wide")),
        (-3, 0.5, (Fit.UNKNOWN, "wide")),
        (-3, 1.5, (Fit.UNKNOWN, "wide")),
        (-3, 3, (Fit.UNKNOWN, "wide")),
        (-0.8, -0.2, (Fit.EFFORT, "tight")),
        (-0.5, 0.5, (Fit.EFFORT, "tight")),
        (-0.5, 1.5, (Fit.LOOSE, "loose")),
        (-0.5, 3, (Fit.UNKNOWN, "wide")),
        (0, 1, (Fit.FITS, "clearance-likely")),
        (0.5, 1.5, (Fit.LOOSE, "loose")),
        (0.5, 3, (Fit.UNKNOWN, "wide")),
        (1.2, 1.8, (Fit.LOOSE, "loose")),
        (1.5, 3, (Fit.UNKNOWN, "wide")),
        (2.5, 3, (Fit.NOT, "loose")),
    ],
)
def test_every_way_across_the_zones(low: float, high: float, expected: tuple[Fit, str]) -> None:
    """One of the fifteen ways an interval can lie across five zones would get another verdict."""
    assert cold_verdict(low, high, BORDERS) == expected

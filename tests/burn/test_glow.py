from __future__ import annotations

import numpy as np
import pytest

from wickwright.burn.glow import EDGE, FAR, far_share, luminous, radiated
from wickwright.physics.light import selective_efficacy
from wickwright.physics.radiation import black_exitance, fraction_below

HOT = np.array([1000.0, 1500.0, 1725.3, 1900.0, 2200.0])
VISIBLE, INFRARED = np.asarray(0.5), np.asarray(0.06)


def test_light_over_power_is_what_planck_and_the_eye_give() -> None:
    """The mantle's light would not be that of its temperature and its two emissivities."""
    power, _ = radiated(HOT, VISIBLE, INFRARED)
    ours = luminous(HOT, VISIBLE, INFRARED) / power
    assert ours == pytest.approx(selective_efficacy(HOT, visible=0.5, infrared=0.06), rel=1e-5)


def test_power_is_black_power_with_two_emissivities() -> None:
    """The mantle would radiate more or less heat than its web can."""
    power, _ = radiated(HOT, VISIBLE, INFRARED)
    below = fraction_below(np.asarray(EDGE), HOT)
    assert power == pytest.approx(black_exitance(HOT) * (0.06 + 0.44 * below), rel=1e-5)


def test_the_slope_of_power_is_its_slope() -> None:
    """Newton's steps to the mantle's temperature would wander."""
    high, low = (radiated(HOT + step, VISIBLE, INFRARED)[0] for step in (0.01, -0.01))
    _, slope = radiated(HOT, VISIBLE, INFRARED)
    assert slope == pytest.approx((high - low) / 0.02, rel=1e-5)


def test_the_share_glass_stops_is_the_share_beyond_its_edge() -> None:
    """Too much of the glow would heat the glass, or too little."""
    assert far_share(HOT) == pytest.approx(1.0 - fraction_below(np.asarray(FAR), HOT), abs=1e-6)

from __future__ import annotations

import pytest
from tests.support.halves import carrier, exact, stander

from wickwright.fit.joints import judge
from wickwright.fit.joints.verdict import Fit

BORDERS = [
    (-0.001, Fit.NOT),
    (0.0, Fit.FITS),
    (0.6, Fit.FITS),
    (0.601, Fit.LOOSE),
    (1.2, Fit.LOOSE),
    (1.201, Fit.NOT),
]


@pytest.mark.parametrize(("gap", "fit"), BORDERS)
def test_a_ring_seat_takes_the_mantle_in(gap: float, fit: Fit) -> None:
    """The seat's room would have moved."""
    seat = carrier("mantle", {"diameter": exact(25)})
    mantle = stander("mantle", {"diameter": exact(25 - gap)}, material="oxide")
    assert judge(seat, mantle).fit is fit


@pytest.mark.parametrize(("gap", "fit"), BORDERS)
def test_a_mantle_goes_over_a_post(gap: float, fit: Fit) -> None:
    """A post would be taken for a bore."""
    post = carrier("mantle", {"diameter": exact(6)}, words={"form": "Post"})
    mantle = stander("mantle", {"diameter": exact(6 + gap)}, words={"form": "post"})
    assert judge(post, mantle).fit is fit


def test_post_and_ring_differ() -> None:
    """A mantle made for a post would be sent for a ring."""
    post = carrier("mantle", {"diameter": exact(6)}, words={"form": "post"})
    mantle = stander("mantle", {"diameter": exact(6.2)}, words={"form": "ring"})
    assert (judge(post, mantle).fit, judge(post, mantle).why) == (Fit.NOT, "form")

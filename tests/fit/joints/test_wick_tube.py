from __future__ import annotations

import pytest
from tests.support.halves import carrier, exact, stander

from wickwright.fit.joints import judge
from wickwright.fit.joints.verdict import Fit, Warmth


def judged(form: str, over: float) -> Fit:
    """Judge a wick that is wider than its tube by so many millimetres."""
    tube = carrier("wick", {"diameter": exact(30)}, words={"form": form})
    wick = stander("wick", {"diameter": exact(30 + over)}, words={"form": form}, material="cotton")
    return judge(tube, wick).fit


@pytest.mark.parametrize(
    ("over", "fit"),
    [
        (-1.501, Fit.NOT),
        (-1.5, Fit.EFFORT),
        (-0.801, Fit.EFFORT),
        (-0.8, Fit.FITS),
        (0.5, Fit.FITS),
        (0.501, Fit.LOOSE),
        (1.5, Fit.LOOSE),
        (1.501, Fit.NOT),
    ],
)
def test_borders_of_a_round_wick(over: float, fit: Fit) -> None:
    """The stretch that fabric allows would have moved, or tube and wick changed places."""
    assert judged("round", over) is fit


@pytest.mark.parametrize(
    ("over", "fit"),
    [
        (-2.001, Fit.NOT),
        (-2.0, Fit.LOOSE),
        (-1.501, Fit.LOOSE),
        (-1.5, Fit.FITS),
        (0.5, Fit.FITS),
        (0.501, Fit.NOT),
    ],
)
def test_borders_of_a_flat_wick(over: float, fit: Fit) -> None:
    """A narrow flat wick would be called tight: in a slot it is the loose one."""
    assert judged("flat", over) is fit


def test_flat_and_round_are_never_confused() -> None:
    """A flat wick would be sent for a tubular burner."""
    tube = carrier("wick", {"diameter": exact(30)}, words={"form": "round"})
    wick = stander("wick", {"diameter": exact(30)}, words={"form": "flat"})
    assert (judge(tube, wick).fit, judge(tube, wick).why) == (Fit.NOT, "form")


def test_fabric_takes_up_the_heat() -> None:
    """A wick that is right when stretched would be said to bind on its hot tube."""
    tube = carrier("wick", {"diameter": exact(30)})
    wick = stander("wick", {"diameter": exact(29.5)}, material="cotton")
    assert judge(tube, wick, Warmth(473.15, 293.15)).fit is Fit.FITS

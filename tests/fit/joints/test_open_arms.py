from __future__ import annotations

import pytest
from tests.support.halves import carrier, exact, stander

from wickwright.fit.joints import judge
from wickwright.fit.joints.verdict import Fit

ARMS = carrier("open-arms", {"capture": "150..155 mm"}, words={"form": "3"})


@pytest.mark.parametrize(
    ("ring", "fit"),
    [(149.999, Fit.NOT), (150.0, Fit.FITS), (155.0, Fit.FITS), (155.001, Fit.NOT)],
)
def test_borders(ring: float, fit: Fit) -> None:
    """A shade would be sent that the arms do not reach."""
    frame = stander("open-arms", {"diameter": exact(ring)}, words={"form": "3"})
    assert judge(ARMS, frame).fit is fit


def test_arms_must_be_as_many() -> None:
    """A frame with four seats would be sent for three arms."""
    frame = stander("open-arms", {"diameter": exact(152)}, words={"form": "4"})
    joined = judge(ARMS, frame)
    assert (joined.fit, joined.why) == (Fit.NOT, "arms")
    assert joined.words == {"carrier": "3", "stander": "4"}


def test_arms_blank_on_both_sides_are_missing() -> None:
    """Frames of unknown seats would pass."""
    joined = judge(
        carrier("open-arms", {"capture": "150..155 mm"}),
        stander("open-arms", {"diameter": exact(152)}),
    )
    assert (joined.fit, joined.missing) == (Fit.UNKNOWN, ("carrier form", "stander form"))


def test_a_cell_of_blanks_is_blank() -> None:
    """Two cells with a stray blank would pass for the same number of arms."""
    joined = judge(
        carrier("open-arms", {"capture": "150..155 mm"}, words={"form": " "}),
        stander("open-arms", {"diameter": exact(152)}, words={"form": " "}),
    )
    assert joined.fit is Fit.UNKNOWN

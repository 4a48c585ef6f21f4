from __future__ import annotations

import pytest
from tests.support.halves import carrier, exact, stander

from wickwright.fit.joints import judge
from wickwright.fit.joints.verdict import Fit


@pytest.mark.parametrize(
    ("gap", "fit"), [(0.3, Fit.FITS), (0.7, Fit.LOOSE), (-0.1, Fit.NOT), (1.0, Fit.NOT)]
)
def test_a_measured_gap_stands_though_the_pitch_goes_by_label(gap: float, fit: Fit) -> None:
    """The same label would wipe out what the diameters say."""
    one = carrier("thread", {"diameter": exact(22)}, label="No. 2")
    other = stander("thread", {"diameter": exact(22 - gap)}, label="no. 2")
    joined = judge(one, other)
    assert joined.fit is fit
    assert joined.by_label is (fit is not Fit.NOT)
    assert joined.worst is not None


def test_different_labels_refuse_though_the_diameters_agree() -> None:
    """Two threads of one diameter and different trade sizes would pass."""
    one = carrier("thread", {"diameter": exact(22)}, label="coarse")
    other = stander("thread", {"diameter": exact(21.8)}, label="fine")
    joined = judge(one, other)
    assert (joined.fit, joined.why, joined.by_label) == (Fit.NOT, "labels", True)


def test_missing_adds_up() -> None:
    """Of several missing measurements only some would be named."""
    one = carrier("thread", {"diameter": "22 ± 0.4 mm"}, words={"hand": "left"})
    other = stander("thread", {"diameter": "21.7 ± 0.4 mm", "pitch": "1.8 mm"})
    joined = judge(one, other)
    assert joined.missing == (
        "stander hand",
        "carrier pitch",
        "carrier diameter",
        "stander diameter",
    )

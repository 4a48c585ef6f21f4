from __future__ import annotations

import pytest
from tests.support.halves import carrier, exact, stander

from wickwright.fit.joints import judge
from wickwright.fit.joints.verdict import Fit


@pytest.mark.parametrize(
    ("gap", "fit"),
    [
        (0.299, Fit.NOT),
        (0.3, Fit.FITS),
        (3.0, Fit.FITS),
        (3.001, Fit.LOOSE),
        (5.0, Fit.LOOSE),
        (5.001, Fit.NOT),
    ],
)
def test_borders(gap: float, fit: Fit) -> None:
    """A glass shade would wedge in its ring or drop through it."""
    ring = carrier("fitter", {"diameter": exact(254)})
    shade = stander("fitter", {"diameter": exact(254 - gap)}, material="glass")
    assert judge(ring, shade).fit is fit

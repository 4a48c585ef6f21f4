"""Stacks of tolerances against worked examples."""

from __future__ import annotations

import pytest

from wickwright.fit.clearance import stack
from wickwright.terms.dimension import parse_dimension


def test_box_of_four() -> None:
    """A worked example quoted on a public page, 3.00 with worst case 0.23 and RSS 0.1261 mm, \
would be off.
    """
    found = stack(
        [
            (1, parse_dimension("40.00 ± 0.10 mm")),
            (-1, parse_dimension("25.00 ± 0.05 mm")),
            (-1, parse_dimension("2.00 ± 0.03 mm")),
            (-1, parse_dimension("10.00 ± 0.05 mm")),
        ]
    )
    assert (found.worst.low + found.worst.high) / 2 == pytest.approx(3.00e-3)
    assert (found.worst.high - found.worst.low) / 2 == pytest.approx(0.23e-3)
    assert (found.likely.high - found.likely.low) / 2 == pytest.approx(0.1261e-3, abs=5e-8)


def test_ten_alike() -> None:
    """Ten links of 0.1 mm each: worst case 1.0, RSS 0.3162 mm, in closed form."""
    found = stack([(1, parse_dimension("5 ± 0.1 mm"))] * 10)
    assert found.worst.high - 0.050 == pytest.approx(1.0e-3)
    assert found.likely.high - 0.050 == pytest.approx(0.3162e-3, abs=5e-8)

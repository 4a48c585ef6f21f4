from __future__ import annotations

import pytest

from wickwright.fit.clearance import clearance, stack
from wickwright.terms.dimension import parse_dimension


def test_clearance_takes_the_middles_of_uneven_zones() -> None:
    """A zone of +0.1/-0.3 would be taken as centred on its nominal size."""
    found = clearance(parse_dimension("22 +0.1/-0.3 mm"), parse_dimension("21 ± 0.15 mm"))
    assert found.worst == pytest.approx((0.55e-3, 1.25e-3))
    assert found.likely == pytest.approx((0.65e-3, 1.15e-3))  # half: sqrt(0.2^2 + 0.15^2)


def test_clearance_is_a_stack_of_two() -> None:
    """Two ways to the same gap would disagree."""
    hole, shaft = parse_dimension("22.4 +0.1/-0.3 mm"), parse_dimension("21 ± 0.2 mm")
    pair, chain = clearance(hole, shaft), stack([(1, hole), (-1, shaft)])
    assert chain.worst == pytest.approx(pair.worst)
    assert chain.likely == pytest.approx(pair.likely)


def test_an_empty_stack_is_nothing() -> None:
    """A chain of no links would fail or have a length."""
    assert stack([]).worst == (0.0, 0.0)


def test_a_link_points_one_way_or_the_other() -> None:
    """A direction of 2 would count a size twice."""
    with pytest.raises(ValueError, match="link") as caught:
        stack([(2, parse_dimension("1 mm"))])
    assert str(caught.value) == "a link points 2: write +1 (adds) or -1 (takes away)"

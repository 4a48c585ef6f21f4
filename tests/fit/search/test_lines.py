from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from wickwright.fit.search.lines import Line, lowest, summed

lines = st.lists(st.tuples(st.integers(0, 9), st.integers(-40, 40)), min_size=1, max_size=8)
heights = st.integers(-60, 60)


def _least(some: list[Line], height: int) -> int:
    return min(moment + mass * height for mass, moment in some)


@given(lines, heights)
def test_the_lowest_lines_are_lowest_at_every_height(some: list[Line], height: int) -> None:
    """A lamp that stands would be called impossible, or one that tips possible."""
    assert _least(lowest(some), height) == _least(some, height)


@given(lines)
def test_no_line_is_kept_in_vain(some: list[Line]) -> None:
    """Lines would pile up from part to part until nothing is answered any more."""
    kept = lowest(some)
    assert kept == sorted(set(kept), reverse=True)
    assert lowest(kept) == kept
    masses = [mass for mass, _ in kept]
    assert len(set(masses)) == len(masses)


@given(lines, lines, st.integers(-20, 20), heights)
def test_one_on_the_other_is_as_low_as_the_lowest_of_both(
    below: list[Line], above: list[Line], rise: int, height: int
) -> None:
    """What stands on a tall part would be weighed at the wrong height."""
    both = summed(lowest(below), lowest(above), rise)
    assert _least(both, height) == _least(below, height) + _least(above, height + rise)
    assert len(both) < len(lowest(below)) + len(lowest(above))


def test_light_is_best_high_up_and_heavy_low_down() -> None:
    """A heavy font would count against a lamp that it keeps upright."""
    light, middle, heavy = (1, 0), (2, 20), (3, 0)
    assert lowest([light, middle, heavy]) == [heavy, light]
    assert summed([heavy, light], [(1, 0)], 5) == [(4, 5), (2, 5)]

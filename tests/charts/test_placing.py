from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wickwright.charts.placing import Box, Spot, best, box_of, dense, spread

PAPER = Box(0.0, 0.0, 400.0, 300.0)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.floats(0.0, 300.0), min_size=1, max_size=8))
def test_names_at_line_ends_never_cover_each_other(wanted: list[float]) -> None:
    """Two names would be printed one over the other."""
    tall = [18.0] * len(wanted)
    middles = sorted(spread(wanted, tall, 0.0, 300.0))
    assert all(late - early >= 18.0 - 1e-9 for early, late in pairwise(middles))
    assert middles[-1] <= 300.0 - 9.0 + 1e-9


def test_names_with_room_stay_where_they_are() -> None:
    """A name would wander away from its line for nothing, or two change places."""
    assert spread([100.0, 50.0, 200.0], [18.0] * 3, 0.0, 300.0) == [100.0, 50.0, 200.0]
    low, high = spread([100.0, 100.0], [18.0] * 2, 0.0, 300.0)
    assert (low, high) == (100.0, 118.0)


def test_words_go_where_no_line_runs() -> None:
    """A limit's name would be struck through by a curve."""
    spots = [Spot(10.0, 100.0, "start"), Spot(10.0, 200.0, "start")]
    line = dense([(0.0, 97.0), (400.0, 97.0)])
    assert best(spots, "limit", 12.0, inside=PAPER, taken=[], lines=line) == spots[1]


def test_words_stay_off_words_and_on_the_paper() -> None:
    """A limit's name would be printed over another's, or beyond the edge."""
    off, taken, free = (
        Spot(390.0, 50.0, "start"),
        Spot(10.0, 100.0, "start"),
        Spot(10.0, 250.0, "start"),
    )
    words = [box_of(taken, "other", 12.0)]
    chosen = best([off, taken, free], "limit", 12.0, inside=PAPER, taken=words, lines=[])
    assert chosen == free


def test_a_tie_goes_to_the_first() -> None:
    """The same chart would be drawn one way today and another tomorrow."""
    spots = [Spot(10.0, 100.0, "start"), Spot(10.0, 200.0, "start")]
    assert best(spots, "limit", 12.0, inside=PAPER, taken=[], lines=[]) == spots[0]


@pytest.mark.parametrize(("anchor", "left"), [("start", 97.0), ("end", None), ("middle", None)])
def test_words_take_room_on_the_side_of_their_anchor(anchor: str, left: float | None) -> None:
    """Room would be kept free on the wrong side of the anchor."""
    box = box_of(Spot(100.0, 50.0, anchor), "word", 12.0)
    if left is not None:
        assert box.left == left
    elif anchor == "end":
        assert box.right == pytest.approx(103.0)
    else:
        assert box.left + box.right == pytest.approx(200.0)


def test_a_broken_line_is_not_bridged() -> None:
    """Words would shun a gap where nothing is drawn."""
    gap = dense([(0.0, 0.0), (10.0, 0.0), (float("nan"), 0.0), (30.0, 0.0), (40.0, 0.0)])
    assert all(not 10.0 < x < 30.0 for x, _ in gap)

from __future__ import annotations

import pytest

from wickwright.fit.search.labels import Packing, nondominated, unbeaten
from wickwright.fit.search.packs import DEMANDS, PLENTY, four

SMALL = Packing.of((4, 3, 5))


def test_the_first_cost_stands_highest() -> None:
    """Sorting labels would not put the cheapest first, and pruning in order would go wrong."""
    assert SMALL.shifts == (10, 6, 0)
    assert SMALL.guards == (1 << 14) | (1 << 9) | (1 << 5)
    assert SMALL.pack((1, 0, 0)) > SMALL.pack((0, 7, 31))


def test_costs_come_back() -> None:
    """A route would be shown with another price than it has."""
    for costs in [(0, 0, 0), (15, 7, 31), (3, 0, -31), (0, -7, 5), (-1, 0, 0)]:
        assert SMALL.unpack(SMALL.pack(costs)) == costs


def test_labels_add_like_costs() -> None:
    """The price of two parts would not be the sum of their prices."""
    one, other = (3, 1, -4), (2, 0, 7)
    assert SMALL.unpack(SMALL.pack(one) + SMALL.pack(other)) == (5, 1, 3)


@pytest.mark.parametrize(
    ("costs", "said"),
    [
        ((16, 0, 0), "a cost of 16 needs more than 4 bits: widen its field"),
        ((0, 0, -32), "a cost of -32 needs more than 5 bits: widen its field"),
    ],
)
def test_a_cost_too_wide_is_refused(costs: tuple[int, ...], said: str) -> None:
    """A cost that runs into the next field would change another cost without a word."""
    with pytest.raises(OverflowError) as error:
        SMALL.pack(costs)
    assert str(error.value) == said


@pytest.mark.parametrize(
    ("one", "other", "answer"),
    [
        ((1, 2, 3), (1, 2, 3), True),
        ((1, 2, 3), (2, 2, 3), True),
        ((1, 2, 3), (0, 7, 31), False),
        ((1, 2, 3), (1, 2, 2), False),
        ((0, 0, -5), (0, 0, -4), True),
        ((0, 0, 1), (0, 0, -1), False),
        ((0, 0, -1), (0, 0, 1), True),
    ],
)
def test_nowhere_worse(one: tuple[int, ...], other: tuple[int, ...], *, answer: bool) -> None:
    """A better way would be dropped for a worse one."""
    assert SMALL.no_worse(SMALL.pack(one), SMALL.pack(other)) is answer


def test_the_unbeaten_are_kept_in_order_once() -> None:
    """A beaten label would stay, an unbeaten one go, or equals be kept twice."""
    costs = [(2, 2, 2), (1, 3, 2), (2, 2, 2), (3, 2, 2), (1, 3, 3), (0, 7, 0)]
    kept = nondominated([SMALL.pack(one) for one in costs], SMALL.guards)
    assert [SMALL.unpack(one) for one in kept] == [(0, 7, 0), (1, 3, 2), (2, 2, 2)]
    assert nondominated([], SMALL.guards) == []


def test_of_equals_the_first_named_is_kept() -> None:
    """Which of two equal ways is shown would hang on chance."""
    rows = [
        (SMALL.pack((2, 0, 0)), "late"),
        (SMALL.pack((1, 1, 0)), "a"),
        (SMALL.pack((1, 1, 0)), "b"),
    ]
    kept = unbeaten(rows, SMALL.guards)
    assert [name for _, name in kept] == ["a", "late"]


def test_demands_have_room_for_plenty() -> None:
    """More than anything demands would not fit beside three other demands."""
    assert DEMANDS.unpack(DEMANDS.pack((PLENTY,) * 4)) == (PLENTY,) * 4
    assert four((7,), 3) == [7, 3, 3, 3]
    assert four((), PLENTY) == [PLENTY] * 4

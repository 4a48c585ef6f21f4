"""Laws of labels, fronts and reasons, whatever the tree."""

from __future__ import annotations

import random
from dataclasses import replace
from itertools import combinations
from typing import TYPE_CHECKING

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.support.toys import random_query, random_tree

from wickwright.fit.search.labels import Packing, nondominated, unbeaten
from wickwright.fit.search.memory import Memory
from wickwright.fit.search.query import PACKING, Found, Query
from wickwright.fit.search.solve import solve
from wickwright.fit.search.tree import Admits, Tree
from wickwright.fit.search.whynot import conflict, ways_out

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Sequence

laws = settings(deadline=None, max_examples=80)

# -- labels ---------------------------------------------------------------------------------

widths = st.lists(st.integers(1, 40), min_size=1, max_size=5)
Costs = tuple[int, ...]


@st.composite
def packed(draw: st.DrawFn, many: int = 2) -> tuple[Packing, list[Costs]]:
    """Draw a packing and costs whose differences keep within its fields."""
    packing = Packing.of(draw(widths))
    ends = [(1 << width - 1) - 1 for width in packing.widths]
    costs = st.tuples(*(st.integers(-end, end) for end in ends))
    return packing, draw(st.lists(costs, min_size=many, max_size=many or 30))


def _beats(one: Costs, other: Costs) -> bool:
    return all(a <= b for a, b in zip(one, other, strict=True))


@laws
@given(packed())
def test_costs_come_back_from_a_label(drawn: tuple[Packing, list[Costs]]) -> None:
    """A route would be shown at another price than it has."""
    packing, costs = drawn
    assert [packing.unpack(packing.pack(one)) for one in costs] == costs


@laws
@given(packed())
def test_labels_add_as_their_costs(drawn: tuple[Packing, list[Costs]]) -> None:
    """Parts would together cost another sum than apart, where one cost is negative."""
    packing, (one, other) = drawn
    total = tuple(a + b for a, b in zip(one, other, strict=True))
    assert packing.pack(one) + packing.pack(other) == packing.pack(total)
    assert packing.unpack(packing.pack(one) + packing.pack(other)) == total


@laws
@given(packed())
def test_labels_compare_as_their_costs(drawn: tuple[Packing, list[Costs]]) -> None:
    """A better way would be dropped for a worse one."""
    packing, (one, other) = drawn
    assert packing.no_worse(packing.pack(one), packing.pack(other)) is _beats(one, other)


@laws
@given(packed())
def test_what_is_nowhere_worse_is_not_the_greater_label(drawn: tuple[Packing, list[Costs]]) -> None:
    """Pruning in ascending order would miss that a later label beats an earlier one."""
    packing, (one, other) = drawn
    if _beats(one, other):
        assert packing.pack(one) <= packing.pack(other)


@laws
@given(packed(many=0))
def test_pruning_keeps_what_comparing_all_pairs_keeps(drawn: tuple[Packing, list[Costs]]) -> None:
    """An unbeaten way would be lost, or a beaten one kept."""
    packing, costs = drawn
    alive = {one for one in costs if not any(it != one and _beats(it, one) for it in costs)}
    labels = [packing.pack(one) for one in costs]
    assert nondominated(labels, packing.guards) == sorted(packing.pack(one) for one in alive)
    rows = unbeaten([(label, at) for at, label in enumerate(labels)], packing.guards)
    assert [label for label, _ in rows] == sorted(packing.pack(one) for one in alive)
    assert [at for _, at in rows] == [labels.index(label) for label, _ in rows]


@laws
@given(packed(many=0), packed(many=0))
def test_pruning_early_changes_nothing(
    drawn: tuple[Packing, list[Costs]], split: tuple[Packing, list[Costs]]
) -> None:
    """What is unbeaten would hang on the order in which fronts are merged."""
    packing, costs = drawn
    labels = [packing.pack(one) for one in costs]
    at = len(split[1]) % (len(labels) + 1)
    parts = (nondominated(some, packing.guards) for some in (labels[:at], labels[at:]))
    merged = nondominated([label for part in parts for label in part], packing.guards)
    assert merged == nondominated(labels, packing.guards)


# -- fronts ---------------------------------------------------------------------------------


@st.composite
def asked(draw: st.DrawFn) -> tuple[Tree, Query, random.Random]:
    """Draw a toy and something to ask of it."""
    rng = random.Random(draw(st.integers(0, 10**9)))
    tree = random_tree(rng, 4)
    return tree, random_query(rng, tree), rng


def _front(tree: Tree, query: Query) -> list[Costs]:
    outcome = solve(Memory(tree), query)
    assert isinstance(outcome, Found)
    return [way.costs for way in outcome.ways]


def _is_no_worse(front: Sequence[Costs], other: Sequence[Costs]) -> bool:
    return all(any(_beats(one, it) for one in front) for it in other)


def _more(rng: random.Random, flags: bytes) -> bytes:
    return bytes(flag or rng.random() < 0.3 for flag in flags)


@laws
@given(asked())
def test_more_in_hand_is_never_worse(drawn: tuple[Tree, Query, random.Random]) -> None:
    """A caller who owns one part more would have to pay more."""
    tree, query, rng = drawn
    owned = {*query.owned, rng.randrange(len(tree.candidates))}
    richer = replace(query, owned=tuple(sorted(owned)))
    assert _is_no_worse(_front(tree, richer), _front(tree, query))


@laws
@given(asked())
def test_more_on_sale_is_never_worse(drawn: tuple[Tree, Query, random.Random]) -> None:
    """A part added to the book would make a lamp dearer, or impossible."""
    tree, query, rng = drawn
    usable = _more(rng, query.usable)
    sold = bytes(a & b for a, b in zip(_more(rng, query.buyable), usable, strict=True))
    wider = replace(query, usable=usable, buyable=bytes(map(max, sold, query.buyable)))
    assert _is_no_worse(_front(tree, wider), _front(tree, query))


@laws
@given(asked())
def test_asking_less_is_never_worse(drawn: tuple[Tree, Query, random.Random]) -> None:
    """Giving up a law, a limit or a kind would make what is left harder."""
    tree, query, _ = drawn
    front = _front(tree, query)
    for less in (
        replace(query, pivots={}),
        replace(query, most={}),
        replace(query, scales=((0, 1), (0, 1))),
        replace(query, admits=Admits.UNSURE),
        replace(query, loose=frozenset({1, 2, 3}), admits=Admits.UNSURE),
        replace(query, required=0, pivots={}),  # what nobody asks for is not placed as ballast
    ):
        assert _is_no_worse(_front(tree, less), front)


@laws
@given(asked(), st.integers(1, 20))
def test_the_front_does_not_hang_on_prices_being_small(
    drawn: tuple[Tree, Query, random.Random], factor: int
) -> None:
    """Other routes would be unbeaten when money is counted in a smaller coin."""
    tree, query, _ = drawn
    dear = [replace(it, price=it.price * factor) for it in tree.candidates]
    scaled = _front(replace(tree, candidates=dear, groups={}), query)
    assert scaled == [(costs[0] * factor, *costs[1:]) for costs in _front(tree, query)]


def test_fields_are_wide_enough_for_any_book() -> None:
    """A dear lamp or a tall heavy one would overflow its label."""
    coins, parts, grams_by_height = 2**31, 14, 10**6 * 5 * 10**4
    label = PACKING.pack((coins, parts, parts, 2**15, grams_by_height))
    assert PACKING.unpack(label) == (coins, parts, parts, 2**15, grams_by_height)


# -- reasons --------------------------------------------------------------------------------

many_conflicts = st.integers(2, 7).flatmap(
    lambda size: st.tuples(
        st.just(size),
        st.lists(st.frozensets(st.integers(0, size - 1), min_size=1), min_size=1, max_size=6),
    )
)


def _oracle(conflicts: Collection[frozenset[int]]) -> Callable[[Sequence[int]], bool]:
    return lambda claims: not any(one <= set(claims) for one in conflicts)


def _subsets(size: int) -> list[frozenset[int]]:
    claims = range(size)
    return [frozenset(some) for many in range(size + 1) for some in combinations(claims, many)]


def _least(sets: Collection[frozenset[int]]) -> set[frozenset[int]]:
    return {one for one in sets if not any(other < one for other in sets)}


@laws
@given(many_conflicts)
def test_a_reason_is_one_of_the_least_conflicts(drawn: tuple[int, list[frozenset[int]]]) -> None:
    """A caller would be told a reason with a claim in it that does not matter, or half of it."""
    size, conflicts = drawn
    holds = _oracle(conflicts)
    found = conflict(range(size), holds)
    assert frozenset(found) in _least([one for one in _subsets(size) if not holds(sorted(one))])
    assert list(found) == sorted(found)


@laws
@given(many_conflicts)
def test_a_reason_takes_earlier_claims_where_it_can(
    drawn: tuple[int, list[frozenset[int]]],
) -> None:
    """A caller would hear of the own wish where the laws of the parts are reason enough."""
    size, conflicts = drawn
    found = conflict(range(size), _oracle(conflicts))
    least = min(max(one) for one in conflicts)
    assert max(found) == least


@laws
@given(many_conflicts, st.lists(st.sets(st.integers(0, 7)), max_size=4))
def test_a_reason_is_least_wherever_it_is_looked_for_first(
    drawn: tuple[int, list[frozenset[int]]], guesses: list[set[int]]
) -> None:
    """A claim that does not matter would be told because a guess where to look was bad."""
    size, conflicts = drawn
    holds = _oracle(conflicts)
    likely = [sorted(claim for claim in guess if claim < size) for guess in guesses]
    found = conflict(range(size), holds, likely)
    assert frozenset(found) in _least([one for one in _subsets(size) if not holds(sorted(one))])
    first = next((some for some in likely if not holds(some)), range(size))
    assert set(found) <= set(first)


@laws
@given(many_conflicts)
def test_ways_out_are_all_the_least_sets_to_give_up(
    drawn: tuple[int, list[frozenset[int]]],
) -> None:
    """A caller would give up something in vain, or not be told of the least that helps."""
    size, conflicts = drawn
    holds = _oracle(conflicts)
    claims = list(range(size))
    found = ways_out(claims, holds, conflict(claims, holds), most=size, enough=10**6)
    helps = [one for one in _subsets(size) if holds([c for c in claims if c not in one])]
    assert {frozenset(one) for one in found} == _least(helps)
    assert [len(one) for one in found] == sorted(len(one) for one in found)
    assert len(found) == len(set(found))

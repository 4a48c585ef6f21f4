"""Bounds of the route search lie nowhere above what is really there, whatever the tree."""

from __future__ import annotations

import random
from dataclasses import replace
from itertools import islice
from typing import TYPE_CHECKING

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.support.toys import costs_of, every_way, random_query, random_tree

from wickwright.fit.search.balance import leverage_of
from wickwright.fit.search.floors import NEVER
from wickwright.fit.search.memory import Memory
from wickwright.fit.search.query import COSTS, PACKING, Query
from wickwright.fit.search.standing import StandingFinder
from wickwright.fit.search.tree import Node, Tree

if TYPE_CHECKING:
    from wickwright.fit.search.floors import Floors

laws = settings(deadline=None, max_examples=120)

Asked = tuple[Tree, Query, StandingFinder, list[Node]]


@st.composite
def asked(draw: st.DrawFn) -> Asked:
    """Draw a toy, something to ask of it, and ways to fill it whether they stand or not."""
    rng = random.Random(draw(st.integers(0, 10**9)))
    tree = random_tree(rng, 3)
    query = replace(random_query(rng, tree), aims=COSTS, most={})
    ways = list(islice(every_way(tree, replace(query, pivots={})), 300))
    return tree, query, StandingFinder(Memory(tree), query), ways


def _root_floors(floors: Floors) -> list[int]:
    """Labels of the least price and count of the whole, by the number of dying candidates."""
    table = floors.sweeps[-1].places[:, :, floors.root].T.tolist()
    return [
        PACKING.pack((price, count, at, 0, 0))
        for at, (price, count) in enumerate(table)
        if price < NEVER
    ]


@laws
@given(asked())
def test_no_way_costs_less_than_the_floors(drawn: Asked) -> None:
    """A choice would be passed over though it leads to an unbeaten way."""
    tree, query, finder, ways = drawn
    floors = _root_floors(finder.floors)
    for root in ways:
        cost = PACKING.pack((*costs_of(tree, query, root)[:3], 0, 0))
        assert any(PACKING.no_worse(floor, cost) for floor in floors)


@laws
@given(asked())
def test_no_way_leans_less_than_the_least_leverage(drawn: Asked) -> None:
    """It would be said that nothing stands though something does."""
    tree, query, finder, ways = drawn
    leaning = finder.leaning
    for root in ways:
        pivot = query.pivots.get(root[0])
        if pivot is None:
            assert not leaning.falls()
        else:
            arm = -pivot
            real = leverage_of(tree, root, arm, dry=query.dry)
            assert leaning.least_of_all() <= real

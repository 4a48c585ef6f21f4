"""A bonus earned jointly, against a judge that tries every assembly of a small toy book."""

from __future__ import annotations

import random
from dataclasses import replace
from itertools import product
from typing import TYPE_CHECKING

import pytest
from tests.support.toys import KINDS, costs_of, every_way, random_query, random_tree

from wickwright.fit.search.jointly import NONE, Jointly, solve_jointly
from wickwright.fit.search.memory import Memory
from wickwright.fit.search.query import Aim, Found

if TYPE_CHECKING:
    from wickwright.fit.search.query import Query
    from wickwright.fit.search.tree import Node, Tree

ALL = (Aim.PRICE, Aim.BOUGHT, Aim.DYING, Aim.SHORTFALL)


def _dark(tree: Tree, kinds: tuple[int, ...]) -> Tree:
    """Take the bonus of some kinds away."""
    candidates = [replace(it, bonus=0) if it.kind in kinds else it for it in tree.candidates]
    return replace(tree, candidates=candidates, groups={})


def _random_jointly(rng: random.Random, tree: Tree) -> Jointly:
    """Put the candidates of three kinds into sorts that earn anything at all together."""
    kinds = tuple(rng.sample(range(1, KINDS), k=3))
    sorts = []
    for kind in kinds:
        numbers = [n for n, it in enumerate(tree.candidates) if it.kind == kind]
        cut = rng.randint(0, len(numbers))
        sorts.append(tuple(frozenset(some) for some in (numbers[:cut], numbers[cut:]) if some))
    picks = product(*(range(NONE, len(some)) for some in sorts))
    points = {pick: rng.randint(-4, 9) for pick in picks if rng.random() < 0.9}
    return Jointly(kinds, tuple(sorts), points)


def _placed(node: Node) -> set[int]:
    return {node[0]}.union(*(_placed(child) for child in node[2] if child is not None))


def _earned(jointly: Jointly, node: Node) -> int | None:
    """Look up what a filling earns, sort by sort."""
    placed = _placed(node)
    pick = tuple(
        next((at for at, sort in enumerate(some) if sort & placed), NONE) for some in jointly.sorts
    )
    return jointly.points.get(pick)


def _judged(tree: Tree, query: Query, jointly: Jointly) -> set[tuple[int, ...]]:
    """Compare all ways pair by pair, the joint bonus counted."""
    most = query.most.get(Aim.SHORTFALL, 999)
    costs = set()
    for node in every_way(tree, replace(query, most={})):
        price, bought, dying, shortfall, _ = costs_of(tree, query, node)
        earned = _earned(jointly, node)
        if earned is not None and shortfall - earned <= most:
            costs.add((price, bought, dying, shortfall - earned, 0))
    return {
        one
        for one in costs
        if not any(
            other != one and all(a <= b for a, b in zip(other, one, strict=True)) for other in costs
        )
    }


@pytest.mark.parametrize("block", range(4))
def test_no_unbeaten_way_is_lost_where_kinds_earn_jointly(block: int) -> None:
    """If this failed, a brighter lamp would be left out because its light is no sum."""
    several = 0
    for seed in range(block * 35, block * 35 + 35):
        rng = random.Random(seed)
        tree = random_tree(rng, 3)
        for _ in range(3):
            jointly = _random_jointly(rng, tree)
            query = replace(random_query(rng, tree), aims=ALL)
            dark = _dark(tree, jointly.kinds)
            outcome = solve_jointly(Memory(dark), query, jointly)
            assert isinstance(outcome, Found)
            found = [way.costs for way in outcome.ways]
            assert sorted(found) == sorted(_judged(dark, query, jointly)), f"seed {seed}"
            several += len(found) > 1
    assert several > 5


def test_whether_there_is_any_way_is_told_alike() -> None:
    """If this failed, a caller would be told that no lamp is bright enough when one is."""
    answers = {True: 0, False: 0}
    for seed in range(400):
        rng = random.Random(seed)
        tree = random_tree(rng, 3)
        jointly = _random_jointly(rng, tree)
        query = replace(
            random_query(rng, tree),
            aims=(Aim.SHORTFALL,),
            most={Aim.SHORTFALL: -rng.randint(0, 12)},
        )
        dark = _dark(tree, jointly.kinds)
        outcome = solve_jointly(Memory(dark), query, jointly)
        assert isinstance(outcome, Found)
        answer = bool(outcome.ways)
        assert answer == bool(_judged(dark, query, jointly)), f"seed {seed}"
        answers[answer] += 1
    assert min(answers.values()) > 20


def test_what_earlier_picks_left_in_the_memory_changes_no_answer() -> None:
    """If this failed, an answer on light would depend on what was asked before it."""
    for seed in range(40):
        rng = random.Random(seed)
        tree = random_tree(rng, 3)
        first = _random_jointly(rng, tree)
        second = replace(first, points={pick: rng.randint(-4, 9) for pick in first.points})
        shared = Memory(_dark(tree, first.kinds))
        for jointly in (first, second):
            query = replace(random_query(rng, tree), aims=ALL)
            warm = solve_jointly(shared, query, jointly)
            cold = solve_jointly(Memory(_dark(tree, first.kinds)), query, jointly)
            assert isinstance(warm, Found)
            assert isinstance(cold, Found)
            assert [way.costs for way in warm.ways] == [way.costs for way in cold.ways]

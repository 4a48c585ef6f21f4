"""The route search against a judge that tries every assembly of a small toy book."""

from __future__ import annotations

import random

import pytest
from tests.support.toys import costs_of, every_way, judge_front, random_query, random_tree

from wickwright.fit.search.memory import Memory
from wickwright.fit.search.possible import possible
from wickwright.fit.search.query import Found
from wickwright.fit.search.solve import solve, stands


@pytest.mark.parametrize("block", range(8))
def test_every_unbeaten_way_and_no_other_is_found(block: int) -> None:
    """If this fails, a caller is shown a route that is beaten, or not shown the best one."""
    answered = 0
    for seed in range(block * 60, block * 60 + 60):
        rng = random.Random(seed)
        tree = random_tree(rng, 4)
        memory = Memory(tree)
        for _ in range(3):
            query = random_query(rng, tree)
            outcome = solve(memory, query)
            assert isinstance(outcome, Found)
            found = [way.costs for way in outcome.ways]
            assert sorted(found) == sorted(judge_front(tree, query)), f"seed {seed}"
            answered += bool(found)
    assert answered > 20


def test_witnesses_cost_what_they_say_and_stand() -> None:
    """If this fails, a route's parts do not add up to its price, or the lamp it ends in tips."""
    checked = 0
    for seed in range(200, 300):
        rng = random.Random(seed)
        tree = random_tree(rng, 4)
        query = random_query(rng, tree)
        outcome = solve(Memory(tree), query)
        assert isinstance(outcome, Found)
        for way in outcome.ways:
            assert costs_of(tree, query, way.root) == way.costs
            assert stands(tree, query, way.root)
            assert way.root in set(every_way(tree, query))
            checked += 1
    assert checked > 30


def test_memory_of_earlier_queries_changes_no_answer() -> None:
    """If this fails, an answer depends on what was asked before it."""
    for seed in range(60):
        rng = random.Random(seed)
        tree = random_tree(rng, 4)
        shared = Memory(tree)
        for _ in range(6):
            query = random_query(rng, tree)
            warm, cold = solve(shared, query), solve(Memory(tree), query)
            assert isinstance(warm, Found)
            assert isinstance(cold, Found)
            assert [way.costs for way in warm.ways] == [way.costs for way in cold.ways]


def test_possible_says_yes_exactly_when_there_is_a_way() -> None:
    """If this fails, a caller is told that nothing can be done when something can."""
    answers = {True: 0, False: 0}
    for seed in range(500):
        rng = random.Random(seed)
        tree = random_tree(rng, 4)
        memory = Memory(tree)
        for _ in range(3):
            query = random_query(rng, tree)
            answer = possible(memory, query)
            assert answer == bool(judge_front(tree, query)), f"seed {seed}"
            answers[answer] += 1
    assert min(answers.values()) > 100

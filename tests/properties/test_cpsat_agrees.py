"""The best of all unbeaten ways against a general solver, on trees too large to try all."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest
from tests.support.cpsat import cheapest
from tests.support.toys import random_query, random_tree

from wickwright.fit.search.memory import Memory
from wickwright.fit.search.query import Aim, Found
from wickwright.fit.search.solve import solve

AIMS = (Aim.PRICE, Aim.BOUGHT, Aim.DYING, Aim.SHORTFALL)


@pytest.mark.parametrize("block", range(4))
def test_the_best_weighted_way_is_that_of_a_general_solver(block: int) -> None:
    """In a book of real size the best route would be missed, or one shown that is none."""
    answered = []
    for seed in range(block * 10, block * 10 + 10):
        rng = random.Random(seed)
        tree = random_tree(rng, rng.randint(8, 12))
        query = replace(random_query(rng, tree), aims=AIMS)
        outcome = solve(Memory(tree), query)
        assert isinstance(outcome, Found)
        weights = {aim: rng.randint(0, 9) for aim in AIMS}
        sums = [sum(weights[aim] * way.costs[aim] for aim in AIMS) for way in outcome.ways]
        assert min(sums, default=None) == cheapest(tree, query, weights), f"seed {seed}"
        answered.append(bool(sums))
    assert set(answered) == {True, False}

"""One tree put together for low leverage, against the least leverage of every tree."""

from __future__ import annotations

import random
from dataclasses import replace

from tests.support.toys import random_query, random_tree

from wickwright.fit.search.least import Least
from wickwright.fit.search.memory import Memory
from wickwright.fit.search.prover import Prover
from wickwright.fit.search.witness import Witness


def test_where_one_tree_stands_some_tree_does() -> None:
    """If this fails, a caller is told that a lamp can be made that would tip over."""
    shown = standing = 0
    for seed in range(1500):
        rng = random.Random(seed)
        tree = random_tree(rng, 4)
        query = replace(random_query(rng, tree), most={}, aims=())
        if not query.pivots:
            continue
        prover = Prover(Memory(tree), query)
        for context in prover.openings():
            some, every = Witness(prover).stands(context), Least(prover).balances(context)
            assert every or not some, f"seed {seed}"
            shown, standing = shown + some, standing + every
    assert standing > 100
    assert shown > 0.8 * standing

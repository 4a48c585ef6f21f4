"""How much a weight in the book should count for beside closed cases.

Run as ``python benchmarks/shares.py [--draws N]``. The true shares of causes are off the book's by
noise on their log-odds; shares learned from sure cases are compared with the truth, once with a
strength of so many cases for all causes, once with as many as it takes to find a cause so often.
"""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

import numpy as np

from wickwright.chance.learning import beta_mean

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.chance.arrays import Floats

_MANY = {14: 1, 12: 1, 10: 1, 6: 1, 5: 2, 4: 5, 3: 8, 2: 11, 1: 3}
BOOK = np.repeat(np.array(list(_MANY), dtype=np.float64), list(_MANY.values()))
"""Weights as a book of mantle lamps has them, of a hundred [-]: made up."""
ALL, FINDS = (10.0, 30.0, 100.0, 300.0), (1.0, 2.0, 3.0, 5.0, 10.0)


def _off(book: Floats, spread: float, rng: np.random.Generator) -> Floats:
    moved = 1.0 / (1.0 + (1.0 - book) / book * np.exp(-spread * rng.standard_normal(book.shape)))
    found: Floats = moved / moved.sum()
    return found


def _divergence(truth: Floats, said: Floats) -> float:
    return float(truth @ np.log(truth / (said / said.sum())))


def main(arguments: Sequence[str] | None = None) -> None:
    """Print the mean divergence from the truth, by how far the book is off and by cases."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--draws", type=int, default=400)
    options.add_argument("--seed", type=int, default=1)
    given = options.parse_args(arguments)
    book, rng = BOOK / BOOK.sum(), np.random.default_rng(given.seed)
    names = ["book", *(f"all {s:g}" for s in ALL), *(f"found {f:g}" for f in FINDS)]
    print("off   cases " + "".join(f"{name:>9}" for name in names))
    for off in (0.25, 0.5, 1.0):
        for cases in (20, 75, 200, 1000):
            told = []
            for _ in range(given.draws):
                truth = _off(book, off, rng)
                hits = rng.multinomial(cases, truth).astype(np.float64)
                trials = np.full_like(hits, cases)
                strengths = [*(np.full_like(book, s) for s in ALL), *(f / book for f in FINDS)]
                said = [book, *(beta_mean(book, s, hits, trials) for s in strengths)]
                told.append([_divergence(truth, one) for one in said])
            means = np.mean(told, axis=0)
            print(f"{off:<6}{cases:5} " + "".join(f"{mean:9.3f}" for mean in means))


if __name__ == "__main__":
    main()

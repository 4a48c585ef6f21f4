"""The label merge against published nondominated sets of knapsack instances.

The instances are those of the open data set *mobkp-instances* (MIT licence, doi
10.5281/zenodo.15038574): multi-objective 0-1 knapsack problems with all their nondominated
points. They are kept outside the project, in the folder that the environment variable
``WICKWRIGHT_OUTSIDE`` names, or in ``shared/data`` beside the project, below ``pareto``.
Without that folder these tests are left out and say so.
"""

from __future__ import annotations

import os
import random
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from wickwright.fit.search.labels import Packing, nondominated

if TYPE_CHECKING:
    from collections.abc import Iterator

pytestmark = pytest.mark.outside

ROOT = Path(__file__).parents[2]
FOLDER = Path(os.environ.get("WICKWRIGHT_OUTSIDE", ROOT.parent / "shared" / "data")) / "pareto"

QUICK = (
    "positive-3D-20_10_0.250000",
    "positive-3D-20_5_0.800000",
    "positive-3D-20_9_0.800000",
    "positive-3D-25_10_0.250000",
    "positive-3D-25_1_0.800000",
    "positive-4D-25_4_4_0.800000",
    "random-3D-20_1",
    "random-3D-20_5",
    "random-4D-20_7",
    "random-4D-25_1",
    "random-4D-25_4",
    "random-5D-10_1",
    "random-5D-10_10",
)
SLOW = ("positive-3D-25_2_0.100000", "positive-3D-25_6_0.100000")
"""Worked out in full, in a good while."""

MERGED_ONLY = (
    "negative-3D-25_10_-0.450000",
    "negative-3D-25_3_-0.450000",
    "negative-3D-25_7_-0.250000",
)
"""Agreed when worked out in full once, in one to four minutes each: over ten thousand labels stay
unbeaten at once. Their published points are merged with other packings instead."""


@dataclass(frozen=True)
class Instance:
    """Items as weight and values, the capacity, and the published points."""

    items: tuple[tuple[int, ...], ...]
    capacity: int
    points: frozenset[tuple[int, ...]]

    @property
    def packing(self) -> Packing:
        """Room for a weight and for each value."""
        return Packing.of([20] * len(self.items[0]))


def _read(name: str) -> Instance:
    path = FOLDER / f"{name}.in"
    if not path.exists():
        pytest.skip(f"the published instances are not there: no {path.name} in {FOLDER}")
    numbers = map(int, path.read_text().split())
    many, values, capacity = next(numbers), next(numbers), next(numbers)
    items = tuple(_row(numbers, values + 1) for _ in range(many))
    points = frozenset(_row(numbers, values) for _ in range(next(numbers)))
    assert next(numbers, None) is None
    return Instance(items, capacity, points)


def _row(numbers: Iterator[int], length: int) -> tuple[int, ...]:
    return tuple(next(numbers) for _ in range(length))


def _values(instance: Instance, labels: list[int]) -> set[tuple[int, ...]]:
    return {tuple(-cost for cost in instance.packing.unpack(one)[1:]) for one in labels}


def _worked_out(instance: Instance) -> list[int]:
    """Leave or pack one item after the other, within the capacity, and merge each time.

    Where all that is left can still be packed, lighter is no better.
    """
    packing = instance.packing
    unit = 1 << packing.shifts[0]
    rest = sum(weight for weight, *_ in instance.items)
    front = [(0, 0)]
    for weight, *values in sorted(instance.items, key=lambda item: -sum(item[1:]) / item[0]):
        added = packing.pack((0, *(-value for value in values)))
        rest -= weight
        packed = [(w + weight, v + added) for w, v in front if w + weight <= instance.capacity]
        light = max(0, instance.capacity - rest)
        heap = [max(w, light) * unit + v for w, v in (*front, *packed)]
        front = [_split(packing, label) for label in nondominated(heap, packing.guards)]
    return nondominated([values for _, values in front], packing.guards)


def _split(packing: Packing, label: int) -> tuple[int, int]:
    """Weight, and the label without it."""
    weight = packing.unpack(label)[0]
    return weight, label - (weight << packing.shifts[0])


@pytest.mark.parametrize(
    "name", [*QUICK, *(pytest.param(name, marks=pytest.mark.slow) for name in SLOW)]
)
def test_the_published_set_is_reproduced(name: str) -> None:
    """A way that nothing beats would be lost in merging, or a beaten one kept."""
    instance = _read(name)
    assert _values(instance, _worked_out(instance)) == instance.points


def _some_packings(instance: Instance, many: int) -> Iterator[tuple[int, ...]]:
    """Values of random packings that leave no room for one more item of those looked at."""
    rng = random.Random(1)
    for _ in range(many):
        room, total = instance.capacity, [0] * (len(instance.items[0]) - 1)
        for weight, *values in rng.sample(instance.items, len(instance.items)):
            if weight <= room:
                room -= weight
                total = [a + b for a, b in zip(total, values, strict=True)]
        yield tuple(total)


@pytest.mark.parametrize("name", [*QUICK, *SLOW, *MERGED_ONLY])
def test_no_other_packing_survives_beside_the_published_points(name: str) -> None:
    """A beaten way would survive the merge, or a point that nothing beats go under in it."""
    instance = _read(name)
    packing = instance.packing
    found = {*instance.points, *_some_packings(instance, 1500)}
    assert len(found) > len(instance.points)
    labels = [packing.pack((0, *(-value for value in values))) for values in found]
    assert _values(instance, nondominated(labels, packing.guards)) == instance.points

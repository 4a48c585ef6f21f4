"""Everything that can happen to a small broken thing, one outcome at a time, as judge of a repair.

An outcome fixes which causes hold, which of them make the complaint, whether it comes without a
cause, and which cures would work. No formula of the program is used.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations, permutations, product
from typing import TYPE_CHECKING

import numpy as np
from hypothesis import strategies as st

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

__all__ = ["Outcome", "Thing", "cheapest", "outcomes", "sets_up_to", "spent", "things"]


@dataclass(frozen=True)
class Thing:
    """Chances of causes, of the complaint by each, without any, and of each cure; and costs."""

    prior: tuple[float, ...]
    links: tuple[float, ...]
    leak: float
    cures: tuple[tuple[float, ...], ...]
    cost: tuple[float, ...]


@dataclass(frozen=True)
class Outcome:
    """One outcome: its weight, the causes that hold, what keeps the complaint, who cures what."""

    weight: float
    causes: tuple[bool, ...]
    active: tuple[int, ...]
    leaks: bool
    cured: tuple[frozenset[int], ...]

    def broken(self, done: Sequence[int]) -> bool:
        """Tell whether the complaint is there after these acts."""
        gone = frozenset[int]().union(*(self.cured[act] for act in done))
        return self.leaks or any(cause not in gone for cause in self.active)


def _chance(yes: float, happens: bool) -> float:  # noqa: FBT001 - an outcome, not a switch
    return yes if happens else 1.0 - yes


def _cures(chances: Sequence[float]) -> Iterator[tuple[float, frozenset[int]]]:
    may = [cause for cause, chance in enumerate(chances) if chance > 0.0]
    for works in product((True, False), repeat=len(may)):
        weight = float(np.prod([_chance(chances[c], w) for c, w in zip(may, works, strict=True)]))
        yield weight, frozenset(c for c, w in zip(may, works, strict=True) if w)


def outcomes(thing: Thing) -> list[Outcome]:
    """Return every outcome in which the complaint is there at first, weights summing to 1."""
    causes = range(len(thing.prior))
    found = []
    for holds, leaks in product(product((True, False), repeat=len(thing.prior)), (True, False)):
        base = _chance(thing.leak, leaks)
        base *= float(np.prod([_chance(thing.prior[c], holds[c]) for c in causes]))
        held = [cause for cause in causes if holds[cause]]
        for acting in product((True, False), repeat=len(held)):
            noise = [_chance(thing.links[c], a) for c, a in zip(held, acting, strict=True)]
            active = tuple(c for c, a in zip(held, acting, strict=True) if a)
            for choice in product(*(list(_cures(row)) for row in thing.cures)):
                weight = base * float(np.prod(noise)) * float(np.prod([w for w, _ in choice]))
                found.append(Outcome(weight, holds, active, leaks, tuple(c for _, c in choice)))
    there = [one for one in found if one.broken(()) and one.weight > 0.0]
    total = sum(one.weight for one in there)
    return [
        Outcome(one.weight / total, one.causes, one.active, one.leaks, one.cured) for one in there
    ]


def spent(thing: Thing, found: Sequence[Outcome], order: Sequence[int], hand_over: float) -> float:
    """Return what an order costs on average, the hand-over after it."""
    total = 0.0
    for one in found:
        done: list[int] = []
        for act in order:
            if not one.broken(done):
                break
            total += one.weight * thing.cost[act]
            done.append(act)
        total += one.weight * hand_over * one.broken(done)
    return total


def cheapest(thing: Thing, found: Sequence[Outcome], hand_over: float) -> float:
    """Return the cost of the cheapest of all orders of all choices of acts."""
    acts = range(len(thing.cost))
    plans = (plan for size in range(len(acts) + 1) for plan in permutations(acts, size))
    return min(spent(thing, found, plan, hand_over) for plan in plans)


def sets_up_to(causes: int, most: int) -> list[frozenset[int]]:
    """Return every set of causes up to a size, by size and then in order."""
    return [
        frozenset(chosen)
        for size in range(min(causes, most) + 1)
        for chosen in combinations(range(causes), size)
    ]


_ANY = st.sampled_from([0.0, 0.1, 0.35, 0.6, 0.9, 1.0])
_SOME = st.sampled_from([0.05, 0.2, 0.45, 0.8])


@st.composite
def things(draw: st.DrawFn, causes: int = 3, acts: int = 3) -> Thing:
    """Draw a thing of a few causes whose complaint can occur."""
    cures = draw(
        st.lists(
            st.lists(st.sampled_from([0.0, 0.0, 0.7, 1.0]), min_size=causes, max_size=causes),
            min_size=acts,
            max_size=acts,
        )
    )
    return Thing(
        tuple(draw(st.lists(_SOME, min_size=causes, max_size=causes))),
        tuple(draw(st.lists(_ANY, min_size=causes, max_size=causes))),
        draw(st.sampled_from([0.02, 0.3])),
        tuple(tuple(row) for row in cures),
        tuple(draw(st.lists(st.floats(1.0, 30.0), min_size=acts, max_size=acts))),
    )

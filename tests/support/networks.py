"""Exact inference in a discrete network by eliminating variables, in floats or in fractions.

The judge of the program's own inference, which only ever enumerates hypotheses.
"""

from __future__ import annotations

import gzip
import importlib.util
import re
from dataclasses import dataclass
from fractions import Fraction
from functools import reduce
from itertools import product
from pathlib import Path
from typing import TYPE_CHECKING, TypeAlias

import numpy as np
from numpy.typing import NDArray

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

__all__ = ["Factor", "Network", "noisy_or_network", "read_bif", "shipped"]

Numbers: TypeAlias = NDArray[np.object_]

_VARIABLE = re.compile(r"variable (\w+) \{\s*type discrete \[ \d+ \] \{ ([^}]*) \};")
_TABLE = re.compile(r"probability \( (\w+)(?: \| ([^)]*))? \) \{(.*?)\}", re.DOTALL)
_ROW = re.compile(r"(?:\(([^)]*)\)|table) ([^;]*);")


@dataclass(frozen=True)
class Factor:
    """A table over named variables, one axis each."""

    names: tuple[str, ...]
    table: Numbers

    def times(self, other: Factor) -> Factor:
        """Return the product, over the variables of both."""
        names = self.names + tuple(name for name in other.names if name not in self.names)
        return Factor(names, np.asarray(self.over(names) * other.over(names), dtype=object))

    def over(self, names: tuple[str, ...]) -> Numbers:
        """Return the table with an axis for each of these names, of length 1 where it has none."""
        order = [self.names.index(name) for name in names if name in self.names]
        lengths = [
            self.table.shape[self.names.index(name)] if name in self.names else 1 for name in names
        ]
        return self.table.transpose(order).reshape(lengths)

    def without(self, name: str) -> Factor:
        """Return the table summed over a variable."""
        axis = self.names.index(name)
        kept = self.names[:axis] + self.names[axis + 1 :]
        return Factor(kept, np.asarray(self.table.sum(axis=axis), dtype=object))

    def at(self, name: str, state: int) -> Factor:
        """Return the table where a variable has a state."""
        if name not in self.names:
            return self
        axis = self.names.index(name)
        kept = self.names[:axis] + self.names[axis + 1 :]
        return Factor(kept, np.asarray(np.take(self.table, state, axis=axis), dtype=object))


@dataclass(frozen=True)
class Network:
    """States of each variable, and one table each."""

    states: Mapping[str, tuple[str, ...]]
    factors: tuple[Factor, ...]

    def joint(self, wanted: Sequence[str], seen: Mapping[str, str]) -> Factor:
        """Return P(wanted, seen), axes in the order wanted."""
        factors = list(self.factors)
        for name, state in seen.items():
            factors = [factor.at(name, self.states[name].index(state)) for factor in factors]
        hidden = [name for name in self.states if name not in wanted and name not in seen]
        while hidden:
            name = min(hidden, key=lambda one: (_width(one, factors), one))
            hidden.remove(name)
            with_it = [factor for factor in factors if name in factor.names]
            factors = [factor for factor in factors if name not in factor.names]
            factors.append(reduce(Factor.times, with_it).without(name))
        whole = reduce(Factor.times, factors)
        return Factor(tuple(wanted), whole.over(tuple(wanted)))

    def chance(self, seen: Mapping[str, str]) -> Fraction | float:
        """Return P(seen)."""
        found: Fraction | float = self.joint((), seen).table.item()
        return found

    def posterior(self, name: str, seen: Mapping[str, str]) -> list[Fraction | float]:
        """Return P(name | seen), state by state."""
        table = self.joint((name,), seen).table
        return [value / table.sum() for value in table.tolist()]


def _width(name: str, factors: Sequence[Factor]) -> int:
    return len({other for factor in factors if name in factor.names for other in factor.names})


def _words(text: str) -> tuple[str, ...]:
    return tuple(word.strip() for word in text.split(","))


def read_bif(text: str) -> Network:
    """Read a network in the BIF format as fractions; rows that sum to 0.9999999 are put right."""
    states = {name: _words(words) for name, words in _VARIABLE.findall(text)}
    return Network(states, tuple(_factor(states, *found) for found in _TABLE.findall(text)))


def _factor(states: Mapping[str, tuple[str, ...]], name: str, given: str, body: str) -> Factor:
    parents = _words(given) if given else ()
    table = np.empty([len(states[one]) for one in (*parents, name)], dtype=object)
    for condition, numbers in _ROW.findall(body):
        place = zip(parents, _words(condition), strict=True) if condition else ()
        values = [Fraction(word) for word in _words(numbers)]
        index = tuple(states[parent].index(state) for parent, state in place)
        for column, value in enumerate(values):
            table[(*index, column)] = value / sum(values)
    return Factor((*parents, name), table)


def shipped(name: str) -> Network:
    """Read a published network that comes inside an installed library; nothing is fetched."""
    spec = importlib.util.find_spec("pgmpy")
    assert spec is not None
    assert spec.origin is not None
    path = Path(spec.origin).parent / "utils" / "example_models" / f"{name}.bif.gz"
    with gzip.open(path, "rt", encoding="utf-8") as file:
        return read_bif(file.read())


def noisy_or_network(
    prior: Sequence[float], links: Sequence[Sequence[float]], leak: Sequence[float]
) -> Network:
    """Return causes and signs as full tables, worked out term by term."""
    states = {f"c{k}": ("no", "yes") for k in range(len(prior))}
    factors = [
        Factor((f"c{k}",), np.array([1 - chance, chance], dtype=object))
        for k, chance in enumerate(prior)
    ]
    for j, row in enumerate(links):
        states[f"s{j}"] = ("no", "yes")
        parents = [k for k, link in enumerate(row) if link > 0]
        table = np.empty([2] * (len(parents) + 1), dtype=object)
        for holds in product((0, 1), repeat=len(parents)):
            quiet = 1 - leak[j]
            for k, held in zip(parents, holds, strict=True):
                quiet = quiet * (1 - row[k]) if held else quiet
            table[(*holds, 0)], table[(*holds, 1)] = quiet, 1 - quiet
        factors.append(Factor((*(f"c{k}" for k in parents), f"s{j}"), table))
    return Network(states, tuple(factors))

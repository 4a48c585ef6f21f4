"""Drawing the numbers of an invented book: ladders of sizes, prices, weights, ports."""

from __future__ import annotations

import random
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, TypeVar

from wickwright.catalogue.records import Need, Part, Port, Side, Status
from wickwright.terms.dimension import parse_dimension

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from benchmarks.routes.scale import Scale

    from wickwright.catalogue.records import Fuel, Service, Support
    from wickwright.terms.dimension import Dimension

__all__ = ["Draw", "Ladder", "Size", "carries", "stands"]

Thing = TypeVar("Thing")


@dataclass(frozen=True, slots=True)
class Size:
    """One size of a joint.

    Attributes
    ----------
    label : str
        The maker's size label.
    at : float
        The carrying side's nominal [mm].
    offsets : tuple of float
        What each revision of the drawing adds [mm].
    words, numbers : mapping
        What both sides have in common.
    """

    label: str
    at: float
    offsets: tuple[float, ...]
    words: Mapping[str, str] = field(default_factory=dict)
    numbers: Mapping[str, float] = field(default_factory=dict)


Ladder = tuple[Size, ...]
"""The sizes a joint comes in, commonest first."""


class Draw:
    """Everything random about a book, from one seed.

    Parameters
    ----------
    scale : Scale
        The size of the book.
    seed : int
        Same seed, same book.
    """

    def __init__(self, scale: Scale, seed: int) -> None:
        self.scale = scale
        self.rng = random.Random(f"{scale.name} {seed}")
        self.made: dict[str, int] = {}

    def common(self, things: Sequence[Thing]) -> Thing:
        """Return one of the things, the first ones more often."""
        weights = [1.0 / (1 + at) ** 0.6 for at in range(len(things))]
        return self.rng.choices(things, weights)[0]

    def between(self, low: float, high: float) -> float:
        """Return a number, anywhere between two."""
        return self.rng.uniform(low, high)

    def about(self, usual: float, share: float = 0.15) -> float:
        """Return a number near a usual one."""
        return usual * self.rng.uniform(1 - share, 1 + share)

    def happens(self, chance: float) -> bool:
        """Return whether something happens."""
        return self.rng.random() < chance

    def offset(self, size: Size) -> float:
        """Return what a revision of a drawing adds [mm], older ones as often as newer."""
        return self.rng.choice(size.offsets)

    def part(
        self,
        kind: str,
        ports: Sequence[Port],
        *,
        price: tuple[float, float],
        mass: float,
        height: float,
        material: str,
        service: Service | None = None,
        light: int = 0,
        heat: float = 0.0,
        heat_rating: float | None = None,
        least_chimney: float | None = None,
        fuel: Fuel | None = None,
        support: Support | None = None,
        centre: float | None = None,
    ) -> Part:
        """Make a part; mass in g, height and centre in mm, price in whole coins."""
        number = self.made[kind] = self.made.get(kind, 0) + 1
        status = self.rng.choices(tuple(Status), (0.58, 0.2, 0.22))[0]
        known = status is not Status.GONE or self.happens(0.2)
        first = self.rng.randint(1905, 2015)
        return Part(
            id=f"{kind[:3].upper()}-{number:05}",
            name=f"{kind.capitalize()} {number}",
            kind=kind,
            first=first,
            last=None if status is Status.MADE else min(2024, first + self.rng.randint(3, 50)),
            status=status,
            price=round(self.between(*price) * 20) * 5 if known else None,
            stock=self.rng.randint(0, 12) if status is Status.STOCKS else None,
            mass=round(mass) / 1000,
            height=round(height) / 1000,
            centre=round(height * self.between(0.42, 0.55) if centre is None else centre) / 1000,
            material=material,
            heat_rating=heat_rating,
            service=service,
            heat=heat,
            least_chimney=least_chimney,
            light=light,
            support=support,
            fuel=fuel,
            ports=tuple(ports),
        )

    def each(self, kind: str) -> range:
        """Return one turn for each part of a kind."""
        return range(self.scale.parts[kind])


def _length(at: float, tolerance: float) -> Dimension:
    return parse_dimension(f"{at:.2f} ± {tolerance:g} mm")


def _sizes(at: float | None, tolerance: float, capture: float | None) -> dict[str, Dimension]:
    sizes: dict[str, Dimension] = {}
    if at is not None:
        sizes["diameter"] = _length(at, tolerance)
    if capture is not None:
        sizes["capture"] = parse_dimension(f"{capture - 0.7:.2f}..{capture + 0.7:.2f} mm")
    return sizes


def carries(
    name: str,
    joint: str,
    takes: tuple[str, ...],
    size: Size,
    at: float | None,
    *,
    need: Need = Need.REQUIRED,
    height: float = 0.0,
    tolerance: float = 0.1,
    capture: float | None = None,
    sizes: Mapping[str, Dimension] | None = None,
    numbers: Mapping[str, float] | None = None,
) -> Port:
    """Make a carrying port; diameters and height in mm."""
    return Port(
        name,
        Side.CARRIES,
        joint,
        takes,
        need,
        round(height) / 1000,
        size.label,
        {**_sizes(at, tolerance, capture), **(sizes or {})},
        size.words,
        {**size.numbers, **(numbers or {})},
    )


def stands(
    name: str,
    joint: str,
    size: Size,
    at: float | None,
    *,
    height: float = 0.0,
    tolerance: float = 0.1,
    sizes: Mapping[str, Dimension] | None = None,
    numbers: Mapping[str, float] | None = None,
) -> Port:
    """Make a standing port; diameter and height in mm."""
    return Port(
        name,
        Side.STANDS,
        joint,
        height=round(height) / 1000,
        label=size.label,
        sizes={**_sizes(at, tolerance, None), **(sizes or {})},
        words=size.words,
        numbers={**size.numbers, **(numbers or {})},
    )

"""Who fits where, part by part, for the judges: found from the joints alone.

Nothing of the route search or of its classes of ports is used, so that a fault in either
shows.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.catalogue.records import KINDS, Need, Side
from wickwright.fit.joints import judge
from wickwright.fit.joints.verdict import ACCEPTED, Fit, Half
from wickwright.fit.search.query import Aim, How
from wickwright.fit.search.tree import Admits

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from wickwright.catalogue.records import Part, Port
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.search.query import Query
    from wickwright.fit.search.tree import Candidate
    from wickwright.fit.settings import Settings

__all__ = ["Case", "Fitting", "Slot", "fitting_of", "unbeaten"]

Costs = tuple[int, int, int, int]
"""Price, parts bought, parts on their way out, minus the light."""


@dataclass(frozen=True, slots=True)
class Slot:
    """A place on a part.

    Attributes
    ----------
    fits : frozenset of int
        Parts that fit there.
    required : bool
        Whether it must be filled.
    rise : int
        Height above the foot of the part that carries it.
    reach : frozenset of int
        Kinds that can stand in or above it.
    """

    fits: frozenset[int]
    required: bool
    rise: int
    reach: frozenset[int]


@dataclass(frozen=True, slots=True)
class Fitting:
    """A book for a judge: numbers of every part, and its places."""

    parts: Sequence[Candidate]
    slots: Sequence[tuple[Slot, ...]]
    bases: frozenset[int]


def fitting_of(compiled: Compiled, accepted: frozenset[Fit] = ACCEPTED) -> Fitting:
    """Judge every part against every other that its port takes.

    Parameters
    ----------
    compiled : Compiled
        For its parts, their weights in whole numbers and the settings; not for its classes.
    accepted : frozenset of Fit
        Verdicts with which a part is let in.

    Returns
    -------
    Fitting
        The book, part by part.
    """
    stand = _standing(compiled.parts)
    reach = _reach(compiled.parts)
    judging = _Judge(compiled.settings, accepted, {})
    known: dict[object, frozenset[int]] = {}
    numbers = {kind: at for at, kind in enumerate(KINDS)}
    slots: list[tuple[Slot, ...]] = []
    for part, candidate in zip(compiled.parts, compiled.tree.candidates, strict=True):
        mine: list[Slot] = []
        for port, rise in zip(part.carries, candidate.rises, strict=True):
            key = (_port_key(part, port), port.takes)
            if key not in known:
                known[key] = _fits(part, port, stand, judging)
            kinds = frozenset(numbers[kind] for kind in reach[port.takes])
            mine.append(Slot(known[key], port.need is Need.REQUIRED, rise, kinds))
        slots.append(tuple(mine))
    bases = frozenset(at for at, part in enumerate(compiled.parts) if part.kind == "base")
    return Fitting(compiled.tree.candidates, slots, bases)


_Standing = dict[tuple[str, str], dict[object, tuple["Half", list[int]]]]


def _standing(parts: Iterable[Part]) -> _Standing:
    """By kind and joint, the different ports and who stands by them."""
    found: defaultdict[tuple[str, str], dict[object, tuple[Half, list[int]]]] = defaultdict(dict)
    for number, part in enumerate(parts):
        for port in part.ports:
            if port.side is Side.STANDS:
                ports = found[part.kind, port.joint]
                half: tuple[Half, list[int]] = (Half(port, part.material), [])
                ports.setdefault(_port_key(part, port), half)[1].append(number)
    return found


def _port_key(part: Part, port: Port) -> object:
    sizes = tuple(sorted((name, size.text) for name, size in port.sizes.items()))
    words = tuple(sorted(port.words.items())) + tuple(sorted(port.numbers.items()))
    return port.joint, part.material, port.label, sizes, words


@dataclass(frozen=True, slots=True)
class _Judge:
    """Judges pairs of ports, each once."""

    settings: Settings
    accepted: frozenset[Fit]
    judged: dict[tuple[object, object], bool]

    def fits(self, carrier: tuple[object, Half], stander: tuple[object, Half]) -> bool:
        """Tell whether two ports go together."""
        key = (carrier[0], stander[0])
        found = self.judged.get(key)
        if found is None:
            warmth = self.settings.warmth(carrier[1].port.joint)
            verdict = judge(carrier[1], stander[1], warmth)
            found = self.judged[key] = verdict.fit in self.accepted
        return found


def _fits(part: Part, port: Port, standing: _Standing, judged: _Judge) -> frozenset[int]:
    carrier = (_port_key(part, port), Half(port, part.material))
    return frozenset(
        number
        for kind in port.takes
        for key, (half, numbers) in standing.get((kind, port.joint), {}).items()
        if judged.fits(carrier, (key, half))
        for number in numbers
    )


def _reach(parts: Sequence[Part]) -> Mapping[tuple[str, ...], frozenset[str]]:
    """By the kinds a port takes, all kinds that can stand there or above."""
    takes: defaultdict[str, set[str]] = defaultdict(set)
    ports = {port.takes for part in parts for port in part.carries}
    for part in parts:
        for port in part.carries:
            takes[part.kind].update(port.takes)
    reach: dict[tuple[str, ...], frozenset[str]] = {}
    for kinds in ports:
        found, todo = set(kinds), list(kinds)
        while todo:
            more = takes[todo.pop()] - found
            found |= more
            todo.extend(more)
        reach[kinds] = frozenset(found)
    return reach


@dataclass(frozen=True)
class Case:
    """A query as a judge reads it."""

    book: Fitting
    query: Query

    def __post_init__(self) -> None:
        assert self.query.admits is Admits.FITS, "judges answer plain queries only"
        assert not self.query.loose, "judges answer plain queries only"

    @property
    def required(self) -> frozenset[int]:
        """Kinds that must be there."""
        return frozenset(kind for kind in range(len(KINDS)) if self.query.required >> kind & 1)

    @property
    def lit(self) -> frozenset[int]:
        """Kinds that give light, where light is asked for."""
        if Aim.SHORTFALL not in self.query.aims:
            return frozenset()
        return frozenset(it.kind for it in self.book.parts if it.bonus > 0)

    def ways(self, number: int, included: frozenset[int]) -> list[tuple[int, Costs]]:
        """Return how a part can be had, and what it costs each way."""
        query, it = self.query, self.book.parts[number]
        if not query.usable[number]:
            return []
        light = -it.bonus if Aim.SHORTFALL in query.aims else 0
        found: list[tuple[int, Costs]] = []
        if number in query.owned or number in included:
            found.append((int(How.KEPT), (0, 0, it.dying, light)))
        if query.buyable[number]:
            found.append((int(How.BOUGHT), (it.price, 1, it.dying, light)))
        return found

    def asked(self, number: int) -> tuple[int, int]:
        """Return heat and chimney height a part asks of what stands above it."""
        own = self.book.parts[number].demands or (0, 0)
        heat, height = (
            -(-value * up // down) for value, (up, down) in zip(own, self.query.scales, strict=True)
        )
        return heat, height

    def stands_up_to(self, number: int, asked: tuple[int, int]) -> bool:
        """Tell whether a chimney or shade stands what is asked; unknown counts as not."""
        gives = self.book.parts[number].gives
        return not gives or all(
            want <= 0 or have >= want for have, want in zip(gives, asked, strict=False)
        )

    def beside(self, number: int) -> tuple[int, int]:
        """Return the heat of a burner, or what a bell stands; each 0 or plenty for others."""
        gives = self.book.parts[number].gives
        plenty = (1 << 30) - 1
        if len(gives) < 4 or self.query.scales[0][0] == 0:
            return 0, plenty
        return plenty - gives[2], gives[3]


def unbeaten(costs: Iterable[tuple[int, ...]]) -> set[tuple[int, ...]]:
    """Keep the costs that no other beats."""
    kept: list[tuple[int, ...]] = []
    for one in sorted(set(costs)):
        if not any(all(a <= b for a, b in zip(other, one, strict=True)) for other in kept):
            kept.append(one)
    return set(kept)

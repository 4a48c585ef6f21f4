"""What a made-up book is like: classes, choices, and how many lamps merely fit together."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.catalogue.records import KINDS

if TYPE_CHECKING:
    from benchmarks.routes.arena import Arena
    from benchmarks.routes.fitting import Fitting

__all__ = ["Structure", "structure_of"]

_PAIRS = (("burner", "gallery"), ("gallery", "chimney"), ("holder", "shade"))
_NUMBERS = {kind: at for at, kind in enumerate(KINDS)}


@dataclass(frozen=True, slots=True)
class Structure:
    """Measured, not chosen.

    Attributes
    ----------
    lamps, parts, classes : int
        Lamps, parts and socket classes.
    choices : tuple of float
        Mean fitting galleries of a burner, chimneys of a gallery, shades of a holder.
    assemblies : int
        Complete lamps that merely fit, price, heat, draft and balance apart; exact.
    """

    lamps: int
    parts: int
    classes: int
    choices: tuple[float, ...]
    assemblies: int


def structure_of(arena: Arena) -> Structure:
    """Measure a book.

    Parameters
    ----------
    arena : Arena
        The book.

    Returns
    -------
    Structure
        What it is like.
    """
    book = arena.fitting
    return Structure(
        lamps=len(arena.book.lamps),
        parts=len(arena.book.parts),
        classes=len(arena.compiled.tree.sockets),
        choices=tuple(_choice(book, *pair) for pair in _PAIRS),
        assemblies=_Counter(book).all(),
    )


def _choice(book: Fitting, below: str, above: str) -> float:
    found = [
        len(slot.fits)
        for part, slots in zip(book.parts, book.slots, strict=True)
        for slot in slots
        if part.kind == _NUMBERS[below] and _NUMBERS[above] in slot.reach
        if any(book.parts[one].kind == _NUMBERS[above] for one in slot.fits)
    ]
    return sum(found) / len(found)


class _Counter:
    """Counts by the kinds that two places of one part could both hold."""

    def __init__(self, book: Fitting) -> None:
        self.book = book
        self.known: dict[int, dict[int, int]] = {}
        self.places: dict[tuple[int, bool], dict[int, int]] = {}
        self.twice = 0
        for slots in book.slots:
            once: set[int] = set()
            for slot in slots:
                self.twice |= sum(1 << kind for kind in once & slot.reach)
                once |= slot.reach

    def all(self) -> int:
        """Return how many complete lamps there are."""
        return sum(sum(self._on(base).values()) for base in self.book.bases)

    def _on(self, number: int) -> dict[int, int]:
        found = self.known.get(number)
        if found is None:
            total = {(1 << self.book.parts[number].kind) & self.twice: 1}
            for slot in self.book.slots[number]:
                key = (id(slot.fits), slot.required)
                if key not in self.places:
                    self.places[key] = self._in(slot.fits, required=slot.required)
                total = _times(total, self.places[key])
            found = self.known[number] = total
        return found

    def _in(self, fits: frozenset[int], *, required: bool) -> dict[int, int]:
        total: defaultdict[int, int] = defaultdict(int)
        if not required:
            total[0] = 1
        for number in fits:
            for mask, count in self._on(number).items():
                total[mask] += count
        return total


def _times(one: dict[int, int], other: dict[int, int]) -> dict[int, int]:
    total: defaultdict[int, int] = defaultdict(int)
    for mask, count in one.items():
        for more, times in other.items():
            if not mask & more:
                total[mask | more] += count * times
    return total

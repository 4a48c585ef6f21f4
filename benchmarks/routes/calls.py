"""Calls to the desk: a lamp, what was done to it, a wish and a place, drawn from a seed."""

from __future__ import annotations

import random
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.fit.place import Place
from wickwright.fit.request import Request

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickwright.catalogue.records import Book, Lamp, Part, Wish

__all__ = ["Calls"]

_BODY = ("base", "font")
_ODD = 0.35
"""Share of calls about a lamp that is not as it was sold."""


@dataclass
class Calls:
    """Draws calls about a book.

    Attributes
    ----------
    book : Book
        The book.
    seed : int
        Same seed, same calls.
    """

    book: Book
    seed: int

    def __post_init__(self) -> None:
        self._rng = random.Random(f"calls {self.seed}")
        self._lamps = tuple(self.book.lamps.values())
        self._wishes = tuple(self.book.wishes.values())
        self._of_kind: dict[str, list[Part]] = {}
        for part in self.book.parts.values():
            self._of_kind.setdefault(part.kind, []).append(part)

    def __iter__(self) -> Iterator[Request]:
        """Yield calls without end."""
        while True:
            lamp = self._rng.choice(self._lamps)
            sold = [self.book.parts[part] for part in lamp.as_sold]
            wish = self._wish({part.kind for part in sold})
            odd = self._rng.random() < _ODD
            have, lost, bare = self._odd(sold) if odd else ((), (), False)
            yield self._call(lamp, wish, have, lost, bare=bare)

    def _call(
        self, lamp: Lamp, wish: Wish, have: Sequence[str], lost: Sequence[str], *, bare: bool
    ) -> Request:
        return Request(
            lamp=lamp.id,
            wish=wish,
            have=tuple(have),
            lost=tuple(lost),
            bare=bare,
            place=Place(float(self._elevation())),
            count=self._rng.choice((1, 1, 1, 1, 1, 1, 2, 4)),
        )

    def _wish(self, kinds: set[str]) -> Wish:
        """A wish that makes sense for most lamps; now and then one that does not."""
        while True:
            wish = self._rng.choice(self._wishes)
            asked = wish.asks[0]
            if asked.ask != "renew" or asked.kind in kinds or self._rng.random() < 0.1:
                return wish

    def _elevation(self) -> int:
        """Half of the callers live low."""
        low = self._rng.random() < 0.5
        return self._rng.randrange(0, 301, 50) if low else self._rng.randrange(300, 3501, 50)

    def _odd(self, sold: Sequence[Part]) -> tuple[list[str], list[str], bool]:
        """Swap one or two parts for any others of their kind, lose one or two, or find a wreck."""
        loose = [part.kind for part in sold if part.kind not in _BODY]
        if self._rng.random() < 0.12:
            wreck = [part.id for part in sold if part.kind in _BODY or self._rng.random() < 0.4]
            return wreck, [], True
        swapped = self._rng.sample(loose, min(len(loose), self._rng.choice((0, 1, 1, 2))))
        have = [self._rng.choice(self._of_kind[kind]).id for kind in swapped]
        if self._rng.random() < 0.15:
            have.append(self._rng.choice(self._of_kind["holder"]).id)
        lost = self._rng.sample(loose, min(len(loose), self._rng.choice((0, 0, 1, 2))))
        if self._rng.random() < 0.04:
            lost.append("font")
        return have, lost, False

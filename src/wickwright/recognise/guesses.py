"""Every lamp a caller may have: each model as sold, and each with parts that are not its own."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from wickwright.catalogue.records import Book, Lamp
    from wickwright.chance.arrays import Floats, Ints

__all__ = ["DECIDING", "Foreign", "Guess", "Guesses", "OnIt", "guesses", "usual_companions"]

DECIDING = ("base", "font", "burner", "gallery")
"""Kinds that decide what else fits."""

COMPANIONS = ("wick", "spreader", "gallery", "mantle", "chimney")
"""Kinds that come and go with a burner."""


@dataclass(frozen=True, slots=True)
class Foreign:
    """Parts that may be on a lamp in place of its own.

    Attributes
    ----------
    kind : str
        The kind that was changed, and that the others came with.
    parts : tuple of str
        What is on the lamp instead; each replaces the part of its kind.
    weight : float
        How often, beside the other changes of this kind [-].
    """

    kind: str
    parts: tuple[str, ...]
    weight: float


@dataclass(frozen=True, slots=True)
class Guess:
    """A lamp a caller may have.

    Attributes
    ----------
    lamp : str
        Model number.
    parts : tuple of str
        What is on it, in the order it was sold.
    foreign : tuple of str
        Those that are not its own; empty for a lamp as sold.
    kind : str
        The kind that was changed; blank for a lamp as sold.
    """

    lamp: str
    parts: tuple[str, ...]
    foreign: tuple[str, ...] = ()
    kind: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class OnIt:
    """What part of one kind is on each lamp a caller may have.

    Attributes
    ----------
    parts : tuple of str
        Parts of the kind that may be on any of them; the last, blank, stands for none.
    share : array
        How probable each is under each guess (guesses, parts) [-]; rows sum to 1.
    """

    parts: tuple[str, ...]
    share: Floats


@dataclass(frozen=True, slots=True, eq=False)
class Guesses:
    """All of them, and how probable each is before anything is heard.

    Attributes
    ----------
    all : tuple of Guess
        Lamps in the order of the book; of each, as sold first.
    weights : array
        Chances that sum to 1 (guesses) [-].
    lamps : array
        Place of each guess's model in the book (guesses) [-].
    on : mapping of str to OnIt
        By kind. What decides what fits is the same for all callers with a guess; what is
        easily changed (glass, shade, holder, bell) is spread over what else may be there.
    """

    all: tuple[Guess, ...]
    weights: Floats
    lamps: Ints
    on: Mapping[str, OnIt]


def usual_companions(book: Book) -> dict[str, tuple[str, ...]]:
    """Return what usually comes with each burner: parts it was most often sold with.

    Parameters
    ----------
    book : Book
        The fit book.

    Returns
    -------
    dict of str to tuple of str
        By burner, the set of wick, spreader, gallery, mantle and chimney of which most lamps
        are in use; burners that were never sold on a lamp are left out.
    """
    sets: dict[str, dict[tuple[str, ...], int]] = {}
    for lamp in book.lamps.values():
        burner = next((p for p in lamp.as_sold if book.parts[p].kind == "burner"), None)
        if burner is not None:
            along = tuple(p for p in lamp.as_sold if book.parts[p].kind in COMPANIONS)
            seen = sets.setdefault(burner, {})
            seen[along] = seen.get(along, 0) + (lamp.in_use or 1)
    return {
        burner: max(seen, key=lambda along: (seen[along], along)) for burner, seen in sets.items()
    }


def _replaced(book: Book, lamp: Lamp, foreign: Sequence[str]) -> tuple[str, ...]:
    """Return a lamp's parts with some replaced, kind by kind."""
    by_kind = {book.parts[part].kind: part for part in lamp.as_sold}
    by_kind |= {book.parts[part].kind: part for part in foreign}
    return tuple(by_kind.values())


def _of_lamp(book: Book, lamp: Lamp, foreign: Sequence[Foreign]) -> Iterator[tuple[Guess, float]]:
    """Yield a lamp as sold and with one change that decides what fits, by its odds."""
    total = {kind: sum(f.weight for f in foreign if f.kind == kind) for kind in DECIDING}
    yield Guess(lamp.id, lamp.as_sold), 1.0
    for one in foreign:
        swap = book.calls.swaps.get(one.kind)
        if swap and one.kind in DECIDING and total[one.kind] > 0.0:
            odds = swap.share / (1.0 - min(swap.share, 0.99))
            parts = _replaced(book, lamp, one.parts)
            yield Guess(lamp.id, parts, one.parts, one.kind), odds * one.weight / total[one.kind]


def _shares(own: str, kind: str, foreign: Sequence[Foreign], swap: float) -> Mapping[str, float]:
    """Return how probable each part of an easily changed kind is on a lamp."""
    others = [one for one in foreign if one.kind == kind and one.parts[0] != own]
    total = sum(one.weight for one in others)
    if kind in DECIDING or not total or not own:
        return {own: 1.0}
    return {own: 1.0 - swap} | {one.parts[0]: swap * one.weight / total for one in others}


def _on(
    book: Book,
    kind: str,
    found: Sequence[Guess],
    foreign: Mapping[str, Sequence[Foreign]],
) -> OnIt:
    swap = book.calls.swaps[kind].share if kind in book.calls.swaps else 0.0
    rows = []
    for guess in found:
        own = next((part for part in guess.parts if book.parts[part].kind == kind), "")
        rows.append(_shares(own, kind, foreign.get(guess.lamp, ()), swap))
    parts = (*sorted({part for row in rows for part in row} - {""}), "")
    at = {part: place for place, part in enumerate(parts)}
    share = np.zeros((len(found), len(parts)))
    for place, row in enumerate(rows):
        for part, chance in row.items():
            share[place, at[part]] = chance
    return OnIt(parts, share)


def guesses(book: Book, foreign: Mapping[str, Sequence[Foreign]]) -> Guesses:
    """List every lamp a caller may have.

    Parameters
    ----------
    book : Book
        The fit book.
    foreign : mapping of str to sequence of Foreign
        By lamp: what may be on it that is not its own, as far as it goes on. Whoever joins the
        rooms knows what goes on what.

    Returns
    -------
    Guesses
        A lamp weighs as much as are in use of it. One change of base, font, burner (with what
        comes with it) or gallery at a time, by the odds of the book's table of swaps; two such
        changes at once are left out. Glass, holder, shade and bell vary besides.
    """
    pairs = [
        (guess, odds, place, lamp.in_use or 1)
        for place, lamp in enumerate(book.lamps.values())
        for guess, odds in _normal(_of_lamp(book, lamp, foreign.get(lamp.id, ())))
    ]
    found = tuple(guess for guess, *_ in pairs)
    weights = np.array([odds * count for _, odds, _, count in pairs])
    places = np.array([place for *_, place, _ in pairs], dtype=np.intp)
    looked_at = dict.fromkeys(look.kind for look in book.calls.looks.values())
    on = {kind: _on(book, kind, found, foreign) for kind in looked_at}
    return Guesses(found, weights / weights.sum(), places, on)


def _normal(pairs: Iterator[tuple[Guess, float]]) -> Iterator[tuple[Guess, float]]:
    held = list(pairs)
    total = sum(odds for _, odds in held)
    yield from ((guess, odds / total) for guess, odds in held)

"""What may be on a lamp that is not its own: parts that go on, with what usually comes along."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.fit.assemble import assemble
from wickwright.fit.joints.verdict import Fit
from wickwright.recognise.guesses import Foreign, usual_companions

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from wickwright.catalogue.assembly import Assembly
    from wickwright.catalogue.records import Book, Lamp, Part
    from wickwright.fit.compiled import Compiled

__all__ = ["foreign_parts"]

_HOLDS = frozenset({Fit.FITS, Fit.EFFORT, Fit.LOOSE, Fit.UNKNOWN})
_MOST = 8
"""Foreign parts of one kind that are thought of for a lamp, the commonest [-]."""


def _in_use(book: Book) -> dict[str, int]:
    """Return how many lamps in use were sold with each part; a part on sale counts for one."""
    counts: dict[str, int] = dict.fromkeys(book.parts, 0)
    for lamp in book.lamps.values():
        for part in lamp.as_sold:
            counts[part] += lamp.in_use or 1
    return {part: max(count, 1) for part, count in counts.items()}


def _below(assembly: Assembly, kind: str) -> Part | None:
    """Return what carries the part of a kind."""
    for below, above in assembly.joints():
        if above.part.kind == kind:
            return below.part
    return None


def _stands(compiled: Compiled, below: Part, part: Part) -> bool:
    for on in below.carries:
        if part.kind in on.takes:
            found = compiled.joiner.best(below, on, part)
            if found and found[1].fit in _HOLDS:
                return True
    return False


def _along(
    compiled: Compiled, lamp: Lamp, part: Part, companions: Mapping[str, tuple[str, ...]]
) -> tuple[str, ...]:
    """Return a foreign part with what usually comes with it on this lamp."""
    parts = compiled.book.parts
    kinds = {parts[own].kind for own in lamp.as_sold}
    along = [p for p in companions.get(part.id, ()) if parts[p].kind in kinds]
    return (part.id, *(p for p in along if p not in lamp.as_sold))


def _of_kind(
    compiled: Compiled,
    lamp: Lamp,
    assembly: Assembly,
    kind: str,
    by_kind: Mapping[str, Sequence[Part]],
    weights: Mapping[str, int],
    companions: Mapping[str, tuple[str, ...]],
) -> Iterator[Foreign]:
    own, below = assembly.of_kind(kind), _below(assembly, kind)
    if own is None or below is None:
        return
    goes = [
        part
        for part in by_kind.get(kind, ())
        if part.id != own.part.id and _stands(compiled, below, part)
    ]
    goes.sort(key=lambda part: -weights[part.id])
    for part in goes[:_MOST]:
        along = _along(compiled, lamp, part, companions)
        yield Foreign(kind, along, float(weights[part.id]))


def foreign_parts(compiled: Compiled) -> dict[str, tuple[Foreign, ...]]:
    """Return for every lamp what may be on it that is not its own.

    Parameters
    ----------
    compiled : Compiled
        The fit book.

    Returns
    -------
    dict of str to tuple of Foreign
        By lamp, for the kinds of the book's table of swaps: the commonest parts that go where
        its own part stood, by the joint alone; a burner with the wick, spreader, gallery, mantle
        and chimney it is usually found with.
    """
    book = compiled.book
    by_kind: dict[str, list[Part]] = {}
    for part in book.parts.values():
        by_kind.setdefault(part.kind, []).append(part)
    weights, companions = _in_use(book), usual_companions(book)
    found = {}
    for lamp in book.lamps.values():
        assembly = assemble([book.parts[p] for p in lamp.as_sold], compiled.joiner)
        found[lamp.id] = tuple(
            one
            for kind in book.calls.swaps
            for one in _of_kind(compiled, lamp, assembly, kind, by_kind, weights, companions)
        )
    return found

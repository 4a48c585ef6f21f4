"""How long a book takes to compile, and to compile again after a small change."""

from __future__ import annotations

from dataclasses import dataclass, replace
from time import perf_counter
from typing import TYPE_CHECKING

from wickwright.fit.compiled import compile_book
from wickwright.terms.dimension import parse_dimension

if TYPE_CHECKING:
    from benchmarks.routes.arena import Arena

    from wickwright.catalogue.records import Book, Part
    from wickwright.fit.compiled import Compiled

__all__ = ["CompileTimes", "compile_times"]


@dataclass(frozen=True, slots=True)
class CompileTimes:
    """Times [s]: from nothing, and after one price, one size has changed."""

    whole: float
    price: float
    size: float


def compile_times(arena: Arena) -> CompileTimes:
    """Compile a book, change one part, compile it again.

    Parameters
    ----------
    arena : Arena
        The book.

    Returns
    -------
    CompileTimes
        Each measured once.
    """
    book = arena.book
    start = perf_counter()
    first = compile_book(book)
    whole = perf_counter() - start
    part = next(p for p in book.parts.values() if p.kind == "chimney" and p.stands[0].sizes)
    price = _again(book, replace(part, price=(part.price or 0) + 50), first)
    port = part.stands[0]
    wider = {"diameter": parse_dimension(f"{port.sizes['diameter'].nominal * 1000 + 0.11:.2f} mm")}
    ports = tuple(replace(port, sizes=wider) if p is port else p for p in part.ports)
    return CompileTimes(whole, price, _again(book, replace(part, ports=ports), first))


def _again(book: Book, part: Part, before: Compiled) -> float:
    changed = replace(book, parts={**book.parts, part.id: part})
    start = perf_counter()
    compile_book(changed, before=before)
    return perf_counter() - start

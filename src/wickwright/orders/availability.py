"""Whether what is ordered can be had, and whether it comes anyway."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.catalogue.records import Status
from wickwright.catalogue.succession import heir, successions
from wickwright.fit.audit import called
from wickwright.orders.understood import fault_of
from wickwright.terms.finding import Severity

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickwright.catalogue.records import Book, Part
    from wickwright.orders.understood import OrderFault, Understood
    from wickwright.terms.finding import Fact

__all__ = ["availability", "contents", "succession_words", "surplus"]


def availability(book: Book, understood: Understood) -> Iterator[OrderFault]:
    """Yield a fault for each ordered part that is dead, dying or not on the shelf."""
    totals: dict[str, int] = {}
    rows: dict[str, int] = {}
    for line, part, count in understood.wanted:
        totals[part.id] = totals.get(part.id, 0) + count
        rows.setdefault(part.id, line.row)
    for number, count in totals.items():
        part = book.parts[number]
        reason = _why_dead(part, count)
        facts: dict[str, Fact] = {"part": called(part), "successor": succession_words(book, part)}
        if reason:
            facts["reason"] = reason
            yield fault_of("dead-as-ordered", number, rows[number], Severity.FAULT, facts, "dead")
        elif part.status is Status.STOCKS:
            facts["successor"] = succession_words(book, part, "Nothing replaces it")
            facts["stock"] = part.stock or 0
            yield fault_of(
                "dying-as-ordered", number, rows[number], Severity.CAUTION, facts, "dying"
            )
        elif part.stock is not None and part.stock < count:
            yield _short(part, count, rows[number])


def _short(part: Part, count: int, row: int) -> OrderFault:
    first = (
        "send what is there and say when the rest follows" if part.stock else "say when it follows"
    )
    facts: dict[str, Fact] = {
        "part": called(part),
        "count": count,
        "stock": part.stock or 0,
        "first": first,
    }
    return fault_of("short-stock", part.id, row, Severity.CAUTION, facts)


def _why_dead(part: Part, count: int) -> str:
    if part.status is Status.GONE:
        return (
            f"it is no longer made (last in {part.last})" if part.last else "it is no longer made"
        )
    if part.status is Status.STOCKS and (part.stock or 0) < count:
        return f"{part.stock or 0} left, {count} ordered, and no more are made"
    return "" if part.price is not None else "it has no price"


_NOTHING = "Nothing replaces it; see the mended order"


def succession_words(book: Book, part: Part, nothing: str = _NOTHING) -> str:
    """Say what replaced a part, step by step.

    Parameters
    ----------
    book : Book
        The fit book.
    part : Part
        The part.
    nothing : str
        What is said where nothing did.

    Returns
    -------
    str
        One sentence without a full stop.
    """
    steps = successions(book, part)
    if not steps:
        return nothing
    chain = "; then ".join(
        called(step.new) + (f" with {called(step.via)}" if step.via else "") for step in steps
    )
    last = heir(book, part)
    return f"Replaced by {chain}" + ("" if last else ", none of which can be had")


def surplus(book: Book, understood: Understood) -> Iterator[OrderFault]:
    """Yield a fault for each ordered part that comes with another or is there twice."""
    included = {one: part for part in understood.parts for one in contents(book, part)}
    first_of_kind: dict[str, Part] = {}
    seen: set[str] = set()
    for line, part, _ in understood.wanted:
        before = first_of_kind.setdefault(part.kind, part)
        reason = ""
        if part.id in included and included[part.id].id != part.id:
            reason = f"it comes with {called(included[part.id])}"
        elif part.id in seen:
            reason = "it is in the order already"
        elif _other_service(before, part):
            mixed: dict[str, Fact] = {"part": called(part)}
            yield fault_of("oil-beside-electric", part.id, line.row, Severity.DANGER, mixed)
        elif before.id != part.id:
            reason = f"a lamp takes one {part.kind}, and {called(before)} is in the order"
        seen.add(part.id)
        if reason:
            facts: dict[str, Fact] = {"part": called(part), "reason": reason}
            yield fault_of("surplus", part.id, line.row, Severity.CAUTION, facts)


def _other_service(one: Part, other: Part) -> bool:
    """Whether two burners belong to different services: which is meant must be asked."""
    services = {one.service, other.service} - {None}
    return one.kind == "burner" and len(services) > 1


def contents(book: Book, part: Part) -> Iterator[str]:
    """Yield what comes with a part, and what comes with that."""
    for one in part.includes:
        yield one
        yield from contents(book, book.parts[one])

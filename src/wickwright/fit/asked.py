"""What is to be said of a request itself, before any answer: names that have no effect on it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.catalogue.records import KINDS
from wickwright.fit.audit import called
from wickwright.terms.finding import Finding, Severity

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from wickwright.catalogue.records import Book, Part
    from wickwright.fit.request import Situation
    from wickwright.terms.finding import Fact

__all__ = ["asked_findings"]


def asked_findings(book: Book, now: Situation) -> tuple[Finding, ...]:
    """Return what a caller named that cannot be as named.

    Parameters
    ----------
    book : Book
        The fit book.
    now : Situation
        The request, looked at.

    Returns
    -------
    tuple of Finding
        ``not-on-it`` for each part or kind named as lost that the lamp did not carry,
        ``named-twice`` for each part named as on the lamp beside a later one of its kind.
    """
    before = {it.kind: it for it in (*now.now.loose, *(one.part for one in now.now.walk()))}
    return (*_not_on_it(book, now, before), *_named_twice(book, now))


def _not_on_it(book: Book, now: Situation, before: Mapping[str, Part]) -> Iterator[Finding]:
    lamp = book.lamps[now.request.lamp]
    numbers = {part.id for part in before.values()}
    for name in now.request.lost:
        if name in before or name in numbers:
            continue
        part = book.parts.get(name)
        kind = part.kind if part else name
        there = before.get(kind)
        facts: dict[str, Fact] = {
            "part": called(part) if part else f"a {kind}",
            "lamp": f"{lamp.name} ({lamp.id})",
            "there": f"what was there is {called(there)}" if there else f"it had no {kind}",
            "effect": f"a {kind} is asked for all the same"
            if name in KINDS
            else "nothing is sent for it",
        }
        yield Finding("not-on-it", Severity.CAUTION, (part.id,) if part else (), facts)


def _named_twice(book: Book, now: Situation) -> Iterator[Finding]:
    last: dict[str, Part] = {}
    for part in (book.parts[name] for name in reversed(now.request.have)):
        other = last.setdefault(part.kind, part)
        if other.id != part.id:
            facts: dict[str, Fact] = {
                "part": called(part),
                "other": called(other),
                "kinds": part.kind,
            }
            yield Finding("named-twice", Severity.CAUTION, (part.id, other.id), facts)

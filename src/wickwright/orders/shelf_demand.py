"""What all orders of a file ask of the shelf together."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.catalogue.records import Status
from wickwright.fit.audit import called
from wickwright.orders.availability import succession_words
from wickwright.terms.finding import Finding, Severity

if TYPE_CHECKING:
    from wickwright.catalogue.records import Book, Part
    from wickwright.orders.understood import Understood
    from wickwright.terms.finding import Fact

__all__ = ["ShelfDemand", "Shortage"]

_NAMED = 12
"""Orders named in a sentence; all of them stand in the shortage."""


@dataclass(frozen=True, slots=True)
class Shortage:
    """A part of which several orders together want more than lie on the shelf.

    Attributes
    ----------
    part : Part
        The part.
    orders : tuple of (str, int, int)
        Number, first row and count of each order that could be filled by itself, as they
        come in the file.
    finding : Finding
        The rule broken, with its facts.
    """

    part: Part
    orders: tuple[tuple[str, int, int], ...]
    finding: Finding

    @property
    def wanted(self) -> int:
        """How many are ordered in all."""
        return sum(count for _, _, count in self.orders)


class ShelfDemand:
    """Adds up what orders want of parts that are counted."""

    def __init__(self) -> None:
        self._wanted: dict[str, tuple[Part, dict[tuple[str, int], int]]] = {}
        self._first_rows: dict[str, int] = {}

    def add(self, understood: Understood) -> None:
        """Count one order.

        Parameters
        ----------
        understood : Understood
            Of an order; those of one number are one order.
        """
        order = understood.order
        row = self._first_rows.setdefault(order.id, order.row) if order.id else order.row
        for _, part, count in understood.wanted:
            if part.stock is not None and part.status is not Status.GONE:
                _, counts = self._wanted.setdefault(part.id, (part, {}))
                counts[order.id, row] = counts.get((order.id, row), 0) + count

    def shortages(self, book: Book) -> tuple[Shortage, ...]:
        """Return what the shelf does not do for.

        Parameters
        ----------
        book : Book
            The fit book.

        Returns
        -------
        tuple of Shortage
            By part number. An order that wants more than there is by itself has a fault of
            its own and is not counted here.
        """
        found = []
        for number in sorted(self._wanted):
            part, counts = self._wanted[number]
            stock = part.stock or 0
            filled = tuple((name, row, n) for (name, row), n in counts.items() if n <= stock)
            if sum(count for _, _, count in filled) > stock:
                found.append(Shortage(part, filled, _finding(book, part, filled)))
        return tuple(found)


def _finding(book: Book, part: Part, orders: tuple[tuple[str, int, int], ...]) -> Finding:
    named = [f"{name or f'row {row}'} ({count})" for name, row, count in orders[:_NAMED]]
    if len(orders) > _NAMED:
        named.append(f"and {len(orders) - _NAMED:,} more")
    dying = part.status is Status.STOCKS
    first = "say which are sent first and when the others follow"
    if dying:
        follows = succession_words(book, part, "Nothing replaces it")
        first = f"settle who is served; no more are made. {follows}"
    facts: dict[str, Fact] = {
        "part": called(part),
        "count": sum(count for _, _, count in orders),
        "stock": part.stock or 0,
        "orders": tuple(named),
        "first": first,
    }
    return Finding(
        "short-for-all", Severity.FAULT if dying else Severity.CAUTION, (part.id,), facts
    )

"""Lamps and parts in lists, as pages show them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.answers.post.order_lines import availability
from wickwright.catalogue.records import Lamp
from wickwright.terms.finding import Kind, Quantity
from wickwright.terms.units import say

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wickwright.catalogue.records import Part
    from wickwright.terms.units import Units

__all__ = ["BookRow", "book_rows", "price_of", "years_of"]


@dataclass(frozen=True, slots=True)
class BookRow:
    """A lamp or part in a list.

    Attributes
    ----------
    id, name : str
        Number and name.
    where : str
        Path of its page.
    kind : str
        Of the part; for a lamp how it stands.
    had : str
        Whether it can be had; for a lamp the years it was sold.
    price : str
        With its currency; blank where none is known.
    """

    id: str
    name: str
    where: str
    kind: str
    had: str
    price: str


def book_rows(found: Iterable[Lamp | Part], units: Units) -> tuple[BookRow, ...]:
    """Make lamps and parts ready for a list.

    Parameters
    ----------
    found : iterable of Lamp or Part
        Of a book.
    units : Units
        What to print in.

    Returns
    -------
    tuple of BookRow
        In the same order.
    """
    return tuple(_lamp(one) if isinstance(one, Lamp) else _part(one, units) for one in found)


def _lamp(lamp: Lamp) -> BookRow:
    where = f"/book/lamps/{lamp.id}"
    return BookRow(lamp.id, lamp.name, where, f"{lamp.form} lamp", years_of(lamp), "")


def _part(part: Part, units: Units) -> BookRow:
    where = f"/book/parts/{part.id}"
    return BookRow(
        part.id, part.name, where, part.kind, availability(part), price_of(part, units)
    )  # fmt: skip


def years_of(one: Lamp | Part) -> str:
    """Return the years something was sold."""
    return f"{one.first or '?'} to {one.last or 'now'}"


def price_of(part: Part, units: Units) -> str:
    """Return what a part costs; blank where nobody knows."""
    return "" if part.price is None else say(Quantity(part.price, Kind.MONEY), units)

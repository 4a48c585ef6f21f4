"""The order that a route comes to: what goes into the parcel, for the warehouse and the shop.

The file has the columns of an order file and a few more, so that ``wickwright check`` reads
it and finds no fault with it.
"""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickwright.answers.plain.answers import plain_money
from wickwright.answers.words.reason_words import reasons_words
from wickwright.answers.words.reasons import reasons
from wickwright.catalogue.print_cells import print_number
from wickwright.catalogue.records import Status
from wickwright.orders.order_file import COLUMNS

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from wickwright.answers.plain.answers import Plain
    from wickwright.catalogue.records import Part
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.request import Situation
    from wickwright.fit.routes import Route
    from wickwright.terms.units import Units

__all__ = [
    "OrderLine",
    "availability",
    "no_formula",
    "order_csv",
    "order_lines",
    "plain_order_lines",
]


@dataclass(frozen=True, slots=True)
class OrderLine:
    """One part to be sent.

    Attributes
    ----------
    order : str
        Number of the order; no number would leave the file without its checks.
    lamp, place : str
        Model number; elevation in metres such as ``1700 m``, blank at sea level.
    part, name : str
        Number and name of the part.
    count : int
        Pieces for all lamps together.
    price : int or None
        Of one piece, in the smallest coin; None where the book has none.
    availability : str
        ``made``, or how many are left.
    why : str
        What it is sent for, in clauses.
    """

    order: str
    lamp: str
    place: str
    part: str
    name: str
    count: int
    price: int | None
    availability: str
    why: str

    @property
    def total(self) -> int | None:
        """Price of all pieces, in the smallest coin."""
        return None if self.price is None else self.price * self.count


def order_lines(
    compiled: Compiled, now: Situation, route: Route, units: Units, *, order: str = "1"
) -> tuple[OrderLine, ...]:
    """Return what is to be sent for a route.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    now : Situation
        The request, looked at.
    route : Route
        The way that was chosen.
    units : Units
        For the reasons.
    order : str
        Number of the order.

    Returns
    -------
    tuple of OrderLine
        One for each part bought, in the order of the route; empty where nothing is.
    """
    why = reasons(compiled, now, route)
    request = now.request
    return tuple(
        OrderLine(
            order=order,
            lamp=request.lamp,
            place=_place(request.place.elevation),
            part=part.id,
            name=part.name,
            count=request.count,
            price=part.price,
            availability=availability(part),
            why=reasons_words(why[part.id], units),
        )
        for part in route.buy
    )


def availability(part: Part) -> str:
    """Say whether a part can be had.

    Parameters
    ----------
    part : Part
        The part.

    Returns
    -------
    str
        Such as ``'made'`` or ``'while stocks last, 3 left'``.
    """
    if part.status is Status.STOCKS:
        return f"{part.status}, {part.stock or 0} left"
    return str(part.status)


_MINUS: Final = "\N{MINUS SIGN}"


def _place(elevation: float) -> str:
    """Write an elevation so that no spreadsheet works it out, and it reads back the same."""
    sign = _MINUS if elevation < 0.0 else ""
    return f"{sign}{print_number(abs(elevation))} m" if elevation else ""


# -- as a file -----------------------------------------------------------------------------------

_MORE: Final = ("name", "price", "total", "currency", "availability", "why")
"""Columns for people, behind those of an order file."""


def order_csv(lines: Iterable[OrderLine], currency: str) -> str:
    """Return the order as a CSV file.

    Parameters
    ----------
    lines : iterable of OrderLine
        Of one order or several.
    currency : str
        What money is counted in.

    Returns
    -------
    str
        A header and a row for each line, ended by CR and LF (source key ``rfc4180``). A cell
        that a spreadsheet would take for a formula has an apostrophe before it.
    """
    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow((*COLUMNS, *_MORE))
    for line in lines:
        writer.writerow(map(no_formula, _cells(line, currency)))
    return text.getvalue()


def _cells(line: OrderLine, currency: str) -> tuple[str, ...]:
    ordered = {
        "order": line.order,
        "lamp": line.lamp,
        "place": line.place,
        "part": line.part,
        "quantity": str(line.count),
    }
    price, total = (plain_money(one) or "" for one in (line.price, line.total))
    more = (line.name, price, total, currency, line.availability, line.why)
    return (*(ordered[column] for column in COLUMNS), *more)


def no_formula(cell: str) -> str:
    """Put an apostrophe before what a spreadsheet would take for a formula and work out.

    Parameters
    ----------
    cell : str
        Text of a cell.

    Returns
    -------
    str
        The same, but for cells that begin with ``=``, ``+``, ``-``, ``@``, a tab or a return.
    """
    return f"'{cell}" if cell.startswith(("=", "+", "-", "@", "\t", "\r")) else cell


def plain_order_lines(lines: Sequence[OrderLine], currency: str) -> dict[str, Plain]:
    """Return the order as plain data.

    Parameters
    ----------
    lines : sequence of OrderLine
        Of one order.
    currency : str
        What money is counted in.

    Returns
    -------
    dict
        ``currency``, ``total`` (None where a price is not known), ``lines`` with ``order``,
        ``lamp``, ``place``, ``part``, ``name``, ``quantity``, ``price``, ``total``,
        ``availability``, ``why``.
    """
    totals = [line.total for line in lines]
    known = [total for total in totals if total is not None]
    return {
        "currency": currency,
        "total": plain_money(sum(known)) if len(known) == len(totals) else None,
        "lines": [_plain(line) for line in lines],
    }


def _plain(line: OrderLine) -> dict[str, Plain]:
    return {
        "order": line.order,
        "lamp": line.lamp,
        "place": line.place,
        "part": line.part,
        "name": line.name,
        "quantity": line.count,
        "price": plain_money(line.price),
        "total": plain_money(line.total),
        "availability": line.availability,
        "why": line.why,
    }

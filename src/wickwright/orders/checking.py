"""An order held to every rule.

The lamp as sold, with the ordered parts put in the place of those of their kind, is put
together and audited; what concerns an ordered part is a fault of the order. What was on the
lamp before and does not fit the ordered parts is put aside: it was not ordered. Rows without an
order number are read and looked up only: what else belongs to them is not known.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.orders.availability import availability, surplus
from wickwright.orders.for_which_lamp import no_one_lamp
from wickwright.orders.mounting import on_the_lamp
from wickwright.orders.understood import OrderFault, Understood, understand

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickwright.fit.compiled import Compiled
    from wickwright.orders.lines import Order

__all__ = ["Checked", "check_order"]

_BY_ROW = ("bad-quantity", "unknown-part", "unread-cell")
"""Faults of a line rather than of a part: each row's is told."""


@dataclass(frozen=True, slots=True)
class Checked:
    """An order with all its faults."""

    understood: Understood
    faults: tuple[OrderFault, ...]


def check_order(compiled: Compiled, order: Order) -> Checked:
    """Report every fault of an order at once.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    order : Order
        As written.

    Returns
    -------
    Checked
        Faults by row, gravest first within a row.
    """
    understood, unread = understand(compiled.book, order)
    judged = [*unread, *availability(compiled.book, understood)]
    if order.id:
        judged += [*surplus(compiled.book, understood), *on_the_lamp(compiled, understood)]
        judged += no_one_lamp(compiled, understood, judged)
    return Checked(understood, tuple(sorted(_each_once(judged), key=_by_row)))


def _each_once(faults: Sequence[OrderFault]) -> Iterator[OrderFault]:
    """Drop what is told already: of a part twice, and of what is not going to be sent."""
    moot = {fault.part for fault in faults if fault.fault in ("dead", "wrong-joint")}
    told: set[tuple[str, str]] = set()
    for fault in faults:
        key = fault.fault, fault.part
        again = key in told and fault.fault not in _BY_ROW
        if not again and (fault.fault != "missing-companion" or fault.part not in moot):
            told.add(key)
            yield fault


def _by_row(fault: OrderFault) -> tuple[int, int, str]:
    return fault.row, -fault.finding.severity, fault.fault

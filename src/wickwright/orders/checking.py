"""An order held to every rule.

The lamp as sold, with the ordered parts put in the place of those of their kind, is put
together and audited; what concerns an ordered part is a fault of the order. What was on the
lamp before and does not fit the ordered parts is put aside: it was not ordered.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.orders.availability import availability, surplus
from wickwright.orders.mounting import on_the_lamp
from wickwright.orders.understood import OrderFault, Understood, understand

if TYPE_CHECKING:
    from wickwright.fit.compiled import Compiled
    from wickwright.orders.lines import Order

__all__ = ["Checked", "check_order"]

_BY_ROW = ("bad-quantity", "unknown-part")
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
    faults = [
        *unread,
        *availability(compiled.book, understood),
        *surplus(compiled.book, understood),
        *on_the_lamp(compiled, understood),
    ]
    moot = {fault.part for fault in faults if fault.fault in ("dead", "wrong-joint")}
    unique = {
        (fault.fault, fault.part, fault.row if fault.fault in _BY_ROW else 0): fault
        for fault in reversed(faults)
        if fault.fault != "missing-companion" or fault.part not in moot
    }
    ordered = sorted(unique.values(), key=lambda one: (one.row, -one.finding.severity, one.fault))
    return Checked(understood, tuple(ordered))

"""Whether an order is right, and if not, what it should be."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.orders.checking import check_order
from wickwright.orders.mending import mend

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from wickwright.fit.compiled import Compiled
    from wickwright.orders.checking import Checked
    from wickwright.orders.lines import Order
    from wickwright.orders.mending import Mended

__all__ = ["CheckedOrder", "check_orders"]


@dataclass(frozen=True, slots=True)
class CheckedOrder:
    """An order with all its faults, and the order as it should be.

    Attributes
    ----------
    checked : Checked
        The order, what was understood of it, and its faults.
    mended : Mended or None
        None when it has no faults, or when nothing can be proposed.
    """

    checked: Checked
    mended: Mended | None


def check_orders(
    compiled: Compiled, orders: Iterable[Order], *, propose: bool = True
) -> Iterator[CheckedOrder]:
    """Check orders one after the other.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    orders : iterable of Order
        As written.
    propose : bool
        Whether to look for the mended order of each faulty one.

    Yields
    ------
    CheckedOrder
        In the order given. Orders that ask the same of the same lamp are worked out once.
    """
    known: dict[tuple[object, ...], Mended | None] = {}
    for order in orders:
        checked = check_order(compiled, order)
        mended = None
        if propose and checked.faults:
            key = (order.lamp, order.place, *((line.part, line.quantity) for line in order.lines))
            if key not in known:
                known[key] = mend(compiled, checked)
            mended = known[key]
        yield CheckedOrder(checked, mended)

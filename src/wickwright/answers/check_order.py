"""Whether an order is right, and if not, what it should be."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from wickwright.orders.checking import Checked, check_order
from wickwright.orders.mending import mend

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from wickwright.fit.compiled import Compiled
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


_REMEMBERED = 20_000
"""Different orders remembered at once; enough for one day, small beside the file."""

_Key = tuple[str, str, tuple[tuple[str, str], ...]]


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
    known: dict[_Key, CheckedOrder] = {}
    for order in orders:
        key = order.lamp, order.place, tuple([(line.part, line.quantity) for line in order.lines])
        found = known.get(key)
        if found is None:
            if len(known) >= _REMEMBERED:
                known.clear()
            found = known[key] = _checked(compiled, order, propose=propose)
            yield found
        else:
            yield CheckedOrder(_on_rows_of(order, found.checked), found.mended)


def _checked(compiled: Compiled, order: Order, *, propose: bool) -> CheckedOrder:
    checked = check_order(compiled, order)
    return CheckedOrder(checked, mend(compiled, checked) if propose and checked.faults else None)


def _on_rows_of(order: Order, checked: Checked) -> Checked:
    """Say of an order what was found out for one that asks the same."""
    understood = checked.understood
    lines = dict(zip((line.row for line in understood.order.lines), order.lines, strict=True))
    wanted = tuple((lines[line.row], part, count) for line, part, count in understood.wanted)
    faults = tuple(replace(fault, row=lines[fault.row].row) for fault in checked.faults)
    return Checked(replace(understood, order=order, wanted=wanted), faults)

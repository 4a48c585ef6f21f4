"""How many orders, faults and mended orders there were."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from wickwright.orders.shelf_demand import ShelfDemand

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from wickwright.answers import CheckedOrder
    from wickwright.answers.plain.answers import Plain

__all__ = ["Tally"]


@dataclass
class Tally:
    """Counts that grow as orders pass by.

    Attributes
    ----------
    orders, rows, faulty, mended : int
        Orders, their lines, orders with faults, faulty orders put right.
    faults : Counter
        Faults by short name.
    without_lamp : int
        Orders that name no known lamp.
    demand : ShelfDemand
        What all orders want of the shelf.
    """

    orders: int = 0
    rows: int = 0
    faulty: int = 0
    mended: int = 0
    faults: Counter[str] = field(default_factory=Counter)
    without_lamp: int = 0
    demand: ShelfDemand = field(default_factory=ShelfDemand)

    def counted(self, checked: Iterable[CheckedOrder]) -> Iterator[CheckedOrder]:
        """Pass on the faulty orders, and count all of them."""
        for it in checked:
            self.orders += 1
            self.rows += len(it.checked.understood.order.lines)
            self.without_lamp += it.checked.understood.lamp is None
            self.demand.add(it.checked.understood)
            if it.checked.faults:
                self.faulty += 1
                self.mended += it.mended is not None
                self.faults.update(fault.fault for fault in it.checked.faults)
                yield it

    def plain(self) -> dict[str, Plain]:
        """Return the counts for JSON."""
        return {
            "orders": self.orders,
            "rows": self.rows,
            "faulty": self.faulty,
            "mended": self.mended,
            "faults": sum(self.faults.values()),
            "without_lamp": self.without_lamp,
            "faults_by_name": dict(sorted(self.faults.items())),
        }

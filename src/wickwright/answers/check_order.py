"""Whether an order is right, and if not, what it should be."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from wickwright.answers.mended_lines import changes
from wickwright.fit.place import Place
from wickwright.orders.checking import Checked, check_order
from wickwright.orders.drafts import Drafts
from wickwright.orders.for_which_lamp import could_be_for
from wickwright.orders.mending import mend
from wickwright.orders.shelf_demand import ShelfDemand
from wickwright.orders.understood import Understood, place_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from wickwright.answers.mended_lines import Change
    from wickwright.catalogue.records import Book, Lamp
    from wickwright.fit.compiled import Compiled
    from wickwright.orders.lines import Order
    from wickwright.orders.mending import Mended
    from wickwright.orders.shelf_demand import Shortage

__all__ = ["CheckedOrder", "check_orders", "short_for_all"]


@dataclass(frozen=True, slots=True)
class CheckedOrder:
    """An order with all its faults, and the order as it should be.

    Attributes
    ----------
    checked : Checked
        The order, what was understood of it, and its faults.
    mended : Mended or None
        None when it has no faults, or when nothing can be proposed.
    changes : tuple of Change
        What was done with each line to put the order right, and why.
    could_be_for : tuple of Lamp
        Where its lamp is not known: the lamps its parts go on together, those that need
        nothing more first. Empty when nothing was to be proposed.
    """

    checked: Checked
    mended: Mended | None
    changes: tuple[Change, ...] = ()
    could_be_for: tuple[Lamp, ...] = ()


_REMEMBERED = 20_000
"""Different orders, and different places, remembered at once: enough for one day."""

_Key = tuple[str, object, tuple[tuple[str, str], ...]]


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
        In the order given. Orders that ask the same of the same lamp, at places where the
        same chimneys draw, are worked out once.
    """
    places = _Places(compiled)
    known: dict[_Key, CheckedOrder] = {}
    for order in orders:
        if order.doubtful or not order.id:
            yield _worked_out(compiled, order, propose=propose)
            continue
        place, sort = places.of(order.place)
        key = order.lamp, sort, tuple([(line.part, line.quantity) for line in order.lines])
        found = known.get(key)
        if found is None:
            if len(known) >= _REMEMBERED:
                known.clear()
            found = known[key] = _worked_out(compiled, order, propose=propose)
            yield found
        elif _speaks_of_place(found.checked) and place != found.checked.understood.place:
            yield replace(found, checked=check_order(compiled, order))
        else:
            yield replace(found, checked=_said_again(found.checked, order, place))


def _worked_out(compiled: Compiled, order: Order, *, propose: bool) -> CheckedOrder:
    checked = check_order(compiled, order)
    if not (propose and checked.faults):
        return CheckedOrder(checked, None)
    asked = checked.understood.lamp is None and order.id
    lamps = could_be_for(compiled, checked.understood) if asked else ()
    mended = mend(compiled, checked)
    done = changes(compiled, checked, mended) if mended else ()
    return CheckedOrder(checked, mended, done, lamps)


def short_for_all(book: Book, orders: Iterable[CheckedOrder]) -> tuple[Shortage, ...]:
    """Find the parts that the orders of a file together want too many of.

    Parameters
    ----------
    book : Book
        The fit book.
    orders : iterable of CheckedOrder
        All orders of the file, those without fault too.

    Returns
    -------
    tuple of Shortage
        By part number, with the orders that could each be filled alone.
    """
    demand = ShelfDemand()
    for it in orders:
        demand.add(it.checked.understood)
    return demand.shortages(book)


class _Places:
    """Places by what is written, each looked at once."""

    def __init__(self, compiled: Compiled) -> None:
        self._drafts = Drafts(compiled.parts)
        self._known: dict[str, tuple[Place, object]] = {}

    def of(self, text: str) -> tuple[Place, object]:
        """Return a place and what sort it is of; what cannot be read is a sort of its own."""
        found = self._known.get(text)
        if found is None:
            if len(self._known) >= _REMEMBERED:
                self._known.clear()
            place = place_of(text)
            sort = text if place is None else self._drafts.sort_of(place)
            found = self._known[text] = (place or Place(), sort)
        return found


def _speaks_of_place(checked: Checked) -> bool:
    """Whether any fault names the elevation."""
    return any(fault.because and "elevation" in fault.because.facts for fault in checked.faults)


def _said_again(checked: Checked, order: Order, place: Place) -> Checked:
    """Say of an order what was found out for one that asks the same."""
    understood = checked.understood
    lines = dict(zip((line.row for line in understood.order.lines), order.lines, strict=True))
    wanted = tuple((lines[line.row], part, count) for line, part, count in understood.wanted)
    faults = tuple(replace(fault, row=lines[fault.row].row) for fault in checked.faults)
    return Checked(Understood(order, understood.lamp, place, wanted), faults)

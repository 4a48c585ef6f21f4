"""Checked orders as plain dicts and lists, as in :mod:`wickwright.answers.plain.answers`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.answers.mended_lines import change_words
from wickwright.answers.plain.answers import plain_finding, plain_money, plain_part

if TYPE_CHECKING:
    from wickwright.answers.check_order import CheckedOrder
    from wickwright.answers.mended_lines import Change
    from wickwright.answers.plain.answers import Plain
    from wickwright.orders.mending import Mended
    from wickwright.orders.shelf_demand import Shortage
    from wickwright.terms.units import Units

__all__ = ["plain_order", "plain_shortage"]


def plain_order(it: CheckedOrder, units: Units) -> dict[str, Plain]:
    """Return an order with its faults.

    Parameters
    ----------
    it : CheckedOrder
        One order.
    units : Units
        For the words.

    Returns
    -------
    dict
        ``order`` (None: its rows have no number), ``lamp``, ``place``, ``could_be_for``
        (lamps, where its own is not known), ``faults``, ``mended``; a fault has ``fault``,
        ``part``, ``row``, ``finding`` and ``because``.
    """
    order = it.checked.understood.order
    return {
        "order": order.id or None,
        "lamp": order.lamp,
        "place": order.place,
        "could_be_for": [lamp.id for lamp in it.could_be_for],
        "faults": [
            {
                "fault": fault.fault,
                "part": fault.part,
                "row": fault.row,
                "finding": plain_finding(fault.finding, units),
                "because": plain_finding(fault.because, units) if fault.because else None,
            }
            for fault in it.checked.faults
        ],
        "mended": _mended(it, it.mended, units) if it.mended else None,
    }


def plain_shortage(it: Shortage, units: Units) -> dict[str, Plain]:
    """Return a part of which several orders together want too many.

    Parameters
    ----------
    it : Shortage
        From the orders of a file.
    units : Units
        For the words.

    Returns
    -------
    dict
        ``part``, ``wanted``, ``orders`` (``order``, ``row``, ``quantity``), ``finding``.
    """
    return {
        "part": plain_part(it.part),
        "wanted": it.wanted,
        "orders": [
            {"order": name or None, "row": row, "quantity": count} for name, row, count in it.orders
        ],
        "finding": plain_finding(it.finding, units),
    }


def _change(it: CheckedOrder, change: Change, units: Units) -> dict[str, Plain]:
    line = None if change.line is None else it.checked.understood.order.lines[change.line]
    faults = [it.checked.faults[at] for at in change.cures]
    return {
        "did": str(change.did),
        "part": change.part.id if change.part else None,
        "ordered": line.part if line else None,
        "row": line.row if line else None,
        "cures": [{"fault": fault.fault, "part": fault.part, "row": fault.row} for fault in faults],
        "says": change_words(change, it.checked, units),
    }


def _mended(it: CheckedOrder, mended: Mended, units: Units) -> dict[str, Plain]:
    return {
        "price": plain_money(mended.price),
        "lines": [{**plain_part(part), "quantity": count} for part, count in mended.lines],
        "changed": [part.id for part in mended.changed],
        "given_up": list(mended.given_up),
        "changes": [_change(it, change, units) for change in it.changes],
        "findings": [plain_finding(finding, units) for finding in mended.route.findings],
    }

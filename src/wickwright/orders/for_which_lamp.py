"""Which lamps an order could be for, where it names none that is known."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from wickwright.fit.audit import called
from wickwright.orders.mounting import first_of_each_kind, on_the_lamp
from wickwright.orders.understood import fault_of
from wickwright.terms.finding import Severity

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from wickwright.catalogue.records import Lamp
    from wickwright.fit.compiled import Compiled
    from wickwright.orders.understood import OrderFault, Understood
    from wickwright.terms.finding import Fact

__all__ = ["could_be_for", "no_one_lamp"]

_TOLD_ELSEWHERE = ("oil-beside-electric", "wrong-joint")
"""Faults that show without a lamp that the parts are for two of them."""


def could_be_for(compiled: Compiled, understood: Understood) -> tuple[Lamp, ...]:
    """Return the lamps on which the ordered parts go together.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    understood : Understood
        The order.

    Returns
    -------
    tuple of Lamp
        Those that need nothing more, then those that need what carries a part as well; both
        in the order of the book. None where no part is known.
    """
    if not understood.wanted:
        return ()
    worst = [(lamp, _worst(compiled, understood, lamp)) for lamp in compiled.book.lamps.values()]
    return tuple(lamp for wanted in (_READY, _CARRIED) for lamp, it in worst if it == wanted)


_READY, _CARRIED, _NEVER = range(3)


def _worst(compiled: Compiled, understood: Understood, lamp: Lamp) -> int:
    """Say how far the ordered parts are from going on a lamp."""
    worst = _READY
    for fault in on_the_lamp(compiled, replace(understood, lamp=lamp)):
        if fault.finding.rule == "missing-carrier":
            worst = _CARRIED
        elif fault.finding.severity > Severity.UNKNOWN and fault.fault != "wrong-for-place":
            return _NEVER
    return worst


def no_one_lamp(
    compiled: Compiled, understood: Understood, faults: Iterable[OrderFault]
) -> Iterator[OrderFault]:
    """Yield a fault where no lamp takes the ordered parts together.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    understood : Understood
        The order; one with a known lamp has no such fault.
    faults : iterable of OrderFault
        What is told of it already.

    Yields
    ------
    OrderFault
        At most one.
    """
    parts = first_of_each_kind(understood)
    if understood.lamp is not None or len(parts) < 2:  # noqa: PLR2004 - one part goes with itself
        return
    if any(fault.fault in _TOLD_ELSEWHERE for fault in faults):
        return
    if not could_be_for(compiled, understood):
        facts: dict[str, Fact] = {"parts": " and ".join(map(called, parts))}
        row = understood.order.row
        yield fault_of("no-one-lamp", "", row, Severity.FAULT, facts)

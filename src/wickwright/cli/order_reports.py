"""Reports on checked orders: text, JSON and CSV, each written as the orders pass by."""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING

from wickwright.answers.mended_lines import Did, change_words
from wickwright.answers.plain.answers import plain_money
from wickwright.answers.plain.orders import plain_order, plain_shortage
from wickwright.answers.post.order_lines import no_formula
from wickwright.answers.words.wording import sentence
from wickwright.cli.layout import bullet, paragraph, right, table
from wickwright.cli.output import json_text
from wickwright.cli.words import bare_money, listed, money
from wickwright.orders.mending import to_mend
from wickwright.terms.finding import Kind, Quantity, Severity
from wickwright.terms.units import say

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from wickwright.answers import CheckedOrder
    from wickwright.catalogue.records import Book
    from wickwright.cli.tally import Tally
    from wickwright.orders.mending import Mended
    from wickwright.orders.shelf_demand import Shortage
    from wickwright.orders.understood import OrderFault
    from wickwright.terms.units import Units

__all__ = ["csv_report", "json_report", "text_report"]


# -- text ----------------------------------------------------------------------------------------


def text_report(
    book: Book,
    checked: Iterable[CheckedOrder],
    tally: Tally,
    units: Units,
    width: int,
    *,
    propose: bool,
) -> Iterator[str]:
    """Yield each faulty order as a block of lines, then the shelf and the counts."""
    for it in checked:
        lines = order_lines(it, units, width)
        if propose and it.mended is None:
            lines += paragraph(_hopeless(it), width, "  ")
        yield "\n".join(lines) + "\n\n"
    for short in tally.demand.shortages(book):
        yield "\n".join(_shortage_lines(short, units, width)) + "\n\n"
    yield "\n".join(summary_lines(tally)) + "\n"


def _shortage_lines(short: Shortage, units: Units, width: int) -> list[str]:
    words = sentence(short.finding, units)
    lines = paragraph(words.says, width, "All orders together: short-for-all  ", "    ")
    return [*lines, *paragraph(f"-> {words.cure}", width, "    ", "       ")]


def order_lines(it: CheckedOrder, units: Units, width: int) -> list[str]:
    """Lay out one order: its faults by row, and the order put right."""
    lines = paragraph(_head(it, units), width, hang="  ")
    for fault in it.checked.faults:
        lines += _fault_lines(fault, units, width)
    if it.mended:
        lines += _mended_lines(it, it.mended, units, width)
    return lines


def _hopeless(it: CheckedOrder) -> str:
    """Say why no order is proposed."""
    understood = it.checked.understood
    if not understood.order.id:
        return "Nothing proposed: with the order number, the rows are checked together."
    if understood.lamp is None:
        said = "Nothing proposed: with the lamp named, the order can be put right."
        return f"{said} {_could_be_for(it)}" if it.could_be_for else said
    return f"Nothing proposed: {_asked_first(it)}"


def _asked_first(it: CheckedOrder) -> str:
    """Say what must be known of an order for a known lamp before it can be put right."""
    faults = {fault.fault for fault in it.checked.faults}
    if faults <= {"two-lamps", "two-places"}:
        return "nothing else is wrong with it."
    if faults & {"bad-place", "unread-cell"} and not to_mend(it.checked):
        return "with the place known, the order can be put right."
    if "oil-beside-electric" in faults:
        return "ask whether oil or electricity is meant; parts of both are never sent for one lamp."
    if not it.checked.understood.wanted and faults & {"bad-quantity", "unread-cell"}:
        return "once the row can be read, the order can be put right."
    return "nothing of what was meant can be had on this lamp. Ask the caller."


def _could_be_for(it: CheckedOrder) -> str:
    names = [f"{lamp.name} ({lamp.id})" for lamp in it.could_be_for]
    more = len(names) - _LAMPS
    if more > 1:
        return f"Its parts go on {', '.join(names[:_LAMPS])} and {more} more lamps."
    return f"Its parts go on {listed(names, 'or')}."


_LAMPS = 4
"""Lamps named where many would do."""


def _head(it: CheckedOrder, units: Units) -> str:
    understood = it.checked.understood
    lamp = understood.lamp
    what = f"{lamp.name} ({lamp.id})" if lamp else understood.order.lamp or "lamp not named"
    place = understood.place.elevation
    at = f" at {say(Quantity(place, Kind.ELEVATION), units)}" if place else ""
    named = f"Order {understood.order.id}" if understood.order.id else "Rows without order number"
    return f"{named}: {what}{at}"


def _fault_lines(fault: OrderFault, units: Units, width: int) -> Iterator[str]:
    words = sentence(fault.finding, units)
    danger = "DANGER: " if fault.finding.severity is Severity.DANGER else ""
    head = f"row {fault.row}  {fault.fault}  "
    yield from paragraph(f"{danger}{words.says}", width, f"  {head}", "    ")
    if fault.because:
        yield from paragraph(sentence(fault.because, units).says, width, "    ")
    yield from paragraph(f"-> {words.cure}", width, "    ", "       ")


def _mended_lines(it: CheckedOrder, mended: Mended, units: Units, width: int) -> Iterator[str]:
    yield right("  Put right:", money(mended.price, units), width)
    rows = [
        (f"{count} x", part.id, part.name, bare_money((part.price or 0) * count))
        for part, count in mended.lines
    ]
    yield from table(rows, width, indent="    ", rights=(0, 3), wrapped=(2,))
    for change in it.changes:
        if change.did is not Did.KEPT:
            yield from bullet(change_words(change, it.checked, units), width, "    ")


def summary_lines(tally: Tally) -> list[str]:
    """Say how many orders there were, and how many faults by name."""
    if not tally.faulty:
        seen = f"{_many(tally.orders, 'order')} in {_many(tally.rows, 'row')}, no fault."
        return [seen, *_lampless(tally)]
    faults = sum(tally.faults.values())
    rows = [(f"{count:,}", name) for name, count in tally.faults.most_common()]
    seen = f"{_many(tally.orders, 'order')} in {_many(tally.rows, 'row')}"
    found = f"{tally.faulty:,} with {_many(faults, 'fault')}, {tally.mended:,} put right."
    return [f"{seen}: {found}", *table(rows, 80, rights=(0,)), *_lampless(tally)]


def _lampless(tally: Tally) -> Iterator[str]:
    """Say how many orders were not put on a lamp, so that no fault is not taken for a fit."""
    if tally.without_lamp:
        named = "names" if tally.without_lamp == 1 else "name"
        yield (
            f"{_many(tally.without_lamp, 'order')} {named} no known lamp: whether the parts go "
            "on it is not known."
        )


def _many(count: int, what: str) -> str:
    return f"{count:,} {what}{'' if count == 1 else 's'}"


# -- JSON ----------------------------------------------------------------------------------------


def json_report(
    book: Book, checked: Iterable[CheckedOrder], tally: Tally, units: Units
) -> Iterator[str]:
    """Yield one JSON document, each faulty order on a line of its own."""
    yield f'{{"currency": {json_text(units.currency)},\n"orders": ['
    before = "\n"
    for it in checked:
        yield before + json_text(plain_order(it, units), indent=None)
        before = ",\n"
    short = [plain_shortage(one, units) for one in tally.demand.shortages(book)]
    yield f'\n],\n"short_for_all": {json_text([*short], indent=None)},\n'
    yield f'"summary": {json_text(tally.plain(), indent=None)}}}\n'


# -- CSV -----------------------------------------------------------------------------------------

_HEADER = (
    "order",
    "lamp",
    "place",
    "row",
    "part",
    "fault",
    "severity",
    "says",
    "because",
    "cure",
    "mended",
    "mended_price",
    "mended_why",
)


def csv_report(
    book: Book, checked: Iterable[CheckedOrder], tally: Tally, units: Units
) -> Iterator[str]:
    """Yield one row for each fault with the mended order beside it, then the shelf."""
    yield _csv_row(_HEADER)
    for it in checked:
        order = it.checked.understood.order
        mended = it.mended
        sent = "; ".join(f"{n} x {part.id}" for part, n in mended.lines) if mended else ""
        price = plain_money(mended.price) or "" if mended else ""
        for at, fault in enumerate(it.checked.faults):
            cured_by = (change for change in it.changes if at in change.cures)
            words = sentence(fault.finding, units)
            because = sentence(fault.because, units).says if fault.because else ""
            yield _csv_row(
                (
                    order.id,
                    order.lamp,
                    order.place,
                    str(fault.row),
                    fault.part,
                    fault.fault,
                    fault.finding.severity.name.lower(),
                    words.says,
                    because,
                    words.cure,
                    sent,
                    price,
                    "; ".join(change_words(one, it.checked, units) for one in cured_by),
                )
            )
    for short in tally.demand.shortages(book):
        words = sentence(short.finding, units)
        severity = short.finding.severity.name.lower()
        cells = ("", "", "", "", short.part.id, short.finding.rule, severity)
        yield _csv_row((*cells, words.says, "", words.cure, "", "", ""))


def _csv_row(cells: Iterable[str]) -> str:
    line = io.StringIO()
    csv.writer(line, lineterminator="\n").writerow(map(no_formula, cells))
    return line.getvalue()

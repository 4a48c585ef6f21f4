"""``wickwright check``: every fault of every order in a file."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from wickwright.cli.desk import UnusableError, current_desk, fault_line
from wickwright.cli.options import shared_options
from wickwright.cli.output import terminal_width, written

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from wickwright.answers import CheckedOrder
    from wickwright.catalogue.records import Book
    from wickwright.cli.desk import Desk
    from wickwright.cli.tally import Tally
    from wickwright.orders.lines import Order

__all__ = ["command"]

_FAULTS = 1
_SHOWN = 12
_ENDINGS = (".json", ".csv", ".txt", ".text", ".md", ".log", "")
"""What the file of a report may end in."""
_LONG = 2_000
"""From so many orders on, progress is shown."""

_HELP = """Every fault of every order in ORDERS, and each faulty order put right.

ORDERS is a .csv, .xlsx or .parquet file with the columns order, lamp, place, part and
quantity; others are passed over. A row that cannot be read is a fault of its order. Exit code
1 when any order has a fault, 2 when the file cannot be read as orders.

With --json, one document: 'orders' holds the faulty ones, each on a line of its own,
'short_for_all' the parts the shelf does not do for, and 'summary' the counts.
"""


@click.command(help=_HELP, epilog="The options of 'wickwright --help' may stand here too.")
@click.argument("orders", type=click.Path(path_type=Path))
@click.option(
    "--propose/--no-propose", default=True, help="Whether to put faulty orders right (slower)."
)
@click.option(
    "--out",
    type=click.Path(path_type=Path, dir_okay=False),
    help="Write to this file instead: JSON when it ends in .json, one row for each fault "
    "when in .csv, text when in .txt.",
)
@shared_options()
def command(orders: Path, propose: bool, out: Path | None) -> int:  # noqa: FBT001 - as click calls it
    """Check a file of orders."""
    from wickwright.answers import check_orders  # noqa: PLC0415 - not needed for --help
    from wickwright.cli import tally as counting  # noqa: PLC0415 - not needed for --help

    desk = current_desk()
    if out is not None and out.exists() and out.samefile(orders):
        message = (
            f"'{out}' is the order file itself: the report would take its place. "
            "Name another file behind --out."
        )
        raise UnusableError(message)
    if out is not None and out.suffix.lower() not in _ENDINGS:
        message = (
            f"'{out}' ends in '{out.suffix}', and a report is not written in that form. Name a "
            "file that ends in .json, .csv (opens in a spreadsheet) or .txt."
        )
        raise UnusableError(message)
    read = _orders(desk, orders)
    compiled = desk.open()
    tally = counting.Tally()
    checked = tally.counted(check_orders(compiled, _watched(read, out), propose=propose))
    with written(out) as write:
        for text in _report(desk, compiled.book, checked, tally, out, propose=propose):
            write(text)
    return _FAULTS if tally.faulty or tally.demand.shortages(compiled.book) else 0


def _orders(desk: Desk, path: Path) -> tuple[Order, ...]:
    """Read the orders, or say everything that is wrong with the file."""
    from wickwright.catalogue.faults import Fault, RawTable  # noqa: PLC0415 - not for --help
    from wickwright.orders.order_file import read_orders  # noqa: PLC0415 - not for --help

    table = desk.shelf.read_orders(path, None)
    read = read_orders(table) if isinstance(table, RawTable) else table
    faults = [one for one in read if isinstance(one, Fault)]
    if faults:
        lines = [fault_line(fault) for fault in faults[:_SHOWN]]
        if len(faults) > _SHOWN:
            lines.append(f"and {len(faults) - _SHOWN:,} more")
        says = "\n  ".join([f"'{path}' cannot be read as orders:", *lines])
        raise UnusableError(says, faults)
    return tuple(one for one in read if not isinstance(one, Fault))


def _watched(orders: tuple[Order, ...], out: Path | None) -> Iterable[Order]:
    """Show how far it got, where someone watches and nothing else is on the screen."""
    free = sys.stderr.isatty() and (out is not None or not sys.stdout.isatty())
    if free and len(orders) >= _LONG:
        return _bar(orders)
    return orders


def _bar(orders: tuple[Order, ...]) -> Iterator[Order]:
    with click.progressbar(orders, label="orders", file=sys.stderr, update_min_steps=200) as bar:
        yield from bar


def _report(
    desk: Desk,
    book: Book,
    checked: Iterable[CheckedOrder],
    tally: Tally,
    out: Path | None,
    *,
    propose: bool,
) -> Iterator[str]:
    from wickwright.cli import order_reports  # noqa: PLC0415 - not needed for --help

    units = desk.units_of(book)
    ending = out.suffix.lower() if out else ""
    if ending == ".csv":
        return order_reports.csv_report(book, checked, tally, units)
    if desk.json or ending == ".json":
        return order_reports.json_report(book, checked, tally, units)
    return order_reports.text_report(book, checked, tally, units, terminal_width(), propose=propose)

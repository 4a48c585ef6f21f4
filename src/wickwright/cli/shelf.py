"""What the command line needs of the store; handed in, so that neither imports the other."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from pathlib import Path

    from wickwright.answers.town_table import TownTable
    from wickwright.catalogue.faults import Fault, RawTable
    from wickwright.catalogue.records import Book
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.settings import Settings

__all__ = ["Shelf"]


@dataclass(frozen=True, slots=True)
class Shelf:
    """Where books and orders come from and go to.

    Attributes
    ----------
    demo : Path
        The demo book that comes with the program.
    read_tables : callable
        The tables of a fit book, or what is wrong with its files.
    read_orders : callable
        The rows of an order file, or what is wrong with it; tells its progress.
    write_tables : callable
        Write tables to a folder or workbook; says why not.
    compile_book : callable
        A book made ready, with what was kept from last time where that pays.
    names : callable
        The keys of one table of a book, read as fast as can be and never refused.
    towns : callable
        The table of towns that comes with the program, or what is wrong with its files.
    """

    demo: Path
    read_tables: Callable[[Path], tuple[RawTable, ...] | tuple[Fault, ...]]
    read_orders: Callable[[Path, Callable[[int], None] | None], RawTable | tuple[Fault, ...]]
    write_tables: Callable[[Path, Sequence[RawTable]], tuple[Fault, ...]]
    compile_book: Callable[[Book, Settings], Compiled]
    names: Callable[[Path, str], tuple[tuple[str, str], ...]]
    towns: Callable[[], TownTable | tuple[Fault, ...]]

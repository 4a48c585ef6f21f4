"""What the command line needs of the store; handed in, so that neither imports the other."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from pathlib import Path

    from wickwright.answers.places.town_table import TownTable
    from wickwright.catalogue.faults import Fault, RawTable
    from wickwright.catalogue.records import Book
    from wickwright.cli.vault import Vault
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.settings import Settings

__all__ = ["DeskAsked", "Shelf"]


@dataclass(frozen=True, slots=True)
class DeskAsked:
    """How the desk in a browser is to be run, as typed.

    Attributes
    ----------
    host, port, names, single, person, desk, first_lead, certificate, key, readable, units
        As of :class:`wickwright.desk.running.Running`.
    store : str or None
        Where calls are kept; None is the usual place.
    show : bool
        Whether to open a browser.
    book : Path or None
        The first book of a new store; None is the demo book.
    """

    host: str
    port: int
    names: tuple[str, ...]
    store: str | None
    single: bool
    person: str
    desk: str
    first_lead: str
    certificate: Path | None
    key: Path | None
    readable: bool
    show: bool
    book: Path | None
    units: str


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
    open_desk : callable
        Run the desk in a browser until it is stopped.
    names : callable
        The keys of one table of a book, read as fast as can be and never refused.
    towns : callable
        The table of towns that comes with the program, or what is wrong with its files.
    vault : Vault
        How the desk's store is backed up and restored.
    """

    demo: Path
    read_tables: Callable[[Path], tuple[RawTable, ...] | tuple[Fault, ...]]
    read_orders: Callable[[Path, Callable[[int], None] | None], RawTable | tuple[Fault, ...]]
    write_tables: Callable[[Path, Sequence[RawTable]], tuple[Fault, ...]]
    compile_book: Callable[[Book, Settings], Compiled]
    open_desk: Callable[[DeskAsked, Settings], None]
    names: Callable[[Path, str], tuple[tuple[str, str], ...]]
    towns: Callable[[], TownTable | tuple[Fault, ...]]
    vault: Vault

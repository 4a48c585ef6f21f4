"""What the user set for every command, and the book it is about."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, cast

import click

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from wickwright.answers.places.town_table import Town
    from wickwright.catalogue.faults import Fault
    from wickwright.catalogue.records import Book
    from wickwright.cli.shelf import Shelf
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.settings import Settings
    from wickwright.terms.units import Units

__all__ = [
    "Desk",
    "UnusableError",
    "current_desk",
    "fault_line",
    "faults_and_doubts",
    "read_or_faults",
    "read_whole_book",
]

_SHOWN = 12


class UnusableError(click.ClickException):
    """Something the user gave cannot be used; the message says what mends it.

    Parameters
    ----------
    message : str
        What is wrong and what mends it.
    faults : sequence of Fault
        All faults of the file it is about.
    """

    exit_code = 2

    def __init__(self, message: str, faults: Sequence[Fault] = ()) -> None:
        super().__init__(message)
        self.faults = tuple(faults)


@dataclass
class Desk:
    """The settings of one run.

    Attributes
    ----------
    shelf : Shelf
        Where books come from.
    book : Path or None
        Folder or workbook; None is the demo book.
    units : str
        ``metric`` or ``us``.
    json : bool
        Whether machines read the output.
    tip : str
        Key of the tip limit in force; blank is the default.
    town : Town or None
        The town that was taken for the name of a place, if one was given.
    """

    shelf: Shelf
    book: Path | None = None
    units: str = "metric"
    json: bool = False
    tip: str = ""
    town: Town | None = None

    @property
    def path(self) -> Path:
        """Where the book is."""
        return self.book or self.shelf.demo

    def read(self) -> Book:
        """Read the book."""
        return read_whole_book(self.shelf, self.path)

    @property
    def settings(self) -> Settings:
        """The limits in force."""
        from wickwright.fit.settings import Settings  # noqa: PLC0415 - not needed for --help

        return Settings(tip=self.tip) if self.tip else Settings()

    def open(self) -> Compiled:
        """Read the book and make it ready."""
        return self.shelf.compile_book(self.read(), self.settings)

    def units_of(self, book: Book | None) -> Units:
        """Return the units to print in."""
        from wickwright.terms.units import Units  # noqa: PLC0415 - not needed for --help

        return Units(self.units, book.currency if book else "")


def current_desk() -> Desk:
    """Return the settings of the run that is going on."""
    return cast("Desk", click.get_current_context().find_root().obj)


def read_whole_book(shelf: Shelf, path: Path) -> Book:
    """Read a fit book.

    Parameters
    ----------
    shelf : Shelf
        Where books come from.
    path : Path
        A folder or a workbook.

    Returns
    -------
    Book
        Without a fault.

    Raises
    ------
    UnusableError
        When there is anything wrong with it; the message names the first faults.
    """
    read = read_or_faults(shelf, path)
    if isinstance(read, tuple):
        raise UnusableError(_refusal(path, read), read)
    return read


def read_or_faults(shelf: Shelf, path: Path) -> Book | tuple[Fault, ...]:
    """Read a fit book, or say everything that is wrong with it."""
    from wickwright.catalogue.faults import Fault, RawTable  # noqa: PLC0415 - not for --help
    from wickwright.catalogue.reading import read_book  # noqa: PLC0415 - not for --help

    read = shelf.read_tables(path)
    faults = tuple(one for one in read if isinstance(one, Fault))
    return faults or read_book([one for one in read if isinstance(one, RawTable)])


def faults_and_doubts(
    shelf: Shelf, path: Path, settings: Settings
) -> tuple[Book | None, tuple[Fault, ...]]:
    """Read a fit book and put each of its lamps together.

    Parameters
    ----------
    shelf : Shelf
        Where books come from.
    path : Path
        A folder or a workbook.
    settings : Settings
        Limits in force.

    Returns
    -------
    tuple of Book or None, and tuple of Fault
        The book where it can be used; everything that is or may be wrong with it.
    """
    from wickwright.answers.check_book import check_book  # noqa: PLC0415 - not for --help
    from wickwright.catalogue.faults import Fault, RawTable  # noqa: PLC0415 - not for --help
    from wickwright.catalogue.reading import read_book  # noqa: PLC0415 - not for --help

    read = shelf.read_tables(path)
    tables = [one for one in read if isinstance(one, RawTable)]
    faults = tuple(one for one in read if isinstance(one, Fault))
    book = faults or read_book(tables)
    if isinstance(book, tuple):
        return None, book
    return book, check_book(book, tables, settings)


def _refusal(path: Path, faults: Sequence[Fault]) -> str:
    lines = [fault_line(fault) for fault in faults[:_SHOWN]]
    if len(faults) > _SHOWN:
        more = f"and {len(faults) - _SHOWN} more"
        lines.append(f"{more}: 'wickwright book check {path}' lists them all")
    return "\n  ".join([f"the fit book '{path}' cannot be used:", *lines])


def fault_line(fault: Fault) -> str:
    """Put a fault of a file into one line."""
    where = [fault.table]
    if fault.row:
        where.append(f"row {fault.row}")
    if fault.column:
        where.append(fault.column)
    return f"{', '.join(where)}: {fault.what}; {fault.cure}"

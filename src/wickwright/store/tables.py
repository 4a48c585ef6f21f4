"""Fit books and orders from files, and tables into files."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from wickwright.catalogue.columns import TABLES
from wickwright.catalogue.faults import Fault, RawTable
from wickwright.catalogue.headers import column_letter
from wickwright.catalogue.spelling import quoted
from wickwright.store.csv_tables import csv_bytes, read_csv
from wickwright.store.file_faults import file_fault, missing, no_file_fault, unreadable
from wickwright.store.whole_files import write_files, write_folder

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence
    from pathlib import Path

    from typing_extensions import TypeIs

__all__ = ["are_faults", "read_orders", "read_tables", "write_tables"]

_CSV, _WORKBOOK, _PARQUET = _ORDERS_IN = ".csv", ".xlsx", ".parquet"
_ORDER = {name: place for place, name in enumerate(TABLES)}

_NEVER = re.compile("[\0\ud800-\udfff]")
_NOT_IN_WORKBOOK = re.compile("_x[0-9a-fA-F]{4}_x[0-9a-fA-F]{4}_|[\ufffe\uffff]")
_NOT_IN_SHEET_NAME = re.compile(r"[\[\]:*?/\\]|^'|'$")
_NOT_IN_FILE_NAME = re.compile(r"[/\\:\0]|^[.~]")
_LONGEST_SHEET_NAME, _LONGEST_CELL, _MOST_ROWS, _MOST_COLUMNS = 31, 32_767, 1_048_576, 16_384


def are_faults(read: tuple[RawTable, ...] | tuple[Fault, ...]) -> TypeIs[tuple[Fault, ...]]:
    """Tell whether reading came back with faults.

    Parameters
    ----------
    read : tuple of RawTable or tuple of Fault
        What :func:`read_tables` gave.

    Returns
    -------
    bool
        True for faults.
    """
    return bool(read) and isinstance(read[0], Fault)


def _csv_files(folder: Path) -> list[Path]:
    """Return the CSV files of a folder; hidden ones and lock files are none of them."""
    files = (path for path in folder.iterdir() if path.suffix.lower() == _CSV)
    return sorted(path for path in files if not path.name.startswith((".", "~")))


def _read_folder(folder: Path) -> list[RawTable | tuple[Fault, ...]]:
    files = _csv_files(folder)
    if not files:
        books = [path.name for path in folder.glob(f"*{_WORKBOOK}")]
        cure = f"give the path of the workbook itself: {books[0]}" if books else ""
        cure = cure or "a fit book has one CSV file for each table, such as parts.csv"
        return [(file_fault(folder, "the folder holds no CSV file", cure),)]
    return [read_csv(path) for path in files]


def _read_any(path: Path) -> list[RawTable | tuple[Fault, ...]]:
    if path.is_dir():
        return _read_folder(path)
    if path.suffix.lower() == _WORKBOOK:
        from wickwright.store.workbooks import read_workbook  # noqa: PLC0415 - start-up time

        return read_workbook(path)
    if not path.exists():
        return [(missing(path),)]
    cure = "give a folder of CSV files or one .xlsx workbook"
    return [(file_fault(path, f"{quoted(path.name)} is no fit book", cure),)]


def read_tables(path: Path) -> tuple[RawTable, ...] | tuple[Fault, ...]:
    """Read the tables of a fit book.

    Parameters
    ----------
    path : Path
        A folder of CSV files, or one .xlsx workbook.

    Returns
    -------
    tuple of RawTable or tuple of Fault
        The tables in the order of a fit book, others behind by name; or everything that is
        wrong with the files. Never empty; :func:`are_faults` tells which.
    """
    try:
        read = _read_any(path)
    except OSError as error:
        return (unreadable(path, error),)
    faults = [fault for one in read if isinstance(one, tuple) for fault in one]
    if faults:
        return tuple(faults)
    tables = [one for one in read if isinstance(one, RawTable)]
    return tuple(
        sorted(tables, key=lambda table: (_ORDER.get(table.name, len(_ORDER)), table.name))
    )


def read_orders(
    path: Path, progress: Callable[[int], None] | None = None
) -> RawTable | tuple[Fault, ...]:
    """Read a file of orders.

    Parameters
    ----------
    path : Path
        A .csv, .xlsx or .parquet file.
    progress : callable or None
        Told now and then, and at the end, how many rows were read so far.

    Returns
    -------
    RawTable or tuple of Fault
        The rows as text, named by the file without its ending, with the cells that cannot be
        read; or what is wrong with the whole file.
    """
    ending = path.suffix.lower()
    if ending == _CSV:
        return read_csv(path, progress, sparing=True)
    if ending == _WORKBOOK:
        from wickwright.store.workbooks import read_sheet_of_orders  # noqa: PLC0415

        return read_sheet_of_orders(path, progress)
    if ending == _PARQUET:
        from wickwright.store.parquet import read_parquet  # noqa: PLC0415

        return read_parquet(path, progress)
    if fault := no_file_fault(path):
        return (fault,)
    what = f"{quoted(path.name)} is no kind of file that orders are read from"
    return (file_fault(path, what, f"save it as one of: {', '.join(_ORDERS_IN)}"),)


def _places(table: RawTable) -> Iterator[tuple[int, int, str]]:
    """Yield row, place and text of every cell."""
    for row, cells in ((1, table.header), *table.rows):
        for place, cell in enumerate(cells):
            yield row, place, cell


def _cell_faults(table: RawTable, *, workbook: bool) -> Iterator[Fault]:
    """Yield the cells that could not be read again as they are."""
    for row, place, cell in _places(table):
        what = ""
        if _NEVER.search(cell):
            what = "the cell holds a sign that no text file can keep"
        elif workbook and _NOT_IN_WORKBOOK.search(cell):
            what = "the cell holds a sign that no workbook can keep"
        elif workbook and len(cell) > _LONGEST_CELL:
            what = f"the cell has {len(cell):,} signs; a workbook keeps {_LONGEST_CELL:,}"
        if what:
            yield Fault(table.name, row, column_letter(place), what, "shorten or retype the cell")


def _shape_faults(table: RawTable, *, workbook: bool) -> Iterator[Fault]:
    odd = _NOT_IN_SHEET_NAME if workbook else _NOT_IN_FILE_NAME
    too_long = workbook and len(table.name) > _LONGEST_SHEET_NAME
    if not table.name or too_long or odd.search(table.name):
        what = f"{quoted(table.name)} cannot be the name of a {'sheet' if workbook else 'file'}"
        yield Fault(table.name, 0, "", what, "give the table a short name of letters")
    rows = table.rows[-1][0] if table.rows else 1
    width = max((len(cells) for _, cells in table.rows), default=0)
    if workbook and (rows > _MOST_ROWS or max(width, len(table.header)) > _MOST_COLUMNS):
        what = (
            f"the table is larger than a sheet of {_MOST_ROWS:,} rows and {_MOST_COLUMNS:,} columns"
        )
        yield Fault(table.name, 0, "", what, "write it as CSV, or split it")


def _left_behind(folder: Path, tables: Sequence[RawTable]) -> Iterator[Fault]:
    """Yield the tables of a folder that would stand beside the new ones."""
    new = {f"{table.name}{_CSV}".lower() for table in tables}
    for path in _csv_files(folder) if folder.is_dir() else ():
        if path.name.lower() not in new:
            what = f"the folder also holds {quoted(path.name)}, which is not among the new tables"
            yield file_fault(folder, what, "write to another folder, or move that file away")


def _name_faults(tables: Sequence[RawTable]) -> Iterator[Fault]:
    seen: set[str] = set()
    for table in tables:
        if table.name.lower() in seen:
            what = f"there are two tables {quoted(table.name)}"
            yield Fault(table.name, 0, "", what, "put them together, or rename one")
        seen.add(table.name.lower())


def _unwritable(path: Path, tables: Sequence[RawTable], *, workbook: bool) -> tuple[Fault, ...]:
    faults = [*_name_faults(tables)]
    for table in tables:
        faults.extend(_shape_faults(table, workbook=workbook))
        faults.extend(_cell_faults(table, workbook=workbook))
    if workbook and path.is_dir():
        cure = "give the path of a file"
        faults.append(file_fault(path, f"{quoted(path.name)} is a folder", cure))
    elif not workbook and path.exists() and not path.is_dir():
        what = f"{quoted(path.name)} is a file"
        faults.append(file_fault(path, what, "give the path of a folder or of an .xlsx workbook"))
    elif not workbook:
        faults.extend(_left_behind(path, tables))
    return tuple(faults)


def write_tables(path: Path, tables: Sequence[RawTable]) -> tuple[Fault, ...]:
    """Write tables to a folder of CSV files or to one workbook.

    Parameters
    ----------
    path : Path
        A path that ends in .xlsx, or a folder; the folder above it must be there.
    tables : sequence of RawTable
        At least one. Reading them again gives the same cells on the same rows.

    Returns
    -------
    tuple of Fault
        Empty when everything is written. Otherwise why these tables cannot be kept there;
        then nothing was touched.

    Raises
    ------
    OSError
        When the system refuses, for instance because the disk is full. Each old file is
        then whole: either as it was, or already replaced by its new one.
    """
    workbook = path.suffix.lower() == _WORKBOOK
    if faults := _unwritable(path, tables, workbook=workbook):
        return faults
    if workbook:
        from wickwright.store.workbooks import workbook_bytes  # noqa: PLC0415

        write_files({path: workbook_bytes(tables)})
    else:
        write_folder(path, {f"{table.name}{_CSV}": csv_bytes(table) for table in tables})
    return ()

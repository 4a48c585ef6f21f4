"""Workbooks (.xlsx) in and out: one sheet for each table, every cell text."""

from __future__ import annotations

import datetime as dt
import io
import zipfile
from typing import TYPE_CHECKING, cast

from wickwright.catalogue.columns import TABLES
from wickwright.catalogue.faults import Fault, RawTable
from wickwright.catalogue.headers import column_letter
from wickwright.catalogue.writing import column_note
from wickwright.store.cell_text import Value, cell_text, is_moment
from wickwright.store.file_faults import file_fault, no_file_fault, unreadable
from wickwright.store.raw_rows import Rows, collector_paused
from wickwright.store.workbook_parts import BadCell, BadWorkbookError, look_through

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence
    from pathlib import Path

    from xlsxwriter import Workbook
    from xlsxwriter.format import Format
    from xlsxwriter.worksheet import Worksheet

__all__ = ["read_sheet_of_orders", "read_workbook", "workbook_bytes"]

_OLD_OFFICE = b"\xd0\xcf\x11\xe0"
_WIDEST, _NARROWEST = 48, 9  # column widths [signs]
_MADE = dt.datetime(2000, 1, 1, tzinfo=dt.UTC)  # equal books give equal files
_TEXT = 49  # the built-in number format for text
_ORDERS = "orders"

Row = list[Value]
Grids = list[tuple[str, list[Row]]]
"""Name and cells of each sheet that has any, and of each table of a book."""


def _archive(path: Path) -> tuple[bytes, dict[str, tuple[BadCell, ...]]]:
    """Return the bytes of a workbook and its cells that would be read as blanks."""
    data = path.read_bytes()
    if data.startswith(_OLD_OFFICE):
        what = "the workbook is locked with a password, or of the old kind .xls"
        raise BadWorkbookError(what, "save it as an .xlsx workbook without a password")
    try:
        archive = zipfile.ZipFile(io.BytesIO(data))
    except (zipfile.BadZipFile, ValueError, OSError):
        what = "the file is no whole .xlsx workbook: it was cut short, or is something else"
        raise BadWorkbookError(
            what, "get the file again, or save it as an .xlsx workbook"
        ) from None
    with archive:
        return data, look_through(archive)


def _spread(grid: list[Row], merged: Iterable[tuple[tuple[int, int], tuple[int, int]]]) -> None:
    """Write what a merged cell holds into every row that it covers."""
    for (top, left), (bottom, _) in merged:
        for row in grid[top + 1 : bottom + 1]:
            if left < len(row):
                row[left] = grid[top][left]


def _grids(data: bytes, *, spread: bool) -> Grids:
    """Return the cells of every sheet, merged ones spread over their rows or not."""
    from python_calamine import CalamineError, CalamineWorkbook, SheetTypeEnum  # noqa: PLC0415

    try:
        with CalamineWorkbook.from_filelike(io.BytesIO(data)) as book:
            names = [s.name for s in book.sheets_metadata if s.typ is SheetTypeEnum.WorkSheet]
            sheets = [book.get_sheet_by_name(name) for name in names]
            grids = [sheet.to_python(skip_empty_area=False) for sheet in sheets]
            found = list(zip(names, cast("list[list[Row]]", grids), strict=True))
            if spread:
                for (_, grid), sheet in zip(found, sheets, strict=True):
                    _spread(grid, sheet.merged_cell_ranges or [])
            return found
    except (CalamineError, OSError, ValueError, OverflowError) as error:
        what = f"the workbook is damaged ({str(error) or type(error).__name__})"
        raise BadWorkbookError(
            what, "get the file again, or open and save it in a spreadsheet"
        ) from None


def _open(
    path: Path, *, spread: bool = False
) -> tuple[Grids, dict[str, tuple[BadCell, ...]]] | Fault:
    if fault := no_file_fault(path):
        return fault
    try:
        data, bad = _archive(path)
        with collector_paused():
            return _grids(data, spread=spread), bad
    except BadWorkbookError as error:
        return file_fault(path, error.what, error.cure)
    except OSError as error:
        return unreadable(path, error)


def _texts(grid: Iterable[Row]) -> Iterator[list[str]]:
    for row in grid:
        yield [cell if type(cell) is str else cell_text(cell) for cell in row]


def _column(header: Sequence[str], place: int) -> str:
    name = header[place].strip() if place < len(header) else ""
    return name or column_letter(place)


def _dates(name: str, header: Sequence[str], grid: Sequence[Row]) -> Iterator[Fault]:
    """Yield the cells that a spreadsheet took for a date."""
    for number, row in enumerate(grid, 1):
        for place, cell in enumerate(row):
            if type(cell) is not str and is_moment(cell):
                what = f"the spreadsheet keeps this cell as a date or time: {cell_text(cell)}"
                cure = "format the cell as text and type it again"
                yield Fault(name, number, _column(header, place), what, cure)


def _table(
    name: str,
    grid: Sequence[Row],
    bad: Iterable[BadCell],
    progress: Callable[[int], None] | None = None,
    *,
    orders: bool,
) -> RawTable | tuple[Fault, ...]:
    """Return one sheet as a table; in orders, dates are text and a bad cell spares the others."""
    texts = _texts(grid)
    rows = Rows(name, next(texts, []), progress)
    rows.faults.extend(
        Fault(name, one.row, _column(rows.header, one.place), one.what, one.cure) for one in bad
    )
    if not orders:
        rows.faults.extend(_dates(name, rows.header, grid))
    with collector_paused():
        rows.extend(texts)
    return rows.table(name, sparing=orders)


def read_workbook(path: Path) -> list[RawTable | tuple[Fault, ...]]:
    """Read every sheet of a workbook.

    Parameters
    ----------
    path : Path
        The .xlsx file.

    Returns
    -------
    list of RawTable or of tuples of Fault
        One for each sheet that has cells or the name of a table of a book. A date, an error
        and a formula without a saved result are faults.
    """
    opened = _open(path)
    if isinstance(opened, Fault):
        return [(opened,)]
    grids, bad = opened
    wanted = [(name, grid) for name, grid in grids if grid or name in TABLES]
    if not wanted:
        cure = "keep one table on each sheet, or start from a template"
        return [(file_fault(path, "the workbook has no cells", cure),)]
    return [_table(name, grid, bad.get(name, ()), orders=False) for name, grid in wanted]


def read_sheet_of_orders(
    path: Path, progress: Callable[[int], None] | None = None
) -> RawTable | tuple[Fault, ...]:
    """Read the one sheet of a workbook of orders.

    Parameters
    ----------
    path : Path
        The .xlsx file.
    progress : callable or None
        Told how many rows were read so far.

    Returns
    -------
    RawTable or tuple of Fault
        The sheet with cells; of several, the one named ``orders``. A merged cell holds for
        every row it covers. Dates are written as in
        ISO 8601; an error, or a formula without a saved result, is told with the table.
    """
    opened = _open(path, spread=True)
    if isinstance(opened, Fault):
        return (opened,)
    grids, bad = opened
    filled = [(name, grid) for name, grid in grids if grid]
    if not filled:
        return (file_fault(path, "the workbook has no cells", "export the orders again"),)
    if len(filled) > 1:
        filled = [one for one in filled if one[0].lower() == _ORDERS]
    if len(filled) != 1:
        names = ", ".join(name for name, _ in grids)
        what = f"the workbook has no sheet, or several, that could be the orders: {names}"
        return (file_fault(path, what, f"keep the orders alone, or on a sheet named '{_ORDERS}'"),)
    name, grid = filled[0]
    return _table(path.stem, grid, bad.get(name, ()), progress, orders=True)


def _write_header(book: Workbook, sheet: Worksheet, table: RawTable) -> None:
    bold = book.add_format({"bold": True, "num_format": _TEXT, "bottom": 1})
    known = TABLES.get(table.name)
    notes = {column.name: column_note(column) for column in known.columns} if known else {}
    for place, name in enumerate(table.header):
        sheet.write_string(0, place, name, bold)
        if name in notes:
            sheet.write_comment(0, place, notes[name], {"x_scale": 2.5, "y_scale": 1.5})
    sheet.freeze_panes(1, 0)


def _write_rows(sheet: Worksheet, table: RawTable, text: Format) -> None:
    at = 0
    widths = [len(name) for name in table.header]
    for number, cells in table.rows:
        at = max(at + 1, number - 1)
        for place, cell in enumerate(cells):
            if cell:
                sheet.write_string(at, place, cell, text)
                if place < len(widths) and len(cell) > widths[place]:
                    widths[place] = len(cell)
    for place, width in enumerate(widths):
        sheet.set_column(place, place, min(max(width + 2, _NARROWEST), _WIDEST), text)


def workbook_bytes(tables: Sequence[RawTable]) -> bytes:
    """Print tables as a workbook.

    Parameters
    ----------
    tables : sequence of RawTable
        One sheet each. Rows are put on the rows they are numbered with.

    Returns
    -------
    bytes
        The .xlsx file: every cell text and formatted as text, so that a spreadsheet neither
        calculates nor makes dates; the header frozen; a note on each known column. Equal
        tables give equal bytes.
    """
    from xlsxwriter import Workbook  # noqa: PLC0415

    out = io.BytesIO()
    book = Workbook(out, {"in_memory": True, "strings_to_formulas": False})
    book.set_properties({"created": _MADE})
    text = book.add_format({"num_format": _TEXT})
    for table in tables:
        sheet = book.add_worksheet(table.name)
        sheet.ignore_errors({"number_stored_as_text": "A1:XFD1048576"})
        _write_header(book, sheet, table)
        _write_rows(sheet, table, text)
    book.close()
    return out.getvalue()

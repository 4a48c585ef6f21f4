"""CSV as a table: UTF-8, commas, every cell kept as it is.

A cell that begins with ``=``, ``+``, ``-`` or ``@`` is data, such as ``-12 mm`` or ``@from``.
It is read and written unchanged: an apostrophe put before it to keep a spreadsheet from
taking it for a formula would change the book. Workbooks hold every cell as text instead.
"""

from __future__ import annotations

import codecs
import csv
import re
from typing import TYPE_CHECKING

from wickwright.store.file_faults import file_fault, no_file_fault, unreadable
from wickwright.store.raw_rows import Rows, collector_paused

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from wickwright.catalogue.faults import Fault, RawTable

__all__ = ["csv_bytes", "read_csv"]

_CHUNK = 1 << 20
_UTF8 = (
    "save it as 'CSV UTF-8' (a spreadsheet offers it under Save as), or keep it as "
    "an .xlsx workbook"
)
_SEPARATORS = {";": "semicolons", "\t": "tabs", "|": "upright strokes"}
_OTHERS = (
    (codecs.BOM_UTF16_LE, "the file is UTF-16, which spreadsheets call Unicode text"),
    (codecs.BOM_UTF16_BE, "the file is UTF-16, which spreadsheets call Unicode text"),
    (b"PK\x03\x04", "the file is a workbook or an archive, although its name ends in .csv"),
    (b"PAR1", "the file is Parquet, although its name ends in .csv"),
)
_NEEDS_QUOTES = re.compile('[,"\r\n\ufeff]')


def _byte_fault(path: Path) -> Fault | None:
    """Go through the bytes once; return why they are no UTF-8 text, if they are none."""
    decoder = codecs.getincrementaldecoder("utf-8")()
    line, held = 1, 0
    with path.open("rb") as file:
        chunk = file.read(_CHUNK)
        for magic, what in _OTHERS:
            if chunk.startswith(magic):
                return file_fault(path, what, _UTF8)
        while chunk or held:
            nul = chunk.find(b"\0")
            if nul >= 0:
                line += chunk.count(b"\n", 0, nul)
                what = f"there is a NUL byte on line {line}: this is not text"
                return file_fault(path, what, _UTF8)
            try:
                decoder.decode(chunk, final=not chunk)
            except UnicodeDecodeError as error:
                bad = error.object[error.start]
                line += error.object.count(b"\n", 0, error.start)
                what = f"byte 0x{bad:02X} on line {line} is not UTF-8"
                return file_fault(path, what, _UTF8)
            line += chunk.count(b"\n")
            held = len(decoder.getstate()[0])
            chunk = file.read(_CHUNK)
    return None


def _quote_fault(path: Path, error: csv.Error, row: int, line: int) -> Fault:
    """Say where a quotation mark went wrong."""
    if "expected after" in str(error):
        what = f"row {row}, line {line}: something stands behind a closing quotation mark"
        cure = 'double each quotation mark inside a quoted cell ("") and close the cell with one'
    elif "end of data" in str(error):
        what = f"a quotation mark opened on row {row}, line {line}, is never closed"
        cure = 'close it, or double it ("") where it belongs to the text'
    else:
        what = f"a cell on row {row}, line {line}, is longer than {csv.field_size_limit():,} signs"
        cure = "shorten it; was a quotation mark opened there and never closed?"
    return file_fault(path, what, cure)


def _separator_fault(path: Path, header: list[str]) -> Fault | None:
    if len(header) != 1:
        return None
    for sign, name in _SEPARATORS.items():
        if sign in header[0]:
            what = f"the columns are parted by {name}, not by commas"
            cure = "export it with commas between the columns, or keep it as an .xlsx workbook"
            return file_fault(path, what, cure)
    return None


def _read_text(
    path: Path, name: str, progress: Callable[[int], None] | None, *, sparing: bool
) -> RawTable | tuple[Fault, ...]:
    with path.open(encoding="utf-8-sig", newline="") as file:
        reader = csv.reader(file, strict=True)
        number, line = 1, 1
        try:
            header = next(reader, [])
            if fault := _separator_fault(path, header):
                return (fault,)
            rows = Rows(name, header, progress)
            for cells in reader:
                number += 1
                line = reader.line_num
                rows.add(number, cells)
        except csv.Error as error:
            return (_quote_fault(path, error, number + 1, line + 1),)
    return rows.table(name, sparing=sparing)


def read_csv(
    path: Path, progress: Callable[[int], None] | None = None, *, sparing: bool = False
) -> RawTable | tuple[Fault, ...]:
    """Read one CSV file.

    Parameters
    ----------
    path : Path
        The file. UTF-8, with or without a byte order mark; commas between the columns.
    progress : callable or None
        Told how many rows were read so far.
    sparing : bool
        Whether a fault of one row spares the others.

    Returns
    -------
    RawTable or tuple of Fault
        The table, named by the file without its ending; or what is wrong with the file.
        Blank rows are left out, and the others keep their numbers.
    """
    if fault := no_file_fault(path):
        return (fault,)
    try:
        if fault := _byte_fault(path):
            return (fault,)
        with collector_paused():
            return _read_text(path, path.stem, progress, sparing=sparing)
    except OSError as error:
        return (unreadable(path, error),)


def _cell(text: str) -> str:
    if _NEEDS_QUOTES.search(text):
        return '"' + text.replace('"', '""') + '"'
    return text


def csv_bytes(table: RawTable) -> bytes:
    """Print a table as CSV.

    Parameters
    ----------
    table : RawTable
        Its rows are put on the rows they are numbered with; rows left out become blank lines.

    Returns
    -------
    bytes
        UTF-8 without a byte order mark, a line feed after each row, quotation marks only
        where a cell needs them. Reading them gives the same cells.
    """
    lines = [",".join(map(_cell, table.header))]
    for number, cells in table.rows:
        lines.extend("" for _ in range(number - len(lines) - 1))
        padded = (*cells, *("" for _ in range(len(table.header) - len(cells))))
        lines.append(",".join(map(_cell, padded)))
    return ("\n".join(lines) + "\n").encode()

"""Files to read and to spoil."""

from __future__ import annotations

import io
import zipfile
from typing import TYPE_CHECKING

from xlsxwriter import Workbook

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence
    from pathlib import Path

    from wickwright.catalogue.faults import Fault, RawTable


def lines(read: RawTable | tuple[RawTable, ...] | tuple[Fault, ...]) -> list[str]:
    """Return the faults a file was refused with, whole; fails when it was read."""
    assert isinstance(read, tuple), "the file was read"
    said = []
    for fault in read:
        assert not hasattr(fault, "header"), "the file was read"
        said.append(f"{fault.table} {fault.row} {fault.column}: {fault.what}; {fault.cure}")
    return said


def workbook(path: Path, sheets: Mapping[str, Sequence[Sequence[object]]]) -> Path:
    """Write a workbook as a spreadsheet would: numbers as numbers, dates as dates."""
    with Workbook(path, {"default_date_format": "yyyy-mm-dd"}) as book:
        for name, rows in sheets.items():
            sheet = book.add_worksheet(name)
            for at, row in enumerate(rows):
                sheet.write_row(at, 0, row)
    return path


def rezipped(path: Path, change: Callable[[str, bytes], bytes]) -> None:
    """Change the files inside a workbook."""
    out = io.BytesIO()
    with zipfile.ZipFile(path) as old, zipfile.ZipFile(out, "w") as new:
        for name in old.namelist():
            new.writestr(name, change(name, old.read(name)))
    path.write_bytes(out.getvalue())

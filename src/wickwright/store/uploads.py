"""A fit book that came in through a browser: one workbook, or a ZIP of CSV files."""

from __future__ import annotations

import io
import zipfile
import zlib
from pathlib import Path, PurePosixPath
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, Final

from wickwright.catalogue.faults import Fault
from wickwright.catalogue.spelling import quoted
from wickwright.store.tables import read_tables

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickwright.catalogue.faults import RawTable

__all__ = ["MOST_FILES", "MOST_UNPACKED", "read_upload"]

MOST_UNPACKED: Final = 64_000_000
"""Bytes of all files of a ZIP together, unpacked [-]."""
MOST_FILES: Final = 60
"""Files in a ZIP [-]; a fit book has about twenty tables."""
_ZIP: Final = b"PK\x03\x04"
_WORKBOOK_PART: Final = "xl/workbook.xml"


def read_upload(name: str, body: bytes) -> tuple[RawTable, ...] | tuple[Fault, ...]:
    """Read the tables of a fit book that was sent as one file.

    Parameters
    ----------
    name : str
        Of the file, for messages only; what it is shows from its bytes.
    body : bytes
        A workbook (.xlsx), or a ZIP of CSV files, one a table.

    Returns
    -------
    tuple of RawTable or tuple of Fault
        As :func:`wickwright.store.tables.read_tables`.
    """
    packed = _unpacked(body)
    if packed is None:
        what = f"{quoted(name)} is neither a workbook nor a ZIP of CSV files"
        return (_fault(name, what, "save the book as .xlsx, or pack its CSV files into a .zip"),)
    names = [one.filename for one in packed.infolist() if not one.is_dir()]
    faults = tuple(_pack_faults(name, packed))
    if faults:
        return faults
    with TemporaryDirectory() as folder:
        if _WORKBOOK_PART in names:
            path = Path(folder) / "fit-book.xlsx"
            path.write_bytes(body)
            return read_tables(path)
        return _read_pack(name, packed, Path(folder))


def _unpacked(body: bytes) -> zipfile.ZipFile | None:
    if not body.startswith(_ZIP):
        return None
    try:
        return zipfile.ZipFile(io.BytesIO(body))
    except (zipfile.BadZipFile, ValueError, OSError):
        return None


def _fault(name: str, what: str, cure: str) -> Fault:
    return Fault(name[:60] or "the file", 0, "", what, cure)


def _pack_faults(name: str, packed: zipfile.ZipFile) -> Iterator[Fault]:
    """Say why a ZIP is not unpacked."""
    size = sum(one.file_size for one in packed.infolist())
    if size > MOST_UNPACKED:
        what = f"unpacked it has {size:,} bytes; the most is {MOST_UNPACKED:,}"
        yield _fault(name, what, "pack only the tables of the fit book")
    if any(one.flag_bits & 1 for one in packed.infolist()):
        yield _fault(name, "it is locked with a password", "pack it without one")


def _read_pack(
    name: str, packed: zipfile.ZipFile, folder: Path
) -> tuple[RawTable, ...] | tuple[Fault, ...]:
    tables = {PurePosixPath(one).name: one for one in packed.namelist() if _is_table(one)}
    if not tables or len(tables) > MOST_FILES:
        what = f"it holds {len(tables)} CSV files"
        cure = f"pack the CSV files of one book, at most {MOST_FILES}, each named by its table"
        return (_fault(name, what, cure),)
    try:
        for file, inside in tables.items():
            (folder / file).write_bytes(packed.read(inside))
    except (zipfile.BadZipFile, zlib.error, NotImplementedError, EOFError, ValueError, OSError):
        return (_fault(name, "the ZIP is broken", "pack it once more"),)
    return read_tables(folder)


def _is_table(inside: str) -> bool:
    """Tell whether a packed file is a table; what a Mac packs along is none."""
    path = PurePosixPath(inside)
    hidden = path.name.startswith((".", "~")) or "__MACOSX" in path.parts
    return path.suffix.lower() == ".csv" and not hidden and "\\" not in inside

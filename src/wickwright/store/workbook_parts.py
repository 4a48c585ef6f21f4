"""What must be known of a workbook before its cells are read.

A workbook is a zip archive of XML. The reader of cells lays each sheet out as a full
rectangle and gives a blank for an error such as ``#N/A`` and for a formula without a saved
result; so the archive is looked through first.
"""

from __future__ import annotations

import html
import re
import zipfile
import zlib
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterator

__all__ = ["BadCell", "BadWorkbookError", "look_through"]

MOST_CELLS = 60_000_000
"""Cells of a sheet's rectangle; more would not fit in memory."""

MOST_UNPACKED = 2_000_000_000
"""Bytes of the archive once unpacked."""

_ATTRIBUTE = re.compile(r'([\w:]+)\s*=\s*"([^"]*)"')
_SHEET = re.compile(r"<(?:\w+:)?sheet\b([^>]*)>")
_RELATION = re.compile(r"<(?:\w+:)?Relationship\b([^>]*)>")
_ERROR = re.compile(rb'<(?:\w+:)?c\b([^>]*\bt="e"[^>]*)>')
_UNSAVED = re.compile(
    rb"<(?:\w+:)?c\b([^>]*[^/])><(?:\w+:)?f\b(?:[^>]*/>|[^>]*>[^<]*</(?:\w+:)?f>)"
    rb"(?:<(?:\w+:)?v/>|<(?:\w+:)?v></(?:\w+:)?v>)?</(?:\w+:)?c>"
)
_PLACE = re.compile(rb'\br="([A-Z]+)([0-9]+)"')
_LAST_ROW = re.compile(rb'row\b[^>]*?\br="([0-9]{1,9})')
_ROWS = re.compile(rb' r="[A-Z]*([0-9]{1,9})')
_WIDE = re.compile(rb' r="[A-Z][A-Z]')  # a literal beginning makes it fifteen times quicker
_WIDTHS = (
    (re.compile(rb' r="[A-Z]{4}'), 456_976),
    (re.compile(rb' r="[A-Z][A-Z][A-Z]'), 16_384),
    (re.compile(rb' r="[B-Z][A-Z]'), 702),
)
_NARROW, _DOUBLE = 26, 52


class BadCell(NamedTuple):
    """A cell that would be read as a blank although it is none.

    Attributes
    ----------
    row : int
        As the spreadsheet shows it.
    place : int
        Column, counted from 0.
    what, cure : str
        What is wrong and what mends it.
    """

    row: int
    place: int
    what: str
    cure: str


class BadWorkbookError(ValueError):
    """A workbook that cannot be read; ``what`` and ``cure`` say why and what mends it."""

    def __init__(self, what: str, cure: str) -> None:
        super().__init__(f"{what}: {cure}")
        self.what = what
        self.cure = cure


def _column_place(letters: bytes) -> int:
    place = 0
    for letter in letters.decode("ascii"):
        place = place * 26 + ord(letter) - ord("A") + 1
    return place - 1


def _located(found: re.Match[bytes]) -> tuple[int, int] | None:
    place = _PLACE.search(found[1])
    return (int(place[2]), _column_place(place[1])) if place else None


def _bad_cells(xml: bytes) -> Iterator[BadCell]:
    for found in _ERROR.finditer(xml) if b't="e"' in xml else ():
        if at := _located(found):
            yield BadCell(
                *at, "the cell holds a spreadsheet error", "mend its formula, or type the value"
            )
    for found in _UNSAVED.finditer(xml) if b"<f" in xml or b":f" in xml else ():
        if at := _located(found):
            what = "the cell holds a formula without a saved result"
            yield BadCell(*at, what, "open and save the workbook once, or type the value")


def _height(xml: bytes) -> int:
    """Return the last row, or the farthest cell's where one lies beyond it by a digit."""
    start = xml.rfind(b"row ")
    last = _LAST_ROW.match(xml, start) if start >= 0 else None
    rows = int(last[1]) if last else 0
    beyond = rb' r="[A-Z]*[0-9]{%d}' % (len(str(rows)) + 1)
    return max(map(int, _ROWS.findall(xml))) if re.search(beyond, xml) else rows


def _width(xml: bytes) -> int:
    """Return how many columns there are at most."""
    if not _WIDE.search(xml):
        return _NARROW
    return next((width for form, width in _WIDTHS if form.search(xml)), _DOUBLE)


def _check_size(name: str, xml: bytes) -> None:
    """Refuse a sheet whose rectangle is too large."""
    rows, width = _height(xml), _width(xml)
    if rows * width > MOST_CELLS:
        what = f"the sheet '{name}' reaches to row {rows:,} and across up to {width:,} columns"
        raise BadWorkbookError(what, "delete stray cells far below or beside the table")


def _attributes(text: str) -> dict[str, str]:
    return {name.split(":")[-1]: html.unescape(value) for name, value in _ATTRIBUTE.findall(text)}


def _sheet_files(archive: zipfile.ZipFile) -> Iterator[tuple[str, str]]:
    """Yield name and file of each sheet."""
    book = archive.read("xl/workbook.xml").decode("utf-8", "replace")
    relations = archive.read("xl/_rels/workbook.xml.rels").decode("utf-8", "replace")
    links = map(_attributes, _RELATION.findall(relations))
    targets = {link.get("Id", ""): link.get("Target", "") for link in links}
    for sheet in map(_attributes, _SHEET.findall(book)):
        target = targets.get(sheet.get("id", ""), "")
        yield (
            sheet.get("name", ""),
            target.lstrip("/") if target.startswith("/") else f"xl/{target}",
        )


def _looked_through(archive: zipfile.ZipFile) -> dict[str, tuple[BadCell, ...]]:
    if sum(entry.file_size for entry in archive.infolist()) > MOST_UNPACKED:
        what = f"the workbook unpacks to more than {MOST_UNPACKED:,} bytes"
        raise BadWorkbookError(
            what, "split it, or take out pictures and sheets that are not needed"
        )
    names = set(archive.namelist())
    bad: dict[str, tuple[BadCell, ...]] = {}
    for name, file in _sheet_files(archive):
        if file in names:
            xml = archive.read(file).replace(b"'", b'"')
            _check_size(name, xml)
            bad[name] = tuple(sorted(_bad_cells(xml)))
    return bad


def look_through(file: zipfile.ZipFile) -> dict[str, tuple[BadCell, ...]]:
    """Look through the archive of a workbook.

    Parameters
    ----------
    file : ZipFile
        The opened archive.

    Returns
    -------
    dict of str to tuple of BadCell
        For each sheet the cells that would be read as blanks although they are none.

    Raises
    ------
    BadWorkbookError
        When the archive is damaged, no workbook, or too large.
    """
    try:
        return _looked_through(file)
    except (zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, OSError) as error:
        what = f"the workbook is damaged ({error})"
        raise BadWorkbookError(
            what, "get the file again, or open and save it in a spreadsheet"
        ) from None
    except KeyError:
        what = "the file is an archive, but no .xlsx workbook"
        raise BadWorkbookError(what, "save it as an .xlsx workbook") from None
    except RuntimeError:
        what = "the workbook is locked with a password"
        raise BadWorkbookError(what, "save it without one") from None

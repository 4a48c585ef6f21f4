"""A raw table laid out under the columns of the fit book, every cell read once.

Cells are read by column, and each distinct text of a column once, which keeps a book of
tens of thousands of rows quick. A row whose first cell is ``#`` or begins with ``# `` is a
note and is left out; so is a row without any text. Row numbers stay those of the file.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, TypeVar

from wickwright.catalogue.cells import (
    CellError,
    parse_count,
    parse_day,
    parse_key,
    parse_length,
    parse_level,
    parse_money,
    parse_number,
    parse_pitch,
    parse_signed,
    parse_tokens,
    parse_year,
    word_of,
    words_of,
)
from wickwright.catalogue.columns import TABLES, Column, Holds, Table
from wickwright.catalogue.faults import Fault, RawTable
from wickwright.catalogue.headers import Heading, read_heading
from wickwright.catalogue.lists import LISTS
from wickwright.catalogue.spelling import meant
from wickwright.terms.dimension import Dimension, DimensionError

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence
    from decimal import Decimal

__all__ = ["Sheet", "Sheets", "read_sheets"]

T = TypeVar("T")
_EXTRA_SHOWN = 3


@dataclass(frozen=True, slots=True)
class Sheet:
    """A table of the book with its cells read.

    Attributes
    ----------
    table : Table
        What it should hold.
    rows : list of int
        Row number of each row, as a spreadsheet shows it.
    known : bool
        False where the table or the column of its keys is missing, so that nothing
        can be said about links into it.
    texts : dict
        Stripped text by column name; every column of the table is there.
    lists, wholes, numbers, sizes, levels : dict
        Values by column name; None where the cell is blank or at fault. Money is in
        wholes [hundredths], sizes are dimensions [m], levels are heights [m].
    faults : list of Fault
        What was found so far.
    """

    table: Table
    rows: list[int]
    known: bool
    texts: dict[str, list[str]]
    faults: list[Fault]
    lists: dict[str, list[tuple[str, ...]]] = field(default_factory=dict)
    wholes: dict[str, list[int | None]] = field(default_factory=dict)
    numbers: dict[str, list[Decimal | None]] = field(default_factory=dict)
    sizes: dict[str, list[Dimension | None]] = field(default_factory=dict)
    levels: dict[str, list[float | None]] = field(default_factory=dict)

    def fault(self, at: int, column: str, what: str, cure: str) -> None:
        """Note a fault of the ``at``-th row."""
        self.faults.append(Fault(self.table.name, self.rows[at], column, what, cure))


Sheets = dict[str, Sheet]
"""Every table of the book by name, the missing ones without rows."""


def _read(sheet: Sheet, column: str, parse: Callable[[str], T]) -> list[T | None]:
    """Read a column, each distinct text once, and note its faults."""
    texts = sheet.texts[column]
    known: dict[str, T | None] = {}
    bad: dict[str, CellError | DimensionError] = {}
    for text in set(texts):
        try:
            known[text] = parse(text) if text else None
        except (CellError, DimensionError) as error:
            known[text] = None
            bad[text] = error
    if bad:
        for at, text in enumerate(texts):
            if text in bad:
                sheet.fault(at, column, bad[text].what, bad[text].cure)
    return [known[text] for text in texts]


_SIZES: dict[str, Callable[[str], Dimension]] = {"pitch": parse_pitch}
"""Columns of sizes that are not read like a plain length."""
_WHOLES: dict[Holds, Callable[[str], int]] = {
    Holds.YEAR: parse_year,
    Holds.COUNT: parse_count,
    Holds.SIGNED: parse_signed,
    Holds.MONEY: parse_money,
}


def _read_column(sheet: Sheet, column: Column) -> None:
    """Read one column by what it holds."""
    name, of, holds = column.name, column.of, column.holds
    if holds in _WHOLES:
        sheet.wholes[name] = _read(sheet, name, _WHOLES[holds])
    elif holds is Holds.NUMBER:
        sheet.numbers[name] = _read(sheet, name, parse_number)
    elif holds is Holds.LEVEL:
        sheet.levels[name] = _read(sheet, name, parse_level)
    elif holds is Holds.LENGTH or name in _SIZES:
        sheet.sizes[name] = _read(sheet, name, _SIZES.get(name, parse_length))
    elif holds in (Holds.WORDS, Holds.LINKS):
        parse = parse_tokens if holds is Holds.LINKS else words_of(of, LISTS[of])
        sheet.lists[name] = [value or () for value in _read(sheet, name, parse)]
    elif holds is Holds.DAY:
        _read(sheet, name, parse_day)
    elif holds is Holds.KEY or holds is Holds.WORD:
        _read(sheet, name, parse_key if holds is Holds.KEY else word_of(of, LISTS[of]))


def _is_note(cells: Sequence[str]) -> bool:
    first = cells[0].strip() if cells else ""
    return first == "#" or first.startswith(("# ", "#\n"))


def _kept(raw: RawTable) -> Iterator[tuple[int, tuple[str, ...]]]:
    """Yield the rows that say something."""
    for number, cells in raw.rows:
        if any(map(str.strip, cells)) and not _is_note(cells):
            yield number, cells


def _squared(
    raw: RawTable, heading: Heading, faults: list[Fault]
) -> tuple[list[int], list[tuple[str, ...]]]:
    """Return row numbers and rows as wide as the header."""
    width, numbers, rows = heading.width, [], []
    for number, cells in _kept(raw) if width else ():
        numbers.append(number)
        if len(cells) == width:
            rows.append(cells)
            continue
        extra = [cell.strip() for cell in cells[width:] if cell.strip()]
        if extra:
            faults.append(_too_wide(raw.name, number, width, extra))
        rows.append((cells + ("",) * width)[:width])
    return numbers, rows


def _too_wide(table: str, row: int, width: int, extra: list[str]) -> Fault:
    shown = ", ".join(f"'{cell[:20]}'" for cell in extra[:_EXTRA_SHOWN])
    more = ", …" if len(extra) > _EXTRA_SHOWN else ""
    return Fault(
        table,
        row,
        "",
        f"the row has cells beyond the {width} columns of the header: {shown}{more}",
        "take them out, or put a text that has a comma in it in quotation marks",
    )


def _nameless(
    raw: RawTable, heading: Heading, numbers: list[int], columns: list[list[str]]
) -> Iterator[Fault]:
    """Yield a fault for each column with cells but without a name."""
    for place in heading.nameless:
        filled = [number for number, cell in zip(numbers, columns[place], strict=True) if cell]
        if filled:
            what = f"the {place + 1}. column has cells but no name"
            yield Fault(raw.name, filled[0], "", what, "name the column in the header, or clear it")


def _blanks(sheet: Sheet, column: Column) -> None:
    """Note the cells that must be filled and are not."""
    texts = sheet.texts[column.name]
    if "" in texts:
        for at, text in enumerate(texts):
            if not text:
                sheet.fault(at, column.name, "the cell is blank", f"fill it in: {column.note}")


def _read_sheet(raw: RawTable, faults: list[Fault]) -> Sheet:
    """Lay a raw table out and read its cells."""
    table = TABLES[raw.name]
    heading = read_heading(raw.header, table)
    faults.extend(heading.faults)
    numbers, rows = _squared(raw, heading, faults)
    stripped = [list(map(str.strip, cells)) for cells in zip(*rows, strict=True)]
    columns = stripped or [[] for _ in range(heading.width)]
    faults.extend(_nameless(raw, heading, numbers, columns))
    blank = [""] * len(numbers)
    texts = {c.name: blank for c in table.columns}
    texts.update({name: columns[place] for name, place in heading.places.items()})
    known = all(c.name in heading.places for c in table.columns if c.holds is Holds.KEY)
    sheet = Sheet(table, numbers, known, texts, faults)
    for column in table.columns:
        if column.must and column.name in heading.places:
            _blanks(sheet, column)
        _read_column(sheet, column)
    return sheet


def _missing(table: Table) -> Fault:
    must = ", ".join(column.name for column in table.columns if column.must)
    return Fault(
        table.name,
        0,
        "",
        f"the table '{table.name}' is missing",
        f"add it, one row for {table.row}, with at least the columns {must}",
    )


def _unknown(raw: RawTable, missing: Sequence[str]) -> Fault:
    cure = meant(raw.name, missing) or meant(raw.name, TABLES)
    return Fault(
        raw.name,
        0,
        "",
        f"there is no table '{raw.name}' in a fit book",
        f"{cure}the tables are: {', '.join(TABLES)}; rename it or keep it elsewhere",
    )


def read_sheets(tables: Sequence[RawTable], faults: list[Fault]) -> Sheets:
    """Lay out every table of a book and read its cells.

    Parameters
    ----------
    tables : sequence of RawTable
        As they came.
    faults : list of Fault
        Faults of tables, columns and cells are added to it.

    Returns
    -------
    dict of str to Sheet
        Every table of :data:`wickwright.catalogue.columns.TABLES`, in that order.
    """
    given: dict[str, RawTable] = {}
    strangers = [raw for raw in tables if raw.name not in TABLES and (raw.header or raw.rows)]
    for raw in (raw for raw in tables if raw.name in TABLES):
        if raw.name in given:
            what = f"the table '{raw.name}' is there twice"
            faults.append(Fault(raw.name, 0, "", what, "put its rows together in one table"))
        given[raw.name] = raw
    absent = [name for name in TABLES if name not in given]
    faults.extend(_unknown(raw, absent) for raw in strangers)
    faults.extend(_missing(TABLES[name]) for name in absent if TABLES[name].must)
    sheets: Sheets = {}
    for name, table in TABLES.items():
        sheets[name] = _read_sheet(given.get(name, _empty(table)), faults)
    return {name: s if name in given else _unsure(s) for name, s in sheets.items()}


def _empty(table: Table) -> RawTable:
    return RawTable(table.name, tuple(column.name for column in table.columns), ())


def _unsure(sheet: Sheet) -> Sheet:
    """Return a sheet that is missing; links into a table a book must have are not judged."""
    return replace(sheet, known=False) if sheet.table.must else sheet

"""What is written is read again as it was, and nothing that is read raises."""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.support.random_books import drafts, texts
from tests.support.tables import SOUND, Draft, raw, said, sound_book, tables_of

from wickwright.catalogue.columns import TABLES
from wickwright.catalogue.compare import Did, compare_books
from wickwright.catalogue.faults import Fault, RawTable
from wickwright.catalogue.reading import read_book
from wickwright.catalogue.records import Book
from wickwright.catalogue.writing import book_tables
from wickwright.store.csv_tables import csv_bytes, read_csv
from wickwright.store.tables import are_faults, read_orders, read_tables
from wickwright.store.workbooks import read_workbook, workbook_bytes

QUICK = settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow], database=None
)
BRIEF = settings(QUICK, max_examples=25)

_ODD = st.sampled_from(
    (
        *("", " ", "#", "# x", "#x", "0", "-1", "1/0 mm", "0 mm", "-0 mm", "12,50", "1,250", "1e9"),
        *("nan", "inf", "9" * 400, f"{'9' * 400} mm", "1/0 tpi", "0 tpi", "2 2/0 in", "٣ mm", "²"),
        *("66.7 ± 70 mm", "70..60 mm", "@from", "=1+1", "a b a", "a,b", "B1", "U1 U2", "made"),
        *("carries", "thread", "wick", "only", "is", "in", "height", "1928", "required", "care"),
    )
)
_CELLS = _ODD | st.text(max_size=6)


def _book(rows: Draft) -> Book:
    read = read_book(tables_of(rows))
    assert isinstance(read, Book), said(read)
    return read


@QUICK
@given(drafts())
def test_every_cell_of_a_sound_book_comes_back(rows: Draft) -> None:
    """A cell of the book would be lost or changed each time it is read and written."""
    assert book_tables(_book(rows)) == tables_of(rows)


@QUICK
@given(drafts(), drafts())
def test_what_one_way_adds_the_other_way_drops(one: Draft, two: Draft) -> None:
    """Comparing two editions would miss a row or a cell."""
    turned = {Did.ADDED: Did.DROPPED, Did.DROPPED: Did.ADDED, Did.CHANGED: Did.CHANGED}
    there = {
        (change.table, change.key, change.did, cell.column, cell.old, cell.new)
        for change in compare_books(_book(one), _book(two))
        for cell in change.cells
    }
    back = {
        (change.table, change.key, turned[change.did], cell.column, cell.new, cell.old)
        for change in compare_books(_book(two), _book(one))
        for cell in change.cells
    }
    assert there == back
    assert bool(there) is (_book(one) != _book(two))


@QUICK
@given(
    st.lists(
        st.builds(
            RawTable,
            st.sampled_from((*TABLES, "part", "")),
            st.lists(st.sampled_from(("part", "port", "kind", "")) | _CELLS, max_size=5).map(tuple),
            st.lists(
                st.tuples(st.integers(2, 9), st.lists(_CELLS, max_size=5).map(tuple)), max_size=4
            ).map(tuple),
        ),
        max_size=5,
    )
)
def test_tables_of_any_shape_are_read_or_refused(tables: list[RawTable]) -> None:
    """A garbled file would crash the program in place of saying what is wrong with it."""
    read = read_book(tables)
    assert isinstance(read, Book) or (read and all(isinstance(one, Fault) for one in read))


@QUICK
@given(st.data())
def test_a_sound_book_with_odd_cells_is_read_or_refused(data: st.DataObject) -> None:
    """One odd cell in a sound book would crash the program."""
    rows = {name: [dict(row) for row in table] for name, table in SOUND.items()}
    for _ in range(data.draw(st.integers(1, 4))):
        name = data.draw(st.sampled_from(tuple(rows)))
        columns = [column.name for column in TABLES[name].columns]
        row = data.draw(st.sampled_from(rows[name]))
        row[data.draw(st.sampled_from(columns))] = data.draw(_CELLS)
    read = read_book(tables_of(rows))
    if isinstance(read, Book):
        assert read_book(book_tables(read)) == read
    else:
        assert all(fault.what and fault.cure for fault in read)
        assert len(set(read)) == len(read)


_HEADERS = st.lists(texts.filter(bool), min_size=2, max_size=4, unique=True).map(tuple)


@st.composite
def _raw_tables(draw: st.DrawFn) -> RawTable:
    """Draw a table as a file can hold it: rows as wide as the header, blank rows left out."""
    header = draw(_HEADERS)
    odd = st.sampled_from(('"', "\r", "\n", "a\r\nb", ",", " x ", "=1", "_x0041_", "\t", "1.0"))
    rows = st.lists(st.tuples(*([odd | texts] * len(header))), max_size=4)
    at, numbered = 1, []
    for row in draw(rows):
        at += draw(st.integers(1, 3))
        if any(row) and row != header:
            numbered.append((at, row))
    return RawTable("t", header, tuple(numbered))


@BRIEF
@given(_raw_tables())
def test_a_table_as_csv_comes_back_cell_by_cell_and_row_by_row(table: RawTable) -> None:
    """A cell with a line end, a quotation mark or blanks would be changed on the disk."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "t.csv"
        path.write_bytes(csv_bytes(table))
        assert read_csv(path) == table


@BRIEF
@given(_raw_tables())
def test_a_table_as_a_workbook_comes_back_cell_by_cell_and_row_by_row(table: RawTable) -> None:
    """A cell with a line end, leading zeros or blanks would be changed by the workbook."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "t.xlsx"
        path.write_bytes(workbook_bytes((table,)))
        assert read_workbook(path) == [table]


@BRIEF
@given(st.binary(max_size=60), st.sampled_from((".csv", ".xlsx", ".parquet", ".doc")))
def test_files_of_any_bytes_are_read_or_refused(data: bytes, ending: str) -> None:
    """A file that is not what its name says would crash the program."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / f"parts{ending}"
        path.write_bytes(data)
        read = read_orders(path)
        assert isinstance(read, RawTable) or read
        for book in (path, Path(folder)):
            tables = read_tables(book)
            assert tables
            assert are_faults(tables) or all(isinstance(one, RawTable) for one in tables)


_WORKBOOK = workbook_bytes(book_tables(sound_book())[:3])


@settings(QUICK, max_examples=100)
@given(st.lists(st.tuples(st.integers(0, len(_WORKBOOK) - 1), st.integers(0, 255)), max_size=4))
def test_a_workbook_with_changed_bytes_is_read_or_refused(changes: list[tuple[int, int]]) -> None:
    """A few bytes lost on the way would crash the program."""
    data = bytearray(_WORKBOOK)
    for at, byte in changes:
        data[at] = byte
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "book.xlsx"
        path.write_bytes(data)
        tables = read_tables(path)
        assert tables
        if not changes:
            assert not are_faults(tables)


@pytest.mark.parametrize("name", TABLES)
def test_a_table_of_odd_cells_alone_is_refused_and_not_raised(name: str) -> None:
    """One column would take a cell that its reader cannot bear."""
    columns = [column.name for column in TABLES[name].columns]
    odd = ["1/0 mm", "9" * 400, "\N{ARABIC-INDIC DIGIT THREE}", "²", "--", "0", "#", ",", "@from"]
    rows = [dict.fromkeys(columns, cell) for cell in odd]
    read = read_book((raw(name, rows),))
    assert isinstance(read, tuple)
    assert read

from __future__ import annotations

import codecs
from typing import TYPE_CHECKING

import pytest
from tests.support.files import lines

from wickwright.catalogue.faults import RawTable
from wickwright.store import csv_tables, file_faults
from wickwright.store.csv_tables import csv_bytes, read_csv
from wickwright.store.raw_rows import PROGRESS_STEP

if TYPE_CHECKING:
    from pathlib import Path

_UTF8 = (
    "save it as 'CSV UTF-8' (a spreadsheet offers it under Save as), or keep it as an "
    ".xlsx workbook"
)


def _file(folder: Path, data: bytes) -> Path:
    path = folder / "parts.csv"
    path.write_bytes(data)
    return path


def test_rows_keep_the_numbers_a_spreadsheet_shows(tmp_path: Path) -> None:
    """A fault would point at the wrong row behind a blank line or a cell of two lines."""
    path = _file(tmp_path, b'a,b\n\n1,"two\nlines"\n,\n2,x\n')
    assert read_csv(path) == RawTable(
        "parts", ("a", "b"), ((3, ("1", "two\nlines")), (5, ("2", "x")))
    )


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_every_line_end_is_read(tmp_path: Path, end: str) -> None:
    """A file of another system would be one long line."""
    path = _file(tmp_path, f"a,b{end}1,2{end}".encode())
    assert read_csv(path) == RawTable("parts", ("a", "b"), ((2, ("1", "2")),))


def test_a_byte_order_mark_is_no_part_of_the_first_name(tmp_path: Path) -> None:
    """A spreadsheet's own 'CSV UTF-8' would lack its first column."""
    path = _file(tmp_path, codecs.BOM_UTF8 + "a,b\n66 ± 1 mm,é\n".encode())
    assert read_csv(path) == RawTable("parts", ("a", "b"), ((2, ("66 ± 1 mm", "é")),))


def test_short_rows_are_filled_and_blank_ends_cut(tmp_path: Path) -> None:
    """Commas a spreadsheet adds would be cells, and commas it leaves out be missing ones."""
    path = _file(tmp_path, b"a,b,,\n1\n2,3,,\n4,5,,6\n")
    assert read_csv(path) == RawTable(
        "parts", ("a", "b"), ((2, ("1", "")), (3, ("2", "3")), (4, ("4", "5", "", "6")))
    )


def test_cells_that_look_like_formulas_are_data(tmp_path: Path) -> None:
    """A height of -12 mm or a test against @from would come back changed."""
    cells = ("-12 mm", "@from", "=1+1", "+5")
    table = RawTable("parts", ("a", "b", "c", "d"), ((2, cells),))
    assert read_csv(_file(tmp_path, csv_bytes(table))) == table


def test_what_is_written_is_quoted_only_where_it_must_be() -> None:
    """A book kept under version control would differ in every line after each edit."""
    rows = ((2, ('2 5/8"', "a,b")), (4, ("x\r", "")), (5, ("\ufeff", " y ")))
    table = RawTable("parts", ("a", "b"), rows)
    assert csv_bytes(table) == ('a,b\n"2 5/8""","a,b"\n\n"x\r",\n"\ufeff", y \n'.encode())


@pytest.mark.parametrize(
    ("data", "fault"),
    [
        (b"", "the file is empty; it has no header: export it again, or start from a template"),
        ("a,b\nx,caf\xe9\n".encode("latin-1"), f"byte 0xE9 on line 2 is not UTF-8; {_UTF8}"),
        (b"a,b\nx,\xc3", f"byte 0xC3 on line 2 is not UTF-8; {_UTF8}"),
        (
            "a,b\n1,2\n".encode("utf-16"),
            f"the file is UTF-16, which spreadsheets call Unicode text; {_UTF8}",
        ),
        (
            codecs.BOM_UTF16_BE + "a,b\n".encode("utf-16-be"),
            f"the file is UTF-16, which spreadsheets call Unicode text; {_UTF8}",
        ),
        (b"a,b\n1,\x002\n", f"there is a NUL byte on line 2: this is not text; {_UTF8}"),
        (
            b"PK\x03\x04rest",
            "the file is a workbook or an archive, although its name ends in .csv; " + _UTF8,
        ),
        (b"PAR1rest", "the file is Parquet, although its name ends in .csv; " + _UTF8),
        (
            b'a,b\n1,2\n3,"4\n5,6\n',
            (
                "a quotation mark opened on row 3, line 3, is never closed; "
                'close it, or double it ("") where it belongs to the text'
            ),
        ),
        (
            b'a,b\n"x\ny",2\n3,"4"5\n',
            (
                "row 3, line 4: something stands behind a closing quotation mark; double each "
                'quotation mark inside a quoted cell ("") and close the cell with one'
            ),
        ),
        (
            b"a,b\n1," + b"x" * 140_000 + b"\n",
            (
                "a cell on row 2, line 2, is longer than 131,072 signs; "
                "shorten it; was a quotation mark opened there and never closed?"
            ),
        ),
        (
            b"a;b\n1;2\n",
            (
                "the columns are parted by semicolons, not by commas; export it with commas "
                "between the columns, or keep it as an .xlsx workbook"
            ),
        ),
        (
            b"a\tb\n1\t2\n",
            (
                "the columns are parted by tabs, not by commas; export it with commas between the "
                "columns, or keep it as an .xlsx workbook"
            ),
        ),
    ],
)
def test_a_file_that_cannot_be_read_says_why_and_what_mends_it(
    tmp_path: Path, data: bytes, fault: str
) -> None:
    """Whoever saved the file the wrong way would not learn how to save it."""
    assert lines(read_csv(_file(tmp_path, data))) == [f"parts.csv 0 : {fault}"]


@pytest.mark.parametrize(
    ("data", "faults"),
    [
        (
            b",\n1,2\n",
            [
                (
                    "parts 1 : the first row is blank; "
                    "the first row must name the columns: move the header up, or write one"
                )
            ],
        ),
        (
            b"a,b, a\n1,2,3\n",
            [
                (
                    "parts 1 a: the column 'a' is there 2 times: A, C; "
                    "keep one of them, or rename the others"
                )
            ],
        ),
        (
            b"a,b\n1,2\na,b\n3,4\n",
            [
                (
                    "parts 3 : the header stands here a second time; "
                    "take this row out; were two files joined?"
                )
            ],
        ),
    ],
)
def test_a_header_at_fault_is_told(tmp_path: Path, data: bytes, faults: list[str]) -> None:
    """Cells would be put under the wrong column, or a header be taken for a part."""
    assert lines(read_csv(_file(tmp_path, data))) == faults


def test_the_line_of_a_bad_byte_is_counted_across_pieces(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """In a large file the line named would be one of the last piece that was read."""
    monkeypatch.setattr(csv_tables, "_CHUNK", 3)
    good = "a,é\n" * 5
    path = _file(tmp_path, good.encode() + b"x,\xff\n")
    assert lines(read_csv(path)) == [f"parts.csv 0 : byte 0xFF on line 6 is not UTF-8; {_UTF8}"]
    path = _file(tmp_path, good.encode() + b"x,\0\n")
    assert lines(read_csv(path)) == [
        f"parts.csv 0 : there is a NUL byte on line 6: this is not text; {_UTF8}"
    ]


def test_a_missing_file_is_told_with_the_nearest_name(tmp_path: Path) -> None:
    """A slip in a file's name would end in a crash or without a hint."""
    (tmp_path / "parts.csv").write_bytes(b"a\n")
    assert lines(read_csv(tmp_path / "part.csv")) == [
        (
            "part.csv 0 : there is no file or folder 'part.csv'; did you mean 'parts.csv'? "
            f"check the name and the folder '{tmp_path}'"
        )
    ]
    assert lines(read_csv(tmp_path / "no" / "part.csv")) == [
        (
            "part.csv 0 : there is no file or folder 'part.csv'; "
            f"there is no folder '{tmp_path / 'no'}' either: check the path"
        )
    ]


def test_a_folder_in_place_of_a_file_is_told(tmp_path: Path) -> None:
    """Naming the folder of the orders would end in a crash."""
    assert lines(read_csv(tmp_path)) == [
        f"{tmp_path.name} 0 : '{tmp_path.name}' is a folder; give the path of one file"
    ]


def test_a_file_too_large_is_refused_before_it_is_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A wrong file of many gigabytes would take all memory of the machine."""
    monkeypatch.setattr(file_faults, "MOST_BYTES", 2_000_000)
    path = _file(tmp_path, b"a,b\n" * 750_000)
    assert lines(read_csv(path)) == [
        (
            "parts.csv 0 : the file has 3 MB; at most 2 are read; "
            "split it, or take out what is not needed"
        )
    ]


@pytest.mark.parametrize("name", ["x" * 300 + ".csv", "a\0b.csv"])
def test_a_name_the_system_refuses_is_a_fault(tmp_path: Path, name: str) -> None:
    """A name pasted by mistake would end in a crash."""
    (found,) = lines(read_csv(tmp_path / name))
    assert found.split(": ", 2)[1] == "the file cannot be read"


def test_progress_is_told_now_and_then_and_at_the_end(tmp_path: Path) -> None:
    """A long reading would look as if it had stopped."""
    told: list[int] = []
    rows = PROGRESS_STEP + 5
    path = _file(tmp_path, b"a,b\n" + b"1,2\n" * rows)
    assert isinstance(read_csv(path, told.append), RawTable)
    assert told == [PROGRESS_STEP - 2, rows]

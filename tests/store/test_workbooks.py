from __future__ import annotations

import datetime as dt
import io
import zipfile
from typing import TYPE_CHECKING

import pytest
from tests.support.files import lines, rezipped, workbook
from xlsxwriter import Workbook

from wickwright.catalogue.faults import Fault, RawTable
from wickwright.catalogue.writing import template
from wickwright.store import workbook_parts
from wickwright.store.workbooks import read_sheet_of_orders, read_workbook, workbook_bytes

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from xlsxwriter.worksheet import Worksheet

_AGAIN = "get the file again, or open and save it in a spreadsheet"


def _only(path: Path) -> list[str]:
    """Return the faults of a workbook's one readable thing."""
    (read,) = read_workbook(path)
    return lines(read)


def test_numbers_typed_into_a_spreadsheet_are_read_as_they_look(tmp_path: Path) -> None:
    """Part number 1102 would arrive as 1102.0 and be unknown."""
    rows: list[list[object]] = [
        ["part", "mass", "x"],
        [1102, 12.5, True],
        ["", "", ""],
        ["007", 0.1 + 0.2],
    ]
    path = workbook(tmp_path / "book.xlsx", {"parts": rows, "Sheet2": []})
    assert read_workbook(path) == [
        RawTable(
            "parts", ("part", "mass", "x"), ((2, ("1102", "12.5", "TRUE")), (4, ("007", "0.3", "")))
        )
    ]


def test_a_cell_that_became_a_date_is_told(tmp_path: Path) -> None:
    """A size of 2/5 that a spreadsheet took for the second of May would be read as a text."""
    day = dt.datetime(2024, 5, 2)  # noqa: DTZ001 - spreadsheets know no zones
    path = workbook(tmp_path / "book.xlsx", {"parts": [["part", ""], ["1", day], [day, "x"]]})
    keeps = "the spreadsheet keeps this cell as a date or time: 2024-05-02"
    cure = "format the cell as text and type it again"
    assert _only(path) == [f"parts 2 B: {keeps}; {cure}", f"parts 3 part: {keeps}; {cure}"]


def test_an_error_or_an_unsaved_formula_is_no_blank(tmp_path: Path) -> None:
    """A heat rating that shows #N/A would be read as one that is not known."""
    path = workbook(tmp_path / "book.xlsx", {"parts": [["part", "mass"], ["1", 5], ["2", 6]]})

    def spoil(name: str, xml: bytes) -> bytes:
        if not name.endswith("sheet1.xml"):
            return xml
        xml = xml.replace(b'<c r="B2"><v>5</v></c>', b"<c r='B2' t='e'><v>#N/A</v></c>")
        return xml.replace(b'<c r="B3"><v>6</v></c>', b'<c r="B3"><f>A3*2</f></c>')

    rezipped(path, spoil)
    assert _only(path) == [
        "parts 2 mass: the cell holds a spreadsheet error; mend its formula, or type the value",
        (
            "parts 3 mass: the cell holds a formula without a saved result; "
            "open and save the workbook once, or type the value"
        ),
    ]


def test_a_workbook_cut_short_anywhere_is_refused(tmp_path: Path) -> None:
    """Half a book would be read, or the program crash."""
    path = tmp_path / "book.xlsx"
    data = workbook_bytes(template()[:2])
    for length in range(1, len(data), 97):
        path.write_bytes(data[:length])
        assert _only(path) == [
            (
                "book.xlsx 0 : the file is no whole .xlsx workbook: it was cut short, or is "
                "something else; get the file again, or save it as an .xlsx workbook"
            )
        ]


def test_damage_inside_a_workbook_is_refused(tmp_path: Path) -> None:
    """A file that lost a few bytes on its way would crash the program or be read wrongly."""
    path = workbook(tmp_path / "book.xlsx", {"parts": [["part"], ["1"]]})
    rezipped(path, lambda _, xml: xml.replace(b"</sheetData>", b""))
    assert _only(path) == [f"book.xlsx 0 : the workbook is damaged (sheetData); {_AGAIN}"]
    data = workbook_bytes(template()[:1])
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        sheet = archive.getinfo("xl/worksheets/sheet1.xml")
    at = sheet.header_offset + 30 + len(sheet.filename) + 20
    path.write_bytes(data[:at] + bytes([data[at] ^ 0xFF]) + data[at + 1 :])
    (found,) = _only(path)
    assert found.startswith("book.xlsx 0 : the workbook is damaged (Error -3 ")
    assert found.endswith(f"; {_AGAIN}")


@pytest.mark.parametrize(
    ("data", "fault"),
    [
        (b"", "the file is empty; it has no header: export it again, or start from a template"),
        (
            b"\xd0\xcf\x11\xe0rest",
            (
                "the workbook is locked with a password, or of the old kind .xls; "
                "save it as an .xlsx workbook without a password"
            ),
        ),
        (
            b"part,name\n",
            (
                "the file is no whole .xlsx workbook: it was cut short, or is something else; "
                "get the file again, or save it as an .xlsx workbook"
            ),
        ),
    ],
)
def test_what_is_no_workbook_is_refused(tmp_path: Path, data: bytes, fault: str) -> None:
    """Whoever renamed a file would not learn what it is."""
    path = tmp_path / "book.xlsx"
    path.write_bytes(data)
    assert _only(path) == [f"book.xlsx 0 : {fault}"]


def test_another_archive_is_refused(tmp_path: Path) -> None:
    """A zip of CSV files under the ending of a workbook would crash the program."""
    path = tmp_path / "book.xlsx"
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr("parts.csv", "part")
    assert _only(path) == [
        "book.xlsx 0 : the file is an archive, but no .xlsx workbook; save it as an .xlsx workbook"
    ]


def test_a_workbook_without_cells_is_refused(tmp_path: Path) -> None:
    """A new, empty workbook would pass for a book without tables."""
    path = workbook(tmp_path / "book.xlsx", {"Sheet1": []})
    assert _only(path) == [
        (
            "book.xlsx 0 : the workbook has no cells; "
            "keep one table on each sheet, or start from a template"
        )
    ]


def test_an_empty_sheet_of_the_book_is_told(tmp_path: Path) -> None:
    """A table that was emptied by mistake would count as one without rows."""
    path = workbook(tmp_path / "book.xlsx", {"parts": [], "lamps": [["lamp"]]})
    empty, _ = read_workbook(path)
    assert lines(empty) == [
        (
            "parts 1 : the first row is blank; "
            "the first row must name the columns: move the header up, or write one"
        )
    ]


@pytest.mark.parametrize(
    ("cell", "width"), [("B9", 26), ("AC9", 52), ("CC9", 702), ("XFC9", 16_384)]
)
def test_a_stray_cell_far_out_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, cell: str, width: int
) -> None:
    """One stray cell at the far corner of a sheet would take all memory of the machine."""
    monkeypatch.setattr(workbook_parts, "MOST_CELLS", 9 * width - 1)
    path = workbook(tmp_path / "book.xlsx", {"parts": [["part"]] * 9})
    rezipped(path, lambda _, xml: xml.replace(b'r="A9"', f'r="{cell}"'.encode()))
    assert _only(path) == [
        (
            f"book.xlsx 0 : the sheet 'parts' reaches to row 9 and across up to {width:,} columns; "
            "delete stray cells far below or beside the table"
        )
    ]


def test_a_cell_that_lies_outside_its_row_is_told(tmp_path: Path) -> None:
    """One damaged digit of a cell's place would end the program without a word."""
    path = workbook(tmp_path / "book.xlsx", {"parts": [["part"]] * 9})
    rezipped(path, lambda _, xml: xml.replace(b'r="A3"', b'r="A30000000"'))
    assert _only(path) == [
        (
            "book.xlsx 0 : the sheet 'parts' reaches to row 30,000,000 and across up to 26 "
            "columns; delete stray cells far below or beside the table"
        )
    ]


def test_a_workbook_that_unpacks_to_too_much_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A small file made to unpack to terabytes would take all memory of the machine."""
    monkeypatch.setattr(workbook_parts, "MOST_UNPACKED", 1000)
    path = workbook(tmp_path / "book.xlsx", {"parts": [["part"]]})
    assert _only(path) == [
        (
            "book.xlsx 0 : the workbook unpacks to more than 1,000 bytes; "
            "split it, or take out pictures and sheets that are not needed"
        )
    ]


def test_a_written_workbook_neither_calculates_nor_makes_dates() -> None:
    """A cell that begins with = would run in whoever's spreadsheet opens the book."""
    table = RawTable("parts", ("part", "note"), ((2, ("=1+1", "-12 mm")),))
    with zipfile.ZipFile(io.BytesIO(workbook_bytes((table,)))) as book:
        sheet = book.read("xl/worksheets/sheet1.xml").decode()
        styles = book.read("xl/styles.xml").decode()
    assert "<f>" not in sheet
    assert sheet.count('t="s"') == 4
    assert 'numFmtId="49"' in styles  # the built-in format for text


def test_a_template_has_a_frozen_header_with_notes() -> None:
    """Whoever fills it in would lose sight of the columns and of what they want."""
    with zipfile.ZipFile(io.BytesIO(workbook_bytes(template()))) as book:
        sheet = book.read("xl/worksheets/sheet1.xml").decode()
        notes = book.read("xl/comments1.xml").decode()
    assert 'topLeftCell="A2"' in sheet
    assert 'state="frozen"' in sheet
    assert "maker, edition, currency. Holds a number or short name, unique in this table" in notes


def test_equal_tables_give_equal_bytes() -> None:
    """A workbook under version control would change each time it is written."""
    assert workbook_bytes(template()) == workbook_bytes(template())


def test_orders_may_have_dates_and_stand_beside_other_sheets(tmp_path: Path) -> None:
    """The day of an order would be refused, or a sheet of notes be read as orders."""
    day = dt.datetime(2024, 5, 2)  # noqa: DTZ001 - spreadsheets know no zones
    orders: list[list[object]] = [["order", "day", "count"], ["A1", day, 2]]
    path = workbook(tmp_path / "spring.xlsx", {"notes": [["x"]], "Orders": orders})
    told: list[int] = []
    assert read_sheet_of_orders(path, told.append) == RawTable(
        "spring", ("order", "day", "count"), ((2, ("A1", "2024-05-02", "2")),)
    )
    assert told == [1]


def test_orders_on_one_of_several_sheets_are_not_guessed(tmp_path: Path) -> None:
    """The wrong sheet would be checked and its orders declared sound."""
    path = workbook(tmp_path / "spring.xlsx", {"May": [["x"]], "June": [["y"]]})
    assert lines(read_sheet_of_orders(path)) == [
        (
            "spring.xlsx 0 : the workbook has no sheet, or several, that could be the orders: "
            "May, June; keep the orders alone, or on a sheet named 'orders'"
        )
    ]


def _workbook_of_orders(path: Path, fill: Callable[[Workbook, Worksheet], object]) -> None:
    book = Workbook(str(path))
    sheet = book.add_worksheet("orders")
    for at, row in enumerate((("order", "part"), ("A", "X"), ("A", "Y"), ("B", "Z"))):
        sheet.write_row(at, 0, row)
    fill(book, sheet)
    book.close()


def _merged(book: Workbook, sheet: Worksheet) -> None:
    sheet.merge_range(1, 0, 3, 0, "C", book.add_format({"bold": True}))


def test_a_merged_cell_of_an_order_file_holds_for_every_row(tmp_path: Path) -> None:
    """An order written once beside its merged rows would lose all of them but the first."""
    path = tmp_path / "orders.xlsx"
    _workbook_of_orders(path, _merged)
    read = read_sheet_of_orders(path)
    assert isinstance(read, RawTable)
    assert read.rows == ((2, ("C", "X")), (3, ("C", "Y")), (4, ("C", "Z")))


def test_a_merged_cell_of_a_book_stays_on_its_first_row(tmp_path: Path) -> None:
    """A book would be read with cells that nobody wrote."""
    path = tmp_path / "book.xlsx"
    _workbook_of_orders(path, _merged)
    (read,) = read_workbook(path)
    assert isinstance(read, RawTable)
    assert read.rows == ((2, ("C", "X")), (3, ("", "Y")), (4, ("", "Z")))


def test_a_spreadsheet_error_in_an_order_file_spares_the_other_rows(tmp_path: Path) -> None:
    """One broken formula would refuse a file of a thousand orders."""
    path = tmp_path / "orders.xlsx"
    _workbook_of_orders(path, lambda _, sheet: sheet.write_formula(2, 1, "=NA()", value="#N/A"))
    read = read_sheet_of_orders(path)
    assert isinstance(read, RawTable)
    assert read.rows == ((2, ("A", "X")), (3, ("A", "")), (4, ("B", "Z")))
    assert read.unread == (
        Fault(
            "orders",
            3,
            "part",
            "the cell holds a spreadsheet error",
            "mend its formula, or type the value",
        ),
    )


def test_a_workbook_of_orders_without_a_cell_says_so(tmp_path: Path) -> None:
    """An empty export would be said to have several sheets."""
    path = tmp_path / "orders.xlsx"
    book = Workbook(str(path))
    book.add_worksheet("orders")
    book.close()
    assert read_sheet_of_orders(path) == (
        Fault("orders.xlsx", 0, "", "the workbook has no cells", "export the orders again"),
    )

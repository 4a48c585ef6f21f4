from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from tests.support.files import lines
from tests.support.tables import draft, sound_book, tables_of

from wickwright.catalogue.columns import TABLES
from wickwright.catalogue.faults import RawTable
from wickwright.catalogue.reading import read_book
from wickwright.catalogue.writing import book_tables, template
from wickwright.store.tables import are_faults, read_orders, read_tables, write_tables

_RETYPE = "shorten or retype the cell"
DEMO = Path(__file__).parents[2] / "src" / "wickwright" / "data" / "demo" / "book"


def _read(path: Path) -> tuple[RawTable, ...]:
    tables = read_tables(path)
    assert not are_faults(tables), tables
    return tables


def _bytes(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.glob("*.csv")}


def test_a_folder_made_a_workbook_and_a_folder_again_is_the_same_to_the_byte(
    tmp_path: Path,
) -> None:
    """A book passed around as a workbook would come back changed in places nobody touched."""
    tables = _read(DEMO)
    assert write_tables(tmp_path / "canonical", tables) == ()
    assert write_tables(tmp_path / "book.xlsx", _read(tmp_path / "canonical")) == ()
    assert _read(tmp_path / "book.xlsx") == tables
    assert write_tables(tmp_path / "again", _read(tmp_path / "book.xlsx")) == ()
    assert _bytes(tmp_path / "again") == _bytes(tmp_path / "canonical")
    assert len(_bytes(tmp_path / "again")) == len(tables)


def test_awkward_cells_survive_a_workbook(tmp_path: Path) -> None:
    """Blanks, line ends, leading zeros or what looks like a formula would be lost."""
    cells = ("007", " x ", "a\r\nb", "\n", '"', "=1+1", "-12 mm", "1.0", "TRUE", "_x0041_")
    header = tuple(f"c{n}" for n in range(len(cells)))
    table = RawTable("odd", header, ((2, cells), (7, tuple(reversed(cells)))))
    assert write_tables(tmp_path / "odd.xlsx", (table,)) == ()
    assert write_tables(tmp_path / "odd", (table,)) == ()
    assert _read(tmp_path / "odd.xlsx") == _read(tmp_path / "odd") == (table,)


@pytest.mark.parametrize("name", ["book.xlsx", "book"])
def test_a_book_written_to_a_file_is_read_again_as_the_same_book(tmp_path: Path, name: str) -> None:
    """Something of the book would be lost on the disk."""
    assert write_tables(tmp_path / name, book_tables(sound_book())) == ()
    assert read_book(_read(tmp_path / name)) == sound_book()


@pytest.mark.parametrize("name", ["new.xlsx", "new"])
def test_a_template_on_the_disk_is_an_empty_book(tmp_path: Path, name: str) -> None:
    """The notes of a template would be taken for lamps and parts."""
    assert write_tables(tmp_path / name, template()) == ()
    book = read_book(_read(tmp_path / name))
    assert not isinstance(book, tuple)
    assert not book.parts


def test_tables_come_in_the_order_of_the_book(tmp_path: Path) -> None:
    """The same book would look different as a folder and as a workbook."""
    tables = (*reversed(tables_of(draft())), RawTable("extra", ("a",), ()))
    assert write_tables(tmp_path / "book.xlsx", tables) == ()
    assert [table.name for table in _read(tmp_path / "book.xlsx")] == [
        *(name for name in TABLES if name in {table.name for table in tables}),
        "extra",
    ]


def test_the_faults_of_all_files_are_told_at_once(tmp_path: Path) -> None:
    """Mending one file would only bring the next to light."""
    write_tables(tmp_path / "book", tables_of(draft()))
    (tmp_path / "book" / "about.csv").write_bytes(b"")
    (tmp_path / "book" / "parts.csv").write_bytes(b"part;name\n")
    assert lines(read_tables(tmp_path / "book")) == [
        (
            "about.csv 0 : the file is empty; it has no header: export it again, or start from a "
            "template"
        ),
        (
            "parts.csv 0 : the columns are parted by semicolons, not by commas; export it with "
            "commas between the columns, or keep it as an .xlsx workbook"
        ),
    ]


def test_lock_files_and_other_files_of_a_folder_are_no_tables(tmp_path: Path) -> None:
    """A book that is open in a spreadsheet could not be read."""
    write_tables(tmp_path, tables_of(draft()))
    for name in (".~lock.parts.csv", "~parts.csv", "README.md"):
        (tmp_path / name).write_bytes(b"\0")
    assert read_book(_read(tmp_path)) == sound_book()


def test_a_path_that_is_no_book_says_what_to_give(tmp_path: Path) -> None:
    """A slip in a path would end in a crash or in an empty book."""
    assert lines(read_tables(tmp_path / "book.xlsx")) == [
        (
            "book.xlsx 0 : there is no file or folder 'book.xlsx'; "
            f"check the name and the folder '{tmp_path}'"
        )
    ]
    assert lines(read_tables(tmp_path / "book")) == [
        f"book 0 : there is no file or folder 'book'; check the name and the folder '{tmp_path}'"
    ]
    name = tmp_path.name
    assert lines(read_tables(tmp_path)) == [
        (
            f"{name} 0 : the folder holds no CSV file; "
            "a fit book has one CSV file for each table, such as parts.csv"
        )
    ]
    write_tables(tmp_path / "book.xlsx", template())
    assert lines(read_tables(tmp_path)) == [
        (
            f"{name} 0 : the folder holds no CSV file; "
            "give the path of the workbook itself: book.xlsx"
        )
    ]
    (tmp_path / "parts.csv").write_bytes(b"part\n")
    assert lines(read_tables(tmp_path / "parts.csv")) == [
        "parts.csv 0 : 'parts.csv' is no fit book; give a folder of CSV files or one .xlsx workbook"
    ]


def test_a_path_the_system_refuses_is_a_fault(tmp_path: Path) -> None:
    """A text pasted in place of a path would end in a crash."""
    (found,) = lines(read_tables(tmp_path / ("x" * 300)))
    assert "the file cannot be read: File name too long" in found


@pytest.mark.parametrize(
    ("table", "name", "faults"),
    [
        (
            RawTable("p", ("a",), ((2, ("\0",)), (3, ("\ud800",)))),
            "book",
            [
                (
                    "p 2 A: the cell holds a sign that no text file can keep; "
                    "shorten or retype the cell"
                ),
                (
                    "p 3 A: the cell holds a sign that no text file can keep; "
                    "shorten or retype the cell"
                ),
            ],
        ),
        (
            RawTable("p", ("a", "b"), ((2, ("x", "\uffff")), (3, ("_x0041_x0042_", "")))),
            "book.xlsx",
            [
                f"p 2 B: the cell holds a sign that no workbook can keep; {_RETYPE}",
                f"p 3 A: the cell holds a sign that no workbook can keep; {_RETYPE}",
            ],
        ),
        (
            RawTable("p", ("a",), ((2, ("x" * 32_768,)),)),
            "book.xlsx",
            [f"p 2 A: the cell has 32,768 signs; a workbook keeps 32,767; {_RETYPE}"],
        ),
        (
            RawTable("p", ("a",), ((1_048_577, ("x",)),)),
            "book.xlsx",
            [
                (
                    "p 0 : the table is larger than a sheet of 1,048,576 rows and 16,384 columns; "
                    "write it as CSV, or split it"
                )
            ],
        ),
        (
            RawTable("a/b", ("a",), ()),
            "book",
            ["a/b 0 : 'a/b' cannot be the name of a file; give the table a short name of letters"],
        ),
        (
            RawTable("x" * 32, ("a",), ()),
            "book.xlsx",
            [
                (
                    f"{'x' * 32} 0 : '{'x' * 32}' cannot be the name of a sheet; "
                    "give the table a short name of letters"
                )
            ],
        ),
    ],
)
def test_what_could_not_be_read_again_is_not_written(
    tmp_path: Path, table: RawTable, name: str, faults: list[str]
) -> None:
    """A cell would be cut or changed on the disk without a word."""
    assert lines(write_tables(tmp_path / name, (table,))) == faults
    assert list(tmp_path.iterdir()) == []


def test_two_tables_of_one_name_are_not_written(tmp_path: Path) -> None:
    """The second would take the place of the first."""
    tables = (RawTable("p", ("a",), ()), RawTable("P", ("a",), ()))
    assert lines(write_tables(tmp_path / "book", tables)) == [
        "P 0 : there are two tables 'P'; put them together, or rename one"
    ]


def test_a_folder_with_another_table_is_not_written_into(tmp_path: Path) -> None:
    """A table of an older book would become part of the new one."""
    (tmp_path / "wires.csv").write_bytes(b"a\n")
    assert lines(write_tables(tmp_path, (RawTable("p", ("a",), ()),))) == [
        (
            f"{tmp_path.name} 0 : the folder also holds 'wires.csv', which is not among the new "
            "tables; write to another folder, or move that file away"
        )
    ]
    assert not (tmp_path / "p.csv").exists()


def test_a_file_is_not_taken_for_a_folder_nor_a_folder_for_a_file(tmp_path: Path) -> None:
    """Someone's file or folder would be destroyed."""
    (tmp_path / "book").write_bytes(b"letter")
    (tmp_path / "book.xlsx").mkdir()
    tables = (RawTable("p", ("a",), ()),)
    assert lines(write_tables(tmp_path / "book", tables)) == [
        "book 0 : 'book' is a file; give the path of a folder or of an .xlsx workbook"
    ]
    assert lines(write_tables(tmp_path / "book.xlsx", tables)) == [
        "book.xlsx 0 : 'book.xlsx' is a folder; give the path of a file"
    ]
    assert (tmp_path / "book").read_bytes() == b"letter"


@pytest.mark.parametrize("name", ["book.xlsx", "book"])
def test_an_interrupted_write_leaves_the_old_book_whole(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    """The only copy of the fit book would be lost in a crash."""
    path = tmp_path / name
    write_tables(path, tables_of(draft()))
    changed = draft()
    changed["parts"][0]["name"] = "Changed"

    def interrupted(_: int) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("os.fsync", interrupted)
    with pytest.raises(KeyboardInterrupt):
        write_tables(path, tables_of(changed))
    assert read_book(_read(path)) == sound_book()
    assert [other.name for other in tmp_path.iterdir()] == [name]


def test_orders_are_read_from_every_kind_of_file(tmp_path: Path) -> None:
    """Orders exported one way would be checked, and another way not."""
    rows = ((2, ("A1", "2")), (3, ("A2", "1")))
    table = RawTable("orders", ("order", "count"), rows)
    write_tables(tmp_path / "orders.xlsx", (table,))
    write_tables(tmp_path / "folder", (table,))
    shutil.copy(tmp_path / "folder" / "orders.csv", tmp_path / "ORDERS.CSV")
    assert read_orders(tmp_path / "orders.xlsx") == table
    assert read_orders(tmp_path / "ORDERS.CSV") == RawTable("ORDERS", table.header, rows)


def test_orders_in_another_kind_of_file_are_refused(tmp_path: Path) -> None:
    """A letter would be taken for orders, or the program crash."""
    assert lines(read_orders(tmp_path / "orders.doc")) == [
        (
            "orders.doc 0 : there is no file or folder 'orders.doc'; "
            f"check the name and the folder '{tmp_path}'"
        )
    ]
    (tmp_path / "orders.doc").write_bytes(b"Dear Sirs")
    assert lines(read_orders(tmp_path / "orders.doc")) == [
        (
            "orders.doc 0 : 'orders.doc' is no kind of file that orders are read from; "
            "save it as one of: .csv, .xlsx, .parquet"
        )
    ]

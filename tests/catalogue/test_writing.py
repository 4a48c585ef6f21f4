from __future__ import annotations

from typing import TYPE_CHECKING

from tests.support.tables import sound_book

from wickwright.catalogue.columns import TABLES
from wickwright.catalogue.reading import read_book
from wickwright.catalogue.records import Book
from wickwright.catalogue.writing import book_tables, column_note, template

if TYPE_CHECKING:
    from wickwright.catalogue.faults import RawTable


def _cells(tables: tuple[RawTable, ...], name: str, at: int) -> dict[str, str]:
    table = next(table for table in tables if table.name == name)
    return {k: cell for k, cell in zip(table.header, table.rows[at][1], strict=True) if cell}


def test_a_book_written_and_read_again_is_the_same_book() -> None:
    """Something of the book would be lost each time it is written."""
    assert read_book(book_tables(sound_book())) == sound_book()


def test_lengths_are_written_as_they_were_printed() -> None:
    """A size in inches, or its tolerance, would come back as bare millimetres."""
    tables = book_tables(sound_book())
    assert _cells(tables, "parts", 0)["height"] == "2 5/8 in"
    assert _cells(tables, "ports", 0)["diameter"] == "70.2 ± 0.1 mm"
    assert _cells(tables, "ports", 1)["pitch"] == "14 tpi"
    assert _cells(tables, "ports", 2) == {
        "part": "U1",
        "port": "foot",
        "side": "stands",
        "joint": "thread",
        "height": "-4 mm",
        "diameter": "44.3 mm",
        "pitch": "1.814 mm",
        "reach": "8 mm",
        "form": "un",
        "hand": "right",
        "note": "thread gauge",
    }


def test_every_table_is_written_with_every_column() -> None:
    """An empty table would vanish, and with it the place to fill it in."""
    tables = book_tables(Book({}, {}, {}, {}, {}))
    assert [table.name for table in tables] == list(TABLES)
    for table in tables:
        assert table.header == tuple(column.name for column in TABLES[table.name].columns)
        assert table.rows == ()


def test_a_template_is_an_empty_book_with_a_note_on_each_column() -> None:
    """Whoever starts a book would not know what a column wants, or the notes would be parts."""
    tables = template()
    assert read_book(tables) == Book({}, {}, {}, {}, {})
    for table in tables:
        ((row, cells),) = table.rows
        assert row == 2
        assert cells[0].startswith("# ")
        assert all(cells)


def test_the_note_of_a_column_says_what_it_holds() -> None:
    """The template would not tell which words a column takes."""
    columns = {column.name: column for column in TABLES["ports"].columns}
    assert column_note(columns["side"]) == (
        "carries (something stands on it) or stands (it stands on something). "
        "Holds one word of a closed list (carries, stands); must be filled."
    )
    assert column_note(columns["part"]) == (
        "the part it is on. Holds the key of a row in another table (parts); must be filled."
    )
    assert column_note(columns["note"]) == "how it was measured. Holds any text."

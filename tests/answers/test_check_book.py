"""A book that can be read, checked for lamps that never were and figures nobody can mean."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

import pytest
from tests.support.command import DEMO_BOOK
from tests.support.tables import said

from wickwright.answers.check_book import check_book
from wickwright.catalogue.faults import Fault, RawTable
from wickwright.catalogue.reading import read_book
from wickwright.catalogue.records import Book
from wickwright.fit.settings import Settings
from wickwright.store.tables import read_tables

if TYPE_CHECKING:
    from collections.abc import Callable

    Change = str | Callable[[str], str]


@cache
def _tables() -> tuple[RawTable, ...]:
    return tuple(one for one in read_tables(DEMO_BOOK) if isinstance(one, RawTable))


def _changed(raw: RawTable, key: str, column: str, change: Change) -> RawTable:
    """Return a table with one cell of one row changed."""
    at = raw.header.index(column)
    rows = []
    for number, cells in raw.rows:
        if cells[0] == key:
            new = change if isinstance(change, str) else change(cells[at])
            assert new != cells[at]
            rows.append((number, (*cells[:at], new, *cells[at + 1 :])))
        else:
            rows.append((number, cells))
    return RawTable(raw.name, raw.header, tuple(rows))


def _found(table: str, key: str, column: str, change: Change) -> tuple[Fault, ...]:
    """Check the demo book with one cell changed."""
    tables = [_changed(raw, key, column, change) if raw.name == table else raw for raw in _tables()]
    book = read_book(tables)
    assert isinstance(book, Book), said(book)
    return check_book(book, tables, Settings())


def _without(start: str) -> Callable[[str], str]:
    return lambda cell: " ".join(part for part in cell.split() if not part.startswith(start))


def test_the_demo_book_is_beyond_doubt() -> None:
    """The book that everyone begins with would be an example of slips."""
    book = read_book(_tables())
    assert isinstance(book, Book)
    assert check_book(book, _tables(), Settings()) == ()


@pytest.mark.parametrize(
    ("table", "key", "column", "change", "lines"),
    [
        (
            "lamps",
            "WH-302",
            "as_sold",
            _without("FO-"),
            [
                (
                    "lamps 15 as_sold: as sold: BU-2200, WI-2050, SP-2100, GA-2410, MA-2100, "
                    "CH-2296 have nothing to stand on; add what carries them, correct what the "
                    "others take, or name the part it was sold with"
                ),
                (
                    "lamps 15 as_sold: as sold: Tirrick shelf foot, three toes (BA-2135) needs a "
                    "font and has none; add the font to the parts as sold, or correct the ports "
                    "of BA-2135 (parts, row 11)"
                ),
            ],
        ),
        (
            "lamps",
            "DU-401",
            "as_sold",
            lambda cell: cell.replace("CH-3296", "CH-2296"),
            [
                (
                    "lamps 22 as_sold: as sold: Chimney, quarter-turn 2, standard (CH-2296) in "
                    "the fingers of Gallery for basket 3, plain-foot seat (GA-3430): does not "
                    "fit. The gallery is made for a plain foot, and the chimney for lugs that it "
                    "turns under; correct seat of GA-3430 (ports, row 275) and foot of CH-2296 "
                    "(ports, row 299), or name the part it was sold with"
                ),
            ],
        ),
        (
            "lamps",
            "DU-403",
            "as_sold",
            _without("BE-"),
            [
                (
                    "lamps 24 needs: as sold: Razorbill hanging lamp is not complete without a "
                    "bell; add the bell to the parts as sold, or clear the need"
                ),
            ],
        ),
        (
            "lamps",
            "BX-702",
            "service",
            "oil",
            [
                (
                    "lamps 40 service: the lamp is sold for oil, but its burner BU-7220 is for "
                    "electric; write electric, or name the burner it was sold with"
                ),
            ],
        ),
        (
            "parts",
            "CH-3371",
            "centre",
            "500 mm",
            [
                (
                    "parts 143 centre: the centre of mass, '500 mm', lies above the top, "
                    "'371 mm'; correct one of the two: both are measured from the part's own foot"
                ),
            ],
        ),
        (
            "parts",
            "FO-3210",
            "fuel_depth",
            "300 mm",
            [
                (
                    "parts 56 fuel_depth: the full line lies 312 mm above the foot, the font is "
                    "'124 mm' high; correct fuel_floor, fuel_depth or height: all are measured "
                    "in the same font"
                ),
            ],
        ),
    ],
)
def test_what_cannot_be_is_a_fault(
    table: str, key: str, column: str, change: Change, lines: list[str]
) -> None:
    """A support lead would send out a book with a lamp in it that never stood on a table."""
    found = _found(table, key, column, change)
    assert said(found) == lines
    assert not any(fault.doubt for fault in found)


@pytest.mark.parametrize(
    ("table", "key", "column", "cell", "line"),
    [
        (
            "parts",
            "SH-0731",
            "height",
            "3100 mm",
            (
                "parts 192 height: '3100 mm' is hardly meant: outside 3 to 2,000 mm; check the "
                "figure and its unit (from its own foot to its top)"
            ),
        ),
        (
            "parts",
            "MA-2100",
            "mass",
            "0.05",
            (
                "parts 126 mass: '0.05' is hardly meant: outside 0.1 to 30,000 g; check the "
                "figure and its unit (grams)"
            ),
        ),
        (
            "parts",
            "BA-6140",
            "mass",
            "0.85",
            "parts 32 mass: a base of 0.85 g is hardly meant; write grams, not kilograms",
        ),
        (
            "parts",
            "SH-0731",
            "centre",
            "-20 mm",
            (
                "parts 192 centre: the centre of mass, '-20 mm', lies below the part's own foot; "
                "check the sign: only a part that hangs below what it stands on has it there"
            ),
        ),
        (
            "ports",
            "CH-3371",
            "height",
            "600 mm",
            (
                "ports 304 height: the joint lies '600 mm' above the foot of 'CH-3371', which is "
                "'371 mm' high; correct the one or the other"
            ),
        ),
        (
            "parts",
            "BA-3120",
            "radius",
            "40 mm",
            (
                "lamps 30 as_sold: as sold: the lamp tips at 6.2° when the font is empty; at least "
                "8.0° is required; check mass, centre and radius of BA-3120 (parts, row 22) and "
                "SH-1980 (parts, row 178) and of the others; or leave it, if it was sold so"
            ),
        ),
    ],
)
def test_what_is_hardly_meant_is_doubted(
    table: str, key: str, column: str, cell: str, line: str
) -> None:
    """A slip of the unit would decide which lamps tip and starve."""
    found = _found(table, key, column, cell)
    assert line in said(found)
    assert all(fault.doubt for fault in found)


def test_numbers_that_differ_by_capitals_only_are_doubted() -> None:
    """Who types a number would be given another part."""
    raw = next(one for one in _tables() if one.name == "parts")
    number, cells = raw.rows[-1]
    twin = RawTable(raw.name, raw.header, (*raw.rows, (number + 1, (cells[0].lower(), *cells[1:]))))
    tables = [twin if one.name == "parts" else one for one in _tables()]
    book = read_book(tables)
    assert isinstance(book, Book)
    (line,) = said(check_book(book, tables, Settings()))
    assert line == (
        f"parts {number + 1} part: '{cells[0].lower()}' and '{cells[0]}' differ by capitals only; "
        "give one of them another number: who types one may be given the other"
    )

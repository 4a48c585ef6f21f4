from __future__ import annotations

import math
from dataclasses import replace

import pytest
from tests.support.tables import (
    draft,
    faults_after,
    faults_in,
    faults_with,
    raw,
    said,
    sound_book,
    tables_of,
)

from wickwright.catalogue.call_records import (
    Cause,
    Complaint,
    Cure,
    Look,
    Mark,
    Often,
    Remedy,
    Show,
    Sign,
    State,
    Swap,
    Way,
)
from wickwright.catalogue.columns import TABLES
from wickwright.catalogue.faults import Fault, RawTable
from wickwright.catalogue.reading import read_book
from wickwright.catalogue.records import (
    Ask,
    Book,
    Family,
    Footing,
    Form,
    Fuel,
    Lamp,
    Need,
    Part,
    Port,
    Service,
    Side,
    Status,
    Support,
    Wish,
)
from wickwright.terms.dimension import Dimension, parse_dimension


def test_a_part_is_read_whole() -> None:
    """A figure of a part would be lost, or land in the wrong unit."""
    base = sound_book().parts["B1"]
    assert base == Part(
        id="B1",
        name="Round base",
        kind="base",
        first=1930,
        last=1950,
        status=Status.GONE,
        mass=0.82,
        height=0.066675,
        centre=0.031,
        material="cast-iron",
        support=Support(Footing.ROUND, 0.08),
        source="drawing",
        printed={"height": "2 5/8 in"},
        ports=(
            Port(
                name="top",
                side=Side.CARRIES,
                joint="rest",
                takes=("font",),
                need=Need.REQUIRED,
                height=0.066,
                sizes={"diameter": parse_dimension("70.2 ± 0.1 mm")},
            ),
        ),
    )


def test_a_burner_and_its_port_are_read_whole() -> None:
    """Price, stock, successor or a thread would be lost."""
    burner = sound_book().parts["U1"]
    assert replace(burner, ports=()) == Part(
        id="U1",
        name="Burner",
        kind="burner",
        first=1931,
        status=Status.STOCKS,
        successor="U2",
        via="G1",
        price=9900,
        stock=3,
        heat=820.0,
        least_chimney=0.29,
        light=-5,
        service=Service.OIL,
    )
    (port,) = burner.ports
    assert (port.height, port.note, port.need) == (-0.004, "thread gauge", Need.OPTIONAL)
    assert port.sizes["pitch"] == Dimension(0.001814, 0.001814, 0.001814, "1.814 mm")
    assert port.words == {"form": "un", "hand": "right"}


def test_the_rest_of_a_book_is_read_whole() -> None:
    """Lamps, fuel, wishes, marks, includes or sources would be lost."""
    book = sound_book()
    assert book.about == {"maker": "Skerry Lampworks", "currency": "SKL"}
    assert book.families == {"hearth": Family("hearth", "Hearth lamps", "table lamps")}
    assert book.lamps["L1"] == Lamp(
        "L1",
        "Hearth table lamp",
        "hearth",
        Form.TABLE,
        Service.OIL,
        1931,
        1948,
        ("wick", "chimney"),
        ("B1", "F1", "U1"),
    )
    assert book.parts["F1"].fuel == Fuel(0.0009, -0.002, 0.06)
    assert book.parts["U2"].includes == ("W1",)
    assert book.parts["C1"].ports[0].numbers == {"lugs": 3.0, "angle": math.radians(42.5)}
    assert book.wishes == {
        "tall": Wish(
            "tall",
            "A tall modern chimney",
            (
                Ask("renew", "chimney", says="the chimney is new"),
                Ask("only", "chimney", "height", "at least", "350 mm", "it is tall"),
            ),
        )
    }
    assert book.sources == {"drawing": "Works drawing"}


def test_what_tells_lamps_apart_is_read_whole() -> None:
    """A look, its cost or its errors would be lost, or a share be read as a hundred times it."""
    calls = sound_book().calls
    assert calls.looks == {
        "knob": Look("knob", "burner", "What is the knob like?", Way.LOOK, 0.5, 0.92, 0.08),
        "rim": Look(
            id="rim",
            kind="base",
            question="How wide is the foot?",
            way=Way.MEASURE,
            minutes=2.0,
            right=0.92,
            unsure=0.08,
            error=0.003175,
            printed="1/8 in",
        ),
    }
    assert calls.marks == (
        Mark("U1", "knob", "milled", "cut", Often.OFTEN),
        Mark("U2", "knob", "cut"),
        Mark("B1", "rim", "160 mm"),
    )
    assert calls.swaps == {"burner": Swap("burner", 0.15, "drawing", "burners wear out")}


def test_what_goes_wrong_with_lamps_is_read_whole() -> None:
    """A sign would be asked at the wrong time, or a cause weigh a hundred times too much."""
    calls = sound_book().calls
    assert calls.signs["dim"] == Sign(
        id="dim",
        question="Is it darker than it was?",
        says="it gives too little light",
        way=Way.ASK,
        minutes=0.3,
        state=State.ANY,
        needs=(),
        yes_right=0.92,
        no_right=0.94,
        unsure=0.08,
        anyway=0.04,
        danger="",
        why="it tells a starved flame from a wild one",
        source="practice",
    )
    wet = calls.signs["wet"]
    assert (wet.state, wet.needs, wet.danger) == (State.COLD, ("font",), "wet-font")
    assert (wet.yes_right, wet.no_right, wet.unsure, wet.anyway) == (0.9, 0.97, 0.05, 0.02)
    words = ("no light", "dark", "weak")
    assert calls.complaints == {"dim": Complaint("dim", "it is dim", "dim", words)}
    assert calls.causes == {
        "crust": Cause(
            id="crust",
            says="the wick is crusted",
            weight=0.12,
            needs=("burner",),
            families=("hearth",),
            computed="wrong-wick",
            why="char holds the fuel back",
            source="practice",
        )
    }


def test_what_shows_and_cures_a_cause_is_read_whole() -> None:
    """The word 'strong' and a number of a hundred would not mean the same."""
    calls = sound_book().calls
    assert calls.shows == (
        Show("crust", "dim", 0.85, "practice", "strong"),
        Show("crust", "wet", 0.035, "practice", "3.5"),
    )
    assert calls.remedies == {
        "clean": Remedy(
            id="clean",
            says="clean the rim of the wick",
            minutes=6.0,
            state=State.COLD,
            wish="tall",
            extra=2.0,
            caution="only when it is cold",
            source="practice",
        )
    }
    assert calls.cures == (Cure("clean", "crust", 0.9),)


def test_blank_rows_and_notes_are_passed_over_and_rows_keep_their_numbers() -> None:
    """A fault would point at the wrong row of the spreadsheet, or a note be taken for a part."""
    families = RawTable(
        "families",
        ("family", "name", "note"),
        (
            (2, ("# short name", "the name", "")),
            (5, (" ", "", "")),
            (6, ("#",)),
            (9, (" f ", "", "")),
        ),
    )
    linked = ("families", "lamps", "causes", "shows", "cures")
    tables = (*(t for t in tables_of(draft()) if t.name not in linked), families)
    lamps = raw("lamps", [])
    assert faults_in((*tables, lamps)) == [
        "families 9 name: the cell is blank; fill it in: the name in full"
    ]


def test_cells_are_stripped_and_rows_may_be_short() -> None:
    """Blanks around a number typed in haste would make an unknown part of it."""
    spoilt = draft()
    spoilt["lamps"][0]["as_sold"] = "  B1   F1 U1 "
    spoilt["families"][0]["family"] = " hearth "
    tables = [t for t in tables_of(spoilt) if t.name != "sources"]
    sources = RawTable("sources", ("source ", "title", ""), ((2, ("drawing", "Works drawing")),))
    assert read_book((*tables, sources)) == sound_book()


def test_optional_tables_and_columns_may_be_left_out() -> None:
    """A small maker could not begin with the few columns he knows."""
    tables = (
        raw("families", [], ("family", "name")),
        raw("lamps", [], ("lamp", "name", "family", "form", "service", "as_sold")),
        raw(
            "parts",
            [{"part": "B1", "name": "Base", "kind": "base", "status": "made"}],
            ("kind", "status", "name", "part"),
        ),
        raw("ports", [], ("part", "port", "side", "joint")),
    )
    assert read_book(tables) == Book({}, {}, {}, {"B1": Part("B1", "Base", "base")}, {})


def test_an_empty_book_names_every_table_it_lacks() -> None:
    """Nothing at all would pass for a book, or only the first gap be told."""
    add = "add it, one row for"
    assert faults_in(()) == [
        (
            f"families 0 : the table 'families' is missing; {add} one family of lamps, "
            "with at least the columns family, name"
        ),
        (
            f"lamps 0 : the table 'lamps' is missing; {add} one model the firm ever sold, "
            "with at least the columns lamp, name, family, form, service, as_sold"
        ),
        (
            f"parts 0 : the table 'parts' is missing; {add} one part the firm sells or sold, "
            "with at least the columns part, name, kind, status"
        ),
        (
            f"ports 0 : the table 'ports' is missing; {add} one half of a joint, "
            "with at least the columns part, port, side, joint"
        ),
    ]


def test_a_missing_table_is_one_fault_and_not_one_for_each_link_into_it() -> None:
    """The one real fault would drown among hundreds of links that lead nowhere."""
    tables = [table for table in tables_of(draft()) if table.name != "families"]
    assert faults_in(tables) == [
        (
            "families 0 : the table 'families' is missing; add it, one row for one family of "
            "lamps, with at least the columns family, name"
        )
    ]


def test_a_stray_or_doubled_table_is_told() -> None:
    """A table under a wrong name would be left out of the book without a word."""
    names = ", ".join(TABLES)
    tables = [table for table in tables_of(draft()) if table.name != "marks"]
    stray = RawTable("mark", ("part", "look", "value"), ())
    assert faults_in([*tables, stray, tables[0]]) == [
        "about 0 : the table 'about' is there twice; put its rows together in one table",
        (
            "mark 0 : there is no table 'mark' in a fit book; did you mean 'marks'? "
            f"the tables are: {names}; rename it or keep it elsewhere"
        ),
    ]


def test_an_empty_sheet_beside_the_book_is_no_fault() -> None:
    """The blank sheet every new workbook comes with would keep a book from being read."""
    assert read_book((*tables_of(draft()), RawTable("Sheet1", (), ()))) == sound_book()


def test_columns_that_are_missing_unknown_or_doubled_are_told() -> None:
    """A misspelt column would be passed over, and its figures with it."""
    marks = RawTable(
        "marks",
        ("part", "loko", "value", "confused", "confused", "", "x"),
        ((2, ("U1", "knob", "milled", "", "", "stray")),),
    )
    tables = [table for table in tables_of(draft()) if table.name != "marks"]
    columns = "the columns are: part, look, value, confused_with, confused"
    assert faults_in((*tables, marks)) == [
        "marks 1 look: the column 'look' is missing; add it: the look",
        "marks 1 confused: the column 'confused' is there 2 times: D, E; keep one of them",
        f"marks 1 loko: the table has no column 'loko'; did you mean 'look'? {columns}",
        f"marks 1 x: the table has no column 'x'; {columns}",
        "marks 2 : the 6. column has cells but no name; name the column in the header, or clear it",
    ]


def test_a_table_of_another_kind_is_not_named_column_by_column_for_ever() -> None:
    """A wrong file with thousands of columns would bury the reader in faults."""
    marks = RawTable("marks", tuple(f"c{n}" for n in range(900)), ())
    tables = [table for table in tables_of(draft()) if table.name != "marks"]
    found = faults_in((*tables, marks))
    assert len(found) == 54
    assert found[0] == (
        "marks 1 : 850 more columns of the table are not known; "
        "the columns are: part, look, value, confused_with, confused"
    )


def test_a_missing_column_is_one_fault_and_not_one_for_each_row() -> None:
    """Each row would be called incomplete beside the one column that is missing."""
    tables = [table for table in tables_of(draft()) if table.name != "sources"]
    sources = RawTable("sources", ("title",), ((2, ("Works drawing",)), (3, ("Gauge",))))
    assert faults_in((*tables, sources)) == [
        "sources 1 source: the column 'source' is missing; add it: short key"
    ]


def test_a_table_without_a_header_says_so_once() -> None:
    """An emptied sheet would give a fault for each of its cells."""
    tables = [table for table in tables_of(draft()) if table.name != "sources"]
    assert faults_in((*tables, RawTable("sources", (), ((2, ("a", "b")),)))) == [
        "sources 1 source: the column 'source' is missing; add it: short key",
        "sources 1 title: the column 'title' is missing; add it: drawing, leaflet or gauge",
    ]


def test_cells_beyond_the_header_are_told() -> None:
    """A comma in a text that was not quoted would shift every figure behind it."""
    tables = [table for table in tables_of(draft()) if table.name != "about"]
    about = RawTable(
        "about", ("key", "value"), ((2, ("maker", "Skerry", "", "of", "the", "Isle", "x")),)
    )
    assert faults_in((*tables, about)) == [
        (
            "about 2 : the row has cells beyond the 2 columns of the header: 'of', 'the', 'Isle', "
            "…; take them out, or put a text that has a comma in it in quotation marks"
        )
    ]


def test_every_fault_of_a_row_is_told_at_once_from_left_to_right() -> None:
    """Mending one fault would only bring the next to light."""
    found = faults_with(
        "parts",
        1,
        price="12,50",
        mass="-3",
        height="31,5 mm",
        centre="x",
        stock="2.5",
        light="many",
        from_="28",
        heat_rating="800 W",
    )
    assert found == [
        (
            "parts 3 from: '28' is not a year between 1700 and 2199; write four digits, such as "
            "1928; leave it blank if not known"
        ),
        "parts 3 price: '12,50' is written with a decimal comma; write 12.50",
        "parts 3 stock: '2.5' is not a whole number; write digits alone, such as 12",
        "parts 3 mass: '-3' is negative; write 0 or more; leave it blank if not known",
        (
            "parts 3 height: '31,5 mm' is written with a decimal comma; write a decimal point: "
            "'31.5 mm'"
        ),
        (
            "parts 3 centre: 'x' is not a height; write a number and a unit (mm, cm, m, in, ft), "
            "such as '31 mm', '0 mm' or '-12 mm'"
        ),
        (
            "parts 3 heat_rating: '800 W' is not a plain number; write digits alone, such as 450 "
            "or 12.5; the unit stands in the column's note"
        ),
        "parts 3 light: 'many' is not a whole number; write digits, such as 12 or -5",
    ]


def test_faults_stand_in_the_order_of_the_book() -> None:
    """Whoever mends the book would have to jump back and forth between its tables."""
    spoilt = draft()
    spoilt["sources"][0]["title"] = ""
    spoilt["parts"][6]["name"] = ""
    spoilt["parts"][0]["price"] = "-1"
    spoilt["about"][1]["value"] = ""
    found = read_book(tuple(reversed(tables_of(spoilt))))
    assert isinstance(found, tuple)
    assert [(f.table, f.row, f.column) for f in found] == [
        ("about", 3, "value"),
        ("parts", 2, "price"),
        ("parts", 8, "name"),
        ("sources", 2, "title"),
    ]


def test_a_blank_cell_that_must_be_filled_is_told() -> None:
    """A part without a kind would be taken for none that any port accepts."""
    assert faults_with("parts", 6, kind="") == [
        "parts 8 kind: the cell is blank; fill it in: what it is",
    ]


def test_words_outside_the_closed_lists_are_told_with_the_nearest() -> None:
    """A slip of the pen would make a kind of part that nothing knows."""
    found = faults_with("parts", 5, kind="chimny", status="maid", style="Period")
    assert found == [
        (
            "parts 7 kind: 'chimny' is not one of the kinds; did you mean 'chimney'? choose from: "
            "base, font, reducer, burner, wick, spreader, gallery, mantle, chimney, holder, shade, "
            "bell, bulb, tool"
        ),
        (
            "parts 7 status: 'maid' is not one of the statuses; did you mean 'made'? choose from: "
            "made, while stocks last, no longer made"
        ),
        (
            "parts 7 style: 'Period' is not one of the styles; did you mean 'period'? choose from: "
            "period, modern"
        ),
    ]


def test_a_key_that_stands_twice_names_both_rows() -> None:
    """The second of two parts of one number would silently take the place of the first."""
    assert faults_after("parts", part="B1", name="Again", kind="base", status="made") == [
        (
            "parts 9 part: part 'B1' is already on row 2; "
            "keep one of the rows 2 and 9, or give one of them another part"
        )
    ]


def test_a_row_that_stands_twice_names_both_rows() -> None:
    """Two ports of one name could not be told apart when one of them is at fault."""
    port = {"part": "B1", "port": "top", "side": "carries", "joint": "rest", "takes": "bell"}
    assert faults_after("ports", **port) == [
        (
            "ports 7 port: part 'B1', port 'top' is already on row 2; "
            "keep one of the rows 2 and 7, or give one of them another port"
        )
    ]


@pytest.mark.parametrize(
    ("table", "at", "column", "text", "fault"),
    [
        (
            "lamps",
            0,
            "family",
            "hart",
            (
                "lamps 2 family: there is no family 'hart'; did you mean 'hearth'? "
                "write the key of a row of the table families, or add the row"
            ),
        ),
        (
            "parts",
            0,
            "source",
            "drawings",
            (
                "parts 2 source: there is no source 'drawings'; did you mean 'drawing'? "
                "write the key of a row of the table sources, or add the row"
            ),
        ),
        (
            "lamps",
            0,
            "as_sold",
            "B1 F1 U1 X-99",
            (
                "lamps 2 as_sold: there is no part 'X-99'; "
                "write the key of a row of the table parts, or add the row"
            ),
        ),
        (
            "marks",
            0,
            "part",
            "u1",
            (
                "marks 2 part: there is no part 'u1'; did you mean 'U1'? "
                "write the key of a row of the table parts, or add the row"
            ),
        ),
    ],
)
def test_a_link_that_leads_nowhere_is_told(
    table: str, at: int, column: str, text: str, fault: str
) -> None:
    """A lamp would be said to hold a part that the book does not have."""
    assert faults_with(table, at, **{column: text}) == [fault]


def test_never_half_a_book() -> None:
    """A book with one bad row would be used without that row."""
    spoilt = draft()
    spoilt["parts"][0]["mass"] = "heavy"
    read = read_book(tables_of(spoilt))
    assert isinstance(read, tuple)
    assert all(isinstance(fault, Fault) for fault in read)
    assert said(read) == [
        (
            "parts 2 mass: 'heavy' is not a plain number; write digits alone, such as 450 or 12.5; "
            "the unit stands in the column's note"
        )
    ]

"""The fit book in pages: looked through, older revisions, a new one loaded and put in force."""

import io
import re
import zipfile

import pytest
from tests.support.command import DEMO_BOOK
from tests.support.demo import demo
from tests.support.desks import Browser, Desk, demo_tables, new_desk

from wickwright.answers.book.look_up import BookIndex
from wickwright.catalogue.faults import RawTable
from wickwright.store.csv_tables import csv_bytes
from wickwright.store.workbooks import workbook_bytes


def _zip(tables: tuple[RawTable, ...]) -> bytes:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w") as file:
        for table in tables:
            file.writestr(f"{table.name}.csv", csv_bytes(table))
    return packed.getvalue()


def _dearer(part: str, price: str) -> tuple[RawTable, ...]:
    """Return the demo book with another price for one part."""
    made = []
    for table in demo_tables():
        if table.name == "parts":
            at = table.header.index("price")
            rows = tuple(
                (row, (*cells[:at], price, *cells[at + 1 :]) if cells[0] == part else cells)
                for row, cells in table.rows
            )
            made.append(RawTable(table.name, table.header, rows))
        else:
            made.append(table)
    return tuple(made)


def _loaded(lead: Browser, body: bytes, name: str = "book.zip") -> str:
    files = {"book": (name, body, "application/octet-stream")}
    answer = lead.post("/book/revisions", {"name": "Spring list"}, files=files)
    assert answer.status_code == 303, answer.text
    found = re.fullmatch(r"/book/revisions/([0-9a-f]{16})\?done=loaded", answer.headers["location"])
    assert found
    return found.group(1)


def _desk_and_lead() -> tuple[Desk, Browser]:
    desk = new_desk()
    return desk, desk.logged_in("Ingrid")


# -- looked through ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("asked", "first"),
    [
        ("ch-3371", "CH-3371"),
        ("CH\u20113371", "CH-3371"),
        ("wh-30", "WH-301"),
        ("tirrick", "WH-302"),
        ("plain foot tall chimney", "CH-3371"),
    ],
)
def test_lamps_and_parts_are_found_by_number_and_words(asked: str, first: str) -> None:
    """If this failed, an adviser could not look up what a caller reads from a part."""
    index = BookIndex(demo().book)
    assert index.find(asked)[0].id == first
    assert index.find(f"{asked} zeppelin") == ()


def test_a_part_shows_what_it_fits_as_the_command_line_does() -> None:
    """If this failed, the browser and the terminal would give different answers."""
    _, lead = _desk_and_lead()
    page = lead.get("/book/parts/GA-2450").text
    fits = page.split("What it fits")[1].split("How to know it")[0]
    assert "/book/parts/CH-3371" in fits
    assert "/book/parts/CH-2296" not in fits


def test_a_part_no_longer_made_shows_what_replaced_it() -> None:
    """If this failed, an adviser would offer what nobody can send."""
    _, lead = _desk_and_lead()
    page = lead.get("/book/parts/CH-2296").text
    replaced = page.split("What replaced it")[1].split("As printed")[0]
    assert "CH-3296" in replaced
    assert "GA-2450" in replaced


def test_a_lamp_shows_its_drawing_and_charts() -> None:
    """If this failed, an adviser would have no picture of the lamp in question."""
    _, lead = _desk_and_lead()
    page = lead.get("/book/lamps/WH-302").text
    assert "<svg" in page
    for chart in ("elevation", "height"):
        assert f"/book/lamps/WH-302/charts/{chart}.svg" in page
        answer = lead.get(f"/book/lamps/WH-302/charts/{chart}.svg")
        assert answer.headers["content-type"].startswith("image/svg+xml")
        assert answer.text.startswith("<svg")
    assert "charts/" not in lead.get("/book/lamps/BX-701").text


# -- revisions -----------------------------------------------------------------------------------


@pytest.mark.parametrize("ending", ["zip", "xlsx"])
def test_a_new_revision_shows_what_changes_before_it_takes_effect(ending: str) -> None:
    """If this failed, a price could change for every caller and nobody had looked."""
    _, lead = _desk_and_lead()
    tables = _dearer("CH-3371", "99.00")
    body = _zip(tables) if ending == "zip" else workbook_bytes(tables)
    revision = _loaded(lead, body, f"book.{ending}")
    page = lead.get(f"/book/revisions/{revision}").text
    assert "1 row." in page
    assert re.search(r"price: <del[^>]*>31.00</del> <ins[^>]*>99.00</ins>", page)
    assert "SKD 31.00" in lead.get("/book/parts/CH-3371").text
    old = lead.get(f"/book/parts/CH-3371?revision={revision}").text
    assert "SKD 99.00" in old
    assert f"revision={revision}" in old


def test_a_revision_is_put_in_force_under_a_name_and_a_reason() -> None:
    """If this failed, nobody would know who changed what is answered, or why."""
    desk, lead = _desk_and_lead()
    before = desk.state.books.in_force().revision.id
    lead.post("/calls", {"words": "a broken glass"})
    revision = _loaded(lead, _zip(_dearer("CH-3371", "99.00")))
    assert lead.post(f"/book/revisions/{revision}/in-force", {}).status_code == 400
    assert desk.state.books.in_force().revision.id == before
    sent = {"reason": "the glassworks asks more"}
    assert lead.post(f"/book/revisions/{revision}/in-force", sent).status_code == 303
    assert "SKD 99.00" in lead.get("/book/parts/CH-3371").text
    page = lead.get("/book/revisions").text
    assert "the glassworks asks more" in page
    assert "by Ingrid" in page
    call = desk.state.store.calls.call(1)
    assert call is not None
    assert call.revision == before
    assert "SKD 31.00" in lead.get(f"/book/parts/CH-3371?revision={before}").text


def test_a_book_with_faults_is_not_loaded_and_every_fault_is_told() -> None:
    """If this failed, a lead would mend one fault at a time, or load half a book."""
    desk, lead = _desk_and_lead()
    files = {"book": ("b.zip", _zip(_dearer("CH-3371", "dear <b>")), "application/zip")}
    answer = lead.post("/book/revisions", files=files)
    assert answer.status_code == 422
    assert "Not loaded: 1 fault" in answer.text
    row = re.search(
        r'<th scope="row">parts</th><td class="figure">\d+</td><td>price</td>', answer.text
    )
    assert row
    assert "<b>" not in answer.text
    assert len(desk.state.store.books.revisions()) == 1


@pytest.mark.parametrize(
    ("body", "says"),
    [
        (b"", "is neither a workbook nor a ZIP of CSV files"),
        (b"PK\x03\x04 and no more", "is neither a workbook nor a ZIP of CSV files"),
        (b"a,b\n1,2\n", "is neither a workbook nor a ZIP of CSV files"),
    ],
)
def test_a_file_that_is_no_book_is_refused_in_words(body: bytes, says: str) -> None:
    """If this failed, a wrong file would be a mistake of ours instead of the sender's."""
    _, lead = _desk_and_lead()
    answer = lead.post("/book/revisions", files={"book": ("x.zip", body, "application/zip")})
    assert answer.status_code == 422
    assert says in answer.text


def test_a_pack_that_unpacks_to_more_than_a_book_is_refused() -> None:
    """If this failed, a few kilobytes could fill the machine."""
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as file:
        file.writestr("parts.csv", b"0" * 70_000_000)
    _, lead = _desk_and_lead()
    files = {"book": ("bomb.zip", packed.getvalue(), "application/zip")}
    answer = lead.post("/book/revisions", files=files)
    assert answer.status_code == 422
    assert "unpacked it has 70,000,000 bytes; the most is 64,000,000" in answer.text


def test_a_pack_cannot_write_beside_its_folder() -> None:
    """If this failed, an upload could overwrite a file of the machine."""
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w") as file:
        for table in demo_tables():
            file.writestr(f"../../{table.name}.csv", csv_bytes(table))
    _, lead = _desk_and_lead()
    _loaded(lead, packed.getvalue())
    assert not (DEMO_BOOK.parent.parent / "parts.csv").exists()

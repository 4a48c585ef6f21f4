import csv
import json
import shutil
from pathlib import Path

import pyarrow as pa
import pyarrow.parquet as pq
import pytest
from tests.support.command import DEMO, DEMO_BOOK, DEMO_ORDERS, said
from xlsxwriter import Workbook

HEAD = "order,lamp,place,part,quantity\n"

BLOCK = """\
Order O-1: Tirrick shelf lamp (WH-302) at 1,700 m
  row 3  wrong-for-place  Chimney, plain foot, standard (CH-3296) is too short
    for where the lamp stands.
    Chimney, plain foot, standard (CH-3296) is 296.0 mm tall; at 1,700 m Hollin
    burner, fine (BU-2200) needs at least 324.2 mm.
    -> Take the taller chimney in the mended order.
  Put right:                                                           SKD 70.00
    1 x  GA-2450  Converting gallery for basket 2, plain-foot seat  39.00
    1 x  CH-3371  Chimney, plain foot, tall                         31.00
    - CH-3371 in place of CH-3296: cures wrong-for-place (row 3)

2 orders in 3 rows: 1 with 1 fault, 1 put right.
  1  wrong-for-place
"""


@pytest.fixture
def orders(tmp_path: Path) -> Path:
    """One order with a short chimney for a mountain, one without fault."""
    path = tmp_path / "orders.csv"
    rows = "O-1,WH-302,1700 m,GA-2450,1\nO-1,WH-302,1700 m,CH-3296,1\nO-2,DU-401,,WI-3100,2\n"
    path.write_text(HEAD + rows, encoding="utf-8")
    return path


def test_the_planted_faults_of_the_demo_are_found_and_no_other() -> None:
    """If this failed, a fault of an order would be missed, or a sound order held up."""
    plain = json.loads(said("check", str(DEMO_ORDERS), "--no-propose", "--json").out)
    found = {
        (order["order"], fault["fault"], fault["part"])
        for order in plain["orders"]
        for fault in order["faults"]
    }
    with (DEMO / "orders_key.csv").open(encoding="utf-8", newline="") as file:
        planted = {(row["order"], row["fault"], row["part"]) for row in csv.DictReader(file)}
    assert found == planted
    assert plain["summary"]["faults"] == len(planted)


def test_an_order_is_told_with_row_reason_cure_and_the_order_put_right(orders: Path) -> None:
    """If this failed, whoever mends the order would have to work it out again."""
    found = said("check", str(orders))
    assert (found.code, found.out, found.err) == (1, BLOCK, "")


def test_orders_without_fault_leave_with_zero(tmp_path: Path) -> None:
    """If this failed, a script could not tell sound orders from faulty ones."""
    path = tmp_path / "good.csv"
    path.write_text(HEAD + "O-2,DU-401,,WI-3100,2\n", encoding="utf-8")
    found = said("check", str(path))
    assert (found.code, found.out) == (0, "1 order in 1 row, no fault.\n")


def test_json_is_one_document_with_an_order_on_each_line(orders: Path) -> None:
    """If this failed, neither a JSON reader nor a line reader could read a long report."""
    out = said("check", str(orders), "--json").out
    plain = json.loads(out)
    assert list(plain) == ["currency", "orders", "short_for_all", "summary"]
    assert json.loads(out.splitlines()[2]) == plain["orders"][0]
    assert plain["orders"][0]["mended"]["price"] == "70.00"
    assert plain["summary"] == {
        "orders": 2,
        "rows": 3,
        "faulty": 1,
        "mended": 1,
        "faults": 1,
        "without_lamp": 0,
        "faults_by_name": {"wrong-for-place": 1},
    }
    assert plain["orders"][0]["mended"]["changes"] == [
        {
            "did": "kept",
            "part": "GA-2450",
            "ordered": "GA-2450",
            "row": 2,
            "cures": [],
            "says": "GA-2450 as ordered",
        },
        {
            "did": "exchanged",
            "part": "CH-3371",
            "ordered": "CH-3296",
            "row": 3,
            "cures": [{"fault": "wrong-for-place", "part": "CH-3296", "row": 3}],
            "says": "CH-3371 in place of CH-3296: cures wrong-for-place (row 3)",
        },
    ]


def test_the_ending_of_the_report_decides_what_is_written(orders: Path, tmp_path: Path) -> None:
    """If this failed, a report for a spreadsheet would hold something else."""
    written = {name: tmp_path / f"report.{name}" for name in ("txt", "json", "csv")}
    for path in written.values():
        assert said("check", str(orders), "--out", str(path)).code == 1
    assert written["txt"].read_text(encoding="utf-8") == BLOCK
    assert len(json.loads(written["json"].read_text(encoding="utf-8"))["orders"]) == 1
    with written["csv"].open(encoding="utf-8", newline="") as file:
        (row,) = csv.DictReader(file)
    assert (row["order"], row["row"], row["fault"]) == ("O-1", "3", "wrong-for-place")
    assert (row["mended"], row["mended_price"]) == ("1 x GA-2450; 1 x CH-3371", "70.00")
    assert row["mended_why"] == "CH-3371 in place of CH-3296: cures wrong-for-place (row 3)"


def test_a_report_that_cannot_be_written_leaves_nothing_behind(
    orders: Path, tmp_path: Path
) -> None:
    """If this failed, half a report could be taken for a whole one."""
    path = tmp_path / "nowhere" / "report.txt"
    found = said("check", str(orders), "--out", str(path))
    message = f"Error: '{path}' cannot be written: No such file or directory\n"
    assert (found.code, found.out, found.err) == (2, "", message)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["orders.csv"]


def test_an_order_without_lamp_says_why_nothing_is_proposed(tmp_path: Path) -> None:
    """If this failed, an adviser would wait for a proposal that never comes."""
    path = tmp_path / "orders.csv"
    path.write_text(HEAD + "O-1,,,LB-2759,1\n", encoding="utf-8")
    out = said("check", str(path)).out
    assert (
        "  Nothing proposed: with the lamp named, the order can be put right. Its parts\n"
        "  go on Bonxie table lamp (BX-701), Skua table lamp (BX-702), Bonxie floor lamp\n"
        "  (BX-703), Skua hanging lamp (BX-704) or Skua shelf lamp (BX-705).\n"
    ) in out


@pytest.mark.parametrize(
    ("name", "content", "message"),
    [
        (
            "lamps.csv",
            b"lamp,name\nA,B\n",
            (
                "  lamps, row 1, order: there is no column 'order'; add a column 'order': number "
                "of the order; rows with the same number belong together\n"
                "  lamps, row 1, part: there is no column 'part'; add a column 'part': "
                "part number\n"
            ),
        ),
        (
            "odd.csv",
            b"order,part\n1,\xff\n",
            (
                "  odd.csv: byte 0xFF on line 2 is not UTF-8; save it as 'CSV UTF-8' (a "
                "spreadsheet offers it under Save as), or keep it as an .xlsx workbook\n"
            ),
        ),
        (
            "orders.txt",
            b"order,part\n1,2\n",
            (
                "  orders.txt: 'orders.txt' is no kind of file that orders are read from; "
                "save it as one of: .csv, .xlsx, .parquet\n"
            ),
        ),
    ],
)
def test_a_bad_file_is_refused_whole_and_in_words(
    tmp_path: Path, name: str, content: bytes, message: str
) -> None:
    """If this failed, a bad file would end in a traceback or in half a check."""
    path = tmp_path / name
    path.write_bytes(content)
    found = said("check", str(path))
    assert (found.code, found.out) == (2, "")
    assert found.err == f"Error: '{path}' cannot be read as orders:\n{message}"


@pytest.mark.parametrize("columns", [80, 120])
def test_no_line_of_a_report_is_longer_than_the_terminal(columns: int) -> None:
    """If this failed, long names would break the lines of a report."""
    out = said("check", str(DEMO_ORDERS), "--no-propose", columns=columns).out
    assert max(map(len, out.splitlines())) <= columns


def test_a_bad_row_does_not_keep_other_orders_from_being_checked(tmp_path: Path) -> None:
    """If this failed, one blank cell among a thousand orders would refuse the whole file."""
    path = tmp_path / "orders.csv"
    rows = "O-1,DU-401,,,1\n,DU-401,,WI-3100,1\nO-2,DU-401,,CH-6296,1\n"
    path.write_text(HEAD + rows, encoding="utf-8")
    found = said("check", str(path), "--no-propose")
    assert (found.code, found.err) == (1, "")
    assert "Order O-1: " in found.out
    assert "Rows without order number: " in found.out
    assert "  row 4  not-heat-rated  DANGER: " in found.out
    assert "3 orders in 3 rows: 3 with 3 faults, 0 put right.\n" in found.out


def test_an_order_for_an_unknown_lamp_names_the_lamps_it_could_be_for(tmp_path: Path) -> None:
    """If this failed, an adviser would have to try the parts on every lamp of the book."""
    path = tmp_path / "orders.csv"
    path.write_text(HEAD + "O-1,TU-6O1,,CH-6160,1\n", encoding="utf-8")
    found = said("check", str(path), columns=120)
    assert "the order can be put right. Its parts go on " in found.out
    plain = json.loads(said("check", str(path), "--json").out)
    assert plain["orders"][0]["could_be_for"] == ["TU-604"]


@pytest.fixture
def rivals(tmp_path: Path) -> tuple[Path, Path]:
    """A book with three of a dying wick, and two orders for two of it each."""
    tables = tmp_path / "book"
    shutil.copytree(DEMO_BOOK, tables)
    parts = tables / "parts.csv"
    rows = [*csv.DictReader(parts.read_text(encoding="utf-8").splitlines())]
    for row in rows:
        if row["part"] == "WI-1100":
            row["stock"] = "3"
    with parts.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, list(rows[0]), lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)
    path = tmp_path / "orders.csv"
    path.write_text(HEAD + "O-1,TY-101,,WI-1100,2\nO-2,TY-101,,WI-1100,2\n", encoding="utf-8")
    return tables, path


def test_orders_that_compete_for_the_last_stock_are_told_together(
    rivals: tuple[Path, Path], tmp_path: Path
) -> None:
    """If this failed, two callers would be promised the same last wick."""
    book, path = rivals
    found = said("check", str(path), "--book", str(book), "--no-propose", columns=120)
    assert (found.code, found.err) == (1, "")
    assert (
        "All orders together: short-for-all  Wick, size 1, woven (WI-1100): 4 ordered, 3 on the "
        "shelf. Together it is too much\n    for O-1 (2), O-2 (2).\n"
        "    -> Settle who is served; no more are made. Nothing replaces it.\n"
    ) in found.out
    plain = json.loads(said("check", str(path), "--book", str(book), "--json").out)
    (short,) = plain["short_for_all"]
    assert (short["part"]["part"], short["wanted"]) == ("WI-1100", 4)
    assert short["orders"] == [
        {"order": "O-1", "row": 2, "quantity": 2},
        {"order": "O-2", "row": 3, "quantity": 2},
    ]
    report = tmp_path / "report.csv"
    said("check", str(path), "--book", str(book), "--out", str(report))
    with report.open(encoding="utf-8", newline="") as file:
        last = [*csv.DictReader(file)][-1]
    assert (last["order"], last["part"], last["fault"]) == ("", "WI-1100", "short-for-all")


def test_orders_without_a_lamp_are_counted(tmp_path: Path) -> None:
    """If this failed, 'no fault' would be read as 'fits' for parts that were put on no lamp."""
    path = tmp_path / "orders.csv"
    path.write_text(HEAD + "O-1,,,WI-2100,1\n", encoding="utf-8")
    found = said("check", str(path))
    assert (found.code, found.out) == (
        0,
        (
            "1 order in 1 row, no fault.\n"
            "1 order names no known lamp: whether the parts go on it is not known.\n"
        ),
    )


def test_nothing_of_an_order_is_a_formula_in_a_report_for_a_spreadsheet(tmp_path: Path) -> None:
    """If this failed, an order from outside could run a formula on the adviser's desk."""
    path, report = tmp_path / "orders.csv", tmp_path / "report.csv"
    path.write_text(HEAD + "=1+1,@SUM(A1),,-2+3,1\n", encoding="utf-8")
    assert said("check", str(path), "--out", str(report)).code == 1
    with report.open(encoding="utf-8", newline="") as file:
        cells = [cell for row in csv.reader(file) for cell in row]
    assert {"'=1+1", "'@SUM(A1)", "'-2+3"} <= set(cells)
    assert not any(cell.startswith(("=", "+", "-", "@")) for cell in cells)


@pytest.mark.parametrize("ending", ["xlsx", "parquet"])
def test_the_same_orders_are_judged_alike_from_every_kind_of_file(
    tmp_path: Path, ending: str
) -> None:
    """If this failed, an order would be sound as CSV and faulty as a workbook."""
    with DEMO_ORDERS.open(encoding="utf-8", newline="") as file:
        header, *rows = csv.reader(file)
    path = tmp_path / f"orders.{ending}"
    if ending == "xlsx":
        book = Workbook(str(path))
        sheet = book.add_worksheet("orders")
        for at, row in enumerate((header, *rows)):
            sheet.write_row(at, 0, row)
        book.close()
    else:
        columns = zip(*rows, strict=True)
        pq.write_table(
            pa.table({name: [*cells] for name, cells in zip(header, columns, strict=True)}), path
        )
    found = said("check", str(path), "--no-propose", "--json")
    assert found == said("check", str(DEMO_ORDERS), "--no-propose", "--json")

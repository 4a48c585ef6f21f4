import json
import shutil
from pathlib import Path

import pytest
from tests.support.command import DEMO_BOOK, said

FAULTS = """\
table  row  column  what is wrong                    what mends it
lamps    2  family  there is no family 'tistie'      did you mean 'tystie'? write the key of a row
                                                     of the table families, or add the row
lamps    2  form    'tabel' is not one of the forms  did you mean 'table'? choose from: table,
                                                     shelf, bracket, hanging, floor

2 faults.
"""


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    """A copy of the demo book, to be spoiled."""
    return Path(shutil.copytree(DEMO_BOOK, tmp_path / "copy"))


def _replace(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def test_a_sound_book_is_said_to_be_sound() -> None:
    """If this failed, a support lead could not tell that a new edition is ready."""
    found = said("book", "check")
    assert (found.code, found.out) == (0, "No fault: 42 lamps, 228 parts, 36 wishes.\n")


def test_every_fault_of_a_book_stands_in_one_table(copy: Path) -> None:
    """If this failed, a book would be mended one fault at a time."""
    _replace(copy / "lamps.csv", ",tystie,table,", ",tistie,tabel,")
    found = said("book", "check", str(copy), columns=100)
    assert found.code == 1
    assert found.out == FAULTS


def test_a_command_refuses_a_book_with_faults(copy: Path) -> None:
    """If this failed, answers would be given from half a book."""
    _replace(copy / "lamps.csv", ",tystie,table,", ",tystie,tabel,")
    found = said("--book", str(copy), "fit", "WH-302", "renew-chimney")
    assert (found.code, found.out) == (2, "")
    assert found.err == (
        f"Error: the fit book '{copy}' cannot be used:\n"
        "  lamps, row 2, form: 'tabel' is not one of the forms; did you mean 'table'? "
        "choose from: table, shelf, bracket, hanging, floor\n"
    )


def test_a_book_that_is_not_there_is_said_so(tmp_path: Path) -> None:
    """If this failed, a slip in a path would look like a faulty book."""
    path = tmp_path / "none"
    found = said("book", "check", str(path))
    assert (found.code, found.err) == (
        2,
        f"Error: there is no file or folder '{path}': check the path\n",
    )


@pytest.mark.parametrize("name", ["book.xlsx", "folder"])
def test_a_converted_book_compares_as_the_same(tmp_path: Path, name: str) -> None:
    """If this failed, a book would change by being kept in another form."""
    target = tmp_path / name
    assert said("book", "convert", str(DEMO_BOOK), str(target)).code == 0
    found = said("book", "compare", str(DEMO_BOOK), str(target))
    assert (found.code, found.out) == (0, "The two books say the same.\n")


def test_what_changed_between_two_books_is_said_cell_by_cell(copy: Path) -> None:
    """If this failed, a support lead could not see what a new edition changes."""
    _replace(copy / "wishes.csv", "A new one for the chimney", "A new glass")
    found = said("book", "compare", str(DEMO_BOOK), str(copy))
    assert found.code == 1
    assert found.out == (
        "wishes\n"
        "  renew-chimney\n"
        "    - title: A new one for the chimney -> A new glass\n"
        "\n"
        "0 added, 0 dropped and 1 changed.\n"
    )


def test_a_book_is_never_written_over(copy: Path) -> None:
    """If this failed, a template could wipe out a year's work."""
    before = (copy / "parts.csv").read_bytes()
    message = f"Error: '{copy}' is there already: give a new name, or take it away first\n"
    for command in (("template",), ("convert", str(DEMO_BOOK))):
        found = said("book", *command, str(copy))
        assert (found.code, found.err) == (2, message)
    assert (copy / "parts.csv").read_bytes() == before


def test_a_template_is_read_as_an_empty_book(tmp_path: Path) -> None:
    """If this failed, whoever starts a new book would start with faults."""
    path = tmp_path / "new.xlsx"
    assert said("book", "template", str(path)).code == 0
    assert said("book", "check", str(path)).out == "No fault: 0 lamps, 0 parts, 0 wishes.\n"


def test_a_part_is_shown_with_its_sizes_as_printed_and_what_fits_it() -> None:
    """If this failed, an adviser would look sizes up on paper."""
    out = said("book", "show", "ga-2450").out
    assert "  capture 61.3..62.4 mm; label 'seat P'\n" in out
    assert "    BU-2110  Hollin burner kit, coarse         while stocks last, 2 left\n" in out
    assert "ask 'wickwright fit'" in out.replace("\n", " ")


def test_a_lamp_is_shown_with_the_parts_it_was_sold_with() -> None:
    """If this failed, an adviser would not know what stands before the caller."""
    out = said("book", "show", "WH-302").out
    assert "  BU-2200  Hollin burner, fine                         no longer made\n" in out


def test_lists_are_told_for_people_and_for_machines() -> None:
    """If this failed, a newcomer would not find the name of a lamp or wish."""
    assert said("book", "list", "parts", "--kind", "bell").out.splitlines()[0] == (
        "part     name                          kind  price  status"
    )
    wishes = json.loads(said("book", "list", "wishes", "--json").out)
    assert wishes[0] == {
        "wish": "renew-chimney",
        "title": "A new one for the chimney",
        "asks": "the chimney is a new one",
    }


def test_tables_are_printed_whole() -> None:
    """If this failed, a book could not be read on paper."""
    out = said("book", "print", "sources", "about").out
    assert out.startswith("about (5)\n")
    assert "G-2021  title Gauge room: stock gauged in 2021\n" in out


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (("book", "print", "lamp"), "there is no table 'lamp': did you mean 'lamps'? they are "),
        (("book", "list", "parts", "--kind", "shed"), "there is no kind 'shed': did you mean "),
        (("book", "list", "lamps", "--kind", "bell"), "--kind goes with 'parts' and 'looks': "),
        (
            ("book", "show", "WH-30"),
            "there is no lamp or part, and no cause or sign, 'WH-30' in the fit book: did you ",
        ),
    ],
)
def test_a_name_that_is_none_is_answered_with_the_nearest(
    arguments: tuple[str, ...], message: str
) -> None:
    """If this failed, a slip would be answered with a bare refusal."""
    found = said(*arguments)
    assert found.code == 2
    assert found.err.startswith(f"Error: {message}")


@pytest.mark.parametrize("command", ["convert", "template"])
def test_a_book_is_not_kept_in_a_form_it_cannot_have(tmp_path: Path, command: str) -> None:
    """If this failed, 'book.csv' would turn out to be a folder."""
    target = tmp_path / "book.csv"
    source = (str(DEMO_BOOK),) if command == "convert" else ()
    found = said("book", command, *source, str(target))
    assert (found.code, found.err) == (
        2,
        (
            f"Error: '{target}' ends in '.csv', and a book is not kept in that form: end it in "
            ".xlsx for a workbook, or name a folder for CSV files, such as 'book'\n"
        ),
    )
    assert not target.exists()


def test_a_folder_may_be_named_by_its_edition(tmp_path: Path) -> None:
    """If this failed, a number behind a point would be taken for the kind of a file."""
    assert said("book", "template", str(tmp_path / "edition 2.1")).code == 0


def test_kinds_are_listed_with_how_many_parts_there_are() -> None:
    """If this failed, a support lead would have to guess what '--kind' and 'takes' accept."""
    plain = json.loads(said("book", "list", "kinds", "--json").out)
    assert plain[0] == {
        "kind": "base",
        "parts": "34",
        "what it is": "carries the font: table, shelf, bracket, hanging frame or floor stand",
    }
    assert sum(int(row["parts"]) for row in plain) == 228


DOUBTED = """\
table  row  column  what may be wrong                 what mends it
parts  143  mass    a chimney of 0.2 g is hardly      write grams, not kilograms
                    meant

1 doubt.
No fault: 42 lamps, 228 parts, 36 wishes.
"""


def test_doubts_are_told_apart_from_faults(copy: Path) -> None:
    """If this failed, a book would be refused for what may be right, or a slip go unsaid."""
    path = copy / "parts.csv"
    lines = path.read_text(encoding="utf-8").splitlines()
    at = next(at for at, line in enumerate(lines) if line.startswith("CH-3371,"))
    mass = lines[0].split(",").index("mass")
    assert '"' in lines[at]
    before, after = lines[at].split('",', 1)
    cells = after.split(",")
    cells[mass - 2] = "0.2"
    lines[at] = f'{before}",{",".join(cells)}'
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    found = said("book", "check", str(copy))
    assert (found.code, found.out) == (0, DOUBTED)
    (plain,) = json.loads(said("book", "check", str(copy), "--json").out)
    assert plain["doubt"] is True
    assert said("--book", str(copy), "fit", "DU-401", "renew-chimney").code == 0


def test_a_lamp_that_never_went_together_is_a_fault(copy: Path) -> None:
    """If this failed, a lamp without a font would be sold complete."""
    _replace(copy / "lamps.csv", " FO-2230", "")
    found = said("book", "check", str(copy))
    assert found.code == 1
    assert found.out.endswith("2 faults.\n")

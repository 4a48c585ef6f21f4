from __future__ import annotations

from dataclasses import replace

from tests.support.tables import Draft, draft, said, sound_book, tables_of

from wickwright.catalogue.compare import CellChange, Change, Did, compare_books
from wickwright.catalogue.reading import read_book
from wickwright.catalogue.records import Book


def _book(rows: Draft) -> Book:
    read = read_book(tables_of(rows))
    assert isinstance(read, Book), said(read)
    return read


def test_equal_books_have_no_changes() -> None:
    """Every edition would look as if all of it were new."""
    assert compare_books(sound_book(), sound_book()) == ()


def test_a_changed_cell_is_told_with_its_old_and_new_text() -> None:
    """A price or a size would change from one edition to the next without anyone seeing it."""
    new = draft()
    new["parts"][1]["price"] = "52"
    new["parts"][0]["height"] = "66.7 mm"
    new["ports"][3]["capture"] = "65..67.5 mm"
    assert compare_books(sound_book(), _book(new)) == (
        Change("parts", ("B1",), Did.CHANGED, (CellChange("height", "2 5/8 in", "66.7 mm"),)),
        Change("parts", ("F1",), Did.CHANGED, (CellChange("price", "48.50", "52.00"),)),
        Change(
            "ports",
            ("G1", "seat"),
            Did.CHANGED,
            (CellChange("capture", "65.5..67.5 mm", "65..67.5 mm"),),
        ),
    )


def test_a_written_nought_is_not_a_blank() -> None:
    """A figure that was cleared would not be seen, and a 0 would vanish on its way to a file."""
    new = draft()
    new["parts"][0]["light"] = "0"
    nought = _book(new)
    change = Change("parts", ("B1",), Did.CHANGED, (CellChange("light", "", "0"),))
    assert compare_books(sound_book(), nought) == (change,)


def test_added_and_dropped_rows_are_told_with_what_they_held() -> None:
    """A part that is gone from the book would not be missed."""
    new = draft()
    new["parts"].append({"part": "T1", "name": "Trimmer", "kind": "tool", "status": "made"})
    del new["ports"][4]
    dropped = (
        CellChange("part", "C1", ""),
        CellChange("port", "foot", ""),
        CellChange("side", "stands", ""),
        CellChange("joint", "quarter-turn", ""),
        CellChange("height", "0 mm", ""),
        CellChange("label", "Q", ""),
        CellChange("lugs", "3", ""),
        CellChange("angle", "42.5", ""),
    )
    added = (
        CellChange("part", "", "T1"),
        CellChange("name", "", "Trimmer"),
        CellChange("kind", "", "tool"),
        CellChange("status", "", "made"),
    )
    assert compare_books(sound_book(), _book(new)) == (
        Change("parts", ("T1",), Did.ADDED, added),
        Change("ports", ("C1", "foot"), Did.DROPPED, dropped),
    )


def test_rows_that_only_moved_are_no_change() -> None:
    """Sorting a table would look like a new edition."""
    new = draft()
    new["parts"].reverse()
    new["ports"].reverse()
    assert compare_books(sound_book(), _book(new)) == ()


def test_dropping_the_first_ask_of_a_wish_leaves_its_title() -> None:
    """The title would seem to wander from one ask to the next."""
    old, new = draft(), draft()
    old["wishes"].insert(
        1, {"wish": "tall", "ask": "present", "kind": "chimney", "says": "there is one"}
    )
    (change,) = compare_books(_book(old), _book(new))
    assert (change.key, change.did) == (("tall", "present", "chimney", ""), Did.DROPPED)
    wish = sound_book().wishes["tall"]
    less = replace(sound_book(), wishes={"tall": replace(wish, asks=wish.asks[1:])})
    (change,) = compare_books(sound_book(), less)
    assert (change.key, change.did) == (("tall", "renew", "chimney", ""), Did.DROPPED)


def test_rows_of_equal_key_are_counted() -> None:
    """The second of two like asks would take the place of the first, and a change be lost."""
    old, new = draft(), draft()
    never = {"wish": "tall", "ask": "never", "kind": "shade", "field": "material", "test": "is"}
    for rows, second in ((old, "glass"), (new, "cloth")):
        rows["wishes"].append({**never, "value": "wood", "says": "not wood"})
        rows["wishes"].append({**never, "value": second, "says": "nor that"})
    assert compare_books(_book(old), _book(new)) == (
        Change(
            "wishes",
            ("tall", "never", "shade", "material", "2"),
            Did.CHANGED,
            (CellChange("value", "glass", "cloth"),),
        ),
    )

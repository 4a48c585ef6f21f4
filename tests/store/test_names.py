from pathlib import Path

from tests.support.command import DEMO_BOOK

from wickwright.store.names import read_names


def test_names_are_read_with_their_titles() -> None:
    """If this failed, completion would offer bare numbers."""
    assert read_names(DEMO_BOOK, "wishes")[0] == ("renew-chimney", "A new one for the chimney")
    assert ("WH-302", "Tirrick shelf lamp") in read_names(DEMO_BOOK, "lamps")


def test_a_wish_of_many_rows_is_one_name() -> None:
    """If this failed, a name would be offered once for each of its rows."""
    names = [name for name, _ in read_names(DEMO_BOOK, "wishes")]
    assert len(names) == len(set(names)) == 36


def test_what_cannot_be_read_offers_nothing(tmp_path: Path) -> None:
    """If this failed, a key stroke would print a traceback over what is being typed."""
    assert read_names(tmp_path / "none", "lamps") == ()
    (tmp_path / "lamps.csv").write_bytes(b"\xff\xfe\x00")
    assert read_names(tmp_path, "lamps") == ()
    (tmp_path / "lamps.csv").write_text("other\nx\n", encoding="utf-8")
    assert read_names(tmp_path, "lamps") == ()

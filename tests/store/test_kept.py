import json
from dataclasses import replace
from pathlib import Path

import pytest
from tests.support.demo import demo

from wickwright.fit.classes import Verdicts
from wickwright.fit.joints.verdict import Warmth
from wickwright.fit.settings import Settings
from wickwright.store import kept
from wickwright.store.kept import cache_folder, compile_kept, read_verdicts, write_verdicts


@pytest.fixture(autouse=True)
def _small(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(kept, "PAYS_FROM", 1)


def test_what_is_kept_is_read_as_it_was(tmp_path: Path) -> None:
    """If this failed, an old verdict would be taken for that of another pair of ports."""
    path = tmp_path / "deep" / "verdicts.json"
    assert write_verdicts(path, demo().verdicts)
    assert read_verdicts(path).known == demo().verdicts.known
    assert [one.name for one in path.parent.iterdir()] == ["verdicts.json"]


def test_a_second_run_judges_nothing_again(tmp_path: Path) -> None:
    """If this failed, keeping verdicts would be of no use."""
    first = compile_kept(demo().book, Settings(), tmp_path)
    second = compile_kept(demo().book, Settings(), tmp_path)
    assert first.verdicts.judged == len(first.verdicts.known) > 0
    assert second.verdicts.judged == 0
    assert second.verdicts.known == first.verdicts.known == demo().verdicts.known


def test_a_changed_book_is_judged_only_where_it_changed(tmp_path: Path) -> None:
    """If this failed, one new port would cost as much as a new book, or get an old verdict."""
    book = demo().book
    part = book.parts["CH-3371"]
    ports = tuple(replace(port, label=f"{port.label} new") for port in part.ports)
    changed = replace(book, parts={**book.parts, part.id: replace(part, ports=ports)})
    whole = compile_kept(book, Settings(), tmp_path)
    again = compile_kept(changed, Settings(), tmp_path)
    assert 0 < again.verdicts.judged < len(whole.verdicts.known) / 5


def test_other_service_temperatures_are_kept_apart(tmp_path: Path) -> None:
    """If this failed, glass would be judged by the heat of yesterday's settings."""
    compile_kept(demo().book, Settings(), tmp_path)
    warmer = Settings(warm={"quarter-turn": Warmth(carrier=500.0, stander=600.0)})
    assert compile_kept(demo().book, warmer, tmp_path).verdicts.judged > 0
    assert len([*tmp_path.iterdir()]) == 2


def test_changed_rules_meet_no_old_verdicts(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """If this failed, a mended rule would go on giving its old answers."""
    compile_kept(demo().book, Settings(), tmp_path / "cache")
    rules = tmp_path / "fit"
    rules.mkdir()
    (rules / "rule.py").write_text("changed\n", encoding="utf-8")
    monkeypatch.setattr(kept, "_RULES", rules)
    assert compile_kept(demo().book, Settings(), tmp_path / "cache").verdicts.judged > 0


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"\xff",
        b"[]",
        b"{}",
        b'{"classes": [], "rows": [[0, [0], [0]]]}',
        b'{"classes": [1], "rows": []}',
        b'{"classes": [["a", "b", 1, [], [], "", ""]], "rows": []}',
        b'{"classes": [["a", "b", [], [], [], "", ""]], "rows": [[0, [0], [99]]]}',
    ],
)
def test_a_broken_file_is_passed_over_and_written_anew(tmp_path: Path, content: bytes) -> None:
    """If this failed, a spoiled cache would keep the program from starting."""
    whole = compile_kept(demo().book, Settings(), tmp_path)
    (path,) = tmp_path.iterdir()
    path.write_bytes(content)
    assert read_verdicts(path) == Verdicts()
    again = compile_kept(demo().book, Settings(), tmp_path)
    assert again.verdicts.judged == whole.verdicts.judged
    assert json.loads(path.read_bytes())["rows"]


def test_a_folder_that_cannot_be_written_is_no_matter(tmp_path: Path) -> None:
    """If this failed, a read-only home would keep the program from starting."""
    blocked = tmp_path / "file"
    blocked.write_text("not a folder", encoding="utf-8")
    compiled = compile_kept(demo().book, Settings(), blocked)
    assert compiled.verdicts.known == demo().verdicts.known
    assert blocked.read_text(encoding="utf-8") == "not a folder"


def test_old_files_are_thinned_out(tmp_path: Path) -> None:
    """If this failed, every change of a rule would leave a file behind for ever."""
    for at in range(9):
        write_verdicts(tmp_path / f"verdicts-{at}.json", Verdicts())
    assert len([*tmp_path.iterdir()]) == 4


def test_the_environment_says_where_verdicts_are_kept() -> None:
    """If this failed, a user could not move the cache or switch it off."""
    assert cache_folder({"WICKWRIGHT_CACHE": "off", "HOME": "/h"}) is None
    assert cache_folder({"WICKWRIGHT_CACHE": "/c", "HOME": "/h"}) == Path("/c")
    assert cache_folder({"XDG_CACHE_HOME": "/x", "HOME": "/h"}) == Path("/x/wickwright")
    assert cache_folder({"HOME": "/h"}) == Path("/h/.cache/wickwright")
    assert cache_folder({}) is None

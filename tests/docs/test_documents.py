"""The documents against the program."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from wickwright.answers import rule_book
from wickwright.terms.source import SOURCES

ROOT = Path(__file__).resolve().parents[2]
BLOCK = re.compile(r"```python\n(.*?)```", re.DOTALL)


def test_the_readme_s_python_runs_as_printed() -> None:
    """If this fails, a newcomer who copies the README's example gets an error."""
    blocks = BLOCK.findall((ROOT / "README.md").read_text(encoding="utf-8"))
    assert blocks
    for block in blocks:
        names: dict[str, object] = {}
        exec(compile(block, "README.md", "exec"), names)  # noqa: S102 - our own document
        answer = names["answer"]
        assert [part.id for part in answer.routes[0].buy] == ["GA-2450", "CH-3371"]  # type: ignore[attr-defined]


def test_every_rule_cites_the_bibliography() -> None:
    """If this fails, a rule rests on a source that nobody can look up."""
    for rule in rule_book():
        assert rule.source in SOURCES, rule.key


def test_the_bibliography_file_holds_every_source() -> None:
    """If this fails, docs/sources.bib has fallen behind the program."""
    text = (ROOT / "docs" / "sources.bib").read_text(encoding="utf-8")
    for key in SOURCES:
        assert f"@misc{{{key}," in text


def test_every_decision_says_what_would_reopen_it() -> None:
    """If this fails, a choice is written down without what would change it."""
    pages = sorted((ROOT / "docs" / "decisions").glob("*.md"))
    assert pages
    for page in pages:
        assert "reopen" in page.read_text(encoding="utf-8").lower(), page.name


@pytest.mark.parametrize(
    ("page", "printed"),
    [
        ("flame.md", "222 ± 183 lm; mantle's emissivity for heat matters most\n"),
        ("room.md", "6501 ppm; room-co2\n"),
    ],
)
def test_the_python_of_a_page_runs_and_prints_a_figure(
    page: str, printed: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """If this fails, a newcomer who copies an example from the documents gets an error."""
    (block,) = BLOCK.findall((ROOT / "docs" / page).read_text(encoding="utf-8"))
    exec(compile(block, page, "exec"), {})  # noqa: S102 - our own document
    assert capsys.readouterr().out == printed

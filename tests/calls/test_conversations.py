"""Whole calls, word for word: what is typed and everything that is said."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from tests.support.conversation import CONVERSATIONS, held, parts_of

if TYPE_CHECKING:
    from pathlib import Path

CALLS = sorted(CONVERSATIONS.glob("*.txt"))


@pytest.mark.parametrize("path", CALLS, ids=[path.stem for path in CALLS])
def test_a_whole_call_goes_as_it_is_written_down(path: Path, tmp_path: Path) -> None:
    """An adviser and a caller would hear something else than was agreed on."""
    written = path.read_text("utf-8")
    assert held(written, tmp_path) == written


def test_there_are_calls_and_each_of_them_comes_to_an_end() -> None:
    """An empty folder, or a call without its end, would pass as agreed."""
    assert len(CALLS) >= 6
    for path in CALLS:
        commands = [p for p in parts_of(path.read_text("utf-8")) if p.head.startswith("$ wick")]
        assert commands
        assert all(p.body.splitlines()[-1].startswith("exit ") for p in commands)

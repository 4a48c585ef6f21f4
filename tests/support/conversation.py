"""Whole calls as text: the command, what is printed, and what is typed behind each ``>``.

``python -m tests.support.conversation FILE...`` writes what is said now into the files, keeping
what is typed; read what it changed before it is kept.
"""

from __future__ import annotations

import io
import shlex
import sys
from contextlib import chdir
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING
from unittest import mock

from tests.support.command import Said, said

if TYPE_CHECKING:
    from collections.abc import Iterator

__all__ = ["CONVERSATIONS", "Part", "held", "parts_of", "typed"]

CONVERSATIONS = Path(__file__).parents[1] / "calls" / "conversations"
_COMMAND, _FILE, _END = "$ wickwright ", "$ cat > ", "exit "


@dataclass(frozen=True, slots=True)
class Part:
    """One command of a call: what is run, typed, and printed; or a file that is written first."""

    head: str
    body: str

    @property
    def lines(self) -> tuple[str, ...]:
        """What is typed: the lines behind a prompt; an empty prompt is the end of the input."""
        return tuple(
            line.removeprefix("> ") for line in self.body.splitlines() if line.startswith("> ")
        )


def typed(*arguments: str, lines: tuple[str, ...] = (), columns: int = 80) -> Said:
    """Run a command with lines typed into it."""
    with mock.patch("sys.stdin", io.StringIO("".join(f"{line}\n" for line in lines))):
        return said(*arguments, columns=columns)


def parts_of(text: str) -> Iterator[Part]:
    """Yield the commands and files of a call in order."""
    head, body = "", list[str]()
    for line in text.splitlines():
        if line.startswith("$ "):
            if head:
                yield Part(head, "\n".join(body))
            head, body = line, []
        else:
            body.append(line)
    yield Part(head, "\n".join(body))


def _said(part: Part, folder: Path) -> str:
    """Do a part and return it as it is now."""
    if part.head.startswith(_FILE):
        (folder / part.head.removeprefix(_FILE)).write_text(part.body, "utf-8")
        return f"{part.head}\n{part.body}"
    words = shlex.split(part.head.removeprefix(_COMMAND))
    with chdir(folder):
        found = typed(*words, lines=part.lines)
    printed = (line.rstrip() for line in (found.out + found.err).splitlines())
    lines = [part.head, *printed, f"{_END}{found.code}"]
    return "\n".join(lines)


def held(text: str, folder: Path) -> str:
    """Hold a whole call and return it as it goes now."""
    return "\n".join(_said(part, folder) for part in parts_of(text)) + "\n"


if __name__ == "__main__":
    for name in sys.argv[1:]:
        with TemporaryDirectory() as place:
            path = Path(name)
            path.write_text(held(path.read_text("utf-8"), Path(place)), "utf-8")

"""Docstrings in numpydoc form, taken apart."""

from __future__ import annotations

import re

__all__ = ["documented", "section"]

SECTIONS = re.compile(r"^([A-Z][a-z]+)\n-+$", re.MULTILINE)
ENTRY = re.compile(r"^(\*?\w[\w, ]*) : (.+)$")


def section(text: str, title: str) -> str:
    """Return what stands under a heading, blank if it is not there."""
    parts = SECTIONS.split(text)
    return dict(zip(parts[1::2], parts[2::2], strict=True)).get(title, "")


def documented(text: str) -> dict[str, str]:
    """Return each parameter with the words that follow it."""
    words: dict[str, str] = {}
    names: list[str] = []
    for line in section(text, "Parameters").splitlines():
        if match := ENTRY.match(line):
            names = [name.strip().lstrip("*") for name in match[1].split(",")]
            words |= dict.fromkeys(names, match[2] + " ")
        else:
            words |= {name: words[name] + line for name in names}
    return words

"""A conversation at the terminal: one question, numbered answers, and the way back."""

from __future__ import annotations

import sys
from dataclasses import dataclass
from typing import TYPE_CHECKING

import click

from wickwright.cli.layout import paragraph
from wickwright.cli.output import terminal_width

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["BACK", "QUIT", "UNSURE", "WHY", "Choice", "choose", "heard_line", "told"]

BACK, WHY, QUIT, UNSURE = "back", "why", "quit", "don't know"
_SHORT = {"b": BACK, "w": WHY, "q": QUIT, "d": UNSURE, "?": WHY, "dk": UNSURE}


@dataclass(frozen=True, slots=True)
class Choice:
    """One answer: its key, and how it reads."""

    key: str
    says: str


def told(text: str, indent: str = "", hang: str | None = None) -> None:
    """Print a paragraph."""
    for line in paragraph(text, terminal_width(), indent, hang):
        click.echo(line)


def heard_line(prompt: str) -> str | None:
    """Read a line; None at the end of what is given. Lines that were piped in are shown."""
    stream = sys.stdin
    click.echo(prompt, nl=False)
    line = stream.readline()
    if not line:
        click.echo()
        return None
    if not stream.isatty():
        click.echo(line.rstrip("\n"))
    return line.strip()


def _meant(text: str, choices: Sequence[Choice], *, unsure: bool) -> str:
    """Return the key of what was typed, or blank."""
    small = text.lower()
    if small.isdecimal() and 1 <= int(small) <= len(choices):
        return choices[int(small) - 1].key
    word = _SHORT.get(small, small)
    if word in {BACK, WHY, QUIT} or (unsure and word == UNSURE):
        return word
    if small and small in {c.key[:1] for c in choices if c.key in {"yes", "no"}}:
        return next(c.key for c in choices if c.key[:1] == small)
    near = [c.key for c in choices if small and small in {c.key.lower(), c.says.lower()}]
    return near[0] if near else ""


def choose(choices: Sequence[Choice], *, unsure: bool = True) -> str:
    """Ask for one of numbered answers until one is given.

    Parameters
    ----------
    choices : sequence of Choice
        In the order they are numbered.
    unsure : bool
        Whether 'don't know' is an answer.

    Returns
    -------
    str
        A key, or :data:`BACK`, :data:`WHY`, :data:`QUIT`, :data:`UNSURE`; :data:`QUIT` at the
        end of what is given.
    """
    for place, choice in enumerate(choices, 1):
        told(choice.says, f"  {place}  ", "     ")
    more = ["b back", "w why do you ask", "q quit"]
    click.echo("  " + "   ".join((["d don't know"] if unsure else []) + more))
    while True:
        line = heard_line("> ")
        if line is None:
            return QUIT
        key = _meant(line, choices, unsure=unsure)
        if key:
            return key
        told(f"'{line}' is none of these: give a number from 1 to {len(choices)}, or a letter.")

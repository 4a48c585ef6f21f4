"""A conversation at the terminal: one question, numbered answers, and the way back."""

from __future__ import annotations

import re
import sys
from dataclasses import dataclass
from typing import TYPE_CHECKING

import click

from wickwright.cli.layout import paragraph
from wickwright.cli.output import terminal_width

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

__all__ = [
    "BACK",
    "NONE",
    "QUIT",
    "UNSURE",
    "WHY",
    "Choice",
    "capital",
    "choose",
    "choose_some",
    "heard_line",
    "left_line",
    "named_in",
    "told",
]

BACK, WHY, QUIT, UNSURE = "back", "why", "quit", "don't know"
NONE = "none of these"
_NONE = frozenset({NONE, "none", "no", "n"})
_WORD = re.compile(r"[a-z0-9'-]+")
_BETWEEN = re.compile(r"[,;+&/]|\band\b")
_SHORT = {"b": BACK, "w": WHY, "q": QUIT, "d": UNSURE, "?": WHY, "dk": UNSURE}


@dataclass(frozen=True, slots=True)
class Choice:
    """One answer: its key, and how it reads."""

    key: str
    says: str


def capital(text: str) -> str:
    """Return a text that begins a sentence."""
    return text[:1].upper() + text[1:]


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


def left_line(path: Path | None) -> None:
    """Say whether a call that is left before its end can be taken up again."""
    if path is None:
        told("What was said is not kept: with --case FILE it is, and can be taken up again.")
    else:
        told(f"The call is kept in '{path}': the same command takes it up again.")


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


def _words(choice: Choice) -> frozenset[str]:
    """Return the words that may stand for a choice."""
    text = f"{choice.key} {choice.key.replace('-', ' ')} {choice.says}"
    return frozenset(_WORD.findall(text.lower()))


def _one_named(text: str, choices: Sequence[Choice]) -> list[str]:
    """Return the choices that a number, a name or some words may stand for."""
    if text.isdecimal():
        return [choices[int(text) - 1].key] if 1 <= int(text) <= len(choices) else []
    whole = [c.key for c in choices if text in {c.key, c.key.replace("-", " "), c.says.lower()}]
    said = frozenset(_WORD.findall(text))
    return whole or [c.key for c in choices if said and said <= _words(c)]


def _part(text: str, choices: Sequence[Choice]) -> tuple[list[str], str]:
    """Return what a part of a line names, or why it names nothing."""
    found = _one_named(text, choices)
    if len(found) == 1:
        return found, ""
    if not found and len(text.split()) > 1 and text.replace(" ", "").isdecimal():
        each = [_part(word, choices) for word in text.split()]
        faults = [fault for _, fault in each if fault]
        return [key for keys, _ in each for key in keys], " ".join(faults)
    if not found:
        return [], f"'{text}' is none of these."
    places = [place for place, choice in enumerate(choices, 1) if choice.key in found]
    return [], f"'{text}' may be {' or '.join(map(str, places))}."


def named_in(line: str, choices: Sequence[Choice]) -> tuple[tuple[str, ...], str]:
    """Return which of numbered answers a line names; several may stand in it.

    Parameters
    ----------
    line : str
        Numbers with blanks or commas between them, or words with commas between them.
    choices : sequence of Choice
        In the order they are numbered; none of these is one number more.

    Returns
    -------
    tuple of (tuple of str, str)
        Keys in the order of the choices, or :data:`NONE` alone; and what cannot be taken,
        blank where all of it can.
    """
    every = [*choices, Choice(NONE, NONE)]
    parts = [part.strip() for part in _BETWEEN.split(line.lower()) if part.strip()]
    if [part for part in parts if part in _NONE] == parts and parts:
        return (NONE,), ""
    each = [_part(part, every) for part in parts]
    faults = [fault for _, fault in each if fault]
    keys = {key for found, _ in each for key in found}
    if len(keys) > 1 and NONE in keys:
        faults.append(f"'{line}' names one of these and '{NONE}'.")
    if faults or not keys:
        return (), " ".join(faults) or "Nothing was said."
    return tuple(choice.key for choice in every if choice.key in keys), ""


def choose_some(choices: Sequence[Choice]) -> tuple[str, ...] | str:
    """Ask which of numbered answers are so until that is said.

    Parameters
    ----------
    choices : sequence of Choice
        In the order they are numbered; none of these is added as the last.

    Returns
    -------
    tuple of str, or str
        Keys in the order of the choices, or :data:`NONE` alone; or :data:`BACK`,
        :data:`WHY`, :data:`QUIT`, :data:`UNSURE`; :data:`QUIT` at the end of what is given.
    """
    for place, choice in enumerate([*choices, Choice(NONE, NONE)], 1):
        told(choice.says, f"  {place}  ", "     ")
    click.echo("  d don't know   b back   w why do you ask   q quit")
    while True:
        line = heard_line("> ")
        if line is None:
            return QUIT
        word = _SHORT.get(line.lower(), line.lower())
        if word in {BACK, WHY, QUIT, UNSURE}:
            return word
        keys, fault = named_in(line, choices)
        if not fault:
            return keys
        last = len(choices) + 1
        told(f"{fault} Give every number that is so, such as '1 4', or {last} for none.")

"""'Did you mean': the nearest name to one that was not found."""

from __future__ import annotations

from difflib import get_close_matches
from functools import lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Collection

__all__ = ["meant", "nearest", "quoted", "spelled"]

_LONGEST = 40


def quoted(text: str) -> str:
    """Return a text in quotation marks, cut where it would swamp a message.

    Parameters
    ----------
    text : str
        What a user wrote.

    Returns
    -------
    str
        Such as ``"'66,7 mm'"``.
    """
    return f"'{text}'" if len(text) <= _LONGEST else f"'{text[:_LONGEST]}…'"


def nearest(word: str, among: Collection[str]) -> str:
    """Return the name that was probably meant, or a blank.

    Parameters
    ----------
    word : str
        What was written.
    among : collection of str
        What could have been written.

    Returns
    -------
    str
        The nearest of ``among``, capitals disregarded; blank where none is near.
    """
    by_small = {name.lower(): name for name in among}
    small = word.lower()
    if small in by_small:
        return by_small[small]
    close = get_close_matches(small, by_small, n=1) if len(word) <= _LONGEST else []
    return by_small[close[0]] if close else ""


def meant(word: str, among: Collection[str]) -> str:
    """Return ``"did you mean 'burner'? "``, or a blank where nothing is near.

    Parameters
    ----------
    word : str
        What was written.
    among : collection of str
        What could have been written.

    Returns
    -------
    str
        The question with a blank behind it, to be put before the rest of a cure.
    """
    name = nearest(word, among)
    return f"did you mean '{name}'? " if name else ""


def spelled(word: str, among: Collection[str]) -> str:
    """Return a name as the book spells it; capitals, dashes and blanks do not matter.

    Parameters
    ----------
    word : str
        What was written.
    among : collection of str
        What could have been written; looked up in no time where it is exactly there.

    Returns
    -------
    str
        The name; blank where there is none, or more than one.
    """
    if word in among:
        return word
    names = _by_plain_name(tuple(among)).get(_plain(word), ())
    return names[0] if len(names) == 1 else ""


_DASHES = str.maketrans(dict.fromkeys("-\u2010\u2011\u2012\u2013\u2014\u2212", ""))


def _plain(word: str) -> str:
    return "".join(word.split()).casefold().translate(_DASHES)


@lru_cache(8)
def _by_plain_name(among: tuple[str, ...]) -> dict[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for name in among:
        found[_plain(name)] = (*found.get(_plain(name), ()), name)
    return found

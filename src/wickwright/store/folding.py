"""Texts made alike, so that a search does not stumble over capitals and accents."""

from __future__ import annotations

import unicodedata
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from wickwright.answers.sheet.call_record import Caller, Said

__all__ = ["folded", "parts_of", "search_text", "search_words"]

_MOST_WORDS = 16


def folded(text: str) -> str:
    """Return a text without capitals, accents and outer blanks.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    str
        The same for texts that differ only in these.
    """
    if text.isascii():
        return " ".join(text.lower().split())
    apart = unicodedata.normalize("NFKD", text.casefold())
    bare = "".join(sign for sign in apart if not unicodedata.combining(sign))
    return " ".join(unicodedata.normalize("NFKC", bare.casefold()).split())


def parts_of(said: Said) -> frozenset[str]:
    """Return every part that stands on a sheet, as written there."""
    return frozenset((*said.have, *said.lost, *said.route))


def search_text(caller: Caller, said: Said) -> str:
    """Return everything a call is found by.

    Parameters
    ----------
    caller : Caller
        Who called; only the name is looked for.
    said : Said
        What stands on the sheet.

    Returns
    -------
    str
        Folded; numbers of lamps and parts stand with and without their dashes.
    """
    numbers = [folded(one) for one in (said.lamp, *sorted(parts_of(said)))]
    bare = ["".join(sign for sign in one if sign.isalnum()) for one in numbers]
    return "\n".join((folded(caller.name), folded(said.words), *numbers, *bare))


def search_words(text: str) -> tuple[str, ...]:
    """Return the words that a call has to hold, each anywhere.

    Parameters
    ----------
    text : str
        As typed into the search.

    Returns
    -------
    tuple of str
        Folded; the first 16, for nobody remembers more of a call.
    """
    return tuple(folded(text).split()[:_MOST_WORDS])

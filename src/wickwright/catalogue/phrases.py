"""How near what somebody says is to a phrase, word by word; endings and slips allowed for."""

from __future__ import annotations

import re
from difflib import SequenceMatcher
from functools import lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

__all__ = ["likeness"]

_WORD = re.compile(r"[a-z']+")
_SMALL = frozenset(
    [
        *("a", "an", "and", "any", "are", "as", "at", "be", "been", "but", "by", "do", "does"),
        *("even", "for", "from", "get", "gets", "got", "has", "have", "he", "i", "in", "is"),
        *("it", "it's", "its", "just", "lamp", "lamps", "me", "my", "of", "on", "or", "our"),
        *(
            "can",
            "could",
            "like",
            "need",
            "please",
            "she",
            "since",
            "so",
            "than",
            "that",
            "the",
            "there",
            "they",
            "this",
            "to",
            "too",
        ),
        *("very", "was", "want", "wants", "we", "when", "will", "with", "would", "you"),
    ]
)
_ALIKE = 0.8


def likeness(text: str, phrases: Iterable[str]) -> float:
    """Return how near what was said is to the nearest of some phrases.

    Parameters
    ----------
    text : str
        What was said.
    phrases : iterable of str
        Phrases of one meaning.

    Returns
    -------
    float
        0 to 1: the harmonic mean of how much of the phrase was said and how much of what was
        said the phrase holds, small words left out [-].
    """
    said = _words(text)
    return max((_likeness(said, _words(phrase)) for phrase in phrases), default=0.0)


@lru_cache(maxsize=4_096)
def _words(text: str) -> tuple[str, ...]:
    found = _WORD.findall(text.lower().replace("\N{RIGHT SINGLE QUOTATION MARK}", "'"))
    return tuple(word for word in found if word not in _SMALL) or tuple(found)


@lru_cache(maxsize=65_536)
def _alike(one: str, other: str) -> float:
    """Return how alike two words are, endings apart [-]."""
    shorter = min(len(one), len(other))
    if shorter > 3 and one[: shorter - 1] == other[: shorter - 1]:  # noqa: PLR2004 - a stem
        return 1.0
    if 2 * shorter < _ALIKE * (len(one) + len(other)):
        return 0.0
    same = sum(min(one.count(letter), other.count(letter)) for letter in {*one})
    if 2 * same < _ALIKE * (len(one) + len(other)):
        return 0.0
    ratio = SequenceMatcher(None, one, other).ratio()
    return ratio if ratio >= _ALIKE else 0.0


def _likeness(said: tuple[str, ...], phrase: tuple[str, ...]) -> float:
    """Return how much of a phrase was said, and of what was said the phrase holds [-]."""
    if not said or not phrase:
        return 0.0
    told = sum(max(_alike(word, other) for other in said) for word in phrase) / len(phrase)
    heard = sum(max(_alike(word, other) for other in phrase) for word in said) / len(said)
    return 0.0 if told + heard == 0.0 else 2.0 * told * heard / (told + heard)

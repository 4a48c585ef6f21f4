"""How near what somebody says is to a phrase, word by word; endings and slips allowed for."""

from __future__ import annotations

import re
from difflib import SequenceMatcher
from functools import lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

__all__ = ["known_again", "likeness"]

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
        *("about", "good", "hello", "hi", "how", "morning", "tell", "thank", "thanks", "what"),
        *("very", "was", "want", "wants", "we", "when", "will", "with", "would", "you"),
    ]
)
_ALIKE = 0.8
_ENDINGS = frozenset(
    ["", "d", "e", "ed", "en", "ens", "er", "ers", "es", "ing", "ings", "ly", "s", "st", "t", "y"]
)
_SHORT = 5
"""A word of so few letters is another word by one slip at either end."""


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
        said the phrase holds, small words left out [-]. 0 where no word of the phrase is known
        again: a short word with a slip at its beginning or end says nothing by itself.
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
    if _one_stem(*sorted((one, other), key=len)):
        return 1.0
    shorter = min(len(one), len(other))
    slip_at_end = shorter > 3 and one[: shorter - 1] == other[: shorter - 1]  # noqa: PLR2004
    least = _ALIKE if slip_at_end else 0.0
    if 2 * shorter < _ALIKE * (len(one) + len(other)):
        return least
    same = sum(min(one.count(letter), other.count(letter)) for letter in {*one})
    if 2 * same < _ALIKE * (len(one) + len(other)):
        return least
    ratio = SequenceMatcher(None, one, other).ratio()
    return ratio if ratio >= _ALIKE else least


def _one_stem(shorter: str, longer: str) -> bool:
    """Tell whether two words are one but for their endings: crack and cracked, smoke and smoky."""
    if shorter == longer:
        return True
    if len(shorter) < 4:  # noqa: PLR2004 - too short for a stem
        return False
    long_enough = len(shorter) >= _SHORT
    if longer.startswith(shorter):
        return long_enough or longer[len(shorter) :] in _ENDINGS
    last, rest = shorter[-1], longer[len(shorter) - 1 :]
    silent = last == "e" and len(longer) > len(shorter)
    return longer.startswith(shorter[:-1]) and {last, rest} <= _ENDINGS and (long_enough or silent)


def known_again(word: str, other: str) -> bool:
    """Tell whether one word stands for another even if no other word does."""
    alike = _alike(word, other)
    if alike in (0.0, 1.0):
        return alike == 1.0
    short = min(len(word), len(other)) <= _SHORT
    return not short or (word[0], word[-1]) == (other[0], other[-1])


def _likeness(said: tuple[str, ...], phrase: tuple[str, ...]) -> float:
    """Return how much of a phrase was said, and of what was said the phrase holds [-]."""
    if not any(known_again(word, other) for word in said for other in phrase):
        return 0.0
    told = sum(max(_alike(word, other) for other in said) for word in phrase) / len(phrase)
    heard = sum(max(_alike(word, other) for other in phrase) for word in said) / len(said)
    return 0.0 if told + heard == 0.0 else 2.0 * told * heard / (told + heard)

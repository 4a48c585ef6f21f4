"""A caller's own words beside the complaints of the book: offered, never taken silently."""

from __future__ import annotations

import re
from dataclasses import dataclass
from difflib import SequenceMatcher
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wickwright.catalogue.call_records import CallBook, Complaint

__all__ = ["Meant", "complaints_meant"]

_WORD = re.compile(r"[a-z']+")
_SMALL = frozenset(
    [
        *("a", "an", "and", "any", "are", "as", "at", "be", "been", "but", "by", "do", "does"),
        *("even", "for", "from", "get", "gets", "got", "has", "have", "he", "i", "in", "is"),
        *("it", "it's", "its", "just", "lamp", "lamps", "me", "my", "of", "on", "or", "our"),
        *("she", "since", "so", "than", "that", "the", "there", "they", "this", "to", "too"),
        *("very", "was", "we", "when", "will", "with", "you"),
    ]
)
_ALIKE = 0.8
_LEAST = 0.3


@dataclass(frozen=True, slots=True)
class Meant:
    """A complaint a caller may mean, and how well the words go with it, 0 to 1 [-]."""

    complaint: Complaint
    likeness: float


def _words(text: str) -> list[str]:
    found = _WORD.findall(text.lower().replace("\N{RIGHT SINGLE QUOTATION MARK}", "'"))
    return [word for word in found if word not in _SMALL] or found


def _alike(one: str, other: str) -> float:
    """Return how alike two words are, endings apart [-]."""
    shorter = min(len(one), len(other))
    if shorter > 3 and one[: shorter - 1] == other[: shorter - 1]:  # noqa: PLR2004 - a stem
        return 1.0
    ratio = SequenceMatcher(None, one, other).ratio()
    return ratio if ratio >= _ALIKE else 0.0


def _likeness(said: list[str], phrase: list[str]) -> float:
    """Return how much of a phrase was said, and of what was said the phrase holds [-]."""
    if not said or not phrase:
        return 0.0
    told = sum(max(_alike(word, other) for other in said) for word in phrase) / len(phrase)
    heard = sum(max(_alike(word, other) for other in phrase) for word in said) / len(said)
    return 0.0 if told + heard == 0.0 else 2.0 * told * heard / (told + heard)


def _phrases(complaint: Complaint) -> Iterable[str]:
    yield complaint.id.replace("-", " ")
    yield complaint.says
    yield from complaint.words


def complaints_meant(calls: CallBook, text: str) -> tuple[Meant, ...]:
    """Return the complaints a caller's words may mean.

    Parameters
    ----------
    calls : CallBook
        The call tables of the book.
    text : str
        What the caller said.

    Returns
    -------
    tuple of Meant
        Best first, equals in the order of the book; empty where nothing is near. Whoever asks
        shows them and lets a person choose.
    """
    said = _words(text)
    found = [
        Meant(one, max(_likeness(said, _words(phrase)) for phrase in _phrases(one)))
        for one in calls.complaints.values()
    ]
    near = [meant for meant in found if meant.likeness >= _LEAST]
    return tuple(sorted(near, key=lambda meant: -round(meant.likeness, 9)))

"""Dangers that stand in a caller's own words, so that they are asked before anything else.

Hearing one too many costs a question; passing one over can cost a life. So a word counts as
said unless it is plainly denied, and nothing heard here is ever taken for a 'no'.
"""

from __future__ import annotations

import re
from functools import lru_cache
from hashlib import sha256
from typing import TYPE_CHECKING, Final

from wickwright.catalogue.phrases import known_again
from wickwright.cause.case import Spoken
from wickwright.cause.danger_words import ASKS, NO_DOUBT

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from wickwright.catalogue.call_records import CallBook
    from wickwright.cause.case import Event

__all__ = ["not_heard_yet", "spoken_of"]

_CLAUSE: Final = re.compile(r"[.!;:,\n\r()]+|(?<=\?)|\b(?:and|but|though|although|yet)\b")
_WORD: Final = re.compile(r"[^\W\d_]+")
_SHORTENED: Final = re.compile(
    r"\b(do|does|did|is|are|was|were|has|have|had|ca|wo|would|could|should)n['\u2019]?t\b"
)
_FILLERS: Final = frozenset(
    [
        *("a", "an", "any", "the", "has", "have", "had", "is", "are", "was", "been", "being", "be"),
        *("feel", "feels", "felt", "feeling", "get", "gets", "got", "one", "of", "us", "sign"),
        *("signs", "ever", "use", "used", "put", "we", "body"),
    ]
)
_NEGATORS: Final = frozenset(["no", "not", "never", "without", "nobody", "none", "nor", "neither"])
_DOUBT: Final = frozenset(
    [
        *("any", "anymore", "more", "longer", "now", "today", "much", "lot", "always", "often"),
        *("every", "only", "just", "unless", "until", "except", "if", "when", "while", "why"),
        *("whether", "sure", "know", "could", "can", "should", "would", "may", "might", "how"),
        *("maybe", "perhaps", "think", "really", "almost", "quite", "else", "because", "so"),
    ]
)
"""Words beside which a denial is not plain: 'not leaking now', 'no leak unless it is full'."""
_UNCERTAIN: Final = _DOUBT - {"now", "when", "while", "because", "so", "just", "today", "always"}
"""Words beside which a thing is not plainly said to be so."""
_ARTICLES: Final = frozenset(["a", "an", "the", "my", "our", "it", "is", "are", "on", "of", "to"])
_OF_EVERY_LAMP: Final = frozenset(["flame", "flames"])
"""Words that are no slip for another."""
_STEM: Final = 4
_LONGEST_ENDING: Final = 4
_TYPO: Final = 6


def spoken_of(text: str, calls: CallBook | None = None) -> tuple[Spoken, ...]:
    """Return the dangers that somebody's words speak of.

    Parameters
    ----------
    text : str
        What the caller said, or what an adviser noted of it.
    calls : CallBook, optional
        The call tables of the book, whose words are heard beside those of the program.

    Returns
    -------
    tuple of Spoken
        In the order they were said, each danger once in a clause. A danger that is plainly
        denied ('no headache', 'it does not leak') is left out; in doubt it is there.
    """
    phrases = _phrases(calls)
    found = (one for clause in _clauses(text) for one in _in_clause(clause, phrases))
    return tuple(dict.fromkeys(found))


def not_heard_yet(spoken: Iterable[Spoken], events: Iterable[Event]) -> tuple[Spoken, ...]:
    """Return what was said and does not stand among the events of a case."""
    known = {(one.danger, one.mark) for one in events if isinstance(one, Spoken)}
    return tuple(one for one in spoken if (one.danger, one.mark) not in known)


def _phrases(calls: CallBook | None) -> Mapping[str, tuple[str, ...]]:
    """Return the phrases of each danger: the program's own, and those of a book."""
    found: dict[str, list[str]] = {danger: list(phrases) for danger, phrases in ASKS.items()}
    if calls is not None:
        for sign in calls.signs.values():
            if sign.danger in found:
                found[sign.danger] += sign.words
        for complaint in calls.complaints.values():
            sign_of = calls.signs.get(complaint.sign)
            if sign_of is not None and sign_of.danger in found:
                found[sign_of.danger] += (complaint.says, *complaint.words)
    return {danger: tuple(dict.fromkeys(phrases)) for danger, phrases in found.items()}


def _clauses(text: str) -> Iterator[str]:
    plain = text.lower().replace("cannot", "ca not").replace("no one", "nobody")
    whole = _SHORTENED.sub(r"\1 not", plain)
    for part in _CLAUSE.split(whole):
        if clause := " ".join(part.split()):
            yield clause


def _in_clause(clause: str, phrases: Mapping[str, tuple[str, ...]]) -> Iterator[Spoken]:
    words = tuple(_WORD.findall(clause))
    asks = "?" in clause
    for danger, known in phrases.items():
        if any(_said(phrase, words, asks=asks) for phrase in known):
            sure = not asks and not _UNCERTAIN & {*words} and _no_doubt(danger, words)
            yield Spoken(danger, sha256(" ".join(words).encode()).hexdigest()[:12], sure, clause)


def _said(phrase: str, words: tuple[str, ...], *, asks: bool) -> bool:
    """Tell whether every word of a phrase stands in a clause, and it is not plainly denied."""
    places = [_place(word, words) for word in _telling(phrase)]
    if not places or None in places:
        return False
    at = [place for place in places if place is not None]
    return asks or not _denied(at, words)


@lru_cache(maxsize=1_024)
def _telling(phrase: str) -> tuple[str, ...]:
    """Return the words of a phrase that tell something."""
    words = _WORD.findall(phrase.lower().replace("cannot", "not"))
    return tuple(word for word in words if word not in _ARTICLES and word not in {"does", "and"})


@lru_cache(maxsize=65_536)
def _is(word: str, said: str) -> bool:
    """Tell whether a word was said, with another ending or a slip."""
    if said == word:
        return True
    if len(word) < _STEM:
        return said in {f"{word}s", f"{word}es"}
    stem = word[:-1] if word[-1] in "ey" else word
    if said.startswith(stem) and said[len(stem) :] in _ENDINGS:
        return True
    if said.startswith(word) and len(said) - len(word) <= _LONGEST_ENDING:
        return True
    slipped = min(len(word), len(said)) >= _TYPO and word[0] == said[0]
    slipped = slipped and said not in _OF_EVERY_LAMP
    return slipped and known_again(word, said)


_ENDINGS: Final = frozenset(["e", "y", "ed", "es", "ing", "ies", "ied", "er", "iness"])


def _place(word: str, words: Sequence[str]) -> int | None:
    return next((at for at, said in enumerate(words) if _is(word, said)), None)


def _denied(places: Sequence[int], words: tuple[str, ...]) -> bool:
    """Tell whether a negation stands straight before one of the words, and nothing beside it."""
    if _DOUBT & {*words[max(places) :]} or _DOUBT & {*words[: min(places)]} - {"any"}:
        return False
    return any(_negator_before(place, words) not in {None, *places} for place in places)


def _negator_before(place: int, words: tuple[str, ...]) -> int | None:
    for at in range(place - 1, -1, -1):
        if words[at] in _NEGATORS:
            return None if words[at] == "no" and _is_verb(words[at + 1 : place]) else at
        if words[at] not in _FILLERS:
            return None
    return None


def _is_verb(between: Sequence[str]) -> bool:
    """Tell whether what stands after a 'no' begins a sentence of its own: 'no we have a leak'."""
    return bool({*between} & {"we", "is", "are", "was", "has", "have", "had"})


def _no_doubt(danger: str, words: tuple[str, ...]) -> bool:
    told = f" {' '.join(words)} "
    return any(f" {phrase} " in told for phrase in NO_DOUBT.get(danger, ()))

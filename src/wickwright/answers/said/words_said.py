"""What a caller's words say that broke or is gone."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from wickwright.answers.said.kind_words import KIND_WORDS
from wickwright.catalogue.phrases import likeness

if TYPE_CHECKING:
    from collections.abc import Iterator


__all__ = ["broken_by_words", "clauses_of"]

_CLAUSE: Final = re.compile(r"[.!?;,\n\r]+|\b(?:and|also|plus|but|then)\b", re.IGNORECASE)
_BROKE: Final = (
    *("broke", "broken", "cracked", "shattered", "smashed", "lost", "gone", "missing", "tore"),
    *("torn", "fell", "crumbled", "hole", "dropped", "splintered", "stolen"),
)


def clauses_of(text: str) -> tuple[str, ...]:
    """Return what is said one after the other in a caller's words."""
    return tuple(one for part in _CLAUSE.split(text) if (one := " ".join(part.split())))


def broken_by_words(text: str, kind: str) -> str:
    """Return the clause that says that a part of a kind broke or is gone; blank where none does."""
    return next(_broken(text, kind), "")


def _broken(text: str, kind: str) -> Iterator[str]:
    names = (kind, *KIND_WORDS.get(kind, ()))
    for clause in clauses_of(text):
        words = set(re.findall(r"[a-z-]+", clause.lower()))
        named = any(likeness(clause, [name]) > 0.0 for name in names)
        if named and any(words & {how} for how in _BROKE) and not words & {"not", "no", "never"}:
            yield clause

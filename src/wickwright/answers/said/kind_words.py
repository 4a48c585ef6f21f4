"""Callers' words for kinds of part, so that a caller's word can stand where a kind is asked for."""

from __future__ import annotations

from typing import Final

__all__ = ["KIND_WORDS", "kinds_called"]

KIND_WORDS: Final[dict[str, tuple[str, ...]]] = {
    "chimney": ("glass", "funnel", "globe", "lamp-glass", "cylinder", "tube"),
    "shade": ("globe", "hood", "lampshade"),
    "font": ("tank", "fount", "reservoir", "bowl", "vessel", "oil-tank"),
    "mantle": ("sock", "web", "gauze", "stocking"),
    "burner": ("head", "works"),
    "gallery": ("crown", "glass-holder"),
    "holder": ("tripod", "shade-holder", "arms"),
    "spreader": ("thimble", "flame-spreader"),
    "wick": ("cotton",),
    "bell": ("smoke-bell",),
    "bulb": ("light-bulb",),
}
"""By kind (common practice, no published source). A word of two kinds is asked about."""


def kinds_called(word: str) -> tuple[str, ...]:
    """Return the kinds of part that callers call by a word.

    Parameters
    ----------
    word : str
        As typed; one or several of a thing.

    Returns
    -------
    tuple of str
        Keys of the kinds; empty where nobody calls a part so.
    """
    small = word.strip().lower()
    forms = {small, small.removesuffix("s")}
    return tuple(kind for kind, words in KIND_WORDS.items() if forms & {*words})

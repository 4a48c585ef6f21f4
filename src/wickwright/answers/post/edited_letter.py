"""An edited letter and the computed one it was made from: it must not outlive its answer."""

from __future__ import annotations

import hashlib
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from wickwright.answers.sheet.call_record import Said

__all__ = ["is_outlived", "letter_mark"]

_SIGNS = 16


def letter_mark(computed: str) -> str:
    """Return what a computed letter is known again by.

    Parameters
    ----------
    computed : str
        The letter, without the adviser's name, so that a colleague may send it.

    Returns
    -------
    str
        The first sixteen signs of its SHA-256 over its words.
    """
    return hashlib.sha256(" ".join(computed.split()).encode()).hexdigest()[:_SIGNS]


def is_outlived(said: Said, computed: str) -> bool:
    """Tell whether an edited letter was made from another answer than the one in force.

    Parameters
    ----------
    said : Said
        What stands on the sheet.
    computed : str
        The letter as it is computed now, without the adviser's name.

    Returns
    -------
    bool
        False where the letter was not edited.
    """
    return bool(said.reply) and said.reply_from != letter_mark(computed)

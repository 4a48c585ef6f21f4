"""Pictures to compare: 'does yours look like this or like that'."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from wickwright.fit.compiled import Compiled

__all__ = ["look_picture"]


def look_picture(compiled: Compiled, look: str, answer: str) -> str | None:  # noqa: ARG001
    """Draw what an answer to a look would look like.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    look : str
        Short name of the look, of the book's looks.
    answer : str
        One of the values that marks of the book give it.

    Returns
    -------
    str or None
        SVG text; None where nothing true can be drawn.
    """
    return None

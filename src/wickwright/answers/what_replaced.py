"""What replaced a part that is no longer made, and what else must change with it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.answers.which_parts import UnknownNameError
from wickwright.catalogue.spelling import meant, spelled
from wickwright.catalogue.succession import Step, heir, successions

if TYPE_CHECKING:
    from wickwright.catalogue.records import Part
    from wickwright.fit.compiled import Compiled

__all__ = ["Replacement", "what_replaced"]


@dataclass(frozen=True, slots=True)
class Replacement:
    """What became of a part.

    Attributes
    ----------
    part : Part
        The part asked about.
    steps : tuple of Step
        Successions one after the other; empty when nothing replaced it.
    heir : Part or None
        The first successor that can be had.
    """

    part: Part
    steps: tuple[Step, ...]
    heir: Part | None


def what_replaced(compiled: Compiled, part: str) -> Replacement:
    """Follow a part's successions to one that can be had.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    part : str
        Part number.

    Returns
    -------
    Replacement
        Every step, and where it ends.

    Raises
    ------
    UnknownNameError
        When the part is not in the book.
    """
    book = compiled.book
    number = spelled(part, book.parts)
    if not number:
        msg = (
            f"there is no part '{part}' in the fit book: {meant(part, book.parts)}check the number"
        )
        raise UnknownNameError(msg)
    it = book.parts[number]
    return Replacement(it, successions(book, it), heir(book, it))

"""What replaced a part that is no longer made, step by step."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.catalogue.records import Status

if TYPE_CHECKING:
    from wickwright.catalogue.records import Book, Part

__all__ = ["Step", "heir", "successions"]


@dataclass(frozen=True, slots=True)
class Step:
    """One succession.

    Attributes
    ----------
    old, new : Part
        The part replaced and the part that replaced it.
    via : Part or None
        The converter needed because the joint changed.
    """

    old: Part
    new: Part
    via: Part | None

    @property
    def changes_joint(self) -> bool:
        """Whether the new part stands by another joint than the old one."""
        old = {port.joint for port in self.old.stands}
        new = {port.joint for port in self.new.stands}
        return bool(old) and old.isdisjoint(new)


def successions(book: Book, part: Part) -> tuple[Step, ...]:
    """Follow the successions of a part to their end.

    Parameters
    ----------
    book : Book
        A checked book: successions do not run in circles.
    part : Part
        Where to start.

    Returns
    -------
    tuple of Step
        Empty when nothing replaced it.
    """
    steps: list[Step] = []
    while part.successor:
        new = book.parts[part.successor]
        steps.append(Step(part, new, book.parts.get(part.via)))
        part = new
    return tuple(steps)


def heir(book: Book, part: Part) -> Part | None:
    """Return the first successor that is made, or else sold while stocks last.

    Parameters
    ----------
    book : Book
        A checked book.
    part : Part
        Where to start.

    Returns
    -------
    Part or None
        None when every successor is gone too.
    """
    following = [step.new for step in successions(book, part)]
    made = (one for one in following if one.status is Status.MADE)
    left = (one for one in following if one.status is Status.STOCKS and one.stock)
    return next(made, None) or next(left, None)

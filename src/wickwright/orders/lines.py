"""Orders as they were written."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from wickwright.catalogue.faults import Fault

__all__ = ["Line", "Order"]


@dataclass(frozen=True, slots=True)
class Line:
    """One line of an order, as written.

    Attributes
    ----------
    row : int
        Row in the order file.
    part, quantity : str
        Its cells; a blank quantity is 1.
    unread : tuple of Fault
        What cannot be read of its row.
    """

    row: int
    part: str
    quantity: str
    unread: tuple[Fault, ...] = ()


@dataclass(frozen=True, slots=True)
class Order:
    """One order for one lamp in one place.

    Attributes
    ----------
    id : str
        Its number; blank when its rows have none.
    lamp, place : str
        As written; may be blank.
    lines : tuple of Line
        At least one.
    lamps, places : tuple of str
        Every lamp named under its number, and every place named for its lamp, each with its
        first row; empty when there is one only.
    """

    id: str
    lamp: str
    place: str
    lines: tuple[Line, ...]
    lamps: tuple[str, ...] = ()
    places: tuple[str, ...] = ()

    @property
    def row(self) -> int:
        """Row of its first line."""
        return self.lines[0].row

    @property
    def doubtful(self) -> bool:
        """Whether its rows leave open what it is for, or cannot all be read."""
        return bool(self.lamps or self.places) or any(line.unread for line in self.lines)

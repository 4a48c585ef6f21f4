"""A fault in a table: where it is, what is wrong, what to do."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Fault", "RawTable"]


@dataclass(frozen=True, slots=True)
class RawTable:
    """A table as it was read: text cells only.

    Attributes
    ----------
    name : str
        Name of the table, without folder or ending.
    header : tuple of str
        The first row.
    rows : tuple of (int, tuple of str)
        Row number as a spreadsheet shows it (the header is row 1) and its cells.
    unread : tuple of Fault
        Rows and cells below the header that could not be read, where the others stand
        without them; their cells are blank in ``rows``.
    """

    name: str
    header: tuple[str, ...]
    rows: tuple[tuple[int, tuple[str, ...]], ...]
    unread: tuple[Fault, ...] = ()


@dataclass(frozen=True, slots=True, order=True)
class Fault:
    """One fault of a book or an order file.

    Attributes
    ----------
    table : str
        The table or file.
    row : int
        As a spreadsheet shows it; 0 when the whole table is meant.
    column : str
        Blank when the whole row is meant.
    what, cure : str
        What is wrong and what mends it.
    doubt : bool
        True where it may be right after all; the book can be used with it.
    """

    table: str
    row: int
    column: str
    what: str
    cure: str
    doubt: bool = False

"""What a table of a fit book is made of: columns, and what their cells hold."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

__all__ = ["Column", "Holds", "Table"]


class Holds(StrEnum):
    """What a cell of a column holds."""

    KEY = "a number or short name, unique in this table"
    WORD = "one word of a closed list"
    WORDS = "words of a closed list, separated by blanks"
    LINK = "the key of a row in another table"
    LINKS = "keys of rows in another table, separated by blanks"
    TEXT = "any text"
    YEAR = "a year"
    DAY = "a day such as 2026-07-01"
    COUNT = "a whole number, not negative"
    SIGNED = "a whole number"
    NUMBER = "a number, not negative"
    MONEY = "an amount such as 12.50, not negative"
    LENGTH = "a dimension such as 66.7 mm, 2 5/8 in or 66.7 +0.1/-0.2 mm"
    LEVEL = "a height such as 31 mm; 0 mm and negative heights are allowed"


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its name, what it holds, whether it must be filled, and a note."""

    name: str
    holds: Holds
    note: str
    must: bool = False
    of: str = ""  # closed list or linked table


@dataclass(frozen=True, slots=True)
class Table:
    """One table: its name, what a row is, its columns, and whether a book must have it."""

    name: str
    row: str
    columns: tuple[Column, ...]
    must: bool = True

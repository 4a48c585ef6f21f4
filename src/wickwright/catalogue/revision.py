"""Which fit book an answer was given by: a short name made of all that stands in it."""

from __future__ import annotations

import hashlib
from typing import TYPE_CHECKING, Final

from wickwright.catalogue.writing import book_tables

if TYPE_CHECKING:
    from wickwright.catalogue.records import Book

__all__ = ["revision_of"]

_DIGITS: Final = 12


def revision_of(book: Book) -> str:
    """Return the revision of a fit book.

    Parameters
    ----------
    book : Book
        A checked book.

    Returns
    -------
    str
        Twelve hexadecimal digits of the SHA-256 of every cell of its tables as the program
        writes them: equal for a folder and a workbook that hold the same, and different as
        soon as one cell is.
    """
    digest = hashlib.sha256()
    for table in book_tables(book):
        for row in ((table.name,), table.header, *(cells for _, cells in table.rows)):
            for cell in row:
                digest.update(f"{len(cell)}:{cell}".encode())
            digest.update(b"\n")
    return digest.hexdigest()[:_DIGITS]

"""Keys and titles of one table of a book, read fast for the completion of what is typed."""

from __future__ import annotations

import csv
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

__all__ = ["read_names"]

_TITLES = {"lamps": "name", "parts": "name", "wishes": "title"}
_KEYS = {"lamps": "lamp", "parts": "part", "wishes": "wish"}


def read_names(path: Path, table: str) -> tuple[tuple[str, str], ...]:
    """Read the keys of a table and what they stand for.

    Parameters
    ----------
    path : Path
        The book. Only folders of CSV files are looked into: a workbook takes too long to
        open while someone waits for a key stroke.
    table : str
        ``lamps``, ``parts`` or ``wishes``.

    Returns
    -------
    tuple of (str, str)
        Key and title, each key once; none where the book cannot be read.
    """
    found: dict[str, str] = {}
    try:
        with (path / f"{table}.csv").open(encoding="utf-8-sig", newline="") as file:
            for row in csv.DictReader(file):
                key = (row.get(_KEYS[table]) or "").strip()
                if key and not key.startswith("#"):
                    found.setdefault(key, (row.get(_TITLES[table]) or "").strip())
    except (OSError, ValueError, csv.Error):
        return ()
    return tuple(found.items())

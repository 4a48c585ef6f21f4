"""The table of towns that comes with the program, read when the first town is asked for."""

from __future__ import annotations

import gzip
import zlib
from functools import lru_cache
from typing import TYPE_CHECKING

from wickwright.answers.places.town_table import town_table
from wickwright.store.file_faults import file_fault, no_file_fault, unreadable

if TYPE_CHECKING:
    from pathlib import Path

    from wickwright.answers.places.town_table import TownTable
    from wickwright.catalogue.faults import Fault

__all__ = ["TABLES", "read_towns"]

TABLES = ("towns.tsv.gz", "regions.tsv.gz", "countries.tsv.gz")
"""Files of the table, in the order they are made into one."""
_ANEW = "install the program again: this file comes with it"


@lru_cache(maxsize=2)
def read_towns(folder: Path) -> TownTable | tuple[Fault, ...]:
    """Read the table of towns; once in a run, however often it is asked for.

    Parameters
    ----------
    folder : Path
        Where its three files are.

    Returns
    -------
    TownTable or tuple of Fault
        The table; or everything that is wrong with its files.
    """
    read = [_text(folder / name) for name in TABLES]
    faults = tuple(one for one in read if not isinstance(one, str))
    towns, regions, countries = (one if isinstance(one, str) else "" for one in read)
    if faults:
        return faults
    try:
        return town_table(towns, regions, countries)
    except ValueError:
        return (file_fault(folder, "a line of the table of towns is not whole", _ANEW),)


def _text(path: Path) -> str | Fault:
    """Return the text of one file, or why it cannot be read."""
    if fault := no_file_fault(path):
        return fault
    try:
        return gzip.decompress(path.read_bytes()).decode()
    except (gzip.BadGzipFile, EOFError, zlib.error, UnicodeDecodeError):
        return file_fault(path, "the file is damaged", _ANEW)
    except OSError as error:
        return unreadable(path, error)

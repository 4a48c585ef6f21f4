"""Faults of a whole file: not there, not readable, too large, not what its name says."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.catalogue.faults import Fault
from wickwright.catalogue.spelling import meant, quoted

if TYPE_CHECKING:
    from pathlib import Path

__all__ = ["MOST_BYTES", "file_fault", "missing", "no_file_fault", "unreadable"]

MOST_BYTES = 500_000_000
"""Larger files are refused."""

_MEGA = 1_000_000


def file_fault(path: Path, what: str, cure: str) -> Fault:
    """Return a fault of a whole file.

    Parameters
    ----------
    path : Path
        The file; its name stands in the fault.
    what, cure : str
        What is wrong and what mends it.

    Returns
    -------
    Fault
        With row 0 and no column.
    """
    return Fault(path.name, 0, "", what, cure)


def missing(path: Path) -> Fault:
    """Return the fault of a file or folder that is not there.

    Parameters
    ----------
    path : Path
        What was looked for.

    Returns
    -------
    Fault
        With the nearest name in the same folder.
    """
    try:
        beside = [other.name for other in path.parent.iterdir()]
    except OSError:
        cure = f"there is no folder '{path.parent}' either: check the path"
        return file_fault(path, f"there is no file or folder {quoted(path.name)}", cure)
    cure = f"{meant(path.name, beside)}check the name and the folder '{path.parent}'"
    return file_fault(path, f"there is no file or folder {quoted(path.name)}", cure)


def unreadable(path: Path, error: OSError) -> Fault:
    """Return the fault of a file the system will not open.

    Parameters
    ----------
    path : Path
        The file.
    error : OSError
        What the system said.

    Returns
    -------
    Fault
        With the system's words.
    """
    why = error.strerror or str(error)
    cure = "check that you may read it and that no other program holds it open"
    return file_fault(path, f"the file cannot be read: {why}", cure)


def no_file_fault(path: Path) -> Fault | None:
    """Return what keeps a file from being read at all.

    Parameters
    ----------
    path : Path
        The file.

    Returns
    -------
    Fault or None
        Missing, a folder, empty, too large; None when it can be read.
    """
    try:
        if path.is_dir():
            cure = "give the path of one file"
            return file_fault(path, f"{quoted(path.name)} is a folder", cure)
        size = path.stat().st_size
    except FileNotFoundError:
        return missing(path)
    except (OSError, ValueError) as error:
        return unreadable(path, error if isinstance(error, OSError) else OSError(str(error)))
    if size == 0:
        cure = "it has no header: export it again, or start from a template"
        return file_fault(path, "the file is empty", cure)
    if size > MOST_BYTES:
        what = f"the file has {size / _MEGA:,.0f} MB; at most {MOST_BYTES / _MEGA:,.0f} are read"
        return file_fault(path, what, "split it, or take out what is not needed")
    return None

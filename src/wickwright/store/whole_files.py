"""Files written whole or not at all.

Every file is first written beside its target under another name. Only when all of them
stand on the disk are they put in place, each in one step of the file system, so that an
interrupted write leaves the old files as they were.
"""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["write_files", "write_folder"]


def _temporary(path: Path) -> Path:
    return path.with_name(f".{path.name}.{os.getpid()}.tmp")


def _write(path: Path, data: bytes) -> None:
    with path.open("wb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def write_files(files: Mapping[Path, bytes]) -> None:
    """Write files whole, replacing those that are there.

    Parameters
    ----------
    files : mapping of Path to bytes
        What to write where. A link is followed; the permissions of an old file are kept.

    Raises
    ------
    OSError
        When the system refuses. Files that were not yet put in place are as before.
    """
    from shutil import copymode  # noqa: PLC0415 - start-up time

    targets = {Path(os.path.realpath(path)): data for path, data in files.items()}
    try:
        for path, data in targets.items():
            _write(_temporary(path), data)
            if path.exists():
                copymode(path, _temporary(path))
        for path in targets:
            _temporary(path).replace(path)
    finally:
        for path in targets:
            _temporary(path).unlink(missing_ok=True)


def write_folder(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write files into a folder, whole.

    Parameters
    ----------
    folder : Path
        Where. A folder that is not there yet appears with all its files at once.
    files : mapping of str to bytes
        Content by file name.

    Raises
    ------
    OSError
        When the system refuses. Files that were not yet put in place are as before.
    """
    if folder.exists():
        write_files({folder / name: data for name, data in files.items()})
        return
    from shutil import rmtree  # noqa: PLC0415 - start-up time

    new = _temporary(folder)
    try:
        new.mkdir()
        for name, data in files.items():
            _write(new / name, data)
        new.replace(folder)
    finally:
        rmtree(new, ignore_errors=True)

"""Where the desk's store is when nobody says so."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["store_place"]

_NAME = "desk.sqlite"


def store_place(named: str, environment: Mapping[str, str]) -> str:
    """Return where the store is.

    Parameters
    ----------
    named : str
        What ``--store`` or ``WICKWRIGHT_STORE`` say: a file, or an address that begins with
        ``postgresql://``; blank where they say nothing.
    environment : mapping of str to str
        ``XDG_DATA_HOME``, else ``LOCALAPPDATA``, else ``HOME`` say where data are kept.

    Returns
    -------
    str
        A file or an address.
    """
    if named:
        return named
    for name in ("XDG_DATA_HOME", "LOCALAPPDATA"):
        if environment.get(name):
            return str(Path(environment[name]) / "wickwright" / _NAME)
    home = environment.get("HOME")
    return str(Path(home) / ".local" / "share" / "wickwright" / _NAME) if home else _NAME

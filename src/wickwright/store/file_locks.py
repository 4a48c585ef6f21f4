"""One writer at a time, in this process and between processes."""

from __future__ import annotations

import os
import sys
import threading
import time
from contextlib import contextmanager
from typing import TYPE_CHECKING, Final

from wickwright.store.errors import StoreError

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

__all__ = ["FileLock", "StoreBusyError"]

_PATIENCE: Final = 30.0
_PAUSE: Final = 0.002
_IN_PROCESS: Final[dict[str, threading.Lock]] = {}


class StoreBusyError(StoreError):
    """Another process keeps the store to itself for too long."""


class FileLock:
    """A lock that holds for a file, whoever opens it.

    Parameters
    ----------
    path : Path
        The lock file; it is made where it is missing, and stays.
    """

    def __init__(self, path: Path) -> None:
        self._path = path
        self._own = _IN_PROCESS.setdefault(os.path.realpath(path), threading.Lock())

    @contextmanager
    def __call__(self) -> Iterator[None]:
        """Hold the lock.

        Raises
        ------
        StoreBusyError
            When another process holds it for half a minute.
        """
        with self._own:
            descriptor = os.open(self._path, os.O_RDWR | os.O_CREAT, 0o600)
            try:
                _wait(descriptor, self._path)
                yield
            finally:
                os.close(descriptor)  # and with it the lock


def _wait(descriptor: int, path: Path) -> None:
    until = time.monotonic() + _PATIENCE
    while not _try(descriptor):
        if time.monotonic() > until:
            msg = (
                f"another program has been writing to '{path.name.removesuffix('-lock')}' for "
                f"{_PATIENCE:.0f} seconds: let its backup or restore end, or stop it"
            )
            raise StoreBusyError(msg)
        time.sleep(_PAUSE)


if sys.platform == "win32":

    def _try(descriptor: int) -> bool:
        import msvcrt  # noqa: PLC0415 - only there

        try:
            msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        return True

else:

    def _try(descriptor: int) -> bool:
        import fcntl  # noqa: PLC0415 - not on Windows

        try:
            fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return False
        return True

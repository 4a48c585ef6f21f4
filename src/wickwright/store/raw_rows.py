"""Rows of any file, counted and squared into a raw table; faults they all share."""

from __future__ import annotations

import gc
from collections import Counter
from contextlib import contextmanager
from typing import TYPE_CHECKING

from wickwright.catalogue.faults import Fault, RawTable
from wickwright.catalogue.headers import column_letter
from wickwright.catalogue.spelling import quoted

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

__all__ = ["PROGRESS_STEP", "Rows", "collector_paused", "header_faults", "trimmed"]

PROGRESS_STEP = 50_000
"""Rows between two words of progress."""

_SHARED_MOST = 100_000  # distinct texts remembered at once, so that equal cells share one text


def trimmed(cells: Sequence[str]) -> tuple[str, ...]:
    """Return the cells up to the last that is not blank.

    Parameters
    ----------
    cells : sequence of str
        A row.

    Returns
    -------
    tuple of str
        The row without its blank end.
    """
    end = len(cells)
    while end and not cells[end - 1]:
        end -= 1
    return tuple(cells[:end])


def header_faults(file: str, header: Sequence[str]) -> list[Fault]:
    """Return what is wrong with a header whatever the file is about.

    Parameters
    ----------
    file : str
        What the faults are said of.
    header : sequence of str
        The first row.

    Returns
    -------
    list of Fault
        A blank header, or names that stand twice.
    """
    names = [name.strip() for name in header]
    if not any(names):
        cure = "the first row must name the columns: move the header up, or write one"
        return [Fault(file, 1, "", "the first row is blank", cure)]
    faults = []
    for name, times in Counter(names).items():
        if name and times > 1:
            letters = [column_letter(at) for at, other in enumerate(names) if other == name]
            what = f"the column {quoted(name)} is there {times} times: {', '.join(letters)}"
            faults.append(Fault(file, 1, name, what, "keep one of them, or rename the others"))
    return faults


@contextmanager
def collector_paused() -> Iterator[None]:
    """Keep Python's collector of cycles from going through a million rows again and again."""
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was:
            gc.enable()


class Rows:
    """Gathers the rows of a file below its header.

    Parameters
    ----------
    file : str
        What faults are said of.
    header : sequence of str
        The first row.
    progress : callable or None
        Told how many rows were read so far.

    Attributes
    ----------
    faults : list of Fault
        What was found.
    """

    def __init__(
        self, file: str, header: Sequence[str], progress: Callable[[int], None] | None = None
    ) -> None:
        self.header = trimmed(header)
        self.faults = header_faults(file, self.header)
        self._file = file
        self._width = len(self.header)
        self._progress = progress
        self._rows: list[tuple[int, tuple[str, ...]]] = []
        self._shared: dict[str, str] = {}

    def add(self, number: int, cells: list[str]) -> None:
        """Add one row, unless it is blank."""
        if self._progress and not number % PROGRESS_STEP:
            self._progress(len(self._rows))
        if not any(cells):
            return
        shared = self._shared
        if len(shared) > _SHARED_MOST:
            shared.clear()
        row = tuple([shared.setdefault(cell, cell) for cell in cells])
        if len(row) != self._width:
            row = self._fit(row)
        if row == self.header:
            self._again(number)
        self._rows.append((number, row))

    def _again(self, number: int) -> None:
        what = "the header stands here a second time"
        cure = "take this row out; were two files joined?"
        self.faults.append(Fault(self._file, number, "", what, cure))

    def _fit(self, row: tuple[str, ...]) -> tuple[str, ...]:
        """Fill a short row up; cut a blank end off a long one, but no filled cell."""
        width = self._width
        if len(row) < width:
            return row + ("",) * (width - len(row))
        return row[: max(width, len(trimmed(row)))]

    def extend(self, rows: Iterable[list[str]], start: int = 2) -> None:
        """Add rows that follow one another."""
        for number, cells in enumerate(rows, start):
            self.add(number, cells)

    def table(self, name: str, *, sparing: bool = False) -> RawTable | tuple[Fault, ...]:
        """Return the table, or what is wrong.

        Parameters
        ----------
        name : str
            Of the table.
        sparing : bool
            Whether a fault below the header spares the rows that have none.

        Returns
        -------
        RawTable or tuple of Fault
            With ``sparing``, faults below the header go with the table.
        """
        if self._progress:
            self._progress(len(self._rows))
        unread = tuple(fault for fault in self.faults if sparing and fault.row > 1)
        if len(unread) < len(self.faults):
            return tuple(self.faults)
        return RawTable(name, self.header, tuple(self._rows), unread)

"""Readings from the bench, from their file to what they say about a burner."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.burn.calibrating import calibrate
from wickwright.burn.readings import Reading, read_readings
from wickwright.catalogue.faults import Fault
from wickwright.cli.desk import UnusableError, fault_line

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from wickwright.burn.calibrating import Calibration
    from wickwright.catalogue.records import Book
    from wickwright.cli.desk import Desk

__all__ = ["calibration_of"]


def calibration_of(desk: Desk, book: Book, path: Path) -> Calibration:
    """Fit a burner's figures to a file of readings.

    Parameters
    ----------
    desk : Desk
        The settings of the run.
    book : Book
        The fit book the lamps are in.
    path : Path
        A .csv, .xlsx or .parquet file.

    Returns
    -------
    Calibration
        What the readings say.

    Raises
    ------
    UnusableError
        With every fault of the file, by row and column.
    BurnError
        When the readings are of several burners.
    """
    raw = desk.shelf.read_orders(path, None)
    read = raw if isinstance(raw, tuple) else read_readings(raw, book)
    faults = [one for one in read if isinstance(one, Fault)]
    if faults:
        raise UnusableError(_refusal(path, faults))
    return calibrate([one for one in read if isinstance(one, Reading)])


def _refusal(path: Path, faults: Sequence[Fault]) -> str:
    lines = [fault_line(fault) for fault in faults]
    return "\n  ".join([f"the readings '{path}' cannot be used:", *lines])

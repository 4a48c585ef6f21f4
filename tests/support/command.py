"""The command line called in this process, with its output in hand."""

from __future__ import annotations

import io
import os
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import dataclass
from pathlib import Path
from unittest import mock

from wickwright import app

__all__ = ["DEMO_BOOK", "DEMO_ORDERS", "DEMO_READINGS", "Said", "said"]

DEMO = Path(app.__file__).parent / "data" / "demo"
DEMO_BOOK = DEMO / "book"
DEMO_ORDERS = DEMO / "orders.csv"
DEMO_READINGS = DEMO / "bench_readings.csv"


@dataclass(frozen=True)
class Said:
    """Exit code and what was printed."""

    code: int
    out: str
    err: str


def said(*arguments: str, columns: int = 80, **environment: str) -> Said:
    """Run the command line in a terminal of a width, with nothing set but what is given."""
    own = {name: value for name, value in os.environ.items() if "WICKWRIGHT" not in name}
    out, err = io.StringIO(), io.StringIO()
    wanted = {**own, "COLUMNS": str(columns), "WICKWRIGHT_CACHE": "off", **environment}
    with (
        mock.patch.dict(os.environ, wanted, clear=True),
        redirect_stdout(out),
        redirect_stderr(err),
    ):
        code = app.run(arguments)
    return Said(code, out.getvalue(), err.getvalue())

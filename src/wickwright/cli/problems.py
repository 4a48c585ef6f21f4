"""What cannot be used, for machines: one JSON object on the lines of RFC 9457 (problem details)."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from wickwright.answers.plain.books import plain_fault
from wickwright.answers.which_parts import UnknownNameError
from wickwright.cli.desk import UnusableError
from wickwright.terms.units import UnitsError

if TYPE_CHECKING:
    from wickwright.answers.plain.answers import Plain

__all__ = ["plain_problem"]

_TITLES: tuple[tuple[type[Exception], str, str], ...] = (
    (UnusableError, "not-usable", "What was given cannot be used"),
    (click.UsageError, "bad-arguments", "The command was not understood"),
    (UnknownNameError, "unknown-name", "A name is not in the fit book"),
    (UnitsError, "bad-quantity", "A text is no quantity"),
    (OSError, "file", "A file cannot be read or written"),
    (Exception, "our-mistake", "A mistake in wickwright itself"),
)


def plain_problem(error: Exception, says: str, code: int) -> dict[str, Plain]:
    """Return what is wrong as a problem object.

    Parameters
    ----------
    error : Exception
        What stopped the command.
    says : str
        The same in words, one thing on each line.
    code : int
        Exit code of the command.

    Returns
    -------
    dict
        ``type`` (a short name that does not change), ``title``, ``detail``, ``details`` (its
        lines), ``exit_code``, and ``faults`` of a file where there are any.
    """
    kind, title = next((key, title) for cause, key, title in _TITLES if isinstance(error, cause))
    faults = error.faults if isinstance(error, UnusableError) else ()
    return {
        "type": kind,
        "title": title,
        "detail": says,
        "details": [line.strip() for line in says.splitlines()],
        "exit_code": code,
        "faults": [plain_fault(fault) for fault in faults],
    }

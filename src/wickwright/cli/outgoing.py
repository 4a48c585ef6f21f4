"""What goes out with an answer: the order, the fit sheet and the letter, written to files."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.cli.desk import UnusableError
from wickwright.cli.output import write_bytes
from wickwright.fit.routes import Routes

if TYPE_CHECKING:
    from pathlib import Path

    from wickwright.fit.compiled import Compiled
    from wickwright.fit.routes import Answer
    from wickwright.terms.units import Units

__all__ = ["letter_of", "write_order", "write_sheet"]


def write_sheet(compiled: Compiled, answer: Answer, units: Units, path: Path) -> None:
    """Write the fit sheet of the first way as PDF.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    answer : Answer
        What came of the request.
    units : Units
        What to print in.
    path : Path
        The file.

    Raises
    ------
    UnusableError
        When there are no parts to fit, or the file cannot be written.
    """
    from wickwright.answers.flames.route_flames import all_findings, route_flames  # noqa: PLC0415 - as above
    from wickwright.answers.pictures.lamp_drawing import small_lamp_drawing  # noqa: PLC0415 - as above
    from wickwright.answers.post.fit_sheet import fit_sheet  # noqa: PLC0415 - only for a sheet
    from wickwright.answers.post.printed_sheet import sheet_page  # noqa: PLC0415 - as above
    from wickwright.paper.sheet import sheet_pdf  # noqa: PLC0415 - as above

    found = _sendable(answer, "--sheet")
    route = found.routes[0]
    (flame,) = route_flames(compiled, found.now, [route]).after
    sheet = fit_sheet(compiled, found.now, route, flame, all_findings(route, flame), units)
    drawing = small_lamp_drawing(compiled, found.now, route)
    write_bytes(path, sheet_pdf(sheet_page(sheet, units), drawing))


def write_order(compiled: Compiled, answer: Answer, units: Units, path: Path) -> None:
    """Write the order of the first way as CSV, which ``wickwright check`` reads.

    Parameters
    ----------
    compiled, answer, units, path
        As for :func:`write_sheet`.

    Raises
    ------
    UnusableError
        When there is nothing to send, or the file cannot be written.
    """
    from wickwright.answers.post.order_lines import order_csv, order_lines  # noqa: PLC0415 - see above

    found = _sendable(answer, "--order")
    lines = order_lines(compiled, found.now, found.routes[0], units)
    write_bytes(path, order_csv(lines, units.currency).encode())


def letter_of(compiled: Compiled, answer: Answer, units: Units) -> str:
    """Return the letter to the caller, whatever came of the request."""
    from wickwright.answers.post.reply_without_parts import reply_to  # noqa: PLC0415 - only for one

    return reply_to(compiled, answer, units)


def _sendable(answer: Answer, option: str) -> Routes:
    if not isinstance(answer, Routes):
        msg = f"there are no parts that could be sent: ask without {option} for the reason"
        raise UnusableError(msg)
    if not answer.routes[0].buy:
        msg = f"there is nothing to send: what is there does it; ask without {option}"
        raise UnusableError(msg)
    return answer

"""``wickwright learn``: what closed cases would change in the book, and who signs for it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from wickwright.cli.desk import UnusableError, current_desk, fault_line
from wickwright.cli.options import shared_options
from wickwright.cli.output import echo_json, echo_lines, terminal_width

if TYPE_CHECKING:
    from wickwright.answers.plain.answers import Plain
    from wickwright.catalogue.faults import Fault
    from wickwright.cause.learning import Change, Learned, Scores

__all__ = ["command"]

_SHOWN = 12
_HELP = """What closed cases would change in the fit book's strengths and weights.

CASES holds one closed case a line, as JSON. Nothing takes effect without a name and a reason: with
them the new book is written to a new folder, and the old one stays as it is.

\b
    wickwright learn cases.jsonl
    wickwright learn cases.jsonl --out book-2 --signed-by "A. Lead" --because "a year of calls"
"""


@click.command(help=_HELP, epilog="The options of 'wickwright --help' may stand here too.")
@click.argument("cases", type=click.Path(path_type=Path))
@click.option(
    "--out", type=click.Path(path_type=Path), metavar="PATH", help="New folder or .xlsx workbook."
)
@click.option("--signed-by", "name", default="", metavar="NAME", help="Who answers for it.")
@click.option("--because", "reason", default="", metavar="REASON", help="Why it is right.")
@shared_options()
def command(cases: Path, out: Path | None, name: str, reason: str) -> int:
    """Report what would change; write it where it is signed."""
    from datetime import UTC, datetime  # noqa: PLC0415 - not needed for --help

    from wickwright.cause.closed import read_closed  # noqa: PLC0415 - not needed for --help
    from wickwright.cause.learning import learned_from  # noqa: PLC0415 - as above

    if (name or reason) and out is None:
        msg = "a signature needs --out, the new folder or workbook it is written to"
        raise UnusableError(msg)
    if out is not None and out.exists():
        msg = f"'{out}' is there already: name a new folder or workbook; old books stay readable"
        raise UnusableError(msg)
    desk = current_desk()
    book = desk.read()
    closed, faults = read_closed(_lines(cases), book)
    today = datetime.now(tz=UTC).date()
    click.echo(f"Learning from {len(closed)} cases ...", err=True)
    learned = learned_from(book, closed, today)
    if out is not None:
        from wickwright.catalogue.writing import book_tables  # noqa: PLC0415 - as above
        from wickwright.cause.signing import UnsignedError, signed  # noqa: PLC0415 - as above

        try:
            new = signed(book, learned, name, reason, today)
        except UnsignedError as error:
            raise UnusableError(str(error)) from error
        wrong = desk.shelf.write_tables(out, book_tables(new))
        if wrong:
            raise UnusableError("\n  ".join(map(fault_line, wrong)))
    if desk.json:
        echo_json(_plain(learned, faults, out))
    else:
        echo_lines(_page(learned, faults, out))
    return 1 if faults else 0


def _lines(path: Path) -> list[str]:
    try:
        return path.read_text(encoding="utf-8").splitlines()
    except OSError as error:
        msg = f"'{path}' cannot be read: {error.strerror or error}"
        raise UnusableError(msg) from error
    except UnicodeDecodeError as error:
        msg = f"'{path}' is not text in UTF-8: save it so, one JSON object a line"
        raise UnusableError(msg) from error


def _page(learned: Learned, faults: tuple[Fault, ...], out: Path | None) -> list[str]:
    from wickwright.cli.layout import bullet, paragraph, table  # noqa: PLC0415 - not for --help

    width = terminal_width()
    lines: list[str] = []
    if faults:
        lines += ["Passed over"]
        for fault in faults:
            lines += bullet(fault_line(fault), width)
    counts = ", ".join(f"{kind.value} {count}" for kind, count in learned.confirmed.items())
    lines += paragraph(f"Cases: {counts}.", width)
    if learned.one_sided:
        says = "All that is known was found over the telephone: causes that only a bench finds are "
        lines += paragraph(f"Mind: {says}counted too seldom. Feed the bench's findings in.", width)
    if learned.again:
        says = (
            f"{learned.again} of these were closed by the day this book was last signed, and may "
        )
        lines += paragraph(
            f"Mind: {says}stand in its numbers already. Leave those out, or they count twice.",
            width,
        )
    lines += _score_lines(learned)
    large = sum(change.large for change in learned.changes)
    lines += paragraph(
        f"{len(learned.changes)} numbers change, {large} of them so much that a person has to look "
        "(marked !). The largest:",
        width,
    )
    rows = [_row(change) for change in learned.changes[:_SHOWN]]
    lines += table(rows, width, rights=(2, 3, 4), wrapped=(1,))
    if out is not None:
        return [*lines, f"Signed and written: {out}. The old book is as it was."]
    return [
        *lines,
        *paragraph(
            "Nothing is changed. To put it in force: --out NEW --signed-by NAME --because REASON.",
            width,
        ),
    ]


def _row(change: Change) -> tuple[str, str, str, str, str, str]:
    return (
        change.table,
        f"{change.key} {change.column}",
        f"{change.old * 100:.0f} %",
        f"-> {change.new * 100:.0f} %",
        f"{change.cases:.0f} cases",
        "!" if change.large else "",
    )


def _score_lines(learned: Learned) -> list[str]:
    if learned.before is None or learned.after is None:
        return ["Too few cases to score on cases not learned from."]
    return [
        f"On {learned.before.cases} cases not learned from (0 is best):",
        f"  log score    {learned.before.log:.3f} as it is, {learned.after.log:.3f} as learned",
        f"  Brier score  {learned.before.brier:.3f} as it is, {learned.after.brier:.3f} as learned",
    ]


def _plain_scores(scores: Scores | None) -> Plain:
    if scores is None:
        return None
    return {"cases": scores.cases, "log": scores.log, "brier": scores.brier}


def _plain(learned: Learned, faults: tuple[Fault, ...], out: Path | None) -> Plain:
    from wickwright.answers.plain.books import plain_fault  # noqa: PLC0415 - not needed for --help

    return {
        "confirmed": {kind.value: count for kind, count in learned.confirmed.items()},
        "one_sided": learned.one_sided,
        "again": learned.again,
        "before": _plain_scores(learned.before),
        "after": _plain_scores(learned.after),
        "changes": [
            {
                "table": one.table,
                "key": one.key,
                "column": one.column,
                "old": one.old,
                "new": one.new,
                "cases": one.cases,
                "large": one.large,
            }
            for one in learned.changes
        ],
        "faults": [plain_fault(fault) for fault in faults],
        "written": None if out is None else str(out),
    }

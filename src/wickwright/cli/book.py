"""``wickwright book``: look into a fit book, check it, convert it, compare two."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from wickwright.cli.desk import UnusableError, current_desk, fault_line, read_whole_book
from wickwright.cli.lazy import NearGroup
from wickwright.cli.options import Name, shared_options
from wickwright.cli.output import echo_json, echo_lines, terminal_width

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.answers.plain.answers import Plain
    from wickwright.catalogue.faults import Fault, RawTable
    from wickwright.cli.desk import Desk

__all__ = ["command"]

_FAULTS, _DIFFERENT = 1, 1
_LISTS = (
    *("lamps", "parts", "wishes", "families", "kinds"),
    *("looks", "signs", "complaints", "causes", "remedies"),
)
_EPILOG = "The options of 'wickwright --help' may stand here too."
_ANY_PATH = click.Path(path_type=Path)


@click.group(
    cls=NearGroup,
    epilog="The book is the one named with --book, or the demo book.",
)
@shared_options()
def command() -> None:
    """Look into a fit book, check it, convert it, compare two."""


# -- looking into a book -------------------------------------------------------------------------


@command.command("list", epilog=_EPILOG)
@click.argument("what", type=click.Choice(_LISTS))
@click.option("--kind", help="Only parts, or looks at parts, of this kind, such as chimney.")
@shared_options()
def list_command(what: str, kind: str | None) -> None:
    """List lamps, parts and wishes, or what a call is taken with: looks, signs, causes."""
    from wickwright.cli import book_lists  # noqa: PLC0415 - not needed for --help

    desk = current_desk()
    book = desk.read()
    if kind and what not in ("parts", "looks"):
        msg = "--kind goes with 'parts' and 'looks': wickwright book list parts --kind chimney"
        raise UnusableError(msg)
    rows = book_lists.rows_of(book, what, _kind(kind))
    if desk.json:
        echo_json([{**row} for row in rows])
    else:
        echo_lines(book_lists.list_lines(rows, what, terminal_width()))


def _kind(kind: str | None) -> str:
    """Return the kind as the book spells it."""
    if not kind:
        return ""
    from wickwright.catalogue.records import KINDS  # noqa: PLC0415 - not needed for --help
    from wickwright.catalogue.spelling import meant  # noqa: PLC0415 - not needed for --help

    if kind.lower() in KINDS:
        return kind.lower()
    msg = f"there is no kind '{kind}': {meant(kind, KINDS)}the kinds are {', '.join(KINDS)}"
    raise UnusableError(msg)


@command.command("show", epilog=_EPILOG)
@click.argument("name", metavar="LAMP|PART|NAME", type=Name("lamp or part", "parts"))
@shared_options()
def show_command(name: str) -> None:
    """Show a lamp, a part, or a look, sign, complaint, cause or remedy by its name.

    A part with its figures and its joints as printed, and what fits each of them; a cause with
    what shows it and what cures it.
    """
    from wickwright.answers.book.records import plain_record  # noqa: PLC0415 - not for --help
    from wickwright.catalogue.records import Part  # noqa: PLC0415 - not needed for --help
    from wickwright.cli import call_pages, record_pages  # noqa: PLC0415 - not for --help
    from wickwright.cli.lookup import lamp_or_part  # noqa: PLC0415 - not needed for --help

    desk = current_desk()
    compiled = desk.open()
    units, width = desk.units_of(compiled.book), terminal_width()
    if called := call_pages.named_in_calls(compiled.book, name):
        if desk.json:
            echo_json(call_pages.plain_call(compiled.book, called))
        else:
            echo_lines(call_pages.call_lines(compiled.book, called, width))
        return
    found = lamp_or_part(compiled.book, name, shown=True)
    if desk.json:
        echo_json(plain_record(compiled, found))
    elif isinstance(found, Part):
        echo_lines(record_pages.part_lines(compiled, found, units, width))
    else:
        echo_lines(record_pages.lamp_lines(compiled, found, units, width))


@command.command("print", epilog=_EPILOG)
@click.argument("tables", nargs=-1, metavar="[TABLE]...")
@shared_options()
def print_command(tables: tuple[str, ...]) -> None:
    """Print the tables of the book as text, all or those named."""
    from wickwright.catalogue.columns import TABLES  # noqa: PLC0415 - not needed for --help
    from wickwright.catalogue.spelling import meant  # noqa: PLC0415 - not needed for --help
    from wickwright.catalogue.writing import book_tables  # noqa: PLC0415 - not for --help
    from wickwright.cli.book_lists import table_lines  # noqa: PLC0415 - not for --help

    for name in tables:
        if name not in TABLES:
            msg = f"there is no table '{name}': {meant(name, TABLES)}they are {', '.join(TABLES)}"
            raise UnusableError(msg)
    desk = current_desk()
    chosen = [raw for raw in book_tables(desk.read()) if not tables or raw.name in tables]
    if desk.json:
        echo_json({raw.name: [_row(raw, cells) for _, cells in raw.rows] for raw in chosen})
        return
    for raw in chosen:
        echo_lines([*table_lines(raw, terminal_width()), ""])


def _row(raw: RawTable, cells: Sequence[str]) -> dict[str, Plain]:
    return dict(zip(raw.header, cells, strict=True))


# -- checking and comparing ----------------------------------------------------------------------


@command.command("check", epilog=_EPILOG)
@click.argument("path", required=False, type=_ANY_PATH)
@shared_options()
def check_command(path: Path | None) -> int:
    """Every fault of a fit book, with its place and its cure.

    PATH is a folder or an .xlsx workbook; left out, the book of --book. Each lamp is put
    together as it was sold. Exit code 1 when there is any fault; doubts alone leave it at 0.
    """
    from wickwright.answers.plain.books import plain_fault  # noqa: PLC0415 - not needed for --help
    from wickwright.catalogue.records import Book  # noqa: PLC0415 - not needed for --help
    from wickwright.cli.desk import faults_and_doubts  # noqa: PLC0415 - not for --help

    desk = current_desk()
    path = path or desk.path
    if not path.exists():
        msg = f"there is no file or folder '{path}': check the path"
        raise UnusableError(msg)
    read, found = faults_and_doubts(desk.shelf, path, desk.settings)
    sure = [fault for fault in found if not fault.doubt]
    if desk.json:
        echo_json([plain_fault(fault) for fault in found])
        return _FAULTS if sure else 0
    doubts = [fault for fault in found if fault.doubt]
    width = terminal_width()
    if sure:
        echo_lines(_fault_page(sure, "fault", width))
    if doubts:
        echo_lines([*([""] if sure else []), *_fault_page(doubts, "doubt", width)])
    if not sure and isinstance(read, Book):
        click.echo(
            f"No fault: {len(read.lamps):,} lamps, {len(read.parts):,} parts, "
            f"{len(read.wishes):,} wishes."
        )
    return _FAULTS if sure else 0


_HEADS = {"fault": "what is wrong", "doubt": "what may be wrong"}


def _fault_page(faults: Sequence[Fault], noun: str, width: int) -> list[str]:
    from wickwright.cli.layout import table  # noqa: PLC0415 - not needed for --help

    head = ("table", "row", "column", _HEADS[noun], "what mends it")
    rows = [
        (fault.table, str(fault.row or ""), fault.column, fault.what, fault.cure)
        for fault in faults
    ]
    lines = table([head, *rows], width, indent="", rights=(1,), wrapped=(3, 4))
    return [*lines, "", f"{len(faults):,} {noun}{'' if len(faults) == 1 else 's'}."]


@command.command("compare", epilog=_EPILOG)
@click.argument("old", type=_ANY_PATH)
@click.argument("new", type=_ANY_PATH)
@shared_options()
def compare_command(old: Path, new: Path) -> int:
    """What changed from book OLD to book NEW.

    Exit code 1 when anything did.
    """
    from wickwright.answers.plain.books import plain_change  # noqa: PLC0415 - not needed for --help
    from wickwright.catalogue.compare import compare_books  # noqa: PLC0415 - not for --help
    from wickwright.cli.book_lists import change_lines  # noqa: PLC0415 - not for --help

    desk = current_desk()
    books = [read_whole_book(desk.shelf, path) for path in (old, new)]
    changes = compare_books(*books)
    if desk.json:
        echo_json([plain_change(change) for change in changes])
    elif changes:
        echo_lines(change_lines(changes, terminal_width()))
    else:
        click.echo("The two books say the same.")
    return _DIFFERENT if changes else 0


# -- writing -------------------------------------------------------------------------------------


@command.command("template", epilog=_EPILOG)
@click.argument("path", type=_ANY_PATH)
@shared_options()
def template_command(path: Path) -> None:
    """Write the empty tables of a new book.

    PATH is a new folder of CSV files, or ends in .xlsx for one workbook.
    """
    from wickwright.catalogue.writing import template  # noqa: PLC0415 - not needed for --help

    _refuse_ending(path)
    _refuse_existing(path)
    _write(current_desk(), path, template())
    click.echo(f"Written: {path}. Each column has a note; rows that begin with '# ' are notes.")


@command.command("convert", epilog=_EPILOG)
@click.argument("source", type=_ANY_PATH)
@click.argument("target", type=_ANY_PATH)
@shared_options()
def convert_command(source: Path, target: Path) -> None:
    """Keep the book SOURCE in another form.

    TARGET is a new folder of CSV files, or ends in .xlsx for one workbook.
    """
    from wickwright.catalogue.writing import book_tables  # noqa: PLC0415 - not for --help

    desk = current_desk()
    _refuse_ending(target)
    _refuse_existing(target)
    book = read_whole_book(desk.shelf, source)
    _write(desk, target, book_tables(book))
    click.echo(f"Written: {target}, {len(book.lamps):,} lamps and {len(book.parts):,} parts.")


def _refuse_existing(path: Path) -> None:
    """Never write over a book."""
    if path.exists() and not (path.is_dir() and not any(path.iterdir())):
        msg = f"'{path}' is there already: give a new name, or take it away first"
        raise UnusableError(msg)


def _refuse_ending(path: Path) -> None:
    """Never make a folder that looks like a file."""
    ending = path.suffix.lower()
    if ending != ".xlsx" and any(map(str.isalpha, ending)) and not path.is_dir():
        msg = (
            f"'{path}' ends in '{path.suffix}', and a book is not kept in that form: end it in "
            f".xlsx for a workbook, or name a folder for CSV files, such as '{path.stem}'"
        )
        raise UnusableError(msg)


def _write(desk: Desk, path: Path, tables: Sequence[RawTable]) -> None:
    faults = desk.shelf.write_tables(path, tables)
    if faults:
        lines = "\n  ".join(fault_line(fault) for fault in faults)
        msg = f"'{path}' cannot be written:\n  {lines}"
        raise UnusableError(msg, faults)

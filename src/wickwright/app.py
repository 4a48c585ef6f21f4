"""The ``wickwright`` command: builds the edges, and turns errors into words and exit codes."""

from __future__ import annotations

import os
import sys
from contextlib import contextmanager
from dataclasses import fields
from datetime import UTC, datetime
from functools import partial
from itertools import takewhile
from pathlib import Path
from typing import TYPE_CHECKING

import click

from wickwright.cli.desk import Desk, UnusableError
from wickwright.cli.program import COMPLETE_VARIABLE, program
from wickwright.cli.shelf import Shelf
from wickwright.cli.vault import Vault

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from wickwright.answers.places.town_table import TownTable
    from wickwright.answers.sheet.backup_record import Inventory
    from wickwright.catalogue.faults import Fault, RawTable
    from wickwright.catalogue.records import Book
    from wickwright.cli.shelf import DeskAsked
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.settings import Settings
    from wickwright.store.opening import KeptStore

__all__ = ["main", "run"]

_UNUSABLE, _INTERRUPTED, _PIPE_CLOSED, _OURS = 2, 130, 141, 70
_JSON, _NO_MORE_OPTIONS = "--json", "--"
_LARGE = 2_000
"""Parts from which on verdicts may be kept; below, their module is not even loaded."""

_DATA = Path(__file__).parent / "data"
_DEMO = _DATA / "demo" / "book"
_DEMO_CALLS = _DATA / "demo" / "calls.jsonl"


def main() -> None:
    """Run the command line and leave with its exit code."""
    # One answer is small sums: a second thread costs more than it gives.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    sys.exit(run(sys.argv[1:]))


def run(arguments: Sequence[str]) -> int:
    """Run the command line.

    Parameters
    ----------
    arguments : sequence of str
        Without the name of the program.

    Returns
    -------
    int
        Exit code; messages are on standard error, as JSON when the answer was wanted so.
    """
    plain = _JSON in [*takewhile(lambda word: word != _NO_MORE_OPTIONS, arguments)]
    try:
        code = _called(list(arguments))
        sys.stdout.flush()
    except click.ClickException as error:
        return _say(error, plain=plain)
    except (KeyboardInterrupt, click.Abort):
        return _INTERRUPTED
    except BrokenPipeError:
        _drop_output()
        return _PIPE_CLOSED
    except OSError as error:
        says = f"{error.filename or 'a file'}: {error.strerror or error}"
        return _tell(error, says, _UNUSABLE, plain=plain)
    except Exception as error:  # noqa: BLE001 - the last line of defence; nothing is hidden
        return _refused(error, plain=plain) or _our_fault(error, plain=plain)
    return code if isinstance(code, int) else 0


def _called(arguments: list[str]) -> object:
    """Call the program, or let click answer the shell that asks how a word goes on."""
    desk = Desk(_shelf())
    if COMPLETE_VARIABLE in os.environ:
        return program.main(arguments, "wickwright", complete_var=COMPLETE_VARIABLE, obj=desk)
    try:
        with program.make_context("wickwright", arguments, obj=desk) as context:
            return program.invoke(context)
    except click.exceptions.Exit as ended:
        return ended.exit_code


def _say(error: click.ClickException, *, plain: bool) -> int:
    """Print what is wrong, with the command's usage where that is meant and people read it."""
    if plain:
        return _tell(error, error.format_message(), _UNUSABLE, plain=True)
    try:
        error.show()
    except BrokenPipeError:
        _drop_output()
    return _UNUSABLE


def _tell(error: Exception, says: str, code: int, *, plain: bool) -> int:
    """Print what is wrong on standard error; return the exit code."""
    if plain:
        from wickwright.cli.output import json_text  # noqa: PLC0415 - not needed for --help
        from wickwright.cli.problems import plain_problem  # noqa: PLC0415 - not for --help

        click.echo(json_text(plain_problem(error, says, code)), err=True)
    else:
        click.echo("\n".join(f"Error: {line}" for line in says.splitlines()), err=True)
    return code


def _refused(error: Exception, *, plain: bool) -> int:
    """Print a name or quantity that cannot be used; 0 when the error is none of these."""
    from wickwright.answers.which_parts import UnknownNameError  # noqa: PLC0415 - not for --help
    from wickwright.terms.units import UnitsError  # noqa: PLC0415 - not needed for --help

    if not isinstance(error, UnknownNameError | UnitsError):
        return 0
    return _tell(error, str(error), _UNUSABLE, plain=plain)


def _our_fault(error: Exception, *, plain: bool) -> int:
    """Own up to a mistake in the program."""
    if os.environ.get("WICKWRIGHT_TRACE"):
        raise error
    says = (
        f"a mistake in wickwright itself ({type(error).__name__}: {error}). Please report "
        "it with what you typed; with WICKWRIGHT_TRACE=1 set, the place is shown."
    )
    return _tell(error, says, _OURS, plain=plain)


def _drop_output() -> None:
    """Send what is still in the buffer nowhere, so that Python stays quiet at its end."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, sys.stdout.fileno())


# -- the store, opened only when it is needed -----------------------------------------------------


def _shelf() -> Shelf:
    return Shelf(
        demo=_DEMO,
        read_tables=_read_tables,
        read_orders=_read_orders,
        write_tables=_write_tables,
        compile_book=_compile_book,
        open_desk=_open_desk,
        names=_names,
        towns=_towns,
        vault=Vault(back_up=_back_up, restore=_restore),
    )


def _read_tables(path: Path) -> tuple[RawTable, ...] | tuple[Fault, ...]:
    from wickwright.store.tables import read_tables  # noqa: PLC0415 - not needed for --help

    return read_tables(path)


def _read_orders(
    path: Path, progress: Callable[[int], None] | None
) -> RawTable | tuple[Fault, ...]:
    from wickwright.store.tables import read_orders  # noqa: PLC0415 - not needed for --help

    return read_orders(path, progress)


def _write_tables(path: Path, tables: Sequence[RawTable]) -> tuple[Fault, ...]:
    from wickwright.store.tables import write_tables  # noqa: PLC0415 - not needed for --help

    return write_tables(path, tables)


def _compile_book(book: Book, settings: Settings) -> Compiled:
    if len(book.parts) < _LARGE:
        from wickwright.fit.compiled import compile_book  # noqa: PLC0415 - not for --help

        return compile_book(book, settings)
    from wickwright.store.kept import cache_folder, compile_kept  # noqa: PLC0415 - not for --help

    return compile_kept(book, settings, cache_folder(os.environ))


def _names(path: Path, table: str) -> tuple[tuple[str, str], ...]:
    from wickwright.store.names import read_names  # noqa: PLC0415 - not needed for --help

    return read_names(path, table)


def _towns() -> TownTable | tuple[Fault, ...]:
    from wickwright.store.places import read_towns  # noqa: PLC0415 - not needed for --help

    return read_towns(_DATA / "places")


# -- the desk in a browser ------------------------------------------------------------------------


def _open_desk(asked: DeskAsked, settings: Settings) -> None:
    """Run the desk in a browser; whatever stands against it is told at once."""
    from wickwright.desk.running import CannotRunError, Running  # noqa: PLC0415 - as above
    from wickwright.desk.serve import Supplies, serve  # noqa: PLC0415 - as above
    from wickwright.store.opening import StoreError, open_store  # noqa: PLC0415 - as above
    from wickwright.store.uploads import read_upload  # noqa: PLC0415 - as above
    from wickwright.store.where import store_place  # noqa: PLC0415 - as above

    shelf = _shelf()
    running = Running(**{one.name: getattr(asked, one.name) for one in fields(Running)})
    try:
        serve(
            running,
            Supplies(
                store=open_store(store_place(asked.store or "", os.environ)),
                first_book=partial(_first_book, shelf, asked.book),
                demo_calls=partial(_demo_calls, asked.book),
                compile_book=lambda book: _compile_book(book, settings),
                read_upload=read_upload,
                towns=_towns_or_none,
                say=click.echo,
                open_browser=_show if asked.show else None,
            ),
        )
    except (CannotRunError, StoreError) as error:
        raise UnusableError(str(error)) from error


def _towns_or_none() -> TownTable | None:
    found = _towns()
    return None if isinstance(found, tuple) else found


def _first_book(shelf: Shelf, book: Path | None) -> tuple[Sequence[RawTable], str]:
    """Return the tables of a book without faults, and what it is called."""
    from wickwright.catalogue.faults import RawTable  # noqa: PLC0415 - not needed for --help
    from wickwright.cli.desk import read_whole_book  # noqa: PLC0415 - not needed for --help

    path = book or shelf.demo
    read_whole_book(shelf, path)
    tables = [one for one in _read_tables(path) if isinstance(one, RawTable)]
    return tables, "the demo book of Skerry Lampworks" if book is None else f"the book {path.name}"


def _demo_calls(book: Path | None) -> Sequence[str]:
    return [] if book else _DEMO_CALLS.read_text(encoding="utf-8").splitlines()


def _show(address: str) -> None:
    from webbrowser import open as show  # noqa: PLC0415 - not needed for --help

    show(address)


# -- the desk's store in one file -----------------------------------------------------------------


def _back_up(named: str, path: Path) -> Inventory:
    from wickwright.store.backup import back_up  # noqa: PLC0415 - loads the database

    with _opened(named, as_it_is=True) as store:
        return back_up(store, path, datetime.now(UTC))


def _restore(named: str, path: Path, replace: bool) -> Inventory:  # noqa: FBT001 - as the port has it
    from wickwright.store.backup import restore  # noqa: PLC0415 - loads the database
    from wickwright.store.backup_file import read_backup  # noqa: PLC0415 - as above

    with _refusals():
        read_backup(path)  # before a store is begun for a file that is none
    with _opened(named) as store:
        return restore(store, path, datetime.now(UTC), replace=replace)


@contextmanager
def _opened(named: str, *, as_it_is: bool = False) -> Iterator[KeptStore]:
    from wickwright.store.opening import open_store  # noqa: PLC0415 - loads the database
    from wickwright.store.where import store_place  # noqa: PLC0415 - not needed for --help

    with _refusals():
        store = open_store(store_place(named, os.environ), as_it_is=as_it_is)
        try:
            yield store
        finally:
            store.close()


@contextmanager
def _refusals() -> Iterator[None]:
    """Tell what the store refuses as what the user can mend."""
    from wickwright.store.errors import StoreError  # noqa: PLC0415 - not needed for --help

    try:
        yield
    except StoreError as error:
        raise UnusableError(str(error)) from error

"""``wickwright backup``: all of the desk's store in one file."""

from __future__ import annotations

from pathlib import Path

import click

from wickwright.cli.desk import current_desk
from wickwright.cli.options import shared_options, store_option
from wickwright.cli.output import echo_json, echo_lines, terminal_width

__all__ = ["command"]

_HELP = """Write all of the desk's store into FILE, while desks are open.

Calls, photographs, fit books, people and ledger are written as they stand at one moment, each
table with its count and checksum; who is logged in is left out. An older backup of that name is
replaced once the new one is whole. The same file restores to SQLite and to PostgreSQL.

FILE holds callers' names and addresses: keep it where nobody else reads it. Whoever is erased
later is still in it.
"""


@click.command(help=_HELP, epilog="The options of 'wickwright --help' may stand here too.")
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False))
@store_option
@shared_options()
def command(file: Path, store: str) -> None:
    """Back the store up."""
    from wickwright.answers.sheet.backup_record import plain_inventory  # noqa: PLC0415 - not for --help
    from wickwright.cli.inventory_page import (  # noqa: PLC0415 - not for --help
        inventory_page,
        when,
    )

    desk = current_desk()
    found = desk.shelf.vault.back_up(store, file)
    if desk.json:
        echo_json(plain_inventory(found))
    else:
        did = f"The store {found.store} as of {when(found.made)} is in '{file}':"
        echo_lines(inventory_page(found, did, terminal_width()))

"""``wickwright restore``: a backup put back into the desk's store."""

from __future__ import annotations

from pathlib import Path

import click

from wickwright.cli.desk import current_desk
from wickwright.cli.options import shared_options, store_option
from wickwright.cli.output import echo_json, echo_lines, terminal_width

__all__ = ["command"]

_HELP = """Put the backup FILE into the desk's store, while desks are open.

The backup is first read through and proved; then all of it is written in one step, and counted
and summed up again from the store itself. Whatever goes wrong, the store is left as it was. A
store with anything in it is refused, unless --replace is given. Everybody has to log in again.
Callers who were erased in the store are erased in what is restored, too.
"""


@click.command(help=_HELP, epilog="The options of 'wickwright --help' may stand here too.")
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False))
@click.option("--replace", is_flag=True, help="Put the backup in the place of what is there.")
@store_option
@shared_options()
def command(file: Path, store: str, *, replace: bool) -> None:
    """Restore the store."""
    from wickwright.answers.sheet.backup_record import plain_inventory  # noqa: PLC0415 - not for --help
    from wickwright.cli.inventory_page import (  # noqa: PLC0415 - not for --help
        inventory_page,
        when,
    )

    desk = current_desk()
    found = desk.shelf.vault.restore(store, file, replace)
    if desk.json:
        echo_json(plain_inventory(found))
    else:
        did = f"The store {found.store} holds what '{file}' holds, made {when(found.made)}:"
        echo_lines(inventory_page(found, did, terminal_width()))

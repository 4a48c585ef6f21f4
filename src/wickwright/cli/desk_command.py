"""``wickwright desk``: the desk in a browser."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from wickwright.cli.desk import current_desk
from wickwright.cli.options import shared_options, store_option
from wickwright.cli.shelf import DeskAsked

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["command"]

_HELP = """Open the desk in a browser: calls, the fit book, what goes out.

\b
    wickwright desk
    wickwright desk --host 192.0.2.7 --name desk.lan --first-lead Ingrid \\
        --tls-cert desk.pem --tls-key desk.key

The first runs for whoever sits at this machine, without log-in, and keeps calls in one file.
The second is for many desks: Ingrid logs in once with the secret that is printed, chooses a
password and adds the others. A new store begins with the demo book and calls to try, or with
the book named by --book; later books are loaded in the browser.
"""
_FILE = click.Path(exists=True, dir_okay=False, path_type=Path)


@click.command(help=_HELP, epilog="The options of 'wickwright --help' may stand here too.")
@click.option("--host", default="127.0.0.1", show_default=True, help="Address to listen at.")
@click.option(
    "--port",
    type=click.IntRange(0, 65_535),
    default=8737,
    show_default=True,
    help="Port to listen at; 0 takes one that is free.",
)
@click.option(
    "--name",
    "names",
    multiple=True,
    help="A name browsers call this machine by, such as desk.lan; others are refused.",
)
@store_option
@click.option("--single", is_flag=True, help="Without log-in, though people are known; here only.")
@click.option("--person", default="adviser", show_default=True, help="Who works without log-in.")
@click.option("--desk", default="front", show_default=True, help="Where that one sits.")
@click.option("--first-lead", metavar="NAME", default="", help="Let NAME in as lead, by a secret.")
@click.option("--tls-cert", "certificate", type=_FILE, help="Certificate for HTTPS.")
@click.option("--tls-key", "key", type=_FILE, help="Its key.")
@click.option("--plain-http", "readable", is_flag=True, help="Plain HTTP on a network: readable.")
@click.option("--open", "show", is_flag=True, help="Show it in a browser at once.")
@shared_options()
def command(
    host: str,
    port: int,
    names: Sequence[str],
    store: str,
    single: bool,  # noqa: FBT001 - as click calls it
    person: str,
    desk: str,
    first_lead: str,
    certificate: Path | None,
    key: Path | None,
    readable: bool,  # noqa: FBT001 - as click calls it
    show: bool,  # noqa: FBT001 - as click calls it
) -> None:
    """Run the desk until it is stopped."""
    own = current_desk()
    asked = DeskAsked(
        host=host,
        port=port,
        names=tuple(names),
        store=store,
        single=single,
        person=person,
        desk=desk,
        first_lead=first_lead,
        certificate=certificate,
        key=key,
        readable=readable,
        show=show,
        book=own.book,
        units=own.units,
    )
    own.shelf.open_desk(asked, own.settings)

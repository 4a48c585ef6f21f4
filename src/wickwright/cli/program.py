"""The program itself: its options, and one line of help for each command."""

from __future__ import annotations

import click

from wickwright import __version__
from wickwright.cli.lazy import LazyGroup
from wickwright.cli.options import shared_options

__all__ = ["COMPLETE_VARIABLE", "program"]

COMPLETE_VARIABLE = "_WICKWRIGHT_COMPLETE"
"""Set by the shell that asks how a word goes on."""

_LINES = {
    "desk": "The desk in a browser: calls, the fit book, what goes in the post.",
    "fit": "Which parts to send for this lamp and this wish, and why.",
    "which": "Which lamp a caller has, asking only what changes what is sent.",
    "why": "What is wrong with a lamp, and what to do next, asked step by step.",
    "learn": "What closed cases would change in the book, and who signs for it.",
    "burn": "How a lamp burns where it stands, and what it does to the room.",
    "check": "Every fault of every order in a file, and the order put right.",
    "book": "Look into a fit book, check it, convert it, compare two.",
    "pair": "Whether two parts fit on each other.",
    "replaced": "What replaced a part that is no longer made.",
    "rules": "Every rule, its reason, its source, and what would break it.",
    "backup": "All of the desk's store in one file, while desks are open.",
    "restore": "Put a backup back into the desk's store, and prove it.",
    "completion": "Print the completion script for your shell.",
}

_HELP = """What fits a kerosene mantle lamp, what goes together, what to send, and why.

Begin with 'wickwright book list lamps' and 'wickwright book list wishes'; then, for a lamp
that stands at 1,700 m and needs a new chimney:

\b
    wickwright fit WH-302 renew-chimney --at 1700m

Local codes and licensed practice come first, always.
"""


@click.group(
    cls=LazyGroup,
    help=_HELP,
    epilog="These options may also stand behind the command. "
    "Exit codes: 0 all is well; 1 it cannot be, or faults were found; 2 the request or a file "
    "cannot be used; 3 it depends on something nobody has measured; 4 the search gave up.",
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
)
@shared_options(root=True)
@click.version_option(__version__, prog_name="wickwright")
def program() -> None:
    """Do nothing by itself."""


if isinstance(program, LazyGroup):
    program.lines = _LINES
    program.modules = {"desk": "desk_command"}

"""``wickwright completion``: the script that completes what is typed."""

from __future__ import annotations

import click
from click.shell_completion import get_completion_class

from wickwright.cli.desk import UnusableError
from wickwright.cli.program import COMPLETE_VARIABLE

__all__ = ["command"]

_HELP = """Print the completion script for SHELL: commands, options, lamps, parts and wishes.

\b
    bash   add to ~/.bashrc:   eval "$(wickwright completion bash)"
    zsh    add to ~/.zshrc:    eval "$(wickwright completion zsh)"
    fish   wickwright completion fish > ~/.config/fish/completions/wickwright.fish
"""


@click.command(help=_HELP)
@click.argument("shell", type=click.Choice(["bash", "zsh", "fish"]))
@click.pass_context
def command(ctx: click.Context, shell: str) -> None:
    """Print a completion script."""
    found = get_completion_class(shell)
    if found is None:
        msg = f"no completion is known for {shell}"
        raise UnusableError(msg)
    root = ctx.find_root()
    click.echo(found(root.command, {}, "wickwright", COMPLETE_VARIABLE).source())

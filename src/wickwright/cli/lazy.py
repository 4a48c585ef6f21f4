"""A group of commands that loads the module of a command only when it is called."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

import click
from click.exceptions import NoSuchCommand

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["LazyGroup", "NearGroup"]


class NearGroup(click.Group):
    """A group that answers an unknown command with the nearest ones."""

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Find the command, or say which was probably meant."""
        try:
            return super().resolve_command(ctx, args)
        except NoSuchCommand as error:
            names = self.list_commands(ctx)
            message = f"there is no command '{args[0]}': {_near(args[0], names)}"
            raise click.UsageError(message, ctx=ctx) from error


def _near(name: str, names: list[str]) -> str:
    from wickwright.catalogue.spelling import meant  # noqa: PLC0415 - not needed for --help

    return f"{meant(name, names)}the commands are {', '.join(names)}"


class LazyGroup(NearGroup):
    """A group whose commands are named with one line of help each.

    Parameters
    ----------
    lines : mapping of str to str
        One line of help by command; the command is the ``command`` of the module of its name.
    modules : mapping of str to str
        Names of modules that are called otherwise than their command.
    """

    lines: Mapping[str, str] = {}
    modules: Mapping[str, str] = {}

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 - as click calls it
        """Return the commands in the order they are given."""
        return list(self.lines)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        """Load a command."""
        if cmd_name not in self.lines:
            return None
        module = self.modules.get(cmd_name, cmd_name)
        found = import_module(f"wickwright.cli.{module}").command
        return found if isinstance(found, click.Command) else None

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002
        """Print the commands without loading them."""
        with formatter.section("Commands"):
            formatter.write_dl([*self.lines.items()])

"""``wickwright rules``: every rule the program holds a lamp or an order to."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from wickwright.cli.desk import UnusableError, current_desk
from wickwright.cli.options import shared_options
from wickwright.cli.output import echo_json, echo_lines, terminal_width

if TYPE_CHECKING:
    from wickwright.terms.finding import Rule

__all__ = ["command"]

_HELP = """Every rule: what it says, why, where it comes from, and what would break it.

KEY is the name of one rule, such as draft or joint-plain-foot; a joint's rule comes with its
sketch. With no KEY, all rules; 'wickwright rules --short' gives one line for each.
"""


@click.command(help=_HELP, epilog="The options of 'wickwright --help' may stand here too.")
@click.argument("key", required=False)
@click.option("--short", is_flag=True, help="One line for each rule.")
@shared_options()
def command(key: str | None, short: bool) -> None:  # noqa: FBT001 - as click calls it
    """Print rules."""
    from wickwright.answers import rule_book  # noqa: PLC0415 - not needed for --help
    from wickwright.answers.plain import plain_rule  # noqa: PLC0415 - not needed for --help
    from wickwright.cli.layout import table  # noqa: PLC0415 - not needed for --help
    from wickwright.cli.rule_page import rule_lines  # noqa: PLC0415 - not needed for --help

    rules = [_named(key)] if key else list(rule_book())
    width = terminal_width()
    if current_desk().json:
        echo_json([plain_rule(rule) for rule in rules])
    elif short:
        echo_lines(table([(rule.key, rule.title) for rule in rules], width, wrapped=(1,)))
    else:
        blocks = ["\n".join(rule_lines(rule, width)) for rule in rules]
        click.echo("\n\n".join(blocks))


def _named(key: str) -> Rule:
    from wickwright.answers import rule_book  # noqa: PLC0415 - not needed for --help
    from wickwright.catalogue.spelling import meant  # noqa: PLC0415 - not needed for --help

    rules = {rule.key: rule for rule in rule_book()}
    found = rules.get(key.lower()) or rules.get(f"joint-{key.lower()}")
    if found is None:
        guess = meant(key, rules)
        msg = f"there is no rule '{key}': {guess}'wickwright rules --short' lists them all"
        raise UnusableError(msg)
    return found

"""``wickwright rules``: every rule the program holds a lamp or an order to."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from wickwright.cli.desk import UnusableError, current_desk
from wickwright.cli.options import shared_options
from wickwright.cli.output import echo_json, echo_lines, terminal_width

if TYPE_CHECKING:
    from wickwright.catalogue.records import Book
    from wickwright.cli.desk import Desk
    from wickwright.terms.finding import Rule

__all__ = ["command"]

_HELP = """Every rule: what it says, why, where it comes from, and what would break it; with the
numbers it permits, as they are in force for this book and --tip-limit.

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
    from wickwright.answers.limits_in_force import limits_in_force  # noqa: PLC0415 - as above
    from wickwright.answers.plain.answers import plain_rule  # noqa: PLC0415 - not needed for --help
    from wickwright.cli.layout import table  # noqa: PLC0415 - not needed for --help
    from wickwright.cli.rule_page import rule_lines  # noqa: PLC0415 - not needed for --help

    desk = current_desk()
    rules = [_named(key)] if key else list(rule_book())
    width = terminal_width()
    if short and not desk.json:
        echo_lines(table([(rule.key, rule.title) for rule in rules], width, wrapped=(1,)))
        return
    book = _book(desk)
    limits = {rule.key: limits_in_force(rule.key, desk.settings, book) for rule in rules}
    if desk.json:
        echo_json([plain_rule(rule, limits[rule.key]) for rule in rules])
        return
    units = desk.units_of(book)
    blocks = ["\n".join(rule_lines(rule, limits[rule.key], units, width)) for rule in rules]
    click.echo("\n\n".join(blocks))


def _book(desk: Desk) -> Book | None:
    """Read the book for its own numbers; rules are told without them where it has faults."""
    from wickwright.cli.desk import read_or_faults  # noqa: PLC0415 - not needed for --help

    read = read_or_faults(desk.shelf, desk.path)
    if isinstance(read, tuple):
        says = f"The fit book '{desk.path}' has faults, so its own numbers are left out."
        click.echo(says, err=True)
        return None
    return read


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

"""``wickwright pair``: whether two parts fit on each other."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from wickwright.cli.desk import current_desk
from wickwright.cli.options import PART, shared_options
from wickwright.cli.output import echo_json, echo_lines, terminal_width

if TYPE_CHECKING:
    from wickwright.answers import Pair
    from wickwright.terms.units import Units

__all__ = ["command"]

_MISFIT, _NOT_KNOWN = 1, 3

_HELP = """Whether part ONE and part OTHER fit, whichever stands on the other.

Exit code 0 when they fit (with effort, too), 1 when they do not, 3 when it is not known.

\b
    wickwright pair CH-3296 GA-2450
"""


@click.command(help=_HELP, epilog="The options of 'wickwright --help' may stand here too.")
@click.argument("one", type=PART)
@click.argument("other", type=PART)
@shared_options()
def command(one: str, other: str) -> int:
    """Judge one pair of parts."""
    from wickwright.answers import do_they_fit  # noqa: PLC0415 - not needed for --help
    from wickwright.answers.plain import plain_pair  # noqa: PLC0415 - not needed for --help
    from wickwright.cli.lookup import part_named  # noqa: PLC0415 - not needed for --help

    desk = current_desk()
    compiled = desk.open()
    ids = (part_named(compiled.book, one).id, part_named(compiled.book, other).id)
    units = desk.units_of(compiled.book)
    pair = do_they_fit(compiled, *ids)
    if desk.json:
        echo_json(plain_pair(pair, units) if pair else None)
    elif pair:
        echo_lines(_page(pair, units, terminal_width()))
    else:
        click.echo(f"Neither {ids[0]} nor {ids[1]} carries parts of the other's kind.")
    return _code(pair)


def _code(pair: Pair | None) -> int:
    from wickwright.fit.joints.verdict import ACCEPTED, Fit  # noqa: PLC0415 - not for --help

    if pair is None:
        return _MISFIT
    if pair.joined.fit is Fit.UNKNOWN:
        return _NOT_KNOWN
    return 0 if pair.joined.fit in ACCEPTED else _MISFIT


def _page(pair: Pair, units: Units, width: int) -> list[str]:
    from wickwright.answers.wording import sentence  # noqa: PLC0415 - not needed for --help
    from wickwright.cli.layout import paragraph  # noqa: PLC0415 - not needed for --help
    from wickwright.cli.words import JOINT_ONLY  # noqa: PLC0415 - not needed for --help
    from wickwright.terms.finding import Severity  # noqa: PLC0415 - not needed for --help
    from wickwright.terms.units import say  # noqa: PLC0415 - not needed for --help

    words = sentence(pair.finding, units)
    lines = paragraph(words.says, width)
    hot = pair.finding.facts.get("hot")
    if hot is not None:
        lines += paragraph(f"Room left when hot: {say(hot, units)}.", width)
    if pair.joined.missing:
        lines += paragraph(f"Measure: {', '.join(pair.joined.missing)}.", width)
    lines += paragraph(f"Why it matters: {words.why}", width)
    if pair.finding.severity > Severity.NOTE:
        lines += paragraph(f"What to do: {words.cure}", width)
    return lines + paragraph(JOINT_ONLY, width)

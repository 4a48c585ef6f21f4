"""``wickwright pair``: whether two parts fit on each other."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from wickwright.cli.desk import current_desk
from wickwright.cli.options import PART, TEMPERATURE, shared_options
from wickwright.cli.output import echo_json, echo_lines, terminal_width

if TYPE_CHECKING:
    from wickwright.answers import Pair
    from wickwright.fit.clearance import Gap
    from wickwright.terms.units import Units

__all__ = ["command"]

_MISFIT, _NOT_KNOWN = 1, 3

_HELP = """Whether part ONE and part OTHER fit, whichever stands on the other.

Exit code 0 when they fit (with effort, too), 1 when they do not, 3 when it is not known.

The room left between the two is told as worst case (both at the ends of their tolerances)
and as likely interval (root sum of squares), cold and hot.

\b
    wickwright pair CH-3296 GA-2450
    wickwright pair CH-2296 GA-2410 --one-at 180C --other-at 120C
"""


@click.command(help=_HELP, epilog="The options of 'wickwright --help' may stand here too.")
@click.argument("one", type=PART)
@click.argument("other", type=PART)
@click.option(
    "--one-at",
    type=TEMPERATURE,
    help="Temperature of ONE in service: 150C, 300F, 423K. Left out, that of its joint.",
)
@click.option("--other-at", type=TEMPERATURE, help="Temperature of OTHER in service.")
@shared_options()
def command(one: str, other: str, one_at: float | None, other_at: float | None) -> int:
    """Judge one pair of parts."""
    from wickwright.answers import do_they_fit  # noqa: PLC0415 - not needed for --help
    from wickwright.answers.plain.answers import plain_pair  # noqa: PLC0415 - not needed for --help
    from wickwright.cli.lookup import part_named  # noqa: PLC0415 - not needed for --help

    desk = current_desk()
    compiled = desk.open()
    ids = (part_named(compiled.book, one).id, part_named(compiled.book, other).id)
    units = desk.units_of(compiled.book)
    pair = do_they_fit(compiled, *ids, one_at=one_at, other_at=other_at)
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
    from wickwright.answers.words.wording import sentence  # noqa: PLC0415 - not needed for --help
    from wickwright.cli.layout import paragraph  # noqa: PLC0415 - not needed for --help
    from wickwright.cli.words import JOINT_ONLY  # noqa: PLC0415 - not needed for --help
    from wickwright.terms.finding import Severity  # noqa: PLC0415 - not needed for --help

    words = sentence(pair.finding, units)
    lines = paragraph(words.says, width)
    lines += _room(pair, units, width)
    if pair.joined.missing:
        lines += paragraph(f"Measure: {', '.join(pair.joined.missing)}.", width)
    lines += paragraph(f"Why it matters: {words.why}", width)
    if pair.finding.severity > Severity.NOTE:
        lines += paragraph(f"What to do: {words.cure}", width)
    return lines + paragraph(JOINT_ONLY, width)


def _room(pair: Pair, units: Units, width: int) -> list[str]:
    """Lay out the room between the two, cold and hot."""
    from wickwright.cli.layout import paragraph, table  # noqa: PLC0415 - not for --help
    from wickwright.fit.expansion import REFERENCE  # noqa: PLC0415 - not needed for --help

    joined = pair.joined
    if joined.worst is None or joined.likely is None:
        return []
    cold = f"cold, both at {_warm(REFERENCE, units)}"
    rows = [
        ("room between the two", "worst case", "likely (RSS)"),
        (cold, _gap(joined.worst, units), _gap(joined.likely, units)),
    ]
    if joined.hot and joined.likely_hot:
        hot = (
            f"hot, {pair.below.id} at {_warm(pair.warmth.carrier, units)}, "
            f"{pair.above.id} at {_warm(pair.warmth.stander, units)}"
        )
        rows.append((hot, _gap(joined.hot, units), _gap(joined.likely_hot, units)))
    lines = ["", *table(rows, width, wrapped=(0,)), ""]
    return lines if joined.hot else lines + paragraph(_not_hot(pair), width)


def _not_hot(pair: Pair) -> str:
    from wickwright.fit.joints.heat import is_cold  # noqa: PLC0415 - not needed for --help

    if is_cold(pair.warmth):
        return "Other temperatures: --one-at and --other-at."
    return "This joint gives as the parts grow, so it is not judged hot."


def _warm(kelvin: float, units: Units) -> str:
    from wickwright.terms.finding import Kind, Quantity  # noqa: PLC0415 - not for --help
    from wickwright.terms.units import say  # noqa: PLC0415 - not needed for --help

    return say(Quantity(kelvin, Kind.TEMPERATURE), units)


def _gap(gap: Gap, units: Units) -> str:
    from wickwright.terms.finding import Kind, Range  # noqa: PLC0415 - not needed for --help
    from wickwright.terms.units import say  # noqa: PLC0415 - not needed for --help

    return say(Range(gap.low, gap.high, Kind.LENGTH), units)

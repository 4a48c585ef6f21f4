"""``wickwright replaced``: what replaced a part that is no longer made."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from wickwright.cli.desk import current_desk
from wickwright.cli.options import PART, shared_options
from wickwright.cli.output import echo_json, echo_lines, terminal_width

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickwright.answers import Replacement
    from wickwright.catalogue.records import Part
    from wickwright.terms.units import Units

__all__ = ["command"]

_NOTHING = 1

_HELP = """What replaced PART, and what else must change with it.

Exit code 1 when neither the part nor anything that replaced it can be had.
"""


@click.command(help=_HELP, epilog="The options of 'wickwright --help' may stand here too.")
@click.argument("part", type=PART)
@shared_options()
def command(part: str) -> int:
    """Follow the successions of a part."""
    from wickwright.answers import what_replaced  # noqa: PLC0415 - not needed for --help
    from wickwright.answers.plain.answers import plain_replacement  # noqa: PLC0415 - not for --help
    from wickwright.catalogue.records import Status  # noqa: PLC0415 - not needed for --help
    from wickwright.cli.lookup import part_named  # noqa: PLC0415 - not needed for --help

    desk = current_desk()
    compiled = desk.open()
    it = what_replaced(compiled, part_named(compiled.book, part).id)
    if desk.json:
        echo_json(plain_replacement(it))
    else:
        echo_lines(_page(it, desk.units_of(compiled.book), terminal_width()))
    had = it.part.status is Status.MADE or (it.part.status is Status.STOCKS and it.part.stock)
    return 0 if it.heir or had else _NOTHING


def _page(it: Replacement, units: Units, width: int) -> list[str]:
    from wickwright.cli.layout import bullet, paragraph  # noqa: PLC0415 - not for --help
    from wickwright.fit.audit import called  # noqa: PLC0415 - not needed for --help

    lines = paragraph(f"{called(it.part)}: {_state(it.part, units)}.", width)
    for says in _steps(it, units):
        lines += bullet(says, width)
    if not it.steps:
        lines += paragraph("Nothing replaced it.", width)
        lines += paragraph(
            "For what to send instead, ask 'wickwright fit' for the lamp it is on.", width
        )
    elif it.heir is None:
        lines += paragraph("None of these can be had.", width)
    else:
        lines += paragraph(f"Send {called(it.heir)}.", width)
    return lines


def _state(part: Part, units: Units) -> str:
    from wickwright.cli.words import availability, money  # noqa: PLC0415 - not for --help

    state = availability(part) or "made"
    last = f", last in {part.last}" if part.last and not part.price else ""
    price = f", {money(part.price, units)}" if part.price is not None else ""
    return f"{state}{last}{price}"


def _steps(it: Replacement, units: Units) -> Iterator[str]:
    from wickwright.fit.audit import called  # noqa: PLC0415 - not needed for --help

    for step in it.steps:
        via = f" It needs {called(step.via)}: {_state(step.via, units)}." if step.via else ""
        joint = " It stands by another joint." if step.changes_joint else ""
        yield f"replaced by {called(step.new)}: {_state(step.new, units)}.{joint}{via}"

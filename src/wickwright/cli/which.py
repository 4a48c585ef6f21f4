"""``wickwright which``: which lamp a caller has, asking only what changes what is sent."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from wickwright.cli.case_file import change_lines, keeper, kept_in, read_json, refuse_faults
from wickwright.cli.desk import UnusableError, current_desk
from wickwright.cli.fit import named, refuse_danger
from wickwright.cli.options import ELEVATION, LAMP, PART_OR_KIND, WISH, shared_options
from wickwright.cli.output import echo_json
from wickwright.cli.town_taken import echo_town, with_town

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickwright.answers.plain.answers import Plain
    from wickwright.answers.plain.kept import Changed, Kept
    from wickwright.answers.which_lamp import WhichLamp
    from wickwright.cli.desk import Desk
    from wickwright.fit.compiled import Compiled
    from wickwright.recognise.asking import Asking, Heard

__all__ = ["command"]

_HELP = """Which lamp a caller has, and what to send, in the fewest looks.

WISH is what the caller wants, such as renew-chimney: then asking stops as soon as what to send is
settled, even if the model is not. Left out, the model itself is asked for.

\b
    wickwright which renew-chimney --lost chimney
    wickwright which --lamps WH-301,WH-302
    wickwright which renew-mantle --json --answers heard.json
"""


@dataclass(frozen=True, slots=True)
class _Asked:
    """What holds for the call, what was said, and what the file of the call had before."""

    now: Kept
    heard: tuple[Heard, ...]
    answers: Path | None
    case: Path | None
    before: Kept | None = None
    changes: tuple[Changed, ...] = ()


@click.command(help=_HELP, epilog="The options of 'wickwright --help' may stand here too.")
@click.argument("wish", type=WISH, required=False, default="")
@click.option(
    "--lost", type=PART_OR_KIND, multiple=True, help="A part, or kind of part, broken or gone."
)
@click.option(
    "--at", "elevation", type=ELEVATION, help="Where it stands: 5200ft, 1700m, or a town."
)
@click.option("--lamps", type=LAMP, multiple=True, help="Models it is said to be one of.")
@click.option("--bought", type=click.IntRange(1800, 2200), help="The year it was bought new.")
@click.option(
    "--answers",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="JSON list of what the caller said; '-' reads it from standard input.",
)
@click.option(
    "--case",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Keep the conversation in FILE after every answer, and take it up again from there.",
)
@shared_options()
def command(
    wish: str,
    lost: tuple[str, ...],
    elevation: float | None,
    lamps: tuple[str, ...],
    bought: int | None,
    answers: Path | None,
    case: Path | None,
) -> int:
    """Hold the conversation, or answer once."""
    from wickwright.answers.plain.kept import Kept  # noqa: PLC0415 - not needed for --help

    desk = current_desk()
    refuse_danger(desk, wish)
    compiled = desk.open()
    asking = _asking(compiled)
    now = Kept(elevation, wish=wish, lost=named(lost), lamps=named(lamps), bought=bought)
    asked = _heard(asking, _with_case(asking, _Asked(now, (), answers, case)))
    call = _begun(compiled, asking, asked)
    keep = _keep(asked)
    keep(call)
    if desk.json:
        from wickwright.answers.plain.kept import plain_changes, plain_kept  # noqa: PLC0415
        from wickwright.answers.plain.lamps import plain_recognition  # noqa: PLC0415 - as above

        given, anew = plain_kept(asked.now), plain_changes(asked.changes)
        plain = {**plain_recognition(call), "given": given, "given_anew": anew}
        echo_json(with_town(desk, plain))
        return 0
    from wickwright.cli.which_talk import converse, show_step  # noqa: PLC0415 - as above

    units = desk.units_of(compiled.book)
    echo_town(desk)
    _say_how_taken(desk, asked)
    if answers is not None:
        return show_step(call, units)
    return converse(call, units, keep, case)


def _asking(compiled: Compiled) -> Asking:
    from wickwright.answers.which_lamp import asking_of  # noqa: PLC0415 - not for --help
    from wickwright.chance.arrays import ChanceError  # noqa: PLC0415 - not needed for --help

    try:
        return asking_of(compiled)
    except ChanceError as error:
        msg = "the fit book has nothing to tell lamps by: fill in the tables looks and marks"
        raise UnusableError(msg) from error


def _begun(compiled: Compiled, asking: Asking, asked: _Asked) -> WhichLamp:
    from wickwright.answers.plain.kept import given_once  # noqa: PLC0415 - not for --help
    from wickwright.answers.which_lamp import which_lamp  # noqa: PLC0415 - not for --help

    now = replace(asked.now, lamps=_spelled(asking, asked.now.lamps))
    return which_lamp(
        compiled,
        asking,
        now.wish,
        lost=now.lost,
        elevation=now.elevation or 0.0,
        heard=(*given_once(now), *asked.heard),
    )


def _spelled(asking: Asking, lamps: tuple[str, ...]) -> tuple[str, ...]:
    """Return model numbers as the book has them."""
    from wickwright.answers.which_parts import UnknownNameError  # noqa: PLC0415 - not for --help
    from wickwright.catalogue.spelling import meant  # noqa: PLC0415 - not needed for --help

    by_name = {name.lower(): name for name in asking.names}
    unknown = [lamp for lamp in lamps if lamp.lower() not in by_name]
    if unknown:
        says = [f"there is no lamp '{lamp}'; {meant(lamp, asking.names)}" for lamp in unknown]
        raise UnknownNameError("\n".join(one.removesuffix(" ").removesuffix(";") for one in says))
    return tuple(by_name[lamp.lower()] for lamp in lamps)


def _with_case(asking: Asking, asked: _Asked) -> _Asked:
    """Lay what was typed over what the file of the call has."""
    from wickwright.answers.plain.kept import settled, without_given_once  # noqa: PLC0415

    found = kept_in(asked.case, "heard")
    if found is None or asked.case is None:
        return asked
    heard = _read(asking, found[0]["heard"], asked.case)
    heard, before = without_given_once(heard, found[1])
    now, changes = settled(before, asked.now)
    return replace(asked, now=now, heard=heard, before=before, changes=changes)


def _heard(asking: Asking, asked: _Asked) -> _Asked:
    """Add the answers of a file to what was said."""
    if asked.answers is None:
        return asked
    said = _read(asking, read_json(asked.answers), asked.answers)
    return replace(asked, heard=(*asked.heard, *said))


def _read(asking: Asking, given: object, path: Path) -> tuple[Heard, ...]:
    from wickwright.answers.plain.cases import CaseFault  # noqa: PLC0415 - not needed for --help
    from wickwright.answers.plain.lamps import read_heard  # noqa: PLC0415 - not needed for --help

    found = read_heard(given, asking)
    faults = [one for one in found if isinstance(one, CaseFault)]
    if faults:
        raise refuse_faults(path, "answer", faults)
    return tuple(one for one in found if not isinstance(one, CaseFault))


def _say_how_taken(desk: Desk, asked: _Asked) -> None:
    """Say what of the call's file holds, and what is given otherwise now."""
    from wickwright.cli.talk import told  # noqa: PLC0415 - not needed for --help

    if asked.case is None or asked.before is None:
        return
    if asked.answers is None:
        told(f"taken up again after {len(asked.heard)} looks", "  - ")
    if asked.now.wish and not asked.changes:
        told(f"the wish is {asked.now.wish}", "  - ")
    for line in change_lines(asked.case, asked.changes, desk.units_of(None)):
        told(line, "  ! ", "    ")


def _keep(asked: _Asked) -> Callable[[WhichLamp], None]:
    """Return what writes a call down."""
    write = keeper(asked.case)

    def keep(call: WhichLamp) -> None:
        from wickwright.answers.plain.kept import plain_kept, without_given_once  # noqa: PLC0415
        from wickwright.answers.plain.lamps import plain_heard  # noqa: PLC0415 - not for --help

        heard, now = without_given_once(call.heard, replace(asked.now, wish=call.wish))
        kept: Plain = {**plain_kept(now), "heard": plain_heard(heard)}
        write(kept)

    return keep

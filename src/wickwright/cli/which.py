"""``wickwright which``: which lamp a caller has, asking only what changes what is sent."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from wickwright.cli.desk import UnusableError, current_desk
from wickwright.cli.fit import named
from wickwright.cli.options import ELEVATION, LAMP, PART_OR_KIND, WISH, shared_options
from wickwright.cli.output import echo_json
from wickwright.cli.town_taken import echo_town, with_town

if TYPE_CHECKING:
    from wickwright.answers.plain import Plain
    from wickwright.answers.which_lamp import WhichLamp
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


@click.command(help=_HELP, epilog="The options of 'wickwright --help' may stand here too.")
@click.argument("wish", type=WISH, required=False, default="")
@click.option(
    "--lost", type=PART_OR_KIND, multiple=True, help="A part, or kind of part, broken or gone."
)
@click.option(
    "--at",
    "elevation",
    type=ELEVATION,
    default=0.0,
    help="Where it stands: 5200ft, 1700m, or a town.",
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
    elevation: float,
    lamps: tuple[str, ...],
    bought: int | None,
    answers: Path | None,
    case: Path | None,
) -> int:
    """Hold the conversation, or answer once."""
    from wickwright.answers.which_lamp import asking_of, which_lamp  # noqa: PLC0415 - not for help
    from wickwright.chance.arrays import ChanceError  # noqa: PLC0415 - not needed for --help

    desk = current_desk()
    compiled = desk.open()
    try:
        asking = asking_of(compiled)
    except ChanceError as error:
        msg = "the fit book has nothing to tell lamps by: fill in the tables looks and marks"
        raise UnusableError(msg) from error
    heard = (*_known(asking, named(lamps), bought), *_before(asking, case, answers))
    call = which_lamp(compiled, asking, wish, lost=named(lost), elevation=elevation, heard=heard)
    if desk.json:
        from wickwright.answers.plain_lamp import plain_recognition  # noqa: PLC0415 - as above

        echo_json(with_town(desk, plain_recognition(call)))
        return 0
    from wickwright.cli.which_talk import converse, show_step  # noqa: PLC0415 - as above

    units = desk.units_of(compiled.book)
    echo_town(desk)
    if answers is not None:
        return show_step(call, units)
    return converse(call, units, _Keeper(case))


def _known(asking: Asking, lamps: tuple[str, ...], bought: int | None) -> list[Heard]:
    from wickwright.answers.which_parts import UnknownNameError  # noqa: PLC0415 - not for --help
    from wickwright.catalogue.spelling import meant  # noqa: PLC0415 - not needed for --help
    from wickwright.recognise.asking import Bought, Model  # noqa: PLC0415 - not for --help

    by_name = {name.lower(): name for name in asking.names}
    unknown = [lamp for lamp in lamps if lamp.lower() not in by_name]
    if unknown:
        says = [f"there is no lamp '{lamp}'; {meant(lamp, asking.names)}" for lamp in unknown]
        raise UnknownNameError("\n".join(one.removesuffix(" ").removesuffix(";") for one in says))
    found: list[Heard] = []
    if lamps:
        found.append(Model(tuple(by_name[lamp.lower()] for lamp in lamps)))
    return [*found, Bought(bought)] if bought is not None else found


def _before(asking: Asking, case: Path | None, answers: Path | None) -> list[Heard]:
    """Return what was said before: of the case kept, then of the answers given."""
    from wickwright.cli.why import read_json  # noqa: PLC0415 - not needed for --help

    found: list[Heard] = []
    if case is not None and case.exists():
        kept = read_json(case)
        if not isinstance(kept, dict) or "heard" not in kept:
            msg = f"'{case}' is no case that was kept by this command: name another file"
            raise UnusableError(msg)
        found += _read(asking, kept["heard"], case)
    if answers is not None:
        found += _read(asking, read_json(answers), answers)
    return found


def _read(asking: Asking, given: object, path: Path) -> list[Heard]:
    from wickwright.answers.plain_case import CaseFault  # noqa: PLC0415 - not needed for --help
    from wickwright.answers.plain_lamp import read_heard  # noqa: PLC0415 - not needed for --help

    found = read_heard(given, asking)
    faults = [one for one in found if isinstance(one, CaseFault)]
    if faults:
        lines = [f"answer {one.event}: {one.what}; {one.cure}" for one in faults]
        raise UnusableError("\n  ".join([f"'{path}' cannot be used:", *lines]))
    return [one for one in found if not isinstance(one, CaseFault)]


class _Keeper:
    """Writes a call down after every answer."""

    def __init__(self, path: Path | None) -> None:
        self.path = path

    def __call__(self, call: WhichLamp) -> None:
        """Write it down; the file takes its name when all of it is written."""
        if self.path is None:
            return
        from wickwright.answers.plain_lamp import plain_heard  # noqa: PLC0415 - not for --help
        from wickwright.cli.output import json_text, write_bytes  # noqa: PLC0415 - not for --help

        kept: Plain = {"wish": call.wish, "heard": plain_heard(call.heard)}
        write_bytes(self.path, (json_text(kept) + "\n").encode())

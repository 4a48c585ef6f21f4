"""``wickwright fit``: which parts to send, and why."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import click

from wickwright.cli.desk import UnusableError, current_desk
from wickwright.cli.options import ELEVATION, LAMP, MONEY, PART, PART_OR_KIND, WISH, shared_options
from wickwright.cli.output import echo_json, echo_lines, terminal_width
from wickwright.cli.town_taken import echo_town, with_town
from wickwright.cli.typed_options import CSV, PDF, PICTURE

if TYPE_CHECKING:
    from pathlib import Path

    from wickwright.answers import Compiled
    from wickwright.cli.desk import Desk
    from wickwright.fit.routes import Answer

__all__ = ["code_of", "command", "named", "refuse_danger"]

IMPOSSIBLE, NOT_KNOWN, GAVE_UP = 1, 3, 4

_HELP = """Which parts to send for LAMP and WISH, and why.

LAMP is a model number such as WH-302; several with commas between them, WH-301,WH-302, ask
for what serves all of them. WISH is a name of the fit book such as renew-chimney.

\b
    wickwright fit WH-302 renew-chimney --at 1700m
    wickwright fit DU-401 add-glass-shade --have CH-3371 --budget 60
    wickwright fit SA-201 complete --bare --have BA-2110,FO-2110
    wickwright fit WH-302 renew-chimney --sheet fit.pdf --order order.csv --reply
"""


@dataclass(frozen=True, slots=True)
class _Asked:
    """What was typed."""

    lamps: tuple[str, ...]
    wish: str
    have: tuple[str, ...]
    lost: tuple[str, ...]
    bare: bool
    elevation: float
    count: int
    budget: int | None


@dataclass(frozen=True, slots=True)
class _GoesOut:
    """What is written beside the answer, or in its place."""

    drawing: Path | None
    sheet: Path | None
    order: Path | None
    reply: bool

    def options(self) -> tuple[str, ...]:
        """Return the options that were given."""
        given = {
            "--drawing": self.drawing,
            "--sheet": self.sheet,
            "--order": self.order,
            "--reply": self.reply,
        }
        return tuple(name for name, value in given.items() if value)


@click.command(help=_HELP, epilog="The options of 'wickwright --help' may stand here too.")
@click.argument("lamp", type=LAMP)
@click.argument("wish", type=WISH)
@click.option(
    "--have", type=PART, multiple=True, help="A part on the lamp that it was not sold with."
)
@click.option(
    "--lost", type=PART_OR_KIND, multiple=True, help="A part, or kind of part, broken or gone."
)
@click.option("--bare", is_flag=True, help="There is nothing but what --have names.")
@click.option(
    "--at",
    "elevation",
    type=ELEVATION,
    default=0.0,
    help="Where it stands: 5200ft, 1700m, or a town.",
)
@click.option(
    "--count",
    type=click.IntRange(1, 100_000),
    metavar="N",
    default=1,
    help="Lamps to be treated alike; stock must do for all.",
)
@click.option("--budget", type=MONEY, help="Most money for one lamp, such as 120.00.")
@click.option(
    "--drawing",
    type=PICTURE,
    help="Draw the cheapest finished lamp to scale into this file, .svg or .png.",
)
@click.option(
    "--sheet", type=PDF, help="Write how to fit the parts of the cheapest way into this file, .pdf."
)
@click.option("--order", type=CSV, help="Write the order of the cheapest way into this file, .csv.")
@click.option("--reply", is_flag=True, help="Print a letter to the caller in place of the answer.")
@click.option("--all", "in_full", is_flag=True, help="Print every way in full, not only the best.")
@click.option("--why", is_flag=True, help="Name what the figures of the flame lean on most.")
@shared_options()
def command(
    lamp: str,
    wish: str,
    have: tuple[str, ...],
    lost: tuple[str, ...],
    bare: bool,  # noqa: FBT001 - as click calls it
    elevation: float,
    count: int,
    budget: int | None,
    drawing: Path | None,
    sheet: Path | None,
    order: Path | None,
    reply: bool,  # noqa: FBT001 - as click calls it
    in_full: bool,  # noqa: FBT001 - as click calls it
    why: bool,  # noqa: FBT001 - as click calls it
) -> int:
    """Answer one question of the desk."""
    lamps = tuple(dict.fromkeys(named((lamp,))))
    asked = _Asked(lamps, wish, named(have), named(lost), bare, elevation, count, budget)
    if not lamps:
        msg = "LAMP is blank: give a model number such as WH-302"
        raise UnusableError(msg)
    desk = current_desk()
    goes_out = _GoesOut(drawing, sheet, order, reply)
    refuse_danger(desk, wish)
    _check(desk, asked, goes_out)
    if len(lamps) > 1:
        return _shared(desk, asked, in_full=in_full or why, why=why)
    return _single(desk, asked, goes_out, in_full=in_full, why=why)


def refuse_danger(desk: Desk, wish: str) -> None:
    """Refuse words that speak of a danger in place of a wish, with what comes first."""
    from wickwright.cli.danger_talk import danger_in_words  # noqa: PLC0415 - not for --help

    if " " not in wish:
        return
    if first := danger_in_words(wish, desk.open().book.calls):
        msg = f"{first}\nThen name a wish: 'wickwright book list wishes' shows them."
        raise UnusableError(msg)


def _check(desk: Desk, asked: _Asked, goes_out: _GoesOut) -> None:
    """Refuse options that contradict each other."""
    named_options = goes_out.options()
    if len(asked.lamps) > 1 and named_options:
        msg = f"{named_options[0]} is for one lamp: ask for the lamps one by one"
        raise UnusableError(msg)
    if desk.json and goes_out.reply:
        msg = "--reply prints a letter and --json an answer: leave out one of them"
        raise UnusableError(msg)


def named(texts: tuple[str, ...]) -> tuple[str, ...]:
    """Split part lists at their commas."""
    return tuple(name.strip() for text in texts for name in text.split(",") if name.strip())


def _single(desk: Desk, asked: _Asked, goes_out: _GoesOut, *, in_full: bool, why: bool) -> int:
    from wickwright.answers import which_parts  # noqa: PLC0415 - not needed for --help

    compiled = desk.open()
    answer = which_parts(
        compiled,
        asked.lamps[0],
        asked.wish,
        have=asked.have,
        lost=asked.lost,
        bare=asked.bare,
        elevation=asked.elevation,
        count=asked.count,
        budget=asked.budget,
    )
    _write(desk, compiled, answer, goes_out)
    if not goes_out.reply:
        _print(desk, compiled, answer, in_full=in_full, why=why)
    return code_of(answer)


def _write(desk: Desk, compiled: Compiled, answer: Answer, goes_out: _GoesOut) -> None:
    if not goes_out.options():
        return
    from wickwright.cli.outgoing import letter_of, write_order, write_sheet  # noqa: PLC0415 - see above

    units = desk.units_of(compiled.book)
    if goes_out.drawing is not None:
        _draw(desk, compiled, answer, goes_out.drawing)
    if goes_out.sheet is not None:
        write_sheet(compiled, answer, units, goes_out.sheet)
    if goes_out.order is not None:
        write_order(compiled, answer, units, goes_out.order)
    if goes_out.reply:
        click.echo(letter_of(compiled, answer, units), nl=False)


def _draw(desk: Desk, compiled: Compiled, answer: Answer, drawing: Path) -> None:
    from wickwright.answers.pictures.lamp_drawing import lamp_drawing  # noqa: PLC0415 - only where one is asked
    from wickwright.cli.burn_chart import draw  # noqa: PLC0415 - as above
    from wickwright.fit.routes import Routes  # noqa: PLC0415 - as above

    if not isinstance(answer, Routes):
        msg = "there is no finished lamp to draw: ask without --drawing for the reason"
        raise UnusableError(msg)
    cheapest = min(answer.routes, key=lambda route: route.price)
    units = desk.units_of(compiled.book)
    draw(drawing, lamp_drawing(compiled, answer.now, cheapest, units))


def _print(desk: Desk, compiled: Compiled, answer: Answer, *, in_full: bool, why: bool) -> None:
    units = desk.units_of(compiled.book)
    if desk.json:
        from wickwright.answers.plain.answers import plain_answer  # noqa: PLC0415 - not needed for --help

        echo_json(with_town(desk, plain_answer(compiled, answer, units)))
        return
    from wickwright.cli.fit_page import fit_page  # noqa: PLC0415 - not needed for --help

    echo_town(desk)
    width = terminal_width()
    lines = fit_page(compiled, answer, units, width, in_full=in_full, why=why, has_all=True)
    echo_lines(lines)


def code_of(answer: Answer) -> int:
    """Return the exit code of an answer."""
    from wickwright.fit.routes import Gave, Impossible, NotKnown  # noqa: PLC0415 - see above

    codes: dict[type, int] = {Impossible: IMPOSSIBLE, NotKnown: NOT_KNOWN, Gave: GAVE_UP}
    return codes.get(type(answer), 0)


# -- several lamps it could be -------------------------------------------------------------------


def _shared(desk: Desk, asked: _Asked, *, in_full: bool, why: bool) -> int:
    from wickwright.answers import which_serve_all  # noqa: PLC0415 - not needed for --help

    compiled = desk.open()
    shared = which_serve_all(
        compiled,
        asked.lamps,
        asked.wish,
        have=asked.have,
        lost=asked.lost,
        bare=asked.bare,
        elevation=asked.elevation,
        count=asked.count,
        budget=asked.budget,
    )
    units = desk.units_of(compiled.book)
    if desk.json:
        from wickwright.answers.plain.answers import plain_shared  # noqa: PLC0415 - not needed for --help

        echo_json(with_town(desk, plain_shared(compiled, asked.lamps, shared, units)))
    else:
        from wickwright.cli.shared_page import shared_page  # noqa: PLC0415 - as above

        width = terminal_width()
        echo_town(desk)
        echo_lines(shared_page(compiled, shared, units, width, in_full=in_full, why=why))
    if shared.purchases:
        return 0
    return max(code_of(answer) for answer in shared.answers) or IMPOSSIBLE

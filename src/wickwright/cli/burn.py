"""``wickwright burn``: how a lamp burns where it stands, and what it does to the room."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import click

from wickwright.cli.desk import UnusableError, current_desk
from wickwright.cli.options import ELEVATION, LAMP, PART, PART_OR_KIND, shared_options
from wickwright.cli.output import echo_json, echo_lines, terminal_width
from wickwright.cli.town_taken import echo_town, with_town
from wickwright.cli.typed_options import (
    ABOVE,
    AIR_CHANGE,
    BESIDE,
    PICTURE,
    PRESSURE,
    SETTING,
    TIME,
    VOLUME,
)

if TYPE_CHECKING:
    from wickwright.answers.flames.above_and_beside import AboveAndBeside
    from wickwright.answers.flames.predict_burn import BurnAnswer, Burns
    from wickwright.answers.flames.room_air import RoomAnswer
    from wickwright.burn.calibrating import Calibration
    from wickwright.burn.lamp import BurningLamp
    from wickwright.cli.desk import Desk
    from wickwright.fit.compiled import Compiled
    from wickwright.room.nearby import Thing

__all__ = ["CHARTS", "Asked", "Told", "command"]

FAULTY, NOT_KNOWN = 1, 3
CHARTS = ("elevation", "height", "room", "above")

_HELP = """How LAMP burns where it stands: light, fuel, draft, heat, each with its error bar.

LAMP is a model number such as DU-401. Figures are one standard uncertainty wide; numbers
behind them name what they lean on most.

\b
    wickwright burn DU-401 --at 5200ft
    wickwright burn DU-401 --at 1700m --with CH-3371
    wickwright burn DU-401 --room 40m3 --people 2 --hours 4 --above 0.6m
    wickwright burn DU-401 --chart light.svg --chart-of elevation
    wickwright burn DU-401 --calibrate bench_readings.csv

A lit lamp is an open fire: air in the room, a carbon monoxide alarm, never left alone. Local
codes and the maker's leaflet come first.
"""


@dataclass(frozen=True, slots=True)
class Asked:
    """What was typed about the lamp, its place and its room."""

    lamp: str
    elevation: float | None
    pressure: float | None
    have: tuple[str, ...]
    lost: tuple[str, ...]
    bare: bool
    tried: tuple[str, ...]
    setting: str | float
    room: float | None
    people: int
    lamps: int
    hours: float
    air_changes: float | None
    above: tuple[tuple[str, float], ...]
    beside: tuple[tuple[str, float], ...]


@dataclass(frozen=True, slots=True)
class Told:
    """What came of it: the lamp, the same without what is tried, its room, what is near it."""

    answer: BurnAnswer
    before: Burns | None = None
    room: RoomAnswer | None = None
    near: AboveAndBeside | None = None
    calibration: Calibration | None = None


@click.command(
    help=_HELP,
    epilog="Exit codes: 0 all is well; 1 a fault or a danger was found; 2 the request or a file "
    "cannot be used; 3 nobody has measured what the flame is computed from. "
    "The options of 'wickwright --help' may stand here too.",
)
@click.argument("lamp", type=LAMP)
@click.option(
    "--at", "elevation", type=ELEVATION, help="Where it stands: 5200ft, 1700m, or a town."
)
@click.option(
    "--pressure", type=PRESSURE, help="Air pressure read there, in place of --at: 843hPa, 24.9inHg."
)
@click.option(
    "--with", "tried", type=PART, multiple=True, help="Try this part, and compare with before."
)
@click.option(
    "--have", type=PART, multiple=True, help="A part on the lamp that it was not sold with."
)
@click.option(
    "--lost", type=PART_OR_KIND, multiple=True, help="A part, or kind of part, broken or gone."
)
@click.option("--bare", is_flag=True, help="There is nothing but what --have names.")
@click.option(
    "--setting",
    type=SETTING,
    default="fullest",
    show_default=True,
    help="How high the wick is: fullest (before carbon), mark, or 70% of the most it gives.",
)
@click.option("--room", type=VOLUME, help="What the room holds: 40m3, 1400ft3.")
@click.option("--people", type=int, default=0, metavar="N", help="People who sit in the room.")
@click.option("--lamps", type=int, default=1, metavar="N", help="Such lamps that burn there.")
@click.option("--hours", type=TIME, default=4 * 3600.0, help="How long: 4, 90min. Left out, 4.")
@click.option(
    "--air-changes",
    type=AIR_CHANGE,
    help="Air changes an hour: 0.5. Left out, the median of living rooms.",
)
@click.option(
    "--above",
    type=ABOVE,
    multiple=True,
    help="What is how far above the chimney's top: 0.6m (of wood), brass:15cm.",
)
@click.option(
    "--beside",
    type=BESIDE,
    multiple=True,
    help="What is how far from the mantle: cloth:0.3m.",
)
@click.option("--chart", type=PICTURE, help="Draw a chart into this file, .svg or .png.")
@click.option(
    "--chart-of",
    type=click.Choice(CHARTS),
    default="elevation",
    show_default=True,
    help="What the chart shows.",
)
@click.option(
    "--calibrate",
    type=click.Path(path_type=Path),
    help="Fit the burner's figures to this table of bench readings first.",
)
@shared_options()
def command(chart: Path | None, chart_of: str, calibrate: Path | None, **typed: object) -> int:
    """Answer one question about a flame."""
    asked = Asked(**typed)  # type: ignore[arg-type]  # click has typed them
    _agree(asked, chart, chart_of)
    desk = current_desk()
    try:
        return _answer(desk, asked, chart, chart_of, calibrate)
    except ValueError as error:
        refused = _refused(error)
        if refused is None:
            raise
        raise refused from error


def _agree(asked: Asked, chart: Path | None, chart_of: str) -> None:
    """Refuse options that do not go together, all at once."""
    faults = []
    if asked.pressure is not None and asked.elevation is not None:
        faults.append("--at and --pressure both say where the lamp stands: give one of them")
    if asked.room is None and (asked.people or asked.lamps != 1 or asked.air_changes is not None):
        faults.append(
            "--people, --lamps and --air-changes go with a room: say how large with --room 40m3"
        )
    if asked.room is None and chart is not None and chart_of == "room":
        faults.append("a chart of the room needs the room: say how large with --room 40m3")
    if faults:
        raise UnusableError("\n".join(faults))


def _refused(error: ValueError) -> UnusableError | None:
    """Return an error of the flame, the room or a chart as one of the request."""
    from wickwright.burn.checks import BurnError  # noqa: PLC0415 - not needed for --help
    from wickwright.room.checks import RoomError  # noqa: PLC0415 - not needed for --help

    if isinstance(error, RoomError):
        return UnusableError("\n".join(error.faults))
    return UnusableError(str(error)) if isinstance(error, BurnError) else None


def _answer(
    desk: Desk, asked: Asked, chart: Path | None, chart_of: str, calibrate: Path | None
) -> int:
    from wickwright.answers.flames.predict_burn import Burns  # noqa: PLC0415 - not needed for --help

    compiled = desk.open()
    told = _told(desk, compiled, asked, calibrate)
    if chart is not None:
        if not isinstance(told.answer, Burns):
            msg = "there is no flame to draw a chart of: ask without --chart for what is missing"
            raise UnusableError(msg)
        _draw(desk, compiled, asked, told, told.answer, chart, chart_of)
    _print(desk, compiled, asked, told, chart)
    return _code(told)


def _told(desk: Desk, compiled: Compiled, asked: Asked, calibrate: Path | None) -> Told:
    from wickwright.answers.flames.predict_burn import Burns  # noqa: PLC0415 - not needed for --help

    calibration = None
    if calibrate is not None:
        from wickwright.cli.bench import calibration_of  # noqa: PLC0415 - scipy is slow to load

        calibration = calibration_of(desk, compiled.book, calibrate)
    answer = _burning(compiled, asked, asked.tried, calibration)
    if not isinstance(answer, Burns):
        return Told(answer, calibration=calibration)
    before = _burning(compiled, asked, (), calibration) if asked.tried else None
    return Told(
        answer,
        before if isinstance(before, Burns) else None,
        _room(answer, asked),
        _near(answer, asked),
        calibration,
    )


def _burning(
    compiled: Compiled, asked: Asked, tried: tuple[str, ...], calibration: Calibration | None
) -> BurnAnswer:
    from wickwright.answers.flames.predict_burn import predict_burn  # noqa: PLC0415 - not for --help
    from wickwright.cli.fit import named  # noqa: PLC0415 - not needed for --help

    def fitted(lamp: BurningLamp) -> BurningLamp:
        if calibration is None:
            return lamp
        from wickwright.burn.calibrating import calibrated  # noqa: PLC0415 - as above

        return calibrated(lamp, calibration)

    return predict_burn(
        compiled,
        asked.lamp,
        have=named((*asked.have, *tried)),
        lost=named(asked.lost),
        bare=asked.bare,
        elevation=asked.elevation,
        pressure=asked.pressure,
        setting=asked.setting,
        fitted=fitted,
    )


def _room(answer: Burns, asked: Asked) -> RoomAnswer | None:
    if asked.room is None:
        return None
    from wickwright.answers.flames.room_air import RoomPlan, room_air  # noqa: PLC0415 - not for --help

    plan = RoomPlan(asked.room, asked.lamps, asked.people, asked.hours, asked.air_changes)
    return room_air(answer.prediction, plan)


def _near(answer: Burns, asked: Asked) -> AboveAndBeside:
    from wickwright.answers.flames.above_and_beside import above_and_beside  # noqa: PLC0415

    parts = tuple(it.part for it in answer.assembly.walk())
    above = _things("surface above", asked.above)
    beside = _things("surface beside", asked.beside)
    return above_and_beside(answer.prediction, above, beside, parts)


def _things(name: str, places: tuple[tuple[str, float], ...]) -> tuple[Thing, ...]:
    from wickwright.room.nearby import Thing as Near  # noqa: PLC0415 - not needed for --help

    return tuple(Near(name, material, distance) for material, distance in places)


# -- what goes out -------------------------------------------------------------------------------


def _draw(
    desk: Desk,
    compiled: Compiled,
    asked: Asked,
    told: Told,
    answer: Burns,
    chart: Path,
    chart_of: str,
) -> None:
    from wickwright.cli.burn_chart import draw, drawn  # noqa: PLC0415 - only where one is asked

    units = desk.units_of(compiled.book)
    draw(chart, drawn(compiled, asked, answer, told, chart_of, units))


def _print(desk: Desk, compiled: Compiled, asked: Asked, told: Told, chart: Path | None) -> None:
    units = desk.units_of(compiled.book)
    if desk.json:
        from wickwright.cli.burn_json import plain_told  # noqa: PLC0415 - not needed for --help

        echo_json(with_town(desk, plain_told(asked, told, units)))
        return
    from wickwright.cli.burn_page import burn_page  # noqa: PLC0415 - not needed for --help

    lines = burn_page(compiled, asked, told, units, terminal_width())
    if chart is not None:
        lines += ["", f"The chart is in {chart}."]
    echo_town(desk)
    echo_lines(lines)


def _code(told: Told) -> int:
    from wickwright.answers.flames.predict_burn import FlameNotKnown  # noqa: PLC0415 - not for --help
    from wickwright.terms.finding import Severity  # noqa: PLC0415 - not needed for --help

    if isinstance(told.answer, FlameNotKnown):
        return NOT_KNOWN
    found = [*told.answer.findings]
    for more in (told.room, told.near):
        found += more.findings if more else ()
    return FAULTY if any(one.severity >= Severity.FAULT for one in found) else 0

"""``wickwright why``: what is wrong with a lamp, from the complaint to the parts to send."""

from __future__ import annotations

import sys
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import click

from wickwright.cli.desk import UnusableError, current_desk
from wickwright.cli.options import ELEVATION, LAMP, PART, PART_OR_KIND, shared_options
from wickwright.cli.output import echo_json
from wickwright.cli.town_taken import echo_town, with_town
from wickwright.cli.typed_options import AIR_CHANGE, VOLUME

if TYPE_CHECKING:
    from wickwright.answers.diagnose import Diagnosis
    from wickwright.answers.plain import Plain
    from wickwright.cause.case import Event
    from wickwright.cli.desk import Desk
    from wickwright.fit.compiled import Compiled

__all__ = ["command", "read_json"]

_HELP = """What is wrong with LAMP, and what to do next, asked step by step.

COMPLAINT is a name of the fit book such as dim, or the caller's own words; 'wickwright book list
complaints' names them. Dangers are asked about first, and nothing that needs a flame is offered
until they are cleared.

\b
    wickwright why WH-302 "it is not bright any more" --at 1900m
    wickwright why WH-302 dim --at 1900m --json --answers answers.json
"""


@dataclass(frozen=True, slots=True)
class _Asked:
    """What was typed."""

    lamp: str
    words: str
    have: tuple[str, ...]
    lost: tuple[str, ...]
    elevation: float | None
    hours: float | None
    volume: float | None
    people: int
    change: float | None
    answers: Path | None
    case: Path | None


@click.command(help=_HELP, epilog="The options of 'wickwright --help' may stand here too.")
@click.argument("lamp", type=LAMP)
@click.argument("complaint", nargs=-1, required=True)
@click.option("--have", type=PART, multiple=True, help="A part on the lamp, named by the caller.")
@click.option(
    "--lost", type=PART_OR_KIND, multiple=True, help="A part, or kind of part, broken or gone."
)
@click.option(
    "--at", "elevation", type=ELEVATION, help="Where it stands: 5200ft, 1700m, or a town."
)
@click.option("--hours", type=click.FloatRange(0, 1000), help="Hours burned since it was filled.")
@click.option("--room", "volume", type=VOLUME, help="The room it burns in, such as 40m3.")
@click.option("--people", type=click.IntRange(0, 1000), default=1, help="Who sits in that room.")
@click.option("--air-changes", "change", type=AIR_CHANGE, help="Of that room, such as 0.5/h.")
@click.option(
    "--answers",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="JSON list of what was said and done; '-' reads it from standard input.",
)
@click.option(
    "--case",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Keep the conversation in FILE after every answer, and take it up again from there.",
)
@shared_options()
def command(
    lamp: str,
    complaint: tuple[str, ...],
    have: tuple[str, ...],
    lost: tuple[str, ...],
    elevation: float | None,
    hours: float | None,
    volume: float | None,
    people: int,
    change: float | None,
    answers: Path | None,
    case: Path | None,
) -> int:
    """Hold the conversation, or answer once."""
    from wickwright.cli.fit import named  # noqa: PLC0415 - not needed for --help

    asked = _Asked(
        lamp,
        " ".join(complaint).strip(),
        named(have),
        named(lost),
        elevation,
        hours,
        volume,
        people,
        change,
        answers,
        case,
    )
    desk = current_desk()
    compiled = desk.open()
    key = _complaint(compiled, desk, asked)
    if key is None:
        return 2
    call = _begun(compiled, desk, asked, key)
    if desk.json or asked.answers:
        return _once(desk, call)
    from wickwright.cli.why_talk import converse  # noqa: PLC0415 - not needed for --help

    echo_town(desk)
    return converse(call, desk.units_of(compiled.book), _Keeper(asked.case))


def _complaint(compiled: Compiled, desk: Desk, asked: _Asked) -> str | None:
    """Return the complaint that is meant; a person chooses where it is not named."""
    from wickwright.answers.diagnose import complaints_of  # noqa: PLC0415 - not for --help

    calls, words = compiled.book.calls, asked.words
    if words in calls.complaints:
        return words
    near = complaints_of(compiled, asked.lamp, words)[:6]
    if not near:
        held = ", ".join(calls.complaints) or "none"
        msg = f"'{words}' is near no complaint of the book; it has: {held}"
        raise UnusableError(msg)
    if desk.json:
        found = ", ".join(one.complaint.id for one in near)
        msg = f"'{words}' is no complaint of the book by name; it may mean: {found}"
        raise UnusableError(msg)
    from wickwright.cli.talk import Choice, choose  # noqa: PLC0415 - not needed for --help

    click.echo("Is this what is meant?")
    choices = [Choice(one.complaint.id, one.complaint.says) for one in near]
    key = choose(choices, unsure=False)
    return key if key in calls.complaints else None


def _begun(compiled: Compiled, desk: Desk, asked: _Asked, complaint: str) -> Diagnosis:
    from wickwright.answers.diagnose import diagnose  # noqa: PLC0415 - not needed for --help
    from wickwright.answers.room_air import RoomPlan  # noqa: PLC0415 - as above
    from wickwright.answers.worked_out import Circumstances  # noqa: PLC0415 - as above
    from wickwright.cause.knowledge import NothingKnownError  # noqa: PLC0415 - as above

    room = None
    if asked.volume is not None:
        room = RoomPlan(volume=asked.volume, people=asked.people, change=asked.change)
    try:
        return diagnose(
            compiled,
            asked.lamp,
            complaint,
            have=asked.have,
            lost=asked.lost,
            where=Circumstances(asked.elevation, asked.hours, room),
            units=desk.units_of(compiled.book),
            events=_events(compiled, asked, complaint),
        )
    except NothingKnownError as error:
        raise UnusableError(str(error)) from error


# -- answers and cases in files ------------------------------------------------------------------


def _events(compiled: Compiled, asked: _Asked, complaint: str) -> tuple[Event, ...]:
    """Return what was said and done before: of the case kept, then of the answers given."""
    found: list[Event] = []
    if asked.case is not None and asked.case.exists():
        found += _of_case(compiled, asked, complaint, asked.case)
    if asked.answers is not None:
        found += _read(compiled, read_json(asked.answers), asked.answers)
    return tuple(found)


def read_json(path: Path) -> object:
    """Read a JSON file, or standard input for '-'."""
    import json  # noqa: PLC0415 - not needed for --help

    try:
        text = sys.stdin.read() if str(path) == "-" else path.read_text("utf-8")
        found: object = json.loads(text)
    except OSError as error:
        msg = f"'{path}' cannot be read: {error.strerror or error}"
        raise UnusableError(msg) from error
    except ValueError as error:
        msg = f"'{path}' is not JSON: {error}; it holds a list of events, see docs/json.md"
        raise UnusableError(msg) from error
    return found


def _of_case(compiled: Compiled, asked: _Asked, complaint: str, path: Path) -> tuple[Event, ...]:
    kept = read_json(path)
    if not isinstance(kept, dict) or "events" not in kept:
        msg = f"'{path}' is no case that was kept by this command: name another file"
        raise UnusableError(msg)
    same = (kept.get("lamp"), kept.get("complaint"))
    if (str(same[0]).lower(), same[1]) != (asked.lamp.lower(), complaint):
        msg = (
            f"'{path}' keeps a case of {same[0]} and '{same[1]}', not of {asked.lamp} and "
            f"'{complaint}': name another file, or that lamp and complaint"
        )
        raise UnusableError(msg)
    return _read(compiled, kept["events"], path)


def _read(compiled: Compiled, given: object, path: Path) -> tuple[Event, ...]:
    from wickwright.answers.plain_case import CaseFault, read_events  # noqa: PLC0415

    found = read_events(given, compiled.book.calls)
    faults = [one for one in found if isinstance(one, CaseFault)]
    if faults:
        lines = [f"event {one.event}: {one.what}; {one.cure}" for one in faults]
        raise UnusableError("\n  ".join([f"'{path}' cannot be used:", *lines]))
    return tuple(one for one in found if not isinstance(one, CaseFault))


class _Keeper:
    """Writes a case down after every answer."""

    def __init__(self, path: Path | None) -> None:
        self.path = path

    def __call__(self, call: Diagnosis) -> None:
        """Write it down; the file takes its name when all of it is written."""
        if self.path is None:
            return
        from wickwright.answers.plain_case import plain_events  # noqa: PLC0415
        from wickwright.cli.output import json_text, write_bytes  # noqa: PLC0415

        case = call.case
        kept: Plain = {
            "lamp": case.lamp,
            "complaint": case.complaint,
            "events": plain_events(case.events),
        }
        write_bytes(self.path, (json_text(kept) + "\n").encode())


def _once(desk: Desk, call: Diagnosis) -> int:
    """Print the next step as data, or as a page."""
    from wickwright.answers.plain_case import plain_advice  # noqa: PLC0415 - not for --help

    if desk.json:
        echo_json(with_town(desk, plain_advice(call)))
    else:
        from wickwright.cli.why_talk import show_step  # noqa: PLC0415 - not needed for --help

        echo_town(desk)
        show_step(call, desk.units_of(call.compiled.book))
    return 1 if call.advice.gate.shut else 0

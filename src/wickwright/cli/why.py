"""``wickwright why``: what is wrong with a lamp, from the complaint to the parts to send."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from wickwright.cli.case_file import change_lines, keeper, kept_in, read_json, refuse_faults
from wickwright.cli.desk import UnusableError, current_desk
from wickwright.cli.options import ELEVATION, LAMP, PART, PART_OR_KIND, shared_options
from wickwright.cli.output import echo_json
from wickwright.cli.town_taken import echo_town, with_town
from wickwright.cli.typed_options import AIR_CHANGE, VOLUME

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from wickwright.answers.diagnose import Diagnosis
    from wickwright.answers.plain.answers import Plain
    from wickwright.answers.plain.kept import Changed, Kept
    from wickwright.cause.case import Event
    from wickwright.cause.words import Meant
    from wickwright.cli.desk import Desk
    from wickwright.fit.compiled import Compiled

__all__ = ["command"]

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
    """What was typed, and what the file of the call had before."""

    lamp: str
    words: str
    now: Kept
    answers: Path | None
    case: Path | None
    bought: tuple[str, ...] = ()
    before: dict[str, object] | None = None
    changes: tuple[Changed, ...] = ()


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
@click.option("--people", type=click.IntRange(0, 1000), help="Who sits in that room, if not 1.")
@click.option("--air-changes", "change", type=AIR_CHANGE, help="Of that room, such as 0.5/h.")
@click.option(
    "--bought",
    type=PART,
    multiple=True,
    help="All that was bought for the last remedy that did not help, if not the cheapest way.",
)
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
    people: int | None,
    change: float | None,
    bought: tuple[str, ...],
    answers: Path | None,
    case: Path | None,
) -> int:
    """Hold the conversation, or answer once."""
    from wickwright.answers.plain.kept import Kept  # noqa: PLC0415 - not needed for --help
    from wickwright.cli.fit import named  # noqa: PLC0415 - not needed for --help

    now = Kept(elevation, hours, volume, people, change, named(have), named(lost))
    words = " ".join(complaint).strip()
    desk = current_desk()
    compiled = desk.open()
    asked = _with_case(_Asked(lamp, words, now, answers, case, named(bought)))
    key = _complaint(compiled, desk, asked)
    call = _begun(compiled, desk, asked, key)
    keep = _keep(asked)
    keep(call)
    if desk.json or asked.answers:
        return _once(desk, call, asked)
    from wickwright.cli.why_talk import Taken, converse  # noqa: PLC0415 - not for --help

    echo_town(desk)
    units = desk.units_of(compiled.book)
    return converse(call, units, keep, Taken(asked.case, _again(call, asked), _notes(desk, asked)))


def _with_case(asked: _Asked) -> _Asked:
    """Lay what was typed over what the file of the call has."""
    from wickwright.answers.plain.kept import settled  # noqa: PLC0415 - not for --help

    found = kept_in(asked.case, "events")
    if found is None:
        return asked
    now, changes = settled(found[1], asked.now)
    return replace(asked, now=now, before=found[0], changes=changes)


def _again(call: Diagnosis, asked: _Asked) -> int:
    """Return how many answers the file of the call had; 0 where it is new."""
    return 0 if asked.before is None else len(call.case.events)


def _notes(desk: Desk, asked: _Asked) -> tuple[str, ...]:
    """Return what is said of things given otherwise than the file has them."""
    if asked.case is None:
        return ()
    return tuple(change_lines(asked.case, asked.changes, desk.units_of(None)))


def _complaint(compiled: Compiled, desk: Desk, asked: _Asked) -> str:
    """Return the complaint that is meant; a person chooses where it is not named."""
    from wickwright.answers.diagnose import complaints_of  # noqa: PLC0415 - not for --help
    from wickwright.cli.danger_talk import danger_in_words  # noqa: PLC0415 - as above

    calls, words = compiled.book.calls, asked.words
    if words in calls.complaints:
        return words
    first = danger_in_words(words, calls)
    near = complaints_of(compiled, asked.lamp, words)[:6]
    if not near:
        held = ", ".join(calls.complaints) or "none"
        msg = f"'{words}' is near no complaint of the book; it has: {held}"
        raise UnusableError(f"{first}\n{msg}" if first else msg)
    kept = (asked.before or {}).get("complaint")
    if kept in [one.complaint.id for one in near]:
        return str(kept)
    if desk.json:
        found = ", ".join(one.complaint.id for one in near)
        msg = f"'{words}' is no complaint of the book by name; it may mean: {found}"
        raise UnusableError(f"{first}\n{msg}" if first else msg)
    return _chosen(words, near, first)


def _chosen(words: str, near: Sequence[Meant], first: str = "") -> str:
    """Let a person choose which complaint the words mean; what they say of a danger comes first."""
    from wickwright.cli.talk import QUIT, WHY, Choice, choose, told  # noqa: PLC0415 - as above

    if first:
        told(first)
    more = " the first of" if len(near) > 1 else ""
    told(f"'{words}' is nearest to{more} what stands here. Which is meant?")
    key = choose([Choice(one.complaint.id, one.complaint.says) for one in near], unsure=False)
    if key == QUIT:
        names = ", ".join(one.complaint.id for one in near)
        msg = (
            "no complaint was chosen, so nothing was asked and nothing is kept: choose a number, "
            f"or name one in place of the words: {names}"
        )
        raise UnusableError(msg)
    if key in {one.complaint.id for one in near}:
        return key
    why = "Each complaint has causes of its own; what was said may mean more than one of them."
    told(why if key == WHY else "There is nothing to take back.", "  ")
    return _chosen(words, near)


def _begun(compiled: Compiled, desk: Desk, asked: _Asked, complaint: str) -> Diagnosis:
    from wickwright.answers.diagnose import diagnose  # noqa: PLC0415 - not needed for --help
    from wickwright.answers.way_taken import NoSuchWayError  # noqa: PLC0415 - as above
    from wickwright.cause.knowledge import NothingKnownError  # noqa: PLC0415 - as above
    from wickwright.cause.spoken import not_heard_yet, spoken_of  # noqa: PLC0415 - as above

    kept, fresh = _events(compiled, asked, complaint)
    try:
        call = diagnose(
            compiled,
            asked.lamp,
            complaint,
            have=asked.now.have,
            lost=asked.now.lost,
            where=asked.now.where,
            units=desk.units_of(compiled.book),
            events=kept,
        )
        spoken = not_heard_yet(spoken_of(asked.words, compiled.book.calls), (*kept, *fresh))
        return call.told(*spoken, *fresh) if fresh or spoken else call
    except (NothingKnownError, NoSuchWayError) as error:
        raise UnusableError(str(error)) from error


# -- answers and cases in files ------------------------------------------------------------------


def _events(
    compiled: Compiled, asked: _Asked, complaint: str
) -> tuple[tuple[Event, ...], tuple[Event, ...]]:
    """Return what was said and done in the case kept, and what is given now."""
    kept: tuple[Event, ...] = ()
    fresh: tuple[Event, ...] = ()
    if asked.case is not None and asked.before is not None:
        _same_call(asked, asked.case, asked.before, complaint)
        kept = _read(compiled, asked.before["events"], asked.case)
    if asked.answers is not None:
        fresh = _read(compiled, read_json(asked.answers), asked.answers)
    if asked.bought:
        every = _with_bought(compiled, (*kept, *fresh), asked.bought)
        return every[: len(kept)], every[len(kept) :]
    return kept, fresh


def _with_bought(
    compiled: Compiled, events: tuple[Event, ...], bought: tuple[str, ...]
) -> tuple[Event, ...]:
    """Say of the last remedy that put parts on and did not help what was bought for it."""
    from wickwright.catalogue.spelling import spelled  # noqa: PLC0415 - not needed for --help
    from wickwright.cause.case import Act, Outcome  # noqa: PLC0415 - as above

    bought = tuple(spelled(one, compiled.book.parts) or one for one in bought)
    remedies = compiled.book.calls.remedies
    for at in reversed(range(len(events))):
        event = events[at]
        if not isinstance(event, Act) or event.outcome is not Outcome.STILL:
            continue
        if remedies[event.remedy].wish:
            return (*events[:at], replace(event, bought=bought), *events[at + 1 :])
    msg = (
        "--bought says which way was bought for a remedy that did not help, and no such remedy "
        "stands in this call: give it with --answers or --case, or leave --bought out"
    )
    raise UnusableError(msg)


def _same_call(asked: _Asked, path: Path, kept: dict[str, object], complaint: str) -> None:
    """Refuse the case of another lamp or complaint."""
    same = (kept.get("lamp"), kept.get("complaint"))
    if (str(same[0]).lower(), same[1]) != (asked.lamp.lower(), complaint):
        msg = (
            f"'{path}' keeps a case of {same[0]} and '{same[1]}', not of {asked.lamp} and "
            f"'{complaint}': name another file, or that lamp and complaint"
        )
        raise UnusableError(msg)


def _read(compiled: Compiled, given: object, path: Path) -> tuple[Event, ...]:
    from wickwright.answers.plain.cases import CaseFault, read_events  # noqa: PLC0415

    found = read_events(given, compiled.book.calls)
    faults = [one for one in found if isinstance(one, CaseFault)]
    if faults:
        raise refuse_faults(path, "event", faults)
    return tuple(one for one in found if not isinstance(one, CaseFault))


def _keep(asked: _Asked) -> Callable[[Diagnosis], None]:
    """Return what writes a case down."""
    write = keeper(asked.case)

    def keep(call: Diagnosis) -> None:
        from wickwright.answers.plain.cases import plain_events  # noqa: PLC0415 - not for --help
        from wickwright.answers.plain.kept import plain_kept  # noqa: PLC0415 - not for --help

        case = call.case
        kept: Plain = {
            "lamp": case.lamp,
            "complaint": case.complaint,
            **plain_kept(asked.now),
            "events": plain_events(case.events),
        }
        write(kept)

    return keep


def _once(desk: Desk, call: Diagnosis, asked: _Asked) -> int:
    """Print the next step as data, or as a page."""
    from wickwright.answers.plain.cases import plain_advice  # noqa: PLC0415 - not for --help
    from wickwright.answers.plain.kept import plain_changes, plain_kept  # noqa: PLC0415 - as above

    if desk.json:
        given, anew = plain_kept(asked.now), plain_changes(asked.changes)
        plain = {**plain_advice(call), "given": given, "given_anew": anew}
        echo_json(with_town(desk, plain))
    else:
        from wickwright.cli.why_talk import Taken, show_step  # noqa: PLC0415 - not for --help

        echo_town(desk)
        again = 0 if asked.answers else _again(call, asked)
        taken = Taken(asked.case, again, _notes(desk, asked))
        show_step(call, desk.units_of(call.compiled.book), taken)
    at_a_loss = bool(call.advice.clash) and not call.advice.causes
    return 1 if call.advice.gate.stops else 3 if at_a_loss else 0

"""The conversation about something wrong: dangers, questions, things to do, parts to send."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from wickwright.cause.case import Act, Answer, Danger, Outcome, Said
from wickwright.cause.next_step import Do
from wickwright.cli.danger_talk import BENCH, stop_lines, through_dangers
from wickwright.cli.fit_page import fit_page
from wickwright.cli.output import terminal_width
from wickwright.cli.talk import BACK, QUIT, WHY, Choice, choose, told

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickwright.answers.diagnose import Diagnosis
    from wickwright.cause.case import Event
    from wickwright.cause.next_step import Likely, Step
    from wickwright.terms.units import Units

__all__ = ["converse", "show_step"]

_YES_NO = (Choice(Said.YES.value, "yes"), Choice(Said.NO.value, "no"))
_OUTCOMES = tuple(Choice(one.value, one.value) for one in Outcome)
_WORDS = ((0.9, "almost certainly"), (0.5, "probably"), (0.2, "quite possibly"), (0.05, "maybe"))
_SHOWN = 3


def _how_likely(chance: float) -> str:
    return next((word for least, word in _WORDS if chance >= least), "hardly")


def _ranked(call: Diagnosis) -> list[Likely]:
    least = _WORDS[-1][0]
    return [one for one in call.advice.causes[:_SHOWN] if one.chance >= least]


def _likely_lines(call: Diagnosis) -> None:
    """Print what it probably is, in words and ranks."""
    causes = call.compiled.book.calls.causes
    for one in _ranked(call):
        told(f"{_how_likely(one.chance)}: {causes[one.cause].says}", "    ", "      ")


def _changed(before: Diagnosis, after: Diagnosis) -> None:
    """Print what an answer changed."""
    if not after.advice.gate.open or after.advice.closed:
        return
    old = [one.cause for one in _ranked(before)] if before.advice.gate.open else []
    new = [one.cause for one in _ranked(after)]
    click.echo()
    click.echo("  That leaves it as it was:" if old == new else "  It looks like:")
    _likely_lines(after)
    for one in after.advice.clash[:2]:
        told(
            f"Does not go well with the rest, ask again: {_event_words(after, one)}", "  ! ", "    "
        )


def _event_words(call: Diagnosis, event: Event) -> str:
    calls = call.compiled.book.calls
    if isinstance(event, Answer) and event.sign in calls.signs:
        return f"{calls.signs[event.sign].says}: {event.said.value}"
    return getattr(event, "because", str(event))


# -- steps ---------------------------------------------------------------------------------------


def _why_asked(call: Diagnosis, step: Step) -> None:
    calls = call.compiled.book.calls
    says = [calls.causes[one].says for one in step.about[:_SHOWN]]
    if step.do is Do.ASK:
        told(f"{calls.signs[step.key].why}.", "  ")
    if says:
        told(f"It speaks to this: {'; '.join(says)}.", "  ")
    for one in call.computed:
        told(f"Not asked, because it was worked out: {one.because}.", "  ")


def _ask(call: Diagnosis, step: Step) -> tuple[Event, ...] | str:
    sign = call.compiled.book.calls.signs[step.key]
    click.echo()
    told(sign.question + (" (lamp out and cold)" if step.state.value == "cold" else ""))
    key = choose(_YES_NO)
    if key == WHY:
        _why_asked(call, step)
        return _ask(call, step)
    return key if key in {BACK, QUIT} else (Answer(step.key, Said(key)),)


def _act_lines(call: Diagnosis, step: Step, units: Units) -> None:
    remedy = call.compiled.book.calls.remedies[step.key]
    cold = "Lamp out and cold to the hand. " if step.state.value == "cold" else ""
    told(f"To do: {cold}{remedy.says}.")
    if remedy.caution:
        told(f"Mind: {remedy.caution}.", "  ")
    answer = call.answers.get(step.key)
    if answer is not None:
        click.echo()
        click.echo("  What goes in the box:")
        for line in fit_page(call.compiled, answer, units, terminal_width() - 2):
            click.echo(f"  {line}".rstrip())


def _act(call: Diagnosis, step: Step, units: Units) -> tuple[Event, ...] | str:
    click.echo()
    _act_lines(call, step, units)
    told("What came of it?")
    key = choose(_OUTCOMES, unsure=False)
    if key == WHY:
        _why_asked(call, step)
        return _act(call, step, units)
    return key if key in {BACK, QUIT} else (Act(step.key, Outcome(key)),)


def _next(call: Diagnosis, units: Units) -> tuple[Event, ...] | str:
    step = call.advice.best
    if step is None or step.do is Do.BENCH:
        told(f"Nothing more that can be done by telephone is worth its time. {BENCH}")
        return QUIT
    if step.do is Do.ASK:
        return _ask(call, step)
    return _act(call, step, units)


def _taken_back(call: Diagnosis) -> Diagnosis:
    """Take back the last answer; what was said of the dangers goes as one."""
    before = call.back()
    while call.case.events and isinstance(call.case.events[-1], Danger) and before.case.events:
        if not isinstance(before.case.events[-1], Danger):
            break
        before = before.back()
    return before


def _opening(call: Diagnosis) -> None:
    book = call.compiled.book
    lamp, calls = book.lamps[call.case.lamp], book.calls
    told(f"{lamp.name} ({lamp.id}): {calls.complaints[call.case.complaint].says}")
    for one in call.computed:
        told(f"worked out, so not asked: {one.because}", "  - ", "    ")
    if call.case.events:
        told(f"taken up again after {len(call.case.events)} answers", "  - ")


def converse(call: Diagnosis, units: Units, keep: Callable[[Diagnosis], None]) -> int:
    """Hold the conversation until it is settled, handed over or left.

    Parameters
    ----------
    call : Diagnosis
        The call as it stands.
    units : Units
        What to print in.
    keep : callable
        Writes the call down; called after every answer.

    Returns
    -------
    int
        Exit code: 0, or 1 where a danger is left.
    """
    _opening(call)
    while not call.advice.closed:
        said: tuple[Event, ...] | str
        before = call
        call, said = through_dangers(call, keep)
        if not said:
            if call is not before:
                _changed(before, call)
            said = _next(call, units)
        if said == QUIT:
            break
        if said == BACK:
            click.echo("  Taken back." if call.case.events else "  There is nothing to take back.")
            call = _taken_back(call)
        elif not isinstance(said, str):
            before, call = call, call.told(*said)
            _changed(before, call)
        keep(call)
    if call.advice.closed:
        click.echo()
        told("It burns well. Never leave it alone while it burns; local codes come first.")
    return 1 if call.advice.gate.shut else 0


def show_step(call: Diagnosis, units: Units) -> None:
    """Print what comes next, without asking.

    Parameters
    ----------
    call : Diagnosis
        The call as it stands.
    units : Units
        What to print in.
    """
    _opening(call)
    if call.advice.gate.shut:
        stop_lines(call.advice.gate.shut)
    if call.advice.gate.unasked:
        dangers = [guard.asks for guard in call.advice.gate.unasked]
        told(f"Ask first: {' '.join(dangers)}")
    _likely_lines(call)
    step = call.advice.best
    if step is None:
        return
    if step.do is Do.ASK:
        told(f"Ask: {call.compiled.book.calls.signs[step.key].question}")
    elif step.do is Do.ACT:
        _act_lines(call, step, units)
    else:
        told("Hand it over to the bench.")

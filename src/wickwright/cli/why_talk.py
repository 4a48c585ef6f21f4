"""The conversation about something wrong: dangers, questions, things to do, parts to send."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import click

from wickwright.catalogue.call_records import DANGERS
from wickwright.cause.case import Act, Answer, Cleared, Computed, Danger, Outcome, Said, Spoken
from wickwright.cause.next_step import Do
from wickwright.cli.danger_talk import BENCH, spoken_lines, stop_lines, through_dangers
from wickwright.cli.fit_page import fit_page
from wickwright.cli.output import terminal_width
from wickwright.cli.talk import BACK, QUIT, UNSURE, WHY, Choice, capital, choose, left_line, told
from wickwright.fit.routes import Routes

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from wickwright.answers.diagnose import Diagnosis
    from wickwright.cause.case import Event
    from wickwright.cause.next_step import Likely, Step
    from wickwright.terms.units import Units

__all__ = ["Taken", "converse", "show_step"]

_YES_NO = (Choice(Said.YES.value, "yes"), Choice(Said.NO.value, "no"))
_OUTCOMES = tuple(Choice(one.value, one.value) for one in Outcome)
_WORDS = ((0.9, "almost certainly"), (0.5, "probably"), (0.2, "quite possibly"), (0.05, "maybe"))
_SHOWN = 3


@dataclass(frozen=True, slots=True)
class Taken:
    """How a call is taken up.

    Attributes
    ----------
    path : Path or None
        File it is kept in.
    again : int
        Answers that file had; 0 where it is new.
    notes : tuple of str
        What is given otherwise than the file has it.
    """

    path: Path | None = None
    again: int = 0
    notes: tuple[str, ...] = ()


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
    for one in after.computed:
        if before.advice.gate.open and one not in before.computed:
            told(f"worked out anew with the new part on it: {one.because}", "  - ", "    ")
    if after.advice.causes:
        click.echo("  That leaves it as it was:" if old == new else "  It looks like:")
    _likely_lines(after)
    _clash_lines(after)


def _event_words(call: Diagnosis, event: Event) -> str:
    """Put one thing said or done into words."""
    calls = call.compiled.book.calls
    match event:
        case Answer(sign, said):
            return f"{calls.signs[sign].says}: {said.value}"
        case Act(remedy, outcome):
            return f"{calls.remedies[remedy].says}: {outcome.value}"
        case Danger():
            return "what was said of the dangers"
        case Cleared(danger):
            return f"that this is cleared: {DANGERS[danger]}"
        case Computed():
            return event.because
        case Spoken(danger):
            return f"that the words speak of it: {DANGERS[danger]}"


def _clash_lines(call: Diagnosis) -> None:
    """Print what does not go together; where it cannot, that nothing is guessed."""
    clash, guessed = call.advice.clash[:2], bool(call.advice.causes)
    if clash and not guessed:
        told("Two answers cannot both be so; nothing is guessed until one is put right:", "  ! ")
    for one in clash:
        odd = "Does not go well with the rest, ask again: " if guessed else ""
        told(f"{odd}{_event_words(call, one)}", "  ! " if guessed else "      ", "    ")


# -- steps ---------------------------------------------------------------------------------------


def _why_asked(call: Diagnosis, step: Step) -> None:
    calls = call.compiled.book.calls
    says = [calls.causes[one].says for one in step.about[:_SHOWN]]
    if step.do is Do.ASK:
        told(f"{capital(calls.signs[step.key].why)}.", "  ")
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
    if key in {BACK, QUIT}:
        return key
    return _put_on(call, Act(step.key, Outcome(key)))


def _put_on(call: Diagnosis, act: Act) -> tuple[Event, ...] | str:
    """Ask which way was bought, where parts did not help and there was more than one way."""
    answer = call.answers.get(act.remedy)
    if act.outcome is not Outcome.STILL or not isinstance(answer, Routes):
        return (act,)
    ways = [tuple(part.id for part in way.buy) for way in answer.routes]
    if len(ways) == 1:
        return (act,)
    click.echo()
    told("Which of these was bought? It stays on the lamp.")
    key = choose([Choice(" ".join(way), ", ".join(way) or "nothing") for way in ways])
    if key == WHY:
        told("What is on the lamp now decides what is still likely, and what is sent next.", "  ")
        return _put_on(call, act)
    if key in {BACK, QUIT}:
        return key
    return (replace(act, bought=() if key == UNSURE else tuple(key.split())),)


def _next(call: Diagnosis, units: Units) -> tuple[Event, ...] | str:
    step = call.advice.best
    if step is None or step.do is Do.BENCH:
        click.echo()
        told(f"Nothing more that can be done by telephone is worth its time. {BENCH}")
        return QUIT
    if step.do is Do.ASK:
        return _ask(call, step)
    return _act(call, step, units)


def _taken_back(call: Diagnosis) -> Diagnosis:
    """Take back the last answer and name it; what was said of the dangers goes as one."""
    last = _last_said(call)
    if last is None:
        told("There is nothing to take back.", "  ")
        return call
    told(f"Taken back: {_event_words(call, last)}.", "  ", "    ")
    before = call.back()
    while isinstance(last, Danger) and isinstance(_last_said(before), Danger):
        before = before.back()
    return before


def _last_said(call: Diagnosis) -> Event | None:
    """Return what was answered or done last; what the words speak of is no answer."""
    return next((one for one in reversed(call.case.events) if not isinstance(one, Spoken)), None)


def _opening(call: Diagnosis, taken: Taken) -> None:
    book = call.compiled.book
    lamp, calls = book.lamps[call.case.lamp], book.calls
    told(f"{lamp.name} ({lamp.id}): {calls.complaints[call.case.complaint].says}")
    for one in call.computed:
        told(f"worked out, so not asked: {one.because}", "  - ", "    ")
    if taken.again:
        told(f"taken up again after {taken.again} answers", "  - ")
    for note in taken.notes:
        told(note, "  ! ", "    ")


def converse(call: Diagnosis, units: Units, keep: Callable[[Diagnosis], None], taken: Taken) -> int:
    """Hold the conversation until it is settled, handed over or left.

    Parameters
    ----------
    call : Diagnosis
        The call as it stands.
    units : Units
        What to print in.
    keep : callable
        Writes the call down; called after every answer.
    taken : Taken
        How it is taken up.

    Returns
    -------
    int
        Exit code: 0; 1 where a danger is left; 3 where it is left before it is settled.
    """
    _opening(call, taken)
    if call.advice.gate.open:
        _clash_lines(call)
    said: tuple[Event, ...] | str = ()
    while said != QUIT and not (call.advice.closed and call.advice.gate.open):
        call, said = _turn(call, units, keep)
        keep(call)
    return _end(call, taken)


def _turn(
    call: Diagnosis, units: Units, keep: Callable[[Diagnosis], None]
) -> tuple[Diagnosis, tuple[Event, ...] | str]:
    """Get through the dangers, then ask or do one thing, or take the last one back."""
    before = call
    said: tuple[Event, ...] | str
    call, said = through_dangers(call, keep)
    if not said and call is not before:
        _changed(before, call)
        return call, said
    said = said or _next(call, units)
    if said == BACK:
        return _taken_back(call), said
    if isinstance(said, str):
        return call, said
    after = call.told(*said)
    _changed(call, after)
    return after, said


def _end(call: Diagnosis, taken: Taken) -> int:
    """Say how the call ends, and return the exit code."""
    gate = call.advice.gate
    if gate.open and call.advice.closed:
        click.echo()
        told("It burns well. Never leave it alone while it burns; local codes come first.")
        return 0
    if gate.open and _at_the_bench(call):
        return 0
    if not gate.stops:
        click.echo()
        told("This is NOT settled: the call ended before the last question was answered.")
    left_line(taken.path)
    return 1 if gate.stops else 3


def _at_the_bench(call: Diagnosis) -> bool:
    """Say whether all that is left is to hand the lamp over."""
    step = call.advice.best
    return step is not None and step.do is Do.BENCH


def show_step(call: Diagnosis, units: Units, taken: Taken) -> None:
    """Print what comes next, without asking.

    Parameters
    ----------
    call : Diagnosis
        The call as it stands.
    units : Units
        What to print in.
    taken : Taken
        How it is taken up.
    """
    _opening(call, taken)
    spoken_lines(call)
    if call.advice.gate.stops:
        stop_lines(call.advice.gate.stops)
    if call.advice.gate.unasked:
        dangers = [guard.asks for guard in call.advice.gate.unasked]
        told(f"Ask first: {' '.join(dangers)}")
    _likely_lines(call)
    _clash_lines(call)
    step = call.advice.best
    if step is None:
        return
    if step.do is Do.ASK:
        told(f"Ask: {call.compiled.book.calls.signs[step.key].question}")
    elif step.do is Do.ACT:
        _act_lines(call, step, units)
    else:
        told("Hand it over to the bench.")

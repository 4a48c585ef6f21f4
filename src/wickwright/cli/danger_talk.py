"""The conversation about dangers: all of them asked, each one told what is done, each cleared."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import click

from wickwright.catalogue.call_records import DANGERS
from wickwright.cause.case import Answer, Cleared, Danger, Said
from wickwright.cause.dangers import GUARDS
from wickwright.cause.spoken import spoken_of
from wickwright.cli.layout import bullet
from wickwright.cli.output import terminal_width
from wickwright.cli.talk import (
    BACK,
    NONE,
    QUIT,
    UNSURE,
    WHY,
    Choice,
    capital,
    choose,
    choose_some,
    told,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from wickwright.answers.diagnose import Diagnosis
    from wickwright.catalogue.call_records import CallBook
    from wickwright.cause.case import Event
    from wickwright.cause.dangers import Guard

__all__ = ["BENCH", "danger_in_words", "spoken_lines", "stop_lines", "through_dangers"]

BENCH = "The bench takes it: send the lamp empty, dry and packed without its glass."
_YES_NO = (Choice(Said.YES.value, "yes"), Choice(Said.NO.value, "no"))
_FIRST = "unwell"
"""The danger before which nothing else is done."""


def stop_lines(
    guards: Sequence[Guard], unsure: frozenset[str] = frozenset(), *, shortly: bool = False
) -> None:
    """Print what is done about dangers, now; the gravest first.

    Parameters
    ----------
    guards : sequence of Guard
        Those that are there.
    unsure : frozenset of str
        Those of them that nobody knows.
    shortly : bool
        True where what is never done has been said just before.
    """
    for guard in guards:
        click.echo()
        told(f"STOP: {_danger(guard, unsure)}.")
        for place, tell in enumerate(guard.tells, 1):
            told(tell, f"  {place}. ", "     ")
        if guard.danger == _FIRST and len(guards) > 1:
            told("What follows is for when it is safe to go in again.", "  ")
    if shortly:
        return
    for never in dict.fromkeys(never for guard in guards for never in guard.never):
        for line in bullet(never, terminal_width()):
            click.echo(line)
    told("Nothing that needs the lamp lit is offered until this is cleared.", "  ")


def spoken_lines(call: Diagnosis) -> None:
    """Print the words of the caller that speak of a danger nobody has asked about yet."""
    for words in dict.fromkeys(one.words for one in call.advice.gate.spoken if one.words):
        told(f"The caller's words speak of a danger: '{words}'.", "  ! ", "    ")


def danger_in_words(text: str, calls: CallBook) -> str:
    """Return what is said first of words that speak of a danger; blank where they do not.

    Parameters
    ----------
    text : str
        What was typed where a name of the book was wanted.
    calls : CallBook
        The call tables of the book.

    Returns
    -------
    str
        What to do at once, and what to ask.
    """
    spoken = {one.danger for one in spoken_of(text, calls)}
    guards = [guard for guard in GUARDS.values() if guard.danger in spoken]
    if not guards:
        return ""
    asks = " ".join(guard.asks for guard in guards)
    tells = " ".join(dict.fromkeys(tell for guard in guards for tell in guard.tells))
    nevers = " ".join(dict.fromkeys(never for guard in guards for never in guard.never))
    return f"STOP: '{text}' speaks of a danger. Ask first: {asks} If so: {tells} {nevers}"


def _danger(guard: Guard, unsure: frozenset[str]) -> str:
    """Put a danger into words."""
    known = "nobody knows whether " if guard.danger in unsure else ""
    return f"{known}{DANGERS[guard.danger]}"


def _unsure(call: Diagnosis) -> frozenset[str]:
    """Return the dangers of which only 'don't know' was said."""
    signs = call.compiled.book.calls.signs
    said: dict[str, set[Said]] = {}
    for event in call.case.events:
        if isinstance(event, Danger):
            said.setdefault(event.danger, set()).add(event.said)
        elif isinstance(event, Answer):
            said.setdefault(signs[event.sign].danger, set()).add(event.said)
    return frozenset(
        key for key, words in said.items() if Said.UNSURE in words and Said.YES not in words
    )


@dataclass(slots=True)
class _Talk:
    """What has been said to the caller about dangers so far."""

    told: set[str] = field(default_factory=set)
    refused: set[str] = field(default_factory=set)
    looked: bool = False


def _all_at_once(guards: Sequence[Guard], *, more: bool) -> tuple[str, ...] | str:
    """Ask about every danger at once; the gravest first."""
    click.echo()
    if more:
        told("Before anything else: is any of these so as well? Give every number.")
    else:
        told("First, before anything else. Is any of these so? Give every number that is.")
    said = choose_some([Choice(guard.danger, guard.asks) for guard in guards])
    if said == WHY:
        told("A lamp of which one of these is so hurts people. That comes first.", "  ")
        for guard in guards:
            told(f"{DANGERS[guard.danger]}: {guard.why}", "  - ", "    ")
        return _all_at_once(guards, more=more)
    return said


def _one(guard: Guard) -> str:
    """Ask about one danger."""
    told(guard.asks)
    key = choose(_YES_NO)
    if key == WHY:
        told(f"{capital(guard.why)}.", "  ")
        return _one(guard)
    return key


def _one_by_one(guards: Sequence[Guard], talk: _Talk) -> tuple[list[Event], str]:
    """Ask about each danger; what was said, and back or quit where it was broken off."""
    found: list[Event] = []
    while len(found) < len(guards):
        guard = guards[len(found)]
        key = _one(guard)
        if key == QUIT or (key == BACK and not found):
            return found, key
        if key == BACK:
            found.pop()
            continue
        said = Said(key)
        found.append(Danger(guard.danger, said))
        if said is not Said.NO and guard.danger not in talk.told:
            unsure = frozenset({guard.danger} if said is Said.UNSURE else ())
            stop_lines([guard], unsure, shortly=bool(talk.told))
            talk.told.add(guard.danger)
            click.echo()
    return found, ""


def _asked(guards: Sequence[Guard], talk: _Talk, *, more: bool) -> tuple[list[Event], str]:
    said = _all_at_once(guards, more=more)
    if said == UNSURE:
        told("Then we go through them one by one.", "  ")
        found, way = _one_by_one(guards, talk)
        talk.looked = not way
        return found, way
    if isinstance(said, str):
        return [], said
    talk.looked = True
    if said == (NONE,):
        return [Danger(guard.danger, Said.NO) for guard in guards], ""
    return [Danger(key, Said.YES) for key in said], ""


def _clearing(guard: Guard) -> str:
    """Ask whether what clears a danger is so."""
    click.echo()
    told(f"{capital(DANGERS[guard.danger])}. Is this so now:")
    told(f"{guard.clears}?", "  ")
    key = choose(_YES_NO, unsure=False)
    if key == WHY:
        told("Only this makes it safe to light the lamp again.", "  ")
        return _clearing(guard)
    return key


def _next(call: Diagnosis, talk: _Talk) -> tuple[list[Event], str]:
    """Tell what is not told yet, then ask one thing: for other dangers before any is cleared."""
    gate = call.advice.gate
    fresh = [guard for guard in gate.stops if guard.danger not in talk.told]
    if not talk.looked:
        spoken_lines(call)
    if fresh:
        stop_lines(fresh, _unsure(call))
        talk.told |= {guard.danger for guard in fresh}
    if gate.unasked and not talk.looked:
        return _asked(gate.unasked, talk, more=bool(gate.shut))
    to_clear = [guard for guard in gate.shut if guard.danger not in talk.refused]
    if to_clear and not gate.bench:
        key = _clearing(to_clear[0])
        if key == Said.NO.value:
            talk.refused.add(to_clear[0].danger)
            return [], ""
        return ([Cleared(to_clear[0].danger)], "") if key == Said.YES.value else ([], key)
    if gate.unasked and not gate.shut:
        return _asked(gate.unasked, talk, more=False)
    return [], QUIT


def _end_lines(call: Diagnosis) -> None:
    """Say how a call ends in which a danger is left."""
    gate = call.advice.gate
    click.echo()
    told("The call ends here with this left:")
    unsure = _unsure(call)
    for guard in gate.stops:
        told(_danger(guard, unsure), "  - ", "    ")
    if gate.bench:
        told(f"No telephone call can settle this. {BENCH}")
    else:
        told("The lamp stays out until what was read out is so.")
    told("Local codes and licensed practice come first.")


def through_dangers(call: Diagnosis, keep: Callable[[Diagnosis], None]) -> tuple[Diagnosis, str]:
    """Talk until no danger is left, or until the call goes back or ends.

    Parameters
    ----------
    call : Diagnosis
        The call as it stands.
    keep : callable
        Writes the call down; called after every answer.

    Returns
    -------
    tuple of (Diagnosis, str)
        The call; and blank where nothing is in the way, or back or quit. Whatever was said
        before it was broken off is in the call.
    """
    talk = _Talk()
    while not call.advice.gate.open:
        found, way = _next(call, talk)
        if found:
            call = call.told(*found)
            keep(call)
        if way == QUIT and call.advice.gate.stops:
            unheard = [one for one in call.advice.gate.stops if one.danger not in talk.told]
            if unheard:
                stop_lines(unheard, _unsure(call))
            _end_lines(call)
        if way:
            return call, way
    return call, ""

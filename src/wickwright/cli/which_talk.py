"""The conversation about an unknown lamp: looks, what they changed, and what is sent."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click
import numpy as np

from wickwright.answers.plain_lamp import length_heard
from wickwright.cli.fit_page import fit_page
from wickwright.cli.layout import bullet
from wickwright.cli.output import terminal_width
from wickwright.cli.talk import BACK, QUIT, UNSURE, WHY, Choice, choose, heard_line, told
from wickwright.fit.audit import called
from wickwright.recognise.asking import Measured, Saw, Stop, Unsure

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickwright.answers.which_lamp import WhichLamp
    from wickwright.recognise.asking import Heard, NextLook
    from wickwright.recognise.guesses import Guess
    from wickwright.recognise.looks import Sight
    from wickwright.terms.units import Units

__all__ = ["converse", "show_step"]

_LEFT = 0.02
_SHOWN = 3
_SURE = 0.9


def _name(call: WhichLamp, place: int) -> str:
    lamp = call.compiled.book.lamps[call.asking.names[place]]
    return f"{lamp.name} ({lamp.id})"


def _left_lines(call: WhichLamp) -> None:
    """Print which lamps are left, and how many parcels they take."""
    found = call.recognition
    left = [(place, chance) for place, chance in found.lamps if chance >= _LEFT]
    parcels = [chance for _, chance in call.parcels() if chance >= _LEFT]
    models = f"{len(left)} model{'s' * (len(left) != 1)} left"
    if call.wish:
        same = "all take the same parcel" if len(parcels) == 1 else f"{len(parcels)} parcels"
        models += f", {same}"
    told(f"{models}; likeliest:", "  ")
    for place, _ in left[:_SHOWN]:
        told(_name(call, place), "    ", "      ")
    if found.clash:
        told("Two answers do not go well together; look again:", "  ! ", "    ")
        for one in found.clash:
            told(_heard_words(call, one), "      ")


def _heard_words(call: WhichLamp, one: Heard) -> str:
    match one:
        case Saw(look, value):
            return f"{call.asking.sight(look).look.question} {value}"
        case Measured(look, length):
            return f"{call.asking.sight(look).look.question} {length * 1000:.0f} mm"
        case _:
            return str(one)


def _why_asked(call: WhichLamp, look: NextLook) -> None:
    if len(look.apart) == 2:  # noqa: PLR2004 - a pair
        lamps = call.compiled.book.lamps
        one, other = (lamps[name].name for name in look.apart)
        told(f"It tells the {one} from the {other}.", "  ")
    else:
        told("It tells lamps apart that take different parts.", "  ")
    note = call.asking.sight(look.look).look.note
    if note:
        told(f"How to look: {note}.", "  ")


def _measure(sight: Sight) -> Heard | str:
    """Ask for a length until one is given."""
    told("Give a length with its unit, such as 31 cm or 12 1/4 in.", "  ")
    click.echo("  d don't know   b back   w why do you ask   q quit")
    short = {"d": UNSURE, "b": BACK, "w": WHY, "q": QUIT}
    while True:
        line = heard_line("> ")
        if line is None:
            return QUIT
        word = short.get(line.lower(), line.lower())
        if word in {BACK, WHY, QUIT}:
            return word
        if word == UNSURE:
            return Unsure(sight.look.id)
        length = length_heard(line)
        if length is not None:
            return Measured(sight.look.id, length)
        told(f"'{line}' is no length: write a number and a unit, such as 310 mm.")


def _ask(call: WhichLamp, look: NextLook) -> Heard | str:
    sight = call.asking.sight(look.look)
    click.echo()
    told(sight.look.question)
    if sight.is_measured:
        said = _measure(sight)
    else:
        key = choose([Choice(answer, answer) for answer in sight.answers])
        said = Unsure(sight.look.id) if key == UNSURE else key
        if isinstance(said, str) and said in sight.answers:
            said = Saw(sight.look.id, said)
    if said == WHY:
        _why_asked(call, look)
        return _ask(call, look)
    return said


def _likeliest(call: WhichLamp) -> Guess | None:
    beliefs = call.recognition.beliefs
    if beliefs is None:
        return None
    return call.asking.guesses.all[int(np.argmax(beliefs.weights))]


def _found_lines(call: WhichLamp, units: Units) -> None:
    """Print what it comes to: the lamp, what on it is not its own, what is sent."""
    guess = _likeliest(call)
    click.echo()
    if guess is None:
        told("What was said cannot all be so. Look again at what clashes.")
        return
    told(_stop_words(call))
    chance = dict(call.recognition.lamps).get(call.asking.names.index(guess.lamp), 0.0)
    sure = "It is" if chance >= _SURE else "Most likely it is"
    told(f"{sure} the {_name(call, call.asking.names.index(guess.lamp))}.")
    for part in guess.foreign:
        told(f"Not its own: {called(call.compiled.book.parts[part])}.", "  - ", "    ")
    if not call.wish:
        return
    click.echo()
    for line in fit_page(call.compiled, call.answer(guess), units, terminal_width()):
        click.echo(line)
    _doubt_lines(call)


def _stop_words(call: WhichLamp) -> str:
    stop = call.recognition.stop
    if stop is Stop.SETTLED and call.wish:
        return "That settles what to send."
    if stop is None:
        return "There is more that could be asked."
    return f"Asking stops: {stop.value}."


def _doubt_lines(call: WhichLamp) -> None:
    """Print what else it could be, where that takes another parcel."""
    others = [(parcel, chance) for parcel, chance in call.parcels()[1:] if chance >= _LEFT]
    if not others or call.recognition.stop is Stop.SETTLED:
        return
    click.echo()
    told("Before it is sent: it could still be a lamp that takes something else:")
    for parcel, _ in others[:_SHOWN]:
        for line in bullet(" ".join(parcel), terminal_width()):
            click.echo(line)
    shared = call.serving_likely()
    if shared is not None and shared.purchases:
        best = shared.purchases[0]
        parts = ", ".join(called(part) for part in best.buy)
        told(f"One parcel serves every lamp it may be: {parts}.", "  ")
        return
    told("Have the caller measure, or send a photograph, before this is packed.", "  ")


def converse(call: WhichLamp, units: Units, keep: Callable[[WhichLamp], None]) -> int:
    """Hold the conversation until it is settled or left.

    Parameters
    ----------
    call : WhichLamp
        The call as it stands.
    units : Units
        What to print in.
    keep : callable
        Writes the call down; called after every answer.

    Returns
    -------
    int
        Exit code: 0, or 3 where it is not settled.
    """
    told("With the lamp out and cold; nothing is forced.")
    while call.recognition.looks:
        said = _ask(call, call.recognition.looks[0])
        if said == QUIT:
            break
        if said == BACK:
            click.echo("  Taken back." if call.heard else "  There is nothing to take back.")
            call = call.back()
        elif not isinstance(said, str):
            call = call.told(said)
            _left_lines(call)
        keep(call)
    return show_step(call, units)


def show_step(call: WhichLamp, units: Units) -> int:
    """Print what it comes to, and what to look at next.

    Parameters
    ----------
    call : WhichLamp
        The call as it stands.
    units : Units
        What to print in.

    Returns
    -------
    int
        Exit code: 0, or 3 where it is not settled.
    """
    _found_lines(call, units)
    if call.recognition.looks:
        sight = call.asking.sight(call.recognition.looks[0].look)
        told(f"Next look: {sight.look.question}")
    return 0 if call.recognition.stop is Stop.SETTLED else 3

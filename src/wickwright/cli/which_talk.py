"""The conversation about an unknown lamp: looks, what they changed, and what is sent."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click
import numpy as np

from wickwright.answers.plain.lamps import length_heard
from wickwright.cli.fit_page import fit_page
from wickwright.cli.layout import bullet
from wickwright.cli.output import terminal_width
from wickwright.cli.talk import BACK, QUIT, UNSURE, WHY, Choice, choose, heard_line, left_line, told
from wickwright.fit.audit import called
from wickwright.recognise.asking import Bought, Measured, Model, Saw, Stop, Unsure

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from wickwright.answers.which_lamp import WhichLamp
    from wickwright.recognise.asking import Heard, NextLook
    from wickwright.recognise.guesses import Guess
    from wickwright.recognise.looks import Sight
    from wickwright.terms.units import Units

__all__ = ["converse", "show_step"]

_LEFT = 0.02
_SHOWN = 3
_SURE = 0.9
_OFFERED = 4
_ENOUGH = (Stop.SETTLED, Stop.NO_MATTER)
"""Where the likeliest parcel stands, whatever else could be asked."""


def _name(call: WhichLamp, place: int) -> str:
    lamp = call.compiled.book.lamps[call.asking.names[place]]
    return f"{lamp.name} ({lamp.id})"


def _left_words(call: WhichLamp) -> str:
    """Say how many lamps are left, and how many parcels they take."""
    left = [chance for _, chance in call.recognition.lamps if chance >= _LEFT]
    parcels = [chance for _, chance in call.parcels() if chance >= _LEFT]
    models = f"{len(left)} model{'s' * (len(left) != 1)} left"
    if not call.wish:
        return models
    same = "all take the same parcel" if len(parcels) == 1 else f"{len(parcels)} parcels"
    return f"{models}, {same}"


def _left_lines(call: WhichLamp) -> None:
    """Print which lamps are left, and what does not go together."""
    if call.recognition.beliefs is not None:
        told(f"{_left_words(call)}; likeliest:", "  ")
        for place, chance in call.recognition.lamps[:_SHOWN]:
            if chance >= _LEFT:
                told(_name(call, place), "    ", "      ")
    _clash_lines(call)


def _clash_lines(call: WhichLamp) -> None:
    if call.recognition.clash:
        told("Two answers do not go well together; look again:", "  ! ", "    ")
        for one in call.recognition.clash:
            told(_heard_words(call, one), "      ", "        ")


def _heard_words(call: WhichLamp, one: Heard) -> str:
    match one:
        case Saw(look, value):
            return f"{call.asking.sight(look).look.question} {value}"
        case Measured(look, length):
            return f"{call.asking.sight(look).look.question} {length * 1000:.0f} mm"
        case Unsure(look):
            return f"{call.asking.sight(look).look.question} don't know"
        case Model(lamps):
            return f"It is said to be {' or '.join(lamps)}."
        case Bought(year):
            return f"It was bought in {year}."


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
        told("NOT settled: what was said cannot all be so, so nothing is guessed and nothing sent.")
        _clash_lines(call)
        return
    if call.recognition.stop not in _ENOUGH:
        _open_lines(call)
        return
    told(_stop_words(call))
    chance = dict(call.recognition.lamps).get(call.asking.names.index(guess.lamp), 0.0)
    sure = "It is" if chance >= _SURE else "Most likely it is"
    told(f"{sure} the {_name(call, call.asking.names.index(guess.lamp))}.")
    for part in guess.foreign:
        told(f"Not its own: {called(call.compiled.book.parts[part])}.", "  - ", "    ")
    _clash_lines(call)
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
    return f"Asking stops: {stop.value if stop else 'there is nothing more to ask'}."


def _open_lines(call: WhichLamp) -> None:
    """Print that it is not settled, what it may still be, and what to look at or measure."""
    what = "what to send" if call.wish else "which model it is"
    told(f"NOT settled: {what} is still open; {_left_words(call)}.")
    _clash_lines(call)
    if call.wish:
        for parcel, names in _by_parcel(call)[:_OFFERED]:
            told(f"if it is {' or '.join(names)}: {_parcel_words(call, parcel)}", "  - ", "    ")
    else:
        for place, chance in call.recognition.lamps[:_OFFERED]:
            if chance >= _LEFT:
                told(f"it may be the {_name(call, place)}", "  - ", "    ")
    if not call.recognition.looks:
        _shared_lines(call)


def _by_parcel(call: WhichLamp) -> list[tuple[tuple[str, ...], list[str]]]:
    """Return what would be sent and for which lamps, likeliest first."""
    found: dict[tuple[str, ...], dict[str, str]] = {}
    for guess in call.likely():
        names = found.setdefault(call.parcel(guess), {})
        names.setdefault(guess.lamp, _guess_words(call, guess))
    return [(parcel, list(names.values())[:_SHOWN]) for parcel, names in found.items()]


def _guess_words(call: WhichLamp, guess: Guess) -> str:
    """Name a lamp, and the part that is not its own if there is one."""
    lamp = call.compiled.book.lamps[guess.lamp]
    name = f"the {lamp.name} ({lamp.id})"
    if not guess.foreign:
        return name
    more = " and what comes with it" if len(guess.foreign) > 1 else ""
    return f"{name} with {called(call.compiled.book.parts[guess.foreign[0]])}{more}"


def _parcel_words(call: WhichLamp, parcel: tuple[str, ...]) -> str:
    """Put a parcel into words."""
    does, *parts = parcel
    said = ", ".join(called(call.compiled.book.parts[part]) for part in parts)
    ways = {"send": "send", "measure first": "measure first; then, if it fits, send"}
    if does not in ways:
        return "no parcel does it" if does == "no route" else "the search gave up"
    return f"{ways[does]} {said or 'nothing'}"


def _doubt_lines(call: WhichLamp) -> None:
    """Print what else it could be, where that takes another parcel."""
    others = [(parcel, chance) for parcel, chance in call.parcels()[1:] if chance >= _LEFT]
    if not others or call.recognition.stop is Stop.SETTLED:
        return
    click.echo()
    told("Before it is sent: it could still be a lamp that takes something else:")
    for parcel, _ in others[:_SHOWN]:
        for line in bullet(_parcel_words(call, parcel), terminal_width()):
            click.echo(line)
    _shared_lines(call)


def _shared_lines(call: WhichLamp) -> None:
    """Print the parcel that serves all it may be, or what to do where there is none."""
    shared = call.serving_likely()
    if shared is not None and shared.purchases:
        best = shared.purchases[0]
        parts = ", ".join(called(part) for part in best.buy)
        told(f"One parcel serves every lamp it may be: {parts}.", "  ")
        return
    told("Have the caller measure, or send a photograph, before anything is packed.", "  ")


def _next_lines(call: WhichLamp) -> None:
    """Print what to look at next, and what to measure."""
    looks = [call.asking.sight(one.look) for one in call.recognition.looks]
    if not looks:
        return
    told(f"Next {'measure' if looks[0].is_measured else 'look'}: {looks[0].look.question}")
    ruler = next((sight for sight in looks[1:] if sight.is_measured), None)
    if ruler is not None and not looks[0].is_measured:
        told(f"Or measure: {ruler.look.question}")


def _taken_back(call: WhichLamp) -> WhichLamp:
    """Take the last look back and name it."""
    if call.last is None:
        stays = " What was given with the command stays." if call.heard else ""
        told(f"There is nothing to take back.{stays}", "  ")
        return call
    told(f"Taken back: {_heard_words(call, call.last)}", "  ", "    ")
    return call.back()


def converse(
    call: WhichLamp, units: Units, keep: Callable[[WhichLamp], None], path: Path | None = None
) -> int:
    """Hold the conversation until it is settled or left.

    Parameters
    ----------
    call : WhichLamp
        The call as it stands.
    units : Units
        What to print in.
    keep : callable
        Writes the call down; called after every answer.
    path : Path or None
        The file it is kept in.

    Returns
    -------
    int
        Exit code: 0, or 3 where it is not settled.
    """
    told("With the lamp out and cold; nothing is forced.")
    _clash_lines(call)
    while call.recognition.looks:
        said = _ask(call, call.recognition.looks[0])
        if said == QUIT:
            break
        if said == BACK:
            call = _taken_back(call)
        elif not isinstance(said, str):
            call = call.told(said)
            _left_lines(call)
        keep(call)
    code = show_step(call, units)
    if call.recognition.looks:
        left_line(path)
    return code


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
    _next_lines(call)
    return 0 if call.recognition.stop is Stop.SETTLED else 3

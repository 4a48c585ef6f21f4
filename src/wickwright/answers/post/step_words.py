"""How to fit parts in words a caller can follow with the lamp on the table."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickwright.answers.post.fitting_steps import Do
from wickwright.answers.words.cautions import service_wanted
from wickwright.catalogue.records import Footing, Service

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from wickwright.answers.post.fitting_steps import Step
    from wickwright.catalogue.records import Part
    from wickwright.fit.request import Situation
    from wickwright.fit.routes import Route

__all__ = ["before_fitting", "first_lighting", "step_words"]


def step_words(step: Step, unnamed: frozenset[str] = frozenset()) -> str:
    """Put one step into words.

    Parameters
    ----------
    step : Step
        From :func:`wickwright.answers.post.fitting_steps.fitting_steps`.
    unnamed : frozenset of str
        Kinds of part that are named without their number, for they differ from lamp to lamp.

    Returns
    -------
    str
        One to three sentences, worded for its joint; parts by kind and number.
    """
    words = {
        "part": _short(step.part, unnamed),
        "carrier": _short(step.carrier, unnamed) if step.carrier else "",
        "along": _along(step.riders, unnamed),
    }
    if step.do is Do.CLEAR:
        return _CLEAR.format_map(words)
    if step.do is Do.ON:
        return " ".join((_on(step).format_map(words), *_told_with(step)))
    after = _GOES_BACK if step.do is Do.OFF else _NOT_AGAIN
    return f"{_by_joint(step, _OFF, _OFF_BASE).format_map(words)} {after}"


def _short(part: Part, unnamed: frozenset[str]) -> str:
    """Name a part in short: its full name stands in the list of parts."""
    return f"the {_numbered(part, unnamed)}"


def _numbered(part: Part, unnamed: frozenset[str]) -> str:
    return part.kind if part.kind in unnamed else f"{part.kind} {part.id}"


def _along(riders: Sequence[Part], unnamed: frozenset[str]) -> str:
    """Name what is handled with a part."""
    names = [_numbered(part, unnamed) for part in riders]
    if not names:
        return ""
    *most, last = names
    return f" with {', '.join(most)} and {last} in it" if most else f" with {last} in it"


_GOES_BACK: Final = "It goes back on."
_NOT_AGAIN: Final = "It is not used again."
_CLEAR: Final = (
    "Take away what is left of {part}, with gloves, and look that no splinter stays behind."
)
_OFF_BASE: Final = "Stand {part}{along} aside."

_OFF: Final[Mapping[tuple[str, str], str]] = {
    ("thread", ""): "Unscrew {part}{along} from {carrier}.",
    ("plain-foot", ""): "Lift {part} straight up out of the spring fingers of {carrier}.",
    ("quarter-turn", ""): "Turn {part}{along} back until it is free, and lift it off {carrier}.",
    ("rest", ""): "Lift {part}{along} off {carrier}.",
    ("rest", "font"): "Lift {part}{along} out of {carrier}, keeping it upright.",
    ("rest", "bell"): "Take {part} off the hook of {carrier}.",
    ("mantle", ""): "Lift {part} off {carrier} by its ring or stem, never by the web.",
    ("wick", ""): "Run the wick right up and draw {part} off {carrier}.",
    ("fitter", ""): "Lift {part} out of the ring of {carrier} with both hands.",
    ("open-arms", ""): "Lift {part} off the arms of {carrier}.",
    ("lampholder", ""): "Take {part} out of the lampholder of {carrier}.",
}
"""By joint and kind; a blank kind is any."""

_ON: Final[Mapping[tuple[str, str], str]] = {
    ("thread", ""): (
        "Screw {part}{along} onto {carrier} by hand until it sits. If it does not start easily, "
        "turn it back and begin again."
    ),
    ("plain-foot", ""): (
        "Hold {part} low down and push it straight into the spring fingers of {carrier} until it "
        "sits upright. Do not twist it."
    ),
    ("quarter-turn", ""): (
        "Set {part}{along} on {carrier} and turn it gently until it locks. Never force it."
    ),
    ("quarter-turn", "chimney"): (
        "Lower {part} into {carrier}, the grooves of its foot over the lugs, and turn it gently "
        "until it locks. Never force it, and never turn it hot."
    ),
    ("rest", ""): "Set {part}{along} on {carrier} so that it lies level all round.",
    ("rest", "font"): "Set {part}{along} into {carrier}: it must stand level and not rock.",
    ("rest", "bell"): "Hang {part} on the hook of {carrier}, over the middle of the chimney.",
    ("rest", "spreader"): "Set {part} on the inner tube of {carrier}, straight and right down.",
    ("mantle", ""): (
        "Set {part} on its seat on {carrier}, holding it by its ring or stem. Do not touch the web."
    ),
    ("wick", ""): (
        "Fit {part} to {carrier}, straight, and run it up and down with the knob: it must move "
        "freely and end level."
    ),
    ("fitter", ""): (
        "Set {part} in the ring of {carrier} with both hands: it must lie on the ring all round."
    ),
    ("open-arms", ""): "Set the frame of {part} on all the arms of {carrier}.",
    ("lampholder", ""): "With the plug pulled, put {part} into the lampholder of {carrier}.",
}

_STANDS: Final[Mapping[Footing, str]] = {
    Footing.HUNG: "Hang {part}{along} where its hook carries the lamp full of fuel.",
    Footing.FIXED: "Fix {part}{along} to a wall that carries the lamp full of fuel.",
}


def _by_joint(step: Step, words: Mapping[tuple[str, str], str], base: str) -> str:
    if step.on is None:
        return base
    return words.get((step.joint, step.part.kind)) or words[step.joint, ""]


def _on(step: Step) -> str:
    footing = step.part.support.footing if step.part.support else Footing.ROUND
    base = _STANDS.get(footing, "Stand {part}{along} on something level and steady.")
    return _by_joint(step, _ON, base)


def _told_with(step: Step) -> Iterator[str]:
    """Say what a joint's own numbers ask for."""
    if step.on and step.on.words.get("hand") == "left":
        yield "It has a left-hand thread: it turns the other way."
    if step.on and (limit := step.on.numbers.get("limit")):
        yield f"The lampholder takes no more than {limit:g} W."


# -- before and after ----------------------------------------------------------------------------


def before_fitting(now: Situation, steps: Sequence[Step]) -> tuple[str, ...]:
    """Return what is done before the first step.

    Parameters
    ----------
    now : Situation
        The request, looked at.
    steps : sequence of Step
        What is going to be done.

    Returns
    -------
    tuple of str
        Sentences; common practice, no published source.
    """
    return tuple(_before(now, steps)) if steps else ()


def _before(now: Situation, steps: Sequence[Step]) -> Iterator[str]:
    electric = now.service is Service.ELECTRIC
    yield _SWITCH_OFF if electric else _LET_COOL
    if service_wanted(now) is Service.ELECTRIC:
        if not electric:
            yield _FUEL_OUT
    elif not electric and {step.part.kind for step in steps} & {
        "font",
        "base",
        "reducer",
        "burner",
        "wick",
    }:
        yield _EMPTY
    if any(step.part.kind in ("chimney", "shade") for step in steps):
        yield _HOLD_GLASS


_LET_COOL: Final = "Put the lamp out and let it get cold to the hand: it stays hot for long after."
_SWITCH_OFF: Final = "Switch off, pull the plug, and let the bulb get cold."
_FUEL_OUT: Final = (
    "Empty the font in the open, no flame near, clean it, and let it air until it smells of "
    "nothing. Never a bulb over fuel."
)
_EMPTY: Final = "Empty the font by an open window, no flame near, and wipe up what spills."
_HOLD_GLASS: Final = (
    "Work over a folded cloth, and lay what goes back on where it cannot roll. Hold glass low "
    "down and dry, and never force it."
)


def first_lighting(now: Situation, route: Route) -> tuple[str, ...]:
    """Return how the lamp is first lit, or switched on.

    Parameters
    ----------
    now : Situation
        The request, looked at.
    route : Route
        The lamp as it is going to be.

    Returns
    -------
    tuple of str
        Sentences; common practice, no published source.
    """
    if service_wanted(now) is Service.ELECTRIC:
        return _SWITCHING_ON
    return tuple(_lighting(route))


_SWITCHING_ON: Final = (
    (
        "Have the flex, plug and lampholder looked at by someone licensed, by the local electrical "
        "code, before the plug goes in."
    ),
    "Look once more that the font is empty, dry and without smell.",
    (
        "Switch on and stay by it for a quarter of an hour: a smell of fuel or of hot paint means "
        "plug out at once."
    ),
)


def _lighting(route: Route) -> Iterator[str]:
    fresh = {part.kind for part in (*route.buy, *route.included)}
    mantle = route.assembly.of_kind("mantle") is not None
    yield "Fill the font with the lamp cold, with clear 1-K kerosene only, and wipe it dry."
    if "wick" in fresh:
        yield "A new wick soaks for half an hour before it is lit."
    if mantle and "mantle" in fresh:
        yield "Burn a new mantle off as its leaflet says; from then on nothing may touch it."
    yield _LIGHT_LOW
    if mantle:
        yield _CARBON
        yield "Clean the charred crust off the cold wick to an even edge; do not cut it."
    else:
        yield "A flame that smokes is too high, or its wick uneven: turn it down, clean it cold."


_LIGHT_LOW: Final = (
    "Light it low. The flame climbs for 10 to 15 minutes: stay by it, and turn it up only then."
)
_CARBON: Final = (
    "Dark spots on the mantle are carbon: turn down at once and let them burn off at a low flame."
)

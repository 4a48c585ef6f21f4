"""What is found of a lamp in words for the caller, who knows no term of the trade."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickwright.answers.words.wording import sentence
from wickwright.catalogue.records import Service
from wickwright.terms.finding import Severity
from wickwright.terms.units import say

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from wickwright.catalogue.records import Part
    from wickwright.terms.finding import Finding
    from wickwright.terms.units import Units

__all__ = ["briefly", "caller_words", "of_weight", "what_it_is"]

_KINDS: Final[Mapping[str, str]] = {
    "base": "the foot or frame the lamp stands or hangs by",
    "font": "the vessel for the fuel",
    "reducer": "a ring that lets a burner go on a neck of another thread",
    "burner": "the metal top where the wick burns",
    "wick": "the woven band that draws up the fuel",
    "spreader": "the small pierced cap that spreads the flame",
    "gallery": "the loose ring that holds the glass",
    "mantle": "the white web that glows",
    "chimney": "the tall glass",
    "holder": "the ring or arms that carry the shade",
    "bell": "the small cover that hangs over the lamp",
    "tool": "for cleaning, not fitted to the lamp",
}
"""What a kind of part is, for someone who has never taken a lamp apart; shade and bulb go by
their names."""


def what_it_is(part: Part) -> str:
    """Say what a part is, for someone who has never taken a lamp apart.

    Parameters
    ----------
    part : Part
        The part.

    Returns
    -------
    str
        A few words; blank where the name of its kind says it all.
    """
    if part.kind == "burner" and part.service is Service.ELECTRIC:
        return "an insert that takes a bulb"
    return _KINDS.get(part.kind, "")


def of_weight(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return the findings a caller must hear, gravest first.

    Parameters
    ----------
    findings : iterable of Finding
        All that is to be said of a lamp.

    Returns
    -------
    tuple of Finding
        Those from a caution up, each once.
    """
    once = {(one.rule, one.parts): one for one in findings if one.severity >= Severity.CAUTION}
    return tuple(sorted(once.values(), key=lambda one: -one.severity))


def caller_words(finding: Finding, units: Units) -> str:
    """Put a finding into words for the caller.

    Parameters
    ----------
    finding : Finding
        Any finding.
    units : Units
        What to print in.

    Returns
    -------
    str
        What it means and what to do, one to three sentences.
    """
    return _told(finding, units, _PLAIN)


def briefly(finding: Finding, units: Units) -> str:
    """Put a finding into as few words for the caller as are safe.

    Parameters
    ----------
    finding : Finding
        Any finding.
    units : Units
        What to print in.

    Returns
    -------
    str
        As :func:`caller_words`; of a flame that carbon threatens without the alarm, which the
        usual cautions name.
    """
    return _told(finding, units, _BRIEF)


def _told(finding: Finding, units: Units, known: Mapping[str, str]) -> str:
    plain = known.get(finding.rule)
    if plain is None:
        words = sentence(finding, units)
        return f"{words.says} {words.cure}".strip()
    facts = {name: say(fact, units) for name, fact in finding.facts.items()}
    if finding.measured is not None:
        facts["measured"] = say(finding.measured, units)
    return plain.format_map(facts)


_PLAIN: Final[Mapping[str, str]] = {
    "flame-mark-carbon": (
        "At the height you live at, keep the wick below its usual mark. Turn down at the first "
        "dark spot on the glowing web, and have a carbon monoxide alarm in the room."
    ),
    "flame-mark-near": (
        "Look at the glowing web after ten minutes, and turn down at the first dark spot."
    ),
    "burn-starved": (
        "At the height you live at the lamp gives {measured} of its light at sea level. "
        "Do not turn the wick up to make up for it: that brings soot."
    ),
    "burn-glass-stress": (
        "The glass is strained hard in this lamp: light it low, turn it up slowly, and keep "
        "draughts and splashes off it."
    ),
    "dying": "{part} is sold while stocks last: {stock} left. What replaces it: {successor}.",
    "unweighed": (
        "{part} was never weighed, so nobody knows whether the lamp tips: do not light it before "
        "we have told you."
    ),
    "heat-unknown": (
        "Nobody has told us what heat {part} stands. Do not use it over {burner} until its maker "
        "has said so."
    ),
    "draft-unknown": "Measure {part} from foot to top and tell us before you light the lamp.",
    "other-form": "With {part} it becomes another form of lamp: tell us where it is to stand.",
}
"""By rule; others are said as they stand, with what mends them."""
_BRIEF: Final[Mapping[str, str]] = {
    **_PLAIN,
    "flame-mark-carbon": (
        "At your height keep the wick below its usual mark; turn down at the first dark spot on "
        "the glowing web."
    ),
    "burn-glass-stress": (
        "The glass is strained hard: light low, turn up slowly, and keep draughts and splashes "
        "off it."
    ),
}
"""By rule, in a letter that would grow too long."""
